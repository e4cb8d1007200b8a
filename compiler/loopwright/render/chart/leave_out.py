"""Leaving a strip out of the middle of long rows, the same one up through all of them.

Rows are kept in runs, and so is this: what it costs depends on what was written, not on how many
stitches there are.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from loopwright.ir.fabric import Made, WorkedRow
from loopwright.ir.runs import Builder, Runs
from loopwright.render.chart.links import LEAVES, TAKES
from loopwright.render.chart.stretches import Drawn

KEPT = 24  # places kept at each side of a strip that is left out, more or less


@dataclass(frozen=True, slots=True)
class LeftOut:
    """A strip left out of a row: after which thing made, how many things and places go; ``unit``
    things ``times`` over where the strip is made of whole repeats, of ``all_times`` in the row."""

    after: int
    things: int
    places: int
    unit: int = 0
    times: int = 0
    all_times: int = 0


def without_strip(rows: list[Drawn]) -> tuple[list[Drawn], list[LeftOut | None]]:
    """The same rows without a strip in the middle, that goes up through all of them."""
    cut = _choose(rows)
    out: list[Drawn] = []
    strips: list[LeftOut | None] = []
    for i, row in enumerate(rows):
        worked = row.worked
        if i:
            cut = _met(rows[i - 1].worked, worked, cut)
        if cut[1] <= cut[0]:
            return rows, [None] * len(rows)
        trimmed, strip, cut = _trim(worked, cut)
        out.append(Drawn(trimmed, row.number))
        strips.append(strip)
    return out, strips


def _choose(rows: list[Drawn]) -> tuple[int, int]:
    """The strip to leave out, as places of the edge that the first row meets: whole repeats of
    the first row that has any, followed down to there."""
    for i, row in enumerate(rows):
        cut = _repeats(row.worked)
        if cut[1] <= cut[0]:
            continue
        for upper, lower in zip(rows[i:0:-1], rows[i - 1 :: -1], strict=False):
            cut = _down(lower.worked, upper.worked, cut)
        return cut
    length = rows[0].worked.below.length
    return (KEPT, length - KEPT) if length > 2 * KEPT else (0, 0)


def _repeats(row: WorkedRow) -> tuple[int, int]:
    """The middle of a row's longest run of repeats of more than one thing."""
    for level in row.made.levels(row.made.length // 2):
        keep = max(2, KEPT // level.unit)
        if 1 < level.unit <= 2 * KEPT and level.times > keep * 2 and level.start <= 4 * KEPT:
            first = level.start + keep * level.unit
            after = level.start + (level.times - keep // 2) * level.unit
            return _place_of(row.made, first), _place_of(row.made, after)
    return 0, 0


def _down(lower: WorkedRow, upper: WorkedRow, cut: tuple[int, int]) -> tuple[int, int]:
    """A strip of the edge that ``upper`` meets, as places of the edge that ``lower`` meets."""
    low, high = _met(lower, upper, cut)
    first, after = lower.made.nth(low, _leaves), lower.made.nth(high, _leaves)
    if first < 0 or after < 0:
        return 0, 0
    return _place_of(lower.made, first), _place_of(lower.made, after)


def _met(lower: WorkedRow, upper: WorkedRow, cut: tuple[int, int]) -> tuple[int, int]:
    """A strip of the edge that ``lower`` left, as ``upper`` meets it."""
    low, high = cut
    length = lower.edge.length
    if upper.turned:
        low, high = length - high, length - low
        if upper.is_round:
            low, high = low + 1, high + 1
    elif upper.shift:
        low, high = low - upper.shift, high - upper.shift
    return (low, high) if low >= 0 and high <= upper.below.length else (0, 0)


def _trim(row: WorkedRow, cut: tuple[int, int]) -> tuple[WorkedRow, LeftOut, tuple[int, int]]:
    """A row without what stands on a strip of its edge, and the strip that leaves above."""
    low, high = _first_at(row.made, cut[0]), _first_at(row.made, cut[1])
    edge_low = row.made.before(low, _leaves)
    edge_high = row.made.before(high, _leaves)
    made: Builder[Made] = Builder()
    made.extend(row.made.slice(0, low))
    if high < row.made.length:
        skipped = _moved(row.made.slice(low, high)) - (cut[1] - cut[0])
        made.extend(_with_step(row.made.slice(high, row.made.length), skipped))
    strip = LeftOut(low, high - low, edge_high - edge_low, *_unit(row.made, low, high))
    trimmed = replace(
        row,
        made=made.done(),
        below=_drop(row.below, *cut),
        edge=_drop(row.edge, edge_low, edge_high),
    )
    return trimmed, strip, (edge_low, edge_high)


def _unit(made: Runs[Made], low: int, high: int) -> tuple[int, int, int]:
    """How many things repeat in a strip, how often, and how often in the whole row."""
    if low >= high:
        return 0, 0, 0
    for level in made.levels(low):
        if high <= level.start + level.unit * level.times and (high - low) % level.unit == 0:
            return level.unit, (high - low) // level.unit, level.times
    return 0, 0, 0


def _drop(runs: Runs, low: int, high: int) -> Runs:  # type: ignore[type-arg]
    out: Builder = Builder()  # type: ignore[type-arg]
    out.extend(runs.slice(0, low))
    out.extend(runs.slice(high, runs.length))
    return out.done()


def _leaves(made: Made) -> bool:
    return made.what in LEAVES


def _advance(made: Made) -> int:
    """How far along the edge one thing goes."""
    return made.step + (made.also[-1] if made.also else 0) if made.into in TAKES else 0


def _moved(made: Runs[Made]) -> int:
    """How far along the edge a sequence goes; costs what is written, not what is made."""
    return sum(_advance(one) * times for one, times in made.tally().items())


def _place_of(made: Runs[Made], index: int) -> int:
    """The first place that the thing at an index can use: one past the last place used."""
    return _moved(made.slice(0, index))


def _first_at(made: Runs[Made], place: int) -> int:
    """The first thing that goes into a place or past it, by halving."""
    low, high = 0, made.length
    while low < high:
        middle = (low + high) // 2
        if _moved(made.slice(0, middle + 1)) - 1 >= place:
            high = middle
        else:
            low = middle + 1
    return low


def _with_step(made: Runs[Made], more: int) -> Runs[Made]:
    """The sequence with its first step lengthened, so that it goes on from elsewhere."""
    for i, one in enumerate(made.slice(0, min(made.length, 64)).expand()):
        if one.into in TAKES:
            out: Builder[Made] = Builder()
            out.extend(made.slice(0, i))
            out.add(one._replace(step=one.step + more))
            out.extend(made.slice(i + 1, made.length))
            return out.done()
    return made
