"""Parts that lie flat: discs, ovals and motifs from above, ruffles, and pieces worked in rows."""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise
from math import cos, pi, sin

from loopwright.measure.form import Form
from loopwright.render.schematic import pen
from loopwright.render.schematic.pen import Drawing, Point
from loopwright.render.speaker import phrase

MIDDLE: Point = (pen.MIDDLE, (pen.TOP + pen.BOTTOM) / 2)
RADIUS = pen.TALLEST / 2
WAVES, DEPTH, STEPS = 14, 0.06, 168
TURN = -pi / 5
OVER = -3 * pi / 4


def disc(form: Form, letters: dict[str, str], start: str) -> Drawing:
    """A disc from above."""
    body = [pen.ellipse(MIDDLE, RADIUS, RADIUS), *_middle(MIDDLE, start)]
    return Drawing([*body, *_across(letters), *_upper_right(letters)])


def ruffle(form: Form, letters: dict[str, str], start: str) -> Drawing:
    """The room that a ruffle has, with an edge that is longer."""
    wave = []
    for step in range(STEPS):
        turn = 2 * pi * step / STEPS
        radius = RADIUS * (1 + DEPTH * sin(WAVES * turn))
        wave.append((MIDDLE[0] + radius * cos(turn), MIDDLE[1] + radius * sin(turn)))
    body = [pen.shape(wave), *_middle(MIDDLE, start)]
    return Drawing([*body, *_across(letters), *_upper_right(letters)])


def oval(form: Form, letters: dict[str, str], start: str) -> Drawing:
    """An oval from above, about the chain that it begins with."""
    flat = form.oval
    assert flat is not None
    scale = pen.fit(float(flat.long), float(flat.wide))
    half, up = float(flat.straight) * scale.across / 2, float(flat.out) * scale.up
    along = float(flat.out) * scale.across
    x, y = MIDDLE
    corners = ((-1, -1), (1, -1), (1, 1), (-1, 1))
    ends = [(x + side * half, y + down * up) for side, down in corners]
    arc = f"A{pen.number(along)} {pen.number(up)} 0 0 1 "
    path = (
        f"M{pen.point(ends[0])}L{pen.point(ends[1])}{arc}{pen.point(ends[2])}"
        f"L{pen.point(ends[3])}{arc}{pen.point(ends[0])}Z"
    )
    chain = [(x - half, y), (x + half, y)]
    body = [pen.outlined(path), pen.dashed(*chain), pen.word((x, y - 6), start)]
    left, right, below = x - half - along, x + half + along, y + up + 16
    body += [pen.dashed((end, y), (end, below)) for end in (left, right)]
    body += pen.across(left, right, below, letters["long"])
    beside = right + 22
    body += [pen.dashed((x + half, level), (beside + 4, level)) for level in (y - up, y + up)]
    body += pen.upright(y - up, y + up, beside, letters["widest"])
    edge = (x - half + along * cos(OVER), y + up * sin(OVER))
    notes = () if scale.true else (pen.NOT_TO_SCALE,)
    return Drawing([*body, *_around(edge, OVER, letters)], notes)


def motif(form: Form, letters: dict[str, str], start: str) -> Drawing:
    """A motif with corners from above, one side at the bottom."""
    step = 2 * pi / form.corners
    turns = [pi / 2 + step / 2 + step * at for at in range(form.corners)]
    points = [(cos(turn), sin(turn)) for turn in turns]
    high = max(y for _, y in points) - min(y for _, y in points)
    size, base = pen.TALLEST / high, max(y for _, y in points)
    corners = [(pen.MIDDLE + x * size, pen.BOTTOM + (y - base) * size) for x, y in points]
    body = [pen.shape(corners), *_middle((pen.MIDDLE, pen.BOTTOM - base * size), start)]
    bottom = [x for (x, _), (_, y) in zip(corners, points, strict=True) if base - y < 0.01]
    body += pen.across(min(bottom), max(bottom), pen.BOTTOM + 16, letters["side"])
    right = max(range(form.corners), key=lambda at: (round(points[at][0], 6), -points[at][1]))
    return Drawing([*body, *_around(corners[right], turns[right], letters)])


def _middle(at: Point, start: str) -> list[str]:
    x, y = at
    return [
        f'<circle cx="{pen.number(x)}" cy="{pen.number(y)}" r="1.6" fill="{pen.EDGE}"/>',
        pen.word((x, y - 6), start),
    ]


def _across(letters: dict[str, str]) -> list[str]:
    left, right = MIDDLE[0] - RADIUS, MIDDLE[0] + RADIUS
    below = pen.BOTTOM + 16
    guides = [pen.dashed((x, MIDDLE[1]), (x, below)) for x in (left, right)]
    return [*guides, *pen.across(left, right, below, letters["across"])]


def _around(at: Point, turn: float, letters: dict[str, str]) -> list[str]:
    """A letter at the edge, for the way round it."""
    out = (at[0] + 22 * cos(turn), at[1] + 22 * sin(turn))
    return [pen.dashed(at, out), pen.mark(out, letters["around"])]


def _upper_right(letters: dict[str, str]) -> list[str]:
    at = (MIDDLE[0] + RADIUS * cos(TURN), MIDDLE[1] + RADIUS * sin(TURN))
    return _around(at, TURN, letters)


def outline(form: Form, letters: dict[str, str], start: str) -> Drawing:
    """A piece worked in rows, its first row at the bottom."""
    made = form.outline
    assert made is not None
    xs = [x for x, _ in (*made.left, *made.right)]
    high = made.left[-1][1]
    low_x, wide = min(xs), max(xs) - min(xs)
    scale = pen.fit(wide, high)
    left_edge = pen.MIDDLE - wide * scale.across / 2
    base = (pen.TOP + pen.BOTTOM + high * scale.up) / 2

    def at(one: Point) -> Point:
        return left_edge + (one[0] - low_x) * scale.across, base - one[1] * scale.up

    left, right = [at(one) for one in made.left], [at(one) for one in made.right]
    body = [pen.shape([*left, *reversed(right)])]
    body.append(pen.word(((left[0][0] + right[0][0]) / 2, base - 5), start))
    body += _widths(left, right, letters)
    if "high" in letters:
        x = max(x for x, _ in right) + 22
        for end in (right[0], right[-1]):
            body.append(pen.dashed(end, (x + 4, end[1])))
        body += pen.upright(right[-1][1], base, x, letters["high"])
    notes = () if scale.true else (pen.NOT_TO_SCALE,)
    if not made.known:
        notes = (*notes, phrase("Drawn as if a row were as high as a stitch is wide."))
    return Drawing(body, notes)


def _widths(left: list[Point], right: list[Point], letters: dict[str, str]) -> list[str]:
    """The first row below, the last above, the widest across where it is neither."""
    body: list[str] = []
    below = letters.get("first") or ("" if "last" in letters else letters.get("widest"))
    if below:
        body += pen.across(left[0][0], right[0][0], left[0][1] + 16, below)
    if "last" in letters:
        body += pen.across(left[-1][0], right[-1][0], left[-1][1] - 16, letters["last"])
    if "widest" in letters and letters["widest"] != below:
        y, one, two = _widest(left, right)
        body += [pen.dashed((one, y), (two, y)), pen.mark(((one + two) / 2, y), letters["widest"])]
    return body


def _widest(left: list[Point], right: list[Point]) -> tuple[float, float, float]:
    """How high up a piece is widest, and from where to where."""
    heights = sorted({y for _, y in (*left, *right)})
    found = [(y, _x_at(left, y, min), _x_at(right, y, max)) for y in heights]
    return max(found, key=lambda one: one[2] - one[1])


def _x_at(side: list[Point], y: float, of: Callable[[list[float]], float]) -> float:
    """Where a side is at a height; at a step, the outer end of it."""
    xs = [x for x, at in side if at == y]
    for (x1, y1), (x2, y2) in pairwise(side):
        if y2 < y < y1:
            xs.append(x1 + (x2 - x1) * (y1 - y) / (y1 - y2))
    return of(xs)
