"""How high rows stand: the gauge's own rows, others by table G (ambassador, picotedge)."""

from __future__ import annotations

from fractions import Fraction

import pytest
from measuring import measured, pattern

DC = "14 sts and 8 rows to 10 cm in dc"  # a row of dc is 12.5 mm
CHAIN = ("start: ch 11", "row 1: sc in 2nd ch from hook, sc in each ch across = 10 sts")


def high(gauge: str, *lines: str) -> tuple[Fraction | None, str]:
    """How high a flat part is, and how that was got."""
    (size,) = measured(pattern(gauge, "flat", *CHAIN, *lines)).sizes
    return size.high, size.how


@pytest.mark.parametrize(
    ("stitch", "ratio"),
    [("sc", "1/2"), ("hdc", "3/4"), ("dc", "1"), ("tr", "3/2"), ("dtr", "2"), ("trtr", "5/2")],
)
def test_a_row_of_each_stitch_against_double_crochet(stitch: str, ratio: str) -> None:
    # after row 1 of sc, half of 12.5 mm: G has 1, 3/2, 2, 3 sc to the row end of sc, hdc, dc, tr;
    # dtr and trtr are one more each by the series
    both, how = high(DC, f"row 2: ch 3, {stitch} in each st across = 10 sts")
    assert both == Fraction("6.25") + Fraction("12.5") * Fraction(ratio)
    assert how == "relative heights"


def test_rows_of_the_gauge_s_own_stitch() -> None:
    # 4 rows at 16 to 10 cm
    found = high("14 sts and 16 rows to 10 cm in sc", "rows 2-4: ch 1, sc in each st across")
    assert found == (25, "gauge rows")


def test_without_rows_in_the_gauge_nothing_is_known() -> None:
    assert high("14 sts to 10 cm in sc") == (None, "not known")


def test_a_row_is_as_high_as_most_of_it() -> None:
    # 7 sc and 3 dc: a row of sc; 5 and 5: of dc, the taller
    assert high(DC, "row 2: ch 1, 7 sc, 3 dc = 10 sts")[0] == Fraction("12.5")
    assert high(DC, "row 2: ch 1, 5 sc, 5 dc = 10 sts")[0] == Fraction("18.75")


def test_a_stitch_of_the_designer_s_own_is_as_high_as_she_says() -> None:
    # a row of 10 nubs, said to be as high as a tr: 18.75 mm beside the 6.25 of row 1
    text = pattern(DC, "flat", *CHAIN, "row 2: ch 1, 10 nub", header=("stitch nub: sc, height tr",))
    (size,) = measured(text).sizes
    assert size.high == 25


def test_one_row_of_slip_stitches_is_an_edge_of_no_height() -> None:
    assert high(DC, "row 2: ch 1, 10 sl st")[0] == Fraction("6.25")


def test_of_many_rows_of_slip_stitches_no_table_tells_the_height() -> None:
    assert high(DC, "rows 2-4: ch 1, 10 sl st") == (None, "not known")
    found = high("14 sts and 24 rows to 10 cm in sl st", "rows 2-4: ch 1, 10 sl st")
    assert found == (None, "not known")  # row 1 is of sc


def test_foundation_stitches_are_a_row_of_their_own_height() -> None:
    # foundation dc 12.5 mm, and a row of sc 6.25 mm
    text = pattern(DC, "flat", "start: 10 foundation dc", "row 1: ch 1, sc in each st across")
    (size,) = measured(text).sizes
    assert (size.high, size.how) == (Fraction("18.75"), "relative heights")
    text = pattern(DC, "flat", "start: 10 foundation dc", "row 1: ch 3, dc in each st across")
    (size,) = measured(text).sizes
    assert (size.high, size.how) == (25, "gauge rows")


def test_turning_round_by_round_is_as_high() -> None:
    # `until 10 cm` is 8 rows of the gauge. The sc round is half of one and the first dc round a
    # whole one, so 6.5 are missing: 7 more, as halves go up, and 8 dc rounds in all, 10.6 cm.
    text = pattern(
        DC,
        "in rounds",
        "start: ch 30, join into ring",
        "round 1: ch 1, sc in each ch around, join",
        "round 2: ch 3, dc in each st around, join",
        "repeat round 2: until 10 cm",
    )
    (size,) = measured(text).sizes
    assert size.high == 8 * Fraction("12.5") + Fraction("6.25")
