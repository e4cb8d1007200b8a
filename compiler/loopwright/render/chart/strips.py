"""Placing a chart row by row, whatever the shape of the page it comes to lie on.

A row is a strip. Along it runs ``s``, in the direction in which a right-side row is worked (to the
left in rows, anticlockwise in rounds), and up it runs ``v``, away from the beginning. A ``Plane``
says how long a step of ``s`` is and where on the page a point lies; everything else is the same
for rows, rounds and half circles.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from math import hypot, sqrt
from typing import NamedTuple, Protocol

from loopwright.ir.fabric import Made
from loopwright.render.chart.links import Linked, Ref, Thing
from loopwright.render.chart.spacing import spread, spread_round
from loopwright.render.chart.values import Point
from loopwright.trade.stitches import Stitch

CLOSING = 1.7  # room at the join, for the number of the round
CHAIN = 0.62  # the length of a chain along its run
POST = 0.15  # how far a post stitch reaches down past the top of the post it goes around
EVEN = 0.8  # how far a round is evened out, from straight over its places to all alike


class At(NamedTuple):
    """A point of the strips: along, and up."""

    s: float
    v: float


class Plane(Protocol):
    """The shape of the page. ``around`` is the length of a whole round in ``s`` (None for rows
    that have two ends), ``most`` the longest a row may grow in ``s`` before it has to rise."""

    around: float | None
    most: float | None

    def metric(self, at: At) -> float:
        """The length on the page of one step of ``s`` there."""

    def page(self, at: At) -> Point:
        """Where a point of the strips lies on the page."""

    def snap(self, layer: Layer) -> None:
        """Bring the corners of a row to where the page has its corners."""


@dataclass(slots=True)
class Spot:
    """A symbol while it is being placed. ``half`` is half the room it takes along the row."""

    kind: str
    height: float = 0.0
    half: float = 0.5
    thing: Thing | None = None
    s: float = 0.0
    v: float = 0.0
    feet: list[At] = field(default_factory=list)
    path: list[At] = field(default_factory=list)


@dataclass(slots=True)
class Layer:
    """A row while it is being placed: ``way`` is 1 for right side, -1 for wrong side; ``at`` finds
    the spot that left a place; ``round_length`` is what once around it comes to in ``s``."""

    spots: list[Spot]
    way: int
    at: dict[int, Spot]
    linked: Linked | None = None
    round_length: float = 0.0


def height_of(stitch: Stitch) -> float:
    """How high a stitch is drawn, in stitch widths."""
    return 0.35 if stitch.height == 0 else 0.4 + 0.58 * stitch.height


def layer_of(linked: Linked) -> Layer:
    """The spots of a row, not yet placed."""
    spots = [_spot(thing) for thing in linked.things]
    _narrow(spots)
    _widen(spots)
    at = {spot.thing.place: spot for spot in spots if spot.thing and spot.thing.place >= 0}
    return Layer(spots, -1 if linked.worked.wrong_side else 1, at, linked)


def _spot(thing: Thing) -> Spot:
    made = thing.made
    if made.what == "st" and made.stitch is not None:
        kind = "dot" if made.stitch.basic == "slip" else "stem"
        return Spot(kind, height_of(made.stitch), _room(made.stitch), thing)
    if made.what in ("as", "skip as") and made.stitch is not None:
        return Spot("upright", height_of(made.stitch), 0.45, thing)
    if made.what == "turn":
        return Spot("upright", 0.7 * made.chains, 0.4, thing)
    if made.what in ("ch", "open", "hook sp"):
        return Spot("run", 0.0, _run_room(made.chains), thing)
    return Spot(made.what, thing=thing)


def _room(stitch: Stitch) -> float:
    if stitch.many in ("popcorn", "shell"):
        return 0.75
    if stitch.many:
        return 0.6
    return 0.55 if stitch.together > 1 or stitch.unlike else 0.5


def _run_room(chains: int) -> float:
    """Half the room of a run of chains: long ones rise in an arc in place of growing wider."""
    return 0.28 * min(chains, 6) + 0.14 * min(max(chains - 6, 0), 24)


def _narrow(spots: list[Spot]) -> None:
    """Stitches that share a place stand a little closer: they are seen to belong together."""
    for one, two in pairwise(spots):
        if not one.kind == two.kind == "stem" or one.thing is None or two.thing is None:
            continue
        if one.thing.feet == two.thing.feet != ():
            for spot in (one, two):
                spot.half = 0.44 if spot.half <= 0.5 else spot.half


def _widen(spots: list[Spot]) -> None:
    """Chains over as many stitches lie as wide as those."""
    for i, spot in enumerate(spots):
        if spot.kind == "run" and spot.thing:
            on = next((one.thing for one in spots[i + 1 :] if one.thing and one.thing.feet), None)
            passed = len(on.jumped) if on else 0
            spot.half = max(spot.half, 0.5 * min(spot.thing.made.chains, passed))


def place(layer: Layer, layers: Sequence[Layer], plane: Plane) -> None:
    """Find where a row stands, from the rows already placed below it."""
    plant(layer, layers, plane)
    row = [spot for spot in layer.spots if spot.kind in ("stem", "dot", "upright", "run")]
    if layer.way < 0:
        row.reverse()
    if row:
        settle(layer, row, wishes(layer, row, layers), plane)
        plane.snap(layer)
    rise(layer, layers, plane)


def wishes(layer: Layer, row: list[Spot], layers: Sequence[Layer]) -> list[float | None]:
    """Where each spot would stand: over its feet; chains over the places they pass over."""
    passed = {
        id(spot): [_at(ref, layers).s for ref in _passed(layer, i)]
        for i, spot in enumerate(layer.spots)
        if spot.kind == "run"
    }
    out: list[float | None] = []
    for spot in row:
        over = [foot.s for foot in spot.feet] or passed.get(id(spot), [])
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
                spot.feet.append(_foot(ref, spot.thing.made, layers))
        if spot.thing.made.into == "sp" and not spot.thing.made.chain and len(spot.feet) == 1:
            shared.setdefault(spot.thing.feet[0], []).append(spot)
    for ref, spots in shared.items():
        _share(spots, _width(_at(ref, layers), plane), layer.way, plane)
    heights = [foot.v for spot in layer.spots for foot in spot.feet]
    floor = sum(heights) / len(heights) if heights else _floor(layers)
    for spot in layer.spots:
        base = max((foot.v for foot in spot.feet), default=floor)
        spot.v = base + spot.height + (POST if spot.thing and spot.thing.made.post else 0.0)


def _beside_start(start: Layer, way: int) -> list[At]:
    """Where starting chains stand that count as a stitch: one step before the chain's line."""
    if not start.spots:
        return []
    first = min(start.spots, key=lambda spot: spot.s * way)
    return [At(first.s - way, first.v + 0.1)]


def _floor(layers: Sequence[Layer]) -> float:
    return max((spot.v for spot in layers[-1].spots), default=0.0)


def _at(ref: Ref, layers: Sequence[Layer]) -> Spot:
    layer = layers[ref.row] if ref.row < len(layers) else layers[-1]
    return layer.at.get(ref.place) or _nearest(layer, ref.place)


def _nearest(layer: Layer, place: int) -> Spot:
    if not layer.at:
        return layer.spots[0] if layer.spots else Spot("place")
    return layer.at[min(layer.at, key=lambda known: (abs(known - place), known))]


def _foot(ref: Ref, made: Made, layers: Sequence[Layer]) -> At:
    """The point a stitch comes from."""
    layer = layers[min(ref.row, len(layers) - 1)]
    spot = _at(ref, layers)
    s = spot.s + ref.turn * layer.way * layer.round_length
    if made.into == "gap":
        other = _nearest(layer, ref.place + (-1 if ref.place else 1))
        return At((s + other.s) / 2, min(spot.v, other.v) - 0.2)
    if 0 < made.chain < len(spot.path):
        one, two = spot.path[made.chain - 1 : made.chain + 1]
        return At((one.s + two.s) / 2, (one.v + two.v) / 2 + 0.2)
    lift = 0.12 if made.loop == "" else 0.3
    return At(s, spot.v + (lift - POST if made.post else 0.22 if made.into == "sp" else lift))


def _width(spot: Spot, plane: Plane) -> float:
    """How wide a space is, for the stitches that share it."""
    if len(spot.path) < 2:
        return 0.9
    ends = (spot.path[0], spot.path[-1])
    return abs(ends[1].s - ends[0].s) * plane.metric(At(spot.s, spot.v))


def _share(spots: list[Spot], width: float, way: int, plane: Plane) -> None:
    """Stitches into one space stand beside one another in it, and do not meet in a point."""
    count = len(spots)
    step = min(0.45, width * 0.8 / count)
    for i, spot in enumerate(spots):
        foot = spot.feet[0]
        off = way * (i - (count - 1) / 2) * step / plane.metric(foot)
        spot.feet[0] = At(foot.s + off, foot.v)


def settle(
    layer: Layer, row: list[Spot], wanted: Sequence[float | None], plane: Plane
) -> None:
    """Place the spots of a row along it; a row that is too long for its round is raised."""
    room = [one.half + two.half for one, two in pairwise(row)]
    _lift(layer, row, sum(room), plane)
    level = _level(row)
    known = _known(row, wanted, room, level, plane)
    if plane.most is not None:
        known = _evened(known, room, row[0].half + row[-1].half, plane.most)
    scale = [plane.metric(At(s, level)) for s in known]
    gaps = [r * 2 / (a + b) for r, a, b in zip(room, scale, scale[1:], strict=False)]
    weights = [0.05 if spot.thing and not spot.feet else 1.0 for spot in row]
    if plane.around is not None:
        closing = _closing(row) / scale[0]
        found = spread_round(known, weights, gaps, closing, plane.around)
        layer.round_length = plane.around
    else:
        found = spread(known, weights, gaps)
        layer.round_length = found[-1] - found[0] + row[0].half + row[-1].half
    for spot, s in zip(row, found, strict=True):
        spot.s = s


def _level(row: list[Spot]) -> float:
    """How high a row stands; chains have no height until their neighbours have."""
    levels = [spot.v for spot in row if spot.kind != "run"] or [row[0].v]
    return sum(levels) / len(levels)


def _evened(known: list[float], room: list[float], closing: float, most: float) -> list[float]:
    """Wishes drawn towards an even round, so that increases one above another do not leave the
    rest of the disc empty."""
    along = [0.0]
    for width in room:
        along.append(along[-1] + width)
    whole = along[-1] + closing or 1.0
    even = [at / whole * most for at in along]
    shift = sum(a - b for a, b in zip(known, even, strict=True)) / len(even)
    return [a + (b + shift - a) * EVEN for a, b in zip(known, even, strict=True)]


def _closing(row: list[Spot]) -> float:
    return CLOSING + (row[0].half + row[-1].half - 1.0) / 2


def _lift(layer: Layer, row: list[Spot], needed: float, plane: Plane) -> None:
    """Raise a row until its symbols fit into once around."""
    if plane.most is None:
        return
    if plane.around is not None:
        needed += _closing(row)
    for _ in range(40):
        level = _level(row)
        lack = needed / plane.most - plane.metric(At(row[0].s, level))
        if lack <= 1e-6:
            return
        for spot in layer.spots:
            spot.v += lack


def _known(
    row: list[Spot], wanted: Sequence[float | None], room: list[float], level: float, plane: Plane
) -> list[float]:
    """A wish for every spot: those that stand on nothing go between their neighbours."""
    along = [0.0]
    for width in room:
        along.append(along[-1] + width)
    sure = [i for i, wish in enumerate(wanted) if wish is not None]
    if not sure:
        return _even(along, plane, level)
    scale = plane.metric(At(wanted[sure[0]] or 0.0, level))
    out = []
    for i, wish in enumerate(wanted):
        if wish is not None:
            out.append(wish)
            continue
        low = max((k for k in sure if k < i), default=None)
        high = min((k for k in sure if k > i), default=None)
        out.append(_between(wanted, along, i, low, high, scale))
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


def rise(layer: Layer, layers: Sequence[Layer], plane: Plane) -> None:
    """What follows from where the symbols of a row stand along it: a slanted post reaches less
    high, a ring is met straight below, chains span between their neighbours."""
    for spot in layer.spots:
        if spot.thing and not spot.feet and spot.kind != "run":
            _stand(spot, layer)
        elif spot.kind in ("stem", "upright") and spot.feet:
            aside = min(abs(foot.s - spot.s) for foot in spot.feet) * plane.metric(spot.feet[0])
            lean = sqrt(max(0.55, 1 - (aside / (2.2 * max(spot.height, 0.5))) ** 2))
            spot.v -= spot.height * (1 - lean)
    for i, spot in enumerate(layer.spots):
        if spot.kind == "run":
            span_chains(layer, i, layers, plane)
    for i, spot in enumerate(layer.spots):
        if spot.kind not in ("stem", "dot", "upright", "run"):
            hang(layer, i, plane)


def _stand(spot: Spot, layer: Layer) -> None:
    """The foot of what stands on nothing below: a ring, or a spiral's own first stitches."""
    spot.feet = [At(spot.s, spot.v - spot.height)]
    own = layer.at.get(spot.thing.feet[0].place) if spot.thing and spot.thing.feet else None
    if own is not None and own is not spot:
        spot.feet = [At(own.s + layer.way * layer.round_length, own.v + 0.12)]
        spot.v = own.v + 0.12 + spot.height


def hang(layer: Layer, i: int, plane: Plane) -> None:
    """A join goes to the first stitch of its round, a picot to the top of the stitch before it."""
    spot = layer.spots[i]
    standing = [one for one in layer.spots if one.kind in ("stem", "upright", "dot")]
    if not standing:
        return
    if spot.kind != "join":
        before = [one for one in layer.spots[:i] if one.kind in ("stem", "upright", "dot")]
        host = before[-1] if before else standing[0]
        spot.s, spot.v, spot.feet = host.s, host.v + 0.1, [At(host.s, host.v)]
    elif plane.around is not None:
        spot.s, spot.v = standing[0].s, standing[0].v + 0.16
        spot.feet = [At(standing[0].s, standing[0].v)]
    else:
        last = layer.spots[i - 1] if i else standing[-1]
        spot.s = last.s + layer.way * (last.half + 0.35)
        spot.v = last.path[-1].v if last.path else last.v
        spot.feet = [At(spot.s, spot.v)]


def span_chains(layer: Layer, i: int, layers: Sequence[Layer], plane: Plane) -> None:
    """The path of a run of chains from the symbol before it to the one after it: straight where
    there is room, in an arc where there is not, and over whatever it passes."""
    spot = layer.spots[i]
    one, two = _end(layer, i, -1, plane), _end(layer, i, 1, plane)
    chains = spot.thing.made.chains if spot.thing else 1
    metric = plane.metric(At(spot.s, (one.v + two.v) / 2))
    chord = hypot((two.s - one.s) * metric, two.v - one.v)
    spare = max(chains * CHAIN - chord, 0.0)
    sag = sqrt(3 * chord * spare / 8) if spare else 0.0
    over = [_at(ref, layers).v for ref in _passed(layer, i)]
    if over:
        sag = max(sag, max(over) + 0.35 - (one.v + two.v) / 2)
    spot.path = _arc(one, two, sag, chains)
    spot.s = (one.s + two.s) / 2
    spot.v = (one.v + two.v) / 2 + sag


def _passed(layer: Layer, i: int) -> tuple[Ref, ...]:
    """The places that a run of chains passes over: those the next stitch had to jump."""
    for spot in layer.spots[i + 1 :]:
        if spot.kind == "run":
            return ()
        if spot.thing and spot.thing.feet:
            return tuple(ref for ref in spot.thing.jumped if ref.row >= 0)
    return ()


def _end(layer: Layer, i: int, step: int, plane: Plane) -> At:
    """Where a run of chains begins (``step`` -1) or ends (1)."""
    spot = layer.spots[i]
    j = i + step
    while 0 <= j < len(layer.spots) and layer.spots[j].kind in ("join", "picot"):
        j += step
    away = layer.way * step
    if 0 <= j < len(layer.spots):
        near = layer.spots[j]
        top = near.path[-1] if near.path and near.kind == "run" and step < 0 else At(near.s, near.v)
        return At(top.s - away * min(0.34, near.half) / plane.metric(top), top.v)
    ends = [one for one in layer.spots if one.kind in ("stem", "upright", "dot")]
    if plane.around is not None and ends:
        near = ends[0] if step > 0 else ends[-1]
        shift = away * plane.around
        return At(near.s + shift - away * 0.34 / plane.metric(At(near.s, near.v)), near.v)
    level = (ends[0] if step < 0 else ends[-1]).v if ends else spot.v
    return At(spot.s + away * spot.half / plane.metric(At(spot.s, level)), level)


def _arc(one: At, two: At, sag: float, chains: int) -> list[At]:
    """Points along a low arc, evenly spaced along ``s``."""
    out = []
    for k in range(chains + 1):
        part = k / chains
        bow = 4 * part * (1 - part) * sag
        out.append(At(one.s + (two.s - one.s) * part, one.v + (two.v - one.v) * part + bow))
    return out
