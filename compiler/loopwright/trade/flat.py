"""Flat circles: how many stitches each round adds, which is also how many the first one has.

    BAND["plain"]   6 to 10: fewer and the circle cups, more and it ruffles

Table F of the trade's tables, by neutral names; source keys are those of that table. All sources
agree that a flat circle grows by the same number every round. They disagree on the number, most
for half and long stitches, so what is kept is each source's range, and the band that holds them
all. A start of 5 plain stitches (``CONE``) is published as normal in toys, but makes a cone.
"""

from __future__ import annotations

from loopwright.frozen import NamedTuple

Range = tuple[int, int]
"""The least and the most."""


class Circle(NamedTuple):
    """One source's stitches added in a round, per stitch."""

    source: str
    adds: dict[str, Range]


CIRCLES: tuple[Circle, ...] = (
    Circle("magicformula", {"plain": (6, 6), "half": (8, 8), "long": (12, 12)}),
    Circle(
        "notflat",
        {"plain": (6, 6), "half": (8, 8), "long": (10, 12), "double long": (12, 14)},
    ),
    Circle("squareflat", {"plain": (6, 8), "half": (8, 10), "long": (12, 14)}),
    Circle("elephants", {"plain": (6, 10), "half": (8, 12), "long": (10, 14)}),
    Circle("pinkmilk", {"long": (12, 12)}),
    Circle("published hats", {"plain": (6, 6), "half": (8, 12), "long": (10, 15)}),
)
"""The last is the range of the published hats that the table lists without a key."""

CONE = Circle("amigurumi 5-start", {"plain": (5, 5)})


def _band(stitch: str) -> Range:
    ranges = [one.adds[stitch] for one in CIRCLES if stitch in one.adds]
    return min(least for least, _ in ranges), max(most for _, most in ranges)


BAND: dict[str, Range] = {stitch: _band(stitch) for stitch in CIRCLES[1].adds}
