"""Large rounds are drawn as a wedge, which is measured as every other drawing is, and which with
what its words say it leaves out comes to the rounds of the fabric."""

from __future__ import annotations

import re
import time
from functools import cache
from itertools import pairwise
from math import degrees, hypot, pi

import pytest
from chart_geometry import angle, apart, row_of, rows_drawn, turning
from chart_reader import read
from chart_wedges import BOTH_WAYS, LARGE, NET, UNLIKE, Large
from test_chart_examples import worked_rows
from test_chart_geometry import (
    by_name,
    middle,
)
from test_chart_marks import assert_well_drawn

from loopwright.ir.checked import Checked
from loopwright.pipeline import check_text
from loopwright.render.chart import Chart, chart, rows_only, svg, text
from loopwright.render.chart.all_sizes import shared

THROW_TURNED = """pattern: Tidepool Throw
terms: UK
sizes: small (medium, large)
count wedges: 6 (7, 8)
part throw: in turned rounds
start: magic ring
round 1: ch 1, wedges dc in ring, join = wedges sts
rounds 2-24 as r: ch 1, [{r - 2} dc, dc inc] wedges times, join = {wedges * r} sts
"""
EVERY = {**LARGE, **BOTH_WAYS, "unlike": UNLIKE, "net": NET}
each = pytest.mark.parametrize("name", EVERY)
from_their_beginning = pytest.mark.parametrize("name", [*LARGE, "unlike"])
SAID = re.compile(
    r"Rounds (\d+) to (\d+) are drawn in part, (\d+) of the (\d+) repeats of each; they go on "
    r"(?:at the zigzag line|from one zigzag line to the other)\. The repeat under the arc is "
    r"worked as often in each of these rounds as it says\."
)


@cache
def checked_of(one: Large) -> Checked:
    found = check_text("large.crochet", one.text)
    assert found.checked is not None, found.diagnostics
    return found.checked


@cache
def drawn_of(name: str, size: int = 0, *, whole: bool = False) -> Chart:
    checked = checked_of(EVERY[name])
    return chart(checked, checked.pattern.parts[0].name, size, whole=whole)


def sizes(name: str) -> range:
    return range(len(checked_of(EVERY[name]).fabrics))


def said(drawn: Chart) -> tuple[int, int, int, int]:
    """What the words say of the wedge: its first and last round, how many repeats of how many."""
    found = SAID.search(" ".join(text(drawn, "UK").split()))
    assert found is not None
    first, last, few, times = map(int, found.groups())
    return first, last, few, times


@each
def test_its_words_say_what_is_left_out(name: str) -> None:
    large = EVERY[name]
    first, _, few, times = said(drawn_of(name))
    assert (first, times, few) == (large.first, large.times, large.drawn)


@each
def test_the_arc_says_how_often_in_every_size(name: str) -> None:
    for size in sizes(name):
        arcs = [one for one in drawn_of(name, size).brackets if one.centre]
        assert [one.text for one in arcs] == [EVERY[name].said]


@each
def test_what_is_drawn_and_what_is_left_out_make_every_round(name: str) -> None:
    for size in sizes(name):
        drawn = drawn_of(name, size)
        first, last, few, times = said(drawn)
        known = worked_rows(checked_of(EVERY[name]).fabrics[size].parts[0])
        for row in range(1, rows_drawn(drawn) + 1):
            number = next(s.number for s in drawn.symbols if s.row == row)
            stitches, chains = known[number]
            uprights = sum(s.row == row and bool(s.nth) for s in drawn.symbols) - len(
                row_of(drawn, row)
            )
            runs = [s for s in drawn.symbols if s.row == row and s.look.shape == "chain"]
            if first <= number <= last:
                # The chain that counts stands in one of the repeats in place of a stitch.
                assert (len(row_of(drawn, row)) + uprights) * times == (stitches + uprights) * few
                assert len(runs) * times == chains * few
            else:
                assert (len(row_of(drawn, row)), len(runs)) == (stitches, chains)


@each
def test_its_words_tell_every_round_whole(name: str) -> None:
    drawn = drawn_of(name)
    rows = read(text(drawn, "UK"), "UK").rows
    part = checked_of(EVERY[name]).fabrics[0].parts[0]
    left = [row.edge.tally().items() for these, n in part.rows for _ in range(n) for row in these]
    assert [row.stitches for row in rows] == [
        sum(n for place, n in places if place.what == "st") for places in left
    ]


@each
def test_it_is_drawn_as_well_as_any_chart(name: str) -> None:
    for size in sizes(name):
        assert_well_drawn(drawn_of(name, size))


@each
def test_it_begins_as_the_rounds_do(name: str) -> None:
    """The start chain, the join and the number of every round are in it."""
    drawn, whole = drawn_of(name), drawn_of(name, whole=True)
    numbers = [mark.text for mark in drawn.marks]
    assert numbers == sorted(numbers, key=int)
    for kind in ("upright chain", "dot"):
        rows = {s.number for s in whole.symbols if s.look.shape == kind}
        shown = {s.number for s in drawn.symbols if s.look.shape == kind}
        assert shown == rows & set(map(int, numbers))


@from_their_beginning
def test_the_rounds_are_where_they_are_in_the_whole_circle(name: str) -> None:
    """The middle is whole, and the wedge upon it is as wide as its share of the circle."""
    drawn = drawn_of(name)
    first, _, few, times = said(drawn)
    at = middle(drawn)
    for row in range(1, rows_drawn(drawn) + 1):
        tops = [symbol.top for symbol in row_of(drawn, row)]
        if len(tops) < 12:
            continue
        turned = sum((angle(b, at) - angle(a, at)) % (2 * pi) for a, b in pairwise(tops))
        number = next(s.number for s in drawn.symbols if s.row == row)
        share = few / times if number >= first else 1.0
        assert 0.75 * share < turned / (2 * pi) < share, (drawn.title, number)


both_ways = pytest.mark.parametrize("name", BOTH_WAYS)


@both_ways
def test_rounds_that_turn_are_a_wedge_on_either_side_of_their_beginning(name: str) -> None:
    drawn = drawn_of(name)
    first, _, few, times = said(drawn)
    at, marks = middle(drawn), {mark.text: mark.at for mark in drawn.marks}
    for row in range(first, rows_drawn(drawn) + 1):
        number = next(s.number for s in drawn.symbols if s.row == row)
        begins = angle(marks[str(number)], at)
        off = [
            (angle(symbol.top, at) - begins + pi) % (2 * pi) - pi
            for symbol in drawn.symbols
            if symbol.row == row
        ]
        # A full turn is drawn in part, and the round goes on past its number on both sides.
        assert min(off) < -0.15 * few / times * 2 * pi, number
        assert max(off) > 0.15 * few / times * 2 * pi, number
        assert 0.7 * few / times < (max(off) - min(off)) / (2 * pi) < 1.25 * few / times, number
    assert len(drawn.breaks) == 2


@both_ways
def test_rounds_that_turn_go_the_way_they_are_worked(name: str) -> None:
    """From the first stitch on to the zigzag line, and from the other line on to the last."""
    drawn = drawn_of(name)
    for row in range(said(drawn)[0], rows_drawn(drawn) + 1):
        tops = [symbol.top for symbol in row_of(drawn, row)]
        number = next(s.number for s in drawn.symbols if s.row == row)
        back = number == 20 if name == "crab" else number % 2 == 0
        ways = [turning(one, two, middle(drawn)) < 0 for one, two in pairwise(tops)]
        assert sum(way != back for way in ways) <= 1, number  # once across what is left out


def test_sizes_of_more_repeats_share_a_chart_where_rounds_turn_too() -> None:
    plain = check_text("throw.crochet", THROW_TURNED.replace("turned rounds", "rounds")).checked
    turned = check_text("throw.crochet", THROW_TURNED).checked
    for one in (plain, turned):
        assert one is not None
        [(sizes, drawn)] = shared(one, "throw")
        assert sizes == [0, 1, 2]
        assert [arc.text for arc in drawn.brackets] == ["work 6 (7, 8) times in each round"]
        # Two repeats of every round, from the ring on: of round 24 twice 24 stitches.
        assert [len(row_of(drawn, row)) for row in (1, 2, 24)] == [2, 4, 48]


def test_rounds_of_unlike_repeats_are_a_wedge_of_what_they_have_in_common() -> None:
    drawn = drawn_of("unlike")
    assert len(row_of(drawn, 12)) == 72 // 2
    assert len(row_of(drawn, 20)) == 8 * 17 // 2


def test_rounds_that_begin_ever_further_on_stay_within_their_wedge() -> None:
    drawn = drawn_of("net")
    at = middle(drawn)
    for row in range(2, rows_drawn(drawn) + 1):
        tops = [angle(symbol.top, at) for symbol in row_of(drawn, row)]
        # Three of eighteen repeats: from the first to the last of three is two thirds of that.
        assert max(tops) - min(tops) == pytest.approx(2 / 18 * 2 * pi, rel=0.1)
        assert abs(max(tops) + min(tops) - pi) < 2 * 3 / 18 * pi


def test_what_no_repeat_is_common_to_is_drawn_whole_and_says_so() -> None:
    # Six sixths, then seven sevenths: no part of the circle is whole repeats of both.
    odd = LARGE["hat"].text.replace("rounds 2-20", "rounds 2-14")
    odd += "rounds 15-20 as r: ch 1, [{r - 4} sc, sc inc] 7 times, join = {7 * (r - 2)} sts\n"
    checked = check_text("odd.crochet", odd).checked
    assert checked is not None
    drawn = chart(checked, "hat", 0)
    assert len(row_of(drawn, 20)) == 7 * 18
    why = "The rounds are drawn whole: they have no repeats in common that could be left out."
    assert why in " ".join(text(drawn, "UK").split())
    assert why not in " ".join(text(chart(checked, "hat", 0, whole=True), "UK").split())


@each
def test_the_arc_stands_outside_over_one_repeat(name: str) -> None:
    drawn = drawn_of(name)
    [arc] = [one for one in drawn.brackets if one.centre]
    at = arc.centre
    assert at is not None
    assert apart(at, middle(drawn)) < 1  # type: ignore[arg-type]
    out = hypot(arc.one.x - at.x, arc.one.y - at.y)
    assert out > max(apart(symbol.top, at) for symbol in drawn.symbols)
    wide = degrees((angle(arc.two, at) - angle(arc.one, at)) % (2 * pi))
    # Of a square a side is more of a corner than of the middle of a side.
    assert wide == pytest.approx(360 / EVERY[name].times, rel=0.3)


@each
def test_the_whole_is_drawn_where_it_is_asked_for(name: str) -> None:
    whole = drawn_of(name, whole=True)
    assert not [one for one in whole.brackets if one.centre]
    assert not whole.breaks
    assert not SAID.search(text(whole, "UK"))
    assert len(whole.symbols) > 1.4 * len(drawn_of(name).symbols)


def test_some_rounds_of_a_wedge_are_drawn_on_those_below() -> None:
    checked = checked_of(LARGE["hat"])
    some = chart(checked, "hat", 0, rows=(15, 20))
    assert [mark.text for mark in some.marks] == [str(n) for n in range(15, 21)]
    # A third of 90, 96 ... 120 stitches, on a third of 84.
    assert [len(row_of(some, row)) for row in range(1, 7)] == [30, 32, 34, 36, 38, 40]
    assert sum(symbol.row == 0 for symbol in some.symbols) == 28
    few = chart(checked, "hat", 0, rows=(1, 9))
    assert len(row_of(few, 9)) == 54


def test_rounds_that_read_well_whole_stay_whole() -> None:
    for name, part in (
        ("limpet-coaster", "disc"),
        ("harbour-square", "square"),
        ("urchin-hexagon", "hexagon"),
        ("foghorn-hat", "hat"),
        ("47-pineapple-doily-64", "doily"),
        ("33b-lazy-cable-hat-corrected", "crown"),
    ):
        drawn = by_name(name, part)
        assert not [one for one in drawn.brackets if one.centre], name


def test_rounds_that_are_not_alike_all_round_are_drawn_whole() -> None:
    # The last of the increases of rounds 14 to 20 is a stitch early.
    odd = LARGE["hat"].text.replace("rounds 2-20", "rounds 2-13")
    odd += "rounds 14-20 as r: ch 1, [{r - 2} sc, sc inc] 5 times, {r - 3} sc, sc inc, sc, join\n"
    checked = check_text("odd.crochet", odd).checked
    assert checked is not None
    drawn = chart(checked, "hat", 0)
    assert [len(row_of(drawn, row)) for row in (13, 14, 20)] == [78, 84, 120]


def test_only_what_lies_under_it_is_whole_where_the_middle_is_not_alike() -> None:
    # Ten stitches in the ring, ten increases, then four spread over twenty: from there on sixths.
    text = """pattern: Odd Start
terms: UK
part disc: in rounds
start: magic ring
round 1: ch 1, 10 dc in ring, join = 10 sts
round 2: ch 1, [dc inc] around, join = 20 sts
round 3: ch 1, inc 4 dc evenly, join = 24 sts
rounds 4-20 as r: ch 1, [{r - 1} dc, dc inc] 6 times, join
""".replace("{r - 1}", "{r - 1}")
    checked = check_text("odd.crochet", text).checked
    assert checked is not None
    drawn = chart(checked, "disc", 0)
    # 24, then 30, 36, 42 and 48 whole or in part; round 20 has 24 + 6 x 17 = 126.
    assert len(row_of(drawn, 3)) == 24
    assert len(row_of(drawn, 20)) == 126 // 3


def test_the_drawing_says_it_in_svg_and_in_the_page() -> None:
    drawn = drawn_of("throw")
    for picture in (svg(drawn, "UK"), rows_only(drawn)):
        words = " ".join(re.sub(r"<[^>]+>", " ", picture).split())
        assert "work 6 (7, 8) times" in words
        assert re.search(r'd="M[-\d. ]+L[-\d. ]+A[-\d. ]+L[-\d. ]+"', picture)


def test_rounds_of_a_million_stitches_are_chosen_from_at_once() -> None:
    # Six times so many stitches that not one repeat could be drawn.
    huge = """pattern: Ocean
terms: UK
part disc: in rounds
start: magic ring
round 1: 6 dc in ring, join = 6 sts
round 2: [1000000000 dc in next st] around, join = 6000000000 sts
round 3: [999999999 dc, dc inc] 6 times, join = 6000000006 sts
"""
    checked = check_text("ocean.crochet", huge).checked
    assert checked is not None
    began = time.perf_counter()
    drawn = chart(checked, "disc", 0)
    assert time.perf_counter() - began < 20  # it ends, on a busy machine too
    assert "not drawn" in text(drawn, "UK")
