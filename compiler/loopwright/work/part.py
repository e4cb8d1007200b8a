"""One part in one size: its rows in order, ranges and repeats carried on in runs.

A row or a group of rows that is worked again and again is worked until it meets an edge that it
has met before (with the stripes at the same row); from there on the rest are the same rows again.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Mapping
from copy import copy
from dataclasses import replace
from fractions import Fraction
from typing import NamedTuple

from loopwright.ir.fabric import Fact, LineResult, OpeningMade, Place, WorkedPart, WorkedRow
from loopwright.ir.items import Kind, Work
from loopwright.ir.numbers import CannotReckon, whole
from loopwright.ir.pattern import Gauge, OwnStitch, Part, RepeatRows, Row, Stripes
from loopwright.ir.runs import Builder, Runs, run, runs_of
from loopwright.source import Span
from loopwright.trade.stitches import PLAIN
from loopwright.work.hand import takes_stitch
from loopwright.work.row import Meeting, Outcome, work_row
from loopwright.work.start import CHAIN, Begun

MOST_DIFFERENT = 1000
"""Rows of one line that each come out differently and are worked one by one."""

MOST_DEEP = 12
"""How many rows further down a stitch can be worked."""

MOST_TRACED = 100_000
"""Stitches of a row through which skipped ones are looked for one by one."""

PROBE = 30
"""Rows looked ahead to decide whether a row's count or its stated count is to be believed."""


class Ref(NamedTuple):
    """A row as written, under the number that its braces see."""

    line: int
    number: int


class FirstFault(Exception):
    """Something does not come out, and that is all that was asked."""


class ProbeOver(Exception):
    """The look ahead has seen enough."""


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
        only_whether: bool = False,
    ) -> None:
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
        self.history: deque[Ref] = deque(maxlen=400)
        self.waiting: dict[int, int] = {}
        self.rows: list[tuple[tuple[WorkedRow, ...], int]] = []
        self.lines: list[LineResult] = []
        self.facts: list[Fact] = []
        self.said: set[tuple[str, Span]] = set()
        self.ends: Builder[Place] = Builder()
        if begun.rows and begun.edge.length:
            self.ends.add(Place("end", begun.edge.run_at(0)[0].stitch))
        self.left: Runs[Place] = Runs(())
        self.in_join = False
        self.slipped = False
        self.edges: deque[Runs[Place]] = deque([begun.edge], maxlen=MOST_DEEP)
        self.by_number: dict[int, WorkedRow] = {}
        self.openings: list[OpeningMade] = []
        self.start_edge: Runs[Place] | None = None
        self.bands = _bands(part, size, names)
        self.probing = -1
        self.last_outcome: Outcome | None = None
        self.spiral_joined: tuple[Span, str] | None = None

    # ------------------------------------------------------------- lines

    def work(self) -> WorkedPart:
        """Work every line."""
        self._lines(0)
        start = self.start_edge
        if start is None:
            start = self.begun.edge if self.begun.chain or self.begun.rows else Runs(())
        return WorkedPart(
            self.part.name,
            self.begun.edge,
            self.begun.chain,
            self.begun.ring,
            tuple(self.rows),
            tuple(self.lines),
            self.edge,
            self.count,
            self.ends.done(),
            start,
            tuple(self.openings),
            self.left,
        )

    def _lines(self, first: int) -> None:
        for index in range(first, len(self.part.lines)):
            line = self.part.lines[index]
            if isinstance(line, Row):
                if line.sizes is None or self.size in line.sizes:
                    self._row_line(index, line)
            elif isinstance(line, RepeatRows):
                self._repeat_line(index, line)

    def _row_line(self, index: int, row: Row) -> None:
        first, last = self._numbers(row)
        for low, high in row.numbers[1:]:
            for number in range(low, min(high, low + MOST_DIFFERENT) + 1):
                self.waiting[number] = index
        self._range(index, row, first, last)

    def _numbers(self, row: Row) -> tuple[int, int]:
        if row.numbers:
            return row.numbers[0]
        number = self.number + (0 if row.setup else 1)
        return number, number

    def _range(self, index: int, row: Row, first: int, last: int) -> None:
        """Work a written row for each of its numbers."""
        before = self.count
        if row.broken:
            self._broken(row)
            self.number = last
            self.history.append(Ref(index, last))
            return
        total = last - first + 1
        each_differs = bool(row.variable) or (row.as_row is not None and total > 1)
        if each_differs or total == 1:
            self._one_by_one(index, row, first, last)
        else:
            self._again([Ref(index, first)], total, index, first_number=first, stated=True)
        self._line_done(index, row.label, self.count - before)
        self._after(last)

    def _one_by_one(self, index: int, row: Row, first: int, last: int) -> None:
        for done, number in enumerate(range(first, last + 1)):
            if done >= MOST_DIFFERENT:
                self._say(
                    Fact(
                        "not-in-this-edition",
                        row.span,
                        "",
                        "",
                        (("what", "many rows"), ("most", MOST_DIFFERENT)),
                    )
                )
                break
            ref = self._resolve(row, index, first, last, number)
            if ref is None:
                return
            self._once(ref, number, index, row if row.as_row else None, stated=True)

    def _resolve(self, row: Row, index: int, first: int, last: int, number: int) -> Ref | None:
        if row.as_row is None:
            return Ref(index, number)
        low, high = row.as_row
        source = low + (number - first) if high > low else low
        found = self._row_numbered(source, index)
        if found is None or (high > low and high - low != last - first):
            values: tuple[tuple[str, object], ...] = (("number", source), ("as", True))
            if found is not None:
                values = (("lengths", True), ("like", high - low + 1), ("wanted", last - first + 1))
            self._say(Fact("unknown-row", row.span, "", row.label, values))
        return found

    def _row_numbered(self, number: int, before: int) -> Ref | None:
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
                    source = line.as_row[0]
                    if line.as_row[1] > source:
                        source += number - low
                    return self._row_numbered(source, index)
        return None

    def _after(self, last: int) -> None:
        """Work rows of earlier lists (`rows 5, 9 and 13`) whose number has come up."""
        index = self.waiting.pop(last + 1, None)
        if index is not None:
            row = self.part.lines[index]
            assert isinstance(row, Row)
            before = self.count
            ref = self._resolve(row, index, last + 1, last + 1, last + 1)
            if ref is not None:
                self._once(ref, last + 1, index, row if row.as_row else None, stated=True)
            self._line_done(index, row.label, self.count - before)
            self._after(last + 1)

    def _line_done(self, index: int, label: str, worked: int) -> None:
        outcome = self.last_outcome
        counts = outcome.row.counts if outcome is not None else ()
        stated = outcome.stated if outcome is not None else None
        for at, old in enumerate(self.lines):
            if old.line == index:
                worked += old.worked
                self.lines[at] = LineResult(index, label, counts, stated, worked, self.count)
                return
        self.lines.append(LineResult(index, label, counts, stated, worked, self.count))

    # ------------------------------------------------------------- repeats

    def _repeat_line(self, index: int, line: RepeatRows) -> None:
        before = self.count
        refs = self._refs(index, line)
        if refs and not self.unknown:
            times = self._times(line, len(refs))
            if line.how == "sts":
                self._until_sts(index, line, refs)
            elif times:
                self._again(refs, times, index)
        self._check_stated(line)
        self._line_done(index, line.label, self.count - before)

    def _refs(self, index: int, line: RepeatRows) -> list[Ref]:
        if line.count:
            if line.count > len(self.history):
                values: tuple[tuple[str, object], ...] = (
                    ("count", line.count),
                    ("have", len(self.history)),
                )
                self._say(Fact("unknown-row", line.span, "", line.label, values))
                return []
            return list(self.history)[-line.count :]
        if line.last - line.first > MOST_DIFFERENT:
            return []
        out = []
        for number in range(line.first, line.last + 1):
            ref = self._row_numbered(number, index)
            if ref is not None:
                out.append(ref)
            elif not self._numbered_in_other_sizes(number, index):
                self._say(Fact("unknown-row", line.span, "", line.label, (("number", number),)))
                return []
        return out

    def _numbered_in_other_sizes(self, number: int, before: int) -> bool:
        return any(
            isinstance(line, Row) and any(low <= number <= high for low, high in line.numbers)
            for line in self.part.lines[:before]
        )

    def _times(self, line: RepeatRows, group: int) -> int:
        if line.how == "sts":
            return 0
        try:
            if line.how == "more":
                assert line.n is not None
                return whole(line.n, self.size, self.names)
            if line.how == "rows":
                assert line.n is not None
                return self._until_rows(line, whole(line.n, self.size, self.names), group)
        except CannotReckon as error:
            self._say(Fact(error.code, line.span, "", line.label, (("value", error.value),)))
            return 0
        if self.gauge is None or self.gauge.rows is None:
            return 0
        total = line.lengths[self.size] * self.gauge.rows / self.gauge.over
        more = (Fraction(total) - self.count) / group
        nearest = (2 * more.numerator + more.denominator) // (2 * more.denominator)
        return max(int(nearest), 0)

    def _until_rows(self, line: RepeatRows, total: int, group: int) -> int:
        more = total - self.count
        if more < 0 or more % group:
            values = (("until", total), ("have", self.count), ("group", group))
            self._say(Fact("repeat-does-not-fit", line.span, "", line.label, values))
        return max(more // group, 0)

    def _until_sts(self, index: int, line: RepeatRows, refs: list[Ref]) -> None:
        assert line.n is not None
        try:
            target = whole(line.n, self.size, self.names)
        except CannotReckon as error:
            self._say(Fact(error.code, line.span, "", line.label, (("value", error.value),)))
            return
        have = self.edge.before(self.edge.length, takes_stitch)
        seen = set()
        for _ in range(MOST_DIFFERENT):
            if have == target:
                return
            key = (self.edge, self._phase())
            if key in seen:
                break
            seen.add(key)
            last = have
            for ref in refs:
                self._once(ref, self.number + 1, index, None, stated=False)
            have = self.edge.before(self.edge.length, takes_stitch)
            if (last < target) != (have < target) and have != target:
                break
        values = (("until_sts", target), ("have", have))
        self._say(Fact("repeat-does-not-fit", line.span, "", line.label, values))

    def _again(
        self,
        refs: list[Ref],
        times: int,
        index: int,
        *,
        first_number: int | None = None,
        stated: bool = False,
    ) -> None:
        """Work a group of rows so many times; what comes round again is carried on in one go."""
        group = len(refs)
        seen: dict[tuple[object, ...], tuple[int, int]] = {}
        done = 0
        while done < times:
            key = (self.edge, self._phase(), self.turn, self.previous, self.unknown)
            before = seen.get(key)
            if before is not None:
                cycle = done - before[0]
                more = (times - done) // cycle
                if more:
                    self._carry(before[1], more, cycle * group)
                    done += more * cycle
                    seen.clear()
                    continue
            elif done >= MOST_DIFFERENT:
                span = self.part.lines[index].span
                self._say(
                    Fact(
                        "not-in-this-edition",
                        span,
                        "",
                        "",
                        (("what", "many rows"), ("most", MOST_DIFFERENT)),
                    )
                )
                return
            seen[key] = (done, len(self.rows))
            self.slipped = False
            for ref in refs:
                number = self.number + 1
                if first_number is not None:
                    number, first_number = first_number, None
                self._once(ref, number, index, None, stated=stated)
            done += 1
            if self.slipped and done < times:
                # What did not come out once says nothing new by being repeated.
                self.count += (times - done) * group
                self.number += (times - done) * group
                return

    def _carry(self, first: int, times: int, rows: int) -> None:
        """The rows from index ``first`` on come ``times`` times more."""
        cycle = self.rows[first:]
        flat = tuple(row for stretch, n in cycle for _ in range(n) for row in stretch)
        self.rows.append((flat, times))
        ends: Builder[Place] = Builder()
        for row in flat:
            if not row.is_round:
                ends.add(_row_end(row))
        self.ends.repeat(ends.done(), times)
        self.count += rows * times
        self.number += rows * times
        if self.probing > 0:
            self.probing -= 1

    def _phase(self) -> int:
        if not self.bands:
            return 0
        return self.count % sum(n for n, _ in self.bands)

    # ------------------------------------------------------------- one row

    def _once(self, ref: Ref, number: int, index: int, named: Row | None, *, stated: bool) -> None:
        """Work one row once, carry on from what it made or what it says."""
        row = self.part.lines[ref.line]
        assert isinstance(row, Row)
        if row.broken:
            self._broken(row)
            self.history.append(ref)
            self.number = number
            return
        if named is not None:
            row = replace(row, stated=named.stated, side=named.side or row.side)
        elif not stated:
            row = replace(row, stated=None)
        if self.unknown:
            self._pass_over(row, number, ref)
            return
        meeting = self._meet(row, ref, number)
        outcome = work_row(row, meeting, self.owns, self.part.manner)
        self._took(row, outcome, ref, number)
        if outcome.facts:
            self._slip(row, outcome, index, number)

    def _meet(self, row: Row, ref: Ref, number: int) -> Meeting:
        is_round = row.is_round and self.part.manner != "flat"
        turned = self._turns(row, is_round)
        edge = self.edge
        marks = self.marks
        n = edge.length
        if turned and is_round and self.was_joined and n:
            back: Builder[Place] = Builder()
            back.extend(edge.slice(0, 1))
            back.extend(edge.slice(1, n).reversed())
            edge = back.done()
            marks = {name: (n - at) % n for name, at in marks.items()}
        elif turned:
            edge = edge.reversed()
            marks = {name: n - 1 - at for name, at in marks.items()}
        if self.previous == "start":
            wrong = row.side == "WS"
        else:
            wrong = self.wrong_side != turned
            if row.side:
                wrong = row.side == "WS"
        names: Mapping[str, Fraction | int] = self.names
        if row.variable:
            names = {**self.names, row.variable: ref.number}
        word = "round" if row.is_round else "row"
        label = f"{word} {number}" if number else f"setup {word}"
        return Meeting(
            edge,
            self.ring,
            turned,
            wrong,
            self._yarn(),
            self.size,
            names,
            marks,
            label,
            number,
            ref.line,
            self.in_join,
            self.left,
            self._deeper,
            self._passed_in,
        )

    def _turns(self, row: Row, is_round: bool) -> bool:
        if self.previous == "start":
            return False
        crab = _has_crab(row)
        if is_round:
            turned = self.turn is True or (self.part.manner == "turned" and self.turn is not False)
            return turned != crab
        if self.turn is False:
            return crab
        if self.previous == "round":
            return self.turn is True
        return True

    def _yarn(self) -> str:
        if self.bands:
            at = self.count % sum(n for n, _ in self.bands)
            for n, yarn in self.bands:
                if at < n:
                    return yarn
                at -= n
        return "+".join(self.part.yarns)

    def _took(self, row: Row, outcome: Outcome, ref: Ref, number: int) -> None:
        worked = outcome.row
        hand = outcome.hand
        if self.previous == "start":
            self.start_edge = self._started(outcome)
        self.rows.append(((worked,), 1))
        if not row.is_round:
            self.ends.add(_row_end(worked))
        self._leave(outcome)
        self.openings.extend(hand.openings)
        self.edge = self._next_edge(outcome)
        self.edges.append(self.edge)
        self.by_number[number] = worked
        self.ring = False
        self.count += 1
        self.number = number
        self.history.append(ref)
        self.marks = outcome.marks
        self.turn = outcome.turn
        self.was_joined = outcome.joined
        self.wrong_side = worked.wrong_side
        self._spiral(row, outcome)
        self.previous = "round" if row.is_round and self.part.manner != "flat" else "row"
        self.last_outcome = outcome
        if self.probing >= 0:
            self.probing -= 1
            if self.probing < 0:
                raise ProbeOver

    def _leave(self, outcome: Outcome) -> None:
        """What was left in words waits until it is named; what was taken up waits no more."""
        hand = outcome.hand
        if self.part.manner == "spiral" and not outcome.joined:
            return
        out: Builder[Place] = Builder()
        out.extend(self.left.slice(hand.taken_up, self.left.length))
        for start, end in hand.left:
            out.extend(hand.edge.slice(start, end))
        self.left = out.done()

    def _deeper(self, below: int, of_row: int) -> Runs[Place] | None:
        """The edge that an earlier row left, in the order in which this row meets its own."""
        if of_row:
            row = self.by_number.get(of_row)
            return row.edge if row is not None else None
        return self.edges[-below] if 0 < below <= len(self.edges) else None

    def _passed_in(self, number: int) -> Runs[Place] | None:
        """The stitches that an earlier row skipped."""
        row = self.by_number.get(number)
        return skipped_in(row) if row is not None else None

    def _next_edge(self, outcome: Outcome) -> Runs[Place]:
        """In a spiral what was left in words comes first: the round ends before its marker."""
        edge = outcome.row.edge
        hand = outcome.hand
        made = outcome.row.made.pairs
        self.in_join = bool(made) and getattr(made[-1][0], "what", "") == "join sp"
        if self.in_join:
            first: Builder[Place] = Builder()
            first.extend(edge.slice(edge.length - 1, edge.length))
            first.extend(edge.slice(0, edge.length - 1))
            return first.done()
        if hand.ran_on:
            return edge.slice(hand.here() - hand.ran_from, edge.length)
        if self.part.manner != "spiral" or not hand.left or outcome.joined:
            return edge
        out: Builder[Place] = Builder()
        for start, end in hand.left:
            out.extend(hand.edge.slice(start, end))
        out.extend(edge)
        return out.done()

    def _spiral(self, row: Row, outcome: Outcome) -> None:
        if self.part.manner != "spiral" or not row.is_round:
            return
        if self.spiral_joined is not None and not outcome.joined:
            span, label = self.spiral_joined
            self._say(Fact("joined-spiral", span, "", label, ()))
        self.spiral_joined = (row.span, outcome.row.label) if outcome.joined else None

    def _started(self, outcome: Outcome) -> Runs[Place]:
        """The start of the part as an edge: its chains that were worked, and those that count."""
        if not self.begun.chain:
            return self.begun.edge if self.begun.rows else Runs(())
        n = self.begun.edge.length - outcome.hand.hooked
        first = outcome.row.made.pairs[0][0] if outcome.row.made.pairs else None
        skipped = getattr(first, "what", "") == "skip as"
        if skipped:
            n -= int(getattr(first, "chains", 1)) - 1
        return run(CHAIN, max(n, 0))

    # ------------------------------------------------------------- slips

    def _slip(self, row: Row, outcome: Outcome, index: int, number: int) -> None:
        self.slipped = True
        for fact in outcome.facts:
            self._say(fact)
        stated = dict(outcome.stated or ()).get(Kind("st"))
        if stated is None:
            stated = _stated_of_one_kind(outcome)
        made = outcome.row.edge
        have = made.before(made.length, takes_stitch)
        if stated is None or stated == have or row.stated is None or row.stated.counting:
            return
        other = stated_edge(made, stated)
        if self._probe(other, index, number) >= self._probe(made, index, number):
            self.edge = other

    def _probe(self, edge: Runs[Place], index: int, number: int) -> int:
        """How many of the following rows work on an edge before the first that does not."""
        if self.probing >= 0:
            return 0
        ahead = copy(self)
        ahead.edge = edge
        ahead.rows, ahead.lines, ahead.facts = [], [], []
        ahead.history = self.history.copy()
        ahead.waiting = dict(self.waiting)
        ahead.said = set()
        ahead.ends = Builder()
        ahead.edges = self.edges.copy()
        ahead.by_number = dict(self.by_number)
        ahead.openings = []
        ahead.probing = PROBE
        try:
            line = self.part.lines[index]
            if isinstance(line, Row) and line.numbers and number < line.numbers[0][1]:
                ahead._range(index, line, number + 1, line.numbers[0][1])
            ahead._lines(index + 1)
        except ProbeOver:
            pass
        if ahead.probing >= 0 and not ahead.facts:
            return PROBE + 1
        return PROBE - ahead.probing

    def _say(self, fact: Fact) -> None:
        if self.only_whether:
            raise FirstFault
        if self.probing >= 0:
            self.facts.append(fact)
            raise ProbeOver
        key = (fact.kind, fact.span)
        if key not in self.said:
            self.said.add(key)
            self.facts.append(fact._replace(part=self.part.name))

    def _check_stated(self, line: RepeatRows) -> None:
        """A stated count on a repeat line holds for the last row that it worked."""
        outcome = self.last_outcome
        if line.stated is None or outcome is None or self.unknown:
            return
        from loopwright.work.row import _stated

        stated, differs = _stated(line.stated, outcome.row.counts, outcome.hand)
        self.last_outcome = outcome._replace(stated=stated)
        if differs:
            self._say(
                Fact(
                    "count-differs",
                    line.stated.span,
                    "",
                    outcome.row.label,
                    (("differs", differs),),
                )
            )

    def _broken(self, row: Row) -> None:
        """A row that was not understood: what it says it comes to, or nothing known."""
        self.count += 1
        self.previous = "round" if row.is_round and self.part.manner != "flat" else "row"
        self.marks = {}
        self.ring = False
        if self.start_edge is None:
            self.start_edge = self.begun.edge if self.begun.chain else Runs(())
        self._from_stated(row)

    def _from_stated(self, row: Row) -> None:
        self.unknown = True
        if row.stated is None or row.stated.counting or len(row.stated.counts) != 1:
            return
        one = row.stated.counts[0]
        if one.kind.what not in ("st", "stitch"):
            return
        try:
            n = whole(one.n, self.size, {**self.names, row.variable: self.number})
        except CannotReckon:
            return
        self.edge = run(Place("st", None), n)
        self.unknown = False

    def _pass_over(self, row: Row, number: int, ref: Ref) -> None:
        """A row on an edge that is not known: it can only be passed over."""
        self.count += 1
        self.number = number
        self.history.append(ref)
        self.last_outcome = None
        self.previous = "round" if row.is_round and self.part.manner != "flat" else "row"
        self._from_stated(row)


def _stated_of_one_kind(outcome: Outcome) -> int | None:
    """The stitches stated, where every stitch of the row is of the one kind that is stated."""
    stated = [(kind, n) for kind, n in outcome.stated or () if kind.what == "stitch"]
    made = [kind for kind, _ in outcome.row.counts if kind.what == "stitch"]
    if len(stated) == 1 and made == [stated[0][0]]:
        return stated[0][1]
    return None


def skipped_in(row: WorkedRow) -> Runs[Place] | None:
    """The stitches of the edge that a row met and worked nothing into."""
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
    return runs_of(
        place
        for position, place in enumerate(row.below.expand())
        if position not in used and takes_stitch(place)
    )


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


def _row_end(row: WorkedRow) -> Place:
    """The end of a row, as high as the stitch most of it is made of."""
    best, most = PLAIN, 0
    for one, n in row.made.tally().items():
        if one.stitch is not None and n > most:
            best, most = one.stitch, n
    return Place("end", best)


def _has_crab(row: Row) -> bool:
    return any(isinstance(item, Work) and item.stitch.crab for item in row.items)
