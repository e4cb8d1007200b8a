"""Outline: the silhouette of a part worked in rows, shaping included.

Every row is as long as its stitches make it. Which side a row grows or shrinks on is read off
the fabric: what it makes more than it takes before its middle belongs to the side it begins on, all
else to the side it ends on. The first row is taken to go from right to left, and turning changes
sides.

    row 3   38 sts    begins on the right: one more there       .----.
    row 2   37 sts    begins on the left: one more there       .----'
"""

from __future__ import annotations

from collections.abc import Iterator
from math import hypot

from loopwright.frozen import Frozen
from loopwright.ir.fabric import WorkedPart, WorkedRow
from loopwright.ir.pattern import Gauge
from loopwright.measure.finished import stitches_wide
from loopwright.measure.values import PartSize, RowSize

STEEP = 1.5
"""A side that moves by more than so many row heights in one row is a step, not a slope."""

WORKED_OUT = 4
"""Repeats that are drawn one by one; of more, two and the last."""

Point = tuple[float, float]


class Outline(Frozen):
    """The left and the right side from the first row up, as (x, y) in mm, y upwards, and whether
    the heights are known (where not, every row is taken to be as high as a stitch is wide)."""

    left: tuple[Point, ...]
    right: tuple[Point, ...]
    known: bool


def outline(worked: WorkedPart, size: PartSize, gauge: Gauge) -> Outline | None:
    """The outline of a part's rows; None where it has none."""
    each = float(gauge.over / gauge.stitches)
    sides = _Sides(each)
    stretches = [(rows, times) for rows, times in worked.rows if times]
    known = True
    for (rows, times), (sizes, _) in zip(stretches, size.stretches, strict=True):
        pairs = [pair for pair in zip(rows, sizes, strict=True) if not pair[1].is_round]
        known = known and all(one.high is not None for _, one in pairs)
        if pairs:
            sides.stretch(pairs, times)
    if not sides.left:
        return None
    slack = each * 0.75
    return Outline(tuple(simpler(sides.left, slack)), tuple(simpler(sides.right, slack)), known)


class _Sides:
    """Both sides as far as they have come. ``leftward`` tells where the row at hand is going,
    ``known`` what was found out of rows that come again."""

    def __init__(self, each: float) -> None:
        self.each = each
        self.left: list[Point] = []
        self.right: list[Point] = []
        self.leftward = True
        self.known: dict[int, int | None] = {}

    def stretch(self, pairs: list[tuple[WorkedRow, RowSize]], times: int) -> None:
        """Rows worked over and over: after the first time they only move sideways."""
        if times <= WORKED_OUT:
            for _ in range(times):
                self._once(pairs)
            return
        self._once(pairs)
        before = self.left[-1]
        self._once(pairs)
        self._once(pairs)
        after = self.left[-1]
        more, rest = divmod(times - 3, 2)
        self._move((after[0] - before[0]) * more, (after[1] - before[1]) * more)
        for _ in range(rest):
            self._once(pairs)

    def _once(self, pairs: list[tuple[WorkedRow, RowSize]]) -> None:
        for row, size in pairs:
            self._row(row, size)

    def _row(self, row: WorkedRow, size: RowSize) -> None:
        wide = size.stitches * self.each
        high = float(size.high) if size.high is not None else self.each
        if not self.left:
            self.left.append((0.0, 0.0))
            self.right.append((wide, 0.0))
        elif row.turned:
            self.leftward = not self.leftward
        left, right = self.left[-1][0], self.right[-1][0]
        first = len(self.left) == 1
        gained = 0.0 if first else self._gained(row, size, wide - (right - left))
        if self.leftward:
            right += gained
            left = right - wide
        else:
            left -= gained
            right = left + wide
        self._side(self.left, left, high)
        self._side(self.right, right, high)

    def _gained(self, row: WorkedRow, size: RowSize, more: float) -> float:
        """How far the side that the row begins on moves out."""
        if size.openwork:
            return more / 2
        if id(row) not in self.known:
            self.known[id(row)] = at_its_beginning(row)
        stitches = self.known[id(row)]
        return more / 2 if stitches is None else stitches * self.each

    @staticmethod
    def _side(side: list[Point], x: float, high: float) -> None:
        before, y = side[-1]
        if abs(x - before) > STEEP * high:
            side.append((x, y))
        side.append((x, y + high))

    def _move(self, x: float, y: float) -> None:
        for side in (self.left, self.right):
            side.append((side[-1][0] + x, side[-1][1] + y))


def at_its_beginning(row: WorkedRow) -> int | None:
    """How many more stitches a row makes than it takes before it comes to its middle. None where
    that is not the same all over the middle: what a row adds is spread over it, or shells and
    waves come and go in it, and its two sides move alike."""
    if any(place.what not in ("st", "ch") for place in row.below.tally()):
        return None
    n = row.made.length
    first = _more(row, n // 4)
    for at in (n - n // 4, *range(n // 2 - 4, n // 2 + 5)):
        if n // 4 <= at <= n - n // 4 and _more(row, at) != first:
            return None
    return first - row.shift


def _more(row: WorkedRow, at: int) -> int:
    """What the first so many things of a row make, less what they take."""
    begun = row.made.slice(0, at)
    last = -1
    for one, times in begun.tally().items():
        last += (one.step + max(one.also, default=0)) * times
    return stitches_wide(begun) - (last + 1)


def simpler(points: list[Point], slack: float) -> Iterator[Point]:
    """The same line without the points that lie within ``slack`` of it."""
    kept = [False] * len(points)
    kept[0] = kept[-1] = True
    spans = [(0, len(points) - 1)]
    while spans:
        low, high = spans.pop()
        far, at = slack, 0
        for i in range(low + 1, high):
            away = _away(points[i], points[low], points[high])
            if away > far:
                far, at = away, i
        if at:
            kept[at] = True
            spans += [(low, at), (at, high)]
    return (point for point, keep in zip(points, kept, strict=True) if keep)


def _away(point: Point, one: Point, two: Point) -> float:
    """How far a point is from the line between two others."""
    x, y = two[0] - one[0], two[1] - one[1]
    length = hypot(x, y)
    if not length:
        return hypot(point[0] - one[0], point[1] - one[1])
    return abs(x * (point[1] - one[1]) - y * (point[0] - one[0])) / length
