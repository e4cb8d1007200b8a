"""Stitching: stitches into places, increases, decreases, and stitches of the designer's own."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from loopwright.ir import items as ir
from loopwright.ir.fabric import Made
from loopwright.ir.items import ANY_STITCH, Kind, Target
from loopwright.source import Span
from loopwright.trade.stitches import Stitch
from loopwright.work.places import OFF_EDGE, Stuck, takes_stitch
from loopwright.work.placing import SEVERAL, next_stitch, one_of, post_of, single
from loopwright.work.reaching import each, several
from loopwright.work.spots import Spot, what_of

if TYPE_CHECKING:
    from loopwright.work.doing import Doing

NEXT = Target("next")
ALONG = ("st", "stitch", "row end")
"""Kinds of place that can be worked along, run by run."""

MOST_RUNS = 8
"""Runs of places worked along one by one before a cycle of them is looked for."""

DEEPEST = 20
"""Stitches of the designer's own made of others of her own, and so on."""


def work_stitches(doing: Doing, item: ir.Work) -> None:
    n = doing.hand.number(item.n)
    if n == 0:
        return
    target = item.target
    if item.own:
        own(doing, item, n)
    elif target is None:
        along = partial(run_along, doing, item, ANY_STITCH) if item.stitch.together == 1 else None
        several(doing.hand, n, lambda: one(doing, item, NEXT, 1), along)
    elif target.how in SEVERAL:
        if item.stitch.together > 1:
            together_over(doing, item, target, n)
        else:
            inner = one_of(target)
            along = None
            if n == 1 and target.how in ("each next", "each") and target.kind.what in ALONG:
                along = partial(run_along, doing, item, target.kind)
            each(doing.hand, target, item.span, lambda: one(doing, item, inner, n), along)
    elif item.stitch.together > 1:
        several(doing.hand, n, lambda: one(doing, item, target, 1))
    else:
        one(doing, item, target, n)


def run_along(doing: Doing, item: ir.Work, kind: Kind, most: int | None) -> int:
    """One stitch in each of the next places, a run of equal places at a time; how many were made.

    Gives up, and leaves the rest to be repeated, where the places change too often."""
    hand = doing.hand
    if hand.override is not None or hand.own_chain:
        return 0
    post = post_of(item.target, item.stitch)
    made = 0
    for _ in range(MOST_RUNS):
        found = hand.find(hand.here(), takes_stitch)
        if found < 0 or found >= hand.end or made == most:
            break
        place, _, end = hand.edge.run_at(found)
        times = min(end, hand.end) - found
        if most is not None:
            times = min(times, most - made)
        hand.check_kind(kind, found, item.span)
        spot = Spot(what_of(place), found)
        if post or item.loop:
            check_grip(doing, spot, item.span, post, item.loop)
        hand.along(item.stitch, spot.into, found, times, post=post, loop=item.loop)
        made += times
    return made


def one(doing: Doing, item: ir.Work, target: Target, n: int) -> None:
    """``n`` stitches in the one place that the target means."""
    hand = doing.hand
    span = item.span
    if target is NEXT:
        spot = next_stitch(hand, ANY_STITCH, span)
        hand.beside = hand.beside and spot.into in ("sp", "gap")
    else:
        spot = single(hand, target, span)
    put(doing, item.stitch, spot, n, span, target, item.loop)


def put(
    doing: Doing, stitch: Stitch, spot: Spot, n: int, span: Span, target: Target | None, loop: str
) -> None:
    hand = doing.hand
    post = post_of(target, stitch)
    if post or loop:
        check_grip(doing, spot, span, post, loop)
    if stitch.together > 1:
        together(doing, stitch, spot, span, loop)
        return
    hand.stitches(stitch, spot.into, spot.position, n, chain=spot.chain, post=post, loop=loop)


def check_grip(doing: Doing, spot: Spot, span: Span, post: bool, loop: str) -> None:
    """A post stitch needs a post, a loop stitch needs a loop."""
    hand = doing.hand
    if spot.into in ("deep", "left"):
        return  # a stitch of an earlier row, whose top and post are both still to be had
    place = None
    if spot.into in ("st", "ch", "sp", "end"):
        place = hand.at(spot.position)
    if post:
        stands = (
            spot.into == "st"
            and place is not None
            and (place.stitch is None or place.stitch.has_post)
        )
        if not stands:
            hand.fault("no-post-here", span, into=spot.into, found=place)
    elif not (spot.into in ("st", "ch", "own") or (spot.into == "sp" and spot.chain)):
        hand.fault("no-loop-here", span, into=spot.into, found=place)


def together(doing: Doing, stitch: Stitch, spot: Spot, span: Span, loop: str) -> None:
    hand = doing.hand
    also = []
    position = spot.position
    for _ in range(stitch.together - 1):
        if spot.into in ("ring", "sp", "gap") or hand.override is not None:
            break  # all of it in the one place
        position = next_stitch(hand, ANY_STITCH, span).position
        also.append(position - spot.position)
        if stitch.post:
            check_grip(doing, Spot("st", position), span, True, "")
    on_edge = spot.into not in OFF_EDGE
    step = spot.position - hand.last if on_edge else 0
    hand.push(
        Made(
            "st",
            stitch,
            into=spot.into,
            step=step,
            also=tuple(also),
            chain=spot.chain,
            post=bool(stitch.post),
            loop=loop,
            yarn=hand.yarn,
            item=hand.item,
        )
    )
    if on_edge:
        hand.last = hand.same = position


def together_over(doing: Doing, item: ir.Work, target: Target, n: int) -> None:
    """``tr2tog over``: one decrease over so many places named one by one."""
    hand = doing.hand
    if target.how == "each next":
        places = hand.number(target.n)
        if places % item.stitch.together:
            hand.fault("wrong-place", item.span, wanted=None, found=None)
        times = places // item.stitch.together
        inner = one_of(target)
        several(doing.hand, times, lambda: one(doing, item, inner, 1))
    else:
        inner = one_of(target)
        each(doing.hand, target, item.span, lambda: one(doing, item, inner, n))


def increase(doing: Doing, item: ir.Increase) -> None:
    hand = doing.hand

    def body() -> None:
        spot = next_stitch(hand, ANY_STITCH, item.span)
        hand.beside = False
        put(doing, item.stitch, spot, 2, item.span, None, "")

    several(doing.hand, hand.number(item.n), body)


def decrease(doing: Doing, item: ir.Decrease) -> None:
    hand = doing.hand

    def body() -> None:
        spot = next_stitch(hand, ANY_STITCH, item.span)
        hand.beside = False
        put(doing, item.stitch, spot, 1, item.span, None, "")

    several(doing.hand, hand.number(item.n), body)


def own(doing: Doing, item: ir.Work, n: int) -> None:
    target = item.target
    hand = doing.hand
    if doing.nested > DEEPEST:
        raise Stuck("not-in-this-edition", item.span, what="stitches within stitches")

    def body() -> None:
        made_of(doing, item)

    def placed(inner: Target) -> None:
        outer = hand.override
        hand.override = single(hand, inner, item.span)
        try:
            several(hand, n, body)
        finally:
            hand.override = outer

    if target is None:
        several(hand, n, body)
    elif target.how in SEVERAL:
        inner = one_of(target)
        each(hand, target, item.span, lambda: placed(inner))
    else:
        placed(target)


def made_of(doing: Doing, item: ir.Work) -> None:
    """One stitch of the designer's own: all that it is made of."""
    hand = doing.hand
    items = doing.owns[item.own].items
    outer = (hand.own, hand.lead, hand.item)
    hand.own, hand.lead, hand.begins = item.own, True, (*hand.begins, item.own)
    doing.nested += 1
    hand.depth += 1
    faults = len(hand.faults)
    try:
        for index, inner in enumerate(items):
            doing.one(inner, items[index + 1] if index + 1 < len(items) else None)
    except Stuck as stuck:
        # The row is wrong, and not the stitch, which is right elsewhere.
        stuck.span = item.span
        raise
    finally:
        told = [fact._replace(span=item.span) for fact in hand.faults[faults:]]
        hand.faults[faults:] = told
        doing.nested -= 1
        hand.depth -= 1
        hand.own, hand.lead, hand.item = outer
        hand.begins = hand.begins[:-1]
