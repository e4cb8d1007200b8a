"""Placing: where each stitch of a row goes, for every way of saying so.

One function for each way (``next``, ``each``, ``same``...), found through ``SINGLE``; what goes in
one place is made by the caller through ``Spot``.
"""

from __future__ import annotations

from collections.abc import Callable

from loopwright.frozen import replace
from loopwright.ir.fabric import Made, Place
from loopwright.ir.items import Kind, Target
from loopwright.source import Span
from loopwright.trade.stitches import Stitch
from loopwright.work.deeper import as_long, base, deep, next_skipped, unworked
from loopwright.work.hand import RING, Hand
from loopwright.work.places import SPACES, Stuck, is_space, takes_stitch
from loopwright.work.spots import (
    LEAST_ENTERED,
    Spot,
    jump,
    kind_wanted,
    spot_at,
    to_space,
    wanted_place,
    what_of,
)


def single(hand: Hand, target: Target, span: Span) -> Spot:
    """The one place that a target means, taken."""
    here = hand.override is not None and target.how in ("next", "same")
    if here and hand.override is not None and target.kind.what == "st":
        return Spot(*hand.override)
    spot = SINGLE[target.how](hand, target, span)
    if spot.into in ("sp", "gap"):
        hand.beside = True
    elif spot.into != "ring" and target.how not in ("same", "skipped", "unworked"):
        hand.beside = False
    return spot


def _next(hand: Hand, target: Target, span: Span) -> Spot:
    kind = target.kind
    if target.below or target.of_row:
        return deep(hand, target, span)
    if kind.what == "sp":
        return Spot("sp", hand.next_space(kind.chains, span))
    if kind.what == "gap":
        return _gap(hand, kind, span)
    if kind.what == "ch":
        if hand.own_chain:
            hand.own_chain -= 1
            return Spot("own", hand.last)
        position, chain = hand.next_chain(span)
        return Spot("sp" if chain else "ch", position, chain)
    if kind.what == "st and ch":
        return _stitch_or_chain(hand, span)
    return next_stitch(hand, kind, span)


def next_stitch(hand: Hand, kind: Kind, span: Span) -> Spot:
    """The next stitch (or starting chain, or row end); on a chain just made, its next chain."""
    if hand.override is not None:
        return Spot(*hand.override)
    if hand.own_chain and kind.what == "st":
        hand.own_chain -= 1
        return Spot("own", hand.last)
    position = hand.next_stitch(kind, span)
    return Spot(what_of(hand.at(position)), position)


def _gap(hand: Hand, kind: Kind, span: Span) -> Spot:
    """Before the next stitch, or between two stitches of the designer's own; past the gap worked
    last. In a round the last gap lies across the join; in a row there is none at its ends."""
    least = max(hand.here(), hand.gap + 1)
    if kind.own:
        position = _between_own(hand, kind, max(least, 1))
    else:
        position = hand.find(max(least, 0 if hand.is_round else 1), takes_stitch)
    if position < 0:
        if not hand.is_round or hand.gap == hand.end:
            raise Stuck("edge-ran-out", span)
        position = hand.end
    hand.pos, hand.sub = position, 0
    hand.gap = position
    return Spot("gap", position)


def _between_own(hand: Hand, kind: Kind, least: int) -> int:
    """The first gap between two of the designer's own stitches at or past a position, or -1. On
    an edge met from its end the first stitch of each comes last."""
    wanted = leads(kind)
    before = hand.edge.before
    if not hand.turned_edge:
        found = hand.find(least, wanted)
        return hand.find(found + 1, wanted) if found >= 0 and not before(found, wanted) else found
    found = hand.find(least - 1, wanted)
    last = found < 0 or before(found, wanted) + 1 >= before(hand.edge.length, wanted)
    return -1 if last else found + 1


def leads(kind: Kind) -> Callable[[Place], bool]:
    """The first stitch of each of the designer's own; for a plain gap, every stitch."""
    if kind.own:
        return lambda place: place.lead and place.own == kind.own
    return takes_stitch


def _stitch_or_chain(hand: Hand, span: Span) -> Spot:
    if hand.sub:
        position, chain = hand.next_chain(span)
        return Spot("sp", position, chain)
    at = hand.find(hand.here(), lambda place: place.what != "hook")
    if at < 0 or at >= hand.end:
        raise Stuck("edge-ran-out", span)
    hand.pos = at
    if is_space(hand.at(at)):
        position, chain = hand.next_chain(span)
        return Spot("sp", position, chain)
    return next_stitch(hand, Kind("st"), span)


def _same(hand: Hand, target: Target, span: Span) -> Spot:
    if hand.same == RING:
        hand.in_ring = True
        return Spot("ring", 0)
    if hand.same < 0:
        if hand.spiral or not hand.edge.length or hand.at(0).what != "st":
            raise Stuck("wrong-place", span, wanted=Kind("same"))
        # First in a row that is where the hook is: the stitch that was joined to, or turned on.
        return _first(hand, target, span)
    place = hand.at(hand.same)
    if hand.same == hand.pos and not hand.sub:
        hand.pos += 1
    wants_space = target.kind.what == "sp"
    if wants_space != is_space(place) and target.kind.what != "gap" and not place.chains:
        hand.fault("wrong-place", span, wanted=target.kind, found=place)
    if place.what in SPACES:
        return Spot("sp", hand.same)
    hand.check_kind(target.kind, hand.same, span)
    return Spot(what_of(place), hand.same)


def _first(hand: Hand, target: Target, span: Span) -> Spot:
    found = hand.find(hand.near, kind_wanted(target.kind))
    if found < 0:
        raise _none_of(hand, target.kind, span, hand.find(hand.near, takes_stitch))
    if found == hand.counted_at:
        hand.twice = span
    if target.kind.what == "sp":
        to_space(hand, target.how, found, span)
    elif found >= hand.pos:
        jump(hand, found, span)
    return spot_at(hand, found)


def _last(hand: Hand, target: Target, span: Span) -> Spot:
    found = _last_of(hand, kind_wanted(target.kind))
    if found < 0:
        raise _none_of(hand, target.kind, span, _last_of(hand, takes_stitch))
    if target.kind.what == "sp":
        to_space(hand, target.how, found, span)
    else:
        again = found == hand.same and found < hand.here() and found != hand.named_last
        if again and hand.last_twice is None:
            hand.last_twice = span
        hand.named_last = found
        jump(hand, found, span)
    return spot_at(hand, found)


def _last_of(hand: Hand, wanted: Callable[[Place], bool]) -> int:
    """The last such place of the edge, or -1."""
    total = hand.edge.before(hand.end, wanted)
    found = hand.edge.nth(total - 1, wanted) if total else -1
    hand.saw(hand.edge.length)
    return found if found >= hand.near else -1


def _none_of(hand: Hand, kind: Kind, span: Span, instead: int) -> Stuck:
    """There is none of a kind: what stands in its place, where something does."""
    if instead < 0 or kind.what in ("st", "ch", "sp"):
        return Stuck("edge-ran-out", span)
    return Stuck("wrong-place", span, wanted=kind, found=hand.at(instead))


def _top(hand: Hand, target: Target, span: Span) -> Spot:
    found = hand.find(hand.here(), lambda place: place.what == "st" and place.chains > 0)
    if found < 0 or not as_long(hand, found, target.chains):
        loose = hand.find(hand.here(), takes_stitch)
        if 0 <= loose < hand.end and hand.at(loose).stitch is None:
            found = loose
        else:
            raise Stuck("wrong-place", span, wanted=Kind("top", target.chains))
    jump(hand, found, span)
    return Spot("st", found)


def _chain_of(hand: Hand, target: Target, span: Span) -> Spot:
    position = _space_of(hand, target, span)
    chains = hand.at(position).chains
    if not 1 <= target.nth <= chains:
        hand.fault("wrong-place", span, wanted=Kind("chain", target.nth), found=hand.at(position))
    if hand.pos == position:
        hand.sub = min(target.nth, chains)
        if hand.sub >= chains:
            hand.pos, hand.sub = position + 1, 0
    return Spot("sp", position, target.nth)


def _space_of(hand: Hand, target: Target, span: Span) -> int:
    """The space whose chain is meant; one that is gone on to is left open at its chains."""
    if target.which == "same":
        position = hand.same
    elif target.which in ("first", "last"):
        wanted = wanted_place(target.kind)
        first = target.which == "first"
        position = hand.find(hand.near, wanted) if first else _last_of(hand, wanted)
        if position >= hand.here():
            to_space(hand, target.which, position, span)
            hand.pos = position
    else:
        position = hand.next_space(target.kind.chains, span)
        hand.pos = position
    if position < 0:
        raise Stuck("no-such-space", span, chains=target.kind.chains, none=True)
    return position


def _hook(hand: Hand, target: Target, span: Span) -> Spot:
    own = _own_chain(hand)
    if own:
        return _into_own_chain(hand, own, target.nth, span)
    at = hand.here()
    length = hand.end - at
    if hand.started or at or not length or hand.at(0).what != "ch":
        raise Stuck("wrong-place", span, wanted=Kind("hook"))
    if target.nth > length:
        raise Stuck("edge-ran-out", span, chain=True)
    hand.hooked = hand.first_chain = target.nth - 1
    if hand.hooked >= LEAST_ENTERED and not hand.is_round:
        hand.push(hook_chain(hand))
    hand.pos = target.nth
    return Spot("ch", target.nth - 1)


def hook_chain(hand: Hand) -> Made:
    """The chains skipped from the hook at the start, as what they leave."""
    return Made("hook ch", chains=hand.hooked, yarn=hand.yarn, item=hand.item)


def _own_chain(hand: Hand) -> int:
    pairs = hand.out.pairs
    if not pairs or isinstance(pairs[-1][0], tuple) is False:
        return 0
    made, times = pairs[-1]
    what = getattr(made, "what", "")
    if what not in ("ch", "turn") or times != 1:
        return 0
    return int(getattr(made, "chains", 0))


def _into_own_chain(hand: Hand, chains: int, nth: int, span: Span) -> Spot:
    """Into the chain just made; the rest of it is worked back along by what follows."""
    if nth > chains:
        raise Stuck("edge-ran-out", span, chain=True)
    made, _ = hand.out.pairs.pop()
    if made.what == "ch":  # type: ignore[union-attr]
        hand.places -= 1
    if nth > 1:
        hand.push(made._replace(what="hook sp", chains=nth - 1))  # type: ignore[union-attr]
    hand.own_chain = chains - nth
    return Spot("own", hand.last)


def _nth(hand: Hand, target: Target, span: Span) -> Spot:
    if target.kind.what != "sp":
        wanted = kind_wanted(target.kind)
        done = hand.edge.before(hand.here(), wanted)
        position = hand.edge.nth(done + max(target.nth, 1) - 1, wanted)
        hand.saw(position if position >= 0 else hand.edge.length)
        if position < 0 or position >= hand.end:
            raise Stuck("edge-ran-out", span)
        hand.pos, hand.sub = position + 1, 0
    else:
        wanted = hand.space_wanted(target.kind.chains)
        done = hand.edge.before(hand.here(), wanted)
        position = hand.edge.nth(done + max(target.nth, 1) - 1, wanted)
        hand.saw(position if position >= 0 else hand.edge.length)
        if position < 0 or position >= hand.end:
            raise Stuck("no-such-space", span, chains=target.kind.chains, none=False)
        hand.pos, hand.sub = position + 1, 0
    return spot_at(hand, position)


def _skipped(hand: Hand, target: Target, span: Span) -> Spot:
    # "in skipped st" takes those that are not worked yet, in order.
    one = target.nth - 1 if target.nth else 0
    among = hand.skipped
    if not target.nth:
        among = tuple(at for at in among if at not in hand.gone_back)
    if one >= len(among):
        raise Stuck("wrong-place", span, wanted=Kind("skipped"))
    hand.gone_back = (*hand.gone_back, among[one])
    return spot_at(hand, among[one])


def _marked(hand: Hand, target: Target, span: Span) -> Spot:
    position = hand.met_marks.get(target.name, -1)
    if position < 0:
        raise Stuck("unknown-marker", span, name=target.name)
    hand.saw(hand.edge.length)
    jump(hand, position, span)
    return spot_at(hand, position)


def _ring(hand: Hand, target: Target, span: Span) -> Spot:
    if not hand.ring:
        raise Stuck("wrong-place", span, wanted=Kind("ring"))
    hand.in_ring = True
    return Spot("ring", 0)


SINGLE: dict[str, Callable[[Hand, Target, Span], Spot]] = {
    "next": _next,
    "same": _same,
    "first": _first,
    "last": _last,
    "top": _top,
    "chain of": _chain_of,
    "hook": _hook,
    "nth": _nth,
    "skipped": _skipped,
    "marked": _marked,
    "ring": _ring,
    "base": base,
    "next skipped": next_skipped,
    "unworked": unworked,
}


# ----------------------------------------------------------------- several places

SEVERAL = ("each next", "each", "each last", "each skipped", "each unworked")


def one_of(target: Target) -> Target:
    """The target of each single place of several."""
    if target.how == "each skipped":
        return replace(target, how="skipped", nth=0)
    if target.how == "each unworked":
        return replace(target, how="unworked")
    return replace(target, how="next", scope=None)


def post_of(target: Target | None, stitch: Stitch) -> bool:
    """Whether a stitch goes around its place: said so, or made so."""
    return bool(stitch.post) or (target is not None and target.post)
