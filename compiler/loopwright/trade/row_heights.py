"""Row heights: how high a row of each stitch stands against a row of plain stitches.

    ROW_HEIGHT["long"]   2: one row of long stitches is as high as two of plain ones

Taken from how many plain stitches fit along a row's end (table G of the trade's tables): picotedge
reasons from height that a row of long stitches is about two plain ones high and one of double long
about three, ambassador has three to two for half stitches. The flat circles of table F bear it
out: 6 plain and 12 long stitches a round (magicformula) make one and the same disc only if the
long round is twice as wide. The chains of table E (1, 2, 3, 4) are not this: they bring the hook
up to a stitch, and one chain is less than a plain stitch is high.

Taller stitches go on in the same steps (the series, without a source). A slip stitch has no height
of its own in any table.
"""

from __future__ import annotations

from fractions import Fraction

from loopwright.trade.pickup import PER_ROW_END

ROW_HEIGHT: dict[str, Fraction] = {
    **PER_ROW_END,
    "triple long": Fraction(4),
    "quadruple long": Fraction(5),
}
