"""Items in words, one function a kind of item; each signs itself in with ``@says``.

[1 tr in each of next 3 tr, 1 fptr around next fptr] 7 (8, 9) times
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace
from typing import Any, TypeVar

from loopwright.ir import items as ir
from loopwright.ir.items import Item
from loopwright.ir.numbers import Given
from loopwright.render.prose import works
from loopwright.render.prose.places import into, noun, scope, where
from loopwright.render.prose.telling import Amount, Telling
from loopwright.render.prose.words import listing, spoken
from loopwright.trade.stitches import SLIP, Stitch

F = TypeVar("F", bound=Callable[..., str])
SAY: dict[type[Any], Callable[[Any, Telling], str]] = {
    ir.Work: works.work,
    ir.Increase: works.increase,
    ir.Decrease: works.decrease,
    ir.Evenly: works.evenly,
    ir.Picot: works.picot,
}


def says(kind: type[Any]) -> Callable[[F], F]:
    """Sign a function in as the one that puts this kind of item into words."""

    def sign(function: F) -> F:
        SAY[kind] = function
        return function

    return sign


def say(item: Item, tell: Telling) -> str:
    """One item in words; empty where it is nought in every size."""
    return SAY[type(item)](item, tell)


def say_all(items: Iterable[Item], tell: Telling) -> str:
    """Items in order, with commas."""
    return ", ".join(text for text in (say(item, tell) for item in items) if text)


@says(ir.Group)
def group(item: ir.Group, tell: Telling) -> str:
    """Several things in one place."""
    text = f"({say_all(item.items, tell.within())}) {into(item.target, tell)}"
    return text + _counting(item.as_stitch, 0, tell)


def _counting(stitch: Stitch | None, chains: int, tell: Telling) -> str:
    if stitch is None:
        return ""
    loose = f" and {chains} ch" if chains else ""
    return f" (counts as 1 {tell.voice.stitch(stitch)}{loose})"


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
    far = scope(item.scope, tell) if item.scope else ""
    if amount is None:
        text = f"[{inner}] {far}"
    elif amount.one:
        text = f"[{inner}] once"
    else:
        text = f"[{inner}] {amount.text} times"
    return f"{text}, ending last repeat at **" if item.stop is not None else text


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
    return f"ch {amount.text}{_counting(item.counts_as, item.and_chains, tell)}"


@says(ir.Skip)
def skip(item: ir.Skip, tell: Telling) -> str:
    """Places passed over."""
    amount = tell.amount(item.n)
    if amount.none:
        return ""
    word = tell.voice.terms.skip
    if item.counts_as is not None:
        counts = _counting(item.counts_as, item.and_chains, tell)
        return f"{word} first {amount.text} {noun(item.kind, tell, True)}{counts}"
    if amount.one:
        return f"{word} next {noun(item.kind, tell)}"
    return f"{word} next {amount.text} {noun(item.kind, tell, True)}"


@says(ir.Join)
def join(item: ir.Join, tell: Telling) -> str:
    """The join of a round; one made with a stitch closes a space."""
    if item.stitch is None:
        tell.voice.stitch(SLIP)  # what a join is made with goes into the abbreviations
        return "join"
    return f"join with 1 {tell.voice.stitch(item.stitch)} (this closes the last sp)"


@says(ir.Turn)
def turn(item: ir.Turn, tell: Telling) -> str:
    """Turning, or not."""
    return "turn" if item.turned else "do not turn"


@says(ir.Move)
def move(item: ir.Move, tell: Telling) -> str:
    """Slip stitching along to a new first place."""
    return f"{tell.voice.stitch(SLIP)} along to {where(item.target, tell)}"


@says(ir.RunOn)
def run_on(item: ir.RunOn, tell: Telling) -> str:
    """A spiral round that goes past its marker."""
    return "work on past the marker into the first sts of this round"


@says(ir.Leave)
def leave(item: ir.Leave, tell: Telling) -> str:
    """Stitches left unworked."""
    if item.n is None:
        return "leave the rest unworked"
    amount = tell.amount(item.n)
    if amount.none:
        return ""
    return f"leave next {'st' if amount.one else f'{amount.text} sts'} unworked"


@says(ir.Opening)
def opening(item: ir.Opening, tell: Telling) -> str:
    """Chains over a gap that gets a name."""
    under = tell.amount(item.n)
    over = under if item.chains is None else tell.amount(item.chains)
    passed = "next st" if under.one else f"next {under.text} sts"
    name = spoken(item.name)
    return f"ch {over.text}, {tell.voice.terms.skip} {passed} for the {name} opening"


@says(ir.Change)
def change(item: ir.Change, tell: Telling) -> str:
    """Another yarn, or several held together."""
    return f"change to {yarns(item.yarns)}"


def yarns(names: tuple[str, ...]) -> str:
    """Yarns by name: ``slate and foam held together``."""
    said = listing([spoken(name) for name in names])
    return f"{said} held together" if len(names) > 1 else said


@says(ir.Mark)
def mark(item: ir.Mark, tell: Telling) -> str:
    """A marker in the last stitch made."""
    return f"place marker {spoken(item.name)} in the st just made"


@says(ir.OtherSide)
def other_side(item: ir.OtherSide, tell: Telling) -> str:
    """Along the other side of the starting chain."""
    return "go on along the other side of the starting ch"
