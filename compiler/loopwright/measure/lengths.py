"""Lengths as a maker reads them off a tape.

    length_text(Fraction(395), "cm")    39.5 cm
    length_text(Fraction(472), "in")    18½ in
    both([Fraction(400), Fraction(450)], "cm")    40 (45) cm / 15¾ (17¾) in

Centimetres go to the nearest half and inches to the nearest quarter (common practice without a
source); a length half-way between goes up. The other measure is that of the length as it is
given in the first one, so that equal lengths stay equal. Millimetres become centimetres by shifting
a place; what an inch is, the units library says. It is asked when inches are first wanted, and its
answer is kept for later runs, because to import it takes as long as ten starts of the interpreter.
"""

from __future__ import annotations

from collections.abc import Sequence
from contextlib import suppress
from fractions import Fraction
from functools import cache
from typing import Any

from loopwright import kept

_INCHES = ("in", "inch", "inches", "yd")
DEFINITIONS = "default_en.txt"
"""The units library's file of definitions."""
_NEEDED = ("milli-", "meter", "yard", "inch")
"""What the units library defines a millimetre and an inch by."""
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
    if in_inches:
        return Fraction(_nearest(inches(mm) * 4), 4) * inch()
    return Fraction(_nearest(mm / 5) * 5)


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
    return mm / inch()


@cache
def inch() -> Fraction:
    """The millimetres of an inch, as the units library has them; kept under the mark of its file
    of definitions, so that another edition of it is asked anew."""
    name = _name()
    with suppress(kept.NotKept, ValueError, ZeroDivisionError):
        if name and (known := Fraction(kept.read(name).decode())) > 0:
            return known
    found = Fraction(_registry().Quantity(Fraction(1), "inch").to("millimeter").magnitude)
    with suppress(OSError):
        if name:
            kept.write(name, str(found).encode())
    return found


def _name() -> str:
    """Under which name the units library's answer is kept; nothing where its file is not found."""
    from importlib.machinery import PathFinder

    found = PathFinder.find_spec("pint")
    folders = list(found.submodule_search_locations or ()) if found else []
    with suppress(OSError):
        return f"inch-{kept.mark_of(f'{folders[0]}/{DEFINITIONS}')}.txt" if folders else ""
    return ""


@cache
def _registry() -> Any:
    """The units library's own definitions of these units, out of its own file: to read all that it
    knows takes as long as eight starts of the interpreter. Where they are not found there, all."""
    from pkgutil import get_data

    from pint import PintError, UnitRegistry

    known = (get_data("pint", DEFINITIONS) or b"").decode().splitlines()
    few: Any = UnitRegistry(None, non_int_type=Fraction)
    try:
        for line in known:
            name, _, meaning = line.partition("#")[0].strip().partition(" = ")
            if name in _NEEDED and meaning:
                few.define(f"{name} = {meaning}")
        few.Quantity(Fraction(1), "millimeter").to("inch")
    except (PintError, TypeError):
        return UnitRegistry(non_int_type=Fraction)
    return few


def _nearest(value: Fraction) -> int:
    """The nearest whole number; halves go up."""
    return (2 * value.numerator + value.denominator) // (2 * value.denominator)
