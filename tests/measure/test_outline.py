"""The outline of rows: which side grows and shrinks, worked out by hand at 1 cm a stitch."""

from __future__ import annotations

import pytest
from measuring import measured, pattern

from loopwright.measure.outline import Outline, simpler

CM = "10 sts and 10 rows to 10 cm in sc"
TWENTY = ("start: ch 21", "row 1: sc in 2nd ch from hook, sc in each ch across = 20 sts")


def outline(*lines: str, gauge: str = CM) -> Outline:
    form = measured(pattern(gauge, "flat", *TWENTY, *lines)).form
    assert form is not None
    assert form.outline is not None
    return form.outline


def test_a_rectangle() -> None:
    found = outline("rows 2-30: ch 1, sc in each st across = 20 sts")
    assert found.left == ((0, 0), (0, 300))
    assert found.right == ((200, 0), (200, 300))
    assert found.known


def test_both_sides_grow() -> None:
    found = outline("rows 2-11: ch 1, sc inc, sc in each st to last st, sc inc")
    # ten rows of one more on either side
    assert found.left[-1] == (-100, 110)
    assert found.right[-1] == (300, 110)


def test_one_side_shrinks_where_only_that_side_is_worked() -> None:
    # rows 3, 5, 7 ... begin where row 1 did, on the right, and take one off there
    found = outline(
        "row 2: ch 1, sc in each st across",
        "row 3: ch 1, sc dec, sc in each st across",
        "repeat rows 2-3: 4 more times",
    )
    assert found.left == ((0, 0), (0, 110))
    assert found.right == ((200, 0), (200, 20), (150, 110))


def test_turning_changes_sides() -> None:
    # every row takes one off where it begins: right, left, right, left
    found = outline("rows 2-11: ch 1, sc dec, sc in each st across")
    assert found.left[-1][0] == 50
    assert found.right[-1][0] == 150


def test_what_is_left_unworked_is_a_step() -> None:
    found = outline("row 2: ch 1, 15 sc, leave 5 unworked", "row 3: ch 1, sc in each st across")
    # row 2 goes from left to right, and leaves its last five, on the right
    assert found.left == ((0, 0), (0, 30))
    assert found.right == ((200, 0), (200, 10), (150, 10), (150, 30))


def test_increases_all_over_go_to_both_sides() -> None:
    found = outline("row 2: ch 1, inc 6 sc evenly = 26 sts", "row 3: ch 1, sc in each st across")
    assert (found.left[-1][0], found.right[-1][0]) == (-30, 230)


def test_shells_and_waves_stay_where_they_are() -> None:
    found = outline(
        "row 2: ch 1, 2 sc, [skip 2 sts, 5 sc in next st, skip 2 sts, sc] 3 times = 20 sts",
        "repeat row 2: 9 more times",
    )
    assert found.left == ((0, 0), (0, 110))
    assert found.right == ((200, 0), (200, 110))


def test_a_bias_leans() -> None:
    # one more where each row begins or ends on the left, one fewer on the right
    found = outline(
        "row 2: ch 1, sc inc, sc in each st to last 2 sts, sc dec",
        "row 3: ch 1, sc dec, sc in each st to last st, sc inc",
        "repeat rows 2-3: 9 more times",
    )
    # row 1 is straight, and one row is less than three quarters of a stitch off the line
    assert found.left == ((0, 0), (-200, 210))
    assert found.right == ((200, 0), (0, 210))


def test_a_million_million_rows_are_drawn_in_one_go() -> None:
    found = outline(
        "row 2: ch 1, sc inc, sc in each st to last 2 sts, sc dec",
        "row 3: ch 1, sc dec, sc in each st to last st, sc inc",
        "repeat rows 2-3: 1000000000000 more times",
    )
    rows = 2 * (10**12 + 1)
    assert found.left[-1] == pytest.approx((-10.0 * rows, 10.0 * (rows + 1)))
    assert len(found.left) <= 4


def test_where_heights_are_not_known_a_row_is_as_high_as_a_stitch_is_wide() -> None:
    found = outline("rows 2-10: ch 1, sc in each st across", gauge="20 sts to 10 cm in sc")
    assert found.left[-1] == (0, 50)
    assert not found.known


def test_a_line_keeps_its_corners_only() -> None:
    line = [(0.0, 0.0), (0.1, 1.0), (0.0, 2.0), (5.0, 3.0), (10.0, 4.0)]
    assert list(simpler(line, 0.5)) == [(0.0, 0.0), (0.0, 2.0), (10.0, 4.0)]
