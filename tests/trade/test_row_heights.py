"""Row heights against table G (ambassador, picotedge) and table F (magicformula)."""

from __future__ import annotations

from fractions import Fraction

from published_tables import NEUTRAL, table

from loopwright.trade.flat import CIRCLES
from loopwright.trade.row_heights import ROW_HEIGHT
from loopwright.trade.stitches import BASICS

RATES = {"1 per row": Fraction(1), "3 per 2 rows": Fraction(3, 2)}
RATES |= {f"{n} per row": Fraction(n) for n in (2, 3)}


def test_heights_are_the_published_rates() -> None:
    # ambassador and picotedge: 1 sc to a row end of sc, 3 to two of hdc, 2 to one of dc, 3 of tr
    rows = {row["row_stitch_us"]: row["per_row_end"] for row in table("G_row_end_pickup")}
    for us in ("sc", "hdc", "dc", "tr"):
        assert ROW_HEIGHT[NEUTRAL[us]] == RATES[rows[us]]


def test_flat_circles_bear_them_out() -> None:
    # magicformula: 6 sc and 12 dc a round are flat, so a round of dc is 12/6 as high as one of sc;
    # 8 hdc a round make 8/6, which is below the 3/2 of ambassador by a ninth
    adds = CIRCLES[0].adds
    assert CIRCLES[0].source == "magicformula"
    ratio = {name: Fraction(adds[name][0], adds["plain"][0]) for name in ("half", "long")}
    assert ratio["long"] == ROW_HEIGHT["long"]
    assert ratio["half"] / ROW_HEIGHT["half"] == Fraction(8, 9)


def test_every_stitch_but_the_slip_stitch_has_one() -> None:
    assert set(ROW_HEIGHT) == set(BASICS) - {"slip"}
    heights = [ROW_HEIGHT[name] for name in BASICS if name != "slip"]
    assert heights == sorted(heights)
