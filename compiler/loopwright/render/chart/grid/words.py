"""The chart of squares in words: how it is read, what a square is, and every row of it."""

from __future__ import annotations

from itertools import groupby

from loopwright.render.chart.grid.values import COLOUR, FILET, FILLED, OPEN, Grid, Line
from loopwright.render.chart.telling import folded, listed
from loopwright.render.chart.text import MOST_ROWS, otherwise, say
from loopwright.render.chart.values import Words
from loopwright.trade.terms import TERMS, Terms, abbreviation, full_name


def text(grid: Grid, terms: str) -> str:
    """The whole chart of squares in words, a line for each row."""
    chosen = TERMS[terms]
    lines = [grid.title, reading(grid), *(said for _, said in squares(grid, chosen))]
    lines += [*measure(grid, chosen), *repeat(grid)]
    lines += [say(note, chosen) for note in grid.notes]
    lines += _rows_told(grid)
    for other in grid.others:
        lines += otherwise(other.size, _rows_told(grid), _rows_told(other))
    return "\n".join(lines)


def _rows_told(grid: Grid) -> list[str]:
    rows = [row(grid, line) for line in grid.whole[:MOST_ROWS]]
    if len(grid.whole) > MOST_ROWS:
        rows.append(f"{len(grid.whole) - MOST_ROWS} further rows are not told here.")
    return rows


def reading(grid: Grid) -> str:
    """The direction of reading, in words."""
    noun = "round" if grid.lines[0].is_round else "row"
    sides = {line.wrong_side for line in grid.lines}
    out = f"Read from the bottom up. The number stands where the {noun} begins. "
    if sides == {False}:
        return out + f"Every {noun} is read from right to left."
    if sides == {True}:
        return out + f"Every {noun} is worked on the wrong side and read from left to right."
    return out + (
        f"Right-side {noun}s are read from right to left, wrong-side {noun}s from left to right."
    )


def squares(grid: Grid, terms: Terms) -> list[tuple[int, str]]:
    """Every kind of square that is used, and what it stands for."""
    used = sorted({square.kind for line in grid.lines for square in line.squares})
    if grid.kind == COLOUR:
        named = [(f"{letter}: {name}", told) for letter, name, told in grid.yarns]
        words = [f"{name} ({told})" if told else name for name, told in named]
        return [(kind, words[kind]) for kind in used]
    bar = abbreviation(grid.stitch, terms) if grid.stitch else "stitch"
    name = f" ({full_name(grid.stitch, terms)})" if grid.stitch else ""
    said = {
        OPEN: f"open square: ch {grid.unit - 1}, 1 {bar}",
        FILLED: f"filled square: {grid.unit} {bar}{name}",
    }
    return [(kind, said[kind]) for kind in used]


def measure(grid: Grid, terms: Terms) -> list[str]:
    """How squares and stitches go together."""
    if grid.kind == FILET:
        bar = abbreviation(grid.stitch, terms) if grid.stitch else "stitch"
        return [
            f"1 {bar} stands before the first square of a row; {grid.columns:,} squares are "
            f"{grid.columns * grid.unit + 1:,} stitches wide."
        ]
    stitch = "stitch"
    if grid.stitch is not None:
        stitch = f"{abbreviation(grid.stitch, terms)} ({full_name(grid.stitch, terms)})"
    return [f"Each square is 1 {stitch}."]


def repeat(grid: Grid) -> list[str]:
    """The columns that are worked over and over."""
    if grid.again is None:
        return []
    lead, unit, shown, _ = grid.again
    last = lead + unit
    drawn = "once" if shown == 1 else "twice"
    some = f"Square {last} is" if unit == 1 else f"Squares {lead + 1} to {last} are"
    return [f"{some} worked {times(grid)} times in all, drawn {drawn}."]


def times(grid: Grid) -> str:
    """How often the columns come, for each size: ``12 (14, 16)``."""
    if grid.again is None:
        return ""
    first, *others = (f"{n:,}" for n in grid.again.times)
    return f"{first} ({', '.join(others)})" if others else first


def row(grid: Grid, line: Line) -> str:
    """One row: its number, its side, and its squares in the order worked."""
    side = "wrong side" if line.wrong_side else "right side"
    noun = "round" if line.is_round else "row"
    name = f"{noun.capitalize()} {line.number:,}" if line.number else f"Setup {noun}"
    return f"{name}, {side}: {_told(grid, line)}."


def _told(grid: Grid, line: Line) -> str:
    """The squares of a row in the order worked, as its repeats where it has any."""
    kinds = [square.kind for square in line.squares]
    phrases = _phrases(grid, kinds)
    if len(phrases) > 1 and grid.again is not None:
        lead, unit, _, _ = grid.again
        drawn = len(grid.lines[0].squares)
        often = grid.again.shown + (len(kinds) - drawn) // unit
        first = len(kinds) - lead - unit * often if line.wrong_side else lead
        after = first + unit * often
        again = _said(_phrases(grid, kinds[first : first + unit]))
        phrases = [*_phrases(grid, kinds[:first]), (f"({again}) {often:,} times",)]
        phrases += _phrases(grid, kinds[after:])
    return _said(phrases)


def _phrases(grid: Grid, kinds: list[int]) -> list[Words]:
    """Squares of a kind side by side are told together, and what comes again once."""
    runs = ((kind, len(list(some))) for kind, some in groupby(kinds))
    return folded([(f"{count:,} {kind_name(grid, kind)}",) for kind, count in runs])


def _said(phrases: list[Words]) -> str:
    return "".join(one for one in listed(phrases) if isinstance(one, str))


def kind_name(grid: Grid, kind: int) -> str:
    """What a kind of square is called in a row."""
    if grid.kind == COLOUR:
        return grid.yarns[kind][1]
    return "filled" if kind == FILLED else "open"
