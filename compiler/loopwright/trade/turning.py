"""Turning chains: how many chains bring the hook up to each stitch, and whether they count.

    TURNING["long"]   3 chains, which count as a stitch; 2 further chains on the foundation (3 if
                      they do not count), so that the first stitch goes into the 4th from the hook

Table E of the trade's tables, by neutral names; source keys are those of that table. Sources
disagree on two things. Whether the 2 chains of a half stitch count: many patterns say they do not
(lowdown). And how long the foundation is: some makers begin 11 half stitches on 12 chains, whose
2 skipped chains are the first stitch, some on 13 (khforum); hence the two numbers.
"""

from __future__ import annotations

from loopwright.frozen import NamedTuple


class Turning(NamedTuple):
    """The usual turning chain of a stitch. ``extra_if_counts`` and ``extra_if_not`` are the
    foundation chains beyond the number of stitches; ``first_in`` the chain from the hook that
    takes the first stitch. None where the table has nothing. ``disputed`` when sources disagree
    whether it counts."""

    stitch: str
    chains: int
    extra_if_counts: int | None
    extra_if_not: int | None
    first_in: int | None
    counts: bool
    sources: tuple[str, ...]
    disputed: bool = False


_PLAIN = ("dummies", "bestknit", "lowdown", "tchain", "knotions", "woolly", "hooks68", "yourfamily")
_HALF = ("dummies", "bestknit", "knotions", "cherryheart")

TURNING: dict[str, Turning] = {
    one.stitch: one
    for one in (
        Turning("slip", 0, None, None, None, False, ("dummies",)),
        Turning("plain", 1, None, 1, 2, False, _PLAIN),
        Turning("half", 2, 1, 2, 3, True, _HALF, disputed=True),
        Turning("long", 3, 2, 3, 4, True, ("dummies", "bestknit", "lowdown", "knotions")),
        Turning("double long", 4, 3, 4, 5, True, ("dummies", "tchain", "hooks68")),
        Turning("triple long", 5, 4, 5, 6, True, ("dummies", "hooks68", "woolly")),
    )
}
