"""Rising: how high a part has come, in rows of its gauge, and how many rows make a length."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from loopwright.ir.fabric import WorkedRow
from loopwright.ir.heights import SLIP, row_stitch
from loopwright.ir.pattern import Gauge, RepeatRows
from loopwright.trade.row_heights import ROW_HEIGHT

if TYPE_CHECKING:
    from loopwright.work.part import PartWorker
    from loopwright.work.row import Ref


def in_gauge_rows(stitch: str, gauge: Gauge | None) -> Fraction | int:
    """How many rows of the gauge one row of a stitch is as high as; 1 where that is not known."""
    if gauge is None or stitch == gauge.stitch.basic or gauge.stitch.basic == SLIP:
        return 1
    if stitch == SLIP:
        return 0
    return ROW_HEIGHT[stitch] / ROW_HEIGHT[gauge.stitch.basic]


def rise(worker: PartWorker, row: WorkedRow, times: int = 1) -> None:
    """Add a row to what the part has risen by."""
    high = in_gauge_rows(row_stitch(row, worker.owns), worker.gauge)
    worker.risen += high * times
    worker.heights[row.line] = high


def until_length(worker: PartWorker, line: RepeatRows, refs: list[Ref]) -> int:
    """How many repeats of some rows bring the part nearest to a length; halves go up."""
    gauge = worker.gauge
    if gauge is None or gauge.rows is None:
        return 1  # how many cannot be told; once shows whether the rows come out
    wanted = line.lengths[worker.size] * gauge.rows / gauge.over
    each = sum((worker.heights.get(ref.line, 1) for ref in refs), Fraction(0))
    if not each:
        return 0
    more = (wanted - worker.risen) / each
    return max((2 * more.numerator + more.denominator) // (2 * more.denominator), 0)
