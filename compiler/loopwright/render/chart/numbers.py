"""Which numbers the rows of a part have."""

from __future__ import annotations

from loopwright.ir.checked import Checked
from loopwright.render.chart.stretches import stretches
from loopwright.render.chart.written import sided_lines


def row_numbers(checked: Checked, part: str, size: int) -> tuple[int, int]:
    """The numbers of a part's first and last row in a size; a setup row is number 0."""
    of = next(one for one in checked.pattern.parts if one.name == part)
    worked = next(one for one in checked.fabrics[size].parts if one.name == part)
    found = stretches(worked, sided_lines(of))
    return (found[0].number, found[-1].last) if found else (0, 0)
