"""Every symbol of the chart, drawn as lines: the one place that knows what they look like.

The forms are the trade's (table J, sources mrsworld, xsc, ronique2, sullivans): a chain is an open
oval, a slip stitch a filled dot, US single crochet a cross, half double a T, double a T with one
slash, and one slash more for every further height. Symbols that meet at the bottom are increases,
at the top decreases. The marks for loops, posts, bobbles, popcorns and the magic ring are this
chart's own, since the sources show them as pictures; the key names each one that is used.
"""

from __future__ import annotations

from collections.abc import Callable
from math import atan2, cos, degrees, hypot, pi, sin

from loopwright.frozen import NamedTuple
from loopwright.render.chart.values import Point, Symbol
from loopwright.trade.stitches import BASICS, FRONT, Stitch

BAR = 5.2  # half the width of the bar of a T
OVAL = 2.9  # half the width of a chain
LONGEST = 1.3  # times its usual length, a post has its slashes in proportion


class Stroke(NamedTuple):
    """One line to draw, as an SVG path, and whether it is filled."""

    path: str
    filled: bool = False


def number(value: float) -> str:
    """A length with at most two decimals, always written the same way."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


class Pen:
    """Draws in the frame of a stitch: ``up`` from its foot towards its top, ``across`` to the
    right of that. Of one that is drawn ``scale`` times as long as usual, what is on its post stands
    as near its top as on one that is a little long."""

    def __init__(self, foot: Point, top: Point, scale: float = 1.0) -> None:
        self.foot = foot
        self.scale = scale
        self.length = hypot(top.x - foot.x, top.y - foot.y)
        length = self.length or 1.0
        self.up_x, self.up_y = (top.x - foot.x) / length, (top.y - foot.y) / length
        if not self.length:
            self.up_y = -1.0

    def part(self, part: float) -> float:
        """How far up a part of its height lies."""
        below = self.length * (1 - part) * min(LONGEST / max(self.scale, LONGEST), 1.0)
        return self.length - below

    def at(self, up: float, across: float = 0.0) -> str:
        """The point so far up and across, as written in a path."""
        x = self.foot.x + self.up_x * up - self.up_y * across
        y = self.foot.y + self.up_y * up + self.up_x * across
        return f"{number(x)} {number(y)}"

    def line(self, *points: tuple[float, float]) -> str:
        """A line through points given as (up, across)."""
        return "M" + "L".join(self.at(up, across) for up, across in points)

    def curve(self, start: tuple[float, float], *rest: tuple[float, float]) -> str:
        """Quadratic curves: a control point and an end point in turn."""
        pairs = zip(rest[::2], rest[1::2], strict=True)
        return f"M{self.at(*start)}" + "".join(f"Q{self.at(*a)} {self.at(*b)}" for a, b in pairs)


def strokes(symbol: Symbol) -> tuple[Stroke, ...]:
    """The lines of a placed symbol."""
    shape = symbol.look.shape
    if symbol.look.stitch is not None and shape in _STITCHES:
        return _STITCHES[shape](symbol, symbol.look.stitch)
    return _OTHERS[shape](symbol)


def _stem(symbol: Symbol, stitch: Stitch) -> tuple[Stroke, ...]:
    """A stitch in one place, or in several and closed at the top."""
    parts = [stitch._replace(unlike=()), *stitch.unlike]
    out = []
    for i, foot in enumerate(symbol.feet):
        leg = parts[min(i, len(parts) - 1)]
        out += _leg(
            Pen(foot, symbol.top, symbol.scale), leg, symbol.look.loop, closed=len(symbol.feet) > 1
        )
    pen = Pen(_middle(symbol.feet), symbol.top)
    if stitch.basic != "plain":
        out.append(_bar(pen, pen.length, BAR))
    if stitch.crab:
        out.append(_wave(pen))
    return tuple(out)


def _leg(pen: Pen, stitch: Stitch, loop: str, closed: bool) -> list[Stroke]:
    """One post with its slashes, and at its foot the mark of a loop or a post."""
    out = [Stroke(pen.line((0, 0), (pen.length, 0)))]
    if stitch.basic == "plain":
        up, half = (0.45, 0.7) if closed else (0.5, 0.9)
        out.append(_bar(pen, pen.part(up), BAR * half))
    else:
        out += _slashes(pen, BASICS[stitch.basic].steps - 1, 0.45 if closed else 0.62)
    if stitch.post:
        out.append(_hook(pen, 1 if stitch.post == FRONT else -1))
    return out + _loop(pen, loop)


def _slashes(pen: Pen, count: int, part: float) -> list[Stroke]:
    """One slash for each wrap after the first step, below the bar."""
    gap = min(5.5, pen.length * 0.16)
    rows = [pen.part(part) - gap * (i - (count - 1) / 2) for i in range(count)]
    return [Stroke(pen.line((up - 2, -3.8), (up + 2, 3.8))) for up in rows]


def _bar(pen: Pen, up: float, half: float) -> Stroke:
    return Stroke(pen.line((up, -half), (up, half)))


def _hook(pen: Pen, side: int) -> Stroke:
    """The hook of a post stitch, around the post below it: to the right for a front post."""
    s = float(side)
    return Stroke(pen.curve((0, 0), (-1.5, 5.5 * s), (-4, 5 * s), (-7, 4 * s), (-6, -4.5 * s)))


def _loop(pen: Pen, loop: str) -> list[Stroke]:
    """The mark of a loop under the foot: back a bar, front a cup, the third loop two bars."""
    if loop == "back":
        return [Stroke(pen.line((-1.2, -BAR), (-1.2, BAR)))]
    if loop == "front":
        return [Stroke(pen.curve((1.6, -BAR), (-4, 0), (1.6, BAR)))]
    if loop == "third":
        return [Stroke(pen.line((up, -BAR), (up, BAR))) for up in (-1.4, 1.2)]
    return []


def _wave(pen: Pen) -> Stroke:
    """The wave over a stitch that is worked backwards."""
    up = pen.length + 3
    return Stroke(pen.curve((up, -5), (up + 4, -2.5), (up, 0), (up - 4, 2.5), (up, 5)))


def _bunch(symbol: Symbol, stitch: Stitch) -> tuple[Stroke, ...]:
    """Several made in one place and closed as one: posts that share their foot and their top."""
    pen = Pen(symbol.feet[0], symbol.top)
    gap = min(4.0, 14.0 / max(stitch.legs - 1, 1))
    out = []
    for i in range(stitch.legs):
        off = (i - (stitch.legs - 1) / 2) * gap
        up = pen.length
        out.append(Stroke(pen.curve((0, 0), (up / 2, off * 2), (up, 0))))
    out += _across(pen, stitch, 0.5, (stitch.legs - 1) / 2 * gap + 3)
    if stitch.post:
        out.append(_hook(pen, 1 if stitch.post == FRONT else -1))
    return (*out, *_loop(pen, symbol.look.loop), *_closing(pen, stitch.many))


def _across(pen: Pen, stitch: Stitch, part: float, half: float) -> list[Stroke]:
    """The slashes of a bunch: each one goes across all its posts."""
    count = BASICS[stitch.basic].steps - 1
    ups = [pen.length * part - 4.5 * (k - (count - 1) / 2) for k in range(count)]
    return [Stroke(pen.line((up - 2, -half), (up + 2, half))) for up in ups]


def _closing(pen: Pen, many: str) -> list[Stroke]:
    """How the top is closed: a cluster by a bar, a bobble by two, a puff by a cap."""
    top = pen.length
    if many == "puff":
        return [Stroke(pen.curve((top - 1.5, -BAR), (top + 4, 0), (top - 1.5, BAR)))]
    bars = [_bar(pen, top, BAR)]
    return [*bars, _bar(pen, top - 2.6, BAR)] if many == "bobble" else bars


def _fan(symbol: Symbol, stitch: Stitch) -> tuple[Stroke, ...]:
    """Whole stitches fanned out of one place; a popcorn's are drawn together by an oval."""
    pen = Pen(symbol.feet[0], symbol.top)
    closed = stitch.many == "popcorn"
    reach = pen.length * (0.8 if closed else 1.0)
    half = min(9.0, 3.2 * (stitch.legs - 1))
    out = []
    for i in range(stitch.legs):
        off = (i / max(stitch.legs - 1, 1) - 0.5) * 2 * half
        out.append(Stroke(pen.line((0, 0), (reach, off))))
        out.append(Stroke(pen.line((reach, off - 1.6), (reach, off + 1.6))))
    out += _across(pen, stitch, 0.5, half * 0.6 + 3)
    if closed:
        up = pen.length - 1.5
        turn = degrees(atan2(pen.up_y, pen.up_x)) + 90
        foot = Point(pen.foot.x + pen.up_x * up, pen.foot.y + pen.up_y * up)
        out.append(Stroke(ellipse(foot, half + 2, 3.0, turn)))
    return tuple(out)


def ellipse(centre: Point, rx: float, ry: float, turn: float) -> str:
    """An ellipse as a path, turned by so many degrees."""
    c, s = cos(turn * pi / 180) * rx, sin(turn * pi / 180) * rx
    one = f"{number(centre.x - c)} {number(centre.y - s)}"
    two = f"{number(centre.x + c)} {number(centre.y + s)}"
    arc = f"A{number(rx)} {number(ry)} {number(turn)} 1 1"
    return f"M{one}{arc} {two}{arc} {one}Z"


def _chains(symbol: Symbol) -> tuple[Stroke, ...]:
    """An open oval for each chain, along its path."""
    out = []
    for one, two in zip(symbol.path, symbol.path[1:], strict=False):
        centre = Point((one.x + two.x) / 2, (one.y + two.y) / 2)
        length = hypot(two.x - one.x, two.y - one.y)
        turn = degrees(atan2(two.y - one.y, two.x - one.x))
        half = max(min(length * 0.47, 6.4), 2.2)
        out.append(Stroke(ellipse(centre, half, min(OVAL, half * 0.8), turn)))
    return tuple(out)


def _picot(symbol: Symbol) -> tuple[Stroke, ...]:
    """A loop of chains on the stitch's top, closed by a dot."""
    return (*_chains(symbol), Stroke(ellipse(symbol.top, 2.2, 2.2, 0), True))


def _dot(symbol: Symbol, _: Stitch | None = None) -> tuple[Stroke, ...]:
    return (Stroke(ellipse(symbol.top, 3.4, 2.3, symbol.angle), True),)


def _magic(symbol: Symbol) -> tuple[Stroke, ...]:
    """The magic ring: a ring whose end curls inwards."""
    x, y = symbol.top
    pen = Pen(Point(x, y), Point(x, y - 1))
    curl = pen.curve((0, 7), (4, 6), (3, 1), (1, -4), (-2, -1))
    return (Stroke(ellipse(symbol.top, 7, 7, 0)), Stroke(curl))


def _place(symbol: Symbol) -> tuple[Stroke, ...]:
    """A stitch of the edge that the part begins on: a low T."""
    pen = Pen(symbol.feet[0], symbol.top)
    return (_bar(pen, pen.length, BAR), Stroke(pen.line((0, 0), (pen.length, 0))))


def _row_end(symbol: Symbol) -> tuple[Stroke, ...]:
    """A row end of the edge that the part begins on: a low box, open at the bottom."""
    pen = Pen(symbol.feet[0], symbol.top)
    return (Stroke(pen.line((0, -BAR), (pen.length, -BAR), (pen.length, BAR), (0, BAR))),)


def _space(symbol: Symbol) -> tuple[Stroke, ...]:
    """A space of the edge that the part begins on: a low arch."""
    pen = Pen(symbol.feet[0], symbol.top)
    return (Stroke(pen.curve((0, -BAR), (pen.length * 2, 0), (0, BAR))),)


def _middle(points: tuple[Point, ...]) -> Point:
    count = len(points)
    return Point(sum(p.x for p in points) / count, sum(p.y for p in points) / count)


_STITCHES: dict[str, Callable[[Symbol, Stitch], tuple[Stroke, ...]]] = {
    "stitch": _stem,
    "together": _stem,
    "base": _stem,
    "bunch": _bunch,
    "fan": _fan,
    "dot": _dot,
}
_OTHERS: dict[str, Callable[[Symbol], tuple[Stroke, ...]]] = {
    "chain": _chains,
    "upright chain": _chains,
    "chain ring": _chains,
    "picot": _picot,
    "dot": _dot,
    "magic ring": _magic,
    "place": _place,
    "row end": _row_end,
    "space": _space,
}
