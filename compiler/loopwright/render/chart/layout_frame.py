"""Borders: rounds about all four edges of a piece, drawn around it as they lie on it.

The piece is a rectangle with its last row at the top. Along its sides a step of ``s`` is a stitch;
around its corners it is a radian. ``v`` is the distance from the piece.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import accumulate
from math import cos, pi, sin

from loopwright.render.chart.layout_rows import BREAK
from loopwright.render.chart.links import Linked
from loopwright.render.chart.sides import Side
from loopwright.render.chart.spots import OUTERMOST, At, Layer, Spot, layer_of
from loopwright.render.chart.strips import (
    CLOSEST,
    FULL,
    STANDING,
    closest_of,
    place,
    plant,
    stagger,
    standing,
)
from loopwright.render.chart.values import STEP, Point

NEAREST = 0.3  # corners are no sharper than this
QUARTER = pi / 2


class Frame:
    """The page around a rectangle so many stitches wide and high. A round begins at the top right
    and goes along the top to the left, down, along the bottom and up."""

    most: float | None
    around: float | None
    widest: float | None = None
    even = 0.0

    def __init__(self, wide: float, high: float) -> None:
        self.sides = (wide, high, wide, high)
        self.starts = tuple(accumulate((side + QUARTER for side in self.sides), initial=0.0))
        self.around = self.most = self.starts[-1]

    def side_of(self, s: float) -> tuple[int, float]:
        """The side at ``s``, and how far along it; past its end it is the corner."""
        s %= self.starts[-1]
        side = max(i for i in range(4) if s >= self.starts[i])
        return side, s - self.starts[side]

    def metric(self, at: At) -> float:
        side, along = self.side_of(at.s)
        return 1.0 if along <= self.sides[side] else max(at.v, NEAREST)

    def lack(self, needed: float, level: float) -> float:
        return (needed - sum(self.sides)) / (2 * pi) - max(level, NEAREST)

    def page(self, at: At) -> Point:
        side, along = self.side_of(at.s)
        wide, high = self.sides[:2]
        x, y = ((wide, high), (0.0, high), (0.0, 0.0), (wide, 0.0))[side]  # where it begins
        turn = QUARTER * (side + 1)  # the way out from it
        straight = min(along, self.sides[side])
        x, y = x - sin(turn) * straight, y + cos(turn) * straight
        turn += max(along - straight, 0.0)
        return Point((x + cos(turn) * at.v) * STEP, -(y + sin(turn) * at.v) * STEP)

    def snap(self, layer: Layer) -> None:
        """Its corners are where they are."""


def frame_of(sides: Sequence[int], first: Linked, cut: Sequence[Side] = ()) -> Frame:
    """The page for a piece with so many places on each side: as long as they are, or as what is
    worked into them needs; those that are ``cut`` with room for that."""
    rooms = [float(max(count, 1)) for count in sides]
    ends = list(accumulate(sides))
    worked = [0.0] * 4
    side = 0
    for spot in layer_of(first).spots:
        feet = spot.thing.feet if spot.thing else ()
        if feet and feet[0].row == 0:
            side = next((i for i, end in enumerate(ends) if feet[0].place < end), 3)
        if spot.kind in STANDING:
            worked[side] += 2 * max(spot.half, 0.5)
    rooms = [max(room, need) for room, need in zip(rooms, worked, strict=True)]
    for one in cut:
        rooms[one.which] += BREAK
    return Frame(max(rooms[0], rooms[2]), max(rooms[1], rooms[3]))


def base(sides: Sequence[int], frame: Frame, cut: Sequence[Side] = ()) -> Layer:
    """The places of the four edges, evenly along their sides but where these are ``cut``."""
    spots: list[Spot] = []
    low = {one.which: one.low for one in cut}
    for i, count in enumerate(sides):
        step = (frame.sides[i] - BREAK * (i in low)) / max(count, 1)
        after = low.get(i, sum(sides)) - len(spots)
        spots += [
            Spot("place", s=frame.starts[i] + (k + 0.5) * step + BREAK * (k >= after))
            for k in range(count)
        ]
    for spot in spots:
        spot.feet = [At(spot.s, -0.4)]
    return Layer(spots, 1, dict(enumerate(spots)), round_length=frame.starts[-1])


def _closeness(layer: Layer, layers: Sequence[Layer], frame: Frame) -> float:
    """How near to one another, as a share of their usual room, the symbols of a round stand that
    has far more of them along a side than lie flat."""
    plant(layer, layers, frame)
    needed = [0.0] * 4
    for spot in standing(layer):
        if spot.feet:
            side, along = frame.side_of(spot.feet[0].s)
            needed[side] += 2 * spot.half if along <= frame.sides[side] else 0.0
    shares = [side / need for side, need in zip(frame.sides, needed, strict=True) if need]
    share = min(shares, default=1.0)
    return 1.0 if share > FULL else max(share, closest_of(standing(layer)))


def lay(start: Layer, rows: Sequence[Linked], frame: Frame) -> list[Layer]:
    """Place all rounds about the piece."""
    layers = [start]
    for index, linked in enumerate(rows, start=1):
        layer = layer_of(linked)
        if index == len(rows):
            layer.free = OUTERMOST
        close = _closeness(layer, layers, frame)
        for spot in layer.spots:
            spot.half *= close
        place(layer, layers, frame)
        if close < CLOSEST:
            stagger(standing(layer))
        layers.append(layer)
    return layers
