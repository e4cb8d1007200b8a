"""Tubes whose rounds turn, or end in one worked backwards, lie open with their beginning within.

Where stitches stand is told by hand: every round begins on the first stitch of the one below, goes
to the left where it is read from right to left and else to the right, to the end of the chart, and
comes back from the other end.
"""

from __future__ import annotations

from functools import cache
from itertools import pairwise

import pytest
from chart_geometry import assert_apart, assert_on_the_page, row_of, rows_drawn
from chart_reader import read
from chart_shapes import overlaps
from test_chart_geometry import MADE_UP, assert_planted

from loopwright.pipeline import check_text
from loopwright.render.chart import Chart, chart, text
from loopwright.render.chart.values import STEP

COWL = """pattern: Backwash Cowl
terms: UK
part tube: in turned rounds
start: ch 96, join into ring
round 1: ch 1, dc in each ch around, join = 96 sts
round 2: ch 3 as tr, tr in each st around, join = 96 sts
round 3: ch 1, [dc, ch 2, miss 2 sts, 5 dc] around, join = 72 dc, 12 ch-2 sps
round 4: ch 1, dc in each st and ch around, join = 96 sts
"""
BRIM = """pattern: Crab Brim
terms: UK
part tube: in rounds
start: ch 40, join into ring
round 1: ch 1, dc in each ch around, join = 40 sts
round 2: ch 1, [3 dc, dc2tog] around, join = 32 sts
round 3: ch 1, [dc] around, join = 32 sts
round 4: ch 1, [crab dc] around, join = 32 sts
"""
# Narrow enough to be drawn whole; every second stitch of round 5 is worked with the one after it.
THUMB = """pattern: Backwash Thumb
terms: UK
part tube: in turned rounds
start: ch 26, join into ring
round 1: ch 1, dc in each ch around, join = 26 sts
round 2: ch 1, 12 dc, [dc inc] 2 times, 12 dc, join = 28 sts
round 3: ch 1, dc in each st around, join = 28 sts
round 4: ch 1, [dc, tr] around, join = 28 sts
round 5: ch 1, [tr2tog] around, join = 14 sts
"""
TUBES = {"cowl": COWL, "brim": BRIM, "thumb": THUMB}
COUNTS = {"cowl": [96, 96, 72, 96], "brim": [40, 32, 32, 32], "thumb": [26, 28, 28, 28, 14]}
each = pytest.mark.parametrize("name", TUBES)


@cache
def drawn_of(name: str) -> Chart:
    checked = check_text("tube", TUBES[name]).checked
    assert checked is not None
    return chart(checked, "tube", 0)


def goes_left(name: str, row: int) -> bool:
    """Which way a round goes: turned ones in turn, and in the brim only the last one back."""
    return row != 4 if name == "brim" else row % 2 == 1


@each
def test_it_is_drawn_as_other_tubes_are(name: str) -> None:
    drawn = drawn_of(name)
    assert drawn.manner == "flat rounds"
    assert_on_the_page(drawn)
    assert_planted(drawn)
    assert_apart(drawn)
    assert [share for share, _, _ in overlaps(drawn) if share > MADE_UP] == []
    # It is a tube laid flat: no stitch is long, whichever round it is of.
    for row in range(1, rows_drawn(drawn) + 1):
        for symbol in row_of(drawn, row):
            assert all(abs(foot.x - symbol.top.x) < 3 * STEP for foot in symbol.feet), row
            assert symbol.feet[0].y - symbol.top.y < 3.5 * STEP, row


@each
def test_rounds_go_to_one_end_and_on_from_the_other(name: str) -> None:
    drawn = drawn_of(name)
    for row in range(1, rows_drawn(drawn) + 1):
        across = [symbol.top.x for symbol in row_of(drawn, row)]
        leaps = [i for i, (one, two) in enumerate(pairwise(across)) if abs(one - two) > 8 * STEP]
        assert len(leaps) == 1, row
        one, two = across[: leaps[0] + 1], across[leaps[0] + 1 :]
        order = [*two, *one]
        assert order == sorted(order, reverse=goes_left(name, row)), row


@each
def test_first_stitches_stand_on_one_another(name: str) -> None:
    drawn = drawn_of(name)
    first = [
        min((s for s in drawn.symbols if s.row == row and s.nth == 1), key=lambda s: s.nth)
        for row in range(1, rows_drawn(drawn) + 1)
    ]
    across = [symbol.top.x for symbol in first]
    assert max(across[:4]) - min(across[:4]) < 1.5 * STEP
    numbers = {mark.text: mark.at.x for mark in drawn.marks}
    for row, x in enumerate(across[:4], start=1):
        assert (numbers[str(row)] > x) == goes_left(name, row)


@each
def test_its_words_say_where_rounds_begin(name: str) -> None:
    told = text(drawn_of(name), "UK")
    assert "Rounds begin within the chart and go on at its other end." in told
    assert [row.stitches for row in read(told, "UK").rows] == COUNTS[name]
    assert len(drawn_of(name).breaks) == (0 if name == "thumb" else 2)


def test_tubes_that_do_not_turn_begin_at_the_right() -> None:
    checked = check_text("tube", BRIM.replace("crab dc", "dc")).checked
    assert checked is not None
    drawn = chart(checked, "tube", 0)
    assert "begin within" not in text(drawn, "UK")
    for row in range(1, 5):
        across = [symbol.top.x for symbol in row_of(drawn, row)]
        assert across == sorted(across, reverse=True)
