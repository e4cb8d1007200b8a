"""Lengths for readers of either measure: as written first, then the other one.

    5 (6, 7) cm / 2 (2¼, 2¾) in

Inches are given to the nearest quarter and centimetres to the nearest half, as pattern sheets do
(common practice without a source); what the designer wrote is printed as written.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from loopwright.render.prose.words import across, plain

INCH = Fraction(127, 5)
YARD = Fraction(9144, 10000)
_UNITS = {
    "mm": (Fraction(1), "mm"),
    "cm": (Fraction(10), "cm"),
    "m": (Fraction(1000), "m"),
    "in": (INCH, "in"),
    "inch": (INCH, "in"),
    "inches": (INCH, "in"),
    "yd": (INCH * 36, "yd"),
}
_QUARTERS = ("", "¼", "½", "¾")


def nearest(value: Fraction) -> int:
    """The nearest whole number; halves go up."""
    return (2 * value.numerator + value.denominator) // (2 * value.denominator)


def quarters(mm: Fraction) -> str:
    """A length in inches to the nearest quarter: ``2¼``."""
    whole, rest = divmod(nearest(mm / INCH * 4), 4)
    return f"{whole or ''}{_QUARTERS[rest]}" or "0"


def as_written(lengths: Sequence[Fraction], unit: str) -> str:
    """Lengths in mm, in the unit they were written in: ``5 (6, 7) cm``."""
    factor, shown = _UNITS[unit]
    return f"{across([plain(length / factor) for length in lengths])} {shown}"


def both(lengths: Sequence[Fraction], unit: str) -> str:
    """Lengths in mm as written and in the other measure."""
    if _UNITS[unit][1] in ("in", "yd"):
        other = f"{across([plain(Fraction(nearest(mm / 5), 2)) for mm in lengths])} cm"
    else:
        other = f"{across([quarters(mm) for mm in lengths])} in"
    return f"{as_written(lengths, unit)} / {other}"


def metres(length: Fraction) -> str:
    """A yarn's length in both measures, from metres: ``110 m / 120 yd``."""
    return f"{plain(length)} m / {nearest(length / YARD)} yd"
