"""Spots: one place found, and what is asked for when one is looked for."""

from __future__ import annotations

from collections.abc import Callable

from loopwright.frozen import NamedTuple
from loopwright.ir.fabric import Place
from loopwright.ir.items import Kind
from loopwright.source import Span
from loopwright.work.hand import Hand
from loopwright.work.places import SPACES, is_space, kind_matches, takes_stitch

LEAST_ENTERED = 3
"""Chains skipped from the hook at the start that are enough of a space to be worked into."""


class Spot(NamedTuple):
    """One place found: what it is (``Made.into``), where on the edge, which chain of a space."""

    into: str
    position: int
    chain: int = 0


def wanted_place(kind: Kind) -> Callable[[Place], bool]:
    if kind.what == "sp":
        if kind.chains:
            return lambda place: place.what == "sp" and place.chains == kind.chains
        return is_space
    if kind.what == "ch":
        return lambda place: place.what == "ch"
    return takes_stitch


def kind_wanted(kind: Kind) -> Callable[[Place], bool]:
    if kind.what in ("stitch", "own", "many", "row end"):
        return lambda place: takes_stitch(place) and kind_matches(kind, place)
    return wanted_place(kind)


def spot_at(hand: Hand, position: int) -> Spot:
    place = hand.at(position)
    return Spot("sp" if place.what in SPACES else what_of(place), position)


def what_of(place: Place) -> str:
    return place.what if place.what in ("ch", "end") else "st"


def to_space(hand: Hand, which: str, position: int, span: Span) -> None:
    """Go to the first or last space: stitches on the way are passed, another space is not."""
    if position < hand.here():
        return
    other = hand.find(hand.here(), is_space)
    if 0 <= other < position:
        wanted, passed = hand.at(position).chains, hand.at(other).chains
        hand.fault("space-passed", span, wanted=wanted, passed=passed, which=which)
    hand.pos, hand.sub = position + 1, 0


def jump(hand: Hand, position: int, span: Span) -> None:
    """Go to a place further on; what lies between must be such as may be passed."""
    at = hand.here()
    if position < at:
        return
    between = hand.edge.before(position, takes_stitch) - hand.edge.before(at, takes_stitch)
    if between and not hand.beside:
        hand.fault("places-left-over", span, left=between, places="between")
    hand.pos, hand.sub = position + 1, 0
