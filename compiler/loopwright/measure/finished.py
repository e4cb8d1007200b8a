"""Finished sizes: how wide, how far around and how high each part comes out at its gauge.

    64 sts at 16 sts to 10 cm    40 cm around
    9 rounds at 18 to 10 cm      5 cm high

Lengths are exact, in mm. Only a part with a gauge has a size, and only a gauge with rows makes a
height; ``how`` says whether the gauge's own rows make it, or rows of other stitches were reckoned
from them by their relative heights (``trade.row_heights``).

Rows are kept in stretches with how often each is worked, as the fabric keeps them: measuring costs
what is written, not what is worked.
"""

from __future__ import annotations

from fractions import Fraction

from loopwright.ir.checked import Checked
from loopwright.ir.fabric import Fabric, Made, WorkedPart, WorkedRow
from loopwright.ir.heights import SLIP, Owns, row_stitch
from loopwright.ir.pattern import Gauge, Part, Pattern
from loopwright.ir.runs import Runs
from loopwright.measure.edging import laid_on
from loopwright.measure.heights import GAUGE_ROWS, NOT_KNOWN, NOUGHT, RELATIVE, height_of
from loopwright.measure.values import Extent, PartSize, RowSize, Stretch


def finished(checked: Checked) -> tuple[PartSize, ...]:
    """The size of every part that has a gauge, part by part in every size."""
    return measured(checked.pattern, checked.fabrics)


def measured(pattern: Pattern, fabrics: tuple[Fabric, ...]) -> tuple[PartSize, ...]:
    """The same of a pattern that may have faults: what its rows came to all the same."""
    gauges = {gauge.name: gauge for gauge in pattern.gauges}
    owns = {own.name: own for own in pattern.stitches}
    found = [{part.name: part for part in fabric.parts} for fabric in fabrics]
    out = []
    for part in pattern.parts:
        gauge = gauges.get(part.gauge)
        for fabric, worked in zip(fabrics, found, strict=True):
            if gauge and part.name in worked:
                one = _part_size(part, worked[part.name], gauge, fabric.size, owns)
                if one:
                    out.append(one)
    return tuple(out)


def _part_size(
    part: Part, worked: WorkedPart, gauge: Gauge, size: int, owns: Owns
) -> PartSize | None:
    """One part in one size; None where it has no rows to measure."""
    ruler = _Ruler(gauge, owns)
    stretches = tuple(
        (tuple([ruler.row(row) for row in rows]), times) for rows, times in worked.rows if times
    )
    stretches = laid_on(part, worked, stretches)
    rows = [row for stretch, _ in stretches for row in stretch]
    if not rows:
        return None
    founded = _founded(part, gauge)
    high, how = _height(stretches, founded, gauge)
    return PartSize(
        part.name,
        size,
        gauge.name,
        gauge.unit,
        _extent([row for row in rows if not row.is_round]),
        _extent([row for row in rows if row.is_round]),
        high,
        how,
        any(row.openwork for row in rows),
        founded or NOUGHT,
        stretches,
    )


class _Ruler:
    """Measures the rows of a part; of rows as wide or as high as one before, it knows how far."""

    def __init__(self, gauge: Gauge, owns: Owns) -> None:
        self.gauge = gauge
        self.owns = owns
        self.each = gauge.over / gauge.stitches
        self.long: dict[int, Fraction] = {}
        self.high: dict[str, Fraction | None] = {}

    def row(self, row: WorkedRow) -> RowSize:
        stitch = row_stitch(row, self.owns)
        stitches = stitches_wide(row.made)
        loops = any(made.what == "ch" for made in row.made.tally())
        if stitches not in self.long:
            self.long[stitches] = stitches * self.each
        if stitch not in self.high:
            self.high[stitch] = height_of(stitch, self.gauge)
        long, high = self.long[stitches], self.high[stitch]
        return RowSize(row.label, row.is_round, stitch, stitches, long, high, loops)


def _extent(rows: list[RowSize]) -> Extent | None:
    if not rows:
        return None
    longest = max(rows, key=lambda row: row.stitches)
    return Extent(rows[0].long, longest.long, rows[-1].long)


def _founded(part: Part, gauge: Gauge) -> Fraction | None:
    """The height of what the part starts with: foundation stitches are a row, a chain is none."""
    if part.start.what != "foundation":
        return NOUGHT
    return height_of((part.start.stitch or gauge.stitch).basic, gauge)


def _height(
    stretches: tuple[Stretch, ...], founded: Fraction | None, gauge: Gauge
) -> tuple[Fraction | None, str]:
    """How high all rows stand together, and how that was got. One row of slip stitches is an edge
    of no height; of what has more of them, the tables do not tell the height."""
    high = founded
    slips = 0
    others = founded is not None and bool(founded) and founded * (gauge.rows or 0) != gauge.over
    alike: dict[str, tuple[Fraction, int]] = {}
    for rows, times in stretches:
        for row in rows:
            if high is None or row.high is None:
                return None, NOT_KNOWN
            _, before = alike.get(row.stitch, (row.high, 0))
            alike[row.stitch] = row.high, before + times
            slips += times * (row.stitch == SLIP)
            others |= row.stitch != gauge.stitch.basic
    if high is not None:
        # Rows of one stitch are of one height.
        high = sum((one * times for one, times in alike.values()), high)
    if high is None or (slips > 1 and gauge.stitch.basic != SLIP):
        return None, NOT_KNOWN
    return high, RELATIVE if others else GAUGE_ROWS


def stitches_wide(made: Runs[Made]) -> int:
    """How many stitches wide a row is: its stitches, and its chains over spaces and openings.

    Slip stitches count only in a row that has no others; picots, plain joins and turning chains
    never.
    """
    stitches = slips = chains = 0
    for one, times in made.tally().items():
        if one.what in ("ch", "open", "join sp"):
            chains += one.chains * times
        elif one.what in ("st", "as", "skip as"):
            slip = one.stitch is not None and one.stitch.basic == "slip"
            slips += times * slip
            stitches += times * (not slip)
    return chains + (stitches or slips)
