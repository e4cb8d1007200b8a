"""Row heights: how high each row stands, from the gauge's rows and the stitch the row is of.

    gauge 8 rounds to 10 cm in long stitches    a round of long stitches   12.5 mm
                                                a round of plain ones       6.25 mm

A row is as high as the stitch most of it is made of, as a row end is. Post stitches and loops
are taken to be as high as the stitch they are made of (common practice without a source).
"""

from __future__ import annotations

from fractions import Fraction

from loopwright.ir.heights import SLIP
from loopwright.ir.pattern import Gauge
from loopwright.trade.row_heights import ROW_HEIGHT

GAUGE_ROWS = "gauge rows"
RELATIVE = "relative heights"
NOT_KNOWN = "not known"

NOUGHT = Fraction(0)


def height_of(stitch: str, gauge: Gauge) -> Fraction | None:
    """How high a row of a stitch stands, in mm; None where gauge and tables do not tell. A row of
    slip stitches adds nothing to rows of others."""
    if not gauge.rows:
        return None
    row = gauge.over / gauge.rows
    if stitch == gauge.stitch.basic:
        return row
    if stitch == SLIP:
        return NOUGHT
    if gauge.stitch.basic == SLIP:
        return None
    return row * ROW_HEIGHT[stitch] / ROW_HEIGHT[gauge.stitch.basic]
