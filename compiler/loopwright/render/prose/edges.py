"""Starts, seams and edges in words.

Work along the row ends of the cuff.
Crochet the last row to the start with sl st blo, stitch for stitch.
"""

from __future__ import annotations

from collections.abc import Callable

from loopwright.ir.numbers import Number
from loopwright.ir.pattern import Edge, Part, Pattern, RepeatRows, Row, Seam, Start
from loopwright.render.prose.openings import opening_name
from loopwright.render.prose.telling import Telling
from loopwright.render.prose.tongue import phrase
from loopwright.render.prose.words import spoken
from loopwright.render.prose.works import looped
from loopwright.trade.stitches import SLIP


def ends_in_round(part: Part | None) -> bool:
    """Whether the last row of a part is a round."""
    if part is None:
        return False
    for line in reversed(part.lines):
        if isinstance(line, Row):
            return line.is_round
        if isinstance(line, RepeatRows) and part.manner == "flat":
            return False
    return part.manner != "flat"


def part_named(pattern: Pattern, name: str, here: Part) -> Part | None:
    """A part by its name; no name is the part itself."""
    if not name:
        return here
    return next((part for part in pattern.parts if part.name == name), None)


# An edge of the part itself, and of another part.
_EDGES: dict[str, tuple[str, str]] = {
    "last": (phrase("the last {row}"), phrase("the last {row} of the {part}")),
    "start": (phrase("the starting edge"), phrase("the starting edge of the {part}")),
    "row ends": (phrase("the row ends"), phrase("the row ends of the {part}")),
    "other row ends": (
        phrase("the other row ends"),
        phrase("the other row ends of the {part}"),
    ),
    "all round": (
        phrase("all four edges (the last {row}, the row ends, the start, the other row ends)"),
        phrase(
            "all four edges of the {part} (the last {row}, the row ends, the start, the other "
            "row ends)"
        ),
    ),
    "unworked": (
        phrase("the sts left unworked"),
        phrase("the sts left unworked of the {part}"),
    ),
}


def edge(what: Edge, pattern: Pattern, here: Part, tell: Telling) -> str:
    """An edge: ``the row ends of the cuff``, ``next 12 sts of the last round of the hat``."""
    name = _whole_edge(what, pattern, here, tell)
    say = tell.voice.say
    if what.n is not None:
        amount = tell.amount(what.n)
        if amount.one:
            name = say("the next st of {edge}", edge=name)
        else:
            name = say("the next {n} sts of {edge}", n=amount.text, edge=name)
    if what.from_nth:
        nth = tell.voice.tongue.ordinal(what.from_nth)
        name = say("{edge}, from its {nth} st on", edge=name, nth=nth)
    return name


def _whole_edge(what: Edge, pattern: Pattern, here: Part, tell: Telling) -> str:
    if what.what == "opening":
        name = opening_name(what.part, tell.voice)
        if _in_a_seam(what.part, pattern):
            return tell.voice.say("{opening} left in the seam", opening=name)
        return tell.voice.say(
            "{opening} (first its missed sts, then the other side of its ch)", opening=name
        )
    part = part_named(pattern, what.part, here)
    elsewhere = bool(what.part) and what.part != here.name
    row = tell.voice.row_word(ends_in_round(part))
    return tell.voice.say(_EDGES[what.what][elsewhere], part=spoken(what.part), row=row)


def _in_a_seam(name: str, pattern: Pattern) -> bool:
    """Whether an opening is a gap that a seam leaves."""
    return any(
        opening == name
        for part in pattern.parts
        for line in part.lines
        if isinstance(line, Seam)
        for _, opening in line.runs
    )


def start(what: Start, pattern: Pattern, here: Part, tell: Telling) -> str:
    """How a part begins, one sentence without its stop: along which edges, and where it is known
    with which side facing and from where to where."""
    say = tell.voice.say
    text = _one_way(what, pattern, here, tell)
    for more in what.then:
        then = _one_way(more, pattern, here, tell)
        text = say("{first}; then {next}", first=text, next=then)
    if side := _facing(here):
        along = [each for each in (what, *what.then) if each.what == "edges"]
        sides = {one.what for each in along for one in each.edges}
        text = say(_FACING[side], start=text) if sides & _LAID_DOWN else text
    return text


def _one_way(what: Start, pattern: Pattern, here: Part, tell: Telling) -> str:
    """One of the things that a part begins on; of row ends, from which row to which."""
    text = _STARTS[what.what](what, pattern, here, tell)
    alone = what.edges[0] if len(what.edges) == 1 else None
    if alone and alone.what in _WAYS and not _a_ring(part_named(pattern, alone.part, here)):
        text = tell.voice.say(_WAYS[alone.what], start=text)
    return text


# Row ends are counted from the first row on, and those of the other side back again.
_WAYS = {
    "row ends": phrase("{start}, from its first row to its last"),
    "other row ends": phrase("{start}, from its last row to its first"),
}
_FACING = {
    "RS": phrase("with the right side facing, {start}"),
    "WS": phrase("with the wrong side facing, {start}"),
}
_LAID_DOWN = {"row ends", "other row ends", "all round", "start"}
"""Edges at which the yarn is joined anew: which side faces is not seen from the work."""


def _a_ring(part: Part | None) -> bool:
    """Whether the row ends of a part were closed into a ring."""
    return part is not None and any(isinstance(line, Seam) for line in part.lines)


def _facing(part: Part) -> str:
    """Which side faces when a part is begun: as its first row says; rounds that are not turned are
    worked on the right side."""
    first = next((line for line in part.lines if isinstance(line, Row)), None)
    if first is None or first.side:
        return first.side if first else ""
    return "RS" if first.is_round and part.manner in ("rounds", "spiral") else ""


def _chain(what: Start, pattern: Pattern, here: Part, tell: Telling) -> str:
    assert what.n is not None
    n = tell.amount(what.n).text
    if what.ring:
        slip = tell.voice.stitch(SLIP)
        return tell.voice.say("ch {n}, join into a ring with {slip}", n=n, slip=slip)
    return tell.voice.say("ch {n}", n=n)


def _magic(what: Start, pattern: Pattern, here: Part, tell: Telling) -> str:
    tell.voice.met.add(("magic ring", 0))
    return tell.voice.say("make a magic ring")


def _foundation(what: Start, pattern: Pattern, here: Part, tell: Telling) -> str:
    assert what.n is not None
    assert what.stitch is not None
    tell.voice.met.add(("foundation", 0))
    n, name = tell.amount(what.n).text, tell.voice.stitch(what.stitch)
    text = tell.voice.say("{n} foundation {stitch}", n=n, stitch=name)
    if here.manner == "flat":
        return text
    slip = tell.voice.stitch(SLIP)
    return tell.voice.say("{what}, join into a ring with {slip}", what=text, slip=slip)


def _edges(what: Start, pattern: Pattern, here: Part, tell: Telling) -> str:
    named = [edge(one, pattern, here, tell) for one in what.edges]
    say = tell.voice.say
    if what.edges and what.edges[0].what in ("opening", "all round"):
        # An opening lies where its part went on without it.
        words = phrase("work around {edge}")
        if what.edges[0].what == "opening":
            words = phrase("join the yarn and work around {edge}")
        text = say(words, edge=named[0])
        for other in named[1:]:
            text = say("{edges}, then {edge}", edges=text, edge=other)
        return text
    text = say("work along {edge}", edge=named[0])
    for other in named[1:]:
        text = say("{edges}, then along {edge}", edges=text, edge=other)
    return text


def _through(what: Start, pattern: Pattern, here: Part, tell: Telling) -> str:
    one, two = (edge(each, pattern, here, tell) for each in what.edges)
    return tell.voice.say(
        "hold {one} and {two} together and work through both, stitch for stitch", one=one, two=two
    )


_STARTS: dict[str, Callable[[Start, Pattern, Part, Telling], str]] = {
    "chain": _chain,
    "magic ring": _magic,
    "foundation": _foundation,
    "edges": _edges,
    "through": _through,
}


def seam(what: Seam, pattern: Pattern, here: Part, tell: Telling) -> str:
    """A seam in words, with what is left open in it."""
    say = tell.voice.say
    edges = {
        "one": edge(what.one, pattern, here, tell),
        "two": edge(what.two, pattern, here, tell),
    }
    folded = edges["one"] == edges["two"]
    if what.stitch is None and folded:
        text = say("fold {one} in half and sew its two halves together", **edges)
    elif what.stitch is None:
        text = say("sew {one} to {two}", **edges)
    else:
        name = looped(tell.voice.stitch(what.stitch), what.loop, tell)
        if what.loop == "third":
            name = say("{stitch} in the third loop", stitch=name)
        words = phrase("join {one} to {two} with {stitch}")
        if folded:
            words = phrase("fold {one} in half and join its two halves with {stitch}")
        text = say(words, stitch=name, **edges)
    if not what.runs:
        return say("{seam}, stitch for stitch", seam=text)
    runs = [_run(*run, tell) for run in what.runs]
    return say("{seam}: {runs}", seam=text, runs=", ".join(runs))


def _run(n: Number, opening: str, tell: Telling) -> str:
    amount = tell.amount(n)
    many, grammar = tell.voice.many, 1 if amount.one else 2
    if not opening:
        return many("join {n} st", "join {n} sts", grammar, n=amount.text)
    name = opening_name(opening, tell.voice)
    return many(
        "leave {n} st open for {opening}",
        "leave {n} sts open for {opening}",
        grammar,
        n=amount.text,
        opening=name,
    )
