"""The key: every symbol that the chart uses, once, with its name in the terms asked for."""

from __future__ import annotations

from math import cos, pi, sin
from typing import NamedTuple

from loopwright.render.chart.spots import height_of
from loopwright.render.chart.values import STEP, Chart, Look, Point, Symbol
from loopwright.source import Span
from loopwright.trade.stitches import BACK, FRONT, Stitch
from loopwright.trade.terms import Terms, abbreviation, full_name

_NAMES = {
    "chain": "ch: chain",
    "upright chain": "ch, upright: at the start of a row or round",
    "chain ring": "chains joined into a ring",
    "picot": "picot",
    "magic ring": "magic ring",
    "place": "a stitch of the edge this part begins on",
    "row end": "a row end of the edge this part begins on",
    "space": "a space of the edge this part begins on",
}
_LOOPS = {"back": "in the back loop", "front": "in the front loop", "third": "in the third loop"}
_ORDER = tuple(_NAMES)


class Entry(NamedTuple):
    """A line of the key: a specimen of the symbol, standing on (0, 0), and its name."""

    symbol: Symbol
    name: str


def key(chart: Chart, terms: Terms) -> tuple[Entry, ...]:
    """The entries, plain shapes first and then the stitches from low to high."""
    looks = sorted({symbol.look for symbol in chart.symbols}, key=_rank)
    entries = []
    names: set[str] = set()
    for look in looks:
        name = _name(look, terms)
        if name not in names:
            names.add(name)
            entries.append(Entry(specimen(look), name))
    return tuple(entries)


def seen_notes(chart: Chart) -> tuple[str, ...]:
    """What must be said about front and back where the wrong side is worked as well."""
    if not any(row.worked.wrong_side or row.alternates for row in chart.rows):
        return ()
    looks = {symbol.look for symbol in chart.symbols}
    posts = any(look.stitch and look.stitch.post for look in looks)
    loops = any(look.loop in ("front", "back") for look in looks)
    if not posts and not loops:
        return ()
    what = "posts and loops" if posts and loops else "posts" if posts else "loops"
    return (
        f"Front and back of {what} are drawn as the right side shows them: on wrong-side rows work "
        "the other one.",
    )


def _rank(look: Look) -> tuple[int, int, str]:
    if look.stitch is None:
        return (0, _ORDER.index(look.shape), "")
    return (1, look.stitch.height, repr((look.shape, look.stitch, look.loop)))


def _name(look: Look, terms: Terms) -> str:
    if look.stitch is None:
        return _NAMES[look.shape]
    loop = f", {_LOOPS[look.loop]}" if look.loop else ""
    return f"{abbreviation(look.stitch, terms)}{loop}: {full_name(look.stitch, terms)}"


def seen(stitch: Stitch, wrong_side: bool) -> Stitch:
    """The stitch as the right side shows it: a front post made from the wrong side is a back
    post (table J, source hookin)."""
    if not wrong_side:
        return stitch
    post = {FRONT: BACK, BACK: FRONT}.get(stitch.post, stitch.post)
    return stitch._replace(post=post, unlike=tuple(seen(one, True) for one in stitch.unlike))


def seen_loop(loop: str, wrong_side: bool) -> str:
    """The loop as the right side shows it."""
    return {"back": "front", "front": "back"}.get(loop, loop) if wrong_side else loop


def specimen(look: Look) -> Symbol:
    """The symbol by itself, in a cell that stands on (0, 0)."""
    up = height_of(look.stitch) * STEP if look.stitch else 12.0
    if look.stitch and look.stitch.basic == "slip":
        up = 4.0
    top = Point(0.0, -up)
    feet: tuple[Point, ...] = (Point(0.0, 0.0),)
    points: tuple[Point, ...] = ()
    if look.shape == "chain":
        points = (Point(-5.0, -5.0), Point(5.0, -5.0))
    elif look.shape == "upright chain":
        points = (Point(0, 0), Point(0, -10.0), Point(0, -20.0))
    elif look.shape in ("chain ring", "picot"):
        points = ring_path(Point(0, -8), 6.0, 5)
        top = Point(0, -1) if look.shape == "picot" else Point(0, -8)
    elif look.shape == "magic ring":
        top = Point(0, -8)
    elif look.shape == "together" and look.stitch:
        count = max(look.stitch.together, 1 + len(look.stitch.unlike))
        width = min(10.0, 24.0 / count)
        feet = tuple(Point((i - (count - 1) / 2) * width, 0.0) for i in range(count))
    elif look.shape in ("place", "row end", "space"):
        top = Point(0, -6.4)
    return Symbol(look, top, feet, points, 0.0, 1.0, 0, 0, 0, Span(0, 0), ())


def ring_path(centre: Point, radius: float, count: int) -> tuple[Point, ...]:
    """Points around a circle, from its bottom and back to it."""
    turns = [2 * pi * i / count + pi / 2 for i in range(count + 1)]
    return tuple(Point(centre.x + radius * cos(t), centre.y + radius * sin(t)) for t in turns)
