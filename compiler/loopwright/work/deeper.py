"""Deeper: places of earlier rows, the base of a chain, and stitches left unworked."""

from __future__ import annotations

from collections.abc import Callable

from loopwright.ir.fabric import Place
from loopwright.ir.items import ANY_STITCH, Kind, Target
from loopwright.ir.runs import Runs
from loopwright.source import Span
from loopwright.work.hand import Hand
from loopwright.work.places import Stuck, takes_stitch
from loopwright.work.spots import Spot, jump, kind_wanted, spot_at


def deep(hand: Hand, target: Target, span: Span) -> Spot:
    """A place of an earlier row. A spike into a stitch uses the stitch above it."""
    hand.elsewhere = True
    edge = hand.deeper(target.below, target.of_row)
    if edge is None:
        raise Stuck("wrong-place", span, wanted=Kind("row"), found=None)
    kind = target.kind
    if kind.what != "sp":
        hand.next_stitch(ANY_STITCH, span)
        if kind.what == "st":
            return Spot("deep", 0)
    return _next_deep(hand, edge, (target.below, target.of_row), kind_wanted(kind), target, span)


def _next_deep(
    hand: Hand,
    edge: Runs[Place],
    key: tuple[int, int],
    wanted: Callable[[Place], bool],
    target: Target,
    span: Span,
) -> Spot:
    found = edge.find(hand.deep.get(key, 0), wanted)
    if found < 0:
        kind = "no-such-space" if target.kind.what == "sp" else "edge-ran-out"
        raise Stuck(
            kind, span, chains=target.kind.chains, none=not edge.before(edge.length, wanted)
        )
    hand.deep[key] = found + 1
    return Spot("deep", found)


def next_skipped(hand: Hand, target: Target, span: Span) -> Spot:
    hand.elsewhere = True
    edge = hand.passed_in(target.below, target.of_row)
    if edge is None:
        raise Stuck("wrong-place", span, wanted=Kind("row"), found=None)
    return _next_deep(hand, edge, (-1 - target.below, target.of_row), takes_stitch, target, span)


def base(hand: Hand, target: Target, span: Span) -> Spot:
    """What a chain stands on. The first is the one that this row began with, on its first place,
    or else one of the row below, as the next one is. A chain that counts stands on a place of the
    row further down, and a stitch there uses the chain, as a spike does the stitch above it; a
    loop hangs from the stitch that it was made from."""
    chains = target.chains
    if target.which == "first" and hand.begun is not None and chains in hand.begun[0]:
        spot = Spot(*hand.begun[1])
        if spot.into != "ring" and spot.position >= hand.pos:
            hand.pos = spot.position + 1
        return spot
    found = _called(hand, chains, hand.near if target.which == "first" else hand.here())
    if found < 0:
        raise Stuck("wrong-place", span, wanted=Kind("no base", chains))
    if hand.at(found).what == "st":
        jump(hand, found, span)
        return Spot("deep", 0)
    position = _made_from(hand, found)
    if position < 0:
        raise Stuck("wrong-place", span, wanted=Kind("base"))
    jump(hand, position, span)
    return spot_at(hand, position)


def _called(hand: Hand, chains: int, start: int) -> int:
    """The first chain of so many from a position on: a space, or a chain that counts; or -1."""
    at = start
    while True:
        at = hand.find(at, lambda place: place.what == "sp" or place.chains > 0)
        if at < 0 or at >= hand.end:
            return -1
        place = hand.at(at)
        if place.chains == chains or (place.what == "st" and as_long(hand, at, chains)):
            return at
        at += 1


def as_long(hand: Hand, position: int, chains: int) -> bool:
    """Whether a chain that counts is of so many, with or without the loose chains beside it: the
    top of a `ch 5 as (tr, ch 2)` is called that of the ch-5 or of the ch-3."""
    own = hand.at(position).chains
    beside = [at for at in (position - 1, position + 1) if 0 <= at < hand.edge.length]
    return own == chains or any(
        hand.at(at).what == "sp" and own + hand.at(at).chains == chains for at in beside
    )


def _made_from(hand: Hand, space: int) -> int:
    """The stitch that a loop was made from: the one before it as it was made; or -1."""
    n = hand.edge.length
    at = space + 1 if hand.turned_edge else space - 1
    if hand.turned_edge and hand.is_round:
        at %= n
    return at if 0 <= at < n and hand.at(at).what == "st" else -1


def unworked(hand: Hand, target: Target, span: Span) -> Spot:
    """The next of the stitches that earlier rows left in words."""
    if hand.taken_up >= hand.unworked.length:
        raise Stuck("edge-ran-out", span, unworked=True, have=hand.unworked.length)
    hand.taken_up += 1
    return Spot("left", hand.taken_up - 1)
