"""The line where repeats are left out goes up between stitches, and through none.

By hand: of 6 stitches the third is under 2 chains in rows 3 and 4, the sixth in rows 5 and 6, and a
treble goes past the chains into the stitch they left out. Between the first and the second, and
between the fourth and the fifth, nothing but stitches stands on either side in any row.
"""

from __future__ import annotations

import pytest
from chart_geometry import row_of
from chart_shapes import ink
from shapely.geometry import LineString

from loopwright.pipeline import check_text
from loopwright.render.chart import Chart, chart
from loopwright.render.chart.values import STEP

BLANKET = """pattern: Groyne Blanket
terms: UK
part blanket: flat
start: ch 136
row 1: dc in 2nd ch from hook, dc in each ch across = 135 sts
row 2: ch 1, dc in each st across = 135 sts
row 3: ch 1, 2 dc, [ch 2, miss 1 st, 5 dc] to last st, dc in last st
row 4: ch 1, dc in first st, [5 dc, ch 2, miss next ch-2 sp] to last 2 sts, 2 dc
row 5: ch 1, 2 dc, [tr in next skipped st of row 3, 2 dc, ch 2, miss 1 st, 2 dc] to last st, dc
row 6: ch 1, dc in first st, [2 dc, ch 2, miss next ch-2 sp, 3 dc] to last 2 sts, 2 dc
row 7: ch 1, 2 dc, [3 dc, tr in next skipped st of row 5, 2 dc] to last st, dc = 135 sts
"""


@pytest.fixture(scope="module")
def blanket() -> Chart:
    checked = check_text("blanket", BLANKET).checked
    assert checked is not None
    return chart(checked, "blanket", 0)


def test_the_line_goes_straight_up_and_through_no_symbol(blanket: Chart) -> None:
    (line,) = blanket.breaks
    across = [point.x for point in line.points]
    assert max(across) - min(across) < STEP / 2
    drawn = LineString(line.points).buffer(4)  # two zigzag lines, 1.8 + 2.2 to either side
    for symbol in blanket.symbols:
        assert not ink(symbol).intersects(drawn), symbol


def test_what_goes_further_down_stands_over_its_place(blanket: Chart) -> None:
    for row, below in ((5, 2), (7, 4)):
        trebles = [s for s in row_of(blanket, row) if s.feet[0].y - s.top.y > 2 * STEP]
        assert len(trebles) >= 2
        for treble in trebles:
            assert abs(treble.top.x - treble.feet[0].x) < STEP / 2
            under = min(row_of(blanket, below), key=lambda s, t=treble: abs(s.top.x - t.feet[0].x))
            assert under.top.x == pytest.approx(treble.feet[0].x, abs=4)
