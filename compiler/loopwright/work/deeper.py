"""Deeper: places of earlier rows, the base of a chain, and stitches left unworked."""

from __future__ import annotations

from collections.abc import Callable

from loopwright.ir.fabric import Place
from loopwright.ir.items import ANY_STITCH, Kind, Target
from loopwright.ir.runs import Runs
from loopwright.source import Span
from loopwright.work.hand import Hand
from loopwright.work.places import Stuck, takes_stitch
from loopwright.work.spots import Spot, kind_wanted, spot_at


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
    edge = hand.passed_in(target.of_row)
    if edge is None:
        raise Stuck("wrong-place", span, wanted=Kind("row"), found=None)
    return _next_deep(hand, edge, (-1, target.of_row), takes_stitch, target, span)


def base(hand: Hand, target: Target, span: Span) -> Spot:
    """The place that a chain stands on: the first of the round, or before the next such space."""
    if target.which == "first":
        if not hand.edge.length:
            return Spot("ring", 0)
        hand.pos = max(hand.pos, 1)
        return spot_at(hand, 0)
    found = hand.next_space(target.chains, span)
    hand.pos = found
    if found == 0:
        raise Stuck("wrong-place", span, wanted=Kind("base"))
    return spot_at(hand, found - 1)


def unworked(hand: Hand, target: Target, span: Span) -> Spot:
    """The next of the stitches that earlier rows left in words."""
    if hand.taken_up >= hand.unworked.length:
        raise Stuck("edge-ran-out", span, unworked=True, have=hand.unworked.length)
    hand.taken_up += 1
    return Spot("left", hand.taken_up - 1)
