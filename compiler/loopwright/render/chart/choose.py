"""What is drawn of a part, and in words what is not.

A chart holds so many symbols and no more, whatever the pattern says: a stretch of rows that is
worked over and over is drawn twice and bracketed, a strip out of the middle of long rows is left
out, and rows that no longer fit are named.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from loopwright.ir.fabric import Made, WorkedPart, WorkedRow
from loopwright.ir.runs import Builder, Runs
from loopwright.render.chart.links import LEAVES, TAKES

MOST_SYMBOLS = 4000
MOST_IN_A_ROW = 300
DRAWN_TIMES = 2  # how often a stretch is drawn that is worked more than ALL_TIMES times
ALL_TIMES = 4
KEPT = 24  # places kept at each side of a strip that is left out, more or less


@dataclass(frozen=True, slots=True)
class Stretch:
    """Rows worked one after another so many times; ``number`` is that of the first row the first
    time (0 for a setup row)."""

    rows: tuple[WorkedRow, ...]
    times: int
    number: int

    @property
    def last(self) -> int:
        """The number of its last row the last time."""
        return self.number + len(self.rows) * self.times - 1

    @property
    def alternates(self) -> bool:
        """Whether the right and the wrong side take turns from one time to the next."""
        return self.times > 1 and sum(row.turned for row in self.rows) % 2 == 1

    @property
    def wrong_side(self) -> bool:
        """Whether the last row is worked on the wrong side the last time."""
        return self.rows[-1].wrong_side != (self.alternates and self.times % 2 == 0)

    def copy(self, nth: int) -> tuple[WorkedRow, ...]:
        """The rows as they are worked the ``nth`` time, counted from 0."""
        if not self.alternates or nth % 2 == 0:
            return self.rows
        return tuple(replace(row, wrong_side=not row.wrong_side) for row in self.rows)


@dataclass(frozen=True, slots=True)
class Drawn:
    """A row that is drawn, and its number in the part."""

    worked: WorkedRow
    number: int  # 0 for a setup row


@dataclass(frozen=True, slots=True)
class Over:
    """A stretch that is worked over and over: the first and the last of the rows drawn for it (by
    their index), how many rows it has and how often it is worked."""

    first: int
    last: int
    rows: int
    times: int


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


@dataclass(frozen=True, slots=True)
class Selection:
    """The rows to draw, the stretches to bracket, the strip left out of each row (in step with
    ``rows``; empty where the rows are whole), and the numbers of rows not drawn at all."""

    rows: tuple[Drawn, ...]
    over: tuple[Over, ...]
    strips: tuple[LeftOut | None, ...]
    first_missing: int = 0
    last_missing: int = 0
    start_cut: tuple[int, int] = (0, 0)


def stretches(part: WorkedPart) -> tuple[Stretch, ...]:
    """The rows of a part in stretches, numbered, each row on its side of the work. A stretch
    takes in rows before it that are the same once more."""
    out: list[Stretch] = []
    for rows, times in part.rows:
        last = out[-1].last if out else 0
        wrong = out[-1].wrong_side if out else False
        again = bool(out) and rows[0].number <= last
        sided = tuple(_sides(rows, wrong)) if again else rows
        number = last + 1 if again else rows[0].number
        more = Stretch(sided, times, number)
        while times > 1 and (earlier := _same_before(out, more)) is not None:
            del out[-len(rows) :]
            more = Stretch(earlier.rows, more.times + 1, earlier.number)
        out.append(more)
    return tuple(out)


def _sides(rows: Iterable[WorkedRow], wrong: bool) -> Iterator[WorkedRow]:
    """The rows as worked after a row on a given side."""
    for row in rows:
        wrong = wrong != row.turned
        yield replace(row, wrong_side=wrong)


def _same_before(out: list[Stretch], stretch: Stretch) -> Stretch | None:
    """The same rows worked once, straight before a stretch, as a stretch; None where others
    are."""
    count = len(stretch.rows)
    before = out[-count:]
    if len(before) < count or any(one.times > 1 or len(one.rows) > 1 for one in before):
        return None
    rows = tuple(one.rows[0] for one in before)
    for one, two in zip(rows, stretch.rows, strict=True):
        if (one.made, one.below, one.turned) != (two.made, two.below, two.turned):
            return None
    return Stretch(rows, 1, before[0].number)


def select(part: WorkedPart, may_cut: bool) -> Selection:
    """Choose what to draw; ``may_cut`` where a strip may be left out of the rows."""
    rows, over, total = _stretches(part)
    strips: list[LeftOut | None] = [None] * len(rows)
    cut = (0, 0)
    widest = max((row.worked.made.length for row in rows), default=0)
    if may_cut and (widest > MOST_IN_A_ROW or _cost(rows) > MOST_SYMBOLS):
        rows, strips, cut = _without_strip(part, rows)
    fits = _fitting(rows, may_cut)
    missing = (rows[fits].number, total) if fits < len(rows) else (0, 0)
    kept = tuple(replace(one, last=min(one.last, fits - 1)) for one in over if one.first < fits)
    return Selection(tuple(rows[:fits]), kept, tuple(strips[:fits]), *missing, start_cut=cut)


def _stretches(part: WorkedPart) -> tuple[list[Drawn], list[Over], int]:
    """The rows with long repeats drawn a few times only, as far as they could possibly fit."""
    rows: list[Drawn] = []
    over: list[Over] = []
    total = 0
    for stretch in stretches(part):
        times, number, length = stretch.times, stretch.number, len(stretch.rows)
        shown = times if times <= ALL_TIMES else DRAWN_TIMES
        first = len(rows)
        for nth in range(shown):
            for i, worked in enumerate(stretch.copy(nth)):
                if len(rows) <= MOST_SYMBOLS:
                    rows.append(Drawn(worked, number + nth * length + i))
        if shown < times and first < len(rows):
            over.append(Over(first, len(rows) - 1, length, times))
        total = stretch.last
    return rows, over, total


def _cost(rows: list[Drawn]) -> int:
    return sum(max(row.worked.made.length, 1) for row in rows)


def _fitting(rows: list[Drawn], may_cut: bool) -> int:
    """How many rows, from the first, can be drawn."""
    spent = 0
    for i, row in enumerate(rows):
        length = row.worked.made.length
        spent += max(length, 1)
        if spent > MOST_SYMBOLS or (may_cut and length > MOST_IN_A_ROW):
            return i
        if row.worked.below.length > MOST_SYMBOLS or row.worked.edge.length > MOST_SYMBOLS:
            return i
    return len(rows)


def _without_strip(
    part: WorkedPart, rows: list[Drawn]
) -> tuple[list[Drawn], list[LeftOut | None], tuple[int, int]]:
    """The same rows without a strip in the middle, that goes up through all of them."""
    cut = start_cut = _choose(rows)
    out: list[Drawn] = []
    strips: list[LeftOut | None] = []
    for i, row in enumerate(rows):
        worked = row.worked
        if i:
            cut = _met(rows[i - 1].worked, worked, cut)
        if cut[1] <= cut[0]:
            return rows, [None] * len(rows), (0, 0)
        trimmed, strip, cut = _trim(worked, cut)
        out.append(Drawn(trimmed, row.number))
        strips.append(strip)
    return out, strips, start_cut


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
    return made.what in LEAVES and (made.what != "join" or made.stitch is not None)


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
