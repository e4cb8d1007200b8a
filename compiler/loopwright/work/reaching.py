"""Reaching: a body in each of several places, as far as a row says."""

from __future__ import annotations

from collections.abc import Callable

from loopwright.ir import items as ir
from loopwright.ir.fabric import Place
from loopwright.ir.items import Target
from loopwright.source import Span
from loopwright.work.hand import Hand
from loopwright.work.limits import limit_of
from loopwright.work.places import Stuck, has_chains, is_space, kind_matches, takes_stitch
from loopwright.work.placing import leads
from loopwright.work.repeating import Cut, Endless, repeat
from loopwright.work.spots import jump

Along = Callable[[int | None], int]
"""Works what can be worked a run at a time, at most so many; how many were."""


def several(hand: Hand, times: int, body: Callable[[], None], along: Along | None = None) -> None:
    """A body so many times; when the edge runs out, what stopped it goes on up."""
    if times == 1:
        body()
        return
    done = along(times) if along is not None else 0
    if done < times:
        try:
            repeat(hand, body, times=times - done)
        except Cut as cut:
            cut.stuck.values.setdefault("done", done + cut.done)
            cut.stuck.values.setdefault("times", times)
            raise cut.stuck from None


def each(
    hand: Hand,
    target: Target,
    span: Span,
    body: Callable[[], None],
    along: Along | None = None,
) -> None:
    """A body in each of the places of a target."""
    if target.how == "each last":
        each_last(hand, target, span, body)
    elif target.how in ("each next", "each skipped", "each unworked"):
        several(hand, hand.number(target.n), body, along)
    else:
        as_far(hand, target, span, body, along)


def each_last(hand: Hand, target: Target, span: Span, body: Callable[[], None]) -> None:
    n = hand.number(target.n)
    total = hand.edge.before(hand.end, takes_stitch)
    hand.saw(hand.edge.length)
    if n > total:
        raise Stuck("edge-ran-out", span)
    if n:
        first = hand.edge.nth(total - n, takes_stitch)
        if n > 1 and first < hand.here():
            done = total - hand.edge.before(hand.here(), takes_stitch)
            raise Stuck("edge-ran-out", span, done=max(done, 0), times=n)
        jump(hand, first, span)
        hand.pos, hand.sub = first, 0
        several(hand, n, body)


def as_far(
    hand: Hand, target: Target, span: Span, body: Callable[[], None], along: Along | None
) -> None:
    scope = target.scope or ir.Scope("here")
    if target.kind.what == "gap":
        several(hand, gaps(hand, target.kind), body)
        return
    limit = last_of(hand, target, scope, span)
    if limit <= hand.here() and not hand.sub:
        if target.kind.what == "sp":
            chains = target.kind.chains
            raise Stuck("no-such-space", span, chains=chains, none=hand.none_at_all(chains))
        return
    end = hand.end
    hand.end = limit
    try:
        if along is not None:
            along(None)
        repeat(hand, body, limit=limit)
    except Cut as cut:
        raise cut.stuck from None
    except Endless:
        raise Stuck("repeat-does-not-fit", span, nothing=True) from None
    finally:
        hand.end = end


def gaps(hand: Hand, kind: ir.Kind) -> int:
    """How many gaps there are from the hand on: one fewer than stitches in a row, as many in a
    round, where one lies across the join."""
    wanted = leads(kind)
    before = hand.edge.before
    hand.saw(hand.edge.length)
    at = hand.here()
    ahead = before(hand.end, wanted) - before(at, wanted)
    if at and before(at, wanted):
        ahead += 1
    return max(ahead - (0 if hand.is_round else 1), 0)


def in_the_way(place: Place) -> bool:
    """Whether a place is met where stitches and chains are worked as they come."""
    return place.what != "hook"


def last_of(hand: Hand, target: Target, scope: ir.Scope, span: Span) -> int:
    """The position after the last place that an ``each`` works."""
    kind = target.kind
    at = hand.here()
    end = hand.end
    if scope.how not in ("end", "here"):
        end = limit_of(hand, scope, span)
    elif kind.what == "ch" and scope.how == "here":
        return chains_end(hand)
    elif scope.how == "here" and kind.what not in ("sp", "st", "st and ch", "row end"):
        other = hand.find(at, lambda place: takes_stitch(place) and not kind_matches(kind, place))
        return other if other >= 0 else hand.end
    wanted = worked_of(hand, kind)
    total = hand.edge.before(end, wanted)
    hand.saw(hand.edge.length)
    return hand.edge.nth(total - 1, wanted) + 1 if total else at


def worked_of(hand: Hand, kind: ir.Kind) -> Callable[[Place], bool]:
    """What an ``each`` of a kind goes into; where it stops is past the last of these, so that
    what lies between that and the end (a space, of stitches) is for what follows."""
    if kind.what == "sp":
        return hand.space_wanted(kind.chains)
    if kind.what == "ch":
        return has_chains
    return in_the_way if kind.what == "st and ch" else takes_stitch


def chains_end(hand: Hand) -> int:
    at = hand.here()
    other = hand.find(at, lambda place: place.what != "ch")
    if hand.sub:
        return hand.pos + 1
    if other == at and at < hand.end and is_space(hand.at(at)):
        return at + 1
    return other if 0 <= other < hand.end else hand.end
