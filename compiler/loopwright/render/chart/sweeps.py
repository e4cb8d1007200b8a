"""Where the rows of a flat chart come to lie, found by going down and up through them.

Each stitch would stand over what it is worked into and under what is worked into it. Which those
are never changes while the rows are moved, so it is looked up once for each row (a ``Plan``); what
is left to do is adding, and keeping neighbours apart. A row whose wishes are what they were lies
where it is.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from loopwright.frozen import Slotted, field
from loopwright.render.chart.heights import passed
from loopwright.render.chart.links import Ref
from loopwright.render.chart.spots import Layer, Plane, Spot, nearest, spot_at
from loopwright.render.chart.strips import (
    arrange,
    filled,
    first_of_start,
    offset,
    shares_space,
    space_width,
    standing,
    weights_of,
)

Part = tuple[Spot, Spot | None, float, float]


class Mean(Slotted):
    """The mean of several places: each a spot, for a gap the one beside it as well, and how far
    aside the place is from there (by so many whole rounds, and within its space)."""

    parts: list[Part]

    @property
    def s(self) -> float:
        """Where it is now."""
        total = [_part(*part) for part in self.parts]
        return sum(total) / len(total)


def _part(spot: Spot, beside: Spot | None, shift: float, off: float) -> float:
    s = spot.s + shift
    return (s + beside.s) / 2 if beside is not None else s + off


Source = Spot | Mean | None


class Plan(Slotted):
    """A row that is to be moved: its standing spots along ``s``, what each stands on and what
    stands on each, the room between neighbours, and the wishes it was last placed by."""

    layer: Layer
    row: list[Spot]
    feet: list[Source]
    heads: list[Source]
    room: list[float]
    weights: list[float]
    wanted: list[float | None] = field(default_factory=list)

    def settle(self, plane: Plane) -> None:
        """Place the row between what it stands on and what stands on it now."""
        wanted = [
            _wish(foot, head) if head is not None else (None if foot is None else foot.s)
            for foot, head in zip(self.feet, self.heads, strict=True)
        ]
        if not self.row or wanted == self.wanted:
            return
        self.wanted = wanted
        known = filled(self.row, wanted, self.room, 0.0, plane)
        arrange(self.layer, self.row, known, self.weights, self.room, plane)


def _wish(foot: Source, head: Spot | Mean) -> float:
    return head.s if foot is None else (foot.s + head.s) / 2


def plans(layers: Sequence[Layer], plane: Plane) -> list[Plan]:
    """The plans of all rows from the first; the rows must have been placed once."""
    return [_plan(layers, index, plane) for index in range(1, len(layers))]


def _plan(layers: Sequence[Layer], index: int, plane: Plane) -> Plan:
    layer, below = layers[index], layers[:index]
    row = standing(layer)
    offsets = _offsets(layer, below, plane)
    crossed: dict[int, list[Part]] = {
        id(spot): [
            (spot_at(ref, below), None, _turned(ref, below), 0.0) for ref in passed(layer, i)
        ]
        for i, spot in enumerate(layer.spots)
        if spot.kind == "run"
    }
    over = [_feet(spot, layer, below, offsets.get(id(spot), 0.0)) for spot in row]
    feet = [
        _source(found or crossed.get(id(spot), [])) for spot, found in zip(row, over, strict=True)
    ]
    heads_of = heads(layers, index)
    heads_ = [heads_of.get(spot.thing.place) if spot.thing else None for spot in row]
    room = [a.half + a.more + b.half for a, b in pairwise(row)]
    return Plan(layer, row, feet, heads_, room, weights_of(row))


def heads(layers: Sequence[Layer], index: int) -> dict[int, Source]:
    """For each place of a row, what goes into it of the row above."""
    out: dict[int, Source] = {}
    layer = layers[index]
    for spot in layers[index + 1].spots if index + 1 < len(layers) else ():
        if spot.thing is not None and spot.kind != "join":
            for ref in spot.thing.feet:
                if ref.row == index:
                    shift = -(ref.turn * layer.way * layer.round_length)
                    out[ref.place] = _and(out.get(ref.place), spot, shift)
    return out


def _and(source: Source, spot: Spot, shift: float) -> Source:
    """A source with one more spot to it."""
    more: Part = (spot, None, shift, 0.0)
    if source is None:
        return Mean([more]) if shift else spot
    if isinstance(source, Spot):
        return Mean([(source, None, 0.0, 0.0), more])
    return Mean([*source.parts, more])


def _source(parts: list[Part]) -> Source:
    if len(parts) == 1 and parts[0][1:] == (None, 0.0, 0.0):
        return parts[0][0]
    return Mean(parts) if parts else None


def _feet(spot: Spot, layer: Layer, below: Sequence[Layer], off: float) -> list[Part]:
    """What a spot stands on, as it is planted."""
    if spot.thing is None or spot.kind == "join":
        return []
    made = spot.thing.made
    out: list[Part] = []
    if made.what == "skip as" and (first := first_of_start(below[0], layer.way)) is not None:
        out.append((first, None, 0.0, -float(layer.way)))
    for ref in spot.thing.feet:
        if ref.row < len(below):
            beside = None
            if made.into == "gap":
                beside = nearest(below[ref.row], ref.place + (-1 if ref.place else 1))
            out.append((spot_at(ref, below), beside, _turned(ref, below), off))
    return out


def _turned(ref: Ref, below: Sequence[Layer]) -> float:
    """How much further along a place is met than it stands, for how often the join was passed."""
    on = below[ref.row]
    return ref.turn * on.way * on.round_length


def _offsets(layer: Layer, below: Sequence[Layer], plane: Plane) -> dict[int, float]:
    """How far aside those stand that share a space."""
    shared: dict[Ref, list[Spot]] = {}
    for spot in layer.spots:
        if shares_space(spot):
            assert spot.thing is not None
            shared.setdefault(spot.thing.feet[0], []).append(spot)
    return {
        id(spot): offset(i, len(spots), space_width(spot_at(ref, below), plane), layer.way)
        for ref, spots in shared.items()
        for i, spot in enumerate(spots)
    }
