"""The same pattern in UK and in US terms is the same: equal IR, equal counts, equal verdict.

The translator here is independent of the one that renders: a table of words and a regular
expression over the text, as somebody with a pencil would do it.
"""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest

from loopwright.pipeline import Result, check_text
from support import EXAMPLES, WORKED, text_of

# From UK to US; published by each of the sources of the trade's table of terms.
US = {"dc": "sc", "htr": "hdc", "tr": "dc", "dtr": "tr", "trtr": "dtr", "quadtr": "trtr"}
UK = {us: uk for uk, us in US.items()} | {"trc": "dtr"}
WORD = re.compile(
    r"(?<![A-Za-z_])(?P<post>fp|bp)?(?P<stitch>quadtr|trtr|dtr|htr|hdc|trc|tr|dc|sc)"
    r"(?P<rest>\d+tog)?(?![A-Za-z0-9_])"
)
OTHER = {"UK": "US", "US": "UK"}
PATTERNS = [*EXAMPLES, *WORKED]
by_pattern = pytest.mark.parametrize("path", PATTERNS, ids=lambda path: path.stem)


def terms_of(text: str) -> str:
    """The terms that a pattern says it is in."""
    found = re.search(r"^terms\s*:\s*(UK|US)", text, re.MULTILINE)
    assert found
    return found[1]


def translated(text: str) -> str:
    """A pattern in the other country's words."""
    terms = terms_of(text)
    table = US if terms == "UK" else UK
    out = []
    label = ""
    for line in text.split("\n"):
        label = line.split(":")[0].split()[0] if line[:1].isalpha() and ":" in line else label
        out.append(_line(line, label, table, terms))
    return "\n".join(out)


def _line(line: str, label: str, table: dict[str, str], terms: str) -> str:
    if line.startswith("#"):
        return line
    if label == "terms":
        return line.replace(terms, OTHER[terms])
    if label in ("pattern", "about", "designer", "note", "finish"):
        # Free text holds stitches in braces only.
        return re.sub(r"\{[^}]*\}", lambda found: _words(found[0], table), line)
    pieces = re.split(r'("[^"]*")', line)
    return "".join(
        re.sub(r"\{[^}]*\}", lambda found: _words(found[0], table), piece)
        if piece.startswith('"')
        else _neutral(_words(piece, table))
        for piece in pieces
    )


def _words(text: str, table: dict[str, str]) -> str:
    def swap(found: re.Match[str]) -> str:
        other = table[found["stitch"]]
        return f"{found['post'] or ''}{other}{found['rest'] or ''}"

    return WORD.sub(swap, text)


def _neutral(text: str) -> str:
    """`miss` and `tension` are the UK's own; both countries have the other word."""
    return re.sub(r"\bmiss\b", "skip", re.sub(r"^tension\b", "gauge", text))


def facts(result: Result) -> list[tuple[str, tuple[str, ...], str, str]]:
    """What is said of a pattern, without its words."""
    return [
        (one.code, one.sizes, one.part, one.row)
        for one in result.diagnostics
        if one.code != "untranslated-term"
    ]


@by_pattern
def test_a_translation_is_the_same_pattern(path: Path) -> None:
    text = text_of(path)
    here, there = check_text("here", text), check_text("there", translated(text))
    assert here.pattern
    assert there.pattern
    assert there.pattern.terms == OTHER[here.pattern.terms]
    assert replace(there.pattern, terms=here.pattern.terms) == here.pattern
    assert facts(there) == facts(here)


@by_pattern
def test_a_translation_comes_to_the_same(path: Path) -> None:
    text = text_of(path)
    here, there = check_text("here", text), check_text("there", translated(text))
    for one, other in zip(here.fabrics, there.fabrics, strict=True):
        assert (one.stitches, one.rows) == (other.stitches, other.rows)
        for part, again in zip(one.parts, other.parts, strict=True):
            assert part.lines == again.lines
            assert (part.last, part.row_ends) == (again.last, again.row_ends)


@by_pattern
def test_translating_twice_gives_the_text_again(path: Path) -> None:
    text = text_of(path)
    plain = re.sub(r"\btrc\b", "tr", _tidied(text))
    assert _tidied(translated(translated(text))) == plain


def _tidied(text: str) -> str:
    """The text without what is told apart in the UK only."""
    return "\n".join(_neutral(line) for line in text.split("\n"))


@by_pattern
def test_a_translation_has_other_words(path: Path) -> None:
    text = text_of(path)
    if not WORD.search(text):
        return
    assert translated(text).split("\n", 3)[3] != text.split("\n", 3)[3]


def test_the_words_of_the_table() -> None:
    row = "row 1: ch 2, fptr around next tr, dtr2tog, 5-dc bobble, {tr + 1} htr, tr_x, dc"
    assert _words(row, US) == (
        "row 1: ch 2, fpdc around next dc, tr2tog, 5-sc bobble, {dc + 1} hdc, tr_x, sc"
    )
