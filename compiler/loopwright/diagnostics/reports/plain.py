"""The report as a person reads it: every message, then a line on what was checked."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from loopwright.diagnostics.verdict import Verdict


def report(verdicts: Iterable[Verdict], colour: bool) -> Iterator[str]:
    """Messages in order, and the summary."""
    totals = Totals()
    for verdict in verdicts:
        totals.add(verdict)
        if verdict.messages:
            # Most patterns come out, and then nothing needs this.
            from loopwright.diagnostics.text import written

            told = (written(verdict.name, one, colour=colour) for one in verdict.messages)
            yield "".join(f"{one}\n\n" for one in told)
    yield f"{totals.summary()}\n"


class Totals:
    """What verdicts come to together."""

    def __init__(self, *verdicts: Verdict) -> None:
        self.files = self.sizes = self.rows = self.stitches = 0
        self.errors = self.advice = self.known = 0
        for one in verdicts:
            self.add(one)

    def add(self, verdict: Verdict) -> None:
        """Count one more."""
        self.files += 1
        self.sizes += verdict.sizes
        self.rows += verdict.rows
        self.stitches += verdict.stitches
        self.errors += verdict.errors
        self.advice += verdict.advice
        self.known += verdict.known

    def summary(self) -> str:
        """What was checked, and how it stands, in a line."""
        if not self.files:
            return "There is no pattern to check."
        patterns = f"{_n(self.files, 'pattern')}, " if self.files > 1 else ""
        checked = f"{patterns}{_n(self.sizes, 'size')}, {worked(self)}"
        also = f" ({self.advice} of advice)" if self.advice else ""
        if not self.errors and self.known:
            return f"{checked}: no new error.{also}"
        if not self.errors:
            return f"{checked}: every count comes out.{also}"
        return f"{checked}: {_n(self.errors, 'error')}.{also}"


def worked(one: Verdict | Totals) -> str:
    """How much was worked."""
    return f"{_n(one.rows, 'row')}, {_n(one.stitches, 'stitch', 'stitches')}"


def _n(n: int, one: str, many: str = "") -> str:
    return f"{n:,} {one if n == 1 else many or one + 's'}"
