"""The pen: how a schematic draws lines, shapes, and the lengths beside them.

A drawing is made in its own small box; the real lengths come in by letters only.
"""

from __future__ import annotations

from itertools import pairwise
from math import hypot

from loopwright.frozen import NamedTuple
from loopwright.render.speaker import phrase

WIDTH = 480.0
HEIGHT = 272.0
MIDDLE = WIDTH / 2
TOP, BOTTOM = 56.0, 240.0
WIDEST = 300.0
TALLEST = BOTTOM - TOP
LEAST = 36.0
"""The box that a part is fitted into, and the least that a side of it is drawn."""

BESIDE = 12.0
"""How far from a bent side its length is drawn."""

FILL, EDGE, RULE = "#eef3f6", "#222222", "#0b4f8a"
NOT_TO_SCALE = phrase("Not drawn to scale: the part is much longer one way than the other.")

Point = tuple[float, float]


class Drawing(NamedTuple):
    """Lines of SVG, and what has to be said about them."""

    body: list[str]
    notes: tuple[str, ...] = ()


class Scale(NamedTuple):
    """Drawing units to the mm, across and up, and whether the two agree."""

    across: float
    up: float
    true: bool


def fit(wide: float, high: float) -> Scale:
    """The scale that fits so wide and so high a part into the box. One that is very long one way
    is drawn shorter than it is, so that its other way can still be seen."""
    whole = min(WIDEST / max(wide, 1e-9), TALLEST / max(high, 1e-9))
    across = max(whole, min(LEAST, WIDEST) / max(wide, 1e-9))
    up = max(whole, min(LEAST, TALLEST) / max(high, 1e-9))
    return Scale(across, up, across == up)


def number(value: float) -> str:
    """A coordinate, to a tenth, without a sign on nought."""
    text = f"{value:.1f}"
    text = text.removesuffix(".0")
    return "0" if text == "-0" else text


def point(at: Point) -> str:
    """A point of a path."""
    return f"{number(at[0])} {number(at[1])}"


def shape(points: list[Point]) -> str:
    """A closed shape."""
    return outlined("M" + "L".join(point(one) for one in points) + "Z")


def ellipse(at: Point, rx: float, ry: float) -> str:
    """An ellipse: a ring looked into from above, or a disc."""
    return (
        f'<ellipse cx="{number(at[0])}" cy="{number(at[1])}" rx="{number(rx)}" '
        f'ry="{number(ry)}" fill="{FILL}" stroke="{EDGE}" stroke-width="1.4"/>'
    )


def bowed(left: Point, right: Point, depth: float) -> str:
    """The part of a path that goes round the front of a ring, from its left to its right end."""
    return f"A{number((right[0] - left[0]) / 2)} {number(depth)} 0 0 0 {point(right)}"


def outlined(path: str) -> str:
    """A closed shape, from its path."""
    return (
        f'<path d="{path}" fill="{FILL}" stroke="{EDGE}" stroke-width="1.4" '
        'stroke-linejoin="round"/>'
    )


def broken(path: str) -> str:
    """A broken line along a path."""
    rule = f'stroke="{RULE}" stroke-width="0.8" stroke-dasharray="4 3"'
    return f'<path d="{path}" fill="none" {rule}/>'


def dashed(one: Point, two: Point) -> str:
    """A broken line across a shape."""
    return broken(f"M{point(one)}L{point(two)}")


def across(left: float, right: float, y: float, letter: str) -> list[str]:
    """A measured length from left to right, with arrowheads and its letter."""
    head = min(5.0, (right - left) / 3)
    path = (
        f"M{point((left, y))}L{point((right, y))}"
        f"M{point((left + head, y - 3))}L{point((left, y))}L{point((left + head, y + 3))}"
        f"M{point((right - head, y - 3))}L{point((right, y))}L{point((right - head, y + 3))}"
    )
    return [_rule(path), mark(((left + right) / 2, y), letter)]


def upright(top: float, bottom: float, x: float, letter: str) -> list[str]:
    """A measured length from top to bottom."""
    head = min(5.0, (bottom - top) / 3)
    path = (
        f"M{point((x, top))}L{point((x, bottom))}"
        f"M{point((x - 3, top + head))}L{point((x, top))}L{point((x + 3, top + head))}"
        f"M{point((x - 3, bottom - head))}L{point((x, bottom))}L{point((x + 3, bottom - head))}"
    )
    return [_rule(path), mark((x, (top + bottom) / 2), letter)]


def beside(points: list[Point], letter: str) -> list[str]:
    """A length measured along a bent line, which is drawn a little beside it."""
    bent = [one for at, one in enumerate(points) if not at or one != points[at - 1]]
    moved = []
    ends = ""
    for at, (x, y) in enumerate(bent):
        out_x, out_y = _outwards(bent[max(at - 1, 0)], bent[min(at + 1, len(bent) - 1)])
        moved.append((x + BESIDE * out_x, y + BESIDE * out_y))
        if at in (0, len(bent) - 1):
            near, far = BESIDE - 4, BESIDE + 4
            ends += f"M{point((x + near * out_x, y + near * out_y))}"
            ends += f"L{point((x + far * out_x, y + far * out_y))}"
    path = "M" + "L".join(point(one) for one in moved) + ends
    return [_rule(path), mark(_half_way(moved), letter)]


def _outwards(before: Point, after: Point) -> Point:
    """The direction away from a line that runs down the right side of a shape."""
    x, y = after[0] - before[0], after[1] - before[1]
    length = hypot(x, y) or 1.0
    return y / length, -x / length


def _half_way(points: list[Point]) -> Point:
    steps = list(pairwise(points))
    lengths = [hypot(b[0] - a[0], b[1] - a[1]) for a, b in steps]
    left = sum(lengths) / 2
    for (a, b), length in zip(steps, lengths, strict=True):
        if left <= length and length:
            part = left / length
            return a[0] + (b[0] - a[0]) * part, a[1] + (b[1] - a[1]) * part
        left -= length
    return points[-1]


def _rule(path: str) -> str:
    return f'<path d="{path}" fill="none" stroke="{RULE}" stroke-width="0.9"/>'


def mark(at: Point, letter: str) -> str:
    """A letter on white, in the middle of its line."""
    x, y = at
    return (
        f'<rect x="{number(x - 7)}" y="{number(y - 7)}" width="14" height="14" fill="#ffffff"/>'
        f'<text x="{number(x)}" y="{number(y + 4)}" text-anchor="middle" font-weight="bold" '
        f'fill="{RULE}">{letter}</text>'
    )


def word(at: Point, text: str) -> str:
    """A small word in the drawing."""
    return (
        f'<text x="{number(at[0])}" y="{number(at[1])}" text-anchor="middle" font-size="9" '
        f'fill="#555555">{text}</text>'
    )
