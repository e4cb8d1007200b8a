"""Rows, from the bottom up: right-side rows run from right to left, wrong-side rows back.

Rounds that grow into no disc (a mitten's hand, from a cuff) are drawn the same way, every round
from right to left. Where a row takes in or gives out, the rows above and below it share the slant
between them, so that posts stay as upright as they can.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import pairwise

from loopwright.ir.fabric import Place
from loopwright.render.chart.cutting import LeftOut
from loopwright.render.chart.heights import rise
from loopwright.render.chart.links import Linked
from loopwright.render.chart.spacing import spread
from loopwright.render.chart.spots import At, Layer, Plane, Spot, layer_of
from loopwright.render.chart.strips import STANDING, plant, settle, standing, wishes
from loopwright.render.chart.sweeps import Source, heads, plans
from loopwright.render.chart.tubes import SEAM, cut_open
from loopwright.render.chart.values import STEP, Point
from loopwright.render.chart.waves import STILL

SWEEPS = 5
SETTLED = 0.004  # stitches; a row that moves less lies where it is
OWN_SPARE = 12.0  # more width for rows that begin on a chain of their own, beside the row below
BREAK = 1.6  # the room for the line where a strip is left out


class Flat:
    """The page of rows: a step is a step wherever it is, and all columns lie level unless the
    rows go in a ``wave``."""

    around: float | None = None
    most: float | None = None
    even = 0.0

    def __init__(self, widest: float | None = None) -> None:
        self.widest = widest
        self.wave = STILL

    def metric(self, at: At) -> float:
        return 1.0

    def lack(self, needed: float, level: float) -> float:
        return 0.0

    def page(self, at: At) -> Point:
        return Point(-at.s * STEP, -(at.v + self.wave.at(at.s)) * STEP)

    def snap(self, layer: Layer) -> None:
        """Rows have no corners."""


def base(places: Sequence[Place], way: int, lead: int) -> Layer:
    """The start as a line of places, in the order the first row meets them. The first ``lead``
    are skipped chains: they stand upright beside the others and take no room in the line."""
    spots = [
        Spot("place", 0.4, _room(place), s=float(way * (max(i, lead) - lead)), feet=[At(0.0, -0.4)])
        for i, place in enumerate(places)
    ]
    for spot in spots:
        spot.feet = [At(spot.s, -0.4)]
    return Layer(spots, way, dict(enumerate(spots)), round_length=float(len(places)))


def _room(place: Place) -> float:
    """Half the room of a place of the start: others than chains may be drawn together a little,
    under a first row that has fewer stitches."""
    return 0.5 if place.what == "ch" else 0.43


def lay(
    start: Layer,
    rows: Sequence[Linked],
    lead: int,
    strips: Sequence[LeftOut | None],
    gaps: Sequence[int] = (),
) -> list[Layer]:
    """Place all rows, from the start up, none wider than the one with most in it; where a strip
    is left out, they stand apart. Tubes are cut open at their ``gaps``."""
    own = any(thing.made.into == "own" for row in rows for thing in row.things)
    spare = (BREAK if any(strips) else 0.0) + (OWN_SPARE if own else 0.0)
    spare += 2 * SEAM if gaps else 0.0
    planned = [layer_of(linked) for linked in rows]
    plane = Flat(max(map(_width, planned), default=1.0) + spare)
    layers = [start]
    _part_start(start, lead, strips[0] if strips else None)
    none = [None] * len(rows)
    for layer, strip, gap in zip(planned, strips or none, gaps or none, strict=True):
        if gap:
            cut_open(layer, gap)
        _part(layer, strip)
        _upward(layer, layers, plane)
        layers.append(layer)
    _sweep(layers, lead, plane)
    for index in range(1, len(layers)):
        plant(layers[index], layers[:index], plane)
        rise(layers[index], layers[:index], plane)
    return layers


def _sweep(layers: list[Layer], lead: int, plane: Flat) -> None:
    """Move the rows between those below and above them, until they lie still."""
    planned = plans(layers, plane)
    above = heads(layers, 0)
    for _ in range(SWEEPS):
        before = [spot.s for layer in layers for spot in layer.spots]
        for plan in reversed(planned):
            plan.settle(plane)
        _shift_start(layers[0], lead, above)
        for plan in planned:
            plan.settle(plane)
        after = (spot.s for layer in layers for spot in layer.spots)
        if all(abs(a - b) < SETTLED for a, b in zip(before, after, strict=True)):
            break


def _part(layer: Layer, strip: LeftOut | None) -> None:
    """Keep room for the line where a strip of a row is left out."""
    if strip is None or not strip.things:
        return
    before = [spot for spot in layer.spots[: strip.after] if spot.kind in STANDING]
    after = [spot for spot in layer.spots[strip.after :] if spot.kind in STANDING]
    if before and after:
        (before[-1] if layer.way > 0 else after[0]).more = BREAK


def _part_start(start: Layer, lead: int, strip: LeftOut | None) -> None:
    """The same for the edge that the first row is worked into."""
    if strip is not None and lead < strip.below < len(start.spots):
        start.spots[strip.below - (start.way > 0)].more = BREAK


def _width(layer: Layer) -> float:
    """The room that a row needs."""
    return sum(spot.half * 2 for spot in layer.spots if spot.kind in STANDING)


def _upward(layer: Layer, below: Sequence[Layer], plane: Plane) -> None:
    """Place one row on what it stands on."""
    plant(layer, below, plane)
    row = standing(layer)
    if row:
        settle(layer, row, wishes(layer, row, below), plane)


def _shift_start(start: Layer, lead: int, above: Mapping[int, Source]) -> None:
    """Let the start spread under the first row."""
    line = [*start.spots[max(start.gap, lead) :], *start.spots[lead : start.gap]]
    if start.way < 0:
        line = line[::-1]
    if not line:
        return
    places = {id(spot): place for place, spot in start.at.items()}
    wanted = [(above.get(places.get(id(spot), -1)) or spot).s for spot in line]
    found = spread(
        _drawn_together(wanted, [spot.more for spot in line], 2 * min(spot.half for spot in line)),
        [1.0] * len(line),
        [one.half + two.half + one.more for one, two in pairwise(line)],
    )
    for spot, s in zip(line, found, strict=True):
        spot.s, spot.feet = s, [At(s, -0.4)]
    for spot in start.spots[:lead]:
        spot.s = start.spots[lead].s


def _drawn_together(wanted: list[float], more: list[float], least: float) -> list[float]:
    """Wishes drawn half way to the evenly spaced line that fits them best: the start is one
    piece and has no holes but those that are left ``more`` room for."""
    count = len(wanted)
    holes = [sum(more[:i]) for i in range(count)]
    wishes = [wish - hole for wish, hole in zip(wanted, holes, strict=True)]
    middle, mean = (count - 1) / 2, sum(wishes) / count
    square = sum((i - middle) ** 2 for i in range(count)) or 1.0
    slope = sum((i - middle) * (wish - mean) for i, wish in enumerate(wishes)) / square
    even = [mean + (i - middle) * max(slope, least) for i in range(count)]
    return [(a + b) / 2 + hole for a, b, hole in zip(wishes, even, holes, strict=True)]
