"""Charts of rounds: from the centre, anticlockwise, spirals as spirals, corners as corners."""

from __future__ import annotations

from itertools import pairwise
from math import degrees, pi

import chart_fabrics as fabrics
import pytest
from chart_geometry import angle, apart, assert_apart, assert_on_the_page, row_of, turning

from loopwright.render.chart import Chart, chart
from loopwright.render.chart.values import Point


def centre(drawn: Chart) -> Point:
    """Where the ring of a chart is."""
    [ring] = [s for s in drawn.symbols if s.look.shape in ("magic ring", "chain ring")]
    return ring.top


def test_a_spiral_has_its_stitches_in_every_round() -> None:
    drawn = chart(fabrics.coaster(), "piece", 0)
    assert drawn.manner == "rounds"
    assert [len(row_of(drawn, r)) for r in range(1, 7)] == [6, 12, 18, 24, 30, 36]


def test_rounds_run_anticlockwise() -> None:
    for drawn in (chart(fabrics.coaster(), "piece", 0), chart(fabrics.granny(), "piece", 0)):
        middle = centre(drawn)
        for row in range(1, 4):
            tops = [symbol.top for symbol in row_of(drawn, row)]
            for one, two in pairwise(tops):
                assert turning(one, two, middle) > 0


def test_a_round_goes_once_around() -> None:
    drawn = chart(fabrics.coaster(), "piece", 0)
    middle = centre(drawn)
    for row in range(1, 7):
        tops = [symbol.top for symbol in row_of(drawn, row)]
        turns = [(angle(b, middle) - angle(a, middle)) % (2 * pi) for a, b in pairwise(tops)]
        assert sum(turns) < 2 * pi


def test_a_spiral_rises_as_it_goes() -> None:
    drawn = chart(fabrics.coaster(), "piece", 0)
    middle = centre(drawn)
    for row in (2, 3, 4, 5, 6):
        stitches = row_of(drawn, row)
        first, last = stitches[0].top, stitches[-1].top
        assert apart(last, middle) > apart(first, middle)
        # The next round goes on from this height, to half a stitch.
        if row < 6:
            onward = row_of(drawn, row + 1)[0].top
            assert apart(onward, middle) == pytest.approx(apart(last, middle), abs=8)


def test_an_increase_has_one_foot() -> None:
    drawn = chart(fabrics.coaster(), "piece", 0)
    second = row_of(drawn, 2)
    for one, two in zip(second[::2], second[1::2], strict=True):
        assert one.feet == two.feet
    assert len({symbol.feet for symbol in second}) == 6


def test_a_square_has_four_corners() -> None:
    drawn = chart(fabrics.granny(), "piece", 0)
    middle = centre(drawn)
    for row in (1, 2, 3):
        chains = [s for s in drawn.symbols if s.row == row and s.look.shape == "chain"]
        corners = [symbol for symbol in chains if len(symbol.path) == 3]  # two chains
        assert len(corners) == 4
        turns = sorted(degrees(angle(s.top, middle)) % 360 for s in corners)
        assert turns == pytest.approx([45, 135, 225, 315], abs=3)


def test_the_sides_of_a_square_are_straight() -> None:
    drawn = chart(fabrics.granny(), "piece", 0)
    middle = centre(drawn)
    lowest = [s for s in row_of(drawn, 3) if abs(degrees(angle(s.top, middle)) + 90) < 40]
    assert len(lowest) >= 5
    assert max(s.top.y for s in lowest) - min(s.top.y for s in lowest) < 4


def test_a_counted_chain_is_upright_and_the_join_on_it() -> None:
    drawn = chart(fabrics.granny(), "piece", 0)
    for row in (1, 2, 3):
        [chain] = [s for s in drawn.symbols if s.row == row and s.look.shape == "upright chain"]
        assert len(chain.path) == 4  # three chains
        [join] = [s for s in drawn.symbols if s.row == row and s.words == ("join",)]
        assert apart(join.top, chain.top) < 5


def test_stitches_into_a_space_stand_side_by_side() -> None:
    drawn = chart(fabrics.granny(), "piece", 0)
    group = row_of(drawn, 2)[-3:]
    assert len({symbol.feet for symbol in group}) == 3
    assert apart(group[0].feet[0], group[-1].feet[0]) < 24


def test_moving_to_a_new_place_shows_the_slip_stitches() -> None:
    # Each round moves past the chain that counts and two stitches, to the corner.
    drawn = chart(fabrics.granny(), "piece", 0)
    for row in (2, 3):
        slips = [s for s in drawn.symbols if s.row == row and s.nth == 0]
        assert [symbol.look.shape for symbol in slips] == ["dot"] * 3


@pytest.mark.parametrize("name", ["coaster", "granny"])
def test_symbols_lie_on_the_page_and_apart(name: str) -> None:
    drawn = chart(getattr(fabrics, name)(), "piece", 0)
    assert_on_the_page(drawn)
    assert_apart(drawn)
