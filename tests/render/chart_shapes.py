"""The ink of a chart as shapes: every symbol's lines as thick as they are printed.

The lines are read from the paths that are written into the SVG, so that what is measured is what
is seen.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from math import cos, pi, radians, sin

from shapely import STRtree
from shapely.geometry import LineString, Polygon
from shapely.geometry.base import BaseGeometry
from shapely.ops import unary_union

from loopwright.render.chart import Chart, Symbol
from loopwright.render.chart.symbols import strokes

STROKE = 1.2  # as the SVG draws it
_PIECE = re.compile(r"([MLQAZ])([^MLQAZ]*)")


def ink(symbol: Symbol) -> BaseGeometry:
    """What a symbol prints."""
    shapes = [
        Polygon(line).buffer(0) if stroke.filled else LineString(line).buffer(STROKE / 2, 4)
        for stroke in strokes(symbol)
        for line in lines(stroke.path)
    ]
    return unary_union(shapes)


def lines(path: str) -> Iterator[list[tuple[float, float]]]:
    """The lines of a path, its curves and ellipses as short straight pieces."""
    line: list[tuple[float, float]] = []
    for kind, written in _PIECE.findall(path):
        values = [float(value) for value in written.split()]
        if kind == "M":
            if len(line) > 1:
                yield line
            line = [(values[0], values[1])]
        elif kind == "L":
            line.append((values[0], values[1]))
        elif kind == "Q":
            line += _curve(line[-1], (values[0], values[1]), (values[2], values[3]))
        elif kind == "A":
            line += _half(line[-1], values)
    if len(line) > 1:
        yield line


def _curve(
    start: tuple[float, float], by: tuple[float, float], end: tuple[float, float]
) -> list[tuple[float, float]]:
    out = []
    for step in range(1, 9):
        t = step / 8
        out.append(
            (
                (1 - t) ** 2 * start[0] + 2 * t * (1 - t) * by[0] + t * t * end[0],
                (1 - t) ** 2 * start[1] + 2 * t * (1 - t) * by[1] + t * t * end[1],
            )
        )
    return out


def _half(start: tuple[float, float], values: list[float]) -> list[tuple[float, float]]:
    """Half an ellipse, from one end of its long axis to the other."""
    rx, ry, turn, _, _, x, y = values
    cx, cy = (start[0] + x) / 2, (start[1] + y) / 2
    t = radians(turn)
    first = 0.0 if (start[0] - cx) * cos(t) + (start[1] - cy) * sin(t) > 0 else pi
    out = []
    for step in range(1, 9):
        a = first + pi * step / 8
        px, py = rx * cos(a), ry * sin(a)
        out.append((cx + px * cos(t) - py * sin(t), cy + px * sin(t) + py * cos(t)))
    return out


def overlaps(drawn: Chart) -> Iterator[tuple[float, Symbol, Symbol]]:
    """Every two symbols that share ink, and how much of the smaller one's ink that is."""
    shapes = [ink(symbol) for symbol in drawn.symbols]
    tree = STRtree(shapes)
    for i, shape in enumerate(shapes):
        for j in tree.query(shape, predicate="intersects"):
            if j > i:
                area = shape.intersection(shapes[j]).area
                least = min(shape.area, shapes[j].area)
                yield area / least, drawn.symbols[i], drawn.symbols[j]
