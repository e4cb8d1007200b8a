"""Drawing large rounds as a wedge: of every round the same few of its repeats.

A round of six repeats is the same six times over, so that a disc of twenty such rounds says no more
than a third of it. The rounds in its middle stay whole; from some round on whole repeats are left
out of each, and what is left is a part of the circle as it lies: from the beginning of the rounds
on where they all go the same way, and on either side of it where they turn. Rounds are kept in
runs, and so is this: what it costs depends on what was written.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import lru_cache
from math import gcd

from loopwright.frozen import Frozen, replace
from loopwright.ir.fabric import Made, WorkedRow
from loopwright.ir.runs import Level, Runs
from loopwright.render.chart.cutting import (
    MOST_ASKED,
    LeftOut,
    Places,
    leaves,
    left,
    level_at,
    without,
)
from loopwright.render.chart.leave_out import (
    Way,
    all_folded,
    beginnings,
    kept,
    on_first,
    reaches_across,
    way_through,
)
from loopwright.render.chart.links import Edge
from loopwright.render.chart.stretches import Drawn

LARGE = 1000  # from so many symbols on, rounds are no longer drawn whole
LARGE_ROUND = 200  # or from so many in one round: a frill that would not go on a page
CENTRE = 48  # rounds of fewer symbols are drawn whole in the middle of a wedge
FEWEST = 2  # repeats are drawn at least, but where even these are too many
THINNEST = 1 / 8  # of the circle, then
MOST_DRAWN = 0.5  # of a round: where more of it would have to be drawn, it is drawn whole
WORTH = 0.7  # of all symbols: a wedge has no more than these
MOST_TRIALS = 80
MOST_ROUNDS = 400  # more could not be drawn, not even in part
MOST_TRIED = 8000  # rounds, of which strips are tried to be left out
LONGEST = 2000  # things of a repeat
MOST_BESIDE = 4  # repeats beside the bracket of a round that are compared with it
ANYWHERE = -1000  # how far the first stitch of a round is from the one before it


class Wedge(Frozen):
    """Rounds drawn as a wedge: of the drawn rows from ``first`` on, ``drawn`` of ``times`` repeats.
    ``low`` is where what is left out begins on the edge that the round before left; ``repeats``
    are for each round the first of the things that are its last whole repeat, and how many. Of
    rounds that do not all go the same way, ``gaps`` are the first thing after what is left out:
    what comes before it is drawn on one side of the beginning, what comes after on the other.
    Rounds that are ``wound`` begin ever further on, anywhere between the two ends of the wedge."""

    first: int
    drawn: int
    times: int
    low: int
    repeats: tuple[tuple[int, int], ...]
    gaps: tuple[int, ...] = ()
    wound: bool = False

    @property
    def two_ends(self) -> bool:
        """Whether rounds go on at either end of it, and do not begin at the right one."""
        return bool(self.gaps) or self.wound

    @property
    def share(self) -> float:
        """How much of the circle is drawn."""
        return self.drawn / self.times


def wedge_of(
    rows: list[Drawn], costs: Sequence[int], most: int, fan: bool = False
) -> tuple[list[Drawn], Wedge | None]:
    """The rounds with all but a few of their repeats left out, from the first on that allows it;
    as they are where they are no more than a disc holds well, or have no repeats in common.
    ``costs`` are the symbols of each round, and ``most`` how many a chart can hold; a ``fan`` is
    a wedge from the ring on, whatever its size."""
    large = fan or sum(costs) > LARGE or max(costs, default=0) > LARGE_ROUND
    if not large or len(rows) > MOST_ROUNDS or not all(row.worked.is_round for row in rows):
        return rows, None
    whole = all_folded(rows)
    if fan:
        return _fan(whole) or (rows, None)
    found = None
    for least in (FEWEST, 1):
        found = _cut(whole, costs, least) or found
        if found is not None and _cost(found[1], costs) <= most:
            break
    worth = found is not None and _cost(found[1], costs) <= WORTH * sum(costs)
    return found if found is not None and worth else (rows, None)


def _goes_on(row: Drawn) -> bool:
    """Whether a row is a round that goes the way of all rounds."""
    return row.worked.is_round and not (row.worked.turned or row.worked.wrong_side)


def _cost(wedge: Wedge, costs: Sequence[int]) -> float:
    return sum(costs[: wedge.first]) + wedge.share * sum(costs[wedge.first :])


def _cut(rows: list[Drawn], costs: Sequence[int], least: int) -> tuple[list[Drawn], Wedge] | None:
    """The rounds from the first on that can go without all but the fewest repeats, but at least
    so many."""
    trials = 0
    for first in range(1, len(rows)):
        if costs[first] < CENTRE or rows[first].worked.on_ring:
            continue
        tried = set[Places]()
        for strip in _strips(rows[first].worked):
            trials += 1
            if trials > min(MOST_TRIALS, MOST_TRIED // len(rows)):
                return None
            cut = on_first(rows[first:], 0, *strip)
            way = way_through(rows[first:], cut) if cut not in tried else None
            tried.add(cut)
            wedge = _wedge(rows, first, way) if way is not None else None
            if way is not None and wedge is not None and _wide_enough(wedge, least):
                return [*rows[:first], *way.left_out()], wedge
    return None


def _wide_enough(wedge: Wedge, least: int) -> bool:
    """Whether a wedge has so many repeats, and is neither too thin to be read nor half the circle
    and more."""
    thinnest = THINNEST if least > 1 else 0.0
    return wedge.drawn >= least and thinnest <= wedge.share <= MOST_DRAWN


def _fan(rows: list[Drawn]) -> tuple[list[Drawn], Wedge] | None:
    """The rounds with a few repeats of each, those of the ring too; None where the first is not
    of one stitch after another into a ring."""
    ring = rows[0].worked if rows else None
    if ring is None or len(rows) < 2 or not _evenly_in_ring(ring):
        return None
    found = _cut(rows, [CENTRE] * len(rows), FEWEST)
    if found is None or found[1].first != 1:
        return None
    cut, wedge = found
    gone = ring.edge.length - cut[1].worked.below.length
    made = ring.made
    low, high = made.nth(wedge.low, leaves), made.nth(wedge.low + gone - 1, leaves) + 1
    if low < 0 or high <= low or ring.edge.length % wedge.times:
        return None
    trimmed = replace(
        ring,
        made=without(made, low, high),
        edge=without(ring.edge, wedge.low, wedge.low + gone),
    )
    repeats = ((low - 1, (high - low) * wedge.drawn // wedge.times), *wedge.repeats)
    cut[0] = Drawn(trimmed, rows[0].number)
    gaps = (low, *wedge.gaps) if wedge.gaps else ()
    return cut, replace(wedge, first=0, repeats=repeats, gaps=gaps)


def _evenly_in_ring(row: WorkedRow) -> bool:
    """Whether a round is the same stitch into a ring all round, or that and the same chains."""
    stitches = {one.stitch for one in row.made.tally() if one.what in ("st", "as")}
    others = {one.chains for one in row.made.tally() if one.what == "ch"}
    into = {one.into for one in row.made.tally() if one.what in ("st", "as")}
    return into == {"ring"} and len(stitches) == 1 and len(others) <= 1


def _strips(row: WorkedRow) -> Iterator[tuple[int, int]]:
    """The stretches of a round that may be left out, as things of it, the longest first."""
    made = row.made
    for at in (made.length // 2, made.length // 3):
        for level in made.levels(at) if made.length else ():
            if level.times > 1 and level.times * level.unit * 2 > made.length:
                for removed in range(level.times - 1, max(level.times // 3, 1) - 1, -1):
                    for begin in beginnings(level, removed):
                        yield begin, begin + removed * level.unit


def _wedge(rows: Sequence[Drawn], first: int, way: Way) -> Wedge | None:
    """What is drawn of rounds with such a strip left out: how many repeats they have in common."""
    strips = way.strips
    shares = _shares(rows[first:], strips)
    if shares is None or rows[first - 1].worked.edge.length != rows[first].worked.below.length:
        return None
    times, gone = shares
    worked = [row.worked for row in rows[first:]]
    if not all(_alike(*one) for one in zip(worked, strips, strict=True)):
        return None
    gaps: tuple[int, ...] = ()
    if not all(map(_goes_on, rows[first:])):
        gaps = tuple(strip.after for strip in strips)
        if any(reaches_across(*one) for one in way.pairs()):
            return None
    beside = zip(worked, strips, gaps or [0] * len(strips), strict=True)
    repeats = [_repeat(*one, gone) for one in beside]
    below = strips[0].below
    met = below, below + worked[0].below.length - kept(worked[0], strips[0])
    low, high = left(rows[first - 1].worked, worked[0], met)
    if high <= low or None in repeats:
        return None
    told = tuple(one for one in repeats if one is not None)
    return Wedge(first, times - gone, times, low, told, gaps)


def _shares(rows: Sequence[Drawn], strips: Sequence[LeftOut]) -> tuple[int, int] | None:
    """How many repeats rounds have in common, and how many of those are left out; None where they
    are not left out in whole."""
    counts, removed = [], []
    for row, strip in zip(rows, strips, strict=True):
        length = row.worked.edge.length
        if not strip.places or length * strip.times % strip.places:
            return None
        counts.append(length * strip.times // strip.places)
        removed.append(strip.times)
    times = gcd(*counts)
    left_out = {part * times / count for part, count in zip(removed, counts, strict=True)}
    if len(left_out) > 1 or (gone := left_out.pop()) != int(gone):
        return None
    return times, int(gone)


def _alike(row: WorkedRow, strip: LeftOut) -> bool:
    """Whether a round is all round the same repeat that a strip of it is made of."""
    level = level_at(row.made, strip.after, strip.after + strip.things)
    return level is not None and level.unit <= LONGEST and _all_round(row.made, level)


@lru_cache(MOST_ASKED)
def _all_round(made: Runs[Made], level: Level) -> bool:
    """Whether what stands before and after a bracket is whole repeats of it too, but that the first
    may begin with a chain that counts."""
    end = level.start + level.unit * level.times
    if level.start + made.length - end > MOST_BESIDE * level.unit + MOST_BESIDE:
        return False
    head = _kinds(made.slice(0, level.start), start=True)
    rest = _kinds(made.slice(end, made.length)) + head
    unit = _kinds(made.slice(level.start, level.start + level.unit))
    if not unit or len(rest) % len(unit):
        return False
    return all(map(_same, rest, unit * (len(rest) // len(unit))))


def _kinds(made: Runs[Made], start: bool = False) -> list[Made]:
    """Things without what does not matter here; those that are in no repeat are left out. At the
    start of a round the first may go on from anywhere."""
    out: list[Made] = []
    for one in made.expand():
        if one.what not in ("turn", "join"):
            what = {"as": "st", "join sp": "ch"}.get(one.what, one.what)
            chains = one.chains if one.what == "ch" else 0
            step = ANYWHERE if start and not out else one.step
            out.append(
                Made(what, one.stitch, chains, one.into, step, one.also, one.chain, one.post)
            )
    return out


def _same(one: Made, two: Made) -> bool:
    if one.what == "ch" == two.what and not one.chains:
        return True
    if one.step == ANYWHERE:
        return one.stitch == two.stitch
    return one == two


def _repeat(row: WorkedRow, strip: LeftOut, gap: int, gone: int) -> tuple[int, int] | None:
    """The last whole repeat of a round that is drawn, which has no beginning of a round in it. Of
    rounds that turn it lies on one side of the ``gap``, and may have the beginning in it where
    there is no other; None where there is none at all."""
    level = level_at(row.made, strip.after, strip.after + strip.things)
    unit = strip.things // gone
    start, end = (level.start, level.unit * level.times) if level else (0, row.made.length)
    last = max(start + end - strip.things - unit, start)
    if not gap:
        return last, unit
    kept = row.made.length - strip.things
    for first, least, most in ((last, gap, kept), (gap - unit, start, gap), (gap, gap, kept)):
        if least <= first and first + unit <= most:
            return first, unit
    return (gap - unit, unit) if gap >= unit else None


def met_by_wedge(edge: Edge, wedge: Wedge, count: int) -> Edge:
    """The edge of the last whole round as the wedge meets it, which goes into ``count`` places:
    what follows the gap stands on the places straight after those before it, where it is drawn;
    on its own places where it is drawn on the other side of the beginning."""
    after = wedge.low + len(edge) - count
    if wedge.gaps:
        return [*edge[: wedge.low], *edge[after:]]
    places = [place for _, place in (*edge[: wedge.low], *edge[after:])]
    return [(ref, place) for (ref, _), place in zip(edge, places, strict=False)]
