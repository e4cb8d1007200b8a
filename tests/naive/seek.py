"""Finding the place a stitch is told to go to, by walking along the edge one place at a time."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from loopwright.ir.items import ANY_STITCH, Kind, Scope, Target
from naive.hands import Hands
from naive.things import FaultError, Spot, answers, is_space, is_stitch


class Found(NamedTuple):
    """A place, and whether the stitches on the way to it may be passed."""

    spot: Spot
    passing: bool = False


def next_of(hands: Hands, kind: Kind) -> Found:
    """The next place of a kind."""
    if kind.what == "sp":
        return next_space(hands, kind)
    if kind.what == "ch":
        return next_chain(hands)
    if kind.what == "gap":
        return next_gap(hands)
    if kind.what == "st and ch":
        return next_either(hands)
    return next_stitch(hands, kind)


def next_stitch(hands: Hands, kind: Kind = ANY_STITCH) -> Found:
    """The next stitch, chains passed on the way; a named kind must be what stands there."""
    if hands.down and kind.what == "st":
        return Found(Spot("down"))
    for i in hands.ahead():
        if is_stitch(hands.edge[i]):
            if not answers(hands.edge[i], kind):
                raise FaultError("wrong-place")
            return Found(Spot("st", i))
    raise FaultError("edge-ran-out")


def next_space(hands: Hands, kind: Kind) -> Found:
    """The next space, stitches passed on the way, never another space. A chain that counts as a
    stitch can stand for a space where the edge has no real one of that length."""
    edge = hands.edge[hands.begin :]
    real = any(thing.what == "sp" and is_space(thing, kind.chains) for thing in edge)
    for i in hands.ahead():
        thing = hands.edge[i]
        if is_space(thing, kind.chains) and (thing.what == "sp" or not real):
            return Found(Spot("sp", i), passing=True)
        if thing.what == "sp":
            raise FaultError(_missed(hands, kind, i))
    raise FaultError("no-such-space")


def _missed(hands: Hands, kind: Kind, at: int) -> str:
    """Another space is in the way: whether the one that is wanted comes after it or not at all."""
    later = [hands.edge[k] for k in hands.ahead() if k > at]
    real = any(thing.what == "sp" and is_space(thing, kind.chains) for thing in later)
    return "space-passed" if real else "no-such-space"


def next_chain(hands: Hands) -> Found:
    """The next chain: of the chain just made, of the space at hand, or further on."""
    if hands.down:
        return Found(Spot("down"))
    if hands.in_chains() and hands.last is not None:
        return Found(hands.last._replace(chain=hands.last.chain + 1))
    for i in hands.ahead():
        if hands.edge[i].what == "ch":
            return Found(Spot("st", i))
        if hands.edge[i].what == "sp" or hands.edge[i].chains:
            return Found(Spot("sp", i, 1))
        if any(hands.edge[k].what in ("sp", "ch") for k in hands.ahead()):
            raise FaultError("wrong-place")
    raise FaultError("edge-ran-out")


def next_gap(hands: Hands) -> Found:
    """The gap before the next stitch; in a round the last one lies across the join. After a gap
    it is the one past the stitch between them."""
    last = hands.last
    in_gap = last is not None and last.how == "gap" and last.at - 1 == hands.frontier
    stitches = [i for i in hands.ahead() if is_stitch(hands.edge[i])]
    for i in stitches[in_gap:]:
        return Found(Spot("gap", i), passing=True)
    if hands.is_round and len(stitches) >= in_gap:
        return Found(Spot("gap", len(hands.edge)), passing=True)
    raise FaultError("edge-ran-out")


def next_either(hands: Hands) -> Found:
    """The next stitch or chain, whichever comes first."""
    if hands.down or hands.in_chains():
        return next_chain(hands)
    ahead = hands.ahead()
    if not ahead:
        raise FaultError("edge-ran-out")
    i = ahead[0]
    return Found(Spot("sp", i, 1) if hands.edge[i].what == "sp" else Spot("st", i))


# -------------------------------------------------------------------- how far to go


def more_of(hands: Hands, kind: Kind, before: int) -> bool:
    """Whether an ``each`` of this kind has anything to meet before a position."""
    ahead = [hands.edge[i] for i in hands.ahead() if i < before]
    if kind.what == "sp":
        return any(thing.what == "sp" for thing in ahead)
    chains = bool(hands.down) or (hands.in_chains() and hands.frontier < before)
    if kind.what == "ch":
        return chains or any(thing.what in ("sp", "ch") for thing in ahead)
    if kind.what == "st and ch":
        return chains or bool(ahead)
    return bool(hands.down and kind.what == "st") or any(is_stitch(thing) for thing in ahead)


def remaining(hands: Hands, kind: Kind) -> int:
    """How many of a kind are ahead."""
    n = sum(answers(hands.edge[i], kind) for i in hands.ahead())
    return n + (hands.down if kind.what == "st" else 0)


def limit_of(hands: Hands, scope: Scope) -> int:
    """The position that a scope runs up to, for the scopes that have one. A marker that lies
    behind is none that can be reached."""
    if scope.how == "marked":
        at = marked(hands, scope.name)
        if at <= hands.frontier:
            raise FaultError("unknown-marker")
        return at
    if scope.how == "next":
        return stop_before(hands, scope.kind)
    n = hands.number(scope.n) if scope.how == "last" else 0
    if n:
        there = [i for i in hands.ahead() if answers(hands.edge[i], scope.kind)]
        if scope.kind.what == "own":
            there = [i for i in there if i in beginnings(hands, scope.kind)]
        if len(there) < n:
            raise FaultError("repeat-does-not-fit")
        return there[-n]
    return len(hands.edge)


def stop_before(hands: Hands, kind: Kind) -> int:
    """The next of a kind, before which work stops. A chain may be one of a space as well."""
    if kind.what == "ch":
        matching = [i for i in hands.ahead() if hands.edge[i].chains or hands.edge[i].what == "ch"]
        real = [i for i in matching if hands.edge[i].what in ("ch", "sp")]
    else:
        matching = [i for i in hands.ahead() if answers(hands.edge[i], kind)]
        real = [i for i in matching if hands.edge[i].what == kind.what]
    if not matching:
        raise FaultError("no-such-space" if kind.what == "sp" else "edge-ran-out")
    at = (real or matching)[0]
    stitches = kind.what == "st" or hands.edge[at].what == kind.what == "ch"
    if stitches and at == hands.ahead()[0] and not hands.down and not hands.in_chains():
        raise FaultError("repeat-does-not-fit")
    return at


def beginnings(hands: Hands, kind: Kind) -> list[int]:
    """Where each of the designer's own stitches begins, as it is met: on an edge that is met
    backwards the first stitch made of each comes last."""
    parts = [i for i, thing in enumerate(hands.edge) if answers(thing, kind)]
    if not parts or hands.edge[parts[0]].lead:
        return [i for i in parts if hands.edge[i].lead]
    return [i for i in parts if i - 1 not in parts or hands.edge[i - 1].lead]


def marked(hands: Hands, name: str) -> int:
    """Where the marked stitch stands on the edge."""
    thing = hands.markers.get(name)
    for i, here in enumerate(hands.edge):
        if here is thing:
            return i
    raise FaultError("unknown-marker")


def each(hands: Hands, target: Target) -> Iterator[Found]:
    """One place after another, as far as the scope of an ``each``."""
    scope = target.scope or Scope("here")
    kind = target.kind
    if kind.what == "gap":
        yield from gaps_between(hands, kind.own)
    elif scope.how == "here":
        yield from here(hands, kind)
    else:
        limit = limit_of(hands, scope)
        if kind.what == "sp" and not more_of(hands, kind, limit):
            raise FaultError("no-such-space")
        while more_of(hands, kind, limit):
            yield next_of(hands, kind)


def here(hands: Hands, kind: Kind) -> Iterator[Found]:
    """As long as places of the kind follow: none where none does, but a space must be there."""
    if kind.what == "sp":
        yield next_space(hands, kind)
    while True:
        try:
            found = next_of(hands, kind)
        except FaultError:
            return
        yield found


def gaps_between(hands: Hands, own: str) -> Iterator[Found]:
    """The gaps between the designer's own stitches; in a round the one across the join too."""
    leads = [i for i in hands.ahead() if hands.edge[i].own == own and hands.edge[i].lead]
    ends = leads[1:] + ([len(hands.edge)] if hands.is_round else [])
    if not leads:
        raise FaultError("edge-ran-out")
    for i in ends:
        yield Found(Spot("gap", i), passing=True)
