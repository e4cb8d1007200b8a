"""Stitches that were left unworked are taken up where they stand, each of them once.

Told by hand. Right-side rows run from right to left, so columns are counted from the right: row 2
comes to its end at the right edge and leaves a stitch there, row 3 leaves one at the left. Row 4
ends at the right edge again, row 5 at the left.
"""

from __future__ import annotations

import pytest
from chart_geometry import row_of

from loopwright.pipeline import check_text
from loopwright.render.chart import Chart, Symbol, chart

HEAD = "pattern: Turnstone Heel\nterms: US\n"
SHORT = """part heel: flat
start: ch 11
row 1: sc in 2nd ch from hook, sc in each ch across = 10 sts
row 2: ch 1, 9 sc, leave 1 unworked
row 3: ch 1, 8 sc, leave 1 unworked
row 4: ch 1, 8 sc, sc in next unworked st
row 5: ch 1, 9 sc, sc in next unworked st
row 6: ch 1, sc in each st across = 10 sts
"""
TWICE = """part heel: flat
start: ch 11
row 1: sc in 2nd ch from hook, sc in each ch across = 10 sts
row 2: ch 1, 9 sc, leave 1 unworked
row 3: ch 1, 8 sc, leave 1 unworked
row 4: ch 1, 7 sc, leave 1 unworked
row 5: ch 1, 6 sc, leave 1 unworked
row 6: ch 1, 6 sc, sc in next unworked st
row 7: ch 1, 7 sc, sc in next unworked st
row 8: ch 1, 8 sc, sc in next unworked st
row 9: ch 1, 9 sc, sc in next unworked st
row 10: ch 1, sc in each st across = 10 sts
"""


def drawn(rows: str) -> Chart:
    checked = check_text("heel", HEAD + rows).checked
    assert checked is not None
    return chart(checked, "heel", 0)


def stands_on(symbol: Symbol, below: Symbol) -> None:
    """A symbol starts at the top of another, to a third of a stitch, and leans no further."""
    assert symbol.feet[0].x == pytest.approx(below.top.x, abs=6)
    assert symbol.feet[0].y == pytest.approx(below.top.y, abs=6)
    assert symbol.top.x == pytest.approx(below.top.x, abs=8)


def test_what_each_edge_was_left_is_taken_up_at_that_edge() -> None:
    heel = drawn(SHORT)
    stands_on(row_of(heel, 4)[8], row_of(heel, 1)[0])  # the right edge: what row 2 left of row 1
    stands_on(row_of(heel, 5)[9], row_of(heel, 2)[0])  # the left edge: what row 3 left of row 2


def test_what_was_left_last_lies_nearest() -> None:
    heel = drawn(TWICE)
    rows = [row_of(heel, row) for row in range(11)]
    # At the right edge row 2 left the first of row 1, and row 4 the first of row 3, further in.
    stands_on(rows[6][6], rows[3][0])
    stands_on(rows[8][8], rows[1][0])
    # At the left edge row 3 left the first of row 2, and row 5 the first of row 4.
    stands_on(rows[7][7], rows[4][0])
    stands_on(rows[9][9], rows[2][0])


def test_what_is_left_in_the_middle_of_a_row_is_taken_up_there() -> None:
    heel = drawn(
        "part heel: flat\nstart: 8 foundation sc\n"
        "row 1: ch 1, 3 sc, leave 2 unworked, 3 sc = 6 sts\nrow 2: ch 1, 6 sc = 6 sts\n"
        "row 3: ch 1, 3 sc, sc in each of 2 unworked sts, 3 sc = 8 sts\n"
    )
    base = [s for s in heel.symbols if s.row == 0 and s.look.shape == "stitch"]
    for symbol, below in zip(row_of(heel, 3)[3:5], base[3:5], strict=True):
        assert symbol.feet[0].x == pytest.approx(below.top.x, abs=6)


HEEL = """part heel: in rounds
start: ch 20, join into ring
rounds 1-2: ch 1, sc in each st around, join = 20 sts
row 3: ch 1, 10 sc, leave 10 unworked, turn
row 4: ch 1, 9 sc, leave 1 unworked
row 5: ch 1, 8 sc, leave 1 unworked
row 6: ch 1, 8 sc, sc in next unworked st
"""


def test_a_heel_within_rounds() -> None:
    """Row 7 comes to its end beside what row 3 left, and the round goes on into that; the stitches
    of the heel come past those, at the far end of the page, as the round comes to them."""
    heel = drawn(
        HEEL + "row 7: ch 1, 9 sc, sc in next unworked st, do not turn\n"
        "round 8: ch 1, sc in each of 10 unworked sts, 10 sc, join = 20 sts\n"
    )
    rows = [row_of(heel, row) for row in range(9)]
    stands_on(rows[6][8], rows[3][0])
    stands_on(rows[7][9], rows[4][0])
    for symbol, below in zip(rows[8][:10], rows[2][10:], strict=True):
        stands_on(symbol, below)
    assert [s.top.x for s in rows[8]] == sorted((s.top.x for s in rows[8]), reverse=True)


def test_a_round_after_rows_that_turn() -> None:
    """The same heel, turned at the end of row 7 as at that of any row: back over the heel, from
    left to right, and past the join on into what row 3 left."""
    heel = drawn(
        HEEL + "row 7: ch 1, 9 sc, sc in next unworked st\n"
        "round 8: ch 1, 10 sc, sc in each of 10 unworked sts, join = 20 sts\n"
    )
    rows = [row_of(heel, row) for row in range(9)]
    for symbol, below in zip(rows[8][:10], reversed(rows[7]), strict=True):
        stands_on(symbol, below)
    assert [s.top.x for s in rows[8]] == sorted(s.top.x for s in rows[8])


def test_short_rows_at_both_sides_of_the_join() -> None:
    """Row 2 goes back from the join over 16 of 20 and leaves 4; row 3 goes over 12 of the 16 and
    leaves 4 at the other end; row 4 leaves 2 beside the first 4. Round 5 goes on from there to the
    join, and past it."""
    heel = drawn(
        "part heel: in rounds, shaped\nstart: ch 20, join into ring\n"
        "round 1: ch 1, sc in each ch around, join, turn = 20 sts\n"
        "row 2: ch 1, 16 hdc, leave 4 unworked\nrow 3: ch 1, 12 hdc, leave 4 unworked\n"
        "row 4: ch 1, 10 hdc, leave 2 unworked\n"
        "round 5: ch 1, 10 hdc, dc in each of 10 unworked sts, join = 20 sts\n"
    )
    rows = [row_of(heel, row) for row in range(6)]
    for symbol, below in zip(rows[5][:10], reversed(rows[4]), strict=True):
        stands_on(symbol, below)
    # What row 3 left are the first 4 of row 2, the last of them nearest.
    for symbol, below in zip(rows[5][10:14], reversed(rows[2][:4]), strict=True):
        stands_on(symbol, below)
    # Past the join: what row 2 left of round 1, then what row 4 left of row 3, once around further.
    past = [*rows[1][:4], *rows[3][:2]]
    shifts = {
        round(below.top.x - symbol.feet[0].x)
        for symbol, below in zip(rows[5][14:], past, strict=True)
    }
    assert len(shifts) == 1
    assert shifts.pop() >= rows[1][0].top.x - rows[1][-1].top.x
