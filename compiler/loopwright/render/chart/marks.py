"""What stands beside the symbols: row numbers, brackets for repeats, lines at strips left out."""

from __future__ import annotations

from collections.abc import Iterator

from loopwright.render.chart.layout import Laid
from loopwright.render.chart.spots import At, Layer
from loopwright.render.chart.values import Bracket, Break, Mark, Point


def mark(layer: Layer, laid: Laid, yarns: list[str]) -> Mark:
    """The number of a row, before its first symbol."""
    assert layer.linked is not None
    first = next((s for s in layer.spots if s.kind != "join"), layer.spots[0])
    base = first.feet[0] if first.feet else At(first.s, first.v - 0.5)
    level = (base.v + first.v) / 2
    s = (base.s + first.s) / 2
    metric = laid.plane.metric(At(s, level))
    out = 1.05 if laid.plane.around is None else 0.85
    if layer is laid.layers[1] and laid.lead and first.kind != "upright":
        out += 1.0
    at = laid.plane.page(At(s - layer.way * out / metric, level))
    toward = laid.plane.page(At(s - layer.way * (out - 0.1) / metric, level))
    made = first.thing.made.yarn if first.thing else ""
    yarn = yarns.index(made) if made in yarns else 0
    return Mark(str(layer.linked.number or "setup"), at, toward, yarn)


def changes(layer: Layer, laid: Laid, yarns: list[str]) -> Iterator[Mark]:
    """A letter over each stitch at which the yarn changes within a row."""
    before = ""
    for spot in layer.spots:
        yarn = spot.thing.made.yarn if spot.thing else ""
        if yarn in yarns and before and yarn != before:
            at = laid.plane.page(At(spot.s, spot.v + 0.3))
            yield Mark("", at, at, yarns.index(yarn))
        before = yarn or before


def brackets(laid: Laid) -> Iterator[Bracket]:
    """A bracket beside (in rounds, above) each stretch that is worked over and over, and below
    the repeat before a strip that is left out."""
    yield from _repeat_bracket(laid)
    for over in laid.selection.over:
        if over.first < laid.skipped:
            continue
        rows = laid.layers[over.first + 1 : over.last + 2]
        spots = [spot for row in rows for spot in row.spots]
        if not spots:
            continue
        noun = "round" if rows[0].linked and rows[0].linked.worked.is_round else "row"
        what = f"this {noun}" if over.rows == 1 else f"these {over.rows} {noun}s"
        text = f"{what}: work {over.times:,} times in all"
        low = min((foot.v for spot in spots for foot in spot.feet), default=0.0)
        high = max(spot.v for spot in spots)
        if laid.plane.around is not None:
            one, two = laid.plane.page(At(-0.5, low)), laid.plane.page(At(-0.5, high))
            yield Bracket(one, two, Point(-6.0, 0.0), text)
            continue
        edge = min(min(s.s for s in layer.spots) for layer in laid.layers if layer.spots)
        one, two = laid.plane.page(At(edge - 2.6, low)), laid.plane.page(At(edge - 2.6, high))
        yield Bracket(one, two, Point(-6.0, 0.0), text)


def _repeat_bracket(laid: Laid) -> Iterator[Bracket]:
    """The last repeat drawn before the zigzag line, with how often it is worked."""
    for layer, strip in zip(laid.layers[1:], laid.selection.strips, strict=False):
        if strip is None or strip.unit < 2 or strip.after < strip.unit:
            continue
        spots = layer.spots[strip.after - strip.unit : strip.after]
        low, high = min(spot.s for spot in spots) - 0.4, max(spot.s for spot in spots) + 0.4
        one, two = laid.plane.page(At(high, -1.0)), laid.plane.page(At(low, -1.0))
        text = f"{strip.unit} sts: work {strip.all_times:,} times in all"
        yield Bracket(one, two, Point(0.0, -6.0), text)
        return


def breaks(laid: Laid) -> Iterator[Break]:
    """A zigzag through the rows where a strip is left out of them."""
    points: list[Point] = []
    for layer, strip in zip(laid.layers[1:], laid.selection.strips, strict=False):
        if strip is None or not 0 < strip.after < len(layer.spots):
            continue
        one, two = layer.spots[strip.after - 1], layer.spots[strip.after]
        low = min((foot.v for foot in one.feet), default=one.v - 1)
        middle = (one.s + two.s) / 2
        points += [
            laid.plane.page(At(middle - 0.15, low)),
            laid.plane.page(At(middle + 0.15, (low + one.v) / 2)),
        ]
    if points:
        yield Break(tuple(points))
