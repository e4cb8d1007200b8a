"""Slips: after a row that does not come out, which edge to carry on from.

The rows that follow decide whether what was made or what is stated is to be believed, so that
one slip gives one message.
"""

from __future__ import annotations

from copy import copy
from typing import TYPE_CHECKING

from loopwright.ir.fabric import Fact, Place
from loopwright.ir.items import Kind
from loopwright.ir.numbers import CannotReckon, whole
from loopwright.ir.pattern import Line, RepeatRows, Row
from loopwright.ir.runs import Builder, Runs, run
from loopwright.work.leaving import ProbeOver
from loopwright.work.places import takes_stitch
from loopwright.work.row import Outcome, Ref, hold_against
from loopwright.work.start import CHAIN

if TYPE_CHECKING:
    from loopwright.work.part import PartWorker

CUT_SHORT = ("edge-ran-out", "no-such-space", "wrong-place", "repeat-does-not-fit")
"""Slips after which a row leaves less, or other, than was meant."""

PROBE = 30
"""Rows looked ahead to decide whether a row's count or its stated count is to be believed."""


def slip(worker: PartWorker, row: Row, outcome: Outcome, index: int, number: int) -> None:
    worker.slipped = True
    if worker.probing >= 0:
        for fact in outcome.facts:
            worker.say(fact)
        return
    _tell(worker, outcome)
    if worker.effort.left < 0:
        worker.unknown = True
        return
    _believe(worker, row, outcome, index, number)
    if worker.effort.left < 0:
        # Looking ahead has used up what was left.
        values = (("what", "too long"),)
        worker.say(Fact("not-in-this-edition", row.span, "", outcome.row.label, values))
        worker.unknown = True


def _tell(worker: PartWorker, outcome: Outcome) -> None:
    """Say what did not come out: once for a line, and not where the row below is in doubt too."""
    stated = _stated_stitches(outcome)
    spaced = _has_spaces(outcome)
    if not worker.unsure and outcome.row.line not in worker.told:
        worker.told.add(outcome.row.line)
        for fact in outcome.facts:
            worker.say(_where(worker, fact))
    cut_short = any(fact.kind in CUT_SHORT for fact in outcome.facts)
    in_doubt = spaced and not _misnamed(outcome)
    worker.unsure = in_doubt or (stated is None and cut_short)


def _where(worker: PartWorker, fact: Fact) -> Fact:
    """A fact of a row that is worked again, with the line that repeats it."""
    again = worker.again
    if again is None:
        return fact
    values = (("again", again.span), ("how", again.how), ("before", again.done))
    return fact._replace(values=(*fact.values, *values))


def _misnamed(outcome: Outcome) -> bool:
    """Whether all that differs is a kind of space that the row does not make at all: its name is
    the slip, and the row leaves what was meant."""
    differs = [
        one
        for fact in outcome.facts
        if fact.kind == "count-differs"
        for one in fact.get("differs") or ()  # type: ignore[attr-defined]
    ]
    return bool(differs) and all(kind.what == "sp" and not made for kind, _, made in differs)


def still_unsure(row: Line, outcome: Outcome) -> bool:
    """Whether a row that came out leaves it open still what stood below it: whatever that was, a
    plain row makes as many, unless they are as many as it says."""
    if not isinstance(row, Row) or row.stated is None:
        return False
    return bool(hold_against(row.stated, outcome.row.counts, outcome.hand)[1])


def _has_spaces(outcome: Outcome) -> bool:
    """Whether a row leaves spaces, or is said to: how many there should be is not enough to know
    where they should be."""
    stated = any(kind.what in ("sp", "ch") for kind, _ in outcome.stated or ())
    return stated or any(not takes_stitch(place) for place in outcome.row.edge.tally())


def _believe(worker: PartWorker, row: Row, outcome: Outcome, index: int, number: int) -> None:
    """Carry on from what the row made, from what it is stated to make, or, where neither lets the
    next rows work, from so many stitches of any kind."""
    if worker.unsure:
        return
    made = outcome.row.edge
    have = made.before(made.length, takes_stitch)
    stated = _stated_stitches(outcome)
    differs = stated not in (None, have) and row.stated is not None and not row.stated.counting
    line = outcome.row.line
    if line in worker.believed and row.numbers and number < row.numbers[0][1]:
        # Rows of one line are believed alike.
        if worker.believed[line] and differs and stated is not None:
            worker.edge = stated_edge(made, stated)
        return
    as_made = probe(worker, made, index, number)
    best, edge = as_made, made
    if differs and stated is not None:
        other = stated_edge(made, stated)
        as_stated = probe(worker, other, index, number)
        worker.tied = worker.tied or as_stated == as_made
        if as_stated > as_made or (as_stated == as_made and not worker.believe_made):
            best, edge = as_stated, other
    if best[0] <= PROBE:
        unknown = run(Place("st", None), stated if stated is not None else have)
        if probe(worker, unknown, index, number) > best:
            edge = unknown
    worker.believed[line] = edge is not made
    if edge is not made:
        worker.edge = edge


def probe(worker: PartWorker, edge: Runs[Place], index: int, number: int) -> tuple[int, int]:
    """How many of the following rows find their places on an edge before the first that does
    not; and how many, before the first whose count is another than it says."""
    ahead = copy(worker)
    ahead.edge = edge
    ahead.rows, ahead.lines, ahead.facts = [], {}, []
    ahead.history = worker.history.copy()
    ahead.waiting = dict(worker.waiting)
    ahead.said = set()
    ahead.ends = Builder()
    ahead.edges = worker.edges.copy()
    ahead.by_number = dict(worker.by_number)
    ahead.openings = []
    ahead.probing = PROBE
    ahead.faulty = worker.history[-1].line
    try:
        line = worker.part.lines[index]
        if isinstance(line, Row) and line.numbers and number < line.numbers[0][1]:
            ahead.work_range(index, line, number + 1, line.numbers[0][1])
        ahead.work_lines(index + 1)
    except ProbeOver:
        pass
    placed = PROBE - max(ahead.probing, 0)
    if not ahead.facts:
        return PROBE + 1, PROBE + 1
    if ahead.facts[-1].kind == "count-differs":
        placed = PROBE + 1
    return placed, min(ahead.first_count, placed)


def check_stated(worker: PartWorker, line: RepeatRows) -> None:
    """A stated count on a repeat line holds for the last row that it worked."""
    outcome = worker.last_outcome
    if line.stated is None or outcome is None or worker.unknown:
        return
    stated, differs = hold_against(line.stated, outcome.row.counts, outcome.hand)
    worker.last_outcome = outcome = outcome._replace(stated=stated)
    if not differs:
        return
    told = outcome.row.line in worker.told
    if not told:
        values = (("differs", differs),)
        worker.say(Fact("count-differs", line.stated.span, "", outcome.row.label, values))
        worker.tied = True
    n = _stated_stitches(outcome)
    if n is not None and not _has_spaces(outcome) and (told or not worker.believe_made):
        worker.edge = stated_edge(outcome.row.edge, n)


def broken(worker: PartWorker, row: Row) -> None:
    """A row that was not understood: what it says it comes to, or nothing known."""
    worker.count += 1
    worker.previous = "round" if row.is_round and worker.part.manner != "flat" else "row"
    worker.marks = {}
    worker.ring = False
    from_stated(worker, row)
    if worker.start_edge is None:
        # As many chains were worked as there are stitches on them.
        n = 0 if worker.unknown else worker.edge.length
        worker.start_edge = run(CHAIN, n) if worker.begun.chain else Runs(())


def from_stated(worker: PartWorker, row: Row) -> None:
    worker.unknown = True
    if row.stated is None or row.stated.counting or len(row.stated.counts) != 1:
        return
    one = row.stated.counts[0]
    if one.kind.what not in ("st", "stitch"):
        return
    try:
        n = whole(one.n, worker.size, {**worker.names, row.variable: worker.number})
    except CannotReckon:
        return
    worker.edge = run(Place("st", None), n)
    worker.unknown = False


def pass_over(worker: PartWorker, row: Row, number: int, ref: Ref) -> None:
    """A row on an edge that is not known: it can only be passed over."""
    worker.count += 1
    worker.number = number
    worker.history.append(ref)
    worker.last_outcome = None
    worker.previous = "round" if row.is_round and worker.part.manner != "flat" else "row"
    from_stated(worker, row)


def _stated_stitches(outcome: Outcome) -> int | None:
    """The number of stitches that the row is said to come to, where it is said."""
    stated = dict(outcome.stated or ()).get(Kind("st"))
    return stated if stated is not None else _stated_of_one_kind(outcome)


def _stated_of_one_kind(outcome: Outcome) -> int | None:
    """The stitches stated, where every stitch of the row is of the one kind that is stated."""
    stated = [(kind, n) for kind, n in outcome.stated or () if kind.what == "stitch"]
    made = [kind for kind, _ in outcome.row.counts if kind.what == "stitch"]
    if len(stated) == 1 and made == [stated[0][0]]:
        return stated[0][1]
    return None


def stated_edge(made: Runs[Place], stated: int) -> Runs[Place]:
    """The edge that was made, brought to the stated number of stitches at its end; stitches put
    in may be of any kind."""
    have = made.before(made.length, takes_stitch)
    if stated >= have:
        out: Builder[Place] = Builder()
        out.extend(made)
        out.add(Place("st", None), stated - have)
        return out.done()
    if not stated:
        return Runs(())
    return made.slice(0, made.nth(stated - 1, takes_stitch) + 1)
