"""Whole patterns as text, made up at random in the notation.

Each row is made by walking along a model of the edge below (a list of ``Token``) and choosing,
place by place, something a designer could write there, so that most patterns come out. What each
row then comes to is known from the model alone and is written down as its stated count. Now and
then one thing is written wrong on purpose.

    @given(patterns())
    def test_something(text): ...
"""

from __future__ import annotations

from hypothesis import strategies as st

from properties.rows import Row, make_row
from properties.tokens import CHAIN, Draw, Token, Words, met, stitches

UK = Words("UK", ("dc", "htr", "tr", "dtr"), "miss")
US = Words("US", ("sc", "hdc", "dc", "tr"), "skip")
MANNERS = {
    "flat": "flat",
    "rounds": "in rounds",
    "spiral": "in a spiral",
    "turned": "in turned rounds",
}
MOST = 70


def _start(draw: Draw, words: Words, manner: str) -> tuple[str, list[Token], str, str]:
    """The start line, the edge it gives, and what kind of start and of edge it is."""
    kind = draw(
        st.sampled_from(
            ("chain", "foundation")
            if manner == "flat"
            else ("magic", "ring", "foundation", "magic")
        )
    )
    if kind == "magic":
        return "magic ring", [], "magic", "round"
    if kind == "foundation":
        n, word = draw(st.integers(2, 24)), draw(st.sampled_from(words.stitches))
        return f"{n} foundation {word}", [Token("st", word)] * n, "foundation", "row"
    n = draw(st.integers(4, 26))
    if kind == "ring":
        return f"ch {n}, join into ring", [CHAIN] * n, "ring", "round"
    return f"ch {n}", [CHAIN] * n, "chain", "round"


@st.composite
def patterns(draw: Draw, faulty: bool = True) -> str:
    """A pattern of one part, and perhaps a second one along an edge of the first."""
    words = draw(st.sampled_from((UK, US)))
    manner = draw(st.sampled_from(tuple(MANNERS)))
    lines = ["pattern: Driftwood", f"terms: {words.terms}"]
    word = draw(st.sampled_from(words.stitches))
    lines.append(f"gauge main: 20 sts and {draw(st.integers(4, 22))} rows to 10 cm in {word}")
    lines.append(f"part first: {MANNERS[manner]}, gauge main")
    start, edge, kind, below = _start(draw, words, manner)
    lines.append(f"start: {start}")
    made, edge, broken = _rows(draw, words, manner, edge, kind, below, faulty)
    lines += made
    if not broken and draw(st.booleans()):
        lines += _second(draw, words, manner, edge, faulty)
    return "\n".join(lines) + "\n"


def _second(draw: Draw, words: Words, manner: str, edge: list[Token], faulty: bool) -> list[str]:
    """A second part, worked along the last row of the first."""
    second = draw(st.sampled_from(("flat", "rounds", "spiral")))
    word = "row" if manner == "flat" else "round"
    lines = [f"part second: {MANNERS[second]}, gauge main"]
    n = len(stitches(edge))
    if n == len(edge) and n > 2 and draw(st.booleans()):
        n = draw(st.integers(2, n))
        edge = edge[:n]
        lines.append(f"start: over next {n} sts of last {word} of first")
    else:
        lines.append(f"start: along last {word} of first")
    if not edge:
        return []
    made, _, _ = _rows(draw, words, second, edge, "edge", "edge", faulty)
    return lines + made


def _rows(
    draw: Draw, words: Words, manner: str, edge: list[Token], start: str, below: str, faulty: bool
) -> tuple[list[str], list[Token], bool]:
    """A few rows. Gives their lines, the edge they leave, and whether one is wrong."""
    lines: list[str] = []
    number = 1
    for _ in range(draw(st.integers(1, 5))):
        is_round = manner != "flat"
        row = make_row(draw, words, met(edge, manner, below), manner, start, faulty)
        word = "round" if is_round else "row"
        lines.append(f"{word} {number}: {row.text}")
        if row.broken or not row.made:
            return lines, row.made, True
        edge, start, below = row.made, "", word
        number += 1
        again = _again(draw, row, word, number)
        if again:
            lines.append(again[0])
            number += again[1]
            if again[1] < 0:
                break
            edge = _after(edge, manner, again[1])
        if len(edge) > MOST:
            break
    return lines, edge, False


def _again(draw: Draw, row: Row, word: str, number: int) -> tuple[str, int] | None:
    """Perhaps a line that works the same row again: its text, and how many rows it works."""
    if not row.same_again or not draw(st.booleans()):
        return None
    n = draw(st.integers(0, 4))
    how = draw(st.sampled_from(("more", "range", "until", "length", "as")))
    total = len(stitches(row.made))
    if how == "more":
        return f"repeat last {word}: {n} more times = {total} sts", n
    if how == "range":
        return f"{word}s {number}-{number + n}: {row.text}", n + 1
    if how == "as":
        return f"{word} {number}: as {word} {number - 1}", 1
    if how == "until":
        return f"repeat last {word}: until {number - 1 + n} {word}s", -1
    return f"repeat {word} {number - 1}: until {draw(st.integers(1, 12))} cm", -1


def _after(edge: list[Token], manner: str, rows: int) -> list[Token]:
    """The edge after as many more rows as that, each the same as the last but for its direction."""
    for _ in range(rows if manner in ("flat", "turned") else 0):
        edge = met(edge, manner, "round" if manner == "turned" else "row")
    return edge
