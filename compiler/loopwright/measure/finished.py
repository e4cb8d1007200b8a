"""Finished sizes: how wide, how far around and how high each part comes out at its gauge.

    64 sts at 16 sts to 10 cm    40 cm around
    9 rounds at 18 to 10 cm      5 cm high

Lengths are exact, in mm. Only a part with a gauge has a size, and only a gauge with rows makes a
height: a row of taller stitches is higher, but by how much differs from hand to hand.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from loopwright.ir.checked import Checked
from loopwright.ir.fabric import Made, WorkedPart, WorkedRow
from loopwright.ir.pattern import Gauge, Part
from loopwright.ir.runs import Runs


@dataclass(frozen=True, slots=True)
class Extent:
    """How long the rows (or rounds) of a part are, in mm: the first, the longest, the last."""

    first: Fraction
    widest: Fraction
    last: Fraction


@dataclass(frozen=True, slots=True)
class PartSize:
    """A part in one size (its place among the pattern's sizes), as its gauge makes it.

    ``wide`` is of its rows, ``around`` of its rounds; a part may have both. ``high`` counts every
    row and round, and is None where the gauge gives no rows. ``unit`` is the one that the gauge
    is written in. In ``openwork`` there are chain spaces; a chain was taken to be as wide as a
    stitch (common practice without a source), which the loops of a net are not.
    """

    part: str
    size: int
    gauge: str
    unit: str
    wide: Extent | None
    around: Extent | None
    high: Fraction | None
    openwork: bool = False


def finished(checked: Checked) -> tuple[PartSize, ...]:
    """The size of every part that has a gauge, part by part in every size."""
    gauges = {gauge.name: gauge for gauge in checked.pattern.gauges}
    fabrics = [{part.name: part for part in fabric.parts} for fabric in checked.fabrics]
    out = []
    for part in checked.pattern.parts:
        gauge = gauges.get(part.gauge)
        for size, worked in enumerate(fabrics):
            if gauge and part.name in worked:
                one = _part_size(part, worked[part.name], gauge, size)
                if one:
                    out.append(one)
    return tuple(out)


def _part_size(part: Part, worked: WorkedPart, gauge: Gauge, size: int) -> PartSize | None:
    """One part in one size; None where it has no rows to measure."""
    rows = list(_written(worked))
    if not rows:
        return None
    return PartSize(
        part.name,
        size,
        gauge.name,
        gauge.unit,
        _extent([row for row in rows if not row.is_round], gauge),
        _extent([row for row in rows if row.is_round], gauge),
        _height(part, worked, gauge),
        any(made.what == "ch" for row in rows for made in row.made.tally()),
    )


def _written(worked: WorkedPart) -> Iterator[WorkedRow]:
    """Each row once, however often its stretch is worked."""
    for rows, times in worked.rows:
        if times:
            yield from rows


def _extent(rows: list[WorkedRow], gauge: Gauge) -> Extent | None:
    if not rows:
        return None
    counts = [stitches_wide(row.made) for row in rows]
    each = gauge.over / gauge.stitches
    return Extent(counts[0] * each, max(counts) * each, counts[-1] * each)


def _height(part: Part, worked: WorkedPart, gauge: Gauge) -> Fraction | None:
    if not gauge.rows:
        return None
    rows = sum(len(rows) * times for rows, times in worked.rows)
    rows += part.start.what == "foundation"  # foundation stitches are a row, a chain is none
    return rows * gauge.over / gauge.rows


def stitches_wide(made: Runs[Made]) -> int:
    """How many stitches wide a row is: its stitches, and its chains over spaces and openings.

    Slip stitches count only in a row that has no others; picots, joins and turning chains never.
    """
    stitches = slips = chains = 0
    for one, times in made.tally().items():
        if one.what in ("ch", "open"):
            chains += one.chains * times
        elif one.what in ("st", "as", "skip as"):
            slip = one.stitch is not None and one.stitch.basic == "slip"
            slips += times * slip
            stitches += times * (not slip)
    return chains + (stitches or slips)
