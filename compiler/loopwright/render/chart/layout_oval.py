"""Rounds about a starting chain that is worked along both of its sides: a stadium.

Along the straight sides a step of ``s`` is a stitch; around the ends it is a radian. ``v`` is the
distance from the chain. What is worked around an end stands evenly around it, and a round rises
until it has the room for that.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby
from math import ceil, cos, pi, sin

from loopwright.render.chart.heights import passed, rise
from loopwright.render.chart.layout_rows import BREAK
from loopwright.render.chart.links import Linked
from loopwright.render.chart.sides import Side
from loopwright.render.chart.spots import LONG, At, Layer, Spot, layer_of, spot_at
from loopwright.render.chart.strips import (
    CLOSEST,
    FULL,
    STANDING,
    closest_of,
    closing_of,
    free_beyond_first,
    level_of,
    plant,
    settle,
    stagger,
    wishes,
)
from loopwright.render.chart.values import STEP, Point

CLEAR = 0.12  # how far from its line the chain is worked into
NEAREST = 0.3  # the ends are no sharper than this
BESIDE = 0.5  # how much of the straight sides, in stitches, an end takes in
BEGIN, FAR, BACK = 1, 2, 3  # the ends of an oval, as a round comes to them
SPARE = 0.6  # more room at the join than a disc has, so that the ends are alike

Wishes = list[float | None]


class Oval:
    """The page of an oval about a chain whose first and last place are ``straight`` stitches
    apart, ``parted`` of which are room where it is cut. A round begins at the right, goes along the
    top to the left and back underneath."""

    most: float | None
    around: float | None
    widest: float | None = None
    even = 0.0

    def __init__(self, straight: float, parted: float = 0.0) -> None:
        self.straight = straight
        self.parted = parted
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


def base(chains: int, lead: int, places: int, cut: Sequence[Side] = ()) -> Layer:
    """The starting chain: its places from the hook, and behind them those of its other side; with
    room where they are ``cut``."""
    straight = straight_of(chains, lead, cut)
    spots = []
    for i in range(places):
        # The two sides lie over one another, so that both are parted there.
        before = sum(one.low <= i for one in cut if (one.which == 0) == (i < chains - 1))
        s = _side(i, chains, lead, straight) + BREAK * (before if i != chains - 1 else 0)
        spots.append(Spot("place", s=s, v=CLEAR, end=_end_at(s, straight)))
    for spot in spots:
        spot.feet = [At(spot.s, -0.1)]
    return Layer(spots, 1, dict(enumerate(spots)), round_length=2 * straight + 2 * pi)


def _end_at(s: float, straight: float) -> int:
    """Which end a place of the chain belongs to: where rounds begin, the far one, or where they
    come back to."""
    if s < BESIDE:
        return BEGIN
    if straight - BESIDE < s < straight + pi + BESIDE:
        return FAR
    return BACK if s > 2 * straight + pi - BESIDE else 0


def straight_of(chains: int, lead: int, cut: Sequence[Side]) -> float:
    """How long the straight sides are."""
    return float(chains - 1 - lead) + (BREAK if cut else 0.0)


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
        free_beyond_first(layer)
        _place(layer, layers, oval)
        layers.append(layer)
    return layers


def _place(layer: Layer, layers: Sequence[Layer], oval: Oval) -> None:
    """Find where a round stands: over its places along the sides, evenly around the ends."""
    plant(layer, layers, oval)
    for spot in layer.spots:
        spot.end = _end_of(spot, layers, oval)
    row = [spot for spot in layer.spots if spot.kind in STANDING]
    if layer.way < 0:
        row.reverse()
    row = [part for spot in row for part in _chain_by_chain(spot, layer, layers)]
    length = oval.straight - oval.parted - BESIDE
    close = _closeness(row, length)
    for spot in row:
        spot.half *= close
    _lead_past_ends(row, length)
    if row:
        settle(layer, row, _around_ends(layer, row, wishes(layer, row, layers), oval), oval)
    rise(layer, layers, oval)
    if close < CLOSEST:
        stagger(row)


def _closeness(row: list[Spot], length: float) -> float:
    """How near to one another, as a share of their usual room, the symbols of a round stand that
    has far more of them along a side so long than lie flat."""
    sides = (list(side) for at_end, side in groupby(row, lambda spot: spot.end > 0) if not at_end)
    needed = max((sum(2 * spot.half for spot in side) for side in sides), default=0.0)
    share = length / needed if needed else 1.0
    return 1.0 if share > FULL else max(share, closest_of(row))


def _end_of(spot: Spot, layers: Sequence[Layer], oval: Oval) -> int:
    """Which end a stitch goes around: that of the stitch it stands on; on a run of chains, which
    may go around one, where it lies."""
    feet = spot.thing.feet if spot.thing else ()
    if not feet or not spot.feet or feet[0].row >= len(layers):
        return 0
    below = spot_at(feet[0], layers)
    if below.kind != "run":
        return below.end
    assert oval.around is not None
    return _end_at(spot.feet[0].s % oval.around, oval.straight)


def _lead_past_ends(row: list[Spot], length: float) -> None:
    """Let what does not fit on a side so long go around the ends beside it."""
    sides = [list(side) for at_end, side in groupby(row, lambda spot: spot.end > 0) if not at_end]
    for side in sides:
        first, after = row.index(side[0]) - 1, row.index(side[-1]) + 1
        too_many = ceil(sum(2 * spot.half for spot in side) - length)
        if first < 0 or after >= len(row) or too_many <= 0:
            continue
        early = side[: (too_many + 1) // 2]
        for spot in (*early, *side[len(side) - too_many // 2 :]):
            spot.end = row[first].end if spot in early else row[after].end


def _chain_by_chain(spot: Spot, layer: Layer, layers: Sequence[Layer]) -> list[Spot]:
    """A long run of chains as so many spots over what it passes: it may go around an end."""
    if spot.kind != "run" or spot.thing is None or spot.thing.made.chains < LONG:
        return [spot]
    over = [spot_at(ref, layers) for ref in passed(layer, layer.spots.index(spot))]
    chains = spot.thing.made.chains
    if not over:
        return [spot]
    under = [over[i * len(over) // chains] for i in range(chains)][:: layer.way]
    half = spot.half / chains
    return [Spot("run", half=half, feet=[At(one.s, one.v)], end=one.end) for one in under]


def _around_ends(layer: Layer, row: list[Spot], wanted: Wishes, oval: Oval) -> Wishes:
    """The wishes of a round with those at the two ends spaced evenly; the round is raised until
    the fuller end has room. The join lies in the right end, at the beginning of the row; a round
    that goes back lies once around before it."""
    told = [i for i, wish in enumerate(wanted) if wish is not None]
    assert oval.around is not None
    back = oval.around if layer.way < 0 else 0.0
    if not told or not -pi <= (wanted[told[0]] or 0.0) + back <= pi:
        return wanted
    a, half = oval.straight, len(row) / 2
    left = [i for i in told if row[i].end == FAR]
    left = list(range(left[0], left[-1] + 1)) if left else []
    near = [i for i in told if row[i].end in (BEGIN, BACK)]
    begin = max((i for i in near if i < half), default=told[0] - 1) + 1
    end = min((i for i in near if i > half), default=told[-1] + 1)
    right = [*range(end, len(row)), *range(begin)]
    gap = SPARE + closing_of(layer, row) - row[0].half - row[-1].half
    needed = max(_room(row, left), _room(row, right) + gap)
    lack = (needed - 2 * BESIDE) / pi - max(level_of(row), NEAREST)
    for spot in layer.spots:
        spot.v += max(lack, 0.0)
    level = max(level_of(row), NEAREST)
    out = list(wanted)
    _spaced(out, row, left, a - back, level, len(row), 0.0)
    _spaced(out, row, right, 2 * a + pi - back, level, begin, gap)
    for i in range(begin):
        out[i] = (out[i] or 0.0) - oval.around
    return out


def _room(row: list[Spot], which: Sequence[int]) -> float:
    return sum(2 * row[i].half + row[i].more for i in which)


def _spaced(
    out: Wishes, row: list[Spot], which: list[int], s: float, level: float, first: int, gap: float
) -> None:
    """Space those ``which`` evenly around the end that begins at ``s``, and keep a gap before the
    ``first`` of the row."""
    whole = _room(row, which) + gap
    scale = (2 * BESIDE + pi * level) / whole if whole else 0.0
    at = 0.0
    for n, i in enumerate(which):
        if n and i < which[n - 1]:
            at += gap
        along = (at + row[i].half) * scale - BESIDE
        turned = min(max(along, 0.0), pi * level)
        out[i] = s + turned / level + (along - turned)
        at += 2 * row[i].half + row[i].more
