"""Parts that stand up: the surface of rounds from the side, a little from above.

What begins in a middle hangs from it, as a hat does; what begins as a ring stands on it.
"""

from __future__ import annotations

from loopwright.frozen import NamedTuple
from loopwright.measure.form import Form
from loopwright.measure.shape import Profile
from loopwright.render.schematic import pen
from loopwright.render.schematic.pen import Drawing, Point

TILT = 0.14
"""How much of a ring's width is seen of its depth."""

SHUT = 1.0
"""A ring that is drawn narrower than this is a point."""


class _Side(NamedTuple):
    """The silhouette as drawn: both sides from the upper end to the lower, ring by ring, and the
    indices of the first ring, the widest and the last."""

    left: list[Point]
    right: list[Point]
    first: int
    widest: int
    last: int


def surface(form: Form, letters: dict[str, str], start: str) -> Drawing:
    """The surface of a part's rounds."""
    profile = form.profile
    assert profile is not None
    scale = pen.fit(profile.widest.radius * 2, profile.height)
    side = _side(profile, scale, hanging=form.middle)
    top, low = (side.left[0], side.right[0]), (side.left[-1], side.right[-1])
    path = "M" + "L".join(map(pen.point, side.left)) + pen.bowed(*low, _depth(low))
    path += "L" + "L".join(map(pen.point, reversed(side.right))) + "Z"
    body = [pen.outlined(path)]
    if top[1][0] - top[0][0] > 2 * SHUT:
        body.append(pen.ellipse((pen.MIDDLE, top[0][1]), _half(top), _depth(top)))
    inside = top[0][1] + _depth(top) + 18
    below = low[0][1] + _depth(low) + 14
    body.append(pen.word((pen.MIDDLE, inside if form.middle else below), start))
    body += _ways_round(side, letters)
    body += _heights(side, letters)
    return Drawing(body, () if scale.true else (pen.NOT_TO_SCALE,))


def _side(profile: Profile, scale: pen.Scale, *, hanging: bool) -> _Side:
    rings = profile.rings
    base = min(ring.height for ring in rings)
    heights = [(ring.height - base) * scale.up for ring in rings]
    middle, high = (pen.TOP + pen.BOTTOM) / 2, max(heights) / 2
    ys = [middle + (y - high) * (1 if hanging else -1) for y in heights]
    halves = [ring.radius * scale.across for ring in rings]
    order = range(len(rings)) if hanging else range(len(rings) - 1, -1, -1)
    left = [(pen.MIDDLE - halves[at], ys[at]) for at in order]
    right = [(pen.MIDDLE + halves[at], ys[at]) for at in order]
    places = {ring: nth for nth, ring in enumerate(order)}
    widest = max(range(len(rings)), key=lambda at: rings[at].radius)
    return _Side(left, right, places[0], places[widest], places[len(rings) - 1])


def _half(ends: tuple[Point, Point]) -> float:
    return (ends[1][0] - ends[0][0]) / 2


def _depth(ends: tuple[Point, Point]) -> float:
    return _half(ends) * TILT


def _ways_round(side: _Side, letters: dict[str, str]) -> list[str]:
    """The letters of the rounds, each with the front of its ring."""
    body: list[str] = []
    for where in ("first", "widest", "last"):
        if where not in letters:
            continue
        at = getattr(side, where)
        left, right = side.left[at], side.right[at]
        if 0 < at < len(side.left) - 1 and _half((left, right)) > SHUT:
            path = f"M{pen.point(left)}" + pen.bowed(left, right, _depth((left, right)))
            body.append(pen.broken(path))
        body.append(pen.dashed((left[0] - 4, left[1]), (left[0] - 20, left[1])))
        body.append(pen.mark((left[0] - 28, left[1]), letters[where]))
    return body


def _heights(side: _Side, letters: dict[str, str]) -> list[str]:
    """The height along the fabric beside it, the height that it stands at the right."""
    body: list[str] = []
    upright = letters.get("standing", letters.get("high"))
    along = letters["high"] if "standing" in letters else letters.get("over")
    if along is not None:
        body += pen.beside(side.right, along)
    if upright is not None:
        x = max(x for x, _ in side.right) + (44 if "standing" in letters else 26)
        body += pen.upright(side.right[0][1], side.right[-1][1], x, upright)
    return body
