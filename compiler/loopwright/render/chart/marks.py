"""What stands beside the symbols: row numbers, brackets for repeats, lines at strips left out."""

from __future__ import annotations

from collections.abc import Iterator

from loopwright.render.chart.choose import Over
from loopwright.render.chart.heights import joined
from loopwright.render.chart.layout import Laid
from loopwright.render.chart.spots import At, Layer, Spot
from loopwright.render.chart.times import Times
from loopwright.render.chart.values import STEP, Bracket, Break, Mark, Point
from loopwright.render.speaker import phrase, said, said_many

# A row or several, a round or several.
_WORKED = (
    (
        phrase("row {first}: work {times} times in all"),
        phrase("rows {first} to {last}: work {times} times in all"),
    ),
    (
        phrase("round {first}: work {times} times in all"),
        phrase("rounds {first} to {last}: work {times} times in all"),
    ),
)


def mark(layer: Layer, laid: Laid, yarns: list[str]) -> Mark:
    """The number of a row, before its first symbol."""
    assert layer.linked is not None
    first = next((s for s in layer.spots if s.kind != "join"), layer.spots[0])
    base = first.feet[0] if first.feet else At(first.s, first.v - 0.5)
    level = (base.v + first.v) / 2
    s = (base.s + first.s) / 2
    metric = laid.plane.metric(At(s, first.v))  # where the row was spaced
    out = 1.05 if laid.plane.around is None or joined(layer) else 0.85
    if layer is laid.layers[1] and laid.lead and first.kind != "upright":
        out += 1.0
    at = laid.plane.page(At(s - layer.way * out / metric, level))
    toward = laid.plane.page(At(s - layer.way * (out - 0.1) / metric, level))
    made = first.thing.made.yarn if first.thing else ""
    yarn = yarns.index(made) if made in yarns else 0
    return Mark(
        str(layer.linked.number) if layer.linked.number else said("setup"), at, toward, yarn
    )


def changes(layer: Layer, laid: Laid, yarns: list[str]) -> Iterator[Mark]:
    """A letter over each stitch at which the yarn changes within a row."""
    before = ""
    for spot in layer.spots:
        yarn = spot.thing.made.yarn if spot.thing else ""
        if yarn in yarns and before and yarn != before:
            at = laid.plane.page(At(spot.s, spot.v + 0.3))
            yield Mark("", at, at, yarns.index(yarn))
        before = yarn or before


def brackets(laid: Laid, times: Times) -> Iterator[Bracket]:
    """A bracket beside each stretch of rows that is worked over and over, and one below the
    repeat that is drawn a few times only."""
    yield from _repeat_bracket(laid, times)
    for over in laid.selection.over:
        if over.first < laid.skipped:
            continue
        rows = laid.layers[over.first + 1 : over.last + 2]
        spots = [spot for row in rows for spot in row.spots]
        if not spots:
            continue
        low = min((foot.v for spot in spots for foot in spot.feet), default=0.0)
        high = max(spot.v for spot in spots)
        one, two = _beside(laid, low, high)
        yield Bracket(one, two, Point(-6.0, 0.0), _over_words(laid, over, times))


def _over_words(laid: Laid, over: Over, times: Times) -> str:
    """The rows by their numbers, and how often they are worked."""
    rows = laid.selection.rows[over.first : over.first + over.rows]
    first, last = rows[0].number, rows[-1].number
    worked = tuple(row.worked for row in rows)
    what = _WORKED[rows[0].worked.is_round][over.rows != 1]
    often = times.of_rows(worked, over.times)
    return said(what, first=f"{first:,}", last=f"{last:,}", times=often)


def _beside(laid: Laid, low: float, high: float) -> tuple[Point, Point]:
    """Where the bracket of rows from one height to another stands: to the right of all rows. That
    of rounds stands as high as they are at the top of the chart."""
    if laid.plane.around is None:
        edge = min(min(s.s for s in layer.spots) for layer in laid.layers if layer.spots)
        return laid.plane.page(At(edge - 2.6, low)), laid.plane.page(At(edge - 2.6, high))
    round_ = [laid.plane.page(At(s.s, s.v)) for layer in laid.layers for s in layer.spots]
    right = max(point.x for point in round_) + 1.2 * STEP
    return Point(right, laid.plane.page(At(0.0, low)).y), Point(
        right, laid.plane.page(At(0.0, high)).y
    )


def _repeat_bracket(laid: Laid, times: Times) -> Iterator[Bracket]:
    """The repeat that is drawn a few times only, below the chart."""
    repeat = laid.selection.repeat
    if repeat is None or repeat.row + 1 >= len(laid.layers):
        return
    layer, row = laid.layers[repeat.row + 1], laid.selection.rows[repeat.row].worked
    spots = layer.spots[repeat.first : repeat.first + repeat.unit]
    feet = [foot.s for spot in spots for foot in spot.feet] or [spot.s for spot in spots]
    end = max(foot * layer.way for foot in feet) + 0.5
    low, high = sorted((end * layer.way, (end - repeat.sts) * layer.way))
    under = max(laid.plane.page(At(spot.s, -1.0)).y for spot in laid.layers[0].spots)
    one, two = (Point(laid.plane.page(At(s, 0.0)).x, under) for s in (high, low))
    often = times.of_bracket(row, repeat.times)
    words = said_many(
        "{n} st, work {times} times",
        "{n} sts, work {times} times",
        repeat.sts,
        n=repeat.sts,
        times=often,
    )
    yield Bracket(one, two, Point(0.0, -6.0), words)


def breaks(laid: Laid) -> Iterator[Break]:
    """A line up through the rows where a strip is left out of them."""
    points: list[Point] = []
    if not laid.selection.clean:
        return
    for layer, strip in zip(laid.layers[1:], laid.selection.strips, strict=False):
        if strip is None or not 0 < strip.after < len(layer.spots):
            continue
        one, two = layer.spots[strip.after - 1], layer.spots[strip.after]
        low = min((foot.v for foot in (*one.feet, *two.feet)), default=one.v - 1)
        if not points:
            points.append(laid.plane.page(At(_gap(one, two), low - 0.5)))
        points.append(laid.plane.page(At(_gap(one, two), max(one.v, two.v))))
    if points:
        yield Break(tuple(points))


def _gap(one: Spot, two: Spot) -> float:
    """The middle of what is free between two neighbours."""
    first, then = (one, two) if one.s < two.s else (two, one)
    return (first.s + first.half + then.s - then.half) / 2
