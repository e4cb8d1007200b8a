"""Heads as the trade itself has them: ranges for a group of people, and the letters of hat sizes.

    GROUPS["toddler"]   16 to 18 in (dayhealth)
    HAT_SIZES["M"]      56 cm, US 7, UK 6 7/8 (angelehats, cncaps, ailime)

Table C of the trade's tables; source keys are those of that table. Where sources disagree:

* The trade council's rows are second-hand, from pages that quote its table. Its row for babies was
  not found, so the groups below 16 in and between child and adult are from hat charts in print,
  and only such groups as two charts or more give with the same numbers.
* Hat letters: S is 54 cm (angelehats, cncaps), though other lists begin it at 53 or 55; XXL is
  62 cm (angelehats), not 63 (cncaps), because it goes on in the steps of 2 cm of the rest. One
  list prints its M twice; its second 56 should be 57.

The UK number is 1/8 smaller than the US one (liquihat); its column is ailime's.
"""

from __future__ import annotations

from fractions import Fraction

from loopwright.frozen import NamedTuple

INCH = Fraction(127, 5)


class Group(NamedTuple):
    """Heads of a group, in inches as printed, from the least to the most."""

    name: str
    least: Fraction
    most: Fraction
    sources: tuple[str, ...]

    @property
    def middle(self) -> Fraction:
        """The middle of the range, in mm."""
        return (self.least + self.most) / 2 * INCH


class HatSize(NamedTuple):
    """A hat size by its letter: the head in cm, and its US and UK numbers."""

    letter: str
    cm: int
    us: str
    uk: str
    sources: tuple[str, ...]


def _group(name: str, least: str, most: str, sources: str) -> Group:
    return Group(name, Fraction(least), Fraction(most), tuple(sources.split()))


GROUPS: dict[str, Group] = {
    one.name: one
    for one in (
        _group("preemie", "9", "12", "dayhealth"),
        _group("newborn", "13", "14", "sunshine fiend"),
        _group("3 to 6 months", "14", "17", "sunshine fiend"),
        _group("toddler", "16", "18", "dayhealth"),
        _group("child", "18", "20", "dayhealth2"),
        _group("3 to 10 years", "19", "20.5", "sunshine fiend oldhooker"),
        _group("teen", "20.5", "22", "sunshine fiend oldhooker"),
        _group("adult woman", "21", "23", "kocaelinde"),
        _group("adult man", "22", "24", "kocaelinde"),
    )
}

HAT_SIZES: dict[str, HatSize] = {
    one.letter: one
    for one in (
        HatSize("XS", 53, "6 5/8", "6 1/2", ("angelehats",)),
        HatSize("S", 54, "6 3/4", "6 5/8", ("angelehats", "cncaps", "ailime")),
        HatSize("M", 56, "7", "6 7/8", ("angelehats", "cncaps", "ailime")),
        HatSize("L", 58, "7 1/4", "7 1/8", ("angelehats", "cncaps", "ailime")),
        HatSize("XL", 60, "7 1/2", "7 3/8", ("angelehats", "cncaps", "ailime")),
        HatSize("XXL", 62, "7 3/4", "7 5/8", ("angelehats", "ailime")),
    )
}
