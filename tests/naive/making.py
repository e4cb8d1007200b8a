"""Doing what a row says, one item after another, one stitch at a time."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from itertools import islice
from typing import Any

from loopwright.ir import items as ir
from loopwright.trade.stitches import Stitch
from naive.counting import edge_made
from naive.hands import Hands
from naive.repeats import repeat
from naive.seek import next_of, next_stitch
from naive.spreading import evenly
from naive.targets import spots
from naive.things import FaultError, Spot, Thing, is_stitch, together


def work_items(hands: Hands, items: Sequence[ir.Item]) -> None:
    """Work a list of items in order."""
    for i, item in enumerate(items):
        follows = items[i + 1] if i + 1 < len(items) else None
        if isinstance(item, ir.Chain):
            chain(hands, item, follows)
        elif isinstance(item, ir.Repeat):
            repeat(hands, item, work_items)
        else:
            WORK[type(item)](hands, item)


def stays(hands: Hands, target: ir.Target | None) -> bool:
    """Whether, inside a group, that target means the group's own place."""
    if hands.within is None:
        return False
    return target is None or target.how in ("next", "same")


def work(hands: Hands, item: ir.Work) -> None:
    """Plain stitches, or the designer's own."""
    n = hands.number(item.n)
    if item.own:
        own_stitches(hands, item, n)
        return
    if hands.within is not None and stays(hands, item.target):
        for _ in range(n):
            hands.put(item.stitch, [hands.within], item.loop)
    elif item.target is not None:
        if n and item.stitch.together > 1:
            over_named(hands, item, n)
        elif n:
            for spot in spots(hands, item.target):
                for _ in range(n):
                    thing = hands.put(item.stitch, [spot], item.loop)
                    if item.target.below or item.target.of_row:
                        thing.places = None
    else:
        for _ in range(n):
            over_next(hands, item.stitch, item.loop)


def over_next(hands: Hands, stitch: Stitch, loop: str = "") -> None:
    """One stitch over the next place, or over as many as it closes."""
    taken = []
    for _ in range(stitch.together):
        spot, passing = next_stitch(hands)
        hands.take(spot, passing)
        taken.append(spot)
    hands.put(stitch, taken, loop)


def over_named(hands: Hands, item: ir.Work, n: int) -> None:
    """Decreases with a place: in a space all of one; from a stitch on, over that and the next; of
    several places, each over as many of them as it closes."""
    target, closes = item.target, item.stitch.together
    assert target is not None
    if target.how == "each next" and hands.number(target.n) % closes:
        raise FaultError("wrong-place")
    if not target.how.startswith("each"):
        for _ in range(n):
            first = next(iter(spots(hands, target)))
            hands.put(item.stitch, [first, *legs(hands, item, first, next_legs(hands))], item.loop)
        return
    named = iter(spots(hands, target))
    for first in named:
        hands.put(item.stitch, [first, *legs(hands, item, first, named)], item.loop)


def next_legs(hands: Hands) -> Iterator[Spot]:
    """The stitches that come next."""
    while True:
        spot, passing = next_stitch(hands)
        hands.take(spot, passing)
        yield spot


def legs(hands: Hands, item: ir.Work, first: Spot, more: Iterator[Spot]) -> list[Spot]:
    """The other places of a decrease; none where the first is a space."""
    if first.how != "st":
        return []
    taken = list(islice(more, item.stitch.together - 1))
    if len(taken) < item.stitch.together - 1:
        raise FaultError("edge-ran-out")
    return taken


def own_stitches(hands: Hands, item: ir.Work, n: int) -> None:
    """The designer's own stitch: what it is made of, where it stands or in the place named."""
    if hands.within is not None or item.target is None:
        for _ in range(n):
            own_once(hands, item.own)
        return
    for spot in spots(hands, item.target):
        hands.within = spot
        for _ in range(n):
            own_once(hands, item.own)
        hands.within = None


def own_once(hands: Hands, name: str) -> None:
    """One of the designer's own stitches."""
    before = len(hands.made)
    hands.depth += 1
    work_items(hands, hands.owns[name].items)
    hands.depth -= 1
    hands.own_made[name] = hands.own_made.get(name, 0) + 1
    lead = True
    for thing in hands.made[before:]:
        if thing.own:
            continue  # it belongs to one within this one
        thing.own = name
        if thing.what == "st" and lead:
            thing.lead, lead = True, False


def group(hands: Hands, item: ir.Group) -> None:
    """Several things, all in one place."""
    if hands.within is not None and stays(hands, item.target):
        work_items(hands, item.items)
        return
    for spot in spots(hands, item.target):
        before = len(hands.made)
        hands.within = spot
        hands.depth += 1
        work_items(hands, item.items)
        hands.depth -= 1
        hands.within = None
        if item.as_stitch is not None:
            del hands.made[before:]
            places = (spot.at,) if spot.at >= 0 else ()
            hands.add(Thing("st", item.as_stitch, counted=True, places=places))


def increase(hands: Hands, item: ir.Increase) -> None:
    """Two in the next stitch, so many times."""
    for _ in range(hands.number(item.n)):
        if hands.within is None:
            spot, passing = next_stitch(hands)
            hands.take(spot, passing)
        else:
            spot = hands.within
        hands.put(item.stitch, [spot])
        hands.put(item.stitch, [spot])


def decrease(hands: Hands, item: ir.Decrease) -> None:
    """The next two worked together, so many times."""
    for _ in range(hands.number(item.n)):
        if hands.within is None:
            over_next(hands, item.stitch)
        else:
            hands.put(item.stitch, [hands.within])


# -------------------------------------------------------------------- chains


def chain(hands: Hands, item: ir.Chain, follows: ir.Item | None) -> None:
    """A chain: one that counts, the turning chain, or a loop like any other."""
    n = hands.number(item.n)
    first = hands.fresh and hands.within is None
    if item.counts_as is not None:
        counted_chain(hands, item, n, first)
    elif (
        (first or rises(hands, n, follows))
        and not (hands.depth or hands.within)
        and not before_wide_skip(hands, n, follows)
    ):
        hands.chain_made = n
        hands.add(Thing("turn", chains=n))
    else:
        if first and not hands.is_round and n:
            take_first(hands)
        hands.make_chains(n)
    hands.fresh = False


def before_wide_skip(hands: Hands, n: int, follows: ir.Item | None) -> bool:
    """Whether a chain of two or more goes over a skip of two or more straight after."""
    return n > 1 and isinstance(follows, ir.Skip) and hands.number(follows.n) >= 2


# How many chains bring the hook up to a stitch.
UP_TO = {
    "plain": 1,
    "half": 2,
    "long": 3,
    "double long": 4,
    "triple long": 5,
    "quadruple long": 6,
}


def rises(hands: Hands, n: int, follows: ir.Item | None) -> bool:
    """Whether all that was made are slip stitches, and the chain is no higher than what follows."""
    while isinstance(follows, (ir.Group, ir.Repeat)) and follows.items:
        follows = follows.items[0]
    stitch = getattr(follows, "stitch", None)
    if not isinstance(follows, (ir.Work, ir.Increase, ir.Decrease, ir.Evenly)) or not stitch:
        return False
    slips = [thing.stitch is not None and thing.stitch.basic == "slip" for thing in hands.made]
    return bool(slips) and all(slips) and n <= UP_TO.get(stitch.basic, 0)


def take_first(hands: Hands) -> Spot:
    """Stand on the first place of the row that was not skipped, and so take it."""
    at = hands.frontier + 1
    if at >= len(hands.edge):
        raise FaultError("edge-ran-out")
    spot = Spot("sp" if hands.edge[at].what == "sp" else "st", at)
    hands.take(spot, False)
    return spot


def counted_chain(hands: Hands, item: ir.Chain, n: int, first: bool) -> None:
    """A chain that counts as a stitch, in the first place or in the one it stands in."""
    if hands.within is not None:
        spot = hands.within
    elif hands.ring and not hands.edge:
        spot = Spot("ring")
    elif first and hands.moved:
        spot = take_first(hands)
    elif hands.last is not None and hands.last.how in ("sp", "st") and slipped(hands):
        spot = hands.last
    else:
        spot, passing = next_stitch(hands)
        hands.take(spot, passing)
    places = (spot.at,) if spot.at >= 0 else ()
    chains = n - item.and_chains
    hands.add(Thing("st", item.counts_as, chains, n, counted=True, places=places))
    if item.and_chains:
        hands.make_chains(item.and_chains)
    hands.chain_made = 0


def slipped(hands: Hands) -> bool:
    """Whether the last thing made is a slip stitch: a chain after it stands where it went."""
    stitch = hands.made[-1].stitch if hands.made else None
    return stitch is not None and not stitch.has_post


def opening(hands: Hands, item: ir.Opening) -> None:
    """Chains over a gap that is named and worked around later."""
    under = [hands.edge[i] for i in pass_over(hands, hands.number(item.n), ir.ANY_STITCH)]
    chains = len(under) if item.chains is None else hands.number(item.chains)
    hands.add(Thing("sp", chains=chains))
    hands.openings[item.name] = (under, chains)


def picot(hands: Hands, item: ir.Picot) -> None:
    """Picots: no stitch, and no place."""
    for _ in range(hands.number(item.n)):
        hands.add(Thing("picot"))
    hands.fresh = False


# -------------------------------------------------------------------- passing over


def pass_over(hands: Hands, n: int, kind: ir.Kind, status: str = "skipped") -> list[int]:
    """Pass over the next few places of a kind in words; gives their positions."""
    out = []
    for _ in range(n):
        spot, passing = next_of(hands, kind)
        used, last, fresh = hands.uses, hands.last, hands.fresh
        hands.take(spot, passing)
        hands.uses, hands.fresh = used, fresh
        if spot.chain:
            continue
        hands.last = last
        if spot.at >= 0:
            hands.status[spot.at] = status
            out.append(spot.at)
    return out


def skip(hands: Hands, item: ir.Skip) -> None:
    """Places passed over; chains of the start that count leave a stitch."""
    n = hands.number(item.n)
    if item.counts_as is not None and (hands.made or not hands.from_hook):
        raise FaultError("wrong-place")
    loose = hands.chain_made
    hands.skips = pass_over(hands, n, item.kind)
    hands.chain_made = loose
    if item.counts_as is not None:
        hands.fresh = False
        chains = n - item.and_chains
        hands.add(
            Thing(
                "st",
                item.counts_as,
                chains,
                n,
                counted=True,
                turning=True,
                places=None,
            )
        )
        if item.and_chains:
            hands.make_chains(item.and_chains)


def leave(hands: Hands, item: ir.Leave) -> None:
    """Leave stitches out of the work."""
    if item.n is None:
        gone = hands.ahead()
        for i in gone:
            hands.status[i] = "left"
        hands.frontier = len(hands.edge) - 1
    else:
        before = hands.frontier
        pass_over(hands, hands.number(item.n), ir.ANY_STITCH, "left")
        gone = list(range(before + 1, hands.frontier + 1))  # with the spaces among them
    hands.left += [hands.edge[i] for i in gone]
    hands.fresh = False


def move(hands: Hands, item: ir.Move) -> None:
    """Slip stitch along to a new first place; in a round what was passed comes last."""
    if hands.made:
        raise FaultError("wrong-place")
    kept = hands.kept()
    spot = next(iter(spots(hands, item.target)))
    hands.back_to(kept)
    k = spot.at
    passed = hands.edge[:k] if hands.is_round else []
    hands.edge = hands.edge[k:] + passed
    hands.status = hands.status[k:] + ["free"] * len(passed)
    hands.frontier, hands.moved, hands.fresh = -1, True, True
    hands.last = Spot(spot.how, 0)


def other_side(hands: Hands, item: ir.OtherSide) -> None:
    """The chains of the start once more, from the last but one worked back to the first."""
    worked = [i for i, s in enumerate(hands.status) if s == "worked"]
    again = list(range(hands.frontier - 1, worked[0] - 1, -1)) if worked else []
    hands.edge = hands.edge + [Thing("ch") for _ in again]
    hands.status += [""] * len(again)
    first = [one for one in hands.made if one.what == "st" and one.places == tuple(worked[:1])]
    hands.rounded = len(first) >= 3  # they go round the end by themselves


# -------------------------------------------------------------------- the rest


def join(hands: Hands, item: ir.Join) -> None:
    """Close the round; with a stitch, that and the chains before it close one more space."""
    hands.joined = True
    hands.fresh = False
    if item.stitch is None:
        hands.add(Thing("join"))
        return
    if hands.made and hands.made[-1].loose:
        hands.made.pop()
    chains = [thing.chains for thing in hands.made if thing.what == "sp" and thing.loose]
    most = max(chains, key=lambda n: (chains.count(n), n), default=item.stitch.height)
    hands.joined_space = Thing("sp", chains=most)
    hands.add(hands.joined_space)


def turn(hands: Hands, item: ir.Turn) -> None:
    """Turn, or expressly do not: this row where nothing is worked yet, else the next."""
    if hands.uses == 0:
        hands.turn_first = item.turned
    else:
        hands.turn_last = item.turned


def mark(hands: Hands, item: ir.Mark) -> None:
    """Hang a marker in the last stitch made."""
    for thing in reversed(hands.made):
        if thing.what == "st":
            hands.markers[item.name] = thing
            return


def change(hands: Hands, item: ir.Change) -> None:
    """Another yarn, or several held together: nothing is made."""
    hands.yarn = together(item.yarns)


def run_on(hands: Hands, item: ir.RunOn) -> None:
    """Go on past the marker, into what this round has made so far; none of that is owed."""
    if not (hands.spiral and hands.is_round) or hands.ran_on or hands.depth:
        raise FaultError("wrong-place")
    finish(hands)
    own = edge_made(hands.made)
    hands.ran_on = True
    hands.begin = len(hands.edge)
    hands.frontier = hands.begin - 1
    hands.edge = hands.edge + own
    hands.status += [""] * len(own)


WORK: dict[type, Callable[[Hands, Any], None]] = {
    ir.Work: work,
    ir.Increase: increase,
    ir.Decrease: decrease,
    ir.Evenly: evenly,
    ir.Group: group,
    ir.Skip: skip,
    ir.Join: join,
    ir.Turn: turn,
    ir.Move: move,
    ir.Leave: leave,
    ir.Opening: opening,
    ir.Change: change,
    ir.Mark: mark,
    ir.OtherSide: other_side,
    ir.Picot: picot,
    ir.RunOn: run_on,
}


def finish(hands: Hands) -> None:
    """The end of the row: every place was worked, passed, skipped or left in words."""
    if hands.rounded and hands.status[-1] == "":
        hands.status[-1] = "free"
    for i in range(min(hands.frontier + 1, len(hands.edge))):
        if hands.status[i] == "" and is_stitch(hands.edge[i]):
            raise FaultError("places-left-over")
    if not hands.may_end():
        raise FaultError("places-left-over")
