"""Rounds about a starting chain that is worked along both of its sides: a stadium.

Along the straight sides a step of ``s`` is a stitch; around the ends it is a radian. ``v`` is the
distance from the chain.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, pi, sin

from loopwright.render.chart.links import Linked
from loopwright.render.chart.spots import At, Layer, Spot, layer_of
from loopwright.render.chart.strips import place
from loopwright.render.chart.values import STEP, Point

CLEAR = 0.12  # how far from its line the chain is worked into
NEAREST = 0.3  # the ends are no sharper than this


class Oval:
    """The page of an oval about a chain whose first and last place are ``straight`` stitches
    apart. A round begins at the right, goes along the top to the left and back underneath."""

    most: float | None
    around: float | None
    widest: float | None = None
    even = 0.0

    def __init__(self, straight: float) -> None:
        self.straight = straight
        self.around = self.most = 2 * straight + 2 * pi

    def metric(self, at: At) -> float:
        s = at.s % (2 * self.straight + 2 * pi)
        along = s <= self.straight or 0 <= s - self.straight - pi <= self.straight
        return 1.0 if along else max(at.v, NEAREST)

    def lack(self, needed: float, level: float) -> float:
        return (needed - 2 * self.straight) / (2 * pi) - max(level, NEAREST)

    def page(self, at: At) -> Point:
        a = self.straight
        s = at.s % (2 * a + 2 * pi)
        if s <= a:
            return _point(a / 2 - s, at.v)
        if s <= a + pi:
            return _around(-a / 2, pi / 2 + s - a, at.v)
        if s <= 2 * a + pi:
            return _point(-a / 2 + s - a - pi, -at.v)
        return _around(a / 2, -pi / 2 + s - 2 * a - pi, at.v)

    def snap(self, layer: Layer) -> None:
        """Ovals have no corners."""


def _point(x: float, y: float) -> Point:
    return Point(x * STEP, -y * STEP)


def _around(x: float, angle: float, v: float) -> Point:
    return _point(x + cos(angle) * v, sin(angle) * v)


def base(chains: int, lead: int, places: int) -> Layer:
    """The starting chain: its places from the hook, and behind them those of its other side."""
    straight = float(chains - 1 - lead)
    spots = [Spot("place", s=_side(i, chains, lead, straight), v=CLEAR) for i in range(places)]
    for spot in spots:
        spot.feet = [At(spot.s, -0.1)]
    return Layer(spots, 1, dict(enumerate(spots)), round_length=2 * straight + 2 * pi)


def _side(i: int, chains: int, lead: int, straight: float) -> float:
    """Where a place of the chain lies along the oval: the last chain at the left end."""
    if i < chains - 1:
        return float(max(i, lead) - lead)
    if i == chains - 1:
        return straight + pi / 2
    return straight + pi + 1 + (i - chains)


def lay(start: Layer, rows: Sequence[Linked], oval: Oval) -> list[Layer]:
    """Place all rounds about the chain."""
    layers = [start]
    for linked in rows:
        layer = layer_of(linked)
        place(layer, layers, oval)
        layers.append(layer)
    return layers
