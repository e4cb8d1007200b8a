"""What is too large to draw is left out in words, and costs no more for being larger."""

from __future__ import annotations

import time

import chart_fabrics as fabrics
import pytest
from chart_geometry import row_of, rows_drawn

from loopwright.ir.pattern import Start
from loopwright.render.chart import chart, svg, text
from loopwright.render.chart.choose import (
    EVERYTHING_NEEDED,
    MOST_IN_A_ROW,
    MOST_SYMBOLS,
    select,
)
from loopwright.render.chart.values import Chart

HUGE = 10**12


def notes(drawn: Chart) -> str:
    return " ".join(str(piece) for note in drawn.notes for piece in note)


def test_a_repeated_row_is_drawn_twice_and_bracketed() -> None:
    drawn = chart(fabrics.tube(), "piece", 0)
    [bracket] = drawn.brackets
    assert bracket.text == "round 3: work 9 times in all"
    assert rows_drawn(drawn) == 5
    # Rounds 1 and 2, two of the nine that are rounds 3 to 11, and the decreases.
    assert [mark.text for mark in drawn.marks] == ["1", "2", "3", "4", "12"]
    assert notes(drawn) == "Rounds 3 to 11 are one round worked 9 times, drawn 2 times."


def test_a_few_repeats_are_all_drawn() -> None:
    drawn = chart(fabrics.wide(3, 2), "piece", 0)
    assert rows_drawn(drawn) == 7
    assert not drawn.brackets
    assert not drawn.notes


def test_a_wide_row_leaves_a_strip_out() -> None:
    drawn = chart(fabrics.wide(200), "piece", 0)
    for row in range(1, rows_drawn(drawn) + 1):
        assert 8 <= len(row_of(drawn, row)) <= MOST_IN_A_ROW
    assert len({len(row_of(drawn, row)) for row in range(1, 6)}) == 1
    assert drawn.breaks
    [bracket] = drawn.brackets
    assert bracket.text == "4 sts, work 200 times"


@pytest.mark.parametrize("repeats", [200, HUGE])
def test_what_is_left_out_and_what_is_drawn_make_the_row(repeats: int) -> None:
    part = fabrics.wide(repeats).fabrics[0].parts[0]
    chosen = select(part, frozenset(), EVERYTHING_NEEDED, may_cut=True)
    for drawn, strip in zip(chosen.rows, chosen.strips, strict=True):
        assert strip is not None
        assert drawn.worked.made.length + strip.things == 4 * repeats + 2
    assert chosen.repeat is not None
    assert (chosen.repeat.sts, chosen.repeat.times) == (4, repeats)


def test_a_strip_is_whole_repeats_and_the_repeat_stays_whole() -> None:
    drawn = chart(fabrics.wide(200), "piece", 0)
    second = row_of(drawn, 2)
    posts = [i for i, s in enumerate(second) if s.look.stitch and s.look.stitch.post]
    # Between the edge stitches, every fourth stitch goes around a post, across the gap too.
    assert posts == list(range(4, len(second) - 1, 4))


def test_a_million_million_stitches_and_rows_are_drawn_at_once() -> None:
    began = time.perf_counter()
    drawn = chart(fabrics.wide(HUGE, HUGE), "piece", 0)
    picture = svg(drawn, "US")
    assert time.perf_counter() - began < 20  # it ends, on a busy machine too
    assert len(drawn.symbols) <= MOST_SYMBOLS
    assert len(picture) < 400_000
    assert "work 1,000,000,000,000 times in all" in " ".join(b.text for b in drawn.brackets)


def test_rows_that_do_not_fit_are_named() -> None:
    # Rounds of 6, 12, 18 ... stitches: 36 of them are 6 x 36 x 37 / 2 = 3,996 symbols. The last
    # increase of a round is a stitch early, so that its sixths are not alike and it is drawn whole.
    one, two = fabrics.st(fabrics.SC), fabrics.st(fabrics.SC, 0)
    rows = [[fabrics.st(fabrics.SC, 0, "ring")] * 6, [one, two] * 6]
    for r in range(3, 61):
        rows.append([*[*[one] * (r - 1), two] * 5, *[one] * (r - 2), two, one])
    big = fabrics.checked(fabrics.part("spiral", Start("magic ring"), [], rows))
    drawn = chart(big, "piece", 0)
    # The last 8 are drawn with 2 of their 5 repeats of 53, 54 ... 60 stitches and the odd one:
    # 3 x 452 = 1,356. With them there is room for the first 29, which are 6 x 29 x 30 / 2 = 2,610;
    # 30 would be 2,790.
    assert rows_drawn(drawn) == 29 + 8
    for told in ("Rounds 30 to 52 are not drawn", "Rounds 53 to 60 are drawn above the others"):
        assert told in notes(drawn)
        assert told in svg(drawn, "UK")
    assert "Round 60, right side" in text(drawn, "UK")


def test_everything_left_out_stands_on_the_chart_and_in_its_words() -> None:
    drawn = chart(fabrics.wide(HUGE, HUGE), "piece", 0)
    picture, words = svg(drawn, "US"), text(drawn, "US")
    assert len(drawn.notes) == 2
    for note in drawn.notes:
        assert str(note[0]) in words
        for word in str(note[0]).split():
            assert word in picture


def numbers(drawn: Chart) -> list[str]:
    return [mark.text for mark in drawn.marks if mark.text]


def test_the_whole_chart_draws_every_repeat_of_a_row() -> None:
    drawn = chart(fabrics.tube(), "piece", 0, whole=True)
    assert numbers(drawn) == [str(n) for n in range(1, 13)]
    assert not drawn.brackets
    assert not drawn.notes


def test_the_whole_chart_draws_every_repeat_within_a_row() -> None:
    drawn = chart(fabrics.wide(200), "piece", 0, whole=True)
    assert [len(row_of(drawn, row)) for row in range(1, 6)] == [802] * 5
    assert not drawn.breaks


def test_what_even_the_whole_chart_cannot_hold_is_named() -> None:
    drawn = chart(fabrics.wide(3, HUGE), "piece", 0, whole=True)
    assert "not drawn: a chart holds 40,000 symbols" in notes(drawn)


def test_some_rows_are_drawn_on_the_edge_they_stand_on() -> None:
    drawn = chart(fabrics.tube(), "piece", 0, rows=(3, 5))
    assert numbers(drawn) == ["3", "4", "5"]
    assert [row.number for row in drawn.rows] == [3]
    assert drawn.rows[0].times == 3
    edge = [symbol for symbol in drawn.symbols if symbol.row == 0]
    assert [symbol.look.shape for symbol in edge] == ["place"] * 12


def test_some_rounds_are_drawn_where_they_lie() -> None:
    all_of_it = chart(fabrics.coaster(), "piece", 0)
    some = chart(fabrics.coaster(), "piece", 0, rows=(3, 4))
    assert [len(row_of(some, row)) for row in (1, 2)] == [18, 24]
    assert len([symbol for symbol in some.symbols if symbol.row == 0]) == 12
    across = [
        [symbol.top.x for symbol in row_of(drawn, row)]
        for drawn, row in ((all_of_it, 3), (some, 1))
    ]
    widths = [max(one) - min(one) for one in across]
    assert widths[0] == pytest.approx(widths[1], abs=0.05)
