"""Charts of rounds: from the centre, anticlockwise, spirals as spirals, corners as corners."""

from __future__ import annotations

from itertools import pairwise
from math import degrees, pi

import chart_fabrics as fabrics
import pytest
from chart_geometry import angle, apart, assert_apart, assert_on_the_page, row_of, turning
from chart_shapes import lines, overlaps
from chart_wedges import LARGE

from loopwright.pipeline import check_text
from loopwright.render.chart import Chart, chart, text
from loopwright.render.chart.spots import height_of
from loopwright.render.chart.symbols import strokes
from loopwright.render.chart.values import STEP, Point
from loopwright.trade.stitches import Stitch


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
        assert turns == pytest.approx([45, 135, 225, 315], abs=4)


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
        assert apart(join.top, chain.top) < 9


def test_stitches_into_a_space_stand_side_by_side() -> None:
    drawn = chart(fabrics.granny(), "piece", 0)
    group = row_of(drawn, 2)[-3:]
    assert len({symbol.feet for symbol in group}) == 3
    assert apart(group[0].feet[0], group[-1].feet[0]) < 24


def test_moving_to_a_new_place_shows_the_slip_stitches() -> None:
    # Each round moves past the chain that counts and two stitches, to the corner.
    drawn = chart(fabrics.granny(), "piece", 0)
    for row in (2, 3):
        slips = [s for s in drawn.symbols if s.row == row and "along" in str(s.words[-1])]
        assert [symbol.look.shape for symbol in slips] == ["dot"] * 3


@pytest.mark.parametrize("name", ["coaster", "granny"])
def test_symbols_lie_on_the_page_and_apart(name: str) -> None:
    drawn = chart(getattr(fabrics, name)(), "piece", 0)
    assert_on_the_page(drawn)
    assert_apart(drawn)


OVAL = """
pattern: Driftwood Tray
terms: US
part tray: in rounds
start: ch 10
round 1: sc in 2nd ch from hook, sc in each of next 7 ch, 3 sc in last ch,
    other side, 7 sc, 2 sc in last st, join = 20 sts
round 2: ch 1, 8 sc, 2 sc in each of next 3 sts, 7 sc, 2 sc in each of next 2 sts, join = 25 sts
"""

FAN = """
pattern: Half a Limpet
terms: UK
part half: flat
start: magic ring
row 1: ch 3 as tr, 6 tr in ring = 7 sts
row 2: ch 3 as tr, tr in same st, [2 tr in next st] 6 times = 14 sts
"""


def drawn_from(pattern: str) -> Chart:
    checked = check_text("sample.crochet", pattern.strip()).checked
    assert checked is not None
    return chart(checked, checked.pattern.parts[0].name, 0)


def test_an_oval_goes_along_both_sides_of_its_chain() -> None:
    drawn = drawn_from(OVAL)
    assert drawn.manner == "oval"
    chains = [s for s in drawn.symbols if s.row == 0 and s.look.shape == "chain"]
    assert len(chains) == 9  # ten, of which one stands upright
    level = chains[0].path[0].y
    first = row_of(drawn, 1)
    assert len(first) == 20
    assert len(row_of(drawn, 2)) == 25
    assert all(symbol.top.y < level for symbol in first[:8])
    assert all(symbol.top.y > level for symbol in first[11:18])
    left = min(point.x for chain in chains for point in chain.path)
    assert first[9].top.x < left
    middle = Point(sum(c.top.x for c in chains) / 9, level)
    for one, two in pairwise(first):
        assert turning(one.top, two.top, middle) > 0
    assert_on_the_page(drawn)
    assert_apart(drawn)


def test_rows_from_a_ring_lie_in_a_half_circle() -> None:
    drawn = drawn_from(FAN)
    assert drawn.manner == "half circle"
    [ring] = [s for s in drawn.symbols if s.look.shape == "magic ring"]
    for row, count in ((1, 6), (2, 13)):  # less the chain that counts
        tops = [symbol.top for symbol in row_of(drawn, row)]
        assert len(tops) == count
        assert all(top.y < ring.top.y + 10 for top in tops)
        for one, two in pairwise(tops):
            # The second row is worked on the wrong side, and goes back clockwise.
            assert (turning(one, two, ring.top) > 0) == (row == 1)
    assert "Wrong-side rows are read clockwise." in text(drawn, "UK")
    assert_on_the_page(drawn)
    assert_apart(drawn)


def test_a_square_that_is_turned_lies_as_one_that_is_not() -> None:
    """Turning changes which way each round goes, not where its stitches lie."""
    plain, turned = (
        drawn_from(LARGE["granny"].text.replace("in rounds", manner).replace("-14", "-8"))
        for manner in ("in rounds", "in turned rounds")
    )
    assert turned.width == pytest.approx(plain.width, abs=STEP)
    assert turned.height == pytest.approx(plain.height, abs=STEP)
    assert_on_the_page(turned)
    assert_apart(turned)
    middle = centre(turned)
    for row in range(2, 9):
        tops = [symbol.top for symbol in row_of(turned, row)]
        ways = [turning(one, two, middle) > 0 for one, two in pairwise(tops)]
        assert ways == [row % 2 == 1] * len(ways)


# Every round has twice the stitches of the one below: no cloth lies flat so.
CORAL = """
pattern: Coral
terms: UK
part coral: in a spiral, frilled
start: magic ring
round 1: 6 dc in ring = 6 sts
rounds 2-6 as r: [dc inc] around = {3 * 2 ^ r} sts
"""


def test_a_frill_is_drawn_close_and_in_two_levels() -> None:
    drawn = drawn_from(CORAL)
    middle = centre(drawn)
    out = [apart(symbol.top, middle) for symbol in row_of(drawn, 6)]
    # 192 stitches side by side would take a circle of 192 / 2 pi = 30.6 stitches.
    assert max(out) < 0.66 * 30.6 * STEP
    steps = [abs(one - two) for one, two in pairwise(out)]
    assert sum(step > 0.5 * STEP for step in steps) > 0.9 * len(steps)
    assert_apart(drawn, 8.0)
    for share, one, two in overlaps(drawn):
        assert share <= 0.2, (one.nth, two.nth)


def test_what_crosses_a_long_post_is_near_its_top() -> None:
    drawn = drawn_from(CORAL)
    middle = centre(drawn)
    usual = height_of(Stitch("plain")) * STEP
    long = [symbol for symbol in row_of(drawn, 6) if symbol.scale > 2]
    assert long
    for symbol in long:
        _, bar = strokes(symbol)
        [line] = lines(bar.path)
        x, y = (sum(values) / len(values) for values in zip(*line, strict=True))
        # Half way up a post of usual length, and a little less near the top of a long one.
        assert apart(Point(x, y), symbol.top) == pytest.approx(0.65 * usual, abs=0.5)
        assert apart(Point(x, y), middle) < apart(symbol.top, middle)


def test_a_frill_too_wide_for_a_page_is_a_wedge() -> None:
    drawn = drawn_from(CORAL.replace("2-6", "2-7"))
    # Round 4 is the first of 48 symbols, and 3 of 24 repeats the least that can be read.
    assert "Rounds 4 to 7 are drawn in part, 3 of the 24 repeats" in " ".join(
        text(drawn, "UK").split()
    )
    assert [len(row_of(drawn, row)) for row in range(1, 8)] == [6, 12, 24, 6, 12, 24, 48]


NET = """
pattern: Backwash Net
terms: UK
part net: in turned rounds
start: magic ring
round 1: ch 1, 12 dc in ring, join = 12 sts
round 2: ch 1, [dc, ch 2] around, join = 12 dc, 12 ch-2 sps
round 3: ch 1, dc in each st and ch around, join = 36 sts
round 4: ch 1, [dc, ch 1, skip 1 st] around, join = 18 dc, 18 ch-1 sps
round 5: ch 1, dc in each st and ch around, join = 36 sts
"""
BORDER = """
pattern: Backwash Border
terms: UK
part cloth: flat
start: ch 12
row 1: dc in 2nd ch from hook, dc in each ch across = 11 sts
rows 2-13: ch 1, dc in each st across = 11 sts

part net: MANNER
start: all round cloth
round 1: ch 1, [3 dc in next st, 9 dc, 3 dc in next st, [dc in next row end] 13 times] 1 times,
    3 dc in next ch, 9 dc, 3 dc in next ch, [dc in next row end] 13 times, join = 56 sts
round 2: ch 1, SECOND around, join
round 3: ch 1, dc in each st and ch around, join = 56 sts
"""


@pytest.mark.parametrize(
    "written",
    [
        NET.replace("skip", "miss"),
        BORDER.replace("MANNER", "in turned rounds").replace("SECOND", "[dc, ch 1, miss 1 st]"),
        BORDER.replace("MANNER", "in rounds").replace("SECOND", "[crab dc]"),
    ],
    ids=["into chains", "into the chains of a border", "after a round worked backwards"],
)
def test_what_goes_back_stands_where_it_is_worked(written: str) -> None:
    checked = check_text("sample.crochet", written.strip()).checked
    assert checked is not None
    drawn = chart(checked, "net", 0)
    for row in range(1, 4):
        for symbol in row_of(drawn, row):
            assert apart(symbol.feet[0], symbol.top) < 2.5 * STEP, (row, symbol.nth)
