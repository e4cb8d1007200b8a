"""The stitches of a sheet: abbreviations with their names, both countries' words, own stitches.

How a stitch is made is said where its name alone does not fix it (table D of the trade's tables:
clusters, bobbles, puffs and popcorns are named differently by different makers).
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from loopwright.ir.items import Group, Repeat, Work
from loopwright.ir.pattern import OwnStitch, Pattern, Row
from loopwright.render.prose.document import Entries, Table
from loopwright.render.prose.items import say_all
from loopwright.render.prose.telling import Telling
from loopwright.render.prose.voice import Voice
from loopwright.render.prose.words import capital, spoken
from loopwright.trade.stitches import BASICS, Stitch
from loopwright.trade.terms import TERMS, abbreviation, full_name

# Table D, sources bits2008 and beeton (cluster, bobble) and dillmont (popcorn); the puff from the
# 2016 pattern that table D describes under bobble.
_MADE = {
    "cluster": "each stopped before its last loop, then all closed together",
    "bobble": "each stopped before its last loop, all in one place, then closed together",
    "puff": "drawn up as loops only, all in one place, then closed together",
    "popcorn": "all finished in one place, then the hook taken out, put through the first of them "
    "and the loop drawn through",
    "shell": "all in one place",
}
# Words of the sheet that are not stitches, in the order printed (common practice).
_WORDS = (
    (r"[Cc]h(?:-\d+)?", "ch", "chain"),
    (r"sts?", "st(s)", "stitch(es)"),
    (r"sps?", "sp(s)", "space(s)"),
    (r"blo", "blo", "back loop only"),
    (r"flo", "flo", "front loop only"),
    (r"tog", "tog", "worked together: the last loops of all of them closed as one"),
    (r"RS", "RS", "right side"),
    (r"WS", "WS", "wrong side"),
)


def abbreviations(voice: Voice, told: str) -> Entries:
    """Every abbreviation that the sheet uses, and no other."""
    words = [(short, full) for pattern, short, full in _WORDS if re.search(rf"\b{pattern}\b", told)]
    stitches = [
        (abbreviation(stitch, voice.terms), _meaning(stitch, voice))
        for stitch in sorted(voice.used, key=_order)
    ]
    if re.search(r"\bjoin\b(?! with| into| to)", told):
        stitches.append(("join", _JOIN.format(slip=voice.terms.short["slip"])))
    if re.search(r"\bmagic ring\b", told):
        stitches.append(("magic ring", "a loop of yarn to work into, drawn shut by its end"))
    if re.search(r"\bfoundation\b", told):
        stitches.append(("foundation", "a st made with its own ch below it, without a starting ch"))
    for chains in sorted({int(n) for n in re.findall(r"\bch-(\d+) picot", told)}):
        slip = voice.terms.short["slip"]
        stitches.append((f"ch-{chains} picot", f"ch {chains}, {slip} in the first of these ch"))
    return Entries((*words, *stitches))


_JOIN = "{slip} in the first st of the round, or in the top of the ch that counts as it"


def _meaning(stitch: Stitch, voice: Voice) -> str:
    name = full_name(stitch, voice.terms)
    if stitch.many:
        return f"{name}, {_MADE[stitch.many]}"
    if stitch.post:
        return f"{name}, made around the post of the st from the {stitch.post}"
    return name


def _order(stitch: Stitch) -> tuple[int, int, str, str, int, bool]:
    height = BASICS[stitch.basic].height
    return (height, stitch.together, stitch.post, stitch.many, stitch.legs, stitch.crab)


def both_terms(voice: Voice) -> Table | None:
    """The basic stitches used, as each country calls them."""
    basics = sorted({stitch.basic for stitch in voice.used}, key=lambda name: BASICS[name].height)
    if not basics:
        return None
    here = voice.terms
    names = [here, *(terms for terms in TERMS.values() if terms is not here)]
    head = tuple(f"{terms.name} terms{' (here)' if terms is here else ''}" for terms in names)
    rows = tuple(
        tuple(f"{terms.short[basic]} ({terms.full[basic]})" for terms in names) for basic in basics
    )
    return Table("The same stitches in both", head, rows)


def own_stitches(pattern: Pattern, tell: Telling) -> Entries:
    """The designer's own stitches and what each is made of."""
    elsewhere = set(_placed(pattern))
    return Entries(
        tuple((capital(spoken(one.name)), _own(one, elsewhere, tell)) for one in pattern.stitches)
    )


def _own(own: OwnStitch, elsewhere: set[str], tell: Telling) -> str:
    text = say_all(own.items, tell)
    return f"{text}; or in the place that the instructions name" if own.name in elsewhere else text


def _placed(pattern: Pattern) -> Iterator[str]:
    """The own stitches that some row makes in a place that it names."""
    for part in pattern.parts:
        for line in part.lines:
            if isinstance(line, Row):
                yield from _placed_in(line.items)


def _placed_in(items: tuple[object, ...], inside: bool = False) -> Iterator[str]:
    for item in items:
        if isinstance(item, (Group, Repeat)):
            yield from _placed_in(item.items, inside or isinstance(item, Group))
        elif isinstance(item, Work) and item.own and (inside or item.target is not None):
            yield item.own
