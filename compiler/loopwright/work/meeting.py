"""Meeting the edge: from which side a row comes to it, in which yarn, with what around it."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from functools import partial
from typing import TYPE_CHECKING

from loopwright.ir.fabric import Place, WorkedRow
from loopwright.ir.items import Item, Turn
from loopwright.ir.pattern import Row
from loopwright.ir.runs import Builder, Runs, runs_of
from loopwright.work.known import reading_of
from loopwright.work.left import nearest_first
from loopwright.work.places import takes_stitch
from loopwright.work.row import Meeting, Ref, before_work

if TYPE_CHECKING:
    from loopwright.work.part import PartWorker

MOST_TRACED = 100_000
"""Stitches of a row through which skipped ones are looked for one by one."""


def meet(worker: PartWorker, row: Row, ref: Ref, number: int) -> Meeting:
    """How the next row meets the edge."""
    is_round = row.is_round and worker.part.manner != "flat"
    turned = turns(worker, row, is_round)
    edge, marks = _met(worker, turned, is_round)
    names: Mapping[str, Fraction | int] = worker.names
    if row.variable:
        names = {**worker.names, row.variable: ref.number}
    word = "round" if row.is_round else "row"
    return Meeting(
        edge,
        worker.ring,
        turned,
        _wrong_side(worker, row, turned),
        yarn(worker),
        worker.size,
        names,
        marks,
        f"{word} {number}" if number else f"setup {word}",
        number,
        ref.line,
        worker.in_join,
        worker.effort,
        nearest_first(worker.left, worker.way != turned),
        partial(deeper, worker, turned, is_round),
        partial(passed_in, worker, turned, is_round),
    )


def _met(worker: PartWorker, turned: bool, is_round: bool) -> tuple[Runs[Place], Mapping[str, int]]:
    """The edge and its markers from the side from which the row comes to them."""
    edge, marks = worker.edge, worker.marks
    n = edge.length
    if turned and is_round and worker.was_joined and n:
        # A turned joined round begins in the stitch joined into: first, last, last but one.
        back: Builder[Place] = Builder()
        back.extend(edge.slice(0, 1))
        back.extend(edge.slice(1, n).reversed())
        return back.done(), {name: (n - at) % n for name, at in marks.items()}
    if turned:
        return edge.reversed(), {name: n - 1 - at for name, at in marks.items()}
    return edge, marks


def _wrong_side(worker: PartWorker, row: Row, turned: bool) -> bool:
    if row.side or worker.previous == "start":
        return row.side == "WS"
    return worker.wrong_side != turned


def turns(worker: PartWorker, row: Row, is_round: bool) -> bool:
    if worker.previous == "start":
        return False
    crab = reading_of(row, worker.effort).crab
    begun = turned_first(row.items)
    turn = worker.turn if begun is None else begun
    if is_round:
        # A row is turned at its end, whatever comes after it.
        unsaid = worker.part.manner == "turned" or worker.previous == "row"
        turned = unsaid if turn is None else turn
        return turned != crab
    if turn is False:
        return crab
    if worker.previous == "round":
        return turn is True
    return True


def turned_first(items: tuple[Item, ...]) -> bool | None:
    """Whether a row says, before anything is worked, that it is turned (or is not)."""
    for item in items[: before_work(items)]:
        if isinstance(item, Turn):
            return item.turned
    return None


def yarn(worker: PartWorker) -> str:
    if worker.bands:
        at = worker.count % sum(n for n, _ in worker.bands)
        for n, yarn in worker.bands:
            if at < n:
                return yarn
            at -= n
    return worker.yarn_now if worker.yarn_now is not None else "+".join(worker.part.yarns)


def deeper(
    worker: PartWorker, turned: bool, is_round: bool, below: int, of_row: int
) -> Runs[Place] | None:
    """The edge that an earlier row left, in the order in which this row, which meets its own
    ``turned`` or not, comes to it."""
    if of_row:
        row = worker.row_of(of_row + worker.ahead)
        edge = row.edge if row is not None else None
    else:
        edge = worker.edges[-below] if 0 < below <= len(worker.edges) else None
    if edge is None or not goes_back(worker, turned, below, of_row):
        return edge
    return _backwards(edge, is_round)


def passed_in(
    worker: PartWorker, turned: bool, is_round: bool, below: int, of_row: int
) -> Runs[Place] | None:
    """The stitches that an earlier row skipped: so many rows below, or that of a number, in the
    order in which this row comes to them. What is worked again is as far above the row that it
    names as it was when it was written."""
    row = worker.row_of(worker.at_number - below if below else of_row + worker.ahead)
    if row is None:
        return None
    return skipped_in(row, back=goes_back(worker, turned, below, of_row), is_round=is_round)


def goes_back(worker: PartWorker, turned: bool, below: int, of_row: int) -> bool:
    """Whether a row goes the other way than an earlier one: the work was turned an odd number of
    times since."""
    first = worker.at_number - below if below else of_row + worker.ahead
    between = [worker.row_of(number) for number in range(first + 1, worker.at_number)]
    return (turned + sum(row.turned for row in between if row is not None)) % 2 == 1


def _backwards(edge: Runs[Place], is_round: bool) -> Runs[Place]:
    """An edge from its other end; a round that goes back begins in the same stitch."""
    if not is_round or not edge.length:
        return edge.reversed()
    out: Builder[Place] = Builder()
    out.extend(edge.slice(0, 1))
    out.extend(edge.slice(1, edge.length).reversed())
    return out.done()


def skipped_in(row: WorkedRow, *, back: bool = False, is_round: bool = False) -> Runs[Place] | None:
    """The stitches of the edge that a row met and worked nothing into, as it came to them or
    ``back`` from its end."""
    if row.made.length > MOST_TRACED or row.below.length > MOST_TRACED:
        return None
    used = set()
    last = -1
    for made in row.made.expand():
        if made.into in ("st", "sp", "ch", "end"):
            last += made.step
            used.add(last)
            for also in made.also:
                used.add(last + also)
            last += made.also[-1] if made.also else 0
    passed = [
        (position, place)
        for position, place in enumerate(row.below.expand())
        if position not in used and takes_stitch(place)
    ]
    if back:
        # A round that goes back begins in the same stitch.
        first = passed[:1] if is_round and row.is_round and passed and not passed[0][0] else []
        passed = first + passed[len(first) :][::-1]
    return runs_of(place for _, place in passed)
