"""The numbers of rows and rounds, measured against the ink of the symbols they stand beside.

``TEXT`` is how much of the room of its digits a number may share with symbols, ``ARROW`` how much
of an arrow may: a number is read, an arrow is only seen. No number may touch another.
"""

from __future__ import annotations

import re
from html import unescape
from math import atan2, cos, hypot, pi, sin
from pathlib import Path

import pytest
from chart_geometry import assert_on_the_page
from chart_shapes import ink, overlaps
from shapely import STRtree, box
from shapely.geometry import LineString, Point, Polygon
from shapely.geometry.base import BaseGeometry
from test_chart_geometry import (
    PATHS,
    SHARED,
    assert_in_order,
    assert_on_page,
    assert_planted,
    by_name,
    drawn_from,
)

from loopwright.pipeline import check_text
from loopwright.render.chart import Chart, chart, svg
from loopwright.render.chart.brackets import caption
from loopwright.render.chart.values import Bracket, Mark

TEXT = 0.02
ARROW = 0.05
DIGIT = 5.4  # the width of a digit in 9 units of a sans serif, a little more than half an em
LETTER = 4.9  # the width of a letter in the same, on average
TALL, DEEP = 3.5, 3.0  # the digits above and below their middle


def number_room(mark: Mark, letters: int) -> BaseGeometry:
    """Where the digits of a number are written, and its yarn's letter."""
    half = DIGIT * (len(mark.text) + letters) / 2
    return box(mark.at.x - half, mark.at.y - TALL, mark.at.x + half, mark.at.y + DEEP)


def arrow_room(mark: Mark) -> BaseGeometry | None:
    """Where its arrow is drawn: 8 long, 8 below, 0.8 thick, if it has one."""
    x, y = mark.toward.x - mark.at.x, mark.toward.y - mark.at.y
    length = hypot(x, y)
    if not length:
        return None
    x, y = 4 * x / length, 4 * y / length
    line = LineString([(mark.at.x - x, mark.at.y + 8 - y), (mark.at.x + x, mark.at.y + 8 + y)])
    return line.buffer(0.4)


def shared(room: BaseGeometry, shapes: list[BaseGeometry], tree: STRtree) -> float:
    """The share of some room that symbols print on."""
    return sum(room.intersection(shapes[i]).area for i in tree.query(room)) / room.area


def bracket_line(one: Bracket) -> BaseGeometry:
    """The line of a bracket; of an arc, through points half a degree apart."""
    if one.centre is None:
        return LineString([one.one, one.two]).buffer(0.6)
    first, last = (atan2(p.y - one.centre.y, p.x - one.centre.x) for p in (one.one, one.two))
    radius = hypot(one.one.x - one.centre.x, one.one.y - one.centre.y)
    turn = (first - last) % (2 * pi)  # anticlockwise where y runs down
    steps = max(int(turn / pi * 360), 1)
    angles = [first - turn * i / steps for i in range(steps + 1)]
    points = [(one.centre.x + radius * cos(a), one.centre.y + radius * sin(a)) for a in angles]
    return LineString(points).buffer(0.6)


def words_room(one: Bracket) -> BaseGeometry:
    """Where the words of a bracket are written, as wide as they come out in a usual sans serif."""
    words = caption(one, one.text)
    wide = max(map(len, words.lines)) * LETTER
    left = words.x - {"start": 0.0, "middle": wide / 2, "end": wide}[words.anchor]
    return box(left, words.y - 6.5, left + wide, words.y + 11 * (len(words.lines) - 1) + 2)


def assert_brackets_clear(drawn: Chart, numbers: list[BaseGeometry], tree: STRtree) -> None:
    """No bracket lies on a symbol or a number, nor do its words, which stay on the page."""
    page = box(0, 0, drawn.width, drawn.height)
    for one in drawn.brackets:
        line, words = bracket_line(one), words_room(one)
        for room in (line, words):
            assert not len(tree.query(room, predicate="intersects")), (drawn.title, one)
            assert not any(room.intersects(other) for other in numbers), (drawn.title, one)
        assert page.contains(words), (drawn.title, one)
        assert not line.intersects(words), (drawn.title, one)


def assert_readable(drawn: Chart) -> None:
    shapes = [ink(symbol) for symbol in drawn.symbols]
    tree = STRtree(shapes)
    letters = int(len(drawn.yarns) > 1)
    numbers = [mark for mark in drawn.marks if mark.text]
    rooms = [number_room(mark, letters) for mark in numbers]
    for i, (mark, room) in enumerate(zip(numbers, rooms, strict=True)):
        assert shared(room, shapes, tree) <= TEXT, (drawn.title, mark)
        arrow = arrow_room(mark)
        assert arrow is None or shared(arrow, shapes, tree) <= ARROW, (drawn.title, mark)
        assert not any(room.intersects(other) for other in rooms[:i]), (drawn.title, mark)
    assert_brackets_clear(drawn, rooms, tree)


def assert_well_drawn(one: Chart) -> None:
    """All that holds of any chart: its place, its order, its stitches and what is written."""
    assert_on_the_page(one)
    assert_on_page(one)
    assert_in_order(one)
    assert_planted(one)
    assert_readable(one)
    for share, a, b in overlaps(one):
        assert share <= SHARED, (one.title, a.number, a.nth, b.number, b.nth)


@pytest.mark.parametrize("path", PATHS, ids=lambda path: path.stem)
def test_numbers_are_clear_of_symbols_and_of_one_another(path: Path) -> None:
    for drawn in drawn_from[path]:
        assert_readable(drawn)


@pytest.mark.parametrize("path", PATHS, ids=lambda path: path.stem)
def test_numbers_are_clear_in_the_largest_size(path: Path) -> None:
    checked = check_text(path.name, path.read_text("utf-8")).checked
    assert checked is not None
    last = len(checked.fabrics) - 1
    for part in checked.fabrics[last].parts if last else ():
        assert_readable(chart(checked, part.name, last))


def test_a_number_without_room_for_its_arrow_has_none() -> None:
    bare = [
        (drawn, mark)
        for path in PATHS
        for drawn in drawn_from[path]
        for mark in drawn.marks
        if mark.text and mark.at == mark.toward
    ]
    assert bare
    drawn, mark = bare[0]
    [written] = [g for g in svg(drawn, "UK").split("<g") if f' data-row="{mark.text}"><text' in g]
    assert "<path" not in written


def test_rounds_that_are_worked_over_and_over_lie_on_grey() -> None:
    drawn = by_name("foghorn-hat", "hat")
    [bracket] = drawn.brackets
    assert bracket.text == "round 10, on grey: work 9 (10, 12, 13, 13) times in all"
    outer, inner = map(Polygon, bracket.band)
    grey = outer.difference(inner)
    for symbol in drawn.symbols:
        if symbol.row and symbol.nth:
            [foot] = symbol.feet or (symbol.top,)
            middle = Point((foot.x + symbol.top.x) / 2, (foot.y + symbol.top.y) / 2)
            assert grey.contains(middle) == (symbol.number in (10, 11)), symbol
    assert 'fill="#e8e8e8" fill-rule="evenodd"' in svg(drawn, "UK")


def test_the_key_says_what_the_letters_of_yarns_are() -> None:
    def said(name: str, part: str) -> str:
        picture = unescape(svg(by_name(name, part), "UK"))
        return " ".join(re.sub(r"<[^>]+>", " ", picture).split())

    beside = "The letter beside a round's number is its yarn"
    assert f"{beside}: A: slate" in said("harbour-square", "square")
    taken = f"{beside}, before a stitch the yarn that is taken up there: A: slate"
    assert taken in said("signal-band", "band")
    assert "The letter beside a row's number is its yarn: A: deep" in said("ebb-ripple", "blanket")
    assert "The letter" not in said("lantern-hat", "hat")


def test_the_letter_of_a_new_yarn_lies_on_no_stitch() -> None:
    drawn = by_name("signal-band", "band")
    letters = [mark for mark in drawn.marks if not mark.text]
    assert letters
    shapes = [ink(symbol) for symbol in drawn.symbols]
    tree = STRtree(shapes)
    for mark in letters:
        assert shared(number_room(mark, 1), shapes, tree) <= ARROW, mark
