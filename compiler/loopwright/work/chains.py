"""Chains: turning chains, chains that count, loops, and what is skipped or opened."""

from __future__ import annotations

from typing import TYPE_CHECKING

from loopwright.ir import items as ir
from loopwright.ir.fabric import Made, OpeningMade
from loopwright.ir.items import ANY_STITCH, Item
from loopwright.source import Span
from loopwright.trade.stitches import SLIP, Stitch
from loopwright.work.hand import MOST_SKIPPED, RING, Hand
from loopwright.work.places import OFF_EDGE, SPACES, Stuck, is_space
from loopwright.work.placing import next_stitch
from loopwright.work.reaching import several
from loopwright.work.spots import Spot, spot_at

if TYPE_CHECKING:
    from loopwright.work.doing import Doing


def chain(doing: Doing, item: ir.Chain, following: Item | None) -> None:
    hand = doing.hand
    n = hand.number(item.n)
    if n == 0:
        return
    begins = not hand.started
    if item.counts_as is not None:
        spot = first_place(doing, item.span)
        if begins:
            hand.begun = (n - item.and_chains, n), (spot.into, spot.position, spot.chain)
        counted(doing, item.counts_as, n - item.and_chains, spot)
        if item.and_chains:
            loose(doing, item.and_chains)
        return
    if begins:
        hand.begun = (n, n), hand.override or _first(hand)
    turning = begins or _only_slipped(hand, n, following)
    if turning and not hand.depth and not _long_skip(hand, n, following):
        hand.push(Made("turn", chains=n, yarn=hand.yarn, item=hand.item))
        hand.started = True
    else:
        placed = hand.override is not None or hand.at_moved
        if begins and not hand.is_round and not placed:
            at = hand.here()
            if at < hand.end and hand.at(at).what == "st":
                hand.pos = at + 1
                hand.same = at
        loose(doing, n)


def _first(hand: Hand) -> tuple[str, int, int]:
    """The first place of a row: of the ring, where it is worked into that."""
    if not hand.edge.length or (hand.ring and hand.uses_ring):
        return "ring", 0, 0
    spot = spot_at(hand, 0)
    return spot.into, spot.position, spot.chain


def loose(doing: Doing, n: int) -> None:
    hand = doing.hand
    made = Made("ch", chains=n, yarn=hand.yarn, item=hand.item)
    pairs = hand.out.pairs
    if pairs and pairs[-1][1] == 1 and not hand.own:
        before = pairs[-1][0]
        if isinstance(before, Made) and before.what == "ch" and before.yarn == hand.yarn:
            # Chains straight after chains are one run, and one space.
            pairs[-1] = (before._replace(chains=before.chains + n), 1)
            return
    hand.push(made)


def first_place(doing: Doing, span: Span) -> Spot:
    """Where a chain that counts stands."""
    hand = doing.hand
    if hand.override is not None:
        return Spot(*hand.override)
    if hand.at_moved and hand.pos == 0 and hand.edge.length:
        hand.pos = 1
        hand.beside = is_space(hand.at(0))
        return Spot("sp" if hand.beside else "st", 0)
    if hand.ring and (hand.uses_ring or not hand.edge.length):
        return Spot("ring", 0)
    last = hand.out.pairs[-1][0] if hand.out.pairs else None
    if isinstance(last, Made) and last.stitch == SLIP and hand.same >= 0:
        # Slip stitched to where it is to stand.
        return Spot("sp" if hand.at(hand.same).what in SPACES else "st", hand.same)
    spot = next_stitch(hand, ANY_STITCH, span)
    hand.beside = False
    return spot


def counted(doing: Doing, stitch: Stitch, chains: int, spot: Spot) -> None:
    hand = doing.hand
    on_edge = spot.into not in OFF_EDGE
    step = spot.position - hand.last if on_edge else 0
    hand.push(
        Made(
            "as",
            stitch,
            chains,
            into=spot.into,
            step=step,
            chain=spot.chain,
            yarn=hand.yarn,
            item=hand.item,
        )
    )
    if on_edge:
        hand.last = hand.same = hand.counted_at = spot.position
    elif spot.into == "ring":
        hand.in_ring = True
        hand.same = RING


def skip(doing: Doing, item: ir.Skip) -> None:
    hand = doing.hand
    n = hand.number(item.n)
    if n == 0:
        return
    if item.counts_as is not None:
        skip_as(doing, item, n)
        return
    if item.kind.what in ("sp", "gap"):
        for _ in range(min(n, 10_000)):
            hand.next_space(item.kind.chains, item.span)
        hand.beside = False
        return
    fresh: tuple[int, ...] = ()
    if item.kind.what == "ch":
        several(doing.hand, n, lambda: pass_chain(doing, item.span))
    elif n <= MOST_SKIPPED:
        at = []
        for _ in range(n):
            at.append(hand.next_stitch(item.kind, item.span))
        fresh = tuple(at)
    else:
        hand.beyond(n, item.span)
    hand.skipped, hand.gone_back = fresh, ()
    hand.beside = False
    hand.skip_end = hand.here()


def pass_chain(doing: Doing, span: Span) -> None:
    doing.hand.next_chain(span)


def skip_as(doing: Doing, item: ir.Skip, n: int) -> None:
    hand = doing.hand
    if hand.started or hand.pos or not hand.edge.length or hand.at(0).what != "ch":
        raise Stuck("wrong-place", item.span, wanted=ir.Kind("start chain"))
    hand.beyond(n, item.span)
    hand.first_chain = n
    hand.push(Made("skip as", item.counts_as, n - item.and_chains, yarn=hand.yarn, item=hand.item))
    if item.and_chains:
        loose(doing, item.and_chains)


def opening(doing: Doing, item: ir.Opening) -> None:
    hand = doing.hand
    n = hand.number(item.n)
    chains = hand.number(item.chains) if item.chains is not None else n
    if n == 0:
        return
    start = hand.here()
    hand.beyond(n, item.span)
    hand.push(Made("open", chains=chains, yarn=hand.yarn, item=hand.item, opening=item.name))
    hand.beside = False
    under = hand.edge.slice(start, hand.pos)
    hand.openings.append(OpeningMade(item.name, under, chains, item.span))


def picot(doing: Doing, item: ir.Picot) -> None:
    hand = doing.hand
    n = hand.number(item.n)
    hand.push(Made("picot", chains=item.chains, yarn=hand.yarn, item=hand.item), n)


def _only_slipped(hand: Hand, chains: int, following: Item | None) -> bool:
    """Whether a chain rises to the next stitch after nothing but slip stitches, and is no higher:
    then a row begins with it, further in."""
    made = [one for one, _ in hand.out.pairs]
    slips = all(isinstance(one, Made) and one.what == "st" and one.stitch == SLIP for one in made)
    stitch = _first_stitch(following)
    if not made or not slips or stitch is None or stitch == SLIP:
        return False
    return chains <= stitch.height


def _first_stitch(item: Item | None) -> Stitch | None:
    """The first stitch that an item works, where it begins with one."""
    if isinstance(item, ir.Group | ir.Repeat):
        return _first_stitch(item.items[0]) if item.items else None
    if isinstance(item, ir.Work | ir.Increase | ir.Decrease | ir.Evenly):
        return item.stitch
    return None


def _long_skip(hand: Hand, chains: int, following: Item | None) -> bool:
    """Whether a chain reaches over a skip of two or more; one chain alone reaches over none."""
    if chains < 2 or not isinstance(following, ir.Skip) or following.counts_as is not None:
        return False
    if following.kind.what in ("sp", "gap"):
        return False
    return hand.number(following.n) >= 2
