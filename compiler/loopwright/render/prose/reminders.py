"""What is said once at the head of a part: what the chain at the start of its rows is, and what
makers easily get wrong in it.

What goes wrong is common practice without a source: a stitch worked into a turning chain that
does not count or not worked into one that does, the stitch that hides behind a post stitch, and
the long chain that is twisted when it is joined.
"""

from __future__ import annotations

from collections.abc import Iterator

from loopwright.ir.items import Change, Group, Repeat, Work
from loopwright.ir.pattern import Part, Row, Stripes
from loopwright.render.prose.telling import Telling
from loopwright.render.prose.tongue import phrase

# The chain that does not count: in a part of rounds, of rows, of both; always so, or mostly.
_TURNING = {
    (True, False): phrase("The chain at the start of a round does not count as a stitch."),
    (False, False): phrase("The turning chain does not count as a stitch."),
    (None, False): phrase("The chain at the start of a row or round does not count as a stitch."),
    (True, True): phrase(
        "The chain at the start of a round does not count as a stitch unless the instructions say "
        "that it does."
    ),
    (False, True): phrase(
        "The turning chain does not count as a stitch unless the instructions say that it does."
    ),
    (None, True): phrase(
        "The chain at the start of a row or round does not count as a stitch unless the "
        "instructions say that it does."
    ),
}
_NOT_INTO = {
    True: phrase("A chain that does not count is passed over: join in the first st after it."),
    False: phrase("A chain that does not count is passed over: work nothing into it."),
    None: phrase("A chain that does not count is passed over: work nothing into it."),
}
_COUNTED = phrase(
    "Where the chain at the start of a row counts as a stitch, its top is the last st of the next "
    "row: work into it."
)
_TOP = phrase("The top of ch-{n} is its {nth} ch.")
_CHANGE = {
    True: phrase(
        "To change yarn, draw the last loop of the st before, or of the join, through in the new "
        "yarn."
    ),
    False: phrase("To change yarn, draw the last loop of the st before through in the new yarn."),
}
_POST = phrase(
    "A post stitch uses up the st that it goes around: do not work into the top of that st as "
    "well, and push the post stitch aside to find the next one."
)
_TWIST = phrase("Take care not to twist the chain when you join it.")
LONG = 20
"""Chains; a shorter ring lies flat before one's eyes."""


def yarns_of(part: Part) -> dict[tuple[str, ...], None]:
    """Every yarn of a part, and those that are held together, the one first that it begins with."""
    found: dict[tuple[str, ...], None] = {part.yarns: None} if part.yarns else {}
    for line in part.lines:
        if isinstance(line, Stripes):
            found |= dict.fromkeys(names for _, names in line.bands)
        elif isinstance(line, Row):
            found |= dict.fromkeys(_changes(line.items))
    return found


def _changes(items: tuple[object, ...]) -> Iterator[tuple[str, ...]]:
    """The yarns that a row changes to."""
    for item in items:
        if isinstance(item, Change):
            yield item.yarns
        elif isinstance(item, Group | Repeat):
            yield from _changes(item.items)


def _into_own_chain(part: Part) -> bool:
    """Whether a row after the first goes back into the chain that it begins with, as in a cloth
    worked from corner to corner: the next row works into the chains that it missed."""
    rows = [line for line in part.lines if isinstance(line, Row)]
    return any(_from_hook(row.items) for row in rows[1:])


def _from_hook(items: tuple[object, ...]) -> bool:
    return any(
        _from_hook(item.items)
        if isinstance(item, Group | Repeat)
        else isinstance(item, Work) and item.target is not None and item.target.how == "hook"
        for item in items
    )


def reminders(part: Part, tell: Telling) -> Iterator[str]:
    """The sentences, those about mistakes only where the house style wants them."""
    say, worked = tell.voice.say, tell.worked
    kinds = {line.is_round for line in part.lines if isinstance(line, Row)}
    kind = next(iter(kinds)) if len(kinds) == 1 else None
    if worked.has_turning:
        yield say(_TURNING[kind, worked.has_counted])
    if not tell.voice.style.reminders:
        return
    if (
        worked.has_turning
        and not _into_own_chain(part)
        and (kind is not True or part.manner != "spiral")
    ):
        yield say(_NOT_INTO[kind])
    if worked.has_counted and kind is False:
        yield say(_COUNTED)
        for top, chains in worked.tops():
            yield say(_TOP, n=chains, nth=tell.voice.tongue.ordinal(top))
    if worked.has_post:
        yield say(_POST)
    if len(yarns_of(part)) > 1:
        yield say(_CHANGE[part.manner in ("rounds", "turned")])
    if part.start.ring and all(one.part.start.length >= LONG for one in worked.sizes):
        yield say(_TWIST)
