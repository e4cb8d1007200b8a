"""What a row is of, as far as its height goes: the same for rows ahead and rows measured."""

from __future__ import annotations

from collections.abc import Mapping

from loopwright.ir.fabric import WorkedRow
from loopwright.ir.pattern import OwnStitch
from loopwright.trade.row_heights import ROW_HEIGHT

SLIP = "slip"

Owns = Mapping[str, OwnStitch]


def row_stitch(row: WorkedRow, owns: Owns) -> str:
    """The stitch, by its neutral name, that most of a row is made of; of two as many, the taller.
    A row without any is of slip stitches."""
    many: dict[str, int] = {}
    name = SLIP
    for made, n in row.made.tally().items():
        if made.stitch is None or made.what not in ("st", "as", "skip as"):
            continue
        own = owns.get(made.own)
        name = own.height.basic if own is not None else made.stitch.basic
        many[name] = many.get(name, 0) + n
    if len(many) < 2:
        return name
    others = [name for name in many if name != SLIP]
    return max(others, key=lambda name: (many[name], ROW_HEIGHT[name]), default=SLIP)
