"""The symbols of a chart, named and brought onto the page from where their rows were laid out."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import lru_cache
from math import atan2, degrees, hypot

from loopwright.frozen import replace
from loopwright.ir.fabric import Made, Place, WorkedPart
from loopwright.ir.pattern import Part
from loopwright.render.chart.key import ring_path, seen, seen_loop
from loopwright.render.chart.layout import Laid
from loopwright.render.chart.layout_oval import Oval
from loopwright.render.chart.links import Linked
from loopwright.render.chart.spots import At, Layer, Plane, Spot, height_of, spot_at
from loopwright.render.chart.telling import thing_words
from loopwright.render.chart.values import STEP, Far, Look, Point, Symbol, Words
from loopwright.render.speaker import said, said_many, said_noun
from loopwright.source import Span
from loopwright.trade.stitches import Stitch

MOVED_UP = 0.28  # how far above the stitches that it passes a slip stitch to a new place lies
MAGIC_RING: Words = (said("magic ring"),)
CHAIN_OF_START: Words = (said("chain of the start"),)


def row_symbols(
    layer: Layer, index: int, laid: Laid, yarns: list[str], far: Mapping[int, Far]
) -> Iterator[Symbol]:
    """The symbols of one row, in the order made; ``far`` is what is said of those that go further
    down, by their item."""
    if layer.linked is not None:
        yield from _moves(layer, layer.linked, index, laid, yarns)
    for spot in layer.spots:
        # The chains skipped at the hook are drawn with the start; here they are only a place.
        if spot.thing is not None and spot.kind != "hook ch":
            symbol = _symbol(spot, layer, index, laid.plane, yarns, far)
            if spot.kind == "upright" and not spot.thing.made.chains:
                base, symbol = _base_and_chains(symbol, laid)
                yield base
            if spot.thing.made.into == "own":
                yield _own_chain(symbol)
            if spot.thing.made.what == "join sp":
                yield from _joining(symbol, spot.thing.made, layer, laid.plane)
            else:
                yield symbol


def _moves(
    layer: Layer, linked: Linked, index: int, laid: Laid, yarns: list[str]
) -> Iterator[Symbol]:
    """The slip stitches of a `move to`, on the stitches that they pass."""
    things = linked.things
    late = linked.worked.line in laid.late_changes
    source = laid.layers[index + laid.skipped - 1].linked if late else linked
    yarns_of = [thing.made.yarn for thing in source.things] if source else []
    made = (yarns_of[-1] if late else yarns_of[0]) if yarns_of else ""
    for ref in linked.moved:
        at = spot_at(ref, laid.layers)
        top = laid.plane.page(At(at.s, at.v + MOVED_UP))
        look = Look("dot", Stitch("slip"))
        span = things[0].span if things else Span(0, 0)
        words: Words = (said("{slip} along to the new first place", slip=Stitch("slip")),)
        yarn = yarns.index(made) if made in yarns else 0
        number = linked.number
        yield Symbol(look, top, (), (), 0.0, 1.0, index, number, 0, span, words, yarn)


def _joining(symbol: Symbol, made: Made, layer: Layer, plane: Plane) -> Iterator[Symbol]:
    """A round closed with a stitch: the chains before it, then the stitch, which comes from the
    first stitch of the round."""
    stitch = made.stitch or Stitch("slip")
    chains = max(made.chains - stitch.height, 0)
    at = min(chains, len(symbol.path) - 1)
    if chains:
        path = symbol.path[: at + 1]
        yield replace(symbol, path=path, top=_middle(path))
    first = next((spot for spot in layer.spots if spot.kind in ("stem", "upright")), None)
    foot = plane.page(At(first.s, first.v)) if first else symbol.path[-1]
    angle, length = _slant((foot,), symbol.path[at])
    usual = max(height_of(stitch) * STEP, 1.0)
    look = Look("stitch", stitch)
    top = symbol.path[at]
    scale = length / usual
    yield replace(symbol, look=look, path=(), top=top, feet=(foot,), angle=angle, scale=scale)


def _base_and_chains(symbol: Symbol, laid: Laid) -> tuple[Symbol, Symbol]:
    """A group that counts as a stitch, `(dc, ch 1) as tr`: its stitch, and upright on it its
    chains."""
    inside = [one for one in laid.groups if one[0].start <= symbol.span.start < one[0].end]
    _, stitch, chains = inside[-1] if inside else (symbol.span, Stitch("plain"), 1)
    foot, top = symbol.path[0], symbol.path[-1]
    part = height_of(stitch) / (height_of(stitch) + 0.6 * chains)
    middle = _between(foot, top, 100)[round(100 * part)]
    base = replace(symbol, look=Look("base", stitch), top=middle, feet=(foot,), path=(), nth=0)
    return base, replace(symbol, path=_between(middle, top, chains))


def _own_chain(symbol: Symbol) -> Symbol:
    """The chain, made in the same row, that a stitch is worked back along."""
    foot = symbol.feet[0]
    path = (Point(foot.x - 6.5, foot.y + 3.5), Point(foot.x + 6.5, foot.y + 3.5))
    words: Words = (said("chain of this row"),)
    return replace(symbol, look=Look("chain"), feet=(), path=path, words=words, scale=1.0)


def _symbol(
    spot: Spot,
    layer: Layer,
    index: int,
    plane: Plane,
    yarns: list[str],
    far: Mapping[int, Far],
) -> Symbol:
    """One placed symbol of a row."""
    assert spot.thing is not None
    assert layer.linked is not None
    made = spot.thing.made
    feet = tuple([plane.page(foot) for foot in spot.feet])
    top = plane.page(At(spot.s, spot.v))
    path: tuple[Point, ...] = ()
    wrong = layer.linked.worked.wrong_side
    if spot.kind == "run":
        path = tuple([plane.page(at) for at in spot.path])
        if len(path) == 2:
            path = _about(path, top)
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
        words=thing_words(made, far.get(made.item) if made.into in ("deep", "left") else None),
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
    return _stitch_look(made.stitch, made.loop, len(spot.feet) > 1, wrong_side)


@lru_cache(maxsize=1024)
def _stitch_look(stitch: Stitch | None, loop: str, together: bool, wrong_side: bool) -> Look:
    """What a stitch looks like from the right side; the same for all stitches of a kind."""
    if stitch is None or stitch.basic == "slip":
        return Look("dot", Stitch("slip"), seen_loop(loop, wrong_side))
    stitch = seen(stitch, wrong_side)
    shape = "together" if together else "stitch"
    if stitch.many:
        shape = "fan" if stitch.many in ("popcorn", "shell") else "bunch"
    return Look(shape, stitch, seen_loop(loop, wrong_side))


def start_symbols(part: Part, worked: WorkedPart, laid: Laid) -> Iterator[Symbol]:
    """What the part begins with: a chain, a ring, or the places of another edge."""
    layer, plane, span = laid.layers[0], laid.plane, part.start.span
    if laid.skipped:
        yield from _edge_symbols(laid, span)
        return
    if laid.selection.rows and laid.selection.rows[0].worked.number > worked.rows[0][0][0].number:
        places = laid.selection.rows[0].worked.below.atoms()
        for nth, (spot, place) in enumerate(zip(layer.spots, places, strict=False), start=1):
            yield _base_symbol(spot, place, nth, plane, span)
        return
    if laid.manner in ("rounds", "half circle"):
        yield from _ring_symbols(part, layer, laid, span)
        return
    above = laid.layers[1].spots if len(laid.layers) > 1 else []
    if part.start.what == "magic ring":
        middle = sum(spot.s for spot in above) / max(len(above), 1)
        at = plane.page(At(middle, -1.0))
        yield Symbol(Look("magic ring"), at, (), (), 0.0, 1.0, 0, 0, 1, span, MAGIC_RING)
    first = laid.selection.rows[0].worked if laid.selection.rows else None
    places = first.below.atoms() if first else []
    if laid.manner == "oval":
        gone = next((one.gone for one in laid.selection.sides), 0)
        places = places[: worked.start.length - gone]
    for nth, (spot, place) in enumerate(zip(layer.spots, places, strict=False), start=1):
        if part.start.what == "foundation" and place.stitch:
            yield from _foundation(spot, place.stitch, nth, plane, span)
        elif nth > laid.lead:
            yield _base_symbol(spot, place, nth, plane, span)
    counted = any(spot.kind == "upright" for spot in above[:1])
    if laid.lead and len(layer.spots) > laid.lead and not counted:
        yield _turning_chains(layer, laid, span)


def _edge_symbols(laid: Laid, span: Span) -> Iterator[Symbol]:
    """The edge that the first row drawn is worked into, where the rows below are not drawn."""
    layer = laid.layers[laid.skipped]
    edge = layer.linked.edge if layer.linked else ()
    for nth, place in enumerate(edge):
        if (spot := layer.at.get(nth)) is not None:
            yield _base_symbol(spot, place, nth + 1, laid.plane, span)


def _base_symbol(spot: Spot, place: Place, nth: int, plane: Plane, span: Span) -> Symbol:
    at = plane.page(At(spot.s, spot.v))
    foot = plane.page(At(spot.s, spot.v - 0.4))
    blank = Symbol(
        Look("place"),
        at,
        (foot,),
        (),
        0.0,
        1.0,
        0,
        0,
        nth,
        span,
        (said_noun("stitch", "stitches"),),
    )
    if place.what == "ch":
        if isinstance(plane, Oval):
            at = plane.page(At(spot.s, 0.0))
            ends = (Point(at.x - STEP / 2, at.y), Point(at.x + STEP / 2, at.y))
            return replace(blank, look=Look("chain"), path=ends, feet=(), words=CHAIN_OF_START)
        half = 0.5 / plane.metric(At(spot.s, spot.v))
        one, two = (plane.page(At(spot.s + side * half, spot.v - 0.19)) for side in (1, -1))
        ends = (one, two)
        return replace(blank, look=Look("chain"), path=ends, feet=(), words=CHAIN_OF_START)
    if place.what == "end":
        return replace(blank, look=Look("row end"), words=(said_noun("row end", "row ends"),))
    if place.what == "sp":
        return replace(blank, look=Look("space"), words=(said("ch-{n} space", n=place.chains),))
    stitch = place.stitch or said_noun("stitch", "stitches")
    return replace(blank, words=(said("{stitch} of the edge", stitch=stitch),))


def _foundation(spot: Spot, stitch: Stitch, nth: int, plane: Plane, span: Span) -> Iterator[Symbol]:
    """A foundation stitch: the stitch, on the chain that is made with it."""
    top = plane.page(At(spot.s, spot.v))
    foot = plane.page(At(spot.s, spot.v - height_of(stitch)))
    path = (Point(foot.x - STEP / 2, foot.y + 4), Point(foot.x + STEP / 2, foot.y + 4))
    words: Words = (said("foundation {stitch}", stitch=stitch),)
    blank = Symbol(Look("chain"), foot, (), path, 0.0, 1.0, 0, 0, nth, span, words)
    yield blank
    yield replace(blank, look=Look("stitch", stitch), top=top, feet=(foot,), path=())


def _turning_chains(layer: Layer, laid: Laid, span: Span) -> Symbol:
    """The chains skipped at the hook, upright beside the first stitch."""
    beside = layer.spots[laid.lead]
    s = beside.s - layer.way
    foot, top = At(s, beside.v + 0.1), At(s, beside.v + 0.1 + 0.7 * laid.lead)
    path = _between(laid.plane.page(foot), laid.plane.page(top), laid.lead)
    words = (said_many("{n} skipped chain", "{n} skipped chains", laid.lead, n=laid.lead),)
    look = Look("upright chain")
    return Symbol(look, path[-1], path[:1], path, 0.0, 1.0, 0, 0, 0, span, words)


def _ring_symbols(part: Part, layer: Layer, laid: Laid, span: Span) -> Iterator[Symbol]:
    middle = Point(0.0, 0.0)
    if part.start.what == "magic ring":
        yield Symbol(Look("magic ring"), middle, (), (), 0.0, 1.0, 0, 0, 1, span, MAGIC_RING)
        return
    chains = len(layer.spots) if part.start.ring else 1
    radius = (layer.spots[0].v if layer.spots else 0.5) * STEP - 3.5
    if chains > 1:
        path = ring_path(middle, max(radius, 5.0), chains)
        words: Words = (said("ch {n} joined into a ring", n=chains),)
        yield Symbol(Look("chain ring"), middle, (), path, 0.0, 1.0, 0, 0, 1, span, words)
        return
    path = (Point(-5.5, 0.0), Point(5.5, 0.0))
    words = (said("the chain that the first round goes into"),)
    yield Symbol(Look("chain"), middle, (), path, 0.0, 1.0, 0, 0, 1, span, words)


def _about(path: tuple[Point, ...], centre: Point) -> tuple[Point, ...]:
    """A single chain, moved to where its space is: in a corner that is further out than the line
    between its neighbours."""
    now = _middle(path)
    return tuple(Point(p.x + centre.x - now.x, p.y + centre.y - now.y) for p in path)


def _middle(path: tuple[Point, ...]) -> Point:
    one, two = path[(len(path) - 1) // 2], path[len(path) // 2]
    return Point((one.x + two.x) / 2, (one.y + two.y) / 2)


def _between(foot: Point, top: Point, count: int) -> tuple[Point, ...]:
    """Evenly spaced points from a foot to a top."""
    steps = [k / count for k in range(count + 1)]
    x, y = top.x - foot.x, top.y - foot.y
    return tuple([Point(foot.x + x * k, foot.y + y * k) for k in steps])


def _slant(feet: tuple[Point, ...], top: Point) -> tuple[float, float]:
    """The angle of a symbol, clockwise from upright, and its length."""
    if not feet:
        return 0.0, 0.0
    x = top.x - sum([foot.x for foot in feet]) / len(feet)
    y = top.y - sum([foot.y for foot in feet]) / len(feet)
    return round(degrees(atan2(x, -y)), 2), hypot(x, y)
