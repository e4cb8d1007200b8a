"""Long straight sides of borders and ovals are drawn with a few of their repeats, corners whole,
and with what is said to be left out come to the rounds of the fabric."""

from __future__ import annotations

import re
from functools import cache
from itertools import pairwise
from math import pi
from typing import NamedTuple

import pytest
from chart_geometry import apart, assert_apart, assert_on_the_page, row_of, rows_drawn
from chart_reader import read
from chart_shapes import overlaps
from test_chart_geometry import MADE_UP, assert_planted
from test_chart_marks import assert_well_drawn

from loopwright.ir.checked import Checked
from loopwright.pipeline import check_text
from loopwright.render.chart import Chart, chart, svg, text
from loopwright.render.chart.all_sizes import shared
from loopwright.render.chart.values import STEP


class Sided(NamedTuple):
    """A pattern, what its last part is drawn as, how many stitches each of its rounds has and how
    many of those are drawn, and what its brackets say. All worked out by hand: along a side that
    is longer than 36 places at least twelve stitches, and two repeats, are kept."""

    text: str
    manner: str
    made: tuple[int, ...]
    drawn: tuple[int, ...]
    said: tuple[str, ...]


# Rounds of 116 and 6 more every time. Of the 58 along a side those that stand on 57 places between
# the outermost two may go: 45, so that 12 of these are kept.
QUAY = Sided(
    """pattern: Quay Bag
terms: UK
sizes: small (large)
part base: in rounds
start: ch 61 (81)
round 1: dc in 2nd ch from hook, 58 (78) dc, 3 dc in next ch, other side, 58 (78) dc,
    2 dc in next ch, join
rounds 2-10 as r: ch 1, {r - 2} dc, dc inc, 58 (78) dc, [{r - 2} dc, dc inc] 3 times, 58 (78) dc,
    [{r - 2} dc, dc inc] 2 times, join
""",
    "oval",
    tuple(116 + 6 * r for r in range(1, 11)),
    tuple(116 + 6 * r - 2 * 45 for r in range(1, 11)),
    ("1 st, work 58 times",) * 2,
)
CLOTH = """pattern: Sandbar Cloth
terms: UK
sizes: small (large)
part cloth: flat
start: ch 61 (81)
row 1: dc in 2nd ch from hook, dc in each ch across = 60 (80) sts
row 2: ch 1, dc in each st across = 60 (80) sts
repeat row 2: until 50 (70) rows

part edge: in rounds
start: all round cloth
round 1: ch 1, 3 dc in first st, 58 (78) dc, 3 dc in next st, [dc in next row end] 50 (70) times,
    3 dc in next ch, 58 (78) dc, 3 dc in next ch, [dc in next row end] 50 (70) times, join
round 2: ch 1, [dc] around, join
"""
# 58 along the top and the bottom, of which 12 are kept: 46 go. Of 50 row ends the first and the
# last belong to the corners; of the other 48 also 12 are kept: 36 go. In all there are 2 x 58, 2 x
# 50 and 4 x 3 stitches.
EDGE = Sided(
    CLOTH + "round 3: ch 1, [crab dc] around, join\n",
    "frame",
    (228, 228, 228),
    (64, 64, 64),
    ("1 st, work 50 (70) times", "1 st, work 58 times") * 2,
)
# Turned, so that it is met from the other end.
TURNED = EDGE._replace(text=EDGE.text.replace("edge: in rounds", "edge: in turned rounds"))
# 59 along every side and 3 in each corner; then 15 shells of four stitches along each. Eleven of
# them go, which are 44 stitches of the round below: 15 of its 59 are kept, and 4 shells.
SHELLS = Sided(
    """pattern: Scallop Cloth
terms: UK
part cloth: flat
start: ch 62
row 1: dc in 2nd ch from hook, dc in each ch across = 61 sts
rows 2-59: ch 1, dc in each st across = 61 sts

part edge: in rounds
start: all round cloth
round 1: ch 1, [3 dc in next st, 59 dc, 3 dc in next st, [dc in next row end] 59 times] 1 times,
    3 dc in next ch, 59 dc, 3 dc in next ch, [dc in next row end] 59 times, join = 248 sts
round 2: ch 1, dc, [3 dc in next st, [dc, miss 1 st, 3 tr in next st, miss 1 st] 15 times, dc]
    3 times, 3 dc in next st, [dc, miss 1 st, 3 tr in next st, miss 1 st] 15 times, join = 256 sts
""",
    "frame",
    (248, 256),
    (248 - 4 * 44, 256 - 4 * 44),
    ("4 sts, work 15 times",) * 4,
)
SIDED = {"quay": QUAY, "edge": EDGE, "turned": TURNED, "shells": SHELLS}
each = pytest.mark.parametrize("name", SIDED)
NOTE = (
    "The long sides are drawn with a few of their repeats; the zigzag lines stand for the others. "
    "The repeat in a bracket is worked as often along that side as it says."
)


@cache
def checked_of(pattern: str) -> Checked:
    found = check_text("sides.crochet", pattern)
    assert found.checked is not None, found.diagnostics
    return found.checked


@cache
def drawn_of(name: str, size: int = 0, *, whole: bool = False) -> Chart:
    checked = checked_of(SIDED[name].text)
    return chart(checked, checked.pattern.parts[-1].name, size, whole=whole)


@each
def test_what_is_drawn_of_every_round(name: str) -> None:
    drawn, sided = drawn_of(name), SIDED[name]
    assert drawn.manner == sided.manner
    assert tuple(len(row_of(drawn, n)) for n in range(1, rows_drawn(drawn) + 1)) == sided.drawn


@each
def test_the_brackets_say_how_often(name: str) -> None:
    brackets = [one.text for one in drawn_of(name).brackets]
    assert sorted(brackets) == sorted(SIDED[name].said)


@each
def test_its_words_say_so_and_tell_every_round_whole(name: str) -> None:
    told = text(drawn_of(name), "UK")
    assert NOTE in " ".join(told.split())
    rows = read(told, "UK").rows
    assert tuple(row.stitches for row in rows) == SIDED[name].made


@each
def test_it_is_drawn_as_well_as_any_chart(name: str) -> None:
    for size in range(len(checked_of(SIDED[name].text).fabrics)):
        assert_well_drawn(drawn_of(name, size))


@each
def test_the_lines_go_straight_out_through_all_rounds(name: str) -> None:
    drawn = drawn_of(name)
    assert len(drawn.breaks) == (2 if SIDED[name].manner == "oval" else 4)
    for one in drawn.breaks:
        begin, end = one.points[0], one.points[-1]
        aside = min(abs(end.x - begin.x), abs(end.y - begin.y))
        assert aside < 8
        # No stitch lies on a line: from post to post it goes through empty paper.
        for symbol in drawn.symbols:
            for point in (symbol.top, *symbol.feet):
                off = min(
                    abs(point.x - (a.x + b.x) / 2) + abs(point.y - (a.y + b.y) / 2)
                    for a, b in pairwise(one.points)
                )
                assert off > 6, (symbol.number, symbol.nth)


@each
def test_corners_and_ends_are_whole(name: str) -> None:
    """What is left out comes out of the sides: stitches that share a place are all there."""
    drawn, whole = drawn_of(name), drawn_of(name, whole=True)

    def shared_feet(one: Chart, row: int) -> int:
        feet = [symbol.feet for symbol in row_of(one, row) if symbol.look.stitch]
        plain = [f for s, f in zip(row_of(one, row), feet, strict=True) if "plain" in s.name]
        return len(plain) - len(set(plain))

    for row in range(1, rows_drawn(drawn) + 1):
        assert shared_feet(drawn, row) == shared_feet(whole, row)
    assert len(whole.symbols) > 2 * len(drawn.symbols)
    assert not whole.breaks


def test_opposite_sides_stay_alike() -> None:
    """What is left of a border is a rectangle again: its lines stand opposite one another."""
    drawn = drawn_of("edge")
    upright = [one for one in drawn.breaks if abs(one.points[0].x - one.points[-1].x) < 8]
    level = [one for one in drawn.breaks if one not in upright]
    assert len(upright) == len(level) == 2
    assert upright[0].points[0].x == pytest.approx(upright[1].points[0].x, abs=4)
    assert level[0].points[0].y == pytest.approx(level[1].points[0].y, abs=4)


@pytest.mark.parametrize("name", ["quay", "edge"])
def test_sizes_that_differ_in_the_length_of_sides_share_a_chart(name: str) -> None:
    checked = checked_of(SIDED[name].text)
    [(sizes, one)] = shared(checked, checked.pattern.parts[-1].name)
    assert sizes == [0, 1]
    words = {bracket.text for bracket in one.brackets}
    assert "1 st, work 58 (78) times" in words
    picture = " ".join(re.sub(r"<[^>]+>", " ", svg(one, "UK")).split())
    assert "58 (78) times" in picture


def test_a_size_with_short_sides_is_drawn_like_the_others_on_a_page() -> None:
    checked = checked_of(QUAY.text.replace("61 (81)", "31 (81)").replace("58 (78)", "28 (78)"))
    assert not chart(checked, "base", 0).breaks
    [(sizes, one)] = shared(checked, "base")
    assert sizes == [0, 1]
    assert {bracket.text for bracket in one.brackets} == {"1 st, work 28 (78) times"}


def test_short_sides_are_whole() -> None:
    short = CLOTH.replace("61 (81)", "31 (81)").replace("60 (80)", "30 (80)")
    short = short.replace("58 (78)", "28 (78)").replace("50 (70)", "24 (70)")
    checked = checked_of(short)
    drawn = chart(checked, "edge", 0)
    # 2 x 28 + 2 x 24 + 4 x 3
    assert len(row_of(drawn, 1)) == 116
    assert not drawn.breaks


def test_a_side_that_is_not_alike_all_along_is_whole() -> None:
    """Half of the side of round 2 is worked in another stitch: nothing says so of what is left."""
    odd = QUAY.text.replace("58 (78) dc, [{r - 2}", "29 (39) dc, 29 (39) htr, [{r - 2}")
    checked = checked_of(odd)
    drawn = chart(checked, "base", 0)
    assert len(row_of(drawn, 1)) == 122
    assert "have no repeats in common" in text(drawn, "UK")


def test_sides_of_a_million_stitches_are_chosen_from_at_once() -> None:
    huge = QUAY.text.replace("61 (81)", "1000003 (2000003)").replace("58 (78)", "1000000 (2000000)")
    drawn = chart(checked_of(huge), "base", 0)
    assert drawn.manner == "oval"
    assert len(row_of(drawn, 1)) == QUAY.drawn[0]
    assert {one.text for one in drawn.brackets} == {"1 st, work 1,000,000 times"}


# Eight increases a round, two more than lie flat: the ends are full, and in rounds that turn the
# increases wander from the ends onto the sides.
FULL = """pattern: Brimming Tray
terms: UK
part tray: in rounds
start: ch 25
round 1: 2 dc in 2nd ch from hook, 22 dc, 4 dc in next ch, other side, 22 dc, 2 dc in next ch,
    join = 52 sts
rounds 2-10 as r: ch 1, [{r - 2} dc, dc inc] 2 times, 22 dc, [{r - 2} dc, dc inc] 4 times, 22 dc,
    [{r - 2} dc, dc inc] 2 times, join = {44 + 8 * r} sts
"""


@pytest.mark.parametrize("manner", ["in rounds", "in turned rounds"])
def test_an_oval_whose_ends_are_full_is_an_oval_still(manner: str) -> None:
    drawn = chart(checked_of(FULL.replace("in rounds", manner)), "tray", 0)
    assert drawn.manner == "oval"
    assert_planted(drawn)
    assert_on_the_page(drawn)
    assert_apart(drawn, 8.0)
    close = [share for share, _, _ in overlaps(drawn) if share > MADE_UP]
    assert len(close) <= len(drawn.symbols) / 100
    # Round 10 has 124 stitches: 22 along each side, and 40 around each end, which takes a half
    # circle of 40 / pi stitches. So it is no higher than that, and a stitch or two.
    tops = [symbol.top for symbol in row_of(drawn, 10)]
    high = max(top.y for top in tops) - min(top.y for top in tops)
    assert 20 * STEP < high < (2 * 40 / pi + 2) * STEP


SHELL_ROUND = "ch 1, [dc, 3 tr in next st] around, join"


@pytest.mark.parametrize(
    ("written", "part", "row"),
    [
        (FULL.replace("2-10", "2-5") + f"round 6: {SHELL_ROUND}\n", "tray", 6),
        (
            CLOTH.replace("61 (81)", "25 (81)")
            .replace("60 (80)", "24 (80)")
            .replace("58 (78)", "22 (78)")
            .replace("50 (70)", "20 (70)")
            .replace("[dc] around, join", SHELL_ROUND.removeprefix("ch 1, ")),
            "edge",
            2,
        ),
    ],
    ids=["oval", "border"],
)
def test_a_frill_along_straight_sides_keeps_to_them(written: str, part: str, row: int) -> None:
    """Twice as many stitches as lie along a side stand close and in two levels, each over its
    place: none is led further aside than a shell is wide."""
    drawn = chart(checked_of(written), part, 0)
    assert_planted(drawn)
    assert_on_the_page(drawn)
    for symbol in row_of(drawn, row):
        assert apart(symbol.feet[0], symbol.top) < 4 * STEP, symbol.nth
    close = [share for share, _, _ in overlaps(drawn) if share > MADE_UP]
    assert len(close) <= len(drawn.symbols) / 50
