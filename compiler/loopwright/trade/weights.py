"""Yarn weights: the trade's eight categories, from lace to jumbo.

    WEIGHTS[3]   Light: DK, light worsted; 12 to 17 plain stitches over 4 in; hook 4.5 to 5.5 mm

Table A of the trade's tables: the trade body's own guideline, which says of itself that the
pattern's gauge wins. Source keys are those of that table. Where reprints disagree the 2018 table
(issuhub2018) is followed, because it is the newest and the only one with category 7:

* 0: some reprints give the 32 to 42 as US double crochets and other hooks (handspun222, onatrain,
  scribdyarn).
* 5: one reprint names the largest hook M-13 instead of M/N-13 (handspun222).
* 6: the older table of seven categories has 5 to 9 stitches and no largest hook (onatrain,
  scribdyarn).
* 7: another page puts the border of 6 and 7 at 15 mm.
"""

from __future__ import annotations

from fractions import Fraction

from loopwright.frozen import NamedTuple

STITCH = "plain"
"""The stitch, by its neutral name, that the ranges count."""

OVER_INCHES = 4


class Weight(NamedTuple):
    """A category: its name, the kinds of yarn in it, the stitches over 4 in and the hook in mm,
    each from the least to the most (None where it is open), the hooks in US sizes, sources."""

    category: int
    name: str
    types: tuple[str, ...]
    stitches: tuple[int | None, int]
    hook_mm: tuple[Fraction, Fraction | None]
    hook_us: str
    sources: tuple[str, ...]


def _mm(least: str, most: str) -> tuple[Fraction, Fraction | None]:
    return Fraction(least), Fraction(most) if most else None


_ALL = ("issuhub2018", "handspun222", "onatrain")

WEIGHTS: tuple[Weight, ...] = (
    Weight(
        0,
        "Lace",
        ("fingering", "size 10 crochet thread"),
        (32, 42),
        _mm("1.5", "2.25"),
        "steel 8 to 1; regular B/1",
        ("issuhub2018",),
    ),
    Weight(
        1,
        "Super Fine",
        ("sock", "fingering", "baby"),
        (21, 32),
        _mm("2.25", "3.5"),
        "B/1 to E/4",
        _ALL,
    ),
    Weight(2, "Fine", ("sport", "baby"), (16, 20), _mm("3.5", "4.5"), "E/4 to 7", _ALL),
    Weight(3, "Light", ("DK", "light worsted"), (12, 17), _mm("4.5", "5.5"), "7 to I/9", _ALL),
    Weight(
        4,
        "Medium",
        ("worsted", "afghan", "aran"),
        (11, 14),
        _mm("5.5", "6.5"),
        "I/9 to K/10.5",
        _ALL,
    ),
    Weight(
        5,
        "Bulky",
        ("chunky", "craft", "rug"),
        (8, 11),
        _mm("6.5", "9"),
        "K/10.5 to M/N-13",
        _ALL,
    ),
    Weight(
        6,
        "Super Bulky",
        ("super chunky", "roving"),
        (6, 9),
        _mm("9", "16"),
        "M/N-13 to Q",
        ("issuhub2018", "handspun222"),
    ),
    Weight(
        7,
        "Jumbo",
        ("roving",),
        (None, 5),
        _mm("16", ""),
        "Q and larger",
        ("issuhub2018", "handspun222"),
    ),
)
"""The categories; each one's number is its place."""
