"""Square brackets: worked once, and again, and again, until their ending is met."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from loopwright.ir.items import Item, Repeat, Scope, Skip
from naive.hands import Hands
from naive.seek import limit_of, remaining
from naive.things import FaultError, is_stitch

Worker = Callable[[Hands, Sequence[Item]], None]
RAN_OUT = ("edge-ran-out", "no-such-space", "repeat-does-not-fit")


def repeat(hands: Hands, item: Repeat, work: Worker) -> None:
    """Work a bracket as often as it says."""
    hands.depth += 1
    if item.times is not None:
        _so_many(hands, item, work)
    elif item.scope is not None and item.scope.how == "end":
        _to_end(hands, item, work)
    elif item.scope is not None:
        _to_limit(hands, item, item.scope, work)
    hands.depth -= 1


def _so_many(hands: Hands, item: Repeat, work: Worker) -> None:
    assert item.times is not None
    n = hands.number(item.times)
    for k in range(n):
        last = k == n - 1 and item.stop is not None
        work(hands, item.items[: item.stop] if last else item.items)


def _to_end(hands: Hands, item: Repeat, work: Worker) -> None:
    if item.stop is not None:
        _to_stop(hands, item, item.stop, _nothing_ahead, work)
        return
    while hands.ahead():
        kept = hands.kept()
        try:
            work(hands, item.items)
        except FaultError as fault:
            begun = hands.uses > kept.uses
            if not begun and (kept.may_end() or _ends_on_skip(kept, item, work)):
                hands.back_to(kept)
                return
            ran_out = fault.kind == "edge-ran-out"
            raise _unfit(fault, begun or ran_out or kept.uses > 0) from fault
        if hands.uses == kept.uses and hands.frontier == kept.frontier:
            raise FaultError("repeat-does-not-fit")


def _nothing_ahead(hands: Hands) -> bool:
    return not hands.owed()


def _ends_on_skip(hands: Hands, item: Repeat, work: Worker) -> bool:
    """Whether the leading skip of the repeat takes all that is left; if so it is taken."""
    first = item.items[0]
    if not isinstance(first, Skip) or not hands.uses:
        return False
    kept = hands.kept()
    try:
        work(hands, item.items[:1])
    except FaultError:
        hands.back_to(kept)
        return False
    if not any(is_stitch(hands.edge[i]) for i in hands.owed()):
        return True
    hands.back_to(kept)
    return False


def _to_stop(
    hands: Hands, item: Repeat, stop: int, done: Callable[[Hands], bool], work: Worker
) -> None:
    """A bracket with ``**``: done where its first half ends where it should."""
    while True:
        before = (hands.uses, hands.frontier)
        try:
            work(hands, item.items[:stop])
            if done(hands):
                return
            work(hands, item.items[stop:])
        except FaultError as fault:
            raise _unfit(fault, True) from fault
        if (hands.uses, hands.frontier) == before or done(hands):
            raise FaultError("repeat-does-not-fit")


def _unfit(fault: FaultError, begun: bool) -> FaultError:
    """Running out inside a repeat means that the repeat does not fit."""
    if fault.kind in RAN_OUT and begun:
        return FaultError("repeat-does-not-fit")
    return fault


def _to_limit(hands: Hands, item: Repeat, scope: Scope, work: Worker) -> None:
    if scope.how == "last":
        n = hands.number(scope.n)

        def left() -> int:
            return remaining(hands, scope.kind) - n
    else:
        limit = limit_of(hands, scope)

        def left() -> int:
            if hands.frontier >= limit:
                return -1
            ahead = [i for i in hands.ahead() if i < limit]
            return sum(is_stitch(hands.edge[i]) for i in ahead)

    if item.stop is not None:
        _to_stop(hands, item, item.stop, lambda _: left() == 0, work)
    while item.stop is None and left() > 0:
        before = (hands.uses, hands.frontier)
        try:
            work(hands, item.items)
        except FaultError as fault:
            raise _unfit(fault, True) from fault
        if (hands.uses, hands.frontier) == before:
            raise FaultError("repeat-does-not-fit")
    if left() < 0:
        raise FaultError("repeat-does-not-fit")
