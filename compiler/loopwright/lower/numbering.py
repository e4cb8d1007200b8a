"""Row numbers: whether they run on, in every size.

A part may begin at any number. A number that a size does not have, because the row is for other
sizes only, is no jump in it. After `until` the number is not known from the text.
"""

from __future__ import annotations

from loopwright.diagnostics import ADVICE
from loopwright.frozen import replace
from loopwright.ir.numbers import CannotReckon, whole
from loopwright.ir.pattern import Part, Pattern, RepeatRows, Row
from loopwright.lower import faults, sums
from loopwright.lower.context import Context
from loopwright.source import Span

UNKNOWN = -1
FARTHEST = 1000
"""Numbers missing in one size are looked up one by one, up to so many."""


def check(ctx: Context, pattern: Pattern) -> None:
    """Report every line whose number does not run on from the lines before it."""
    for part in pattern.parts:
        _Numbers(ctx, pattern, part).check()
        _lengths(ctx, pattern, part)


def _lengths(ctx: Context, pattern: Pattern, part: Part) -> None:
    """A length becomes rows only through a gauge that gives rows."""
    gauge = next((one for one in pattern.gauges if one.name == part.gauge), None)
    if gauge is not None and gauge.rows is not None:
        return
    for line in part.lines:
        if isinstance(line, RepeatRows) and line.how == "length":
            missing = faults.missing_line(
                line.span,
                "How many rows that is cannot be told without a gauge that gives rows.",
                f"Write `gauge NAME: 14 sts and 8 rows to 10 cm in ...`, and `gauge NAME` on the"
                f" line of the part `{part.name}`.",
            )
            ctx.say(replace(missing, severity=ADVICE))
            return


def _label_of(row: Row) -> Span:
    """Where the row's number stands."""
    return Span(row.span.start, min(row.span.start + len(row.label), row.span.end))


class _Numbers:
    def __init__(self, ctx: Context, pattern: Pattern, part: Part) -> None:
        self.ctx = ctx
        self.pattern = pattern
        self.part = part
        self.next: list[int | None] = [None] * len(pattern.sizes)
        self.ranges: list[tuple[int, int]] = []
        self.waiting: set[int] = set()

    def check(self) -> None:
        for line in self.part.lines:
            if isinstance(line, Row):
                self._row(line)
            elif isinstance(line, RepeatRows):
                self._repeat(line)

    def _row(self, row: Row) -> None:
        sizes = row.sizes if row.sizes is not None else range(len(self.pattern.sizes))
        if not row.numbers:
            for size in sizes:
                at = self.next[size]
                if at is None:
                    self.next[size] = 1 if row.setup else 2
                elif at != UNKNOWN:
                    self.next[size] = self._past_waiting(at + 1) if not row.setup else at
            return
        first, last = row.numbers[0]
        wrong: dict[int | None, list[int]] = {}
        for size in sizes:
            at = self.next[size]
            if at is not None and not self._runs_on(at, first):
                wrong.setdefault(None if at == UNKNOWN else at, []).append(size)
            self.next[size] = self._past_waiting(last + 1)
        self.ranges.append((first, last))
        self._list(row, sizes)
        word = "round" if row.is_round else "row"
        for expected, bad in wrong.items():
            names = tuple(self.pattern.sizes[size] for size in bad)
            some = names if len(bad) < len(self.pattern.sizes) else ()
            self.ctx.say(sums.row_numbers_jump(_label_of(row), first, expected, word, some))

    def _list(self, row: Row, sizes: range | tuple[int, ...]) -> None:
        """``rows 5, 9 and 13``: the later ones are worked when their number comes up."""
        for first, last in row.numbers[1:]:
            self.waiting.update(range(first, last + 1))
            self.ranges.append((first, last))
        if len(row.numbers) > 1:
            for size in sizes:
                at = self.next[size]
                if at is not None and at != UNKNOWN:
                    self.next[size] = self._past_waiting(at)

    def _past_waiting(self, at: int) -> int:
        while at in self.waiting:
            at += 1
        return at

    def _runs_on(self, expected: int, found: int) -> bool:
        if expected == UNKNOWN:
            return False
        if found <= expected:
            return found == expected
        if found - expected > FARTHEST:
            return False
        return all(
            any(first <= number <= last for first, last in self.ranges)
            for number in range(expected, found)
        )

    def _repeat(self, line: RepeatRows) -> None:
        group = line.count or line.last - line.first + 1
        for size in range(len(self.pattern.sizes)):
            at = self.next[size]
            if at is None or at == UNKNOWN:
                continue
            if line.how != "more" or line.n is None:
                self.next[size] = UNKNOWN
                continue
            names = {count.name: count.values[size] for count in self.pattern.counts}
            try:
                self.next[size] = self._past_waiting(at + group * whole(line.n, size, names))
            except CannotReckon:
                self.next[size] = UNKNOWN
