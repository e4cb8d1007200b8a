"""Stitches that go further down than the row below start where they are worked into.

Every place is told here by hand: the stitches stand in columns, and a column has one x.
"""

from __future__ import annotations

import pytest
from chart_geometry import row_of, rows_drawn

from loopwright.pipeline import check_text
from loopwright.render.chart import Chart, Symbol, chart

HEAD = "pattern: Groyne Sampler\nterms: UK\n"
DOWN = ", dc in next st 2 rows below"


def drawn(rows: str) -> Chart:
    checked = check_text("sample", HEAD + rows).checked
    assert checked is not None
    return chart(checked, "a", 0)


def starts_on(symbol: Symbol, below: Symbol, near: float = 6.0) -> None:
    """A symbol starts at the top of another, to a third of a stitch."""
    assert symbol.feet[0].x == pytest.approx(below.top.x, abs=near)
    assert symbol.feet[0].y == pytest.approx(below.top.y, abs=near)


def test_a_spike_goes_into_the_stitch_straight_below() -> None:
    chart_ = drawn(
        "part a: flat\nstart: 8 foundation dc\nrow 1: ch 1, [dc] across\nrow 2: ch 1, [dc] across\n"
        "row 3: ch 1, [dc, dc in next st 2 rows below] across = 8 sts\n"
    )
    third, first = row_of(chart_, 3), row_of(chart_, 1)
    # Rows 1 and 3 go the same way, so that stitch n of one stands over stitch n of the other.
    for n in (1, 3, 5, 7):
        starts_on(third[n], first[n])
        assert third[n].top.y == pytest.approx(third[n - 1].top.y, abs=4)


def test_a_stitch_goes_into_a_space_of_an_earlier_round() -> None:
    chart_ = drawn(
        "part a: in rounds\nstart: 8 foundation dc\n"
        "round 1: ch 3 as tr, tr, [ch 2, 2 tr] 3 times, ch 2, join = 8 tr, 4 ch-2 sps\n"
        "round 2: ch 1, [2 dc, ch 2, skip next ch-2 sp] 4 times, join\n"
        "round 3: ch 1, [2 dc, 2 tr in next ch-2 sp of round 1] 4 times, join = 16 sts\n"
    )
    spaces = [s for s in chart_.symbols if s.row == 1 and s.look.shape == "chain"]
    assert len(spaces) == 4
    third = row_of(chart_, 3)
    for n, space in enumerate(spaces):
        for symbol in third[4 * n + 2 : 4 * n + 4]:
            starts_on(symbol, space, near=8)


def test_a_stitch_goes_into_what_a_round_skipped() -> None:
    chart_ = drawn(
        "part a: in rounds\nstart: 8 foundation dc\n"
        "round 1: ch 1, [dc, ch 1, skip 1 st] 4 times, join = 4 dc, 4 ch-1 sps\n"
        "round 2: ch 1, [dc, tr in next skipped st of round 1] 4 times, join = 8 sts\n"
    )
    base = [s for s in chart_.symbols if s.row == 0 and s.look.shape == "stitch"]
    for n, symbol in enumerate(row_of(chart_, 2)[1::2]):
        starts_on(symbol, base[2 * n + 1])


def test_what_was_left_is_taken_up_again() -> None:
    chart_ = drawn(
        "part a: flat\nstart: 8 foundation dc\nrow 1: ch 1, 4 dc, leave 4 unworked = 4 sts\n"
        "row 2: ch 1, 4 dc = 4 sts\nrow 3: ch 1, 4 dc, dc in each of 4 unworked sts = 8 sts\n"
    )
    base = [s for s in chart_.symbols if s.row == 0 and s.look.shape == "stitch"]
    for symbol, below in zip(row_of(chart_, 3)[4:], base[4:], strict=True):
        starts_on(symbol, below)


def test_slip_stitches_before_a_change_of_yarn_are_in_the_old_one() -> None:
    text = """part a: in rounds, yarn rock
start: magic ring
round 1: ch 3 as tr, 2 tr in ring, [ch 2, 3 tr in ring] 3 times, ch 2, join
round 2: move to next ch-2 sp, with foam, ch 3 as tr, (2 tr, ch 2, 3 tr) in same sp,
    [(3 tr, ch 2, 3 tr) in next ch-2 sp] 3 times, join
"""
    yarns = 'yarn rock: "cotton"\nyarn foam: "cotton"\n'
    for written, letter in (("", "rock"), ("swap", "foam")):
        words = text.replace("move to next ch-2 sp, with foam", "with foam, move to next ch-2 sp")
        chart_ = drawn(yarns + (words if written else text))
        slips = [s for s in chart_.symbols if s.row == 2 and "along" in str(s.words[-1])]
        assert len(slips) == 3
        assert {chart_.yarns[s.yarn][1] for s in slips} == {letter}


def test_stitches_of_a_repeat_straight_after_one_another_go_into_one_space_each() -> None:
    chart_ = drawn(
        "part a: in rounds\nstart: 8 foundation dc\n"
        "round 1: ch 3 as tr, tr, [ch 2, 2 tr] 3 times, ch 2, join = 8 tr, 4 ch-2 sps\n"
        "round 2: ch 1, [dc, ch 2, skip 1 st, skip next ch-2 sp] 4 times, join\n"
        "round 3: ch 1, 4 dc, [2 tr in next ch-2 sp of round 1] 4 times, join = 12 sts\n"
    )
    spaces = [s for s in chart_.symbols if s.row == 1 and s.look.shape == "chain"]
    tall = row_of(chart_, 3)[4:]
    assert len(tall) == 8
    for n, symbol in enumerate(tall):
        nearest = min(spaces, key=lambda space: abs(space.top.x - symbol.feet[0].x))
        assert nearest is spaces[n // 2]


def test_spikes_of_a_repeat_straight_after_one_another_go_straight_down() -> None:
    for written in ("4 dc, [dc in next st 2 rows below] 4 times", "4 dc" + DOWN * 4):
        chart_ = drawn(
            "part a: flat\nstart: 8 foundation dc\nrow 1: ch 1, [dc] across\n"
            f"row 2: ch 1, [dc] across\nrow 3: ch 1, {written} = 8 sts\n"
        )
        third, first = row_of(chart_, 3), row_of(chart_, 1)
        for n in range(4, 8):
            starts_on(third[n], first[n])


def test_as_many_spikes_as_are_written_go_into_one_place() -> None:
    chart_ = drawn(
        "part a: flat\nstart: 8 foundation dc\nrow 1: ch 1, [dc] across\nrow 2: ch 1, [dc] across\n"
        "row 3: ch 1, 2 dc, [2 dc in next st 2 rows below] 3 times, 3 dc = 11 sts\n"
    )
    third, first = row_of(chart_, 3), row_of(chart_, 1)
    for n in range(3):
        for symbol in third[2 + 2 * n : 4 + 2 * n]:
            nearest = min(first, key=lambda below: abs(below.top.x - symbol.feet[0].x))
            assert nearest is first[2 + n]


MOSAIC = """pattern: Lattice
terms: UK
part cowl: in rounds
start: ch 18, join into ring
round 1: ch 1, dc in each ch around, join
round 2: ch 1, dc blo in each st around, join
round 3: ch 1, dc blo in each st around, join
round 4: ch 1, [dc blo, tr flo in next st 2 rows below, 4 dc blo] around, join
round 5: ch 1, dc blo in each st around, join
round 6: ch 1, [3 dc blo, tr flo in next st 2 rows below, 2 dc blo] around, join
repeat rounds 3-6: 4 more times
"""


def test_overlays_that_are_repeated_stand_straight_on_what_they_meet_then() -> None:
    # The second time round 3 meets round 6, with its trebles, where it first met plain round 2.
    checked = check_text("lattice", MOSAIC).checked
    assert checked is not None
    drawn = chart(checked, "cowl", 0)
    columns = [symbol.top.x for symbol in row_of(drawn, 1)]
    assert rows_drawn(drawn) == 10
    for row in range(2, 11):
        stitches = row_of(drawn, row)
        for along in ([one.top.x for one in stitches], [one.feet[0].x for one in stitches]):
            assert along == pytest.approx(columns, abs=1)
    # Worked two rounds below: the trebles of round 8 start under the tops of their round 6.
    for nth in (1, 7, 13):
        treble, below = row_of(drawn, 8)[nth], row_of(drawn, 6)[nth]
        starts_on(treble, below)


def test_a_row_that_goes_back_comes_to_what_was_skipped_from_its_end() -> None:
    """Row 2 goes from left to right and skips the 3rd stitch and the 10th; row 3 comes back and
    meets the one that was skipped last first. Each treble stands straight over a column."""
    chart_ = drawn(
        "part a: flat\nstart: ch 13\nrow 1: dc in 2nd ch from hook, dc in each ch across = 12 sts\n"
        "row 2: ch 1, 2 dc, ch 1, skip 1 st, 6 dc, ch 1, skip 1 st, 2 dc = 10 dc, 2 ch-1 sps\n"
        "row 3: ch 1, 2 dc, tr in next skipped st of row 2, 6 dc, tr in next skipped st of row 2,"
        " 2 dc = 12 sts\n"
    )
    first, third = row_of(chart_, 1), row_of(chart_, 3)
    for n in (2, 9):  # rows 1 and 3 go the same way
        starts_on(third[n], first[n])
        assert third[n].top.x == pytest.approx(first[n].top.x, abs=6)


def test_a_round_that_goes_back_begins_with_what_was_skipped_there() -> None:
    """Of 12 stitches round 2 skips the 1st, 4th, 7th and 10th. Turned, round 3 begins in the same
    place and then goes back: 1st, 10th, 7th, 4th."""
    chart_ = drawn(
        "part a: in rounds\nstart: 8 foundation dc\nround 1: ch 1, [2 dc in next st] 4 times,"
        " 4 dc, join = 12 sts\n"
        "round 2: ch 1, [skip 1 st, ch 1, 2 dc] 4 times, join, turn = 8 dc, 4 ch-1 sps\n"
        "round 3: ch 1, [tr in next skipped st of round 2, 2 dc] 4 times, join = 12 sts\n"
    )
    first, third = row_of(chart_, 1), row_of(chart_, 3)
    for symbol, place in zip(third[::3], (0, 9, 6, 3), strict=True):
        starts_on(symbol, first[place])
