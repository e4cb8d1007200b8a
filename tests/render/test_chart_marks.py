"""The numbers of rows and rounds, measured against the ink of the symbols they stand beside.

``TEXT`` is how much of the room of its digits a number may share with symbols, ``ARROW`` how much
of an arrow may: a number is read, an arrow is only seen. No number may touch another.
"""

from __future__ import annotations

from math import hypot
from pathlib import Path

import pytest
from chart_shapes import ink
from shapely import STRtree, box
from shapely.geometry import LineString
from shapely.geometry.base import BaseGeometry
from test_chart_geometry import PATHS, drawn_from

from loopwright.pipeline import check_text
from loopwright.render.chart import Chart, chart, svg
from loopwright.render.chart.values import Mark

TEXT = 0.02
ARROW = 0.05
DIGIT = 5.4  # the width of a digit in 9 units of a sans serif, a little more than half an em
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
