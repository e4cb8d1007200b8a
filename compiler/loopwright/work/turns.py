"""Turns: where a row begins, closes, turns, leaves off and runs on."""

from __future__ import annotations

from typing import TYPE_CHECKING

from loopwright.ir import items as ir
from loopwright.ir.fabric import Made, Place
from loopwright.ir.runs import Builder, Runs, run
from loopwright.trade.stitches import SLIP
from loopwright.work.hand import Hand
from loopwright.work.places import Stuck, takes_stitch
from loopwright.work.project import edge_of

if TYPE_CHECKING:
    from loopwright.work.doing import Doing


def join(doing: Doing, item: ir.Join) -> None:
    hand = doing.hand
    hand.joined = True
    if item.stitch is None or item.stitch == SLIP:
        hand.push(Made("join", yarn=hand.yarn, item=hand.item))
        return
    # The chains before the join and its stitch close one more space like the others.
    chains = _usual_space(hand) or item.stitch.height
    pairs = hand.out.pairs
    if pairs and isinstance(pairs[-1][0], Made) and pairs[-1][0].what == "ch":
        pairs.pop()
        hand.places -= 1
    hand.push(Made("join sp", item.stitch, chains, yarn=hand.yarn, item=hand.item))


def turn(doing: Doing, item: ir.Turn) -> None:
    """At the end of a row; one at its start says how the row itself is met (``meeting.turns``)."""
    doing.hand.turned = item.turned
    doing.hand.no_turn = not item.turned


def move_late(doing: Doing, item: ir.Move) -> None:
    raise Stuck("wrong-place", item.span, wanted=ir.Kind("move"))


def leave(doing: Doing, item: ir.Leave) -> None:
    hand = doing.hand
    start = hand.here()
    if item.n is None:
        hand.pos, hand.sub = max(hand.end, hand.pos), 0
    else:
        n = hand.number(item.n)
        if n:
            hand.beyond(n, item.span)
    if hand.pos > start:
        hand.left.append((start, hand.pos))


def change(doing: Doing, item: ir.Change) -> None:
    doing.hand.yarn = "+".join(item.yarns)


def mark(doing: Doing, item: ir.Mark) -> None:
    doing.hand.marks[item.name] = doing.hand.places - 1


def run_on(doing: Doing, item: ir.RunOn) -> None:
    """Past the marker: what follows goes into the round's own first stitches."""
    hand = doing.hand
    if not hand.spiral:
        raise Stuck("wrong-place", item.span, wanted=ir.Kind("spiral"))
    if hand.depth or hand.ran_on:
        raise Stuck("wrong-place", item.span, wanted=ir.Kind("run on"))
    if hand.in_ring:
        hand.edge = Runs(())  # the chains of the ring are no places of a round in the ring
        hand.pos = hand.sub = hand.optional = 0
    left = hand.left_of(takes_stitch)
    if left and not hand.beside:
        raise Stuck(
            "places-left-over",
            item.span,
            left=left,
            spaces=0,
            have=hand.edge.before(hand.optional, takes_stitch),
            hooked=0,
            places="st",
        )
    hand.ran_from = hand.edge.length
    hand.ran_on = 1
    hand.pos, hand.sub = hand.ran_from, 0
    hand.met_marks = {
        **hand.met_marks,
        **{name: hand.ran_from + at for name, at in hand.marks.items()},
    }
    hand.has_space.clear()
    _lengthen(hand, edge_of(hand.out.done()), owed=False)


def other_side(doing: Doing, item: ir.OtherSide) -> None:
    """Back along the starting chain, from the chain next to the last to the first worked."""
    hand = doing.hand
    edge = hand.edge
    if hand.depth or not edge.length or edge.run_at(0)[2] < edge.length or hand.at(0).what != "ch":
        raise Stuck("wrong-place", item.span, wanted=ir.Kind("other side"))
    left = hand.left_of(takes_stitch)
    if left:
        raise Stuck(
            "places-left-over",
            item.span,
            left=left,
            spaces=0,
            have=edge.length,
            hooked=hand.hooked,
            places="ch",
        )
    hand.in_first = _in_first_place(hand.out.done())
    _lengthen(hand, run(edge.run_at(0)[0], edge.length - 1 - hand.first_chain), owed=True)


def _in_first_place(made: Runs[Made]) -> int:
    """How many stitches stand together in the first place that was worked into."""
    first = [one for one in made.slice(0, min(made.length, 8)).expand() if one.what == "st"]
    return 1 + next((at for at, one in enumerate(first[1:]) if one.step), len(first) - 1)


def _lengthen(hand: Hand, more: Runs[Place], *, owed: bool) -> None:
    """Put more places behind the edge; places already owed stay owed."""
    out: Builder[Place] = Builder()
    out.extend(hand.edge)
    out.extend(more)
    hand.edge = out.done()
    hand.end = hand.edge.length
    if owed:
        hand.optional = hand.end


def _usual_space(hand: Hand) -> int:
    """The length of space that the round has most of."""
    spaces: dict[int, int] = {}
    for made, n in hand.out.done().tally().items():
        if made.what == "ch":
            spaces[made.chains] = spaces.get(made.chains, 0) + n
    pairs = hand.out.pairs
    last = pairs[-1][0] if pairs else None
    if isinstance(last, Made) and last.what == "ch":
        spaces[last.chains] -= 1
    others = {chains: n for chains, n in spaces.items() if n}
    return max(others, key=lambda chains: (others[chains], chains), default=0)
