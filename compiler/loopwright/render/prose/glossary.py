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
from loopwright.render.prose.tongue import phrase
from loopwright.render.prose.voice import Voice
from loopwright.render.prose.words import capital, spoken
from loopwright.trade.stitches import BASICS, SLIP, Stitch
from loopwright.trade.terms import TERMS, abbreviation, full_name

# Table D, sources bits2008 and beeton (cluster, bobble) and dillmont (popcorn); the puff from the
# 2016 pattern that table D describes under bobble.
_MADE = {
    "cluster": phrase(
        "{name}, each stopped before its last loop, all in one place, then closed together"
    ),
    "bobble": phrase(
        "{name}, each stopped before its last loop, all in one place, then closed together"
    ),
    "puff": phrase("{name}, drawn up as loops only, all in one place, then closed together"),
    "popcorn": phrase(
        "{name}, all finished in one place, then the hook taken out, put through the first of "
        "them and the loop drawn through"
    ),
    "shell": phrase("{name}, all in one place"),
}
_POSTS = {
    "front": phrase("{name}, made around the post of the st from the front"),
    "back": phrase("{name}, made around the post of the st from the back"),
}
_CRAB = phrase(
    "{name}, worked backwards, from left to right (with the hook in the left hand, from right to "
    "left)"
)
# Words of the sheet that are not stitches, in the order printed (common practice): what to look
# for in the instructions, how to print it where that is otherwise, and what it means.
_WORDS = (
    (phrase("ch"), "", phrase("chain")),
    (phrase("st"), phrase("st(s)"), phrase("stitch(es)")),
    (phrase("sp"), phrase("sp(s)"), phrase("space(s)")),
    (phrase("blo"), "", phrase("back loop only")),
    (phrase("flo"), "", phrase("front loop only")),
    (phrase("rnd"), phrase("rnd(s)"), phrase("round(s)")),
    (
        phrase("tog"),
        "",
        phrase("worked together, the last loops of all of them closed as one"),
    ),
    (phrase("RS"), "", phrase("right side")),
    (phrase("WS"), "", phrase("wrong side")),
)

_SPELLED = 5
"""So many of them are plain abbreviations that can be spelled out within a row."""


def abbreviations(voice: Voice, told: str) -> Entries:
    """Every abbreviation that the sheet uses, and no other."""
    entries = []
    for sought, shown, full in _WORDS:
        word = voice.say(sought)
        flags = 0 if word.isupper() else re.IGNORECASE
        look = rf"\b{re.escape(word)}s?\b"
        if sought.isupper() and not word.isupper():
            look = re.escape(f"({word})")  # a word of the language, short only beside a row's name
        if re.search(look, told, flags):
            entry = (voice.say(shown) if shown else word, voice.say(full))
            entries += [entry] if entry[0] != entry[1] else []
    entries += [
        (abbreviation(stitch, voice.terms), _meaning(stitch, voice))
        for stitch in sorted(voice.used, key=_order)
    ]
    return Entries((*entries, *_further(voice)))


def meanings(voice: Voice) -> dict[str, str]:
    """What each abbreviation stands for and nothing more, to be put beside it in a row."""
    found = {voice.say(sought): voice.say(full) for sought, _, full in _WORDS[:_SPELLED]}
    stitches = {abbreviation(one, voice.terms): full_name(one, voice.terms) for one in voice.used}
    return found | stitches


# What else the instructions may use that has to be explained, in the order printed.
_FURTHER = {
    "join": (
        phrase("join"),
        phrase("{slip} in the first st of the round, or in the top of the ch that counts as it"),
    ),
    "magic ring": (
        phrase("magic ring"),
        phrase("a loop of yarn to work into, drawn shut by its end"),
    ),
    "foundation": (
        phrase("foundation"),
        phrase("a st made with its own ch below it, without a starting ch"),
    ),
    "place": (
        phrase("place"),
        phrase("whatever comes next along the edge: a st, a ch or a row end"),
    ),
    "picot": (phrase("ch-{n} picot"), phrase("ch {n}, {slip} in the first of these ch")),
}


def _further(voice: Voice) -> Iterator[tuple[str, str]]:
    slip = abbreviation(SLIP, voice.terms)
    order = list(_FURTHER)
    for what, n in sorted(voice.met, key=lambda one: (order.index(one[0]), one[1])):
        name, meaning = _FURTHER[what]
        yield voice.say(name, n=n), voice.say(meaning, n=n, slip=slip)


def _meaning(stitch: Stitch, voice: Voice) -> str:
    name = full_name(stitch, voice.terms)
    if stitch.many:
        return voice.say(_MADE[stitch.many], name=name)
    if stitch.crab:
        return voice.say(_CRAB, name=name)
    if stitch.post:
        return voice.say(_POSTS[stitch.post], name=name)
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
    others = [terms for terms in TERMS.values() if terms is not here]
    head = (
        voice.say("{name} terms (here)", name=here.name),
        *(voice.say("{name} terms", name=terms.name) for terms in others),
    )
    rows = tuple(
        tuple(
            f"{abbreviation(Stitch(basic), terms)} ({full_name(Stitch(basic), terms)})"
            for terms in (here, *others)
        )
        for basic in basics
    )
    return Table(voice.say("The same stitches in both"), head, rows)


def own_stitches(pattern: Pattern, tell: Telling) -> Entries:
    """The designer's own stitches and what each is made of."""
    elsewhere = set(_placed(pattern))
    return Entries(
        tuple((capital(spoken(one.name)), _own(one, elsewhere, tell)) for one in pattern.stitches)
    )


def _own(own: OwnStitch, elsewhere: set[str], tell: Telling) -> str:
    text = say_all(own.items, tell)
    if own.name not in elsewhere:
        return text
    return tell.voice.say("{stitches}; or in the place that the instructions name", stitches=text)


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
