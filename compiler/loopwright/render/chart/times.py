"""How often a repeat is worked in every size, in the trade's form: ``12 (14, 16)``.

A chart is drawn in one size. Where the sizes differ only in how often something is repeated, the
same chart does for all of them, and its brackets say the number for each.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from loopwright.frozen import Frozen
from loopwright.ir.checked import Checked
from loopwright.ir.fabric import WorkedPart, WorkedRow
from loopwright.render.chart.stretches import Stretch, stretches
from loopwright.render.chart.written import sided_lines

BESIDE = 2


class Times(Frozen):
    """A part in all sizes of its pattern, the stretches of its rows, and the size drawn."""

    parts: tuple[WorkedPart, ...]
    stretched: tuple[tuple[Stretch, ...], ...]
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

    def of_wedge(self, rows: Sequence[WorkedRow], times: int) -> str:
        """How often the repeat that rounds have in common, which comes ``times`` times in each, is
        worked in every size: from a bracket of one of them that is worked as often, or so many
        times as often; but for the beginning of the round, which may be written by itself."""
        for row in reversed(rows):
            others = [_row_of_line(part, row.line) for part in self.parts]
            for span, count in row.repeats:
                more, odd = divmod(count, times)
                by_itself = count - times if -BESIDE <= count - times < 0 else 0
                if (odd or not more) and not by_itself:
                    continue
                more = max(more, 1)
                found = [dict(other.repeats).get(span, 0) for other in others if other is not None]
                if all((one - by_itself) % more == 0 for one in found):
                    return self._said([(one - by_itself) // more for one in found], times)
        return f"{times:,}"

    def of_rows(self, rows: tuple[WorkedRow, ...], number: int, times: int) -> str:
        """How often rows from a number on, that are worked ``times`` times one after another, are
        worked in every size: those of the same lines, where these are met as many times."""
        lines = tuple(row.line for row in rows)
        alike = [
            [one for one in these if tuple(row.line for row in one.rows) == lines]
            for these in self.stretched
        ]
        own = [i for i, one in enumerate(alike[self.size]) if one.number == number]
        if not own or len({len(these) for these in alike}) > 1:
            return f"{times:,}"
        return self._said([these[own[0]].times for these in alike], times)

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
    parts = tuple(_parts(checked, name))
    sided = sided_lines(next(part for part in checked.pattern.parts if part.name == name))
    return Times(parts, tuple(stretches(part, sided, fold=True) for part in parts), size)


def _parts(checked: Checked, name: str) -> Iterator[WorkedPart]:
    for fabric in checked.fabrics:
        yield from (part for part in fabric.parts if part.name == name)
