"""Stitches spread evenly over the whole edge: the totals are fixed, the positions are not."""

from __future__ import annotations

from loopwright.ir.items import Evenly
from naive.hands import Hands
from naive.things import FaultError, Spot, Thing, is_stitch


def evenly(hands: Hands, item: Evenly) -> None:
    """Work all the places ahead, with so many stitches in all, or so many more or fewer."""
    n = hands.number(item.n)
    places = [i for i in hands.ahead() if is_stitch(hands.edge[i])]
    if not places:
        if hands.ring and item.how == "all":
            for _ in range(n):
                hands.add(Thing("st", item.stitch))
            return
        raise FaultError("edge-ran-out")
    for i in places:
        spot = Spot("st", i)
        hands.take(spot, False)
    made = []
    for k in range(_plain(n, len(places), item.how)):
        made.append(hands.put(item.stitch, [Spot("st", places[k % len(places)])], item.loop))
    if item.how == "dec":
        both = item.stitch._replace(together=2)
        made += [hands.put(both, [Spot("st", places[0])], item.loop) for _ in range(n)]
    for thing in made:
        thing.places = None


def _plain(n: int, places: int, how: str) -> int:
    """How many single stitches there are."""
    if how == "all":
        return n
    if how == "inc":
        if n > places:
            raise FaultError("edge-ran-out")
        return places + n
    if 2 * n > places:
        raise FaultError("edge-ran-out")
    return places - 2 * n
