"""Taking a strip out of a row, and where that strip lies on the rows below and above it.

Rows are kept in runs, and so is this: what it costs depends on what was written, not on how many
stitches there are.
"""

from __future__ import annotations

from bisect import bisect_left
from functools import lru_cache

from loopwright.frozen import Frozen, replace
from loopwright.ir.fabric import Made, WorkedRow
from loopwright.ir.runs import Atom, Builder, Level, Runs
from loopwright.render.chart.links import LEAVES, TAKES
from loopwright.render.chart.stretches import crab

Places = tuple[int, int]  # of an edge: the first and the one after the last
MOST_ASKED = 4096  # answers about rows that are kept, since many strips are tried on the same ones


class LeftOut(Frozen):
    """A strip left out of a row: after which thing made, how many things go; ``unit`` of them
    ``times`` over where the strip is made of whole repeats, of ``all_times`` in the row. ``met``
    places of the edge met go from the place ``below`` on, and ``skipped`` beside them as well;
    ``places`` of the edge left from the place ``above`` on."""

    after: int
    things: int
    below: int
    met: int
    above: int
    places: int
    unit: int = 0
    times: int = 0
    all_times: int = 0
    skipped: int = 0


def down(lower: WorkedRow, upper: WorkedRow, cut: Places) -> Places:
    """A strip of the edge that ``upper`` meets, as places of the edge that ``lower`` meets."""
    low, high = left(lower, upper, cut)
    first, after = _leaving(lower.made, low), _leaving(lower.made, high)
    if first < 0 or after < 0:
        return 0, 0
    return place_of(lower.made, first), place_of(lower.made, after)


def met(lower: WorkedRow, upper: WorkedRow, cut: Places) -> Places:
    """A strip of the edge that ``lower`` left, as ``upper`` meets it; (0, 0) where it does not
    meet it as one."""
    if lower.is_round and crab(lower):
        return 0, 0  # what goes back over it may meet its repeats out of step
    low, high = _turned(lower, upper, cut)
    low, high = low - upper.shift, high - upper.shift
    return (low, high) if low >= 0 and high <= upper.below.length else (0, 0)


def left(lower: WorkedRow, upper: WorkedRow, cut: Places) -> Places:
    """A strip of the edge that ``upper`` meets, as ``lower`` left it; (0, 0) where it did not
    leave it as one."""
    low, high = _turned(lower, upper, (cut[0] + upper.shift, cut[1] + upper.shift))
    return (low, high) if low >= 0 and high <= lower.edge.length else (0, 0)


def _turned(lower: WorkedRow, upper: WorkedRow, cut: Places) -> Places:
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


def strip_at(row: WorkedRow, cut: Places) -> LeftOut:
    """What stands on a strip of the edge that a row meets, to be left out with it."""
    below, after = cut
    low, high = first_at(row.made, below), first_at(row.made, after)
    above = _left_before(row.made, low)
    places = _left_before(row.made, high) - above
    unit = _unit(row.made, low, high)
    skipped = 0
    if high < row.made.length:
        skipped = place_of(row.made, high) - place_of(row.made, low) - (after - below)
    return LeftOut(low, high - low, below, after - below, above, places, *unit, skipped)


def trim(row: WorkedRow, strip: LeftOut) -> WorkedRow:
    """A row without a strip."""
    low, high = strip.after, strip.after + strip.things
    cut = strip.below, strip.below + strip.met
    made: Builder[Made] = Builder()
    made.extend(row.made.slice(0, low))
    if high < row.made.length:
        rest = row.made.slice(high, row.made.length)
        made.extend(_with_step(rest, strip.skipped) if strip.skipped else rest)
    return replace(
        row,
        made=made.done(),
        below=without(row.below, *cut),
        edge=without(row.edge, strip.above, strip.above + strip.places),
        left=tuple((_kept(low, cut), _kept(high, cut)) for low, high in row.left),
    )


def _kept(place: int, cut: Places) -> int:
    """Where a place of an edge lies without a strip of it."""
    return place - max(min(place, cut[1]) - cut[0], 0)


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


@lru_cache(MOST_ASKED)
def _left_before(made: Runs[Made], index: int) -> int:
    """How many places are left before the thing at an index."""
    return made.before(index, leaves)


@lru_cache(MOST_ASKED)
def first_at(made: Runs[Made], place: int) -> int:
    """The first thing that goes into a place or past it, by halving."""
    return bisect_left(range(made.length), place, key=lambda at: place_of(made, at + 1) - 1)


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
