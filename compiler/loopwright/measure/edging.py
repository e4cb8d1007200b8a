"""Edgings: rounds of shells or loops that end a part, and do not stretch what they are worked on.

A round of a dc, 5 tr in one stitch, and a stitch skipped on either side makes 6 stitches of 4.
Taken at their width it would be half as long again as the fabric it stands on; but its shells stand
beside one another over that fabric, and their tops fan out or curl. So its rounds are taken to lie
flat on it: as long as the round before, and longer by what a flat round gets where that was flat.

A part ends in an edging from the first round on that

    passes stitches, and has loops or several stitches in one place    shells, nets, picots
    is longer than it could be and lie flat                            by ``growth.allowed``
    grows a quarter more than any round before                         not a granny's own rounds
    comes past the middle of the fabric                                not a doily's first net
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import pi

from loopwright.frozen import replace
from loopwright.ir.fabric import WorkedPart, WorkedRow
from loopwright.ir.pattern import Part
from loopwright.measure.growth import (
    BORDER,
    allowed,
    both_sides,
    corners_of,
    flat_growth,
    growing,
    starts_in_a_middle,
)
from loopwright.measure.values import RowSize, Stretch

MORE = 1.25
"""How much more than any round before it an edging grows; as ``fit.edges.TOO_MANY``."""

FOUR_SIDES = 4
"""The corners of a piece that a border goes all round."""


def laid_on(part: Part, worked: WorkedPart, stretches: tuple[Stretch, ...]) -> tuple[Stretch, ...]:
    """The rounds of a part as measured, those of an edging as they lie on the ones before."""
    if part.frilled or any(row.high is None for rows, _ in stretches for row in rows):
        return stretches
    made = [rows for rows, times in worked.rows if times]
    begin = _begin(made, stretches)
    if begin is None:
        return stretches
    at, nth = begin
    first, _ = stretches[at]
    body = (*stretches[:at], (first[:nth], 1)) if nth else stretches[:at]
    long = body[-1][0][-1].long
    flat = _growth(part, worked, body)
    out = list(stretches[:at])
    for rows, times in stretches[at:]:
        laid = list(rows)
        for i in range(nth if len(out) == at else 0, len(rows)):
            long += Fraction(flat * float(_high(rows[i])) * times)
            laid[i] = replace(rows[i], long=min(long, rows[i].long), edging=True)
        out.append((tuple(laid), times))
    return tuple(out)


def _begin(
    made: Sequence[Sequence[WorkedRow]], stretches: Sequence[Stretch]
) -> tuple[int, int] | None:
    """Where an edging begins: in which stretch, at which of its rows."""
    whole = sum((_high_of(rows) * times for rows, times in stretches), Fraction(0))
    below = Fraction(0)
    most = 0.0  # that a round before grew
    last: RowSize | None = None
    for at, (rows, times) in enumerate(stretches):
        for nth, row in enumerate(rows):
            if last is not None and row.is_round and last.is_round:
                longer = float(row.long - last.long)
                flat = allowed(row.stitch) * 2 * pi * float(_high(row))
                if (
                    2 * below >= whole
                    and longer > max(flat, MORE * most)
                    and _is_lace(made[at][nth])
                ):
                    return at, nth
                most = max(most, longer)
            below += _high(row)
            last = row
        below += _high_of(rows) * (times - 1)
    return None


def _high(row: RowSize) -> Fraction:
    return row.high or Fraction(0)


def _high_of(rows: Sequence[RowSize]) -> Fraction:
    return sum((_high(row) for row in rows), Fraction(0))


def _is_lace(row: WorkedRow) -> bool:
    """Whether a round passes places, and has loops or several stitches in one place over them."""
    made = row.made.tally()
    stitches = [one for one in made if one.what in ("st", "as")]
    passes = any(one.step > 1 for one in stitches)
    return passes and any(one.what == "ch" or (one in stitches and not one.step) for one in made)


def _growth(part: Part, worked: WorkedPart, body: tuple[Stretch, ...]) -> float:
    """How much longer a round of the edging gets for each mm it is high: as much as one of the
    rounds before it, where they lie flat."""
    if any(edge.what == "all round" for edge in part.start.edges):
        return flat_growth(FOUR_SIDES)
    rows, after = growing(body)
    if after > BORDER or not (starts_in_a_middle(part, worked) or both_sides(part)):
        return 0.0
    return flat_growth(corners_of(worked, len(rows)))
