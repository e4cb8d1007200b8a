"""Leaving repeats out of the long straight sides of an oval or a border, the corners whole.

Along a side of a border, or of a chain that is worked along both its sides, rounds go straight on:
what is left out of one is left out of all that lie beyond it. Opposite sides are shortened alike,
so that what is left has the shape of the whole.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from loopwright.frozen import Frozen, replace
from loopwright.ir.fabric import WorkedRow
from loopwright.render.chart.cutting import LeftOut, Places, first_at, place_of
from loopwright.render.chart.leave_out import (
    LEAST_KEPT,
    Way,
    all_folded,
    reaches_across,
    way_through,
    wide,
)
from loopwright.render.chart.stretches import Drawn

LONG = 36  # from so many places on, a side is drawn with a few of its repeats only
MOST_FEWER = 24  # repeats fewer that are tried
MOST_BESIDE = 6  # places to either side of the middle at which a strip may lie
MOST_TRIED = 4000  # rounds, of which strips are tried to be left out
ALL_ALONG = 0.75  # of a side: how much of it the repeat of every round takes up

Pair = tuple[Places, Places]


class Side(Frozen):
    """A side with repeats left out: the strip of each round drawn, ``low`` the first place of the
    start after it, ``gone`` how many of its places are left out; and the repeat that is drawn a few
    times only: of which round, how many things it has from ``first`` on, how often it comes along
    the side and how many stitches of the start it goes over. ``which`` side it is, from that where
    the rounds begin."""

    which: int
    strips: tuple[LeftOut, ...]
    low: int
    gone: int
    row: int
    first: int
    unit: int
    times: int
    sts: int


def without_sides(
    rows: list[Drawn], pairs: Sequence[Pair], longest: int = LONG
) -> tuple[list[Drawn], tuple[Side, ...]]:
    """The rounds with whole repeats left out of the sides that have more than ``longest`` places.
    ``pairs`` are opposite sides, each as the places from one up to another that the first round
    meets there. The rounds as they are where their repeats do not go together."""
    if not rows or not all(row.worked.is_round for row in rows):
        return rows, ()
    whole = all_folded(rows)
    found = []
    for nth, pair in enumerate(pairs):
        if max(high - low for low, high in pair) > longest:
            for side, cut in zip((nth, nth + len(pairs)), _pair(whole, pair), strict=False):
                found.append((cut, pair[side != nth], side))
    return _cut_all(whole, rows, sorted(found, reverse=True))


def _cut_all(
    whole: list[Drawn], rows: list[Drawn], found: Sequence[tuple[Places, Places, int]]
) -> tuple[list[Drawn], tuple[Side, ...]]:
    """The rounds with all these strips left out, the last first, so that the others stay where
    they are on the start."""
    now, sides = whole, list[Side]()
    for cut, side, which in found:
        way = way_through(now, cut)
        if way is None:
            return rows, ()
        told = _side(way, cut, side, which)
        sides = [_earlier(one, told) for one in sides]
        sides.append(told)
        now = way.left_out()
    return (now if sides else rows), tuple(sides)


def _earlier(side: Side, cut: Side) -> Side:
    """A side that lies further on, or back in rounds that go the other way, once another is cut."""
    strips = tuple(
        replace(one, after=one.after - two.things) if one.after > two.after else one
        for one, two in zip(side.strips, cut.strips, strict=True)
    )
    moved = side.strips[side.row].after - strips[side.row].after
    low = side.low - (cut.gone if cut.low < side.low else 0)
    return replace(side, strips=strips, first=side.first - moved, low=low)


def _pair(rows: list[Drawn], pair: Pair) -> tuple[Places, ...]:
    """What may be left out of both of two opposite sides; nothing where that is not the same."""
    tried = 0
    (low, high), (other, _) = pair
    for cut in _cuts(rows[0].worked, (low, high)):
        tried += len(rows)
        if tried > MOST_TRIED:
            break
        if not _straight(rows, cut, high - low):
            continue
        opposite = other + high - cut[1], other + high - cut[0]
        if _straight(rows, opposite, pair[1][1] - other):
            return cut, opposite
    return ()


def _cuts(row: WorkedRow, side: Places) -> Iterator[Places]:
    """Whole repeats of the first round along a side, the most first, in the middle of it."""
    made = row.made
    for level in made.levels(first_at(made, sum(side) // 2)):
        one, two = place_of(made, level.start), place_of(made, level.start + level.unit)
        unit = two - one
        if level.times < 3 or unit < 1:
            continue
        first = max(-(-(side[0] + 1 - one) // unit), 0)
        times = min((side[1] - 1 - one) // unit, level.times) - first
        kept = max(2, -(-LEAST_KEPT // level.unit))
        for removed in range(times - kept, max(times - kept - MOST_FEWER, 0), -1):
            begin = one + (first + (times - removed) // 2) * unit
            for aside in sorted(range(-MOST_BESIDE, MOST_BESIDE + 1), key=abs):
                at = begin + aside
                if side[0] < at and at + removed * unit < side[1]:
                    yield at, at + removed * unit


def _straight(rows: list[Drawn], cut: Places, length: int) -> bool:
    """Whether every round goes straight on over a strip of a side so long, with a repeat that goes
    on all along the side."""
    way = way_through(rows, cut)
    if way is None or any(reaches_across(*one) for one in way.pairs()):
        return False
    return all(
        strip.all_times * (cut[1] - cut[0]) >= ALL_ALONG * length * strip.times
        for strip in way.strips
    )


def _side(way: Way, cut: Places, side: Places, which: int) -> Side:
    """A side with its strips, and the largest repeat that lies along it."""
    strips = tuple(way.strips)
    gone, length = cut[1] - cut[0], side[1] - side[0]
    along = [i for i, one in enumerate(strips) if one.all_times * gone <= length * one.times]
    row = max(along or [0], key=lambda i: (strips[i].unit, -i))
    strip = strips[row]
    times = strip.all_times if along else length * strip.times // gone
    sts = wide(way.rows[0].worked.below, *cut) // strip.times
    return Side(which, strips, cut[0], gone, row, strip.after - strip.unit, strip.unit, times, sts)
