"""What stands at the sides of an oval or a border that have repeats left out: a line through the
rounds where they are, and a bracket with how often the repeat is worked along the side."""

from __future__ import annotations

from collections.abc import Iterator

from loopwright.render.chart.layout import Laid
from loopwright.render.chart.sides import Side
from loopwright.render.chart.spots import At, Layer, Spot
from loopwright.render.chart.strips import STANDING
from loopwright.render.chart.times import Times
from loopwright.render.chart.values import STEP, Bracket, Break, Point
from loopwright.render.speaker import said_many

INSIDE = -1.1  # how far inside a piece the brackets of its border lie, in stitches
OUTSIDE = 0.9  # how far outside the last round of an oval
NARROW = 11  # characters of a line of words, inside a border
ENDS = 6.0  # the length of a bracket's ends


def side_brackets(laid: Laid, times: Times) -> Iterator[Bracket]:
    """A bracket at each side that is cut, inside a border and outside an oval."""
    inside = laid.manner == "frame"
    for side in laid.selection.sides:
        if side.row + 1 >= len(laid.layers):
            continue
        layer, row = laid.layers[side.row + 1], laid.selection.rows[side.row].worked
        spots = [
            spot
            for spot in layer.spots[side.first : side.first + side.unit]
            if spot.kind in STANDING
        ]
        if not spots:
            continue
        v = INSIDE if inside else max(s.v for la in laid.layers for s in la.spots) + OUTSIDE
        low, high = min(s.s - s.half for s in spots), max(s.s + s.half for s in spots)
        one, two = (laid.plane.page(At(s, v)) for s in (low, high))
        out = laid.plane.page(At(low, v + (1.0 if inside else -1.0)))
        ends = (round(ENDS * (there - here) / STEP) for here, there in zip(one, out, strict=True))
        often = times.of_bracket(row, side.times)
        words = said_many(
            "{n} st, work {times} times",
            "{n} sts, work {times} times",
            side.sts,
            n=side.sts,
            times=often,
        )
        yield Bracket(one, two, Point(*map(float, ends)), words, widest=NARROW * inside)


def side_breaks(laid: Laid) -> Iterator[Break]:
    """A line out through the rounds at each side that is cut."""
    for side in laid.selection.sides:
        points = list(_through(laid, side))
        if len(points) > 1:
            yield Break(tuple(points))


def _through(laid: Laid, side: Side) -> Iterator[Point]:
    """Where a line goes through the rounds drawn: between what was before the strip left out and
    what was after it."""
    for index, (layer, strip) in enumerate(zip(laid.layers[1:], side.strips, strict=False)):
        if index < laid.skipped or not 0 < strip.after < len(layer.spots):
            continue
        one, two = _beside(layer, strip.after)
        s = (one.s + two.s) / 2
        low = min((foot.v for foot in (*one.feet, *two.feet)), default=one.v - 1)
        if index == laid.skipped:
            yield laid.plane.page(At(s, low - 0.5))
        yield laid.plane.page(At(s, max(one.v, two.v)))


def _beside(layer: Layer, after: int) -> tuple[Spot, Spot]:
    """What stands on either side of a gap."""
    before = [spot for spot in layer.spots[:after] if spot.kind in STANDING]
    then = [spot for spot in layer.spots[after:] if spot.kind in STANDING]
    return (before or layer.spots)[-1], (then or layer.spots)[0]
