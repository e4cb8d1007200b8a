"""The bracket of a repeat goes over one whole repeat, whatever the first row is worked into.

By hand: a buttonhole every 8 stitches, 2 chains and the 6 stitches after them, and two stitches in
each place of the start. So a repeat is 8 stitches wide, over 4 places.
"""

from __future__ import annotations

import pytest
from chart_geometry import row_of

from loopwright.pipeline import check_text
from loopwright.render.chart import Chart, chart, text
from loopwright.render.chart.values import STEP

HOLES = """row 2: ch 1, 3 sc, [ch 2, skip 2 sts, 6 sc] 4 times, ch 2, skip 2 sts, 9 sc
row 3: ch 1, sc in each st and ch across = 46 sts
row 4: ch 1, sc in each st across
"""
HEAD = "pattern: Slipway Band\nterms: US\n"
EDGE = """part side: flat
start: 8 foundation sc
row 1: ch 1, sc in each st across = 8 sts
repeat row 1: 21 more times

part band: flat
start: along row ends of side
row 1: ch 1, 2 sc in each row end across = 46 sts
"""
TWICE = "part band: flat\nstart: 23 foundation sc\nrow 1: ch 1, 2 sc in each st across = 46 sts\n"
CHAIN = "part band: flat\nstart: ch 47\nrow 1: sc in 2nd ch from hook, sc in each ch across\n"


def drawn(rows: str) -> Chart:
    checked = check_text("band", HEAD + rows + HOLES).checked
    assert checked is not None
    return chart(checked, "band", 0)


@pytest.mark.parametrize(
    ("rows", "sts"), [(CHAIN, 8), (EDGE, 8), (TWICE, 4)], ids=["chain", "row ends", "2 in each"]
)
def test_a_bracket_goes_over_a_whole_buttonhole(rows: str, sts: int) -> None:
    band = drawn(rows)
    (bracket,) = band.brackets
    # 3 stitches, then 5 times a buttonhole and 6 stitches, of which 3 are left over at the end.
    assert bracket.text == f"{sts} sts, work 5 times"
    assert f"The repeat of {sts} stitches in the bracket" in text(band, "US")
    low, high = sorted((bracket.one.x, bracket.two.x))
    assert high - low == pytest.approx(8 * STEP, abs=STEP / 2)
    # One hole lies in it and is not cut: its chains are 2 stitches wide.
    holes = [
        [point.x for point in symbol.path]
        for symbol in band.symbols
        if symbol.row == 2 and len(symbol.path) == 3
    ]
    whole = [xs for xs in holes if low <= min(xs) and max(xs) <= high]
    outside = [xs for xs in holes if max(xs) <= low or min(xs) >= high]
    assert len(whole) == 1
    assert len(whole) + len(outside) == len(holes)
    # 8 stitches of the row above stand over it.
    assert sum(low < symbol.top.x < high for symbol in row_of(band, 3)) == 8


def test_a_bracket_lies_below_what_the_part_begins_on() -> None:
    for rows in (CHAIN, EDGE, TWICE):
        band = drawn(rows)
        (bracket,) = band.brackets
        assert (
            bracket.one.y
            > max(max(s.top.y, *(p.y for p in s.path)) for s in band.symbols if s.path) + 3
        )


def test_between_two_increases_only_what_lies_between_them_is_left_out() -> None:
    """Two increases in a row of 82 stitches, 20 from either end: 40 lie between them, and 12 of
    those are kept."""
    rows = (
        "part side: flat\nstart: ch 83\nrow 1: sc in 2nd ch from hook, sc in each ch across\n\n"
        "part body: flat\nstart: along last row of side\n"
        "row 1: ch 1, 20 sc, 2 sc in next st, 40 sc, 2 sc in next st, 20 sc = 84 sts\n"
        "row 2: ch 1, hdc in each st across = 84 sts\n"
    )
    checked = check_text("band", HEAD + rows).checked
    assert checked is not None
    body = chart(checked, "body", 0)
    assert [bracket.text for bracket in body.brackets] == ["1 st, work 40 times"]
    first = row_of(body, 1)
    assert len(first) == 84 - 40 + 12
    pairs = [i for i in range(len(first) - 1) if first[i].feet == first[i + 1].feet]
    assert pairs == [20, len(first) - 22]
