"""What the measurer hands on: rows, and parts, as their gauge makes them. Lengths in mm, exact."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from loopwright.frozen import Frozen

LONGEST = 10**30
"""In mm: past this nothing is drawn or weighed up any more, only counted."""


class Extent(Frozen):
    """How long the rows (or rounds) of a part are, in mm: the first, the longest, the last."""

    first: Fraction
    widest: Fraction
    last: Fraction


class RowSize(Frozen):
    """One row as measured: its label, whether it is a round, the stitch most of it is made of, how
    many stitches wide it is, how long and how high that makes it in mm (``high`` None where the
    gauge gives no rows), and whether there are chain spaces in it. A round of an ``edging`` is as
    long as it lies on what it is worked on (``measure.edging``)."""

    label: str
    is_round: bool
    stitch: str
    stitches: int
    long: Fraction
    high: Fraction | None
    openwork: bool
    edging: bool = False

    @property
    def about(self) -> bool:
        """Whether its length is about right only."""
        return self.openwork or self.edging


Stretch = tuple[tuple[RowSize, ...], int]
"""Rows and how often they are worked, one time after the other."""


class PartSize(Frozen):
    """A part in one size (its place among the pattern's sizes), as its gauge makes it.

    ``wide`` is of its rows, ``around`` of its rounds; a part may have both. ``high`` counts every
    row and round, and is None where the gauge gives no rows; ``how`` tells how it was got.
    ``unit`` is the one that the gauge is written in. In ``openwork`` there are chain spaces; a
    chain was taken to be as wide as a stitch (common practice without a source), which the loops
    of a net are not. ``founded`` is the height of foundation stitches at the start.
    """

    part: str
    size: int
    gauge: str
    unit: str
    wide: Extent | None
    around: Extent | None
    high: Fraction | None
    how: str
    openwork: bool
    founded: Fraction
    stretches: tuple[Stretch, ...]

    @property
    def edged(self) -> bool:
        """Whether it ends in an edging."""
        return any(row.edging for row in self.rows)

    @property
    def within_reason(self) -> bool:
        """Whether its lengths are such that a thing could have them."""
        longest = max(row.long for row in self.rows)
        return longest < LONGEST and (self.high is None or self.high < LONGEST)

    @property
    def rows(self) -> Iterator[RowSize]:
        """Each row once, however often its stretch is worked."""
        for rows, times in self.stretches:
            if times:
                yield from rows
