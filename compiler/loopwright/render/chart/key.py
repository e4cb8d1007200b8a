"""The key: every symbol that the chart uses, once, with its name in the terms asked for."""

from __future__ import annotations

from math import cos, pi, sin

from loopwright.frozen import NamedTuple
from loopwright.render.chart.spots import height_of
from loopwright.render.chart.values import STEP, Chart, Look, Point, Symbol
from loopwright.render.speaker import Speaker, phrase
from loopwright.source import Span
from loopwright.trade.stitches import BACK, FRONT, Stitch
from loopwright.trade.terms import full_name

_NAMES = {
    "chain": phrase("ch: chain"),
    "upright chain": phrase("ch, upright: at the start of a row or round"),
    "chain ring": phrase("chains joined into a ring"),
    "picot": phrase("picot"),
    "magic ring": phrase("magic ring"),
    "place": phrase("a stitch of the edge this part begins on"),
    "row end": phrase("a row end of the edge this part begins on"),
    "space": phrase("a space of the edge this part begins on"),
}
_LOOPS = {
    "": phrase("{stitch}: {name}"),
    "back": phrase("{stitch}, in the back loop: {name}"),
    "front": phrase("{stitch}, in the front loop: {name}"),
    "third": phrase("{stitch}, in the third loop: {name}"),
}
_ORDER = tuple(_NAMES)


class Entry(NamedTuple):
    """A line of the key: a specimen of the symbol, standing on (0, 0), and its name."""

    symbol: Symbol
    name: str


def key(chart: Chart, speaker: Speaker) -> tuple[Entry, ...]:
    """The entries, plain shapes first and then the stitches from low to high."""
    looks = sorted({symbol.look for symbol in chart.symbols}, key=_rank)
    entries = []
    names: set[str] = set()
    for look in looks:
        name = _name(look, speaker)
        if name not in names:
            names.add(name)
            entries.append(Entry(specimen(look), name))
    return tuple(entries)


def seen_notes(chart: Chart, speaker: Speaker) -> tuple[str, ...]:
    """What must be said about front and back where the wrong side is worked as well."""
    if not any(row.worked.wrong_side or row.alternates for row in chart.rows):
        return ()
    looks = {symbol.look for symbol in chart.symbols}
    posts = any(look.stitch and look.stitch.post for look in looks)
    loops = any(look.loop in ("front", "back") for look in looks)
    if not posts and not loops:
        return ()
    if posts and loops:
        what = phrase(
            "Front and back of posts and loops are drawn as the right side shows them: on "
            "wrong-side rows work the other one."
        )
    elif posts:
        what = phrase(
            "Front and back of posts are drawn as the right side shows them: on wrong-side rows "
            "work the other one."
        )
    else:
        what = phrase(
            "Front and back of loops are drawn as the right side shows them: on wrong-side rows "
            "work the other one."
        )
    return (speaker.say(what),)


def _rank(look: Look) -> tuple[int, int, str]:
    if look.stitch is None:
        return (0, _ORDER.index(look.shape), "")
    return (1, look.stitch.height, repr((look.shape, look.stitch, look.loop)))


def _name(look: Look, speaker: Speaker) -> str:
    if look.stitch is None:
        return speaker.say(_NAMES[look.shape])
    full = _full(look.stitch, speaker)
    short = _together(look.stitch, speaker) if look.stitch.unlike else speaker.stitch(look.stitch)
    return speaker.say(_LOOPS[look.loop], stitch=short, name=full)


def _together(stitch: Stitch, speaker: Speaker) -> str:
    """Unlike stitches worked together, as the written pattern calls them: ``tr and fptr tog``."""
    every = (stitch._replace(unlike=(), together=1), *stitch.unlike)
    names = speaker.listing([speaker.stitch(one) for one in every])
    return speaker.say("{stitches} tog", stitches=names)


def _full(stitch: Stitch, speaker: Speaker) -> str:
    """A stitch's name; of unlike ones worked together, all of them."""
    if not stitch.unlike:
        return full_name(stitch, speaker.terms)
    every = (stitch._replace(unlike=(), together=1), *stitch.unlike)
    names = [full_name(one, speaker.terms) for one in every]
    return speaker.say("{stitches} worked together", stitches=_and(names, speaker))


def _and(names: list[str], speaker: Speaker) -> str:
    """All of them with an *and* between each two."""
    out = names[0]
    for name in names[1:]:
        out = speaker.say("{edges} and {edge}", edges=out, edge=name)
    return out


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
