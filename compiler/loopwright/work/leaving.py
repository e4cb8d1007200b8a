"""Leaving the edge: what a row hands on to the next, and to other parts."""

from __future__ import annotations

from typing import TYPE_CHECKING

from loopwright.ir.fabric import Fact, Place, WorkedRow
from loopwright.ir.pattern import Row
from loopwright.ir.runs import Builder, Runs, run
from loopwright.trade.stitches import PLAIN
from loopwright.work.left import without
from loopwright.work.rising import rise
from loopwright.work.row import Outcome, Ref
from loopwright.work.start import CHAIN

if TYPE_CHECKING:
    from loopwright.work.part import PartWorker


class ProbeOver(Exception):
    """The look ahead has seen enough."""


def took(worker: PartWorker, row: Row, outcome: Outcome, ref: Ref, number: int) -> None:
    worked = outcome.row
    hand = outcome.hand
    if worker.previous == "start":
        worker.start_edge = started(worker, outcome)
    worker.rows.append(((worked,), 1))
    rise(worker, worked)
    if not row.is_round:
        worker.ends.add(row_end(worked))
    leave(worker, outcome)
    worker.openings.extend(hand.openings)
    worker.edge = next_edge(worker, outcome)
    worker.edges.append(worker.edge)
    worker.by_number[number] = worked
    worker.ring = False
    worker.count += 1
    worker.number = number
    worker.history.append(ref)
    worker.marks = outcome.marks
    if hand.yarn != outcome.begun_in:
        worker.yarn_now = hand.yarn  # a change lasts until the next
    worker.turn = outcome.turn
    worker.was_joined = outcome.joined
    worker.wrong_side = worked.wrong_side
    spiral(worker, row, outcome)
    worker.previous = "round" if row.is_round and worker.part.manner != "flat" else "row"
    worker.last_outcome = outcome
    if worker.probing >= 0:
        worker.probing -= 1
        if worker.probing < 0:
            raise ProbeOver


def leave(worker: PartWorker, outcome: Outcome) -> None:
    """What was left in words waits until it is named; what was taken up waits no more."""
    hand = outcome.hand
    worker.way = worker.way != outcome.row.turned
    if worker.part.manner == "spiral" and not outcome.joined:
        return
    out: Builder[Place] = Builder()
    for start, end in hand.left:
        out.extend(hand.edge.slice(start, end))
    rest = without(worker.left, worker.way, hand.taken_up)
    worker.left = (*rest, (worker.way, out.done())) if hand.left else rest


def next_edge(worker: PartWorker, outcome: Outcome) -> Runs[Place]:
    """In a spiral what was left in words comes first: the round ends before its marker."""
    edge = outcome.row.edge
    hand = outcome.hand
    made = outcome.row.made.pairs
    worker.in_join = bool(made) and getattr(made[-1][0], "what", "") == "join sp"
    if worker.in_join:
        first: Builder[Place] = Builder()
        first.extend(edge.slice(edge.length - 1, edge.length))
        first.extend(edge.slice(0, edge.length - 1))
        return first.done()
    if hand.ran_on:
        edge = edge.slice(hand.here() - hand.ran_from, edge.length)
    if worker.part.manner != "spiral" or not hand.left or outcome.joined:
        return edge
    out: Builder[Place] = Builder()
    for start, end in hand.left:
        out.extend(hand.edge.slice(start, end))
    out.extend(edge)
    return out.done()


def spiral(worker: PartWorker, row: Row, outcome: Outcome) -> None:
    if worker.part.manner != "spiral" or not row.is_round:
        return
    if worker.spiral_joined is not None and not outcome.joined:
        span, label = worker.spiral_joined
        worker.say(Fact("joined-spiral", span, "", label, ()))
    worker.spiral_joined = (row.span, outcome.row.label) if outcome.joined else None


def started(worker: PartWorker, outcome: Outcome) -> Runs[Place]:
    """The start of the part as an edge: its chains that were worked, and those that count."""
    if not worker.begun.chain:
        return worker.begun.edge if worker.begun.rows else Runs(())
    n = worker.begun.edge.length - outcome.hand.hooked
    first = outcome.row.made.pairs[0][0] if outcome.row.made.pairs else None
    skipped = getattr(first, "what", "") == "skip as"
    if skipped:
        # However many were skipped, and with chains after the stitch too, they stand on one.
        n -= outcome.hand.first_chain - 1
    return run(CHAIN, max(n, 0))


def row_end(row: WorkedRow) -> Place:
    """The end of a row, as high as the stitch most of it is made of."""
    best, most = PLAIN, 0
    for one, n in row.made.tally().items():
        if one.stitch is not None and n > most:
            best, most = one.stitch, n
    return Place("end", best)
