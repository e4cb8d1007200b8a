"""Placing a chart row by row, whatever the shape of the page it comes to lie on.

Each row is planted on the places it is worked into, then settled along its strip: every symbol as
near as may be over its feet, and no two in one another's way.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import accumulate, pairwise

from loopwright.ir.fabric import Made
from loopwright.render.chart.heights import joined, passed, rise
from loopwright.render.chart.links import Ref
from loopwright.render.chart.spacing import spread, spread_closed, spread_round
from loopwright.render.chart.spots import CLOSING, At, Layer, Plane, Spot, met_at, nearest, spot_at

EDGE = 3  # how many stitches at the end of a row are its edge, the turning chain with them
LOOSE = 0.3  # how much further apart than they must they may stand there
JOINED = 0.3  # more of it, where a slip stitch lies there as well
WIDEST_CHAIN = 1.0  # how much of a space that is stretched a chain of it fills
WIDEST_SHARE = 0.9  # how far apart those stand at most that share a space
CLOSEST = 0.82  # the nearest that symbols may stand, as a share of their usual room
STAGGERED_CLOSEST = 0.52  # the same of posts of which every second one reaches further
STAGGERED = 0.75  # by how much
FULL = 0.8  # the share of its usual room from which on a straight side is drawn close
LOWEST = 0.6  # of its usual height, that such a post keeps
BEYOND_FIRST = 1.0  # stitches kept free there in a round that turns
FRILL = 1.5  # a round that must be raised by more than so many of its heights stands closer
POST = 0.15  # how far a post stitch reaches down past the top of the post it goes around
UNEVEN = 0.9  # a turning chain this far from the middle of its row stands as its neighbour does
STANDING = ("stem", "dot", "upright", "run")


def place(layer: Layer, layers: Sequence[Layer], plane: Plane) -> None:
    """Find where a row stands, from the rows already placed below it."""
    plant(layer, layers, plane)
    row = standing(layer)
    if row:
        settle(layer, row, wishes(layer, row, layers), plane)
        plane.snap(layer)
    rise(layer, layers, plane)
    if layer.close < CLOSEST:
        stagger(row)


def standing(layer: Layer) -> list[Spot]:
    """What stands in a row, in the order in which it lies along it."""
    spots = [*layer.spots[layer.gap :], *layer.spots[: layer.gap]]
    row = [spot for spot in spots if spot.kind in STANDING]
    return row if layer.way > 0 else row[::-1]


def stagger(row: list[Spot]) -> None:
    """Bring the posts of a row that stand very close to two levels in turn, so that each is told
    from its neighbours."""
    stems = [spot for spot in row if spot.kind == "stem"]
    level = sum(spot.v - spot.height for spot in stems) / max(len(stems), 1)
    for i, spot in enumerate(stems):
        lowest = max((foot.v for foot in spot.feet), default=spot.v) + spot.height * LOWEST
        spot.v = max(level + spot.height + STAGGERED * (i % 2 - 0.5), lowest)


def wishes(layer: Layer, row: list[Spot], layers: Sequence[Layer]) -> list[float | None]:
    """Where each spot would stand: over its feet; chains over the places they pass over."""
    crossed = {
        id(spot): [met_at(ref, layers) for ref in passed(layer, i)]
        for i, spot in enumerate(layer.spots)
        if spot.kind == "run"
    }
    out: list[float | None] = []
    for spot in row:
        over = [foot.s for foot in spot.feet] or crossed.get(id(spot), [])
        out.append(sum(over) / len(over) if over else None)
    return out


def plant(layer: Layer, layers: Sequence[Layer], plane: Plane) -> None:
    """The feet of every stitch, on the places of the rows below."""
    shared: dict[Ref, list[Spot]] = {}
    for spot in layer.spots:
        spot.feet = []
        if spot.thing is None or spot.kind == "join":
            continue
        if spot.thing.made.what == "skip as":
            spot.feet = _beside_start(layers[0], layer.way)
        for ref in spot.thing.feet:
            if ref.row < len(layers):
                spot.feet.append(_foot(ref, spot.thing.made, layers, layer.way))
        if shares_space(spot):
            shared.setdefault(spot.thing.feet[0], []).append(spot)
    for ref, spots in shared.items():
        width = space_width(spot_at(ref, layers), plane)
        for i, spot in enumerate(spots):
            foot = spot.feet[0]
            aside = offset(i, len(spots), width, layer.way) / plane.metric(foot)
            spot.feet[0] = At(foot.s + aside, foot.v)
    heights = [foot.v for spot in layer.spots for foot in spot.feet if not _is_deep(spot)]
    floor = sum(heights) / len(heights) if heights else _floor(layers)
    for i, spot in enumerate(layer.spots):
        base = floor if _is_deep(spot) else max([foot.v for foot in spot.feet], default=floor)
        if spot.thing and spot.thing.made.into == "own":
            base = _beside(layer, i, floor)
        elif spot.kind == "upright" and not spot.feet:
            near = _beside(layer, i, floor)
            base = near if abs(near - floor) > UNEVEN else floor
        spot.v = base + spot.height + (POST if spot.thing and spot.thing.made.post else 0.0)


def _is_deep(spot: Spot) -> bool:
    """Whether a stitch goes into an earlier row, and is drawn out to the height of its own."""
    return spot.thing is not None and spot.thing.made.into == "deep"


def _beside(layer: Layer, i: int, floor: float) -> float:
    """How high what stands on a row's own chain begins: as high as its neighbour's foot."""
    near = sorted(range(len(layer.spots)), key=lambda k: (abs(k - i), k))
    for k in near:
        if layer.spots[k].feet and not _is_deep(layer.spots[k]):
            return layer.spots[k].feet[0].v
    return floor


def _beside_start(start: Layer, way: int) -> list[At]:
    """Where starting chains stand that count as a stitch: one step before the chain's line."""
    first = first_of_start(start, way)
    return [At(first.s - way, first.v + 0.1)] if first is not None else []


def first_of_start(start: Layer, way: int) -> Spot | None:
    """The place of the start that is met first, if there is one."""
    return min(start.spots, key=lambda spot: spot.s * way, default=None)


def _floor(layers: Sequence[Layer]) -> float:
    return max((spot.v for spot in layers[-1].spots), default=0.0)


def _foot(ref: Ref, made: Made, layers: Sequence[Layer], way: int) -> At:
    """The point a stitch comes from, in a row that goes a certain ``way``."""
    layer = layers[min(ref.row, len(layers) - 1)]
    spot = spot_at(ref, layers)
    s = spot.s + ref.turn * layer.way * layer.round_length
    if made.into == "gap":
        other = nearest(layer, ref.place + (-1 if ref.place else 1))
        return At(s + (other.s - spot.s) / 2, min(spot.v, other.v) - 0.2)
    if 0 < made.chain < len(spot.path):
        # Chains are counted as they are met: a row that goes back meets the last one first.
        path = spot.path if way == layer.way else spot.path[::-1]
        one, two = path[made.chain - 1 : made.chain + 1]
        return At((one.s + two.s) / 2 + s - spot.s, (one.v + two.v) / 2 + 0.2)
    lift = 0.12 if made.loop == "" else 0.3
    return At(s, spot.v + (lift - POST if made.post else 0.22 if made.into == "sp" else lift))


def space_width(spot: Spot, plane: Plane) -> float:
    """How wide a space is, for the stitches that share it."""
    if len(spot.path) < 2:
        return 0.9
    ends = (spot.path[0], spot.path[-1])
    width = abs(ends[1].s - ends[0].s) * plane.metric(At(spot.s, spot.v))
    return min(width, (len(spot.path) - 1) * WIDEST_CHAIN)


def shares_space(spot: Spot) -> bool:
    """Whether a planted spot stands in a space, where others may stand beside it."""
    thing = spot.thing
    if thing is None or thing.made.into != "sp" or thing.made.chain:
        return False
    return len(spot.feet) == 1


def offset(i: int, count: int, width: float, way: int) -> float:
    """How far aside the one of that number stands of so many into one space: they stand beside
    one another in it, and do not meet in a point."""
    return way * (i - (count - 1) / 2) * min(WIDEST_SHARE, width * 0.8 / count)


def settle(layer: Layer, row: list[Spot], wanted: Sequence[float | None], plane: Plane) -> None:
    """Place the spots of a row along it; a row that is too long for its round is raised."""
    room = [one.half + one.more + two.half for one, two in pairwise(row)]
    if plane.most is not None:
        part = layer.close = _squeeze(layer, row, sum(room), plane)
        room = [part * width for width in room]
    _lift(layer, row, sum(room), plane)
    level = level_of(row)
    known = filled(row, wanted, room, level, plane)
    if plane.most is not None:
        ends = row[0].half + row[-1].half
        known = _evened(known, room, ends, plane.most, plane.even)
    scale = [plane.metric(At(s, level)) for s in known]
    gaps = [r * 2 / (a + b) for r, a, b in zip(room, scale, scale[1:], strict=False)]
    arrange(layer, row, known, weights_of(row), gaps, plane, scale[0])
    if plane.around is not None and not plane.even:  # what moved out of a corner needs more room
        scale = [plane.metric(At(spot.s, level)) for spot in row]
        moved = [r * 2 / (a + b) for r, a, b in zip(room, scale, scale[1:], strict=False)]
        gaps = [max(one, two) for one, two in zip(gaps, moved, strict=True)]
        arrange(layer, row, known, weights_of(row), gaps, plane, scale[0])


def weights_of(row: list[Spot]) -> list[float]:
    """How much each spot's wish counts: little where it stands on nothing."""
    return [0.05 if spot.thing and not spot.feet else 1.0 for spot in row]


def arrange(
    layer: Layer,
    row: list[Spot],
    known: list[float],
    weights: list[float],
    gaps: list[float],
    plane: Plane,
    scale: float = 1.0,
) -> None:
    """Place the spots of a row as near to what is ``known`` of their wishes as the ``gaps``
    between them allow; ``scale`` is how long a step of ``s`` is where the row begins."""
    if plane.widest is not None:
        found = spread_round(known, weights, gaps, row[0].half + row[-1].half, plane.widest)
        layer.round_length = plane.widest
        if layer.linked and not layer.linked.worked.is_round:
            _hold_edges(layer, row, found, gaps)
    elif plane.around is not None:
        closing = closing_of(layer, row) / scale
        found = _closed(known, weights, gaps, closing, plane)
        layer.round_length = plane.around
    else:
        found = spread(known, weights, gaps)
        layer.round_length = found[-1] - found[0] + row[0].half + row[-1].half
    for spot, s in zip(row, found, strict=True):
        spot.s = s


def _closed(
    known: list[float],
    weights: list[float],
    gaps: list[float],
    closing: float,
    plane: Plane,
) -> list[float]:
    """A round with room at its join. Where a page has straight sides, what gives way must not lean
    all round."""
    assert plane.around is not None
    if plane.even:
        return spread_round(known, weights, gaps, closing, plane.around)
    return spread_closed(known, weights, gaps, closing, plane.around)


def _hold_edges(layer: Layer, row: list[Spot], found: list[float], gaps: list[float]) -> None:
    """Let the few stitches at the edge of a row stay with it, where it takes in beside them."""
    last = len(row) - 1
    for k in range(1, min(EDGE, last) + 1):
        for outer, inner, gap in ((k - 1, k, k - 1), (last - k + 1, last - k, last - k)):
            made_later = row[max(outer, inner) if layer.way > 0 else min(outer, inner)]
            loose = abs(found[inner] - found[outer]) - gaps[gap] - LOOSE
            chains = "run" in (row[outer].kind, row[inner].kind)
            if loose <= 0 or chains or (made_later.thing and made_later.thing.jumped):
                continue
            edge = range(k) if outer < inner else range(last - k + 1, last + 1)
            for i in edge:
                found[i] += loose if outer < inner else -loose


def level_of(row: list[Spot]) -> float:
    """How high a row stands; chains have no height until their neighbours have."""
    levels = [spot.v for spot in row if spot.kind != "run"] or [row[0].v]
    return sum(levels) / len(levels)


def _evened(
    known: list[float], room: list[float], closing: float, most: float, part: float
) -> list[float]:
    """Wishes drawn towards an even round, so that increases one above another do not leave the
    rest of the disc empty."""
    along = [0.0]
    for width in room:
        along.append(along[-1] + width)
    whole = along[-1] + closing or 1.0
    even = [at / whole * most for at in along]
    shift = sum(a - b for a, b in zip(known, even, strict=True)) / len(even)
    return [a + (b + shift - a) * part for a, b in zip(known, even, strict=True)]


def closing_of(layer: Layer, row: list[Spot]) -> float:
    """The room from the last symbol of a round to its first, for the number of the round."""
    free = layer.free + (JOINED if joined(layer) else 0.0)
    return free + (row[0].half + row[-1].half - 1.0) / 2


def free_beyond_first(layer: Layer) -> None:
    """Keep some room on the far side of the first stitch of a round that turns, where the rounds
    below and above it have their numbers: so first stitches stand on one another. A round that
    moves on begins elsewhere."""
    if layer.linked is None or not layer.linked.worked.turned or layer.linked.worked.shift:
        return
    counted = [spot for spot in layer.spots if spot.thing and spot.thing.nth]
    if len(counted) > 1:
        counted[0 if layer.way > 0 else 1].more = BEYOND_FIRST


def _squeeze(layer: Layer, row: list[Spot], needed: float, plane: Plane) -> float:
    """How near to one another, as a share of their usual room, the symbols of a round stand that
    would have to be raised by much: a frill is drawn closer, so that its posts are less long."""
    closing = closing_of(layer, row) if plane.around is not None else 0.0
    usual = plane.lack(needed + closing, level_of(row))
    spare = FRILL * max(spot.height for spot in row)
    if usual <= spare:
        return 1.0
    closest = closest_of(row)
    close = plane.lack(needed * closest + closing, level_of(row))
    return max(closest, 1.0 - (1.0 - closest) * (usual - spare) / (usual - close))


def closest_of(row: list[Spot]) -> float:
    """The nearest that the symbols of a row may stand: posts alone can be told apart by where they
    end."""
    posts = sum(spot.kind != "stem" for spot in row) <= 1
    return STAGGERED_CLOSEST if posts else CLOSEST


def _lift(layer: Layer, row: list[Spot], needed: float, plane: Plane) -> None:
    """Raise a row until its symbols fit into once around."""
    if plane.most is None:
        return
    if plane.around is not None:
        needed += closing_of(layer, row)
    lack = plane.lack(needed, level_of(row))
    if lack > 0:
        for spot in layer.spots:
            spot.v += lack


def filled(
    row: list[Spot], wanted: Sequence[float | None], room: list[float], level: float, plane: Plane
) -> list[float]:
    """A wish for every spot: those that stand on nothing go between their neighbours."""
    sure = [wish for wish in wanted if wish is not None]
    if len(sure) == len(wanted):
        return sure
    along = list(accumulate(room, initial=0.0))
    if not sure:
        return _even(along, plane, level)
    scale = plane.metric(At(sure[0], level))
    after: list[int | None] = [None] * len(wanted)
    for i in range(len(wanted) - 2, -1, -1):
        after[i] = i + 1 if wanted[i + 1] is not None else after[i + 1]
    out = []
    before: int | None = None
    for i, wish in enumerate(wanted):
        if wish is not None:
            out.append(wish)
            before = i
        else:
            out.append(_between(wanted, along, i, before, after[i], scale))
    return out


def _between(
    wanted: Sequence[float | None],
    along: list[float],
    i: int,
    low: int | None,
    high: int | None,
    scale: float,
) -> float:
    if low is None or high is None:
        near = low if low is not None else high
        assert near is not None
        return (wanted[near] or 0.0) + (along[i] - along[near]) / scale
    part = (along[i] - along[low]) / ((along[high] - along[low]) or 1.0)
    one, two = wanted[low] or 0.0, wanted[high] or 0.0
    return one + (two - one) * part


def _even(along: list[float], plane: Plane, level: float) -> list[float]:
    """A row that stands on nothing (in a ring): spread over the whole round."""
    if plane.most is None:
        return [at / plane.metric(At(0.0, level)) for at in along]
    whole = along[-1] + (CLOSING * 0.8 if plane.around is not None else 0.0)
    return [at / (whole or 1.0) * plane.most for at in along]
