"""From a part as worked to a chart: choose the rows, link them, lay them out, name every symbol."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from math import atan2, degrees, hypot, pi

from loopwright.ir.checked import Checked
from loopwright.ir.fabric import Place, WorkedPart
from loopwright.ir.pattern import Part, Pattern
from loopwright.render.chart import layout_rounds, layout_rows
from loopwright.render.chart.choose import Selection, select, stretches
from loopwright.render.chart.key import ring_path, seen, seen_loop
from loopwright.render.chart.links import Linked, Ref, edge_of, link, start_edge
from loopwright.render.chart.notes import notes_of, start_words
from loopwright.render.chart.strips import CHAIN, At, Layer, Plane, Spot
from loopwright.render.chart.text import thing_words
from loopwright.render.chart.values import (
    STEP,
    Bracket,
    Break,
    Chart,
    Look,
    Mark,
    Point,
    RowText,
    Symbol,
)
from loopwright.source import Span
from loopwright.trade.stitches import Stitch

MARGIN = 1.3 * STEP
EMPTIEST = 0.25  # a round less full than this share is no disc


@dataclass(frozen=True, slots=True)
class Laid:
    """Rows laid out: their layers (the start first), the page they lie on and its manner."""

    layers: list[Layer]
    plane: Plane
    manner: str
    selection: Selection
    lead: int


def build(checked: Checked, name: str, size: int) -> Chart:
    """The chart of one part in one size."""
    pattern = checked.pattern
    worked = next(one for one in checked.fabrics[size].parts if one.name == name)
    part = next(one for one in pattern.parts if one.name == name)
    laid = _lay(part, worked)
    yarns = _yarns(pattern, laid)
    symbols = [*_start_symbols(part, worked, laid)]
    for index, layer in enumerate(laid.layers[1:], start=1):
        symbols += _row_symbols(layer, index, laid.plane, yarns)
    marks = [_mark(layer, laid, yarns) for layer in laid.layers[1:] if layer.spots]
    return _on_page(
        Chart(
            title=_title(pattern, name, size),
            part=name,
            size=pattern.sizes[size],
            manner=laid.manner,
            width=0.0,
            height=0.0,
            symbols=tuple(symbols),
            marks=tuple(marks),
            brackets=tuple(_brackets(laid)),
            breaks=tuple(_breaks(laid)),
            rows=tuple(_texts(worked)),
            yarns=tuple((chr(65 + i), yarn) for i, yarn in enumerate(yarns)),
            start=start_words(part, worked),
            notes=notes_of(laid.selection),
        )
    )


def _title(pattern: Pattern, name: str, size: int) -> str:
    of = f", size {pattern.sizes[size]}" if len(pattern.sizes) > 1 else ""
    return f"{pattern.title}: chart of the {name}{of}"


def _texts(worked: WorkedPart) -> Iterator[RowText]:
    for stretch in stretches(worked):
        for i, row in enumerate(stretch.rows):
            yield RowText(
                row, stretch.number + i, stretch.times, len(stretch.rows), stretch.alternates
            )


# ---------------------------------------------------------------- laying out


def _lay(part: Part, worked: WorkedPart) -> Laid:
    """Lay a part out the way its shape asks for."""
    gathered = _gathered(worked)
    ring = worked.from_ring or part.start.what == "magic ring" or part.start.ring
    if part.manner == "flat":
        return _disc(part, worked, True) if ring or gathered else _flat(worked, "rows")
    if ring or gathered:
        laid = _disc(part, worked, gathered)
        if layout_rounds.crowded(laid.layers) >= EMPTIEST:
            return laid
    return _flat(worked, "flat rounds")


def _gathered(worked: WorkedPart) -> bool:
    """Whether the first row goes into one single place (three stitches at least)."""
    if not worked.rows or worked.rows[0][0][0].made.length > 200:
        return False
    steps = [one for one in worked.rows[0][0][0].made.expand() if one.what in ("st", "as")]
    into = [one for one in steps if one.into not in ("", "ring")]
    ring = [one for one in steps if one.into == "ring"]
    one_place = bool(into) and all(one.step == 0 and not one.also for one in into[1:])
    return len(steps) >= 3 and (one_place or (bool(ring) and not into))


def _linked(worked: WorkedPart, selection: Selection, start: Sequence[Place]) -> list[Linked]:
    rows: list[Linked] = []
    before = start_edge(start)
    left: list[tuple[Ref, Place]] = []
    for index, drawn in enumerate(selection.rows, start=1):
        row = link(drawn.worked, drawn.number, index, before, left)
        rows.append(row)
        before, left = edge_of(row, index), list(row.left)
    return rows


def _flat(worked: WorkedPart, manner: str) -> Laid:
    selection = select(worked, may_cut=True)
    first = selection.rows[0].worked if selection.rows else None
    start = tuple(first.below.expand()) if first else ()
    rows = _linked(worked, selection, start)
    lead = _lead(rows[0]) if rows and worked.from_chain else 0
    way = -1 if first and first.wrong_side else 1
    layers = layout_rows.lay(layout_rows.base(start, way, lead), rows, lead)
    return Laid(layers, layout_rows.Flat(), manner, selection, lead)


def _lead(row: Linked) -> int:
    """How many chains of the start are skipped at the hook."""
    first = row.things[0] if row.things else None
    if first and first.made.what == "skip as":
        on = row.things[1] if len(row.things) > 1 else None
        more = on.made.chains if on and on.made.what == "ch" and on.span == first.span else 0
        return first.made.chains + more
    for thing in row.things:
        if thing.feet:
            return len(thing.jumped)
    return 0


def _disc(part: Part, worked: WorkedPart, gathered: bool) -> Laid:
    selection = select(worked, may_cut=False)
    first = selection.rows[0].worked if selection.rows else None
    start = tuple(first.below.expand()) if first else ()
    rows = _linked(worked, selection, start)
    way = -1 if first and first.wrong_side else 1
    chains = sum(1 for place in start if place.what == "ch") if part.start.ring else 0
    radius = max(layout_rounds.SMALLEST, chains * CHAIN / (2 * pi), 0.35 if chains else 0.0)
    flat = part.manner == "flat"
    page = layout_rounds.HalfDisc() if flat else layout_rounds.Disc()
    centre = layout_rounds.centre(radius, len(start), way)
    spiral = part.manner == "spiral"
    layers = layout_rounds.lay(centre, rows, page, gathered, spiral)
    corners, first_corner = layout_rounds.corners_of(layers)
    if corners and not flat and not spiral:
        page = layout_rounds.Disc(corners, first_corner)
        layers = layout_rounds.lay(centre, rows, page, gathered, spiral)
    return Laid(layers, page, "half circle" if flat else "rounds", selection, 0)


# ---------------------------------------------------------------- symbols


def _row_symbols(layer: Layer, index: int, plane: Plane, yarns: list[str]) -> Iterator[Symbol]:
    for spot in layer.spots:
        if spot.thing is not None:
            symbol = _symbol(spot, layer, index, plane, yarns)
            if spot.thing.made.into == "own":
                yield _own_chain(symbol)
            yield symbol


def _own_chain(symbol: Symbol) -> Symbol:
    """The chain, made in the same row, that a stitch is worked back along."""
    foot = symbol.feet[0]
    path = (Point(foot.x - 6.5, foot.y + 3.5), Point(foot.x + 6.5, foot.y + 3.5))
    words = ("chain of this row",)
    return replace(symbol, look=Look("chain"), feet=(), path=path, words=words, scale=1.0)


def _symbol(spot: Spot, layer: Layer, index: int, plane: Plane, yarns: list[str]) -> Symbol:
    """One placed symbol of a row."""
    assert spot.thing is not None
    assert layer.linked is not None
    made = spot.thing.made
    feet = tuple(plane.page(foot) for foot in spot.feet)
    top = plane.page(At(spot.s, spot.v))
    path: tuple[Point, ...] = ()
    wrong = layer.linked.worked.wrong_side
    if spot.kind == "run":
        path = tuple(plane.page(at) for at in spot.path)
        top, feet = _middle(path), ()
    elif spot.kind == "upright":
        path = _between(feet[0] if feet else top, top, max(made.chains, 1))
    elif spot.kind == "picot":
        path = ring_path(Point(top.x, top.y - 5.5), 5.0, max(made.chains, 1))
    angle, length = _slant(feet, top)
    return Symbol(
        look=_look(spot, wrong),
        top=top,
        feet=feet,
        path=path,
        angle=angle,
        scale=length / (spot.height * STEP) if spot.height and feet else 1.0,
        row=index,
        number=layer.linked.number,
        nth=spot.thing.nth,
        span=spot.thing.span,
        words=tuple(thing_words(made)),
        yarn=yarns.index(made.yarn) if made.yarn in yarns else 0,
    )


def _look(spot: Spot, wrong_side: bool) -> Look:
    assert spot.thing is not None
    made = spot.thing.made
    if spot.kind == "run":
        return Look("chain")
    if spot.kind == "upright":
        return Look("upright chain")
    if spot.kind == "picot":
        return Look("picot")
    if made.stitch is None or made.stitch.basic == "slip":
        return Look("dot", Stitch("slip"), seen_loop(made.loop, wrong_side))
    stitch = seen(made.stitch, wrong_side)
    shape = "together" if len(spot.feet) > 1 else "stitch"
    if stitch.many:
        shape = "fan" if stitch.many in ("popcorn", "shell") else "bunch"
    return Look(shape, stitch, seen_loop(made.loop, wrong_side))


def _start_symbols(part: Part, worked: WorkedPart, laid: Laid) -> Iterator[Symbol]:
    """What the part begins with: a chain, a ring, or the places of another edge."""
    layer, plane, span = laid.layers[0], laid.plane, part.start.span
    if laid.manner in ("rounds", "half circle"):
        yield from _ring_symbols(part, layer, laid, span)
        return
    first = laid.selection.rows[0].worked if laid.selection.rows else None
    places = tuple(first.below.expand()) if first else ()
    for nth, (spot, place) in enumerate(zip(layer.spots, places, strict=True), start=1):
        if nth > laid.lead:
            yield _base_symbol(spot, place, nth, plane, span)
    counted = any(spot.kind == "upright" for spot in laid.layers[1].spots[:1])
    if laid.lead and len(layer.spots) > laid.lead and not counted:
        yield _turning_chains(layer, laid, span)


def _base_symbol(spot: Spot, place: Place, nth: int, plane: Plane, span: Span) -> Symbol:
    at = plane.page(At(spot.s, spot.v))
    foot = plane.page(At(spot.s, spot.v - 0.4))
    blank = Symbol(Look("place"), at, (foot,), (), 0.0, 1.0, 0, 0, nth, span, ("stitch",))
    if place.what == "ch":
        ends = (Point(at.x - STEP / 2, at.y + 3), Point(at.x + STEP / 2, at.y + 3))
        words = ("chain of the start",)
        return replace(blank, look=Look("chain"), path=ends, feet=(), words=words)
    if place.what == "end":
        return replace(blank, look=Look("row end"), words=("row end",))
    if place.what == "sp":
        return replace(blank, look=Look("space"), words=(f"ch-{place.chains} space",))
    return replace(blank, words=(place.stitch or "stitch", " of the edge"))


def _turning_chains(layer: Layer, laid: Laid, span: Span) -> Symbol:
    """The chains skipped at the hook, upright beside the first stitch."""
    beside = layer.spots[laid.lead]
    s = beside.s - layer.way
    foot, top = At(s, beside.v + 0.1), At(s, beside.v + 0.1 + 0.7 * laid.lead)
    path = _between(laid.plane.page(foot), laid.plane.page(top), laid.lead)
    words = (f"{laid.lead} skipped {'chain' if laid.lead == 1 else 'chains'}",)
    look = Look("upright chain")
    return Symbol(look, path[-1], path[:1], path, 0.0, 1.0, 0, 0, 0, span, words)


def _ring_symbols(part: Part, layer: Layer, laid: Laid, span: Span) -> Iterator[Symbol]:
    middle = Point(0.0, 0.0)
    if part.start.what == "magic ring":
        yield Symbol(Look("magic ring"), middle, (), (), 0.0, 1.0, 0, 0, 1, span, ("magic ring",))
        return
    chains = len(layer.spots) if part.start.ring else 1
    radius = (layer.spots[0].v if layer.spots else 0.5) * STEP - 3.5
    if chains > 1:
        path = ring_path(middle, max(radius, 5.0), chains)
        words = (f"ch {chains} joined into a ring",)
        yield Symbol(Look("chain ring"), middle, (), path, 0.0, 1.0, 0, 0, 1, span, words)
        return
    path = (Point(-5.5, 0.0), Point(5.5, 0.0))
    words = ("the chain that the first round goes into",)
    yield Symbol(Look("chain"), middle, (), path, 0.0, 1.0, 0, 0, 1, span, words)


def _middle(path: tuple[Point, ...]) -> Point:
    one, two = path[(len(path) - 1) // 2], path[len(path) // 2]
    return Point((one.x + two.x) / 2, (one.y + two.y) / 2)


def _between(foot: Point, top: Point, count: int) -> tuple[Point, ...]:
    """Evenly spaced points from a foot to a top."""
    steps = [k / count for k in range(count + 1)]
    return tuple(
        Point(foot.x + (top.x - foot.x) * k, foot.y + (top.y - foot.y) * k) for k in steps
    )


def _slant(feet: tuple[Point, ...], top: Point) -> tuple[float, float]:
    """The angle of a symbol, clockwise from upright, and its length."""
    if not feet:
        return 0.0, 0.0
    x = top.x - sum(foot.x for foot in feet) / len(feet)
    y = top.y - sum(foot.y for foot in feet) / len(feet)
    return round(degrees(atan2(x, -y)), 2), hypot(x, y)


# ---------------------------------------------------------------- numbers and brackets


def _mark(layer: Layer, laid: Laid, yarns: list[str]) -> Mark:
    """The number of a row, before its first symbol."""
    assert layer.linked is not None
    first = next((s for s in layer.spots if s.kind != "join"), layer.spots[0])
    base = first.feet[0] if first.feet else At(first.s, first.v - 0.5)
    level = (base.v + first.v) / 2
    s = (base.s + first.s) / 2
    metric = laid.plane.metric(At(s, level))
    out = 1.05 if laid.plane.around is None else 0.85
    if layer is laid.layers[1] and laid.lead:
        out += 1.0
    at = laid.plane.page(At(s - layer.way * out / metric, level))
    toward = laid.plane.page(At(s - layer.way * (out - 0.1) / metric, level))
    made = first.thing.made.yarn if first.thing else ""
    yarn = yarns.index(made) if made in yarns else 0
    return Mark(str(layer.linked.number or "setup"), at, toward, yarn)


def _brackets(laid: Laid) -> Iterator[Bracket]:
    """A bracket beside (in rounds, above) each stretch that is worked over and over, and below
    the repeat before a strip that is left out."""
    yield from _repeat_bracket(laid)
    for over in laid.selection.over:
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


def _breaks(laid: Laid) -> Iterator[Break]:
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


# ---------------------------------------------------------------- the page


def _yarns(pattern: Pattern, laid: Laid) -> list[str]:
    """The yarns of the part, in the order of the pattern; several held together are one."""
    used: dict[str, None] = {}
    for layer in laid.layers[1:]:
        for spot in layer.spots:
            if spot.thing and spot.thing.made.yarn:
                used.setdefault(spot.thing.made.yarn)
    order = [yarn.name for yarn in pattern.yarns]
    rest = [name for name in used if name not in order]
    return [name for name in order if name in used] + rest


def _on_page(chart: Chart) -> Chart:
    """Move everything so that it begins in the top left corner, and measure the page."""
    points = [point for symbol in chart.symbols for point in _points(symbol)]
    points += [mark.at for mark in chart.marks]
    points += [point for one in chart.brackets for point in (one.one, one.two)]
    points += [_beyond(one) for one in chart.brackets]
    left = min((p.x for p in points), default=0.0) - MARGIN
    top = min((p.y for p in points), default=0.0) - MARGIN
    right = max((p.x for p in points), default=0.0) + MARGIN
    bottom = max((p.y for p in points), default=0.0) + MARGIN

    def moved(point: Point) -> Point:
        return Point(round(point.x - left, 2), round(point.y - top, 2))

    symbols = tuple(
        replace(
            one,
            top=moved(one.top),
            feet=tuple(moved(p) for p in one.feet),
            path=tuple(moved(p) for p in one.path),
            scale=round(one.scale, 2),
        )
        for one in chart.symbols
    )
    marks = tuple(replace(m, at=moved(m.at), toward=moved(m.toward)) for m in chart.marks)
    brackets = tuple(replace(b, one=moved(b.one), two=moved(b.two)) for b in chart.brackets)
    breaks = tuple(Break(tuple(moved(p) for p in b.points)) for b in chart.breaks)
    return replace(
        chart,
        symbols=symbols,
        marks=marks,
        brackets=brackets,
        breaks=breaks,
        width=round(right - left, 2),
        height=round(bottom - top, 2),
    )


def _beyond(bracket: Bracket) -> Point:
    """Room for the words of a bracket."""
    if bracket.side.x:
        return Point(bracket.one.x + 95.0, bracket.one.y)
    return Point(bracket.two.x, bracket.two.y + 26.0)


def _points(symbol: Symbol) -> tuple[Point, ...]:
    return (symbol.top, *symbol.feet, *symbol.path)
