"""How much yarn stitches take, as measured by makers who unravelled them.

    PER_WIDTH["plain"]    10.6: a row of plain stitches takes 10.6 times its own width in yarn
    PER_WIDTH["half"]     15.7
    OF_CHAIN               5.1
    PER_SQUARE["plain"]   31.42 in to the square inch, in worsted yarn

Table I of the trade's tables; the rates are windchilde's, who unravelled rows and squares 5 in
wide. What one stitch takes against another is the ratio of their rows. What a square takes is that
of the square, the more the finer the yarn: half as wide a stitch, twice the yarn on the same area.
Where sources disagree:

* Half to plain stitch is 1.48 here and 28 g to 19 g, 1.47, in interweaveexp: they agree.
* Over the same area long stitches take 1.01 of what plain ones do (windchilde, 31.6 to 31.42) or
  0.84 (snugglery). ``SPREAD`` is that disagreement.
* Foundation stitches: the printed rates 17.22 and 15.5 are not 87 and 82 in over 5 in (windchilde),
  and the lengths are followed. A foundation plain stitch, 16.0, is a chain and a stitch, 15.7.

Windchilde says worsted yarn and a 5 mm hook and not how wide a stitch was: it is taken to be the
finest that the trade gives for such yarn, 14 plain stitches to 4 in (table A, issuhub2018).

Not in any source: stitches taller than a long one, which are carried on at the step between those
that are; a slip stitch, taken to be a chain drawn through the work. A decrease and a cluster take
what their stitches would take, and a stitch around a post or in one loop the same as any: all
common practice without a source, and rather too much than too little.
"""

from __future__ import annotations

from fractions import Fraction

from loopwright.frozen import NamedTuple
from loopwright.trade.stitches import Stitch
from loopwright.trade.weights import OVER_INCHES, WEIGHTS

SOURCES = ("windchilde", "interweaveexp", "snugglery")


class Swatch(NamedTuple):
    """What windchilde unravelled over ``inches``: yarn in inches, of a chain, a row, a foundation
    row, or a square of fabric."""

    what: str
    stitch: str
    inches: int
    yarn: Fraction


def _swatch(what: str, stitch: str, yarn: str) -> Swatch:
    return Swatch(what, stitch, 5, Fraction(yarn))


SWATCHES: tuple[Swatch, ...] = (
    _swatch("chain", "", "25.5"),
    _swatch("foundation", "plain", "80"),
    _swatch("foundation", "half", "87"),
    _swatch("foundation", "long", "82"),
    _swatch("square", "plain", "785.5"),
    _swatch("square", "half", "802"),
    _swatch("square", "long", "790"),
    _swatch("row", "plain", "53"),
    _swatch("row", "half", "78.5"),
    _swatch("row", "long", "102"),
)


def _rates(what: str) -> dict[str, Fraction]:
    return {one.stitch: one.yarn / one.inches for one in SWATCHES if one.what == what}


OF_CHAIN: Fraction = _rates("chain")[""]
FOUNDATION: dict[str, Fraction] = _rates("foundation")
PER_SQUARE: dict[str, Fraction] = {
    one.stitch: one.yarn / one.inches**2 for one in SWATCHES if one.what == "square"
}
"""Inches of yarn to the square inch, in windchilde's yarn and hook."""

WIDTH = Fraction(OVER_INCHES, WEIGHTS[4].stitches[1])
"""How wide, in inches, a stitch of that yarn is taken to be."""

_ROWS = _rates("row")
STEP: Fraction = (_ROWS["long"] - _ROWS["plain"]) / 2
PER_WIDTH: dict[str, Fraction] = {
    "slip": OF_CHAIN,
    **_ROWS,
    "double long": _ROWS["long"] + STEP,
    "triple long": _ROWS["long"] + 2 * STEP,
    "quadruple long": _ROWS["long"] + 3 * STEP,
}

SPREAD = Fraction(1, 5)
"""How far an estimate may be off, up or down: 31.6 / 31.42 (windchilde) against 0.84 (snugglery)
differ by a fifth."""

ALLOWANCE = Fraction(1, 10)
"""Added for tails and a swatch where the designer does not say: common practice, no source."""


def of_stitch(stitch: Stitch) -> Fraction:
    """The yarn of a stitch, in widths of a stitch; of a decrease or a cluster, of all its legs."""
    if stitch.unlike:
        first = stitch._replace(unlike=(), together=1)
        return of_stitch(first) + sum(of_stitch(one) for one in stitch.unlike)
    return PER_WIDTH[stitch.basic] * max(stitch.together, 1) * max(stitch.legs, 1)


def of_foundation(stitch: Stitch) -> Fraction:
    """The yarn of a foundation stitch, its chain included."""
    return FOUNDATION.get(stitch.basic, PER_WIDTH[stitch.basic] + OF_CHAIN)


def of_height(stitch: Stitch) -> Fraction:
    """The yarn of a stitch, in heights of its row: what an inch of height takes of a square, with
    stitches of ``WIDTH``. A stitch that no square was made of goes by the nearest that was."""
    nearest = {"slip": "plain", "plain": "plain", "half": "half"}.get(stitch.basic, "long")
    return PER_SQUARE[nearest] * WIDTH
