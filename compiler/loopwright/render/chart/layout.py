"""Laying a part out the way its shape asks for: in rows, in rounds, or rounds drawn as rows."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Sequence
from functools import cache
from itertools import accumulate, pairwise
from math import pi

from loopwright.frozen import Frozen, replace
from loopwright.ir.fabric import Place, WorkedPart
from loopwright.ir.pattern import Part
from loopwright.render.chart import (
    layout_frame,
    layout_oval,
    layout_rounds,
    layout_rows,
)
from loopwright.render.chart import layout_wedge as wedges
from loopwright.render.chart.choose import EVERYTHING_NEEDED, Selection, Wish, laid_from, select
from loopwright.render.chart.deep import reach_down, targets_of
from loopwright.render.chart.heights import CHAIN
from loopwright.render.chart.layout_rows import BREAK
from loopwright.render.chart.links import Edge, Linked, Ref, edge_of, link, start_edge
from loopwright.render.chart.spots import Layer, Plane, height_of, layer_of, way_of
from loopwright.render.chart.stretches import crab, is_open
from loopwright.render.chart.tubes import cut_start, gaps_of, laid_open, turning
from loopwright.render.chart.waves import wave_of
from loopwright.render.chart.wedge import met_by_wedge
from loopwright.render.chart.written import groups_of, late_changes, sided_lines
from loopwright.source import Span
from loopwright.trade.stitches import Stitch

WIDEST_RING = 24  # chains; a ring of more is the end of a tube, unless its rounds grow
GROWS = 1.5  # by how much
FRILLS = 8.0  # how much more than at first makes rounds too unlike to be drawn flat
EMPTIEST = 0.25  # a round less full than this share is no disc


class Laid(Frozen):
    """Rows laid out: their layers (the start first), the page they lie on and its manner."""

    layers: list[Layer]
    plane: Plane
    manner: str
    selection: Selection
    lead: int
    late_changes: frozenset[int] = frozenset()  # lines that move along before they change yarn
    groups: tuple[tuple[Span, Stitch, int], ...] = ()  # groups that count as one stitch
    skipped: int = 0  # how many layers of rows are laid out and not drawn
    foundation: float = 0.0  # how high the foundation stitches are that it begins on


class Shape(Frozen):
    """How a part is to be laid out: in which manner, what was chosen of it, and how many of those
    rows are not drawn; ``laid`` lays it out, once it is asked for."""

    manner: str
    selection: Selection
    skipped: int
    laid: Callable[[], Laid]


Known = dict[Hashable, Laid | None]
"""What was laid out of a part before, by what it was laid out from; None where that came to
nothing. Rows alike are laid out once, in whichever size and with whatever numbers."""


def shape_of(
    part: Part,
    worked: WorkedPart,
    wish: Wish = EVERYTHING_NEEDED,
    others: Sequence[WorkedPart] = (),
    known: Known | None = None,
) -> Shape:
    """The way that a part asks to be laid out; ``others`` are the parts that it may be worked
    onto, ``known`` what was laid out of it before, in this or another size."""
    sides = _sides(part, worked, others)
    known = known if known is not None and wish.rows is None else {}
    framed = bool(sides) and worked.rows[0][0][0].is_round
    found = _frame(part, worked, sides, wish, known) if framed else None
    found = found or _shape(part, worked, wish, known)
    if wish.rows and found.selection.first_missing:
        found = _by_themselves(part, worked, wish, found)
    shape = found

    @cache
    def laid() -> Laid:
        return replace(
            shape.laid(),
            late_changes=late_changes(part),
            groups=tuple(groups_of(part)),
            foundation=height_of(part.start.stitch) if part.start.stitch else 0.0,
        )

    return replace(shape, laid=laid)


def _sides(part: Part, worked: WorkedPart, others: Sequence[WorkedPart]) -> tuple[int, ...]:
    """How many places each side of the piece has that a border goes all round."""
    start = part.start
    edge = start.edges[0] if start.edges and not start.then else None
    if edge is None or edge.what != "all round" or not worked.rows:
        return ()
    piece = next((one for one in others if one.name == edge.part), None)
    if piece is None:
        return ()
    ends = piece.row_ends.length
    sides = (piece.last.length, ends, piece.worked_start.length, ends)
    return sides if sum(sides) == worked.start.length and all(sides) else ()


def _frame(
    part: Part, worked: WorkedPart, sides: tuple[int, ...], wish: Wish, known: Known
) -> Shape | None:
    """A border around its piece; None where it is too long."""
    ends = [*accumulate(sides, initial=0)]
    top, left, bottom, right = pairwise(ends)
    pairs = ((top, bottom), (left, right))
    selection = select(worked, sided_lines(part), wish.from_start(), pairs=pairs)
    if selection.rows[0].worked.below.length > wish.widest:
        return None
    cut = selection.sides
    gone = {one.which: one.gone for one in cut}
    sides = tuple(count - gone.get(i, 0) for i, count in enumerate(sides))

    def lay() -> Laid:
        rows = _linked(part, worked, selection, selection.rows[0].worked.below.atoms())
        page = layout_frame.frame_of(sides, rows[0], cut)
        layers = layout_frame.lay(layout_frame.base(sides, page, cut), rows, page)
        return Laid(layers, page, "frame", selection, 0, skipped=_skipped(selection, wish))

    return _later(known, ("frame", sides), "frame", selection, _skipped(selection, wish), lay)


def _later(
    known: Known,
    key: Hashable,
    manner: str,
    chosen: Selection,
    skipped: int,
    lay: Callable[[], Laid],
) -> Shape:
    """The shape of rows that can be laid out whatever they are: they are when that is asked for."""
    return Shape(manner, chosen, skipped, lambda: _once(known, key, chosen, lay) or lay())


def _once(
    known: Known, shape: Hashable, chosen: Selection, lay: Callable[[], Laid | None]
) -> Laid | None:
    """What ``lay`` lays out of the rows chosen, or what was laid out before of such rows, under
    the numbers of these."""
    key = (shape, laid_from(chosen))
    if key not in known:
        known[key] = lay()
    laid = known[key]
    if laid is None or laid.selection is chosen:
        return laid
    start, *rows = laid.layers
    numbered = zip(rows, chosen.rows, strict=True)
    layers = [start, *(_numbered(layer, row.number) for layer, row in numbered)]
    # How a wedge lies is known only when it was laid out.
    chosen = replace(chosen, wedge=laid.selection.wedge)
    return replace(laid, layers=layers, selection=chosen)


def _numbered(layer: Layer, number: int) -> Layer:
    """The same row with another number."""
    if layer.linked is None or layer.linked.number == number:
        return layer
    return replace(layer, linked=replace(layer.linked, number=number))


def _shape(part: Part, worked: WorkedPart, wish: Wish, known: Known) -> Shape:
    gathered = _gathered(worked)
    flat = part.manner == "flat"
    if _both_sides(worked) and (oval := _oval(part, worked, wish, known)):
        return oval
    if gathered or (worked.from_ring and worked.start.length <= wish.widest):
        laid = _disc(part, worked, gathered, wish, known)
        if laid and laid.selection.rows and (flat or _is_disc(worked, laid)):
            return Shape(laid.manner, laid.selection, laid.skipped, lambda: laid)
    return _flat(part, worked, wish, "rows" if flat else "flat rounds", known)


def _by_themselves(part: Part, worked: WorkedPart, wish: Wish, shape: Shape) -> Shape:
    """Rows that do not fit on a page that begins in the middle, on the edge that they are worked
    into alone; what was laid out where that draws no more of them."""
    flat = _flat(part, worked, wish, "rows" if part.manner == "flat" else "flat rounds")
    most = flat.selection.first_missing
    return flat if not most or most > shape.selection.first_missing else shape


def _both_sides(worked: WorkedPart) -> bool:
    """Whether the first row goes along both sides of the starting chain."""
    if not worked.from_chain or worked.from_ring or not worked.rows:
        return False
    return worked.start.length < worked.rows[0][0][0].below.length


def _oval(part: Part, worked: WorkedPart, wish: Wish, known: Known) -> Shape | None:
    """Rounds about both sides of a chain; None where it is too long."""
    chains, met = worked.start.length, worked.rows[0][0][0].below.length
    # From the chain before the last back to the first that is worked into, and the other way.
    side = met - chains
    pairs = (((chains - 1 - side, chains - 1), (chains, met)),) if side < chains else ()
    selection = select(worked, sided_lines(part), wish.from_start(), pairs=pairs)
    if selection.rows[0].worked.below.length > wish.widest:
        return None
    cut = selection.sides
    chains -= cut[0].gone if cut else 0

    def lay() -> Laid:
        places = selection.rows[0].worked.below.atoms()
        rows = _linked(part, worked, selection, places)
        lead = _lead(rows[0])
        oval = layout_oval.Oval(layout_oval.straight_of(chains, lead, cut), BREAK if cut else 0.0)
        layers = layout_oval.lay(layout_oval.base(chains, lead, len(places), cut), rows, oval)
        return Laid(layers, oval, "oval", selection, lead, skipped=_skipped(selection, wish))

    return _later(known, ("oval", chains), "oval", selection, _skipped(selection, wish), lay)


def _is_disc(worked: WorkedPart, laid: Laid) -> bool:
    """Whether rounds from a ring make a disc: none is nearly empty, and a wide ring is only the
    middle of one where the rounds grow. Otherwise it is the end of a tube."""
    rooms = [layout_rounds.room(layer) or 1.0 for layer in laid.layers[1:]]
    if layout_rounds.crowded(laid.layers) < EMPTIEST:
        # A ball takes in again what it gave out; what grows far more than one would be torn.
        return max(rooms) >= FRILLS * rooms[0]
    return worked.start.length <= WIDEST_RING or rooms[-1] >= GROWS * rooms[0]


def _is_tube(worked: WorkedPart, rows: Sequence[Linked]) -> bool:
    """Whether rounds are seen to make no disc before they are laid out: they come from a wide ring
    and do not grow."""
    if worked.start.length <= WIDEST_RING or not rows:
        return False
    rooms = [layout_rounds.room(layer_of(row)) or 1.0 for row in rows]
    return rooms[-1] < GROWS * rooms[0] and max(rooms) < FRILLS * rooms[0]


def _gathered(worked: WorkedPart) -> bool:
    """Whether the first row goes into one single place (three stitches at least)."""
    if worked.start.length > WIDEST_RING and not worked.from_ring:
        return False
    if not worked.rows or worked.rows[0][0][0].made.length > 200:
        return False
    steps = [one for one in worked.rows[0][0][0].made.expand() if one.what in ("st", "as")]
    into = [one for one in steps if one.into not in ("", "ring")]
    ring = [one for one in steps if one.into == "ring"]
    one_place = bool(into) and all(one.step == 0 and not one.also for one in into[1:])
    return len(steps) >= 3 and (one_place or (bool(ring) and not into))


def _linked(
    part: Part, worked: WorkedPart, selection: Selection, start: Sequence[Place]
) -> list[Linked]:
    rows: list[Linked] = []
    targets = targets_of(part)
    before: Edge = start_edge(start)
    left: list[tuple[Ref, Place]] = []
    wedge = selection.wedge
    for index, drawn in enumerate(selection.rows, start=1):
        if wedge is not None and index == wedge.first + 1 > 1:
            before = met_by_wedge(before, wedge, drawn.worked.below.length)
        after_crab = bool(rows) and crab(rows[-1].worked)
        after_open = bool(rows) and is_open(rows[-1].worked)
        after_row = bool(rows) and not rows[-1].worked.is_round
        after = after_crab, after_open, after_row
        row = link(drawn.worked, drawn.number, index, before, left, *after)
        row = reach_down(row, rows, index, targets)
        rows.append(row)
        before, left = edge_of(row, index), list(row.left)
    return rows


def _flat(
    part: Part, worked: WorkedPart, wish: Wish, manner: str, known: Known | None = None
) -> Shape:
    selection = select(worked, sided_lines(part), wish, may_cut=True)

    def lay() -> Laid:
        return _in_rows(part, worked, selection, manner)

    return _later({} if known is None else known, manner, manner, selection, 0, lay)


def _in_rows(part: Part, worked: WorkedPart, selection: Selection, manner: str) -> Laid:
    first = selection.rows[0].worked if selection.rows else None
    start = first.below.atoms() if first else []
    rows = _linked(part, worked, selection, start)
    gaps: tuple[int, ...] = ()
    if manner == "flat rounds" and turning(rows):
        rows = [laid_open(row) for row in rows]
        gaps = gaps_of(rows, selection.strips if selection.clean else ())
    begins = bool(rows) and rows[0].number <= worked.rows[0][0][0].number
    lead = _lead(rows[0]) if begins and worked.from_chain else 0
    way = way_of(rows[0]) if rows else 1
    base = layout_rows.base(start, way, lead)
    if gaps:
        cut_start(base, rows[0], gaps[0])
    strips = selection.strips if selection.clean and not gaps else ()
    layers = layout_rows.lay(base, rows, lead, strips, gaps)
    page = layout_rows.Flat()
    page.wave = wave_of(layers)
    return Laid(layers, page, manner, selection, lead)


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


def _disc(
    part: Part,
    worked: WorkedPart,
    gathered: bool,
    wish: Wish,
    known: Known,
    may_wedge: bool = True,
) -> Laid | None:
    may_wedge = may_wedge and part.manner != "flat"
    selection = select(worked, sided_lines(part), wish.from_start(), may_wedge=may_wedge)

    def lay() -> Laid | None:
        return _in_rounds(part, worked, selection, gathered, wish)

    laid = _once(known, ("disc", gathered), selection, lay)
    if laid is None and selection.wedge is not None:
        return _disc(part, worked, gathered, wish, known, may_wedge=False)
    return laid


def _in_rounds(
    part: Part, worked: WorkedPart, selection: Selection, gathered: bool, wish: Wish
) -> Laid | None:
    """Rounds about their centre; None where they are drawn as a wedge and are none, or are whole
    and make no disc."""
    flat, spiral = part.manner == "flat", part.manner == "spiral"
    first = selection.rows[0].worked if selection.rows else None
    start = first.below.atoms() if first else []
    rows = _linked(part, worked, selection, start)
    if not flat and selection.wedge is None and _is_tube(worked, rows):
        return None
    way = way_of(rows[0]) if rows else 1
    chains = sum(1 for place in start if place.what == "ch") if part.start.ring else 0
    radius = max(layout_rounds.SMALLEST, chains * CHAIN / (2 * pi), 0.35 if chains else 0.0)
    wedge = selection.wedge
    page = layout_rounds.HalfDisc() if flat else layout_rounds.Disc(wedge=wedge)
    centre = layout_rounds.centre(radius, len(start), way)
    layers = layout_rounds.lay(centre, rows, page, gathered, spiral)
    corners, first_corner = layout_rounds.corners_of(layers)
    if corners and not flat and not spiral:
        page = layout_rounds.Disc(corners, first_corner, wedge)
        layers = layout_rounds.lay(centre, rows, page, gathered, spiral)
    if wedge is not None:
        layers, wound = wedges.cut_open(layers, page)
        selection = replace(selection, wedge=replace(wedge, wound=wound))
        if wedges.strayed(layers, page):
            return None
    manner = "half circle" if flat else "rounds"
    return Laid(layers, page, manner, selection, 0, skipped=_skipped(selection, wish))


def _skipped(selection: Selection, wish: Wish) -> int:
    """How many rows come before the first that is to be drawn."""
    return sum(not wish.has(row.number) for row in selection.rows)
