"""Every way of naming a place, each answered by walking the edge."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from loopwright.ir.items import ANY_STITCH, Target
from naive.hands import Hands
from naive.seek import Found, each, marked, next_of, next_space, next_stitch
from naive.things import FaultError, Spot, Thing, answers


def spots(hands: Hands, target: Target) -> Iterator[Spot]:
    """The places of a target in turn; each is taken before the next is looked for."""
    if target.how == "same" and hands.last is not None and hands.last.how == "down":
        yield hands.last
        return
    for spot, passing in FINDERS[target.how](hands, target):
        hands.take(spot, passing)
        yield spot


def _at(hands: Hands, index: int) -> Spot:
    return Spot("sp" if hands.edge[index].what == "sp" else "st", index)


def _next(hands: Hands, target: Target) -> Iterator[Found]:
    if target.below > hands.rows_below:
        raise FaultError("wrong-place")
    far = target.kind.what in ("sp", "ch", "gap")
    if (target.below or target.of_row) and far:
        _within_reach(hands, target)
        yield Found(Spot("far"))
    elif target.below:
        yield next_stitch(hands)
    elif target.of_row:
        _within_reach(hands, target)
        yield next_stitch(hands)
    else:
        yield next_of(hands, target.kind)


def _each_next(hands: Hands, target: Target) -> Iterator[Found]:
    for _ in range(hands.number(target.n)):
        yield next_of(hands, target.kind)


def _each_last(hands: Hands, target: Target) -> Iterator[Found]:
    n = hands.number(target.n)
    found = hands.of_kind(target.kind)
    ahead = [i for i in found if i > hands.frontier]
    if len(found) < n or (n > 1 and len(ahead) < n):
        raise FaultError("edge-ran-out")
    for i in found[len(found) - n :]:
        yield Found(_at(hands, i), hands.beside_space())


def _same(hands: Hands, target: Target) -> Iterator[Found]:
    if hands.last is not None:
        yield Found(hands.last)
    elif hands.edge and hands.edge[0].what == "st" and not hands.spiral:
        yield _of_all(hands, target, 0)  # the stitch that the hook is at
    else:
        raise FaultError("wrong-place")


def _first(hands: Hands, target: Target) -> Iterator[Found]:
    yield _of_all(hands, target, 0)


def _last(hands: Hands, target: Target) -> Iterator[Found]:
    yield _of_all(hands, target, -1)


def _of_all(hands: Hands, target: Target, which: int) -> Found:
    """The first or last of a kind on the whole edge. What stands there instead is another thing
    than running out; on the way to a space stitches are passed, another space is not."""
    kind = target.kind
    found = hands.of_kind(kind)
    if not found:
        named = kind.what not in ("st", "ch", "sp") and hands.of_kind(ANY_STITCH)
        raise FaultError("wrong-place" if named else "edge-ran-out")
    if kind.what == "sp":
        _pass_no_space(hands, found[which])
    return Found(_at(hands, found[which]), hands.beside_space() or kind.what == "sp")


def _pass_no_space(hands: Hands, to: int) -> None:
    if any(hands.edge[i].what == "sp" for i in hands.ahead() if i < to):
        raise FaultError("space-passed")


def _ring(hands: Hands, target: Target) -> Iterator[Found]:
    if not hands.ring:
        raise FaultError("wrong-place")
    yield Found(Spot("ring"))


def _marked(hands: Hands, target: Target) -> Iterator[Found]:
    yield Found(_at(hands, marked(hands, target.name)))


def _hook(hands: Hands, target: Target) -> Iterator[Found]:
    if hands.chain_made >= target.nth:
        yield _down_own_chain(hands, target.nth)
        return
    if not hands.from_hook or hands.uses:
        raise FaultError("wrong-place")
    if target.nth > len(hands.edge):
        raise FaultError("edge-ran-out")
    for i in range(target.nth - 1):
        hands.status[i] = "free"
    yield Found(Spot("st", target.nth - 1))


def _down_own_chain(hands: Hands, nth: int) -> Found:
    length = hands.chain_made
    if hands.made and hands.made[-1].loose:
        length = hands.made.pop().chains
    if nth > 1:
        hands.made.append(Thing("sp", chains=nth - 1))
    hands.down = length - nth + 1
    return Found(Spot("down"))


def _top(hands: Hands, target: Target) -> Iterator[Found]:
    for i in hands.ahead():
        thing = hands.edge[i]
        if thing.counted and target.chains in (thing.chains, thing.written):
            yield Found(Spot("st", i), hands.beside_space())
            return
    raise FaultError("wrong-place")


def _base(hands: Hands, target: Target) -> Iterator[Found]:
    """What a chain stands on. The first is the one that this row began with, which stands on its
    first place, or else one of the row below, as the next one is: a chain that counts stands on a
    place of the row further down, and going there uses the chain, as a spike does the stitch above
    it; a loop stands on the stitch that it was made from."""
    if target.which == "first" and hands.made and _called(hands.made[0], target.chains):
        if hands.made[0].turning:
            raise FaultError("wrong-place")
        at = (0,) if hands.made[0].what == "turn" else hands.made[0].places
        yield Found(_at(hands, at[0]) if at and hands.edge else Spot("ring"))
        return
    indices = hands.ahead() if target.which == "next" else range(hands.begin, len(hands.edge))
    for i in indices:
        thing = hands.edge[i]
        if not _called(thing, target.chains):
            continue
        if thing.counted:
            yield Found(Spot("base", i), hands.beside_space())
            return
        stands = [k for k, one in enumerate(hands.edge) if one is thing.base]
        if not stands:
            break
        yield Found(Spot("st", stands[0]), hands.beside_space())
        return
    raise FaultError("wrong-place")


def _called(thing: Thing, chains: int) -> bool:
    """Whether a thing is a chain of so many: one that counts, a loop, or one that turned."""
    return (thing.what in ("sp", "turn") and chains == thing.chains) or (
        thing.counted and chains in (thing.chains, thing.written) and chains > 0
    )


def _chain_of(hands: Hands, target: Target) -> Iterator[Found]:
    if target.which == "next":
        spot, passing = next_space(hands, target.kind)
    elif target.which == "same":
        if hands.last is None:
            raise FaultError("wrong-place")
        spot, passing = hands.last, False
    else:
        found = hands.of_kind(target.kind)
        if not found:
            raise FaultError("no-such-space")
        spot, passing = Spot("sp", found[0 if target.which == "first" else -1]), True
        _pass_no_space(hands, spot.at)
    if target.nth > hands.edge[spot.at].chains:
        raise FaultError("wrong-place")
    yield Found(spot._replace(how="sp", chain=target.nth), passing)


def _nth(hands: Hands, target: Target) -> Iterator[Found]:
    found = [i for i in hands.ahead() if answers(hands.edge[i], target.kind)]
    if len(found) < target.nth:
        raise FaultError("edge-ran-out")
    yield Found(_at(hands, found[target.nth - 1]), passing=True)


def _skipped(hands: Hands, target: Target) -> Iterator[Found]:
    if target.nth:
        if target.nth > len(hands.skips):
            raise FaultError("wrong-place")
        yield Found(_at(hands, hands.skips[target.nth - 1]))
        return
    yield Found(_at(hands, _first_unworked_skip(hands)))


def _first_unworked_skip(hands: Hands) -> int:
    for i in hands.skips:
        if hands.status[i] == "skipped":
            return i
    raise FaultError("wrong-place")


def _each_skipped(hands: Hands, target: Target) -> Iterator[Found]:
    for _ in range(hands.number(target.n)):
        yield Found(_at(hands, _first_unworked_skip(hands)))


def _each_unworked(hands: Hands, target: Target) -> Iterator[Found]:
    for _ in range(hands.number(target.n)):
        if not hands.unworked:
            raise FaultError("edge-ran-out")
        hands.unworked.pop(0)
        yield Found(Spot("far"))


def _within_reach(hands: Hands, target: Target) -> None:
    """A stitch reaches a dozen rows down."""
    down = target.below or hands.written_at - target.of_row
    if not 0 < down <= 12:
        raise FaultError("wrong-place")


def _next_skipped(hands: Hands, target: Target) -> Iterator[Found]:
    _within_reach(hands, target)
    yield Found(Spot("far"))


FINDERS: dict[str, Callable[[Hands, Target], Iterator[Found]]] = {
    "next": _next,
    "each next": _each_next,
    "each": each,
    "each last": _each_last,
    "same": _same,
    "first": _first,
    "last": _last,
    "ring": _ring,
    "marked": _marked,
    "hook": _hook,
    "top": _top,
    "base": _base,
    "chain of": _chain_of,
    "nth": _nth,
    "skipped": _skipped,
    "each skipped": _each_skipped,
    "each unworked": _each_unworked,
    "next skipped": _next_skipped,
}
