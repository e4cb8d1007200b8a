"""Growth from a middle: how flat it is, and the corners of motifs, by geometry."""

from __future__ import annotations

from math import pi, sqrt

import pytest
from measuring import checked, measured, pattern

from loopwright.measure.growth import allowed, corners_of, flat_growth
from loopwright.trade.flat import BAND
from support import EXAMPLES, text_of

SIX = "21 sts and 22 rounds to 10 cm in sc"


def test_what_a_flat_round_grows_by() -> None:
    assert flat_growth(0) == pytest.approx(2 * pi)  # a disc
    assert flat_growth(4) == pytest.approx(8)  # a square has four sides of twice its half width
    assert flat_growth(6) == pytest.approx(4 * sqrt(3))  # a hexagon, 6.93
    assert flat_growth(3) == pytest.approx(6 * sqrt(3))  # a triangle, 10.39
    assert flat_growth(1000) == pytest.approx(2 * pi, rel=1e-4)


def test_how_much_is_allowed_is_half_the_published_spread() -> None:
    # F: sc 6 to 10, hdc 8 to 12 (elephants), dc 10 to 15 (notflat to published hats)
    assert allowed("plain") == pytest.approx(sqrt(10 / 6))
    assert allowed("half") == pytest.approx(sqrt(12 / 8))
    assert allowed("long") == pytest.approx(sqrt(15 / 10))
    # tr has 12 to 14 from one source only: as dc
    assert BAND["double long"] == (12, 14)
    assert allowed("double long") == allowed("triple long") == allowed("long")


@pytest.mark.parametrize(
    ("corners", "round_2"),
    [
        (4, "[3 sc in next st, sc] 4 times"),
        (0, "[sc inc] 8 times"),  # two in a place make no corner
        (8, "[3 sc in next st] 8 times"),
        (4, "2 sc in next st, sc, [3 sc in next st, sc] 3 times, sc in first st"),
    ],
)
def test_corners(corners: int, round_2: str) -> None:
    text = pattern(
        SIX, "in rounds", "start: magic ring",
        "round 1: 8 sc in ring, join = 8 sts", f"round 2: ch 1, {round_2}, join",
    )  # fmt: skip
    worked = checked(text).fabrics[0].parts[0]
    assert corners_of(worked, 2) == corners


def test_a_granny_square_has_four() -> None:
    # 6 tr go into each corner, and 3 everywhere else
    (path,) = (path for path in EXAMPLES if path.stem == "harbour-square")
    form = measured(text_of(path)).form
    assert form is not None
    assert (form.kind, form.corners) == ("motif", 4)


def test_a_border_is_not_drawn_by_itself() -> None:
    (path,) = (path for path in EXAMPLES if path.stem == "pebble-cloth")
    assert measured(text_of(path), "edge").form is None
