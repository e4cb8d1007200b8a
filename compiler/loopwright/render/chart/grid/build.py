"""From a part as worked to its chart of squares: which rows are in it, how they lie over one
another, and which columns and rows come again."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import TypeVar

from loopwright.frozen import replace
from loopwright.ir.checked import Checked
from loopwright.ir.fabric import WorkedPart
from loopwright.ir.pattern import Part, Pattern
from loopwright.render.chart.choose import Over, Wish, select
from loopwright.render.chart.grid.colour import dyed_of
from loopwright.render.chart.grid.filet import UNITS, Net, net_of
from loopwright.render.chart.grid.repeats import again
from loopwright.render.chart.grid.values import COLOUR, FILET, FILLED, OPEN, Grid, Line, Square
from loopwright.render.chart.notes import notes_of, rows_words, yarn_words
from loopwright.render.chart.stretches import Drawn
from loopwright.render.chart.values import Words
from loopwright.render.chart.written import sided_lines
from loopwright.render.speaker import Said, phrase, said
from loopwright.trade.stitches import Stitch

MOST_COLUMNS = 1000
"""Squares of one row; a picture of more could not be followed."""

FEWEST_ROWS = 3
"""Rows of filet over one another; fewer are the start of another fabric."""

Found = TypeVar("Found")
Read = tuple[str, int, Stitch | None, tuple[Line, ...], tuple[str, ...]]
"""Kind, unit, stitch, lines and the yarns that the kinds of squares stand for."""


def grid(
    checked: Checked,
    part: str,
    size: int,
    *,
    whole: bool = False,
    rows: tuple[int, int] | None = None,
) -> Grid | None:
    """The chart of squares of a part in a size, or None where its fabric is none for squares.

    ``whole`` draws every repeat; ``rows`` only the rows numbered from the first to the last."""
    of = next(one for one in checked.pattern.parts if one.name == part)
    wish = Wish(whole, rows)
    made = _grid(checked, of, size, wish)
    if made is None or made.again is None:
        return made
    times: list[int] = []
    for other in range(len(checked.pattern.sizes)):
        one = made if other == size else _grid(checked, of, other, wish)
        if one is None or one.again is None or not _alike(one, made):
            return made
        times += one.again.times
    told = tuple(times) if len(set(times)) > 1 else made.again.times
    return replace(made, again=made.again._replace(times=told))


def same_drawing(one: Grid, two: Grid) -> bool:
    """Whether two sizes have the same drawing, the numbers in it too."""
    lines = [[(line.number, line.wrong_side, line.right) for line in g.lines] for g in (one, two)]
    same = lines[0] == lines[1] and (one.over, one.notes) == (two.over, two.notes)
    if not same or (one.again is None) != (two.again is None):
        return False
    return one.again == two.again and _same_squares(one, two)


def _same_squares(one: Grid, two: Grid) -> bool:
    kinds = [[[square.kind for square in line.squares] for line in g.lines] for g in (one, two)]
    return (kinds[0], one.yarns, one.columns) == (kinds[1], two.yarns, two.columns)


def _alike(one: Grid, two: Grid) -> bool:
    """Whether two sizes are drawn alike, save how often the columns come again."""
    kinds = [[[square.kind for square in line.squares] for line in g.lines] for g in (one, two)]
    return (
        kinds[0] == kinds[1]
        and one.again is not None
        and two.again is not None
        and (one.again._replace(times=()) == two.again._replace(times=()))
    )


def refusal(checked: Checked, part: str, size: int, rows: tuple[int, int] | None = None) -> str:
    """Why a part has no chart of squares, in a sentence; nothing where it has one."""
    if grid(checked, part, size, rows=rows) is not None:
        return ""
    if rows is not None and grid(checked, part, size) is not None:
        return f"these rows of the part {part} are not in its chart of squares."
    return (
        f"the part {part} has no chart of squares: that is for filet (bars over bars, with chains "
        f"or stitches between them, on at least {FEWEST_ROWS} rows one over the other, with open "
        "squares and filled ones) and for colourwork (a stitch on every stitch, the yarn changed "
        f"within a row), of at most {MOST_COLUMNS:,} stitches in a row."
    )


def _grid(checked: Checked, part: Part, size: int, wish: Wish) -> Grid | None:
    pattern = checked.pattern
    worked = next(one for one in checked.fabrics[size].parts if one.name == part.name)
    # Rows are read with all those around them, and those wished for are taken out of them.
    every = Wish(wish.whole or wish.rows is not None)
    chosen = select(worked, sided_lines(part), every, may_cut=False)
    rows = chosen.rows
    if not rows or any(row.worked.made.length > MOST_COLUMNS for row in rows):
        return None
    read = _filet(rows) or _coloured(pattern, worked, rows)
    if read is None:
        return None
    kind, unit, stitch, lines, yarns = read
    found = None if wish.whole else again(lines)
    wide = found.columns if found else max(line.right + len(line.squares) for line in lines)
    shown = tuple(line for line in (found.lines if found else lines) if wish.has(line.number))
    lines = tuple(line for line in lines if wish.has(line.number))
    if not lines:
        return None
    over = _within(chosen.over, lines)
    return Grid(
        title=_title(pattern, part, size, wish),
        part=part.name,
        size=pattern.sizes[size],
        kind=kind,
        unit=unit,
        stitch=stitch,
        columns=wide,
        lines=shown,
        whole=lines,
        over=over,
        again=found.again if found else None,
        yarns=_described(pattern, yarns),
        notes=(*notes_of(replace(chosen, over=over)), *_outside(rows, lines, wish)),
    )


def _described(pattern: Pattern, yarns: Iterable[str]) -> tuple[tuple[str, str, str], ...]:
    """The yarns with a letter and what the designer says of them."""
    known = {yarn.name: yarn for yarn in pattern.yarns}
    out = []
    for i, name in enumerate(yarns):
        yarn = known.get(name)
        out.append((chr(65 + i), name, yarn_words(yarn) if yarn else ""))
    return tuple(out)


# ------------------------------------------------------------------------------------- filet


def _filet(rows: Sequence[Drawn]) -> Read | None:
    """The longest stretch of rows that are filet, with open and filled squares both."""
    best: Read | None = None
    if not any(made.what == "ch" for row in rows for made in row.worked.made.tally()):
        return None  # without chains no square is open
    for unit in UNITS:
        nets = [net_of(row.worked, unit) for row in rows]
        for first, last in _stretches(nets, lambda one, two: two.below == one.columns):
            some = [net for net in nets[first:last] if net is not None]
            kinds = {square.kind for net in some for square in net.squares}
            long = last - first > (len(best[3]) if best else FEWEST_ROWS - 1)
            if kinds == {OPEN, FILLED} and long:
                lines = _laid(rows[first:last], some, first, unit)
                best = (FILET, unit, some[-1].stitch, lines, ())
    return best


def _laid(rows: Sequence[Drawn], nets: Sequence[Net], first: int, unit: int) -> tuple[Line, ...]:
    """Rows of filet over one another: where each begins on the row below."""
    out: list[Line] = []
    for i, (row, net) in enumerate(zip(rows, nets, strict=True)):
        right = 0
        if out:
            below, before = out[-1], net.before // unit
            after = len(below.squares) - before - len(net.squares)
            right = below.right + (after if row.worked.wrong_side else before)
        out.append(_line(row, net.squares, first + i, right))
    return tuple(out)


def _line(row: Drawn, squares: tuple[Square, ...], index: int, right: int = 0) -> Line:
    worked = row.worked
    return Line(squares, index, row.number, worked.wrong_side, worked.is_round, right)


# -------------------------------------------------------------------------------- colourwork


def _coloured(pattern: Pattern, worked: WorkedPart, rows: Sequence[Drawn]) -> Read | None:
    """The longest stretch of rows with a stitch on every stitch, one of them in several yarns."""
    if all(len({made.yarn for made in row.worked.made.tally()}) == 1 for row in rows):
        return None
    first_row = worked.rows[0][0][0]
    dyed = [dyed_of(row.worked, row.worked == first_row) for row in rows]
    best: tuple[int, int] | None = None
    for first, last in _stretches(dyed, lambda one, two: len(one.yarns) == len(two.yarns)):
        several = any(one is not None and len(set(one.yarns)) > 1 for one in dyed[first:last])
        if several and (best is None or last - first > best[1] - best[0]):
            best = (first, last)
    if best is None:
        return None
    some = [one for one in dyed[best[0] : best[1]] if one is not None]
    used = {yarn for one in some for yarn in one.yarns}
    order = [yarn.name for yarn in pattern.yarns if yarn.name in used]
    yarns = [*order, *sorted(used - set(order))]
    lines = []
    for i, (row, one) in enumerate(zip(rows[best[0] : best[1]], some, strict=True)):
        squares = tuple(
            Square(yarns.index(yarn), nth, span)
            for nth, (yarn, span) in enumerate(zip(one.yarns, one.spans, strict=True), start=1)
        )
        lines.append(_line(row, squares, best[0] + i))
    stitches = {one.stitch for one in some}
    stitch = next(iter(stitches)) if len(stitches) == 1 else None
    return COLOUR, 1, stitch, tuple(lines), tuple(yarns)


# ------------------------------------------------------------------------------------ of both


def _stretches(
    found: Sequence[Found | None], goes_on: Callable[[Found, Found], bool]
) -> list[tuple[int, int]]:
    """Where rows that could be read follow on one another, as (first, one past the last)."""
    out: list[tuple[int, int]] = []
    for i, one in enumerate(found):
        if one is None:
            continue
        before = found[i - 1] if i else None
        if out and out[-1][1] == i and before is not None and goes_on(before, one):
            out[-1] = (out[-1][0], i + 1)
        else:
            out.append((i, i + 1))
    return out


def _within(over: Iterable[Over], lines: Sequence[Line]) -> tuple[Over, ...]:
    """The stretches worked over and over that lie in the squares as a whole."""
    first, last = lines[0].index, lines[-1].index
    return tuple(one for one in over if first <= one.first and one.last <= last)


def _title(pattern: Pattern, part: Part, size: int, wish: Wish) -> Said:
    rows = rows_words(part, wish.rows)
    told = {"title": pattern.title, "part": part.name, "rows": rows}
    if len(pattern.sizes) == 1:
        return said("{title}: squares of the {part}{rows}", **told)
    size_name = pattern.sizes[size]
    return said("{title}: squares of the {part}, size {size}{rows}", size=size_name, **told)


# A row or several, a round or several.
_NOT_IN_SQUARES = (
    (
        phrase("Row {first} is not in squares: see the chart of symbols."),
        phrase("Rows {first} to {last} are not in squares: see the chart of symbols."),
    ),
    (
        phrase("Round {first} is not in squares: see the chart of symbols."),
        phrase("Rounds {first} to {last} are not in squares: see the chart of symbols."),
    ),
)


def _outside(rows: Sequence[Drawn], lines: Sequence[Line], wish: Wish) -> list[Words]:
    """The rows wished for that are not in the squares."""
    kept = {line.index for line in lines}
    out: list[Words] = []
    missing = (row.number for i, row in enumerate(rows) if i not in kept)
    numbers = [number for number in missing if wish.has(number)]
    for first, last in _runs(numbers):
        what = _NOT_IN_SQUARES[lines[0].is_round][first != last]
        out.append((said(what, first=f"{first:,}", last=f"{last:,}"),))
    return out


def _runs(numbers: Iterable[int]) -> list[tuple[int, int]]:
    out: list[tuple[int, int]] = []
    for number in numbers:
        if out and out[-1][1] == number - 1:
            out[-1] = (out[-1][0], number)
        else:
            out.append((number, number))
    return out
