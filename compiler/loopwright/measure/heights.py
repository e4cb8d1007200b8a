"""Row heights: how high each row stands, from the gauge's rows and the stitch the row is of.

    gauge 8 rounds to 10 cm in long stitches    a round of long stitches   12.5 mm
                                                a round of plain ones       6.25 mm

A row is as high as the stitch most of it is made of, as a row end is. Post stitches and loops
are taken to be as high as the stitch they are made of (common practice without a source).
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from loopwright.ir.fabric import WorkedRow
from loopwright.ir.pattern import Gauge, OwnStitch
from loopwright.trade.row_heights import ROW_HEIGHT

GAUGE_ROWS = "gauge rows"
RELATIVE = "relative heights"
NOT_KNOWN = "not known"

SLIP = "slip"
NOUGHT = Fraction(0)

Owns = Mapping[str, OwnStitch]


def row_stitch(row: WorkedRow, owns: Owns) -> str:
    """The stitch, by its neutral name, that most of a row is made of; of two as many, the taller.
    A row without any is of slip stitches."""
    many: dict[str, int] = {}
    for made, n in row.made.tally().items():
        if made.stitch is None or made.what not in ("st", "as", "skip as"):
            continue
        own = owns.get(made.own)
        basic = own.height.basic if own is not None else made.stitch.basic
        many[basic] = many.get(basic, 0) + n
    others = [name for name in many if name != SLIP]
    return max(others, key=lambda name: (many[name], ROW_HEIGHT[name]), default=SLIP)


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
