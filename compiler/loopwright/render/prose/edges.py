"""Starts, seams and edges in words.

Work along the row ends of the cuff.
Crochet the last row to the start with sl st blo, stitch for stitch.
"""

from __future__ import annotations

from collections.abc import Callable

from loopwright.ir.pattern import Edge, Part, Pattern, RepeatRows, Row, Seam, Start
from loopwright.render.prose.telling import Telling
from loopwright.render.prose.words import ordinal, spoken
from loopwright.trade.stitches import SLIP

_LOOPS = {"": "", "back": " blo", "front": " flo", "third": " in the third loop"}


def last_word(part: Part | None) -> str:
    """Whether a part ends in a row or a round."""
    if part is None:
        return "row"
    for line in reversed(part.lines):
        if isinstance(line, Row):
            return "round" if line.is_round else "row"
        if isinstance(line, RepeatRows) and part.manner == "flat":
            return "row"
    return "row" if part.manner == "flat" else "round"


def part_named(pattern: Pattern, name: str, here: Part) -> Part | None:
    """A part by its name; no name is the part itself."""
    if not name:
        return here
    return next((part for part in pattern.parts if part.name == name), None)


def edge(what: Edge, pattern: Pattern, here: Part, tell: Telling) -> str:
    """An edge: ``the row ends of the cuff``, ``next 12 sts of the last round of the hat``."""
    part = part_named(pattern, what.part, here)
    of = f" of the {spoken(what.part)}" if what.part and what.part != here.name else ""
    name = _EDGES[what.what](part, of, what)
    if what.n is not None:
        amount = tell.amount(what.n)
        name = f"the next {'st' if amount.one else f'{amount.text} sts'} of {name}"
    if what.from_nth:
        name += f", from its {ordinal(what.from_nth)} st on"
    return name


_EDGES: dict[str, Callable[[Part | None, str, Edge], str]] = {
    "last": lambda part, of, _: f"the last {last_word(part)}{of}",
    "start": lambda _, of, __: f"the starting edge{of}",
    "row ends": lambda _, of, __: f"the row ends{of}",
    "other row ends": lambda _, of, __: f"the other row ends{of}",
    "all round": lambda part, of, _: (
        f"all four edges{of} (the last {last_word(part)}, the row ends, the start, "
        "the other row ends)"
    ),
    "opening": lambda _, __, what: (
        f"the {spoken(what.part)} opening (its sts, then the other side of its ch)"
    ),
    "unworked": lambda _, of, __: f"the sts left unworked{of}",
}


def start(what: Start, pattern: Pattern, here: Part, tell: Telling) -> str:
    """How a part begins, one sentence without its stop."""
    text = _STARTS[what.what](what, pattern, here, tell)
    return "; then ".join([text, *(start(more, pattern, here, tell) for more in what.then)])


def _chain(what: Start, pattern: Pattern, here: Part, tell: Telling) -> str:
    assert what.n is not None
    ring = f", join into a ring with {tell.voice.stitch(SLIP)}" if what.ring else ""
    return f"ch {tell.amount(what.n).text}{ring}"


def _magic(what: Start, pattern: Pattern, here: Part, tell: Telling) -> str:
    return "make a magic ring"


def _foundation(what: Start, pattern: Pattern, here: Part, tell: Telling) -> str:
    assert what.n is not None
    assert what.stitch is not None
    return f"{tell.amount(what.n).text} foundation {tell.voice.stitch(what.stitch)}"


def _edges(what: Start, pattern: Pattern, here: Part, tell: Telling) -> str:
    named = [edge(one, pattern, here, tell) for one in what.edges]
    if what.edges and what.edges[0].what in ("opening", "all round"):
        return f"work around {', then '.join(named)}"
    return f"work along {', then along '.join(named)}"


def _through(what: Start, pattern: Pattern, here: Part, tell: Telling) -> str:
    one, two = (edge(each, pattern, here, tell) for each in what.edges)
    return f"hold {one} and {two} together and work through both, stitch for stitch"


_STARTS: dict[str, Callable[[Start, Pattern, Part, Telling], str]] = {
    "chain": _chain,
    "magic ring": _magic,
    "foundation": _foundation,
    "edges": _edges,
    "through": _through,
}


def seam(what: Seam, pattern: Pattern, here: Part, tell: Telling) -> str:
    """A seam in words, with what is left open in it."""
    one = edge(what.one, pattern, here, tell)
    two = edge(what.two, pattern, here, tell)
    if what.stitch is None:
        text = f"sew {one} to {two}"
    else:
        loop = _LOOPS[what.loop]
        text = f"join {one} to {two} with {tell.voice.stitch(what.stitch)}{loop}"
    runs = []
    for n, opening in what.runs:
        amount = tell.amount(n)
        sts = "1 st" if amount.one else f"{amount.text} sts"
        runs.append(f"leave {sts} open ({spoken(opening)})" if opening else f"join {sts}")
    return f"{text}: {', '.join(runs)}" if runs else f"{text}, stitch for stitch"
