"""Which rows each written line made, in the order in which they were worked.

rows 2 and 4: ...     LineRows(at=1, line=1, first=2, total=1), and when its turn has come
row 3: ...            LineRows(at=2, line=2, first=3, total=1)
                      LineRows(at=2, line=1, first=4, total=1)
"""

from __future__ import annotations

from collections.abc import Iterator

from loopwright.frozen import Frozen
from loopwright.ir.fabric import WorkedPart, WorkedRow
from loopwright.ir.pattern import Part, RepeatRows, Row

Stretches = tuple[tuple[tuple[WorkedRow, ...], int], ...]


class LineRows(Frozen):
    """Rows that were worked one after another from the line of index ``line``, where the line of
    index ``at`` stands; ``total`` is how many (``rows`` holds them in stretches), ``first`` the
    number of the first (0 for one that has none)."""

    at: int
    line: int
    first: int
    total: int
    rows: Stretches


def line_rows(part: Part, worked: WorkedPart, size: int) -> tuple[LineRows, ...]:
    """The rows of a part in a size (an index), line by line. Only of a part that was worked to its
    end; rows that were passed over are not in its fabric."""
    return tuple(_Rows(part, worked, size).lines())


class _Rows:
    """The fabric's stretches, used up line by line. ``waiting`` are the lines of lists whose
    numbers are still to come."""

    def __init__(self, part: Part, worked: WorkedPart, size: int) -> None:
        self.part = part
        self.worked = worked
        self.size = size
        self.used = 0
        self.number = 0
        self.waiting: dict[int, int] = {}

    def lines(self) -> Iterator[LineRows]:
        repeats = {one.line: one.worked for one in self.worked.lines}
        for index, line in enumerate(self.part.lines):
            if isinstance(line, RepeatRows) and repeats.get(index):
                yield self._take(index, index, repeats[index])
            elif isinstance(line, Row) and (line.sizes is None or self.size in line.sizes):
                yield from self._row(index, line)

    def _row(self, index: int, row: Row) -> Iterator[LineRows]:
        first, last = row.numbers[0] if row.numbers else (0, 0)
        for low, high in row.numbers[1:]:
            self.waiting.update((number, index) for number in range(low, high + 1))
        yield self._take(index, index, last - first + 1)
        while (line := self.waiting.pop(self.number + 1, None)) is not None:
            yield self._take(index, line, 1)

    def _take(self, at: int, line: int, total: int) -> LineRows:
        begin, done = self.used, 0
        while done < total and self.used < len(self.worked.rows):
            rows, times = self.worked.rows[self.used]
            done += len(rows) * times
            self.used += 1
        taken = self.worked.rows[begin : self.used]
        first = taken[0][0][0].number if taken else 0
        self.number = first + done - 1 if first else self.number
        return LineRows(at, line, first, done, taken)
