"""Hook sizes: millimetres, US sizes and the old UK numbers.

    names_of(Fraction("4.5"))    Hook 4.5 mm, US 7, old UK 7
    mm_of_us("G/6")              4 mm
    mm_of_uk("000")              10 mm

Table B of the trade's tables (sources sysclp and matifs; the steel hooks homeq and winenfood).
Where its rows disagree, one hook is followed for each name:

* US B/1 is 2.25 mm (matifs), as the trade body's table of yarn weights has it (table A,
  issuhub2018); sysclp and matifs both say it of 2 mm as well, and refcom of 2.5 mm.
* US C/2 and UK 12 are 2.75 mm (matifs), not 2.5 mm (sysclp): matifs is the longer series.
* US 7 is 4.5 mm and has no letter; refcom's word that there is no such size is not followed.

A hook whose name is not followed keeps the names that nobody disputes, or none: 2.5 mm is 2.5 mm.
3.75 mm never had a UK number. Not in any source that could be read: 3, 7, 12, 15 and 16 mm.
"""

from __future__ import annotations

from fractions import Fraction

from loopwright.frozen import NamedTuple


class HookSize(NamedTuple):
    """A hook: mm, its US and old UK names (empty where it has none), the sources, and which of
    the two names is a source's word that is not ``followed`` ("us", "uk")."""

    mm: Fraction
    us: str
    uk: str
    sources: tuple[str, ...]
    not_followed: tuple[str, ...] = ()


def _row(mm: str, us: str, uk: str, sources: str, *not_followed: str) -> HookSize:
    return HookSize(Fraction(mm), us, uk, tuple(sources.split()), not_followed)


HOOKS: tuple[HookSize, ...] = (
    _row("2", "B/1", "14", "sysclp matifs", "us"),
    _row("2.25", "B/1", "13", "matifs"),
    _row("2.5", "C/2", "12", "sysclp", "us", "uk"),
    _row("2.75", "C/2", "12", "matifs"),
    _row("3.25", "D/3", "10", "sysclp matifs"),
    _row("3.5", "E/4", "9", "sysclp matifs"),
    _row("3.75", "F/5", "", "sysclp matifs"),
    _row("4", "G/6", "8", "sysclp matifs"),
    _row("4.5", "7", "7", "matifs"),
    _row("5", "H/8", "6", "sysclp matifs"),
    _row("5.5", "I/9", "5", "sysclp matifs"),
    _row("6", "J/10", "4", "sysclp matifs"),
    _row("6.5", "K/10.5", "3", "sysclp matifs"),
    _row("8", "L/11", "0", "matifs"),
    _row("9", "M/N-13", "00", "matifs"),
    _row("10", "N/P-15", "000", "matifs"),
)

STEEL: tuple[HookSize, ...] = (
    _row("3.5", "steel 00", "", "homeq"),
    _row("1.65", "steel 7", "", "winenfood"),
    _row("0.75", "steel 14", "", "homeq"),
)
"""Steel hooks run backwards, 00 the largest; only these three are in a source."""


def names_of(mm: Fraction) -> HookSize | None:
    """A hook by its mm, with only the names that are followed; None where no table has it."""
    for hook in HOOKS:
        if hook.mm == mm:
            us = "" if "us" in hook.not_followed else hook.us
            uk = "" if "uk" in hook.not_followed else hook.uk
            return hook._replace(us=us, uk=uk)
    return None


def mm_of_us(name: str) -> Fraction | None:
    """The mm of a US size as the table writes it: ``G/6``, ``7``, ``steel 14``."""
    return next(
        (one.mm for one in HOOKS + STEEL if one.us == name and "us" not in one.not_followed), None
    )


def mm_of_uk(number: str) -> Fraction | None:
    """The mm of an old UK number: ``8``, ``000``."""
    return next(
        (one.mm for one in HOOKS if number and one.uk == number and "uk" not in one.not_followed),
        None,
    )
