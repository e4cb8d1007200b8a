"""Lengths as a maker reads them off a tape.

    length_text(Fraction(395), "cm")    39.5 cm
    length_text(Fraction(472), "in")    18½ in
    both([Fraction(400), Fraction(450)], "cm")    40 (45) cm / 15¾ (17¾) in

Centimetres go to the nearest half and inches to the nearest quarter (common practice without a
source); a length half-way between goes up. The other measure is that of the length as it is
given in the first one, so that equal lengths stay equal. An inch is 25.4 mm by definition (the
international yard and pound agreement of 1959); a test holds it against pint.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

_INCHES = ("in", "inch", "inches", "yd")
INCH = Fraction(127, 5)
_QUARTERS = ("", "¼", "½", "¾")


def length_text(mm: Fraction, unit: str) -> str:
    """A length in mm, in centimetres or inches: whichever the unit belongs with."""
    return f"{_shown(mm, unit in _INCHES)} {'in' if unit in _INCHES else 'cm'}"


def both(lengths: Sequence[Fraction], unit: str) -> str:
    """Lengths in mm, one a size, in the trade's form, and the same in the other measure. Where
    they are the same in every size it is said once."""
    first = unit in _INCHES
    given = [_given(mm, first) for mm in lengths]
    return " / ".join(_in_sizes(given, in_inches) for in_inches in (first, not first))


def _given(mm: Fraction, in_inches: bool) -> Fraction:
    """The length that is printed for a length: the nearest quarter of an inch, or half of a cm."""
    step = INCH / 4 if in_inches else Fraction(5)
    return _nearest(mm / step) * step


def _in_sizes(lengths: Sequence[Fraction], in_inches: bool) -> str:
    shown = [_shown(mm, in_inches) for mm in lengths]
    others = f" ({', '.join(shown[1:])})" if len(set(shown)) > 1 else ""
    return f"{shown[0]}{others} {'in' if in_inches else 'cm'}"


def _shown(mm: Fraction, in_inches: bool) -> str:
    if in_inches:
        whole, quarters = divmod(_nearest(inches(mm) * 4), 4)
        return f"{whole or ''}{_QUARTERS[quarters]}".rjust(1, "0")
    whole, halves = divmod(_nearest(mm / 5), 2)
    return f"{whole}{'.5' * halves}"


def inches(mm: Fraction) -> Fraction:
    """Millimetres in inches, exactly."""
    return mm / INCH


def _nearest(value: Fraction) -> int:
    """The nearest whole number; halves go up."""
    return (2 * value.numerator + value.denominator) // (2 * value.denominator)
