"""Evenly: so many stitches spread over an edge.

Every place gets ``q`` stitches or ``q + 1``, and the places that get one more lie a whole number
of places apart, at two distances at most that differ by one: the fairest spread that can still be
said in a sentence.
"""

from __future__ import annotations

from loopwright.ir import items as ir
from loopwright.ir.runs import Builder, Runs
from loopwright.work.hand import Hand
from loopwright.work.places import Stuck, takes_stitch


def spread(hand: Hand, item: ir.Evenly) -> Runs[int]:
    """How many stitches each place gets (for decreases: how many places each stitch takes)."""
    n = hand.number(item.n)
    places = hand.left_of(takes_stitch)
    hand.saw(hand.edge.length)
    if item.how == "dec":
        if 2 * n > places:
            raise Stuck("edge-ran-out", item.span, decreases=n, have=places)
        return share(places - n, n, 1)
    if not places:
        raise Stuck("edge-ran-out", item.span)
    if item.how == "inc":
        if n > places:
            raise Stuck("edge-ran-out", item.span, increases=n, have=places)
        return share(places, n, 1)
    each, more = divmod(n, places)
    return share(places, more, each)


def share(places: int, more: int, each: int) -> Runs[int]:
    """``places`` numbers, ``more`` of them ``each + 1`` and the others ``each``, spread out."""
    # Whichever there are fewer of lie apart, each with its neighbours on both sides.
    few, rare, usual = more, each + 1, each
    if 2 * more > places:
        few, rare, usual = places - more, each, each + 1
    out: Builder[int] = Builder()
    if not few:
        out.add(usual, places)
        return out.done()
    block, longer = divmod(places, few)
    for length, times in ((block + 1, longer), (block, few - longer)):
        if not times:
            continue
        unit: Builder[int] = Builder()
        before = (length - 1) // 2
        unit.add(usual, before)
        unit.add(rare)
        unit.add(usual, length - 1 - before)
        out.repeat(unit.done(), times)
    return out.done()
