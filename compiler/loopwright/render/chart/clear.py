"""Finding room for the numbers of rows: as near the beginning of the row as there is room.

The page is laid out in small cells, of which those with ink are known. A number goes where it would
stand anyway, or to the nearest place around that has no ink; where there is none, to the place with
the least.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from math import ceil, hypot

from loopwright.render.chart.values import Mark, Point, Symbol

CELL = 2.0
DIGIT = 5.2  # the width of a digit
ABOVE, BELOW = 4.5, 11.0  # how far a number and its arrow reach
BAR = 5.5
AREA = 64.0  # ink further from a number than this is no hindrance to it
AREAS = [(x * AREA, y * AREA) for x in (-1, 0, 1) for y in (-1, 0, 1)]
REACH = 16.0  # how far a number may be moved
Cells = set[tuple[int, int]]


def cleared(marks: Iterable[Mark], symbols: Iterable[Symbol], letters: bool) -> list[Mark]:
    """The marks, moved to where there is room; ``letters`` where each has its yarn's letter."""
    marks = list(marks)
    inked: Cells = set()
    near = {_area(Point(mark.at.x + x, mark.at.y + y)) for mark in marks for x, y in AREAS}
    for symbol in symbols:
        if symbol.path or _area(symbol.top) in near:
            for one, two in _lines(symbol):
                inked |= _along(one, two)
    out = []
    for mark in marks:
        if mark.text:
            mark = _placed(mark, inked, letters)
            inked |= _box(mark.at, _half(mark, letters))
        out.append(mark)
    return out


def _area(at: Point) -> tuple[int, int]:
    """The large square of the page that a point lies in."""
    return int(at.x // AREA), int(at.y // AREA)


def _half(mark: Mark, letters: bool) -> float:
    return DIGIT * (len(mark.text) + letters) / 2 + 1.0


def _placed(mark: Mark, inked: Cells, letters: bool) -> Mark:
    half = _half(mark, letters)
    best, least = mark.at, len(_box(mark.at, half) & inked)
    for point in _around(mark):
        if not least:
            break
        found = len(_box(point, half) & inked)
        if found < least:
            best, least = point, found
    dx, dy = best.x - mark.at.x, best.y - mark.at.y
    return replace(mark, at=best, toward=Point(mark.toward.x + dx, mark.toward.y + dy))


def _around(mark: Mark) -> Iterator[Point]:
    """Places around a mark, the nearest first; of those as near, what lies back from the row."""
    back = Point(mark.at.x - mark.toward.x, mark.at.y - mark.toward.y)
    length = hypot(*back) or 1.0
    steps = range(-int(REACH / CELL), int(REACH / CELL) + 1)
    found = [(x * CELL, y * CELL) for x in steps for y in steps]

    def far(step: tuple[float, float]) -> float:
        ahead = -(step[0] * back.x + step[1] * back.y) / length
        return hypot(*step) + max(ahead, 0.0)

    for x, y in sorted(found, key=far):
        if hypot(x, y) <= REACH:
            yield Point(mark.at.x + x, mark.at.y + y)


def _box(at: Point, half: float) -> Cells:
    left, right = int((at.x - half) // CELL), int((at.x + half) // CELL)
    top, bottom = int((at.y - ABOVE) // CELL), int((at.y + BELOW) // CELL)
    return {(x, y) for x in range(left, right + 1) for y in range(top, bottom + 1)}


def _lines(symbol: Symbol) -> Iterator[tuple[Point, Point]]:
    """The main lines of a symbol: its posts and its bar, or its chains."""
    yield from zip(symbol.path, symbol.path[1:], strict=False)
    top = symbol.top
    for foot in symbol.feet:
        yield foot, top
        length = hypot(top.x - foot.x, top.y - foot.y) or 1.0
        across = Point(-(top.y - foot.y) / length * BAR, (top.x - foot.x) / length * BAR)
        middle = Point((foot.x + top.x) / 2, (foot.y + top.y) / 2)
        for at in (top, middle):
            yield Point(at.x - across.x, at.y - across.y), Point(at.x + across.x, at.y + across.y)
    if not symbol.feet and not symbol.path:
        yield Point(top.x - 3, top.y), Point(top.x + 3, top.y)


def _along(one: Point, two: Point) -> Cells:
    steps = max(ceil(hypot(two.x - one.x, two.y - one.y) / CELL), 1)
    return {
        (
            int((one.x + (two.x - one.x) * k / steps) // CELL),
            int((one.y + (two.y - one.y) * k / steps) // CELL),
        )
        for k in range(steps + 1)
    }
