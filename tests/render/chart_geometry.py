"""What the tests of the chart measure: rows of stitches, distances, angles."""

from __future__ import annotations

from math import atan2, hypot

from loopwright.render.chart import Chart, Symbol
from loopwright.render.chart.values import Point

STITCHES = ("stitch", "together", "bunch", "fan")
BAR = 10.4  # how wide the bar of a T is drawn: 2 x 5.2


def row_of(chart: Chart, row: int) -> list[Symbol]:
    """The stitches of a drawn row, without chains, joins and slip stitches, in the order made."""
    return [s for s in chart.symbols if s.row == row and s.look.shape in STITCHES]


def rows_drawn(chart: Chart) -> int:
    """How many rows are drawn."""
    return max(symbol.row for symbol in chart.symbols)


def points(symbol: Symbol) -> list[Point]:
    """Every point that a symbol is drawn from."""
    return [symbol.top, *symbol.feet, *symbol.path]


def apart(one: Point, two: Point) -> float:
    """The distance between two points."""
    return hypot(one.x - two.x, one.y - two.y)


def angle(point: Point, centre: Point) -> float:
    """The angle of a point about a centre, anticlockwise as the page is seen (y runs down)."""
    return atan2(-(point.y - centre.y), point.x - centre.x)


def turning(one: Point, two: Point, centre: Point) -> float:
    """Above nought where the way from one to two leads anticlockwise around the centre."""
    ax, ay, bx, by = one.x - centre.x, one.y - centre.y, two.x - centre.x, two.y - centre.y
    return -(ax * by - ay * bx)


def assert_on_the_page(chart: Chart) -> None:
    """Every symbol lies inside the page, and has a number for every measure."""
    for symbol in chart.symbols:
        for point in points(symbol):
            assert 0 <= point.x <= chart.width
            assert 0 <= point.y <= chart.height


def assert_apart(chart: Chart, least: float = BAR) -> None:
    """No two stitches of a row lie closer than their bars are wide."""
    for row in range(1, rows_drawn(chart) + 1):
        tops = [symbol.top for symbol in row_of(chart, row)]
        for i, one in enumerate(tops):
            for two in tops[i + 1 :]:
                assert apart(one, two) >= least, (row, one, two)
