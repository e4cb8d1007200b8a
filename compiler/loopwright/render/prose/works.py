"""Stitches in words: plain ones, increases and decreases, clusters.

Work(TR, n=5)        ->  1 tr in each of next 5 sts
Increase(DC)         ->  2 dc in next st
Decrease(DC, n=6)    ->  [dc2tog over next 2 sts] 6 times
"""

from __future__ import annotations

from loopwright.ir.items import Decrease, Increase, Picot, Work
from loopwright.render.prose.places import into, named, own
from loopwright.render.prose.telling import ONE, Amount, Telling
from loopwright.render.prose.tongue import phrase, phrases
from loopwright.source import Span
from loopwright.trade.stitches import Stitch
from loopwright.trade.turning import TURNING

_LOOPS = {
    "": "",
    "back": phrase("{stitches} blo"),
    "front": phrase("{stitches} flo"),
    "third": "",
}
_ENDS = frozenset({"end"})
_CHAINS = frozenset({"ch", "own"})
"""On the starting chain, and of this row itself."""


def place_met(span: Span, tell: Telling) -> str:
    """What untyped stitches went into, as the work found it: a noun of the table of places."""
    found: set[str] = tell.worked.into.get(span, set())
    if not found or found == {"st"}:
        return "st"
    if found <= _ENDS:
        return "row end"
    if found <= _CHAINS:
        return "ch"
    return "place" if found >= _ENDS else "st or ch"


def times_over(text: str, amount: Amount, tell: Telling) -> str:
    """Something done so many times: ``[dc2tog over next 2 sts] 6 times``."""
    if amount.one:
        return text
    return tell.voice.many("[{what}] {n} time", "[{what}] {n} times", 2, what=text, n=amount.text)


def looped(text: str, loop: str, tell: Telling) -> str:
    """Stitches with the loop that they are made in: ``4 htr blo``."""
    return tell.voice.say(_LOOPS[loop], stitches=text) if _LOOPS[loop] else text


def work(item: Work, tell: Telling) -> str:
    """Some stitches: where they go, and how many of them."""
    amount = tell.amount(item.n)
    if amount.none:
        return ""
    if item.target is not None:
        place = into(item.target, tell, item.loop, bool(item.stitch.post))
        text = tell.voice.say("{what} {place}", what=_several(item, amount, tell), place=place)
        return _past_the_hook(text, item, tell)
    if tell.inside or item.own:
        return _several(item, amount, tell)
    over = taken(item.stitch)
    if over > 1:
        text = together(item.stitch, item.loop, over, item.span, tell)
        return times_over(text, amount, tell)
    return one_in_each(item, amount, tell)


def _past_the_hook(text: str, item: Work, tell: Telling) -> str:
    """Of the chains between the hook and a tall stitch, where they are as many as would count as
    one in other patterns, that they do not: they look like a stitch, and are worked into as one."""
    usual = TURNING.get(item.stitch.basic)
    missed = item.target.nth - 1 if item.target is not None and item.target.how == "hook" else 0
    if usual is None or not usual.counts or missed < usual.chains:
        return text
    return tell.voice.say(
        "{what} (the {n} missed {places} do not count as a st)",
        what=text,
        n=missed,
        places=named("ch", tell, missed),
    )


def one_in_each(item: Work, amount: Amount, tell: Telling) -> str:
    """One stitch in each of the next so many places."""
    single = _several(item, ONE, tell)
    return f"{single} {next_places(item.stitch, item.loop, item.span, amount, tell)}"


_NEXT = {
    "": phrase("in next {place}"),
    "post": phrase("around next {place}"),
    "third": phrase("in third loop of next {place}"),
}
_EACH_NEXT = {
    "": phrase("in each of next {n} {places}"),
    "post": phrase("around each of next {n} {places}"),
    "third": phrase("in third loop of each of next {n} {places}"),
}
_EACH = {
    "": phrase("in each {place}"),
    "post": phrase("around each {place}"),
    "third": phrase("in third loop of each {place}"),
}


def _how(stitch: Stitch, loop: str) -> str:
    """How a stitch meets its place: around its post, or in its third loop, or simply in it."""
    return "post" if stitch.post else "third" if loop == "third" else ""


def next_places(stitch: Stitch, loop: str, span: Span, amount: Amount, tell: Telling) -> str:
    """``in each of next 5 sts``, ``around next st``, ``in third loop of next st``."""
    how = _how(stitch, loop)
    place = named(place_met(span, tell), tell, amount.n)
    if amount.one:
        return tell.voice.say(_NEXT[how], place=place)
    return tell.voice.say(_EACH_NEXT[how], n=amount.text, places=place)


def goes_on(item: Work) -> bool:
    """Whether a stitch, repeated, simply goes on to one place after another."""
    return not item.own and item.target is None and taken(item.stitch) == 1


def in_every(item: Work | Increase, tell: Telling) -> str:
    """One (or two) in each place, without saying how many there are."""
    place = named(place_met(item.span, tell), tell)
    if isinstance(item, Increase):
        each = tell.voice.say(_EACH[_how(item.stitch, "")], place=place)
        return f"2 {tell.voice.stitch(item.stitch)} {each}"
    each = tell.voice.say(_EACH[_how(item.stitch, item.loop)], place=place)
    return f"{_several(item, ONE, tell)} {each}"


def taken(stitch: Stitch) -> int:
    """How many places a decrease closes over."""
    return max(stitch.together, 1 + len(stitch.unlike))


_OVER = {
    "": phrase("{stitch} over next {n} {places}"),
    "third": phrase("{stitch} over third loop of next {n} {places}"),
}


def together(stitch: Stitch, loop: str, over: int, span: Span, tell: Telling) -> str:
    """Stitches closed as one: ``tr2tog over next 2 sts``."""
    places = named(place_met(span, tell), tell, over)
    word = looped(tell.voice.stitch(stitch), loop, tell)
    third = "third" if loop == "third" else ""
    return tell.voice.say(_OVER[third], places=places, stitch=word, n=over)


def _several(item: Work, amount: Amount, tell: Telling) -> str:
    if item.own:
        return looped(f"{amount.text} {own(item.own, tell, amount.n)}", item.loop, tell)
    return looped(several(item.stitch, amount, tell), item.loop, tell)


_MANY = {
    "cluster": phrase("{n} clusters of {legs} {stitch}"),
    "bobble": phrase("{n} bobbles of {legs} {stitch}"),
    "puff": phrase("{n} puffs of {legs} {stitch}"),
    "popcorn": phrase("{n} popcorns of {legs} {stitch}"),
    "shell": phrase("{n} shells of {legs} {stitch}"),
}


def several(stitch: Stitch, amount: Amount, tell: Telling) -> str:
    """So many of a stitch: ``2 tr``, ``5-tr bobble``, ``2 bobbles of 5 tr``."""
    name = tell.voice.stitch(stitch)
    if stitch.many:
        if amount.one:
            return name
        bare = tell.voice.bare(stitch)
        return tell.voice.say(_MANY[stitch.many], n=amount.text, legs=stitch.legs, stitch=bare)
    if stitch.unlike:
        return times_over(name, amount, tell)
    return f"{amount.text} {name}"


def increase(item: Increase, tell: Telling) -> str:
    """Two in the next stitch, so many times."""
    amount = tell.amount(item.n)
    return "" if amount.none else two_in_each(item, amount, tell)


def two_in_each(item: Increase, amount: Amount, tell: Telling) -> str:
    """Two in each of the next so many stitches."""
    name = tell.voice.stitch(item.stitch)
    return f"2 {name} {next_places(item.stitch, '', item.span, amount, tell)}"


def decrease(item: Decrease, tell: Telling) -> str:
    """The next two worked together, so many times."""
    amount = tell.amount(item.n)
    if amount.none:
        return ""
    text = together(item.stitch, "", taken(item.stitch), item.span, tell)
    return times_over(text, amount, tell)


_PICOT = phrases("ch-{chains} picot", "{n} ch-{chains} picots")


def picot(item: Picot, tell: Telling) -> str:
    """A picot, or several."""
    amount = tell.amount(item.n)
    if amount.none:
        return ""
    tell.voice.met.add(("picot", item.chains))
    n = 1 if amount.one else 2
    text = tell.voice.many(*_PICOT, n, n=amount.text, chains=item.chains)
    if item.target is None:
        return text
    return tell.voice.say("{what} {place}", what=text, place=into(item.target, tell))
