"""Columns of squares that come again across every row: drawn once or twice, and bracketed."""

from __future__ import annotations

from collections.abc import Sequence

from loopwright.frozen import Frozen, replace
from loopwright.render.chart.grid.values import Again, Line

LEAST_TIMES = 4
"""Columns that come again fewer times are all drawn."""

LONGEST_EDGE = 12
"""Columns that may stand beside the repeats."""

DRAWN_WIDTH = 40
"""Two repeats are drawn where they are no wider than this."""


class Shortened(Frozen):
    """Lines with their repeats drawn once or twice, and how wide they are."""

    lines: tuple[Line, ...]
    columns: int
    again: Again


def again(lines: Sequence[Line]) -> Shortened | None:
    """The same lines with the columns that come again drawn once or twice, or None."""
    width = len(lines[0].squares)
    if any(line.right or len(line.squares) != width for line in lines):
        return None
    columns = list(zip(*([one.kind for one in line.leftwards] for line in lines), strict=True))
    for edge in range(min(LONGEST_EDGE, width) + 1):
        for lead in range(edge + 1):
            body = columns[lead : width - (edge - lead)]
            unit = period(body)
            if unit > 1 and len(body) // unit >= LEAST_TIMES:
                return _shortened(lines, lead, unit, len(body) // unit)
    return None


def period(columns: Sequence[object]) -> int:
    """The least length that the whole is made of, over and over; 0 where it is made of none
    shorter than itself."""
    fail = [0] * len(columns)
    for i in range(1, len(columns)):
        at = fail[i - 1]
        while at and columns[i] != columns[at]:
            at = fail[at - 1]
        fail[i] = at + 1 if columns[i] == columns[at] else 0
    if not columns:
        return 0
    unit = len(columns) - fail[-1]
    return unit if unit < len(columns) and len(columns) % unit == 0 else 0


def _shortened(lines: Sequence[Line], lead: int, unit: int, times: int) -> Shortened:
    width = len(lines[0].squares)
    shown = 2 if width - (times - 2) * unit <= DRAWN_WIDTH else 1
    first, last = lead + shown * unit, lead + times * unit
    out = []
    for line in lines:
        left = line.leftwards
        kept = (*left[:first], *left[last:])
        out.append(replace(line, squares=kept[::-1] if line.wrong_side else kept))
    return Shortened(tuple(out), width - (last - first), Again(lead, unit, shown, (times,)))
