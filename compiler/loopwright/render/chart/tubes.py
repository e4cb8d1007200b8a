"""Tubes whose rounds turn: cut open opposite to where the rounds begin, so that they lie flat.

A tube whose rounds all go the same way is cut where they begin. One whose rounds turn, or whose
last round is worked backwards, goes to the left of that place and to the right of it in turn: the
first stitch of every round stands on that of the one below, and the next ones to either side. So
it is cut where repeats are left out, or half way round, and its rounds begin in the middle.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from loopwright.frozen import replace
from loopwright.render.chart.cutting import LeftOut
from loopwright.render.chart.links import Linked, Ref, Thing
from loopwright.render.chart.spots import Layer, way_of
from loopwright.render.chart.stretches import crab
from loopwright.render.chart.strips import standing

ASIDE = 12  # stitches from half way at which a tube may be cut
SEAM = 1.9  # room on either side of the first stitches, in stitches, for numbers and joins


def turning(rows: Sequence[Linked]) -> bool:
    """Whether any round goes back over a round below. Over a row it begins where that ends, and the
    two lie flat together."""
    return any(
        lower.worked.is_round
        and upper.worked.is_round
        and upper.worked.turned != crab(lower.worked)
        for lower, upper in pairwise(rows)
    )


def laid_open(row: Linked) -> Linked:
    """The round with what it goes into where that lies, however often the join was passed."""

    def here(refs: Sequence[Ref]) -> tuple[Ref, ...]:
        return tuple(ref._replace(turn=0) for ref in refs)

    def open_(thing: Thing) -> Thing:
        return replace(thing, feet=here(thing.feet), jumped=here(thing.jumped))

    left = tuple((ref._replace(turn=0), place) for ref, place in row.left)
    return replace(row, things=tuple(map(open_, row.things)), left=left, moved=here(row.moved))


def gaps_of(rows: Sequence[Linked], strips: Sequence[LeftOut | None]) -> tuple[int, ...]:
    """For each round the first of its things after the cut: where a strip is left out, or half way
    round the first and above that in all others, where fewest stitches reach across it."""
    cut = [strip.after for strip in strips if strip is not None]
    if len(cut) == len(rows):
        return tuple(cut)
    half = len(rows[0].things) // 2
    near = [half + aside for aside in sorted(range(-ASIDE, ASIDE + 1), key=abs)]
    tried = [_cut_at(rows, gap) for gap in near if 1 < gap < len(rows[0].things)]
    return min(tried, key=lambda one: one[1], default=((half,) * len(rows), 0))[0]


def _cut_at(rows: Sequence[Linked], first: int) -> tuple[tuple[int, ...], int]:
    """The cut in every round from that in the first, and how many stitches reach across it."""
    gaps: list[int] = []
    across = 0
    left: dict[int, bool] = {}  # whether the stitch that left a place lies left of the beginning
    for index, row in enumerate(rows):
        right_side = way_of(row) > 0
        footed = [i for i, thing in enumerate(row.things) if thing.feet]
        on = {i: {left.get(ref.place, True) for ref in row.things[i].feet} for i in footed}
        # The first and the last stitch may reach over the beginning of the round.
        across += sum(len(on[i]) > 1 for i in footed[1:-1])
        beyond = (i for i in footed[1:] if on[i] != {right_side})
        gap = next(beyond, len(row.things)) if index else first
        left = {
            thing.place: right_side == (i < gap)
            for i, thing in enumerate(row.things)
            if thing.place >= 0
        }
        gaps.append(gap)
    return tuple(gaps), across


def cut_open(layer: Layer, gap: int) -> None:
    """Note where a round is cut, and keep room on either side of its first stitch."""
    layer.gap = gap
    row = standing(layer)
    counted = [spot for spot in row if spot.thing and spot.thing.nth]
    if not counted:
        return
    first = min(counted, key=lambda spot: spot.thing.nth if spot.thing else 0)
    begin = min(row.index(first), row.index(layer.spots[0])) if layer.spots[0] in row else 0
    end = max(row.index(first), row.index(layer.spots[0]) if layer.spots[0] in row else 0)
    for i in (begin - 1, end):
        if 0 <= i < len(row) - 1:
            row[i].more = SEAM


def cut_start(start: Layer, first: Linked, gap: int) -> None:
    """Cut what the first round is worked into where that is cut."""
    after = next((thing.feet[0].place for thing in first.things[gap:] if thing.feet), 0)
    start.gap = after
    for spot in start.spots[after:]:
        spot.s -= start.way * len(start.spots)
