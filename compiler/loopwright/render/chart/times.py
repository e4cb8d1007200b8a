"""How often a repeat is worked in every size, in the trade's form: ``12 (14, 16)``.

A chart is drawn in one size. Where the sizes differ only in how often something is repeated, the
same chart does for all of them, and its brackets say the number for each.
"""

from __future__ import annotations

from collections.abc import Iterator

from loopwright.frozen import frozen
from loopwright.ir.checked import Checked
from loopwright.ir.fabric import WorkedPart, WorkedRow

BESIDE = 2


@frozen
class Times:
    """A part in all sizes of its pattern, and the size that is drawn."""

    parts: tuple[WorkedPart, ...]
    size: int

    def of_bracket(self, row: WorkedRow, times: int) -> str:
        """How often the repeat of a row that is worked ``times`` times is worked in every size:
        the same bracket of the same line, which may be worked a time more or two, beside the
        edges. Where no bracket of the row was worked so often, the number of this size alone."""
        near = [(abs(count - times), count, span) for span, count in row.repeats]
        if not near or min(near)[0] > BESIDE:
            return f"{times:,}"
        _, own, written = min(near)
        others = [_row_of_line(part, row.line) for part in self.parts]
        found = [dict(other.repeats).get(written, 0) for other in others if other is not None]
        return self._said(found, own)

    def of_rows(self, rows: tuple[WorkedRow, ...], times: int) -> str:
        """How often rows that are worked ``times`` times one after another are in every size."""
        lines = tuple(row.line for row in rows)
        found = []
        for part in self.parts:
            counts = [
                count for these, count in part.rows if tuple(row.line for row in these) == lines
            ]
            if counts:
                found.append(max(counts))
        own = found[self.size] if len(found) == len(self.parts) else times
        return self._said([count + times - own for count in found], times)

    def _said(self, found: list[int], times: int) -> str:
        if len(found) != len(self.parts) or found[self.size] != times or len(set(found)) == 1:
            return f"{times:,}"
        first, *rest = (f"{count:,}" for count in found)
        return f"{first} ({', '.join(rest)})"


def _row_of_line(part: WorkedPart, line: int) -> WorkedRow | None:
    """The first row of a part that was worked from a line."""
    return next((row for rows, _ in part.rows for row in rows if row.line == line), None)


def times_of(checked: Checked, name: str, size: int) -> Times:
    """The part of that name in every size."""
    return Times(tuple(_parts(checked, name)), size)


def _parts(checked: Checked, name: str) -> Iterator[WorkedPart]:
    for fabric in checked.fabrics:
        yield from (part for part in fabric.parts if part.name == name)
