"""Which values of a count come out: found by the program by trying, and here known otherwise.

Where a pattern's rows are plain sums, they are written down below as numbers (so many stitches
taken, so many made) and z3 proves, for every whole number there is, which values work. Elsewhere
the naive worker makes the pattern stitch by stitch with one value after another.
"""

from __future__ import annotations

import re
from typing import Any, NamedTuple

import pytest
import z3
from hypothesis import given, settings
from hypothesis import strategies as st

import loopwright
from loopwright import fitting, pipeline
from loopwright.diagnostics import ERROR
from loopwright.lower import lower
from loopwright.syntax import read_lines
from naive import work_pattern
from support import EXAMPLES, text_of

TEXTS = {path.stem: text_of(path) for path in EXAMPLES}


def found(text: str, name: str) -> fitting.Fit:
    """What the program finds of a count."""
    lines = read_lines(text)
    pattern = lower(lines, len(text)).pattern
    assert pattern is not None
    (fit,) = [one for one in fitting.fits(lines, pattern) if one.name == name]
    return fit


def tried(fit: fitting.Fit) -> list[int]:
    return [value for low, high in fit.tried for value in range(low, high + 1)]


# ------------------------------------------------------------------ proved by z3


class Sum(NamedTuple):
    """A row as numbers: stitches taken and made once, and by each repeat of what is worked as far
    as it goes; and what it is stated to come to, as a share of the count."""

    once: tuple[int, int] = (0, 0)
    each: tuple[int, int] = (1, 1)
    stated: tuple[int, int] | None = (1, 1)
    less: int = 0


RIBBED = Sum(each=(4, 4))  # [3 tr, fptr]
SUMS = {
    # the thumb's opening passes 4; over its chains 4 are made; tr2tog, tr, fptr: 4 to 3; and so on
    ("breakwater-mittens", "body"): [
        Sum(), RIBBED, RIBBED, Sum((4, 0), (4, 4), less=4), Sum((0, 4), (4, 4)), RIBBED,
        Sum(each=(4, 3), stated=(3, 4)), Sum(each=(3, 2), stated=(1, 2)),
        Sum(each=(2, 1), stated=(1, 4)),
    ],
    # round 3 in pairs, then bars of 8 that lose one of their stitches in each round of the crown
    ("lantern-hat", "wrap"): [
        Sum(), Sum(), Sum(each=(2, 2)), Sum(each=(8, 8)),
        *[Sum(each=(n, n - 1), stated=(n - 1, 8)) for n in range(8, 1, -1)],
    ],
    # inc 1, 3, 2 times 2 together, 3, inc 1: 12 to 12
    ("tideline-cowl", "wrap"): [Sum(), Sum(each=(12, 12)), Sum(each=(12, 12))],
    # a dc, then shells over 6; a half shell on 4 and another on the last 3, 6 between; the first
    ("limpet-scarf", "breadth"): [
        Sum(), Sum((1, 1), (6, 6)), Sum((7, 7), (6, 6)), Sum((1, 1), (6, 6)),
    ],
    # 12 to 11 (the chain, one beside it, 4, 3 together, 4), waves of 12, and 2 in the last
    ("ebb-ripple", "breadth"): [Sum(), Sum((13, 13), (12, 12))],
}  # fmt: skip
RULES = {
    "body": (4, 0, 4),
    ("lantern-hat", "wrap"): (8, 0, 8),
    ("tideline-cowl", "wrap"): (12, 0, 12),
    ("limpet-scarf", "breadth"): (6, 1, 7),
    ("ebb-ripple", "breadth"): (12, 1, 13),
}
"""(multiple, plus, least) of the values that work, as one finds by hand."""


def works(rows: list[Sum], n: Any) -> Any:
    """Whether all rows come out with a count of ``n``, as one formula in it."""
    have, needs = n, [n >= 1]
    for row in rows:
        (takes, makes), (each, gives) = row.once, row.each
        needs += [have >= takes, (have - takes) % each == 0]
        have = makes + gives * ((have - takes) / each)
        if row.stated is not None:
            share, of = row.stated
            needs.append(have * of == n * share - row.less * of)
    return z3.And(*needs)


@pytest.mark.parametrize("key", SUMS, ids=" ".join)
def test_the_rule_is_proved(key: tuple[str, str]) -> None:
    """For every whole number, the sums hold exactly where the rule does; and among the values
    that the program tried it found exactly those."""
    multiple, plus, least = RULES.get(key) or RULES[key[1]]
    n = z3.Int("n")
    formula = works(SUMS[key], n)
    kept = z3.And(n >= least, n % multiple == plus)
    solver = z3.Solver()
    solver.add(formula != kept)
    assert solver.check() == z3.unsat, solver.model()

    fit = found(TEXTS[key[0]], key[1])
    holds = [one for one in tried(fit) if z3.is_true(z3.simplify(works(SUMS[key], z3.IntVal(one))))]
    assert list(fit.works) == holds
    assert fit.needed == (multiple, plus)


def test_the_proof_would_fail_of_another_rule() -> None:
    n = z3.Int("n")
    solver = z3.Solver()
    solver.add(works(SUMS["breakwater-mittens", "body"], n) != z3.And(n >= 4, n % 2 == 0))
    assert solver.check() == z3.sat


# ----------------------------------------------------------- by the naive worker

HEAD = "pattern: Skerry\nterms: UK\n"
PATTERNS = {
    # 4 a repeat in one part, 6 and 2 besides in the other: 8, 20, 32...
    "in two parts": f"""{HEAD}count n: 20
part one: in rounds
start: ch n, join into ring
round 1: dc in each ch around, join = n sts
round 2: [2 dc, 2 tr] around, join = n sts
part two: flat
start: {{n}} foundation dc
row 1: ch 1, dc, [5 dc, tr] to last st, dc = n sts
""",
    # 3 a repeat and 2 besides, in an edge of one more
    "plus": f"""{HEAD}count n: 19, multiple of 3 plus 1
part one: flat
start: ch {{n + 2}}
row 1: dc in 2nd ch from hook, dc in each ch across = {{n + 1}} sts
row 2: ch 1, dc, [2 dc, tr] to last st, dc = {{n + 1}} sts
""",
    # twice the count, less 3, in fives: the count must be 4, 9, 14...
    "derived": f"""{HEAD}count n: 9
count m: n * 2 - 3
part one: in rounds
start: {{m}} foundation tr
round 1: [tr2tog, 3 tr] around, join = {{m * 4 / 5}} sts
""",
    # even and odd at once
    "none": f"""{HEAD}count n: 12
part one: in rounds
start: ch n, join into ring
round 1: [dc in next ch, tr in next ch] around, join
round 2: [2 dc] to last st, dc, join
""",
    # each round takes a third away: only what divides by 9, and 4 of them must be left
    "at most": f"""{HEAD}count n: 9
part one: in rounds
start: ch n, join into ring
round 1: dc in each ch around, join
round 2: [dc, dc2tog] around, join
round 3: [dc, dc2tog] around, join = 4 sts
""",
    # the two sizes have other repeats: 4 in one, 6 in the other
    "per size": f"""{HEAD}sizes: a (b)
count n: 24 (36)
part one: in rounds
start: ch n, join into ring
round 1: dc in each ch around, join = n sts
round 2: [3 (5) dc, tr] around, join = n sts
""",
    # rows, not stitches: 2 rows and then 3 at a time
    "rows": f"""{HEAD}count n: 11
part one: flat
start: ch 5
row 1: dc in 2nd ch from hook, dc in each ch across
rows 2-4: ch 1, dc in each st across
repeat rows 2-4: until {{n - 1}} rows
""",
    # two edges sewn together
    "seam": f"""{HEAD}count n: 6
part one: flat
start: ch 7
row 1: dc in 2nd ch from hook, dc in each ch across
repeat row 1: 0 more times
part two: flat
start: ch {{n + 1}}
row 1: dc in 2nd ch from hook, dc in each ch across
seam: last row to last row of one, sl st
""",
}
EXPECTED: dict[tuple[str, str], tuple[int, int] | None] = {
    ("in two parts", "n"): (12, 8),
    ("plus", "n"): (3, 1),
    ("derived", "n"): (5, 4),
    ("derived", "m"): (5, 0),
    ("none", "n"): None,
    ("at most", "n"): None,
    ("per size", "n"): (12, 0),
    ("rows", "n"): (3, 2),
}


def comes_out(text: str, name: str, value: int) -> bool:
    """Whether the pattern with this number written into it can be worked, stitch by stitch."""
    text, changed = re.subn(rf"(?m)^count {name}:.*$", f"count {name}: {value}", text)
    assert changed == 1
    lowered = lower(read_lines(text), len(text))
    if lowered.pattern is None or any(one.severity == ERROR for one in lowered.diagnostics):
        return False
    sizes = range(len(lowered.pattern.sizes))
    return not any(work_pattern(lowered.pattern, size).faults for size in sizes)


@pytest.mark.parametrize(("pattern", "name"), EXPECTED)
def test_every_value_made_stitch_by_stitch(pattern: str, name: str) -> None:
    text = PATTERNS[pattern]
    fit = found(text, name)
    assert list(fit.works) == [value for value in tried(fit) if comes_out(text, name, value)]
    assert fit.needed == EXPECTED[pattern, name]


def test_only_one_value_is_no_rule() -> None:
    assert found(PATTERNS["at most"], "n").works == (9,)
    assert found(PATTERNS["seam"], "n").works == (6,)
    assert found(PATTERNS["none"], "n").works == ()


# ------------------------------------------------------------------------ rules


@given(st.integers(1, 12), st.integers(0, 40), st.integers(1, 30), st.integers(0, 60))
@settings(derandomize=True, deadline=None, database=None)
def test_a_rule_is_read_off(multiple: int, least: int, low: int, wide: int) -> None:
    stretch = (low, low + wide)
    kept = [
        n for n in range(low, low + wide + 1) if n >= least and n % multiple == least % multiple
    ]
    rule = fitting.rule(tuple(kept), (stretch,))
    assert rule == ((multiple, least % multiple) if len(kept) > 1 else None)
    for gone in kept[1:-1] if len(kept) > 3 else ():
        assert fitting.rule(tuple(n for n in kept if n != gone), (stretch,)) is None


def test_a_rule_holds_over_every_stretch() -> None:
    stretches = ((1, 9), (20, 29))
    assert fitting.rule((4, 8, 20, 24, 28), stretches) == (4, 0)
    assert fitting.rule((4, 8, 20, 28), stretches) is None
    assert fitting.rule((5, 9, 21, 25, 29), stretches) == (4, 1)


def test_what_is_tried_lies_around_each_value() -> None:
    assert fitting.around((28, 32, 36), 36) == ((1, 72),)
    assert fitting.around((97, 145, 229), 36) == ((61, 181), (193, 265))
    assert fitting.around((10, 10**30), 3) == ((7, 13), (10**30 - 3, 10**30 + 3))
    assert fitting.around((1, 2), 2) == ((1, 4),)


# ------------------------------------------------------------------------ words

MITTENS = """ribs: 28 (34, 40)
  written: even
  needed:  any number, 2 or more (tried 1 to 76)

body: 28 (32, 36)
  written: a multiple of 4
  needed:  a multiple of 4 (tried 1 to 72)
"""
"""15 (18, 21) cm less 1 at 20 rows to 10 cm are 28, 34 and 40 rows; and 1 more at 17 stitches are
27.2, 32.3 and 37.4, of which the nearest multiples of 4 are 28, 32 and 36. Two rows of the cuff are
written before those that are repeated until there are enough."""


def told_of(name: str, text: str) -> str:
    """What is known of every count of a text, in words."""
    return "\n".join(one.text for one in fitting.fits_of(name, text))


def test_what_is_told_of_the_mittens() -> None:
    assert told_of("mittens", TEXTS["breakwater-mittens"]) == MITTENS


def test_what_is_told_of_other_counts() -> None:
    told = {name: told_of(name, PATTERNS[name]) for name in PATTERNS}
    # 9 and 36 to either side
    assert told["derived"] == (
        "n: 9\n  written: no rule\n"
        "  needed:  a multiple of 5 plus 4 (tried 1 to 45)\n\n"
        "m: 15\n  written: no rule\n  needed:  a multiple of 5 (tried 1 to 51)\n"
    )
    assert "  written: a multiple of 3 plus 1\n  needed:  a multiple of 3 plus 1 (" in told["plus"]
    assert "  comes out with none of the values tried 1 to 48\n" in told["none"]
    assert "  comes out with 9 (tried 1 to 45)\n" in told["at most"]
    assert told["per size"].startswith("n: 24 (36)\n")
    assert told_of("coaster", TEXTS["limpet-coaster"]) == ""


WORDS = [
    (None, "no rule"), ((1, 0), "any number"), ((2, 0), "even"), ((2, 1), "odd"),
    ((4, 0), "a multiple of 4"), ((6, 1), "a multiple of 6 plus 1"),
]  # fmt: skip


@pytest.mark.parametrize(("rule", "words"), WORDS)
def test_a_rule_in_words(rule: tuple[int, int] | None, words: str) -> None:
    assert fitting.rule_text(rule) == words


def test_a_pattern_too_long_to_be_tried_says_so(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(fitting, "MOST_WORK", 100)
    told = told_of("long", PATTERNS["in two parts"])
    assert told.endswith("  not tried: the pattern is too long to be worked with many values\n")


# ----------------------------------------------------------------- in messages


def test_a_message_names_the_values_that_come_out() -> None:
    """30 is 7 bars of 4 and 2 over, in every round that has them; one message says it all."""
    text = PATTERNS["in two parts"].replace("count n: 20", "count n: 30")
    (told,) = pipeline.check_text("thirty", text).diagnostics
    assert told.code == "repeat-does-not-fit"
    assert told.hints[0] == (
        "Every row comes out when `n` is a multiple of 12 plus 8 (20 or 32, not 30)."
    )


def test_it_names_the_sizes_that_do_not() -> None:
    text = PATTERNS["per size"].replace("24 (36)", "24 (34)")
    (told,) = pipeline.check_text("sizes", text).diagnostics
    assert told.sizes == ("b",)
    assert "a multiple of 12 (24 or 36, not 34)" in told.hints[0]


def test_of_a_size_that_does_not_come_out_it_is_told_what_does() -> None:
    text = PATTERNS["per size"].replace("24 (36)", "24 (34)")
    (fit,) = loopwright.read(text).fits()
    assert fit.values == (24, 34)
    # 3 and 1 over 4 stitches, 5 and 1 over 6; 36 to either side of 24 and 34
    fours, sixes = tuple(range(4, 71, 4)), tuple(range(6, 71, 6))
    assert fit.by_size == (("a", fours), ("b", sixes))
    assert fit.needed == (12, 0)
    assert "  b: needed:  a multiple of 6 (tried 1 to 70)\n" in fit.text


def test_where_no_value_comes_out_the_row_is_mended() -> None:
    told = pipeline.check_text("none", PATTERNS["none"]).diagnostics
    assert told
    assert not any("Every row comes out" in hint for one in told for hint in one.hints)
