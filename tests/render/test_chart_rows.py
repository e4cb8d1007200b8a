"""Charts of flat rows, and of rounds drawn as rows."""

from __future__ import annotations

import chart_fabrics as fabrics
import pytest
from chart_geometry import assert_apart, assert_on_the_page, points, row_of, rows_drawn

from loopwright.pipeline import check_text
from loopwright.render.chart import chart
from loopwright.render.chart.values import STEP


def test_every_row_has_its_stitches() -> None:
    drawn = chart(fabrics.swatch(), "piece", 0)
    assert drawn.manner == "rows"
    assert [len(row_of(drawn, row)) for row in range(1, 5)] == [12, 12, 12, 12]
    assert rows_drawn(drawn) == 4
    base = [s for s in drawn.symbols if s.row == 0 and s.look.shape == "chain"]
    assert len(base) == 12  # 13 chains, of which the skipped one stands upright


def test_right_side_rows_run_from_right_to_left() -> None:
    drawn = chart(fabrics.swatch(), "piece", 0)
    for row in (1, 2, 3, 4):
        across = [symbol.top.x for symbol in row_of(drawn, row)]
        right_side = row % 2 == 1
        assert across == sorted(across, reverse=right_side)


def test_a_stack_of_stitches_is_straight() -> None:
    drawn = chart(fabrics.swatch(), "piece", 0)
    columns = sorted(symbol.top.x for symbol in row_of(drawn, 1))
    for row in (2, 3, 4):
        assert sorted(s.top.x for s in row_of(drawn, row)) == pytest.approx(columns, abs=0.02)


def test_each_row_stands_on_the_row_below() -> None:
    drawn = chart(fabrics.swatch(), "piece", 0)
    for row in (2, 3, 4):
        # Flat work is met from its end: the first stitch stands on the last of the row below.
        for upper, lower in zip(row_of(drawn, row), reversed(row_of(drawn, row - 1)), strict=True):
            assert upper.feet[0].x == pytest.approx(lower.top.x, abs=0.02)
            assert 0 < lower.top.y - upper.feet[0].y < 8
            assert upper.top.y < upper.feet[0].y


def test_row_numbers_stand_where_rows_begin() -> None:
    drawn = chart(fabrics.swatch(), "piece", 0)
    assert [mark.text for mark in drawn.marks] == ["1", "2", "3", "4"]
    for mark, row in zip(drawn.marks, (1, 2, 3, 4), strict=True):
        across = [symbol.top.x for symbol in row_of(drawn, row)]
        if row % 2:
            assert mark.at.x > max(across)
            assert mark.toward.x < mark.at.x
        else:
            assert mark.at.x < min(across)
            assert mark.toward.x > mark.at.x


def test_turning_chains_stand_upright_at_the_beginning() -> None:
    drawn = chart(fabrics.swatch(), "piece", 0)
    for row in (2, 3, 4):
        [turn] = [s for s in drawn.symbols if s.row == row and s.look.shape == "upright chain"]
        first = row_of(drawn, row)[0]
        assert turn.path[0].x == pytest.approx(turn.path[-1].x)
        assert turn.path[-1].y < turn.path[0].y
        assert (turn.top.x > first.top.x) == (row % 2 == 1)


def test_loops_are_drawn_as_the_right_side_shows_them() -> None:
    # All rows are worked in the back loop; from the wrong side that is the loop in front.
    drawn = chart(fabrics.swatch(), "piece", 0)
    assert {symbol.look.loop for symbol in row_of(drawn, 3)} == {"back"}
    assert {symbol.look.loop for symbol in row_of(drawn, 2)} == {"front"}


def test_shells_fan_out_of_one_place() -> None:
    drawn = chart(fabrics.shells(), "piece", 0)
    shell = row_of(drawn, 2)[1:6]
    assert len({symbol.feet[0] for symbol in shell}) == 1
    assert len({symbol.top for symbol in shell}) == 5
    assert shell[0].angle != pytest.approx(shell[4].angle)
    assert shell[2].angle == pytest.approx(0, abs=12)


def test_decreases_meet_at_the_top() -> None:
    drawn = chart(fabrics.tube(), "piece", 0)
    top = rows_drawn(drawn)
    decreases = [symbol for symbol in row_of(drawn, top) if symbol.look.shape == "together"]
    assert len(decreases) == 4
    for symbol in decreases:
        assert len(symbol.feet) == 2
        assert symbol.feet[0].x != symbol.feet[1].x
        assert min(f.y for f in symbol.feet) > symbol.top.y


def test_rounds_of_a_tube_all_run_from_right_to_left() -> None:
    drawn = chart(fabrics.tube(), "piece", 0)
    assert drawn.manner == "flat rounds"
    for row in range(1, rows_drawn(drawn) + 1):
        across = [symbol.top.x for symbol in row_of(drawn, row)]
        assert across == sorted(across, reverse=True)


def test_the_edge_a_part_begins_on_is_drawn() -> None:
    drawn = chart(fabrics.tube(), "piece", 0)
    edge = [symbol for symbol in drawn.symbols if symbol.row == 0]
    assert [symbol.look.shape for symbol in edge] == ["row end"] * 12


def test_post_stitches_reach_past_the_top_of_their_post() -> None:
    drawn = chart(fabrics.tube(), "piece", 0)
    below = {round(symbol.top.x, 1): symbol for symbol in row_of(drawn, 1)}
    posts = [s for s in row_of(drawn, 2) if s.look.stitch and s.look.stitch.post]
    assert len(posts) == 4
    for symbol in posts:
        nearest = min(below, key=lambda x: abs(x - symbol.feet[0].x))
        assert symbol.feet[0].y > below[nearest].top.y


@pytest.mark.parametrize("name", ["swatch", "shells", "tube"])
def test_symbols_lie_on_the_page_and_apart(name: str) -> None:
    drawn = chart(getattr(fabrics, name)(), "piece", 0)
    assert_on_the_page(drawn)
    assert_apart(drawn)


def test_the_whole_page_is_finite() -> None:
    drawn = chart(fabrics.shells(), "piece", 0)
    numbers = [n for symbol in drawn.symbols for point in points(symbol) for n in point]
    assert all(abs(n) < 10_000 for n in numbers)


def test_a_row_worked_backwards_runs_the_other_way_on_the_same_side() -> None:
    crab = fabrics.st(fabrics.SC._replace(crab=True))
    edge = [fabrics.Place("st", fabrics.DC)] * 8
    start = fabrics.Start("foundation", stitch=fabrics.DC)
    drawn = chart(fabrics.checked(fabrics.part("flat", start, edge, [[crab] * 8])), "piece", 0)
    row = row_of(drawn, 1)
    across = [symbol.top.x for symbol in row]
    assert across == sorted(across)
    for symbol in row:
        assert symbol.feet[0].x == pytest.approx(symbol.top.x, abs=0.02)
    base = [symbol for symbol in drawn.symbols if symbol.row == 0]
    assert sorted(symbol.look.shape for symbol in base) == ["chain"] * 8 + ["stitch"] * 8


@pytest.mark.parametrize(
    ("manner", "start", "begin"),
    [
        ("flat", "ch 11", "dc in 2nd ch from hook, 9 dc"),
        ("in turned rounds", "ch 10, join into ring", "ch 1, 10 dc, join"),
    ],
)
def test_rows_shown_from_a_wrong_side_row_on_stand_straight(
    manner: str, start: str, begin: str
) -> None:
    join = ", join" if "rounds" in manner else ""
    row = "round" if join else "row"
    checked = check_text(
        "some.crochet",
        f"pattern: Some Rows\nterms: UK\npart a: {manner}\nstart: {start}\n{row} 1: {begin}\n"
        f"{row} 2: ch 1, 3 tr, 7 dc{join}\n{row} 3: ch 1, 3 dc, 7 tr{join}\n"
        f"{row} 4: ch 1, [dc] around{join}\n".replace("around", "around" if join else "across"),
    ).checked
    assert checked is not None
    for first in (2, 3, 4):
        some = chart(checked, "a", 0, rows=(first, 4))
        for index in range(1, rows_drawn(some) + 1):
            assert len(row_of(some, index)) == 10
            for symbol in row_of(some, index):
                assert abs(symbol.feet[0].x - symbol.top.x) < 2 * STEP, (first, index)
