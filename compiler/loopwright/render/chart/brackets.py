"""Where the lines of a bracket and its words stand; every form of a chart draws them so."""

from __future__ import annotations

import re
from math import hypot

from loopwright.frozen import NamedTuple
from loopwright.render.chart.symbols import number
from loopwright.render.chart.values import Bracket, Point

_SIZES = re.compile(r"\d[\d,]* \([^)]*\)")
BESIDE, UNDER = 24, 34  # characters of a line of words beside a bracket, and of one under it
LINE = 11.0  # from one line of words to the next
ASLANT = 0.5  # how far aside an arc looks at least whose words stand beside it
LETTER = 5.0  # the width of a letter of a bracket's words, on average
TICK = 6.0  # the length of an arc's ends


class Caption(NamedTuple):
    """A bracket's words: where the first line's anchor stands, which end of the line that is
    (``start``, ``middle`` or ``end``), and the lines."""

    x: float
    y: float
    anchor: str
    lines: list[str]


def bracket_path(one: Bracket) -> str:
    """The line of a bracket: straight with square ends, or an arc with ends that point inwards."""
    if one.centre is not None:
        return _arc_path(one, one.centre)
    dx, dy = one.side
    points = (
        Point(one.one.x + dx, one.one.y + dy),
        one.one,
        one.two,
        Point(one.two.x + dx, one.two.y + dy),
    )
    return "M" + "L".join(f"{number(point.x)} {number(point.y)}" for point in points)


def band_path(one: Bracket) -> str:
    """The outline of the rounds that lie on grey, for filling by the rule of even and odd."""
    return "".join(
        "M" + "L".join(f"{number(point.x)} {number(point.y)}" for point in edge) + "Z"
        for edge in one.band
    )


def _arc_path(one: Bracket, centre: Point) -> str:
    radius = hypot(one.one.x - centre.x, one.one.y - centre.y)
    inside = [_toward(end, centre, TICK / (radius or 1.0)) for end in (one.one, one.two)]
    across = (one.one.x - centre.x) * (one.two.y - centre.y)
    across -= (one.one.y - centre.y) * (one.two.x - centre.x)
    large = int(across > 0)  # y runs down: anticlockwise from one to two is more than half round
    start, end = inside
    return (
        f"M{number(start.x)} {number(start.y)}L{number(one.one.x)} {number(one.one.y)}"
        f"A{number(radius)} {number(radius)} 0 {large} 0 {number(one.two.x)} {number(one.two.y)}"
        f"L{number(end.x)} {number(end.y)}"
    )


def _toward(point: Point, centre: Point, part: float) -> Point:
    return Point(
        point.x + (centre.x - point.x) * part,
        point.y + (centre.y - point.y) * part,
    )


def arc_middle(one: Bracket) -> tuple[Point, Point]:
    """The middle of an arc, and the way out there, one long."""
    centre = one.centre or Point(0.0, 0.0)
    x, y = one.one.x - centre.x, one.one.y - centre.y
    radius = hypot(x, y) or 1.0
    way_x, way_y = x + one.two.x - centre.x, y + one.two.y - centre.y
    long = hypot(way_x, way_y)
    if x * (one.two.y - centre.y) - y * (one.two.x - centre.x) > 0:  # more than half round
        long = -long
    way = Point(way_x / long, way_y / long) if long else Point(y / radius, -x / radius)
    return Point(centre.x + way.x * radius, centre.y + way.y * radius), way


def caption(one: Bracket, text: str, beside: int = BESIDE, under: int = UNDER) -> Caption:
    """The words of a bracket, in lines of so many characters beside it or above and below it."""
    if one.centre is not None:
        return _arc_caption(one, text, beside, under)
    x, y = (one.one.x + one.two.x) / 2, (one.one.y + one.two.y) / 2
    if one.side.x:
        lines = _lines(text, one.widest or beside)
        first = y + 3 - LINE * (len(lines) - 1) / 2
        return (
            Caption(x + 5, first, "start", lines)
            if one.side.x < 0
            else Caption(x - 5, first, "end", lines)
        )
    lines = _lines(text, one.widest or under)
    above = 5 + LINE * (len(lines) - 1)
    return Caption(x, y + 12 if one.side.y < 0 else y - above, "middle", lines)


def _arc_caption(one: Bracket, text: str, beside: int, under: int) -> Caption:
    at, way = arc_middle(one)
    aside = abs(way.x) >= ASLANT
    lines = _lines(text, beside if aside else under)
    anchor = ("start" if way.x > 0 else "end") if aside else "middle"
    first = -LINE * (len(lines) - 1) * (1 - way.y) / 2  # all above where it looks up
    # Words over a slope stand as far out as clears it at both their ends.
    out = 7.0 + (0.0 if aside else max(map(len, lines)) * LETTER / 2 * abs(way.x))
    return Caption(at.x + way.x * out, at.y + way.y * (out + 2.0) + 3 + first, anchor, lines)


def _lines(text: str, most: int) -> list[str]:
    """The words of a bracket in lines; the numbers of the sizes stay together."""
    kept = _SIZES.sub(lambda found: found.group().replace(" ", "\u00a0"), text)
    return [line.replace("\u00a0", " ") for line in wrap(kept, most)]


def wrap(line: str, most: float) -> list[str]:
    """Break a line between words so that none is longer than so many characters."""
    out = [""]
    for word in line.split(" "):
        longer = f"{out[-1]} {word}".strip()
        if out[-1] and len(longer) > most:
            out.append(word)
        else:
            out[-1] = longer
    return out
