"""Items in words, one function a kind of item; each signs itself in with ``@says``.

[1 tr in each of next 3 tr, 1 fptr around next fptr] 7 (8, 9) times
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any, TypeVar

from loopwright.frozen import replace
from loopwright.ir import items as ir
from loopwright.ir.items import Item
from loopwright.ir.numbers import Given, Number
from loopwright.render.prose import works
from loopwright.render.prose.evenly import evenly
from loopwright.render.prose.openings import opening_name
from loopwright.render.prose.places import chain_of, into, noun, scope, where
from loopwright.render.prose.telling import Amount, Telling
from loopwright.render.prose.voice import Voice
from loopwright.render.prose.words import spoken
from loopwright.trade.stitches import SLIP, Stitch

F = TypeVar("F", bound=Callable[..., str])
SAY: dict[type[Any], Callable[[Any, Telling], str]] = {
    ir.Work: works.work,
    ir.Increase: works.increase,
    ir.Decrease: works.decrease,
    ir.Evenly: evenly,
    ir.Picot: works.picot,
}


def says(kind: type[Any]) -> Callable[[F], F]:
    """Sign a function in as the one that puts this kind of item into words."""

    def sign(function: F) -> F:
        SAY[kind] = function
        return function

    return sign


def say(item: Item, tell: Telling) -> str:
    """One item in words; empty where it is nought in every size. Sizes in which it is nought,
    though it is not so in all, are named after it."""
    text = SAY[type(item)](item, tell)
    without = _without(item, tell) if text else ()
    if not without:
        return text
    sizes = tell.named_sizes(without)
    return tell.voice.say("{what} (not in {sizes})", what=text, sizes=sizes)


def _without(item: Item, tell: Telling) -> tuple[int, ...]:
    """The sizes in which an item is not worked at all."""
    if type(item) is ir.Repeat and item.times is None:
        found = tell.times(item.span)
        return found.without if found is not None else ()
    number: Number | None = item.times if type(item) is ir.Repeat else getattr(item, "n", None)
    if number is None or type(item) is ir.Evenly:
        return ()
    return tell.amount(number).without


def say_all(items: Iterable[Item], tell: Telling) -> str:
    """Items in order, with commas. Of a turning chain that does not count it is said so where it
    stands, if other chains follow it: else nobody sees where the one ends and they begin."""
    told = [(item, text) for item in items if (text := say(item, tell))]
    said = [text for _, text in told]
    if len(told) > 1 and _is_turning(told[0][0], tell) and _begins_with_chains(told[1][0]):
        said[0] = tell.voice.say("{what} (does not count as a st)", what=said[0])
    return ", ".join(said)


def _is_turning(item: Item, tell: Telling) -> bool:
    return type(item) is ir.Chain and "turn" in tell.worked.whats.get(item.span, ())


def _begins_with_chains(item: Item) -> bool:
    if type(item) is ir.Repeat:
        return _begins_with_chains(item.items[0])
    return type(item) in (ir.Chain, ir.Opening)


@says(ir.Group)
def group(item: ir.Group, tell: Telling) -> str:
    """Several things in one place."""
    inside = say_all(item.items, tell.within())
    text = tell.voice.say("({what}) {place}", what=inside, place=into(item.target, tell))
    return _counting(text, item.as_stitch, 0, tell)


def _counting(text: str, stitch: Stitch | None, chains: int, tell: Telling) -> str:
    """Chains, or a group, that count as a stitch (and some chains)."""
    if stitch is None:
        return text
    name = tell.voice.stitch(stitch)
    if chains:
        return tell.voice.say(
            "{what} (counts as 1 {stitch} and {n} ch)", what=text, stitch=name, n=chains
        )
    return tell.voice.say("{what} (counts as 1 {stitch})", what=text, stitch=name)


@says(ir.Repeat)
def repeat(item: ir.Repeat, tell: Telling) -> str:
    """A bracket, with how often it was worked, or the word as written."""
    if item.times is not None:
        amount: Amount | None = tell.amount(item.times)
    else:
        amount = tell.times(item.span)
    if amount is not None and amount.none:
        return ""
    simple = _one_thing(item, amount, tell)
    if simple:
        return simple
    inner = _inside(item, tell)
    if not inner:
        return ""
    text = _so_often(inner, item, amount, tell)
    if item.stop is None:
        return text
    return tell.voice.say("{what}, ending last repeat at **", what=text)


def _so_often(inner: str, item: ir.Repeat, amount: Amount | None, tell: Telling) -> str:
    if amount is None:
        far = scope(item.scope, tell) if item.scope else ""
        return tell.voice.say("[{what}] {far}", what=inner, far=far)
    if amount.one and item.stop is None:
        return inner
    if amount.one:
        return tell.voice.say("[{what}] once", what=inner)
    return works.times_over(inner, amount, tell)


def _inside(item: ir.Repeat, tell: Telling) -> str:
    if item.stop is None:
        return say_all(item.items, tell)
    first = say_all(item.items[: item.stop], tell)
    return f"{first} ** {say_all(item.items[item.stop :], tell)}"


def _one_thing(item: ir.Repeat, amount: Amount | None, tell: Telling) -> str:
    """A bracket around a single plain stitch or increase reads better without it."""
    quiet = replace(tell, details=[])
    real = [one for one in item.items if say(one, quiet)]
    if len(real) != 1 or item.stop is not None or tell.inside:
        return ""
    only = real[0]
    if not isinstance(only, (ir.Work, ir.Increase)) or only.n != Given(1):
        return ""
    if isinstance(only, ir.Work) and not works.goes_on(only):
        return ""
    if amount is None:
        assert item.scope is not None
        return f"{works.in_every(only, tell)} {scope(item.scope, tell)}"
    if isinstance(only, ir.Increase):
        return works.two_in_each(only, amount, tell)
    return works.one_in_each(only, amount, tell)


@says(ir.Chain)
def chain(item: ir.Chain, tell: Telling) -> str:
    """Chains; those that count as a stitch say so."""
    amount = tell.amount(item.n)
    if amount.none:
        return ""
    text = tell.voice.say("ch {n}", n=amount.text)
    return _counting(text, item.counts_as, item.and_chains, tell)


@says(ir.Skip)
def skip(item: ir.Skip, tell: Telling) -> str:
    """Places passed over."""
    amount = tell.amount(item.n)
    if amount.none:
        return ""
    places = noun(item.kind, tell, amount.n)
    if item.counts_as is not None:
        text = tell.voice.say("miss first {n} {places}", n=amount.text, places=places)
        name = tell.voice.stitch(item.counts_as)
        if item.and_chains:
            return tell.voice.say(
                "{what} (count as 1 {stitch} and {n} ch)",
                what=text,
                stitch=name,
                n=item.and_chains,
            )
        return tell.voice.say("{what} (count as 1 {stitch})", what=text, stitch=name)
    if amount.one:
        return tell.voice.say("miss next {place}", place=places)
    return tell.voice.say("miss next {n} {places}", n=amount.text, places=places)


@says(ir.Join)
def join(item: ir.Join, tell: Telling) -> str:
    """The join of a round; one made with a stitch closes a space."""
    if item.stitch is None:
        slip = tell.voice.stitch(SLIP)  # what a join is made with goes into the abbreviations
        top, whole = tell.worked.begun(tell.sizes, tell.line)
        if top < whole:
            # The last chains are a space, and the top of the stitch is none of them.
            place = chain_of(top, whole, tell)
            return tell.voice.say("join with {slip} in {place}", slip=slip, place=place)
        beside = tell.each_size(lambda size: size.beside_skipped(tell.line))
        if beside is not None and beside.text.isdecimal() and not beside.none:
            # Counted from the hook, the space comes first and then the top of the stitch.
            nth = tell.voice.tongue.ordinal(int(beside.text) + 1)
            place = tell.voice.say("{nth} missed ch from hook", nth=nth)
            return tell.voice.say("join with {slip} in {place}", slip=slip, place=place)
        loop = tell.each_size(lambda size: size.loop_first(tell.line))
        if loop is not None and not loop.none and not loop.without:
            # Past it, the join would leave the loop out of the round.
            place = chain_of(1, loop.text, tell)
            return tell.voice.say("join with {slip} in {place}", slip=slip, place=place)
        tell.voice.met.add(("join", 0))
        return tell.voice.say("join")
    name = tell.voice.stitch(item.stitch)
    return tell.voice.say("join with 1 {stitch} (this closes the last sp)", stitch=name)


@says(ir.Turn)
def turn(item: ir.Turn, tell: Telling) -> str:
    """Turning, or not."""
    return tell.voice.say("turn") if item.turned else tell.voice.say("do not turn")


@says(ir.Move)
def move(item: ir.Move, tell: Telling) -> str:
    """Slip stitching along to a new first place."""
    slip, place = tell.voice.stitch(SLIP), where(item.target, tell)
    return tell.voice.say("{slip} along to {place}", slip=slip, place=place)


@says(ir.RunOn)
def run_on(item: ir.RunOn, tell: Telling) -> str:
    """A spiral round that goes past its marker."""
    return tell.voice.say("work on past the marker into the first sts of this round")


@says(ir.Leave)
def leave(item: ir.Leave, tell: Telling) -> str:
    """Stitches left unworked."""
    if item.n is None:
        return tell.voice.say("leave the rest unworked")
    amount = tell.amount(item.n)
    if amount.none:
        return ""
    if amount.one:
        return tell.voice.say("leave next st unworked")
    return tell.voice.say("leave next {n} sts unworked", n=amount.text)


@says(ir.Opening)
def opening(item: ir.Opening, tell: Telling) -> str:
    """Chains over a gap that gets a name."""
    under = tell.amount(item.n)
    over = under if item.chains is None else tell.amount(item.chains)
    name = opening_name(item.name, tell.voice)
    said = {"chains": over.text, "opening": name}
    if under.one:
        return tell.voice.say("ch {chains}, miss next st for {opening}", **said)
    return tell.voice.say("ch {chains}, miss next {n} sts for {opening}", n=under.text, **said)


@says(ir.Change)
def change(item: ir.Change, tell: Telling) -> str:
    """Another yarn, or several held together."""
    return tell.voice.say("change to {yarn}", yarn=yarns(item.yarns, tell.voice))


_QUALITIES = frozenset(
    (
        *("main", "contrast", "contrasting", "background", "ground", "accent"),
        *("first", "second", "third", "fourth"),
        *("light", "dark", "pale", "bright", "thick", "thin", "fine"),
    )
)
"""Names of yarns that are no nouns: "change to main" is no English."""


def yarn_name(name: str, voice: Voice) -> str:
    """A yarn as it is called in a sentence: ``slate``, ``the main yarn``, ``yarn A``."""
    called = spoken(name)
    if called.lower() in _QUALITIES:
        return voice.say("the {name} yarn", name=called)
    return voice.say("yarn {name}", name=called.upper()) if len(called) == 1 else called


def yarns(names: tuple[str, ...], voice: Voice) -> str:
    """Yarns by name: ``slate and foam held together``, ``2 strands of slate held together``."""
    return held([yarn_name(name, voice) for name in names], voice)


def held(called: list[str], voice: Voice) -> str:
    """Yarns as they are called, held together where they are several: a yarn that is held double is
    one, in two strands."""
    if len(called) == 1:
        return called[0]
    strands = {yarn: called.count(yarn) for yarn in called}
    each = [
        yarn if n == 1 else voice.say("{n} strands of {yarn}", n=n, yarn=yarn)
        for yarn, n in strands.items()
    ]
    return voice.say("{yarns} held together", yarns=voice.listing(each))


@says(ir.Mark)
def mark(item: ir.Mark, tell: Telling) -> str:
    """A marker in the last stitch made."""
    return tell.voice.say("place marker {name} in the st just made", name=spoken(item.name))


@says(ir.OtherSide)
def other_side(item: ir.OtherSide, tell: Telling) -> str:
    """Along the other side of the starting chain."""
    return tell.voice.say("go on along the other side of the starting ch")
