"""Places in words: what a stitch goes into, and how far an ``each`` reaches.

Target("each next", Kind("stitch", stitch=TR), n=3)  ->  in each of next 3 tr
"""

from __future__ import annotations

from collections.abc import Callable

from loopwright.ir.items import Kind, Scope, Target
from loopwright.render.prose.telling import Telling
from loopwright.render.prose.tongue import Noun, phrase, phrases
from loopwright.render.prose.words import many, spoken

# What places, and forms of several stitches, are called: one of them, and several.
_NOUNS = {
    "st": phrases("st", "sts"),
    "ch": phrases("ch", "ch"),
    "st and ch": phrases("st and ch", "st and ch"),
    "gap": phrases("gap", "gaps"),
    "row end": phrases("row end", "row ends"),
    "st or ch": phrases("st or ch", "sts or ch"),
    "place": phrases("place", "places"),
    "cluster": phrases("cluster", "clusters"),
    "bobble": phrases("bobble", "bobbles"),
    "puff": phrases("puff", "puffs"),
    "popcorn": phrases("popcorn", "popcorns"),
    "shell": phrases("shell", "shells"),
}


def noun(kind: Kind, tell: Telling, n: int = 1) -> Noun:
    """What a kind of place is called, of ``n`` of them: ``st``, ``ch-2 sps``, ``row ends``,
    ``fptr``."""
    if kind.what == "stitch" and kind.stitch is not None:
        return _stitches(kind, tell, n)
    if kind.what == "own":
        return own(kind.own, tell, n)
    if kind.what == "sp":
        if kind.chains:
            return tell.voice.noun("ch-{chains} sp", "ch-{chains} sps", n, chains=kind.chains)
        return tell.voice.noun("sp", "sps", n)
    return named(kind.own if kind.what == "many" else kind.what, tell, n)


def named(what: str, tell: Telling, n: int = 1) -> Noun:
    """A noun of the table by its English word."""
    if what == "place":
        tell.voice.met.add(("place", 0))
    return tell.voice.noun(*_NOUNS[what], n)


def own(name: str, tell: Telling, n: int = 1) -> Noun:
    """A stitch of the designer's own, which only English can put into the plural."""
    word = spoken(name)
    tongue = tell.voice.tongue
    return Noun(many(word) if n != 1 and tongue.english else word, tongue.genders.get("own", ""))


def _stitches(kind: Kind, tell: Telling, n: int) -> Noun:
    assert kind.stitch is not None
    word = tell.voice.stitch(kind.stitch)
    counted = kind.stitch.many or kind.stitch.basic == "slip"
    if n != 1 and counted and tell.voice.tongue.english:
        return Noun(many(word), word.gender)
    return word


def scope(what: Scope, tell: Telling) -> str:
    """How far: ``around``, ``to last 3 sts``, ``to next ch-2 sp``."""
    say = tell.voice.say
    if what.how == "last":
        amount = tell.amount(what.n)
        name = noun(what.kind, tell, amount.n)
        if amount.one:
            return say("to last {place}", place=name)
        return say("to last {n} {places}", n=amount.text, places=name)
    if what.how == "next":
        return say("to next {place}", place=noun(what.kind, tell))
    if what.how == "marked":
        return say("to marker {name}", name=spoken(what.name))
    if what.how != "end" or not what.word:
        return ""
    return tell.voice.tongue.single(_WORDS[what.word], _SCOPE)


# A language may have other words for these where they do not mean a length.
_SCOPE = "scope"
_WORDS = {"around": phrase("around"), "across": phrase("across")}


def where(target: Target, tell: Telling) -> str:
    """The place without its preposition: ``each of next 3 sts``, ``2nd ch from hook``."""
    text = _WHERE[target.how](target, tell)
    say = tell.voice.say
    if target.kind.what == "gap" and target.kind.own:
        text = say("{gap} between {stitches}", gap=text, stitches=own(target.kind.own, tell, 2))
    if target.below:
        rows = tell.row_word(target.below)
        text = say("{place} {n} {rows} below", place=text, n=target.below, rows=rows)
    elif target.of_row:
        text = say("{place} of {row} {n}", place=text, row=tell.row_word(), n=target.of_row)
    return text


def into(target: Target, tell: Telling, loop: str = "", post: bool = False) -> str:
    """The place with its preposition: ``in next st``, ``around next fptr``. A stitch that is made
    around a post (``post``) goes around wherever it is said to go."""
    place = where(target, tell)
    if target.post or post:
        return tell.voice.say("around {place}", place=place)
    if loop == "third":
        return tell.voice.say("in third loop of {place}", place=place)
    return tell.voice.say("in {place}", place=place)


def _next(target: Target, tell: Telling) -> str:
    return tell.voice.say("next {place}", place=noun(target.kind, tell))


def _each_next(target: Target, tell: Telling) -> str:
    amount = tell.amount(target.n)
    if amount.one:
        return _next(target, tell)
    name = noun(target.kind, tell, amount.n)
    return tell.voice.say("each of next {n} {places}", n=amount.text, places=name)


def _each(target: Target, tell: Telling) -> str:
    far = scope(target.scope, tell) if target.scope else ""
    name = noun(target.kind, tell)
    return tell.voice.say("each {place} {far}", place=name, far=far).rstrip()


def _each_last(target: Target, tell: Telling) -> str:
    amount = tell.amount(target.n)
    if amount.one:
        return _last(target, tell)
    name = noun(target.kind, tell, amount.n)
    return tell.voice.say("each of last {n} {places}", n=amount.text, places=name)


def _same(target: Target, tell: Telling) -> str:
    return tell.voice.say("same {place}", place=noun(target.kind, tell))


def _first(target: Target, tell: Telling) -> str:
    return tell.voice.say("first {place}", place=noun(target.kind, tell))


def _last(target: Target, tell: Telling) -> str:
    return tell.voice.say("last {place}", place=noun(target.kind, tell))


def _ring(target: Target, tell: Telling) -> str:
    return tell.voice.say("ring")


def _marked(target: Target, tell: Telling) -> str:
    return tell.voice.say("st with marker {name}", name=spoken(target.name))


def _hook(target: Target, tell: Telling) -> str:
    return tell.voice.say("{nth} ch from hook", nth=tell.voice.tongue.ordinal(target.nth))


def _top(target: Target, tell: Telling) -> str:
    top = tell.worked.top_of(target.chains)
    if 0 < top < target.chains:
        return chain_of(top, target.chains, tell)
    return tell.voice.say("top of ch-{n}", n=target.chains)


def chain_of(nth: int, chains: int | str, tell: Telling) -> str:
    """A chain of those that a row began with: ``3rd ch of ch-4``."""
    return tell.voice.say("{nth} ch of ch-{n}", nth=tell.voice.tongue.ordinal(nth), n=chains)


_BASES = {
    "next": phrase("base of next ch-{n}"),
    "first": phrase("base of first ch-{n}"),
    "same": phrase("base of same ch-{n}"),
    "last": phrase("base of last ch-{n}"),
}
_CHAINS_OF = {
    "next": phrase("{nth} ch of next {place}"),
    "first": phrase("{nth} ch of first {place}"),
    "same": phrase("{nth} ch of same {place}"),
    "last": phrase("{nth} ch of last {place}"),
}


def _base(target: Target, tell: Telling) -> str:
    return tell.voice.say(_BASES[target.which], n=target.chains)


def _chain_of(target: Target, tell: Telling) -> str:
    nth = tell.voice.tongue.ordinal(target.nth)
    return tell.voice.say(_CHAINS_OF[target.which], nth=nth, place=noun(target.kind, tell))


def _nth(target: Target, tell: Telling) -> str:
    nth = tell.voice.tongue.ordinal(target.nth)
    return tell.voice.say("{nth} {place} from here", nth=nth, place=noun(target.kind, tell))


def _skipped(target: Target, tell: Telling) -> str:
    if target.nth:
        return tell.voice.say("{nth} missed st", nth=tell.voice.tongue.ordinal(target.nth))
    return tell.voice.say("missed st")


def _next_skipped(target: Target, tell: Telling) -> str:
    return tell.voice.say("next missed st")


def _each_skipped(target: Target, tell: Telling) -> str:
    amount = tell.amount(target.n)
    if amount.one:
        return tell.voice.say("missed st")
    return tell.voice.say("each of {n} missed sts", n=amount.text)


def _each_unworked(target: Target, tell: Telling) -> str:
    amount = tell.amount(target.n)
    if amount.one:
        return tell.voice.say("next st left unworked")
    return tell.voice.say("each of {n} sts left unworked", n=amount.text)


_WHERE: dict[str, Callable[[Target, Telling], str]] = {
    "next": _next,
    "each next": _each_next,
    "each": _each,
    "each last": _each_last,
    "same": _same,
    "first": _first,
    "last": _last,
    "ring": _ring,
    "marked": _marked,
    "hook": _hook,
    "top": _top,
    "base": _base,
    "chain of": _chain_of,
    "nth": _nth,
    "skipped": _skipped,
    "next skipped": _next_skipped,
    "each skipped": _each_skipped,
    "each unworked": _each_unworked,
}
