"""Finding room for the numbers of rows: as near the beginning of the row as there is room.

The page is laid out in small cells, of which those with ink are known. A number goes where it would
stand anyway, or to the nearest place around that has no ink; where there is none, to the place with
the least.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import lru_cache
from math import ceil, floor, hypot

from loopwright.frozen import replace
from loopwright.render.chart.values import Mark, Point, Symbol

CELL = 2.0
DIGIT = 5.2  # the width of a digit
ARROW = 4.6  # half the length of an arrow, and its tip
ABOVE, BELOW = 3.8, 10.5  # how far a number and its arrow reach
UPRIGHT = 2.0  # how much further down an arrow does that points up
BASELINE = 4.0  # how far a number does by itself
TOUCHED = 1  # cells of ink that an arrow may touch
BAR = 5.5
AREA = 64.0  # ink further from a number than this is no hindrance to it
AREAS = [(x * AREA, y * AREA) for x in (-1, 0, 1) for y in (-1, 0, 1)]
DOT = Point(3.4, 2.3)  # half the width and height of a slip stitch
RING = Point(7.0, 7.0)  # and of a magic ring
ROUND = 2.4  # half the width of a chain
REACH = 20.0  # how far a number may be moved
_CELLS = [one * CELL for one in range(-int(REACH / CELL), int(REACH / CELL) + 1)]
STEPS = [(x, y, hypot(x, y)) for x in _CELLS for y in _CELLS if hypot(x, y) <= REACH]
"""Where a number may be moved to, and how far that is."""


class Ink:
    """The cells with ink: of each line of cells a number with a bit for each, from the leftmost
    that a mark could come to lie on."""

    def __init__(self, left: float) -> None:
        self.left = int(left // CELL)
        self.lines: dict[int, int] = {}

    def draw(self, one: Point, two: Point) -> None:
        """A line from one point to another."""
        x, y = one.x / CELL, one.y / CELL
        on, up = two.x / CELL - x, two.y / CELL - y
        steps = max(ceil(hypot(on, up)), 1)
        lines, left = self.lines, self.left
        for k in range(steps + 1):
            at = floor(x + on * k / steps) - left
            if at >= 0:
                line = floor(y + up * k / steps)
                lines[line] = lines.get(line, 0) | 1 << at

    def fill(self, at: Point, half: float, below: float) -> None:
        """All cells of a mark."""
        lines, cells = self._box(at, half, below)
        for line in lines:
            self.lines[line] = self.lines.get(line, 0) | cells

    def touched(self, at: Point, half: float, below: float) -> int:
        """How many cells with ink a mark would lie on."""
        lines, cells = self._box(at, half, below)
        get = self.lines.get
        return sum([(get(line, 0) & cells).bit_count() for line in lines])

    def _box(self, at: Point, half: float, below: float) -> tuple[range, int]:
        left, right = floor((at.x - half) / CELL), floor((at.x + half) / CELL)
        top, bottom = floor((at.y - ABOVE) / CELL), floor((at.y + below) / CELL)
        cells = ((1 << (right - left + 1)) - 1) << (left - self.left)
        return range(top, bottom + 1), cells


def cleared(marks: Iterable[Mark], symbols: Iterable[Symbol], letters: bool) -> list[Mark]:
    """The marks, moved to where there is room; ``letters`` where each has its yarn's letter."""
    marks = list(marks)
    inked = Ink(min((mark.at.x - REACH - _half(mark, letters) for mark in marks), default=0.0))
    near = {_area(Point(mark.at.x + x, mark.at.y + y)) for mark in marks for x, y in AREAS}
    for symbol in symbols:
        if symbol.path or _area(symbol.top) in near:
            for one, two in _lines(symbol):
                inked.draw(one, two)
    out = []
    for mark in marks:
        if mark.text:
            mark = _placed(mark, inked, letters)
            inked.fill(mark.at, _half(mark, letters), _below(mark))
        out.append(mark)
    return out


def _area(at: Point) -> tuple[int, int]:
    """The large square of the page that a point lies in."""
    return int(at.x // AREA), int(at.y // AREA)


def _half(mark: Mark, letters: bool) -> float:
    return max(DIGIT * (len(mark.text) + letters) / 2 + 1.0, ARROW)


def _below(mark: Mark) -> float:
    """How far a number reaches down with its arrow, if it has one."""
    x, y = mark.toward.x - mark.at.x, mark.toward.y - mark.at.y
    length = hypot(x, y)
    return BELOW + UPRIGHT * abs(y) / length if length else BASELINE


def _placed(mark: Mark, inked: Ink, letters: bool) -> Mark:
    """The mark where there is room for it; where there is none with its arrow, without."""
    half = _half(mark, letters)
    if not inked.touched(mark.at, half, _below(mark)):
        return mark
    around = _around(mark)
    best, least = _clearest(mark, inked, half, _below(mark), around)
    if least > TOUCHED:
        bare, touched = _clearest(mark, inked, half, BASELINE, around)
        if touched < least:
            return replace(mark, at=bare, toward=bare)
    dx, dy = best.x - mark.at.x, best.y - mark.at.y
    return replace(mark, at=best, toward=Point(mark.toward.x + dx, mark.toward.y + dy))


def _clearest(
    mark: Mark, inked: Ink, half: float, below: float, around: Iterable[Point]
) -> tuple[Point, int]:
    """The nearest place with the least ink, and how many cells of ink it has."""
    best, least = mark.at, inked.touched(mark.at, half, below)
    for point in around if least else ():
        found = inked.touched(point, half, below)
        if found < least:
            best, least = point, found
            if not least:
                break
    return best, least


def _around(mark: Mark) -> list[Point]:
    """Places around a mark, the nearest first; of those as near, what lies back from the row."""
    at = mark.at
    steps = _nearest_first(at.x - mark.toward.x, at.y - mark.toward.y)
    return [Point(at.x + x, at.y + y) for x, y in steps]


@lru_cache(maxsize=64)
def _nearest_first(left: float, up: float) -> list[tuple[float, float]]:
    """The steps around a mark in that order, where its row lies so far to the left and up."""
    length = hypot(left, up) or 1.0
    ahead = (-(x * left + y * up) / length for x, y, _ in STEPS)
    far = [step[2] + on if on > 0 else step[2] for step, on in zip(STEPS, ahead, strict=True)]
    order = sorted(range(len(STEPS)), key=far.__getitem__)
    return [STEPS[nth][:2] for nth in order]


def _lines(symbol: Symbol) -> Iterator[tuple[Point, Point]]:
    """The main lines of a symbol: its posts and its bar, or its chains."""
    for one, two in zip(symbol.path, symbol.path[1:], strict=False):
        x, y = _across(one, two, ROUND)
        yield Point(one.x - x, one.y - y), Point(two.x - x, two.y - y)
        yield Point(one.x + x, one.y + y), Point(two.x + x, two.y + y)
    top = symbol.top
    for foot in symbol.feet:
        yield foot, top
        x, y = _across(foot, top, BAR)
        middle = Point((foot.x + top.x) / 2, (foot.y + top.y) / 2)
        for at in (top, middle):
            yield Point(at.x - x, at.y - y), Point(at.x + x, at.y + y)
    if not (symbol.feet or symbol.path) or symbol.look.shape == "dot":
        wide, high = RING if symbol.look.shape == "magic ring" else DOT
        for y in (-high, 0.0, high):
            yield Point(top.x - wide, top.y + y), Point(top.x + wide, top.y + y)


def _across(one: Point, two: Point, half: float) -> tuple[float, float]:
    """So far to the side of the way from one point to another."""
    length = hypot(two.x - one.x, two.y - one.y) or 1.0
    return -(two.y - one.y) / length * half, (two.x - one.x) / length * half
