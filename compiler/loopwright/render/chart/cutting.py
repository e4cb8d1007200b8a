"""Taking a strip out of a row, and where that strip lies on the rows below and above it.

Rows are kept in runs, and so is this: what it costs depends on what was written, not on how many
stitches there are.
"""

from __future__ import annotations

from functools import lru_cache

from loopwright.frozen import Frozen, replace
from loopwright.ir.fabric import Made, WorkedRow
from loopwright.ir.runs import Atom, Builder, Level, Runs
from loopwright.render.chart.links import LEAVES, TAKES
from loopwright.render.chart.stretches import crab

MOST_ASKED = 4096  # answers about rows that are kept, since many strips are tried on the same ones


class LeftOut(Frozen):
    """A strip left out of a row: after which thing made, how many things and places go; ``unit``
    things ``times`` over where the strip is made of whole repeats, of ``all_times`` in the row.
    ``skipped`` places beside it go as well, and it begins at the place ``below`` of the edge met.
    """

    after: int
    things: int
    places: int
    unit: int = 0
    times: int = 0
    all_times: int = 0
    skipped: int = 0
    below: int = 0


def down(lower: WorkedRow, upper: WorkedRow, cut: tuple[int, int]) -> tuple[int, int]:
    """A strip of the edge that ``upper`` meets, as places of the edge that ``lower`` meets."""
    low, high = left(lower, upper, cut)
    first, after = _leaving(lower.made, low), _leaving(lower.made, high)
    if first < 0 or after < 0:
        return 0, 0
    return place_of(lower.made, first), place_of(lower.made, after)


def met(lower: WorkedRow, upper: WorkedRow, cut: tuple[int, int]) -> tuple[int, int]:
    """A strip of the edge that ``lower`` left, as ``upper`` meets it; (0, 0) where it does not
    meet it as one."""
    if lower.is_round and crab(lower):
        return 0, 0  # what goes back over it may meet its repeats out of step
    low, high = _turned(lower, upper, cut)
    low, high = low - upper.shift, high - upper.shift
    return (low, high) if low >= 0 and high <= upper.below.length else (0, 0)


def left(lower: WorkedRow, upper: WorkedRow, cut: tuple[int, int]) -> tuple[int, int]:
    """A strip of the edge that ``upper`` meets, as ``lower`` left it; (0, 0) where it did not
    leave it as one."""
    low, high = _turned(lower, upper, (cut[0] + upper.shift, cut[1] + upper.shift))
    return (low, high) if low >= 0 and high <= lower.edge.length else (0, 0)


def _turned(lower: WorkedRow, upper: WorkedRow, cut: tuple[int, int]) -> tuple[int, int]:
    """A strip as it is met from the other end, or the other way about. A turned round begins in
    the stitch joined into: first, last, last but one."""
    low, high = cut
    if not upper.turned:
        return low, high
    length = lower.edge.length
    first = int(upper.is_round and _joined(lower))
    return (length - high + first, length - low + first) if low >= first else (0, 0)


def _joined(row: WorkedRow) -> bool:
    return any(made.what in ("join", "join sp") for made in row.made.tally())


def trim(row: WorkedRow, cut: tuple[int, int]) -> tuple[WorkedRow, LeftOut, tuple[int, int]]:
    """A row without what stands on a strip of its edge, and the strip that leaves above."""
    low, high = first_at(row.made, cut[0]), first_at(row.made, cut[1])
    edge_low = row.made.before(low, leaves)
    edge_high = row.made.before(high, leaves)
    made: Builder[Made] = Builder()
    made.extend(row.made.slice(0, low))
    skipped = 0
    if high < row.made.length:
        skipped = _moved(row.made.slice(low, high)) - (cut[1] - cut[0])
        rest = row.made.slice(high, row.made.length)
        made.extend(_with_step(rest, skipped) if skipped else rest)
    strip = LeftOut(
        low, high - low, edge_high - edge_low, *_unit(row.made, low, high), skipped, cut[0]
    )
    trimmed = replace(
        row,
        made=made.done(),
        below=without(row.below, *cut),
        edge=without(row.edge, edge_low, edge_high),
        left=tuple((_kept(low, cut), _kept(high, cut)) for low, high in row.left),
    )
    return trimmed, strip, (edge_low, edge_high)


def _kept(place: int, cut: tuple[int, int]) -> int:
    """Where a place of an edge lies without a strip of it."""
    return place - max(min(place, cut[1]) - cut[0], 0)


def whole_repeats(row: WorkedRow, cut: tuple[int, int]) -> bool:
    """Whether what stands on a strip of a row's edge is whole repeats of it."""
    low, high = first_at(row.made, cut[0]), first_at(row.made, cut[1])
    return level_at(row.made, low, high) is not None


def _unit(made: Runs[Made], low: int, high: int) -> tuple[int, int, int]:
    """How many things repeat in a strip, how often, and how often in the whole row."""
    level = level_at(made, low, high)
    return (level.unit, (high - low) // level.unit, level.times) if level else (0, 0, 0)


def level_at(made: Runs[Made], low: int, high: int) -> Level | None:
    """The repeat of which the things from one to another are so many times the whole."""
    for level in made.levels(low) if low < min(high, made.length) else ():
        if high <= level.start + level.unit * level.times and (high - low) % level.unit == 0:
            return level
    return None


def without(runs: Runs[Atom], low: int, high: int) -> Runs[Atom]:
    """A sequence without what stands from one position up to another."""
    out: Builder[Atom] = Builder()
    out.extend(runs.slice(0, low))
    out.extend(runs.slice(high, runs.length))
    return out.done()


def leaves(made: Made) -> bool:
    """Whether a thing leaves a place for the next row."""
    return made.what in LEAVES


def _advance(made: Made) -> int:
    """How far along the edge one thing goes."""
    return made.step + (made.also[-1] if made.also else 0) if made.into in TAKES else 0


@lru_cache(MOST_ASKED)
def _leaving(made: Runs[Made], nth: int) -> int:
    """The thing that leaves the place of that number, or -1."""
    return made.nth(nth, leaves)


@lru_cache(MOST_ASKED)
def _moved(made: Runs[Made]) -> int:
    """How far along the edge a sequence goes; costs what is written, not what is made."""
    return sum(_advance(one) * times for one, times in made.tally().items())


@lru_cache(MOST_ASKED)
def place_of(made: Runs[Made], index: int) -> int:
    """The first place that the thing at an index can use: one past the last place used."""
    place = 0
    for start, (node, times) in zip(made.starts, made.pairs, strict=True):
        if start >= index:
            break
        if not isinstance(node, Runs):
            place += _advance(node) * min(times, index - start)
            continue
        turns, rest = divmod(min(index - start, node.length * times), node.length)
        place += _moved(node) * turns + (place_of(node, rest) if rest else 0)
    return place


def first_at(made: Runs[Made], place: int) -> int:
    """The first thing that goes into a place or past it, by halving."""
    low, high = 0, made.length
    while low < high:
        middle = (low + high) // 2
        if place_of(made, middle + 1) - 1 >= place:
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
