"""Limits: where an `each` or a repeat ends, as far as `to last 3 sts`, `to next ch` or a marker."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from loopwright.ir.fabric import Place
from loopwright.ir.items import Kind, Scope
from loopwright.source import Span
from loopwright.work.hand import Hand
from loopwright.work.places import Stuck, has_chains, kind_matches, takes_stitch
from loopwright.work.placing import leads
from loopwright.work.spots import kind_wanted


def _begins(hand: Hand, kind: Kind, lead: int) -> int:
    """Where the own stitch begins, as it is met, whose first stitch stands at a position: on an
    edge that is met backwards that stitch comes last."""
    if not hand.turned_edge:
        return lead

    def outside(place: Place) -> bool:
        return place.own != kind.own or place.lead

    before = hand.edge.before(lead, outside)
    return hand.edge.nth(before - 1, outside) + 1 if before else 0


def limit_of(hand: Hand, scope: Scope, span: Span) -> int:
    """The position at which a scope ends: nothing at or past it is worked."""
    if scope.how == "end":
        return hand.end
    if scope.how == "last":
        own = scope.kind.what == "own"
        wanted = leads(scope.kind) if own else kind_wanted(scope.kind)
        keep = hand.number(scope.n)
        total = hand.edge.before(hand.end, wanted)
        hand.saw(hand.edge.length)
        if keep <= 0:
            return hand.end
        have = total - hand.edge.before(hand.here(), wanted)
        if keep > have:
            raise Stuck("repeat-does-not-fit", span, keep=keep, have=have)
        position = hand.edge.nth(total - keep, wanted)
        return _begins(hand, scope.kind, position) if own else position
    if scope.how == "marked":
        position = hand.met_marks.get(scope.name, -1)
        if position < hand.here():
            raise Stuck("unknown-marker", span, name=scope.name)
        return position
    return _to_next(hand, scope, span)


def _to_next(hand: Hand, scope: Scope, span: Span) -> int:
    kind = scope.kind
    if kind.what == "sp":
        found = hand.peek_space(kind.chains)
        if found < 0:
            raise Stuck("no-such-space", span, chains=kind.chains, none=False)
        return found
    found = next((at for at in map(partial(_ahead, hand), stops_at(kind)) if at >= 0), -1)
    if found < 0:
        raise Stuck("edge-ran-out", span, stop=kind)
    here = found == hand.here() and not hand.sub and not hand.own_chain
    if here and (kind.what == "st" or hand.at(found).what == kind.what == "ch"):
        raise Stuck("repeat-does-not-fit", span, here=kind)
    return found


def _ahead(hand: Hand, wanted: Callable[[Place], bool]) -> int:
    """The next such place that may be worked, or -1."""
    found = hand.find(hand.here(), wanted)
    return found if found < hand.end else -1


def stops_at(kind: Kind) -> tuple[Callable[[Place], bool], ...]:
    """What ends a `to next ...`, the likelier first. A stitch is a real one where there is any, and
    no chain of the start or row end that is worked like one; a chain is where `in next ch` goes."""
    if kind.what == "st":
        return (lambda place: place.what == "st", takes_stitch)
    if kind.what == "ch":
        return (has_chains, lambda place: place.chains > 0)
    return (lambda place: takes_stitch(place) and kind_matches(kind, place),)
