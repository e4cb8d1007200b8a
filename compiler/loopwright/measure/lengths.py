"""Lengths as a maker reads them off a tape.

    length_text(Fraction(395), "cm")    39.5 cm
    length_text(Fraction(472), "in")    18½ in

Centimetres go to the nearest half and inches to the nearest quarter (common practice without a
source); a length half-way between goes up. Millimetres become centimetres by shifting a place;
what an inch is, the units library says, and it is loaded only when inches are asked for.
"""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from typing import Any

_INCHES = ("in", "inch", "inches", "yd")
_QUARTERS = ("", "¼", "½", "¾")


def length_text(mm: Fraction, unit: str) -> str:
    """A length in mm, in centimetres or inches: whichever the unit belongs with."""
    if unit in _INCHES:
        whole, quarters = divmod(_nearest(inches(mm) * 4), 4)
        return f"{whole or ''}{_QUARTERS[quarters]}".rjust(1, "0") + " in"
    whole, halves = divmod(_nearest(mm / 5), 2)
    return f"{whole}{'.5' * halves} cm"


def inches(mm: Fraction) -> Fraction:
    """Millimetres in inches, exactly."""
    length: Any = _registry().Quantity(mm, "millimeter").to("inch").magnitude
    return Fraction(length)


@cache
def _registry() -> Any:
    from pint import UnitRegistry

    return UnitRegistry(non_int_type=Fraction)


def _nearest(value: Fraction) -> int:
    """The nearest whole number; halves go up."""
    return (2 * value.numerator + value.denominator) // (2 * value.denominator)
