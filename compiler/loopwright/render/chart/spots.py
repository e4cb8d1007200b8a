"""A chart's symbols while they are being placed, and the page they lie on.

A row is a strip. Along it runs ``s``, in the direction in which a right-side row is worked (to the
left in rows, anticlockwise in rounds), and up it runs ``v``, away from the beginning. A ``Plane``
says how long a step of ``s`` is and where on the page a point lies.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import Protocol

from loopwright.frozen import NamedTuple, Slotted, field
from loopwright.render.chart.links import Linked, Ref, Thing
from loopwright.render.chart.stretches import crab
from loopwright.render.chart.values import Point
from loopwright.trade.stitches import Stitch

CLOSING = 1.7  # room at the join, for the number of the round
OUTERMOST = 0.8  # and at that of the last round of a page with straight sides: outside is room
LONG = 7  # chains that pass over stitches even at the end of a round, or around that of an oval


class At(NamedTuple):
    """A point of the strips: along, and up."""

    s: float
    v: float


class Plane(Protocol):
    """The shape of the page. ``around`` is the length of a whole round in ``s`` (None for rows
    that have two ends), ``most`` the longest a row may grow in ``s`` before it has to rise,
    ``widest`` the length that no row may grow past where rows can not rise, ``even``
    how far a round is evened out, from 0 (straight over its places) to 1 (all gaps alike)."""

    around: float | None
    most: float | None
    widest: float | None
    even: float

    def metric(self, at: At) -> float:
        """The length on the page of one step of ``s`` there."""

    def lack(self, needed: float, level: float) -> float:
        """By how much a row at a height must rise to have the room it needs."""

    def page(self, at: At) -> Point:
        """Where a point of the strips lies on the page."""

    def snap(self, layer: Layer) -> None:
        """Bring the corners of a row to where the page has its corners."""


class Spot(Slotted):
    """A symbol while it is being placed. ``half`` is half the room it takes along the row,
    ``more`` what is kept free behind it (the way ``s`` grows), ``end`` which end of an oval it goes
    around (0 for none)."""

    kind: str
    height: float = 0.0
    half: float = 0.5
    thing: Thing | None = None
    s: float = 0.0
    v: float = 0.0
    feet: list[At] = field(default_factory=list)
    path: list[At] = field(default_factory=list)
    more: float = 0.0
    end: int = 0


class Layer(Slotted):
    """A row while it is being placed: ``way`` is 1 for right side, -1 for wrong side; ``at`` finds
    the spot that left a place; ``round_length`` is what once around it comes to in ``s``; ``free``
    is the room at its join, for its number, ``close`` how near to one another, as a share of their
    usual room, its symbols stand. Of a tube that is cut open away from where its rounds begin
    ``gap`` is the first spot after the cut, which lies at the other end."""

    spots: list[Spot]
    way: int
    at: dict[int, Spot]
    linked: Linked | None = None
    round_length: float = 0.0
    free: float = CLOSING
    close: float = 1.0
    gap: int = 0


def height_of(stitch: Stitch) -> float:
    """How high a stitch is drawn, in stitch widths."""
    return 0.35 if stitch.height == 0 else 0.4 + 0.58 * stitch.height


def layer_of(linked: Linked) -> Layer:
    """The spots of a row, not yet placed."""
    spots = [_spot(thing) for thing in linked.things]
    if linked.inside and spots and spots[0].kind == "upright":
        spots[0].half = 0.0  # half way to what is worked past it, when what was left is taken up
    _narrow(spots)
    _widen(spots, len(linked.left) if any(spot.kind == "join" for spot in spots) else 0)
    at = {spot.thing.place: spot for spot in spots if spot.thing and spot.thing.place >= 0}
    return Layer(spots, way_of(linked), at, linked)


def way_of(linked: Linked) -> int:
    """Which way a row goes: 1 as right-side rows do, -1 back."""
    return -1 if linked.worked.wrong_side != crab(linked.worked) else 1


def _spot(thing: Thing) -> Spot:
    made = thing.made
    if made.what == "st" and made.stitch is not None:
        kind = "dot" if made.stitch.basic == "slip" else "stem"
        return Spot(kind, height_of(made.stitch), _room(made.stitch), thing)
    if made.what in ("as", "skip as") and made.stitch is not None:
        return Spot("upright", height_of(made.stitch), 0.45, thing)
    if made.what == "turn":
        return Spot("upright", 0.7 * made.chains, 0.4, thing)
    if made.what in ("ch", "open", "hook sp", "join sp"):
        return Spot("run", 0.0, _run_room(made.chains), thing)
    return Spot(made.what, thing=thing)


def _room(stitch: Stitch) -> float:
    if stitch.many in ("popcorn", "shell"):
        return 0.75
    if stitch.many:
        return 0.6
    return 0.55 if stitch.together > 1 or stitch.unlike else 0.5


def _run_room(chains: int) -> float:
    """Half the room of a run of chains: long ones rise in an arc in place of growing wider."""
    return 0.28 * min(chains, 6) + 0.14 * min(max(chains - 6, 0), 24)


def _narrow(spots: list[Spot]) -> None:
    """Stitches that share a place stand a little closer: they are seen to belong together."""
    for one, two in pairwise(spots):
        if not one.kind == two.kind == "stem" or one.thing is None or two.thing is None:
            continue
        if one.thing.feet == two.thing.feet != ():
            for spot in (one, two):
                spot.half = 0.44 if spot.half <= 0.5 else spot.half


def _widen(spots: list[Spot], last: int) -> None:
    """Chains over as many stitches lie as wide as those: long ones over the ``last`` ones of a
    round where nothing but its join follows."""
    for i, spot in enumerate(spots):
        if spot.kind == "run" and spot.thing:
            on = next((one.thing for one in spots[i + 1 :] if one.thing and one.thing.feet), None)
            passed = len(on.jumped) if on else last if spot.thing.made.chains >= LONG else 0
            spot.half = max(spot.half, 0.5 * min(spot.thing.made.chains, passed))


def spot_at(ref: Ref, layers: Sequence[Layer]) -> Spot:
    """The symbol that left a place."""
    layer = layers[ref.row] if ref.row < len(layers) else layers[-1]
    return layer.at.get(ref.place) or nearest(layer, ref.place)


def met_at(ref: Ref, layers: Sequence[Layer]) -> float:
    """Where along its row a place lies, as often around as it was passed."""
    layer = layers[min(ref.row, len(layers) - 1)]
    return spot_at(ref, layers).s + ref.turn * layer.way * layer.round_length


def nearest(layer: Layer, place: int) -> Spot:
    """The symbol that left the place nearest to one in the order made."""
    if not layer.at:
        return layer.spots[0] if layer.spots else Spot("place")
    return layer.at[min(layer.at, key=lambda known: (abs(known - place), known))]
