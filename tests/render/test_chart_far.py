"""The words of a chart say where a stitch goes that is worked further down: which row, which place.

Every row and place is told by hand from the pattern.
"""

from __future__ import annotations

import re
from html import unescape

import pytest

from loopwright.pipeline import check_text
from loopwright.render.chart import chart, svg, text

HEAD = "pattern: Groyne Sampler\nterms: UK\npart a: "


def told(written: str, number: int, rows: tuple[int, int] | None = None) -> str:
    """The line of a row, of the words of a chart."""
    checked = check_text("sample", HEAD + written).checked
    assert checked is not None
    lines = text(chart(checked, "a", 0, rows=rows), "UK").splitlines()
    return next(line for line in lines if line.startswith((f"Row {number},", f"Round {number},")))


def test_a_spike() -> None:
    rows = (
        "flat\nstart: 8 foundation dc\nrow 1: ch 1, [dc] across\nrow 2: ch 1, [dc] across\n"
        "row 3: ch 1, [dc, dc in next st 2 rows below] across = 8 sts\n"
        "row 4: ch 1, 4 dc, 4 dc in next st 3 rows below, 3 dc\n"
    )
    assert "dc in the stitch 2 rows below this one under the next place, " in told(rows, 3)
    assert "4 dc in the stitch 3 rows below this one under the next place, " in told(rows, 4)


def test_a_space_and_what_was_passed_over_in_a_round() -> None:
    rows = (
        "in rounds\nstart: 8 foundation dc\n"
        "round 1: ch 3 as tr, tr, [ch 2, 2 tr] 3 times, ch 2, join = 8 tr, 4 ch-2 sps\n"
        "round 2: ch 1, [2 dc, ch 2, skip next ch-2 sp] 4 times, join\n"
        "round 3: ch 1, [2 dc, 2 tr in next ch-2 sp of round 1] 4 times, join = 16 sts\n"
    )
    assert "2 dc, 2 tr in the next ch-2 space of round 1, " in told(rows, 3)
    rows = (
        "in rounds\nstart: 8 foundation dc\n"
        "round 1: ch 1, [dc, ch 1, skip 1 st] 4 times, join = 4 dc, 4 ch-1 sps\n"
        "round 2: ch 1, [dc, tr in next skipped st of round 1] 4 times, join = 8 sts\n"
    )
    assert "(dc, tr in the next stitch that round 1 passed over" in told(rows, 2)


def test_a_row_that_is_worked_again_says_how_far_below() -> None:
    rows = (
        "flat\nstart: 9 foundation dc\nrow 1: ch 1, [dc] across\n"
        "row 2: ch 1, [dc] across\nrow 3: ch 1, dc, [dc in next st of row 1, dc] across = 9 sts\n"
        "row 4: ch 1, [dc] across\nrepeat rows 3-4: 6 more times\n"
    )
    # Row 5 goes into row 3, row 7 into row 5 and so on, as row 3 does into row 1.
    assert "dc in the stitch 2 rows below this one under the next place" in told(rows, 3)
    assert "dc in the stitch of row 7 under the next place" in told(rows, 9, rows=(9, 9))


HEEL = """flat
start: 10 foundation dc
row 1: ch 1, 9 dc, leave 1 unworked
row 2: ch 1, 8 dc, leave 1 unworked
row 3: ch 1, 8 dc, dc in next unworked st
row 4: ch 1, 9 dc, dc in next unworked st
row 5: ch 1, 7 dc, leave 3 unworked
row 6: ch 1, 7 dc
row 7: ch 1, 7 dc, dc in each of 3 unworked sts = 10 sts
"""


@pytest.mark.parametrize(
    ("row", "words"),
    [
        (3, "8 dc, dc in the next stitch that row 1 left unworked; 9"),
        (4, "9 dc, dc in the next stitch that row 2 left unworked; 10"),
        (7, "7 dc, 3 dc (one in each of the next stitches that row 5 left unworked); 10"),
    ],
)
def test_what_was_left_unworked(row: int, words: str) -> None:
    assert words in told(HEEL, row)


def test_what_two_rows_left() -> None:
    rows = (
        "flat\nstart: 9 foundation dc\nrow 1: ch 1, 7 dc, leave 2 unworked\nrow 2: ch 1, 7 dc\n"
        "row 3: ch 1, 6 dc, leave 1 unworked\nrow 4: ch 1, 6 dc\n"
        "row 5: ch 1, 6 dc, dc in each of 3 unworked sts = 9 sts\n"
    )
    place = "the stitches left unworked earlier and nearest at this end"
    assert f"6 dc, 3 dc (one in each of {place}); 9 stitches." in told(rows, 5)


NAME = re.compile(r'<g data-row="(\d+)"[^>]* data-name="([^"]*)"')


@pytest.mark.parametrize(
    ("written", "number", "of"),
    [
        (
            "flat\nstart: 8 foundation dc\nrow 1: ch 1, [dc] across\nrow 2: ch 1, [dc] across\n"
            "row 3: ch 1, [dc, dc in next st 2 rows below] across = 8 sts\n",
            3,
            "dc in the stitch 2 rows below this one under the next place",
        ),
        (
            "in rounds\nstart: 8 foundation dc\n"
            "round 1: ch 3 as tr, tr, [ch 2, 2 tr] 3 times, ch 2, join = 8 tr, 4 ch-2 sps\n"
            "round 2: ch 1, [2 dc, ch 2, skip next ch-2 sp] 4 times, join\n"
            "round 3: ch 1, [2 dc, tr in next ch-2 sp of round 1] 4 times, join = 12 sts\n",
            3,
            "tr in the next ch-2 space of round 1",
        ),
        (
            "in rounds\nstart: 8 foundation dc\n"
            "round 1: ch 1, [dc, ch 1, skip 1 st] 4 times, join = 4 dc, 4 ch-1 sps\n"
            "round 2: ch 1, [dc, tr in next skipped st of round 1] 4 times, join = 8 sts\n",
            2,
            "tr in the next stitch that round 1 passed over",
        ),
        (
            "flat\nstart: 9 foundation dc\nrow 1: ch 1, [dc] across\nrow 2: ch 1, [dc] across\n"
            "row 3: ch 1, dc, [dc blo in next st of row 1, dc] across = 9 sts\n"
            "row 4: ch 1, [dc] across\nrepeat rows 3-4: 6 more times\n",
            5,
            "dc in the back loop in the stitch 2 rows below this one under the next place",
        ),
        (
            "flat\nstart: 8 foundation dc\nrow 1: ch 1, 5 dc, leave 3 unworked\n"
            "row 2: ch 1, 5 dc\nrow 3: ch 1, 5 dc, dc in each of 3 unworked sts\n",
            3,
            "dc in the next stitch that row 1 left unworked",
        ),
    ],
)
def test_a_symbol_says_what_the_words_of_its_row_say(written: str, number: int, of: str) -> None:
    checked = check_text("sample", HEAD + written).checked
    assert checked is not None
    names = NAME.findall(svg(chart(checked, "a", 0), "UK"))
    said = {unescape(name) for row, name in names if int(row) == number}
    assert of in said
    assert not [name for name in said if "earlier" in name]
    one = of.replace("the next stitch that", "the next stitches that")
    line = told(written, 3 if number == 5 else number)
    assert of.partition(" in ")[2] in line or one.partition(" in ")[2] in line
