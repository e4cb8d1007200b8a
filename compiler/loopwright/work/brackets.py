"""Brackets: groups in one place, repeats and how they come out, stitches spread evenly."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from typing import TYPE_CHECKING

from loopwright.ir import items as ir
from loopwright.ir.items import ANY_STITCH, Item, Target
from loopwright.ir.runs import Builder, Runs
from loopwright.work import evenly as evenly_spread
from loopwright.work.chains import counted
from loopwright.work.hand import Hand
from loopwright.work.limits import limit_of
from loopwright.work.places import Stuck, is_space, takes_stitch, what_places
from loopwright.work.placing import SEVERAL, next_stitch, one_of, single
from loopwright.work.reaching import each, several
from loopwright.work.repeating import Cut, Endless, repeat
from loopwright.work.stitching import put

if TYPE_CHECKING:
    from loopwright.work.doing import Doing


def group(doing: Doing, item: ir.Group) -> None:
    target = item.target
    if target.how in SEVERAL:
        inner = one_of(target)
        each(doing.hand, target, item.span, lambda: in_place(doing, item, inner))
    else:
        in_place(doing, item, target)


def in_place(doing: Doing, item: ir.Group, target: Target) -> None:
    hand = doing.hand
    spot = single(hand, target, item.span)
    outer, hand.override = hand.override, spot
    hand.depth += 1
    places, last = hand.places, hand.last
    kept = hand.out
    if item.as_stitch is not None:
        hand.out = Builder()
    try:
        doing.items(item.items)
    finally:
        hand.override = outer
        hand.depth -= 1
    if item.as_stitch is not None:
        hand.out = kept
        hand.places, hand.last = places, last
        counted(doing, item.as_stitch, 0, spot)


def repeat_items(doing: Doing, item: ir.Repeat) -> None:
    hand = doing.hand
    hand.depth += 1
    hand.brackets += 1
    try:
        times = hand.number(item.times) if item.times is not None else None
        if item.stop is None:
            done = bracket(doing, item, item.items, times)
        elif times == 0:
            done = 0
        else:
            doing.items(item.items[: item.stop])
            rest = item.items[item.stop :] + item.items[: item.stop]
            more = None if times is None else times - 1
            done = 1 + bracket(doing, item, rest, more)
    finally:
        hand.depth -= 1
        hand.brackets -= 1
    known = hand.repeats.get(item.span, done)
    hand.repeats[item.span] = done if known == done else None


def bracket(doing: Doing, item: ir.Repeat, items: Sequence[Item], times: int | None) -> int:
    hand = doing.hand
    limit = None
    end = hand.end
    start = hand.pos
    if times is None:
        assert item.scope is not None
        limit = limit_of(hand, item.scope, item.span)
        hand.end = min(limit, hand.end)
    try:
        return repeat(hand, lambda: doing.items(items), times=times, limit=limit)
    except Endless:
        raise Stuck("repeat-does-not-fit", item.span, nothing=True) from None
    except Cut as cut:
        if times is not None or not comes_out(doing, cut.stuck, hand.end):
            does_not_fit(doing, item, cut, times, start)
        cut.let_go()
        return cut.done
    finally:
        hand.end = end


def comes_out(doing: Doing, stuck: Stuck, limit: int) -> bool:
    """Whether a repeat that could not begin once more has come out all the same."""
    hand = doing.hand
    if stuck.worked or stuck.kind not in ("edge-ran-out", "no-such-space"):
        return False
    by_skip = stuck.kind == "edge-ran-out" and not stuck.made
    if by_skip and stuck.skipped_to >= min(limit, hand.optional):
        hand.pos, hand.sub = max(stuck.skipped_to, hand.pos), 0
        return True
    return passable(hand, limit)


def does_not_fit(doing: Doing, item: ir.Repeat, cut: Cut, times: int | None, start: int) -> None:
    hand = doing.hand
    stuck = cut.stuck
    if stuck.kind not in ("edge-ran-out", "no-such-space"):
        raise stuck
    limit = min(hand.end, hand.optional)
    before = hand.edge.before
    have = before(limit, takes_stitch) - before(min(start, limit), takes_stitch)
    used = before(hand.here(), takes_stitch) - before(start, takes_stitch)
    spaces = before(limit, is_space) - before(min(start, limit), is_space)
    if times is not None and hand.brackets > 1:
        raise stuck  # the repeat around this one does not come out
    kind = "repeat-does-not-fit" if times is None else "edge-ran-out"
    if stuck.kind == "no-such-space" and (times is not None or stuck.values.get("none")):
        raise stuck
    hand.fault(
        kind,
        item.span,
        repeat=True,
        places=what_places(hand.edge),
        **{"from": before(start, takes_stitch)},
        have=have,
        used=used,
        spaces=spaces,
        done=cut.done,
        times=times,
        each=used // cut.done if cut.done and used % cut.done == 0 else None,
        scope=item.scope.how if item.scope is not None else "",
        space=stuck.values.get("chains", 0) if stuck.kind == "no-such-space" else None,
    )


def evenly(doing: Doing, item: ir.Evenly) -> None:
    hand = doing.hand
    spread = evenly_spread.spread(hand, item)
    hand.spreads[item.span] = spread

    def one(n: int) -> None:
        spot = next_stitch(hand, ANY_STITCH, item.span)
        if item.how == "dec" and n == 2:
            both = item.stitch._replace(together=2)
            put(doing, both, spot, 1, item.span, None, "")
        else:
            put(doing, item.stitch, spot, n, item.span, None, item.loop)

    _spread(hand, spread, one)
    hand.beside = False


def _spread(hand: Hand, numbers: Runs[int], one: Callable[[int], None]) -> None:
    for node, times in numbers.pairs:
        if isinstance(node, Runs):
            several(hand, times, partial(_spread, hand, node, one))
        else:
            several(hand, times, partial(one, node))


def passable(hand: Hand, limit: int) -> bool:
    """Whether everything from the hand up to a position may be passed without a word: stitches
    beside a worked space; in a round, chains between the last stitch and the join."""
    at = hand.here()
    limit = min(limit, hand.optional)
    if at >= limit:
        return True
    before = hand.edge.before
    spaces = before(limit, is_space) - before(at, is_space)
    stitches = before(limit, takes_stitch) - before(at, takes_stitch)
    if hand.beside:
        return spaces == 0
    # Chains between two stitches are passed; in a round the join lies between two as well.
    # What is neither a stitch nor a space (chains skipped at the hook) is not owed.
    return stitches == 0 and (spaces == 0 or hand.is_round or limit < hand.optional)
