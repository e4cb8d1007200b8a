"""One part in one size: its rows in order, ranges and repeats carried on in runs.

A row or a group of rows that is worked again and again is worked until it meets an edge that it
has met before (with the stripes at the same row); from there on the rest are the same rows again.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Mapping
from fractions import Fraction

from loopwright.frozen import replace
from loopwright.ir.fabric import Fact, LineResult, OpeningMade, Place, WorkedPart, WorkedRow
from loopwright.ir.heights import SLIP
from loopwright.ir.numbers import CannotReckon, whole
from loopwright.ir.pattern import Gauge, OwnStitch, Part, RepeatRows, Row, Stripes
from loopwright.ir.runs import Builder, Runs
from loopwright.source import Span
from loopwright.work.effort import Effort
from loopwright.work.leaving import ProbeOver, took
from loopwright.work.left import Left, all_left
from loopwright.work.meeting import meet
from loopwright.work.repeats import MOST_DIFFERENT, Again, repeat_line, too_many, work_again
from loopwright.work.rising import in_gauge_rows
from loopwright.work.row import Outcome, Ref, work_row, written_at
from loopwright.work.slips import PROBE, broken, pass_over, slip, still_unsure
from loopwright.work.start import Begun

MOST_DEEP = 12
"""How many rows further down a stitch can be worked."""


class FirstFault(Exception):
    """Something does not come out, and that is all that was asked."""


class PartWorker:
    """Works one part in one size; ``work()`` gives the part as worked."""

    def __init__(
        self,
        part: Part,
        begun: Begun,
        size: int,
        names: Mapping[str, Fraction | int],
        owns: dict[str, OwnStitch],
        gauge: Gauge | None,
        *,
        effort: Effort,
        only_whether: bool = False,
        believe_made: bool = False,
    ) -> None:
        self.effort = effort
        self.believe_made = believe_made
        self.tied = False
        self.only_whether = only_whether
        self.part = part
        self.begun = begun
        self.size = size
        self.names = names
        self.owns = owns
        self.gauge = gauge
        self.edge: Runs[Place] = begun.edge
        self.ring = begun.ring
        self.unknown = False
        self.previous = "start"
        self.turn: bool | None = None
        self.wrong_side = False
        self.number = 0
        self.count = begun.rows
        self.marks: Mapping[str, int] = {}
        self.was_joined = True
        self.history: deque[Ref] = deque(maxlen=MOST_DIFFERENT)
        self.waiting: dict[int, int] = {}
        self.rows: list[tuple[tuple[WorkedRow, ...], int]] = []
        self.lines: dict[int, LineResult] = {}
        self.facts: list[Fact] = []
        self.said: set[tuple[str, Span]] = set()
        self.ends: Builder[Place] = Builder()
        if begun.rows and begun.edge.length:
            self.ends.add(Place("end", begun.edge.run_at(0)[0].stitch))
        self.left: Left = ()
        self.way = False
        self.in_join = False
        self.slipped = False
        self.again: Again | None = None
        self.told: set[int] = set()
        self.unsure = False
        self.first_count = PROBE
        self.edges: deque[Runs[Place]] = deque([begun.edge], maxlen=MOST_DEEP)
        self.by_number: dict[int, WorkedRow] = {}
        self.carried: list[tuple[int, tuple[WorkedRow, ...], int]] = []
        self.at_number = self.ahead = 0
        self.openings: list[OpeningMade] = []
        self.start_edge: Runs[Place] | None = None
        self.bands = _bands(part, size, names)
        self.probing = -1
        self.faulty = -1
        self.yarn_now: str | None = None
        self.heights: dict[int, Fraction | int] = {}
        self.risen: Fraction | int = 0
        if begun.rows and begun.edge.length:
            first = begun.edge.run_at(0)[0].stitch
            self.risen += in_gauge_rows(first.basic if first else SLIP, gauge)
        self.believed: dict[int, bool] = {}
        self.last_outcome: Outcome | None = None
        self.spiral_joined: tuple[Span, str] | None = None

    # ------------------------------------------------------------- lines

    def work(self) -> WorkedPart:
        """Work every line."""
        self.work_lines(0)
        start = self.start_edge
        if start is None:
            start = self.begun.edge if self.begun.chain or self.begun.rows else Runs(())
        return WorkedPart(
            self.part.name,
            self.begun.edge,
            self.begun.chain,
            self.begun.ring,
            tuple(self.rows),
            tuple(self.lines.values()),
            self.edge,
            self.count,
            self.ends.done(),
            start,
            tuple(self.openings),
            all_left(self.left),
            self.begun.taken,
        )

    def work_lines(self, first: int) -> None:
        for index in range(first, len(self.part.lines)):
            if self.effort.left < 0:
                break
            line = self.part.lines[index]
            if isinstance(line, Row):
                if line.sizes is None or self.size in line.sizes:
                    self._row_line(index, line)
            elif isinstance(line, RepeatRows):
                repeat_line(self, index, line)

    def _row_line(self, index: int, row: Row) -> None:
        first, last = self._numbers(row)
        for low, high in row.numbers[1:]:
            for number in range(low, min(high, low + MOST_DIFFERENT) + 1):
                self.waiting[number] = index
        self.work_range(index, row, first, last)

    def _numbers(self, row: Row) -> tuple[int, int]:
        if row.numbers:
            return row.numbers[0]
        number = self.number + (0 if row.setup else 1)
        return number, number

    def work_range(self, index: int, row: Row, first: int, last: int) -> None:
        """Work a written row for each of its numbers."""
        before = self.count
        if row.broken:
            self.number = last
            broken(self, row)
            self.count += last - first
            self.history.append(Ref(index, last))
            return
        total = last - first + 1
        each_differs = bool(row.variable) or (row.as_row is not None and total > 1)
        if each_differs or total == 1:
            self._one_by_one(index, row, first, last)
        else:
            work_again(self, [Ref(index, first)], total, index, first_number=first, stated=True)
        self.line_done(index, row.label, self.count - before)
        self.work_waiting(last)

    def _one_by_one(self, index: int, row: Row, first: int, last: int) -> None:
        for done, number in enumerate(range(first, last + 1)):
            if done >= MOST_DIFFERENT:
                too_many(self, row.span)
                break
            ref = self._resolve(row, index, first, last, number)
            if ref is None:
                return
            self.once(ref, number, index, row if row.as_row else None, stated=True)

    def _resolve(self, row: Row, index: int, first: int, last: int, number: int) -> Ref | None:
        if row.as_row is None:
            return Ref(index, number)
        low, high = row.as_row
        like, wanted = max(high - low + 1, 1), last - first + 1
        source = low + (number - first) % like
        found = self.row_numbered(source, index)
        if found is None or wanted % like:
            values: tuple[tuple[str, object], ...] = (("number", source), ("as", True))
            if found is not None:
                values = (("lengths", True), ("like", like), ("wanted", wanted))
            self.say(Fact("unknown-row", row.span, "", row.label, values))
        return found

    def row_numbered(self, number: int, before: int) -> Ref | None:
        """The row that was written under a number, for this size."""
        for index in range(before - 1, -1, -1):
            line = self.part.lines[index]
            if not isinstance(line, Row) or (
                line.sizes is not None and self.size not in line.sizes
            ):
                continue
            for low, high in line.numbers:
                if low <= number <= high:
                    if line.as_row is None:
                        return Ref(index, number)
                    source, end = line.as_row
                    like = max(end - source + 1, 1)
                    return self.row_numbered(source + (number - low) % like, index)
        return None

    def work_waiting(self, last: int) -> None:
        """Work rows of earlier lists (`rows 5, 9 and 13`) whose number has come up."""
        index = self.waiting.pop(last + 1, None)
        if index is not None:
            row = self.part.lines[index]
            assert isinstance(row, Row)
            before = self.count
            ref = self._resolve(row, index, last + 1, last + 1, last + 1)
            if ref is not None:
                self.once(ref, last + 1, index, row if row.as_row else None, stated=True)
            self.line_done(index, row.label, self.count - before)
            self.work_waiting(last + 1)

    def line_done(self, index: int, label: str, worked: int) -> None:
        outcome = self.last_outcome
        counts = outcome.row.counts if outcome is not None else ()
        stated = outcome.stated if outcome is not None else None
        before = self.lines.get(index)
        if before is not None:
            worked += before.worked
        self.lines[index] = LineResult(index, label, counts, stated, worked, self.count)

    # ------------------------------------------------------------- repeats

    def phase(self) -> int:
        if not self.bands:
            return 0
        return self.count % sum(n for n, _ in self.bands)

    # ------------------------------------------------------------- one row

    def once(self, ref: Ref, number: int, index: int, named: Row | None, *, stated: bool) -> None:
        """Work one row once, carry on from what it made or what it says."""
        row = self.part.lines[ref.line]
        assert isinstance(row, Row)
        if self.effort.left < 0:
            self.unknown = True  # it was said where it ran out
            return
        doubted = ref.line == self.faulty or ref.line in self.told
        if self.probing >= 0 and doubted and not (stated and row.variable):
            # The row in doubt is no witness for itself; what stands after its repeats is.
            self.count += 1
            self.number = number
            self.history.append(ref)
            return
        if row.broken:
            broken(self, row)
            self.history.append(ref)
            self.number = number
            return
        if named is not None:
            row = replace(row, stated=named.stated, side=named.side or row.side)
        elif not stated:
            row = replace(row, stated=None)
        if self.unknown:
            pass_over(self, row, number, ref)
            return
        self.at_number, self.ahead = number, number - written_at(row, ref)
        meeting = meet(self, row, ref, number)
        outcome = work_row(row, meeting, self.owns, self.part.manner)
        took(self, row, outcome, ref, number)
        if outcome.facts:
            slip(self, row, outcome, index, number)
        elif self.unsure:
            self.unsure = still_unsure(self.part.lines[ref.line], outcome)

    def row_of(self, number: int) -> WorkedRow | None:
        """The row of a number, of those that the row being worked can reach."""
        if not 0 < self.at_number - number <= MOST_DEEP:
            return None
        for first, rows, times in self.carried:
            if first <= number < first + len(rows) * times:
                return rows[(number - first) % len(rows)]
        return self.by_number.get(number)

    # ------------------------------------------------------------- slips

    def say(self, fact: Fact) -> None:
        if self.only_whether:
            raise FirstFault
        if self.probing >= 0:
            self.facts.append(fact)
            if fact.kind != "count-differs":
                raise ProbeOver
            self.first_count = min(self.first_count, PROBE - self.probing)
            return
        key = (fact.kind, fact.span)
        if key not in self.said:
            self.said.add(key)
            self.facts.append(fact._replace(part=self.part.name))


def _bands(
    part: Part, size: int, names: Mapping[str, Fraction | int]
) -> tuple[tuple[int, str], ...]:
    for line in part.lines:
        if isinstance(line, Stripes):
            try:
                bands = tuple((whole(n, size, names), "+".join(yarns)) for n, yarns in line.bands)
            except CannotReckon:
                return ()
            return tuple(band for band in bands if band[0])
    return ()
