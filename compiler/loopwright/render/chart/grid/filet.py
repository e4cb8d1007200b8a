"""Reading a row as filet: bars a fixed way apart, each on a bar of the row below, and between two
bars either chains over a gap or stitches side by side.

A square three columns wide is a bar and two stitches, or a bar and ch 2 (table J of the trade's
tables, sources memories, dillmont and bits); one two columns wide a bar and ch 1 (sources bella and
bits). A row of n squares so has 3n + 1 or 2n + 1 columns.
"""

from __future__ import annotations

from collections.abc import Sequence

from loopwright.frozen import Frozen
from loopwright.ir.fabric import Made, Place, WorkedRow
from loopwright.render.chart.grid.values import FILLED, OPEN, Square
from loopwright.source import Span
from loopwright.trade.stitches import Stitch

UNITS = (3, 2, 4)
"""How many columns wide a square may be, likeliest first."""

LOWEST = 2
"""The least height of a bar, in chains: lower stitches make no net."""

_BARS = ("st", "as", "skip as")
_SILENT = ("turn", "join")


class Net(Frozen):
    """A row read as filet: its squares in the order worked, how many columns of the row below lie
    before its first bar, how many columns that row and this one have, and the stitch of its bars.
    """

    squares: tuple[Square, ...]
    before: int
    below: int
    columns: int
    stitch: Stitch


class _Column(Frozen):
    """A column of a row: a stitch (which, its number, the place it goes into) or a chain of a
    space."""

    stitch: Stitch | None
    nth: int
    at: int
    into: str
    span: Span
    chains: int = 0


def net_of(row: WorkedRow, unit: int) -> Net | None:
    """A flat row as filet with squares of so many columns, or None where it is none."""
    columns = None if row.is_round else _columns(row)
    if columns is None or len(columns) < unit + 1 or len(columns) % unit != 1:
        return None
    bars = columns[::unit]
    if any(bar.stitch is None or bar.stitch.height < LOWEST for bar in bars):
        return None
    squares = [_square(columns[i : i + unit + 1]) for i in range(0, len(columns) - 1, unit)]
    before = _stands(row, bars, unit)
    if before is None or bars[0].stitch is None:
        return None
    known = tuple(square for square in squares if square is not None)
    if len(known) < len(squares):
        return None
    below = _width(tuple(row.below.expand()))
    return Net(known, before, below, len(columns), bars[0].stitch)


def _columns(row: WorkedRow) -> list[_Column] | None:
    """The columns of a row in the order made, or None where something else stands in it."""
    out: list[_Column] = []
    at, nth = -1, 0
    for made in row.made.expand():
        if made.what in _SILENT:
            continue
        span = row.spans[made.item] if made.item < len(row.spans) else Span(0, 0)
        if made.what == "ch":
            out += [_Column(None, nth, -1, "", span, made.chains)] * made.chains
            continue
        if not _is_bar(made):
            return None
        at += made.step
        nth += 1
        out.append(_Column(made.stitch, nth, at, made.into, span))
    return out


def _is_bar(made: Made) -> bool:
    plain = made.what in _BARS and made.stitch is not None and not made.also
    return plain and made.stitch is not None and not made.stitch.many and not made.stitch.post


def _square(columns: Sequence[_Column]) -> Square | None:
    """What lies between two bars: one run of chains, or stitches only."""
    inside, last = columns[1:-1], columns[-1]
    if all(one.stitch is not None for one in inside):
        return Square(FILLED, last.nth, last.span)
    chains = all(one.stitch is None and one.chains == len(inside) for one in inside)
    return Square(OPEN, last.nth, last.span) if chains else None


def _stands(row: WorkedRow, bars: Sequence[_Column], unit: int) -> int | None:
    """How many columns of the row below lie before the first bar, where every bar stands straight
    on a stitch of it; None where one does not. Nothing is asked of bars on the starting chain."""
    places = tuple(row.below.expand())
    if any(place.what in ("ch", "hook") for place in places):
        return 0
    starts = _starts(places)
    before = 0
    for i, bar in enumerate(bars):
        if bar.into != "st" or not 0 <= bar.at < len(places):
            return None
        column = starts[bar.at]
        before = before if i else column
        if column != before + i * unit:
            return None
    return before if before % unit == 0 else None


def _starts(places: Sequence[Place]) -> list[int]:
    out, at = [], 0
    for place in places:
        out.append(at)
        at += place.chains if place.what == "sp" else 1
    return out


def _width(places: Sequence[Place]) -> int:
    return sum(place.chains if place.what == "sp" else 1 for place in places)
