"""Patterns as a stranger may send them, thought out and tried one after another: whatever stands in
the file, the answer is a message that can be read, before long, and a limit is named where one is
met. What chance has found is in test_found.py, and slips made at random are in test_mutations.py.
"""

from __future__ import annotations

import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

from fuzz.test_mutations import answered, in_time
from loopwright import editing, fitting, rendering
from loopwright.diagnostics import ERROR
from loopwright.diagnostics.text import message
from loopwright.lower import header
from loopwright.lower import numbers as numerals
from loopwright.pipeline import Result, check_text
from loopwright.repository.files import LARGEST
from loopwright.syntax import lines, parser
from loopwright.work import stitching
from loopwright.work.effort import MOST_EFFORT
from loopwright.work.repeats import MOST_DIFFERENT
from support import EXAMPLES, HOUSE, WORKED, text_of

SMALL = 10.0
"""Processor seconds for a pattern of ordinary length, after which work has no end; a busy machine
is several times slower than a quiet one."""

LARGE = 40.0
"""The same for the largest file that is read: four times what docs/limits.md promises for a quiet
machine."""

HEAD = "pattern: Skerry\nterms: UK\n"
FLAT = f"{HEAD}part cloth: flat\nstart: ch 11\n"
ROW = "row 1: dc in 2nd ch from hook, dc in each ch across = 10 sts\n"
CLOTH = FLAT + ROW
GROWING = CLOTH + "row 2: ch 1, dc inc, dc in each st across\n"


def said(result: Result) -> str:
    """All messages as they are printed, each in one line."""
    return "\n".join(" ".join(message(result.source, one).split()) for one in result.diagnostics)


# ---------------------------------------------------------------------- limits


def brackets(deep: int) -> str:
    return CLOTH + f"row 2: ch 1, {'[' * deep}dc{'] 1 times' * deep}, 9 dc = 10 sts\n"


def stitches_in_stitches(deep: int) -> str:
    """A stitch made of a stitch made of... of one dc."""
    owns = "stitch s1: dc, height dc\n" + "".join(
        f"stitch s{n}: s{n - 1}, height dc\n" for n in range(2, deep + 1)
    )
    return HEAD + owns + CLOTH[len(HEAD) :] + f"row 2: ch 1, s{deep}, 9 dc = 10 sts\n"


def sized(many: int) -> str:
    names = ", ".join(f"s{n}" for n in range(1, many))
    return f"{HEAD}sizes: s0 ({names})\n" + CLOTH[len(HEAD) :]


LIMITS = {
    "brackets": (brackets(parser.DEEPEST), brackets(parser.DEEPEST + 1), parser.DEEPEST),
    "own stitches": (
        stitches_in_stitches(stitching.DEEPEST),
        stitches_in_stitches(stitching.DEEPEST + 3),
        stitching.DEEPEST,
    ),
    "sizes": (sized(header.MOST_SIZES), sized(header.MOST_SIZES + 1), header.MOST_SIZES),
    "lines": (
        CLOTH + "note: tide\n" * (lines.MOST_LINES - 5),
        CLOTH + "note: tide\n" * (lines.MOST_LINES - 4),
        lines.MOST_LINES,
    ),
    "a long line": (
        CLOTH + f"row 2: ch 1, {'1 dc, ' * 9}dc = 10 sts".ljust(lines.LONGEST_LINE) + "\n",
        CLOTH + f"row 2: ch 1, {' ' * lines.LONGEST_LINE}10 dc = 10 sts\n",
        lines.LONGEST_LINE,
    ),
    "figures of a number": (
        CLOTH + f"repeat row 1: {'0' * (numerals.LONGEST - 1)}0 more times\n",
        CLOTH + f"repeat row 1: {'0' * numerals.LONGEST}0 more times\n",
        numerals.LONGEST,
    ),
    "rows that are all different": (
        f"{GROWING}repeat row 2: {MOST_DIFFERENT} more times\n",
        f"{GROWING}repeat row 2: {MOST_DIFFERENT + 1} more times\n",
        MOST_DIFFERENT,
    ),
}  # fmt: skip


@pytest.mark.parametrize("name", LIMITS)
def test_a_limit_is_named_when_it_is_passed_and_not_before(name: str) -> None:
    within, past, limit = LIMITS[name]
    assert "not-in-this-edition" not in said(check_text("within", within))
    told = said(check_text("past", past))
    assert "not-in-this-edition" in told
    assert re.search(rf"\b{limit:,}\b", told)


def test_one_message_where_a_pattern_is_too_long_to_follow() -> None:
    """A hundred thousand rows worked one by one; the number of a row hides that they are alike."""
    ranges = [(first, first + 998) for first in range(2, 100_000, 999)]
    rows = "".join(f"rows {a}-{b} as r: ch 1, {{r - r + 9}} dc, dc\n" for a, b in ranges)
    with in_time("rows", LARGE):
        result = check_text("rows", sized(40) + rows)
    errors = [one for one in result.diagnostics if one.severity == ERROR]
    assert [one.code for one in errors] == ["not-in-this-edition"]
    assert MOST_EFFORT < 100_000 * 4  # of each row the chain, the nine, one of them, and the last


# --------------------------------------------------------------------- numbers

HUGE = ["0", "1" + "0" * 30, "9" * 59, "9" * 61, "7" * 4400]


@pytest.mark.parametrize("huge", HUGE, ids=["nought", "10^30", "59", "61", "4400"])
def test_a_huge_number_wherever_a_number_stands(huge: str) -> None:
    """In every example and published pattern, one number at a time; of all of them one in so many
    as ``LOOPWRIGHT_NUMBERS`` says."""
    places = [
        (text, found.span())
        for path in [*EXAMPLES, *WORKED]
        for text in [text_of(path)]
        for found in re.finditer(r"(?<![\w.])\d+", text)
    ]
    for text, (start, end) in places[:: int(os.environ.get("LOOPWRIGHT_NUMBERS", "41"))]:
        damaged = text[:start] + huge + text[end:]
        with in_time(damaged, SMALL):
            answered(damaged)


def test_as_many_times_as_many() -> None:
    """10^30 repeats of 10^29: worked in no time where they come out; where they do not, told."""
    ch = "1" + "0" * 59
    text = f"{HEAD}part cloth: in rounds\nstart: ch {ch}, join into ring\n" + (
        "round 1: dc in each ch around, join\n"
        "round 2: [[dc] {10 ^ 30} times] {10 ^ 29} times, join = {10 ^ 59} sts\n"
    )
    with in_time(text, SMALL):
        assert answered(text).clean
        wrong = answered(CLOTH + "row 2: ch 1, [[dc] {10 ^ 30} times, tr] {10 ^ 29} times\n")
    assert [one.code for one in wrong.diagnostics] == ["edge-ran-out"]


@pytest.mark.parametrize("start", ["magic ring", "ch 21", "ch 4, join into ring"])
def test_a_part_without_rows_is_drawn(start: str) -> None:
    for manner in ("flat", "in a spiral"):
        checked = answered(f"{HEAD}part cloth: {manner}\nstart: {start}\n").checked
        assert checked is not None
        assert rendering.chart(checked, "cloth", 0, "UK").startswith("<svg")


def test_a_chain_without_end_is_worked_and_not_drawn() -> None:
    text = CLOTH + "row 2: ch 1, 5 dc, ch 1000000007, 5 dc = 10 sts, 1 sp\n"
    with in_time(text, SMALL):
        checked = answered(text).checked
        assert checked is not None
        assert "not drawn" in rendering.chart(checked, "cloth", 0, "UK")


@pytest.mark.parametrize("stands", ["{} cm", "1 (N) cm", "N (1) cm", "{N} cm"])
def test_a_number_of_thousands_of_figures_with_a_point(stands: str) -> None:
    number = "7" * 4400 + ".5"
    length = stands.replace("{}", "N").replace("N", number)
    text = f"{HEAD}sizes: cot (bed)\nmeasure wide: {length}\ncount n: wide, at plain sts\n"
    with in_time("figures", SMALL):
        told = said(answered(text + "gauge plain: 18 sts to 10 cm in dc\n" + CLOTH[len(HEAD) :]))
    assert f"{numerals.LONGEST} are read" in told


DOUBLING = "".join(f"stitch s{n}: 2 s{n - 1}, height dc\n" for n in range(2, 21))


def test_stitches_that_double_twenty_times() -> None:
    """2^19 stitches under one name, and as many places as they take."""
    start = f"part cloth: flat\nstart: {2**19} foundation dc\n"
    text = f"{HEAD}stitch s1: dc, height dc\n{DOUBLING}{start}row 1: ch 1, s20 = {2**19} sts\n"
    with in_time(text, SMALL):
        assert not {one.code for one in answered(text).diagnostics} - {"not-in-this-edition"}


# ------------------------------------------------------------------------ many

MANY = {
    "sizes": f"{HEAD}sizes: {', '.join(f's{n}' for n in range(5000))}\n",
    "counts, each of the one before": HEAD
    + "count n0: 5\n"
    + "".join(f"count n{n}: n{n - 1} + 1\n" for n in range(1, 5000))
    + "part cloth: flat\nstart: ch n4999\nrow 1: dc in 2nd ch from hook, dc in each ch across\n",
    "counts that do not come out": HEAD
    + "".join(f"count n{n}: 7\n" for n in range(3000))
    + "part cloth: in rounds\nstart: ch {"
    + " + ".join(f"n{n}" for n in range(0, 3000, 30))
    + "}, join into ring\nround 1: [999 dc] around, join\n",
    "measures": HEAD + "".join(f"measure m{n}: {n} cm\n" for n in range(5000)) + CLOTH[len(HEAD) :],
    "yarns": HEAD + "".join(f'yarn y{n}: "wool"\n' for n in range(5000)) + CLOTH[len(HEAD) :],
    "stitches": HEAD
    + "stitch s0: dc, height dc\n"
    + "".join(f"stitch s{n}: s{n - 1}, tr, height dc\n" for n in range(1, 3000))
    + CLOTH[len(HEAD) :]
    + "row 2: s2999\n",
    "parts, each on the one before": CLOTH
    + "".join(
        f"part p{n}: flat\nstart: along last row of {f'p{n - 1}' if n else 'cloth'}\n"
        "row 1: ch 1, dc in each st across = 10 sts\n"
        for n in range(2500)
    ),
    "starts": CLOTH + "part p: flat\nstart: ch 3" + " then along last row of cloth" * 500 + "\n",
    "openings": CLOTH + f"row 2: {', '.join(f'opening o{n} over 1 sts' for n in range(900))}\n",
    "markers": CLOTH + f"row 2: {', '.join(f'dc, mark m{n}' for n in range(1000))}\n",
    "the same name again": HEAD + "count n: 4\n" * 5000 + CLOTH[len(HEAD) :],
    "the same line again": HEAD * 2000 + CLOTH[len(HEAD) :] * 500,
    "allowed again and again": CLOTH + f"row 2: 9 dc {'# allow edge-ran-out: meant ' * 700}\n",
    "rows that no other row is like": CLOTH
    + "".join(f"row {n}: ch 1, [dc, tr] {n % 7} times\n" for n in range(2, 9000)),
}
LONGER = {"the same line again", "rows that no other row is like", "parts, each on the one before"}


@pytest.mark.parametrize("name", MANY)
def test_very_many_of_anything(name: str) -> None:
    with in_time(name, LARGE if name in LONGER else SMALL * 2):
        result = check_text("many", MANY[name])
    assert result.diagnostics == () or said(result)
    with in_time(name, LARGE):
        fitting.fits_of("many", MANY[name])


# ------------------------------------------------------------------------ names

WORDS = sorted(set(re.findall(r'"([a-z]+)"', (HOUSE / "grammar" / "pattern.lark").read_text())))


@pytest.mark.parametrize("word", [*WORDS, "tr", "fptr", "UK", "RS", "ch-2", "5-tr"])
def test_a_name_that_is_a_word_of_the_notation(word: str) -> None:
    """It stands for what it names, or is told: sizes, counts, measures, yarns, hooks, parts."""
    text = f"""{HEAD}sizes: {word} (lap)
measure {word}: 20 (30) cm
count {word}: 10 (20)
yarn {word}: "wool"
hook {word}: 4 mm
gauge {word}: 20 sts and 20 rows to 10 cm in dc, hook {word}, yarn {word}
stitch {word}: dc, height dc
part {word}: flat, yarn {word}, hook {word}, gauge {word}
start: ch {{{word} + 1}}
row 1: dc in 2nd ch from hook, dc in each ch across = {word} sts
row 2 ({word} only): ch 1, {word}, dc in each st across
part edge: flat
start: along last row of {word}
row 1: with {word}, dc in each st across
"""
    with in_time(text, SMALL):
        answered(text)
        editing.tidy(text)


# ------------------------------------------------------------------- characters

ODD = {
    "null": "\x00", "escape": "\x1b[2J", "bell": "\x07", "return": "\r", "tab": "\t",
    "vertical tab": "\x0b", "form feed": "\x0c", "next line": "\x85", "line separator": "\u2028",
    "byte order mark": "\ufeff", "right to left": "\u202e", "isolate": "\u2066",
    "zero width": "\u200b", "joiner": "\u200d", "soft hyphen": "\u00ad", "mark": "\u0301",
    "many marks": "\u0301" * 50, "wide digit": "\uff13", "arabic digit": "\u0663",
    "other alphabet": "\u0441", "no-break space": "\u00a0", "emoji": "\U0001f9f6",
    "private": "\ue000", "lone surrogate": "\udc80", "last": "\U0010ffff",
}  # fmt: skip
PLAIN = f"""{HEAD}sizes: cot (bed)
count n: 4 (8)
part cloth: flat
start: ch {{n + 1}}
row 1: dc in 2nd ch from hook, dc in each ch across = n sts "wide"
"""


@pytest.mark.parametrize("odd", ODD.values(), ids=ODD)
def test_an_odd_character_anywhere(odd: str) -> None:
    """At every place of a small pattern; what is printed is only what can be seen."""
    for at in range(len(PLAIN) + 1):
        text = PLAIN[:at] + odd + PLAIN[at:]
        result = answered(text)
        assert not any(char in said(result) for char in odd if not char.isprintable())
        tidy = editing.tidy(text)
        assert editing.tidy(tidy) == tidy


def test_letters_that_only_look_alike_are_told_apart() -> None:
    result = check_text("alike", CLOTH + "row 2: ch 1, 10 d\u0441 = 10 sts\n")
    assert "another alphabet" in said(result)


@pytest.mark.parametrize("ending", ["\n", "\r\n"])
def test_line_ends_change_nothing(ending: str) -> None:
    for path in EXAMPLES:
        text = text_of(path)
        result = check_text("ends", text.replace("\n", ending))
        assert [one.code for one in result.diagnostics] == [
            one.code for one in check_text("ends", text).diagnostics
        ]
        assert check_text("ends", text.rstrip("\n")).clean


# ------------------------------------------------------------- the largest files


def filled(line: str, head: str = CLOTH) -> str:
    """As large a file as is read; ``N`` in the line is its number."""
    out, length = [head], len(head.encode())
    for number in range(2, lines.MOST_LINES):
        one = line.replace("N", str(number))
        length += len(one.encode())
        if length > LARGEST:
            break
        out.append(one)
    return "".join(out)


LARGEST_FILES = {
    "one line": FLAT + "row 1: " + "dc, " * (LARGEST // 4 - 30),
    "long rows": filled(f"row N: ch 1, {'dc, ' * 4900}N dc\n"),
    "long rows of brackets": filled(f"row N: ch 1, {'[dc] N times, ' * 1300}N dc\n"),
    "rows in forty sizes": filled(
        f"row N: ch 1, 9 dc, dc = 10 ({', '.join(['10'] * 39)}) sts\n", sized(40)
    ),
    "rows that are not understood": filled("row N: ch 1, dcc in evry stich accross = 10 sts\n"),
    "notes with sums": filled(f"note: {'{1 + 1 + 1} ' * 150}N\n"),
    "comments": filled(f"# {'tide ' * 300}N\n"),
    "continued lines": CLOTH + "note: tide\n" + "   and tide\n" * (LARGEST // 12 - 50),
}


@pytest.mark.parametrize("name", LARGEST_FILES)
def test_the_largest_files_are_answered(name: str, tmp_path: Path) -> None:
    """By the command line, within ``LARGE`` seconds of the processor and a gigabyte and a half."""
    path = tmp_path / "large.crochet"
    path.write_text(LARGEST_FILES[name], "utf-8")
    assert path.stat().st_size <= LARGEST
    # half as long again, for a machine that has other things to do
    command = f"ulimit -v 1500000; ulimit -t {1.5 * LARGE:.0f}; exec {sys.executable} -m loopwright"
    done = subprocess.run(
        ["sh", "-c", f'{command} check "$0"', str(path)],
        capture_output=True,
        cwd=HOUSE,
        timeout=120,
        check=False,
    )
    assert done.returncode in (0, 1), done.stderr[-2000:]
    assert b"Traceback" not in done.stderr
    assert done.stdout.decode("utf-8").count("size") >= 1
