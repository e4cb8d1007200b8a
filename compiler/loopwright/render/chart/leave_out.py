"""Leaving a strip out of the middle of long rows, the same one up through all of them.

Rows are kept in runs, and so is this: what it costs depends on what was written, not on how many
stitches there are.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from functools import lru_cache
from itertools import takewhile

from loopwright.frozen import Frozen, replace
from loopwright.ir.fabric import Made, Place, WorkedRow
from loopwright.ir.runs import Builder, Level, Runs
from loopwright.render.chart.cutting import (
    MOST_ASKED,
    LeftOut,
    Places,
    down,
    leaves,
    met,
    place_of,
    strip_at,
    trim,
)
from loopwright.render.chart.links import TAKES
from loopwright.render.chart.stretches import Drawn

KEPT = 24  # places kept at each side of a strip that is left out, more or less
LEAST_KEPT = 12  # stitches and chains of repeats that are kept, at least
TRIES = 6  # how many repeats fewer are tried, for rows whose repeats are not alike
MOST_LOOKED_AT = 200  # rows that are searched for a repeat
MOST_CANDIDATES = 24
MOST_BEGINNINGS = 16  # whole repeats, and halves, after which a strip may begin
MOST_BETWEEN = 48  # things of a repeat between which it may begin
STRAIGHT = 2.5  # stitches that a strip may lead aside
MOST_GROWN = 2000  # things of a repeat that is looked for beside where it was seen
MOST_FOLDED = 400  # runs of a row that are searched for a repeat


class Repeat(Frozen):
    """The repeat that a chart draws a few times only: of which drawn row, from which thing on and
    of how many, how often it is worked in all, and over how many stitches (chains counted): of
    the start, or of the first row where that is worked into row ends (``on_row_ends``)."""

    row: int
    first: int
    unit: int
    times: int
    sts: int
    on_row_ends: bool = False


class Cut(Frozen):
    """Rows with the same strip left out of each, and the repeat that it is made of; ``clean``
    where it goes straight up and no stitch reaches across it."""

    rows: list[Drawn]
    strips: Sequence[LeftOut | None]
    repeat: Repeat | None = None
    clean: bool = True


class Way(Frozen):
    """The way of a strip up through rows from which it is not left out yet: what stands on it in
    each of them."""

    rows: Sequence[Drawn]
    strips: Sequence[LeftOut]

    def pairs(self) -> Iterator[tuple[WorkedRow, LeftOut]]:
        """Each row with its strip."""
        for row, strip in zip(self.rows, self.strips, strict=True):
            yield row.worked, strip

    def left_out(self) -> list[Drawn]:
        """The rows without it."""
        pairs = zip(self.rows, self.strips, strict=True)
        return [Drawn(trim(row.worked, strip), row.number) for row, strip in pairs]

    @property
    def things_kept(self) -> int:
        """How many things the first row has without it."""
        return self.rows[0].worked.made.length - self.strips[0].things

    @property
    def clean(self) -> bool:
        """Whether it goes straight up and no stitch reaches across it."""
        if any(reaches_across(*one) for one in self.pairs()):
            return False
        parts = []
        for row, strip in self.pairs():
            length = kept(row, strip)
            part = strip.below / max(length, 1)
            parts.append((1 - part if row.wrong_side else part) * length)
        if max(parts) - min(parts) < STRAIGHT:
            return True
        return len({kept(*one) for one in self.pairs()}) > 1

    @property
    def neat(self) -> bool:
        """Whether it begins and ends between stitches of every row that stand on neighbours, so
        that no chain lies across it either."""
        return all(_is_neat(*one) for one in self.pairs())


def without_repeats(rows: list[Drawn], like: int = 0) -> Cut | None:
    """The same rows with a few repeats in place of all: what is left out of each row is whole
    repeats of it, so that what is left is the same pattern, less wide. None where the rows have
    no repeat in common, or none of which the first row could be left ``like`` so many things."""
    rows[:] = all_folded(rows)
    tried = set[Places]()
    for index, level in _candidates(rows):
        for removed in _amounts(level, bool(like)):
            found = None
            for first in beginnings(level, removed):
                cut = on_first(rows, index, first, first + removed * level.unit)
                if cut in tried:
                    continue
                tried.add(cut)
                way = way_through(rows, cut)
                if way is None or (like and like != way.things_kept):
                    continue
                rank = way.clean, way.neat
                if found is None or rank > found[0]:
                    found = rank, way, first
                if all(rank):
                    break
            if found is not None:
                (clean, _), way, first = found
                repeat = _repeat(rows, index, level, first)
                return Cut(way.left_out(), way.strips, repeat, clean)
    return None


def _amounts(level: Level, any_: bool) -> range:
    """How many repeats are tried to be left out, the most first; ``any_`` number of them where
    only one will do."""
    keep = max(2, -(-LEAST_KEPT // level.unit))
    most = level.times - keep
    if any_:
        return range(level.times - 1, max(level.times - LEAST_KEPT, 0), -1)
    return range(most, max(most - TRIES, 1), -1)


def _repeat(rows: list[Drawn], index: int, level: Level, first: int) -> Repeat:
    """A repeat as it is written, a little before the strip or else the first one after it, and
    over how much of the edge one goes."""
    row, unit = rows[index].worked, level.unit
    times = level.times - _goes_on_in_its_place(row.made, level)
    before, odd = divmod(first - level.start, unit)
    nth = max(before - 2, 0) if before else int(odd > 0)
    start = level.start + nth * unit
    # What the first one goes over is more or less than what the others do. It is told of the edge
    # that the bracket stands under, the one that the first row drawn is worked into.
    first_row = rows[0].worked
    if any(place.what == "end" for place in first_row.below.tally()):
        sts = _on_row_ends(rows, index, level)
        return Repeat(index, start, unit, times, sts, on_row_ends=True)
    low, high = (place_of(row.made, level.start + n * unit) for n in (1, 2))
    base, under = row.below, (low, high)
    for upper, lower in zip(rows[index:0:-1], rows[index - 1 :: -1], strict=False):
        under = down(lower.worked, upper.worked, under)
    if under[1] > under[0]:
        base, (low, high) = first_row.below, under
    return Repeat(index, start, unit, times, wide(base, low, high))


def _goes_on_in_its_place(made: Runs[Made], level: Level) -> bool:
    """Whether the last of the repeats is the beginning of an increase, and not one of them."""
    end = level.start + level.unit * level.times
    after = next(iter(made.slice(end, min(end + 1, made.length)).expand()), None)
    return after is not None and after.into in TAKES and after.step == 0


def _on_row_ends(rows: list[Drawn], index: int, level: Level) -> int:
    """Over how many stitches a repeat goes where the first row is worked into row ends, which are
    of no one width: of those that the first row makes."""
    made, (one, two) = rows[index].worked.made, (level.start + n * level.unit for n in (1, 2))
    if not index:
        low, high = (made.before(at, leaves) for at in (one, two))
        return wide(rows[0].worked.edge, low, high)
    low, high = place_of(made, one), place_of(made, two)
    base, under = rows[index].worked.below, (low, high)
    for upper, lower in zip(rows[index:1:-1], rows[index - 1 : 0 : -1], strict=True):
        under = down(lower.worked, upper.worked, under)
    if under[1] > under[0]:
        base, (low, high) = rows[1].worked.below, under
    return wide(base, low, high)


def wide(edge: Runs[Place], low: int, high: int) -> int:
    """How many stitches, chains counted, a stretch of an edge is wide."""
    tally = edge.slice(low, high).tally().items()
    return sum((place.chains if place.what == "sp" else 1) * times for place, times in tally)


def beginnings(level: Level, removed: int) -> list[int]:
    """Where a strip of so many repeats may begin, the middle first: a row that goes the other way
    meets it further on or further back, and must be within its own repeats there."""
    spare = (level.times - removed) * level.unit
    whole = [level.start + at for at in range(level.unit, spare, level.unit)]
    halves = [level.start + at for at in range(0, spare + 1, max(level.unit // 2, 1))]
    whole.sort(key=lambda at: abs(2 * at - 2 * level.start - spare))
    every = [level.start + at for at in range(min(spare, MOST_BETWEEN))]
    return list(dict.fromkeys(whole[:MOST_BEGINNINGS] + halves[:MOST_BEGINNINGS] + every))


def all_folded(rows: Iterable[Drawn]) -> list[Drawn]:
    """The rows, each folded."""
    return [Drawn(replace(row.worked, made=folded(row.worked.made)), row.number) for row in rows]


@lru_cache(MOST_ASKED)
def folded(made: Runs[Made]) -> Runs[Made]:
    """The same things with what comes again straight after itself written once, where a row was
    worked on so uneven an edge that its repeats were not seen, or not all of them."""
    pairs = list(made.pairs)
    if not 6 <= len(pairs) <= MOST_FOLDED:
        return made
    for length in range(2, len(pairs) // 3 + 1):
        same = [pairs[i] == pairs[i + length] for i in range(len(pairs) - length)]
        start, run = _longest(same)
        times = run // length + 1
        if times > 2 and times * length * 2 > len(pairs):
            out: Builder[Made] = Builder()
            out.extend(Runs(tuple(pairs[:start])))
            out.repeat(Runs(tuple(pairs[start : start + length])), times)
            out.extend(Runs(tuple(pairs[start + times * length :])))
            return out.done()
    return _grown(made)


def _grown(made: Runs[Made]) -> Runs[Made]:
    """The same things with those beside the repeat in the middle that are the same once more as
    part of it."""
    start, unit, times = next(iter(made.levels(made.length // 2)), Level(0, 0, 0))
    if not 1 < unit <= MOST_GROWN:
        return made
    end, things = start + unit * times, tuple(made.slice(start, start + unit).expand())
    before = made.slice(max(start - 2 * unit, 0), start).reversed()
    back = _as_far(things[::-1], before)
    on = _as_far(things, made.slice(end, min(end + 2 * unit, made.length)))
    whole = (back + on) // unit
    if not whole:
        return made
    start -= back if back // unit + on // unit < whole else back // unit * unit
    out: Builder[Made] = Builder()
    out.extend(made.slice(0, start))
    out.repeat(made.slice(start, start + unit), times + whole)
    out.extend(made.slice(start + unit * (times + whole), made.length))
    return out.done()


def _as_far(things: Sequence[Made], others: Runs[Made]) -> int:
    """How many others are these things over and over."""
    same = (one == things[i % len(things)] for i, one in enumerate(others.expand()))
    return sum(takewhile(bool, same))


def _longest(same: list[bool]) -> tuple[int, int]:
    """Where the longest stretch of yes begins, and how long it is."""
    best, begun, long = 0, 0, 0
    for i, yes in enumerate([*same, False]):
        if not yes:
            if i - begun > long:
                best, long = begun, i - begun
            begun = i + 1
    return best, long


def _candidates(rows: list[Drawn]) -> list[tuple[int, Level]]:
    """The repeats that rows have, the longest first, each with the first row that has it; those
    that take up only a third of a row after those that take up half of one."""
    found: dict[Level, tuple[bool, int]] = {}
    for index, row in enumerate(rows[:MOST_LOOKED_AT]):
        made = row.worked.made
        for at in (made.length // 2, made.length // 3):
            for level in made.levels(at) if made.length else ():
                long = level.times * level.unit
                if level.times > 2 and long * 3 > made.length:
                    found.setdefault(level, (long * 2 <= made.length, index))
    order = sorted(found.items(), key=lambda one: (one[1][0], -one[0].unit, one[1][1]))
    return [(index, level) for level, (_, index) in order[:MOST_CANDIDATES]]


def on_first(rows: Sequence[Drawn], index: int, first: int, after: int) -> Places:
    """A strip that is told as things of one of the rows, as places of the edge that the first row
    meets."""
    made = rows[index].worked.made
    cut = place_of(made, first), place_of(made, after)
    for upper, lower in zip(rows[index:0:-1], rows[index - 1 :: -1], strict=False):
        cut = down(lower.worked, upper.worked, cut)
    return cut


def way_through(rows: Sequence[Drawn], cut: Places) -> Way | None:
    """The way of a strip up through rows from the edge that the first of them meets; None where it
    is not whole repeats of every row."""
    strips: list[LeftOut] = []
    for i, row in enumerate(rows):
        if i:
            if rows[i - 1].worked.edge.length != row.worked.below.length:
                return None
            cut = met(rows[i - 1].worked, row.worked, cut)
        if cut[1] <= cut[0]:
            return None
        strip = strip_at(row.worked, cut)
        if not strip.times or strip.skipped:
            return None
        strips.append(strip)
        cut = strip.above, strip.above + strip.places
    return Way(rows, strips)


def kept(row: WorkedRow, strip: LeftOut) -> int:
    """How many places of the edge met are left of a row without a strip."""
    length = row.below.length
    return length - min(strip.below + strip.met, length) + min(strip.below, length)


def _is_neat(row: WorkedRow, strip: LeftOut) -> bool:
    """Whether a strip begins and ends between stitches that stand on neighbours."""
    made, end = row.made, strip.after + strip.things
    beside = [made.run_at(at)[0] for at in (strip.after - 1, end) if 0 <= at < made.length]
    if any(one.what != "st" or one.into not in TAKES for one in beside):
        return False
    return end >= made.length or beside[-1].step in (0, 1)


def reaches_across(row: WorkedRow, strip: LeftOut) -> bool:
    """Whether the first thing of a row after a strip goes into a place before it."""
    made, end = row.made, strip.after + strip.things
    if end >= made.length:
        return False
    after = made.run_at(end)[0]
    return after.into in TAKES and place_of(made, strip.after) - 1 + after.step < strip.below


def without_strip(rows: list[Drawn]) -> Cut:
    """The same rows without a strip in the middle, that goes up through all of them, where they
    are too wide to be drawn and have no repeat in common."""
    cut = _choose(rows)
    out: list[Drawn] = []
    strips: list[LeftOut | None] = []
    for i, row in enumerate(rows):
        worked = row.worked
        if i:
            cut = met(rows[i - 1].worked, worked, cut)
        if cut[1] <= cut[0]:
            return Cut(rows, [None] * len(rows))
        strip = strip_at(worked, cut)
        out.append(Drawn(trim(worked, strip), row.number))
        strips.append(strip)
        cut = strip.above, strip.above + strip.places
    return Cut(out, strips)


def _choose(rows: list[Drawn]) -> Places:
    """The strip to leave out, as places of the edge that the first row meets."""
    length = rows[0].worked.below.length
    return (KEPT, length - KEPT) if length > 2 * KEPT else (0, 0)
