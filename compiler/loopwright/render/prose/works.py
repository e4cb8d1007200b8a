"""Stitches in words: plain ones, increases and decreases, clusters, those spread evenly.

Work(TR, n=5)        ->  1 tr in each of next 5 sts
Increase(DC)         ->  2 dc in next st
Decrease(DC, n=6)    ->  [dc2tog over next 2 sts] 6 times
"""

from __future__ import annotations

from loopwright.ir.items import Decrease, Evenly, Increase, Picot, Work
from loopwright.ir.runs import Runs
from loopwright.render.prose.places import into
from loopwright.render.prose.telling import Amount, Telling
from loopwright.render.prose.words import capital, many, spoken
from loopwright.source import Span
from loopwright.trade.stitches import Stitch

_LOOPS = {"": "", "back": " blo", "front": " flo", "third": ""}
_ENDS = frozenset({"end"})
_CHAINS = frozenset({"ch"})


def place_met(span: Span, tell: Telling) -> str:
    """What untyped stitches went into, as the work found it."""
    found: set[str] = tell.worked.into.get(span, set())
    if not found or found == {"st"}:
        return "st"
    if found <= _ENDS:
        return "row end"
    if found <= _CHAINS:
        return "ch"
    return "place" if found >= _ENDS else "st or ch"


def times_over(text: str, amount: Amount) -> str:
    """Something done so many times: ``[dc2tog over next 2 sts] 6 times``."""
    return text if amount.one else f"[{text}] {amount.text} times"


def work(item: Work, tell: Telling) -> str:
    """Some stitches: where they go, and how many of them."""
    amount = tell.amount(item.n)
    if amount.none:
        return ""
    if item.target is not None:
        return f"{_several(item, amount, tell)} {into(item.target, tell, item.loop)}"
    if tell.inside or item.own:
        return _several(item, amount, tell)
    over = taken(item.stitch)
    if over > 1:
        return times_over(_together(item.stitch, item.loop, over, item.span, tell), amount)
    return one_in_each(item, amount, tell)


def one_in_each(item: Work, amount: Amount, tell: Telling) -> str:
    """One stitch in each of the next so many places."""
    single = _several(item, Amount("1", True, False), tell)
    return f"{single} {next_places(item.stitch, item.loop, item.span, amount, tell)}"


def next_places(stitch: Stitch, loop: str, span: Span, amount: Amount, tell: Telling) -> str:
    """``in each of next 5 sts``, ``around next st``, ``in third loop of next st``."""
    before = _before(stitch, loop)
    name = place_met(span, tell)
    if amount.one:
        return f"{before} next {name}"
    return f"{before} each of next {amount.text} {many(name)}"


def goes_on(item: Work) -> bool:
    """Whether a stitch, repeated, simply goes on to one place after another."""
    return not item.own and item.target is None and taken(item.stitch) == 1


def in_every(item: Work | Increase, tell: Telling) -> str:
    """One (or two) in each place, without saying how many there are."""
    if isinstance(item, Increase):
        return f"2 {tell.voice.stitch(item.stitch)} in each {place_met(item.span, tell)}"
    single = _several(item, Amount("1", True, False), tell)
    return f"{single} {_before(item.stitch, item.loop)} each {place_met(item.span, tell)}"


def _before(stitch: Stitch, loop: str) -> str:
    return "around" if stitch.post else "in third loop of" if loop == "third" else "in"


def taken(stitch: Stitch) -> int:
    """How many places a decrease closes over."""
    return max(stitch.together, 1 + len(stitch.unlike))


def _together(stitch: Stitch, loop: str, over: int, span: Span, tell: Telling) -> str:
    name = many(place_met(span, tell))
    third = "third loop of " if loop == "third" else ""
    return f"{tell.voice.stitch(stitch)}{_LOOPS[loop]} over {third}next {over} {name}"


def _several(item: Work, amount: Amount, tell: Telling) -> str:
    loop = _LOOPS[item.loop]
    if item.own:
        name = spoken(item.own)
        return f"{amount.text} {name if amount.one else many(name)}{loop}"
    return f"{several(item.stitch, amount, tell)}{loop}"


def several(stitch: Stitch, amount: Amount, tell: Telling) -> str:
    """So many of a stitch: ``2 tr``, ``5-tr bobble``, ``2 bobbles of 5 tr``."""
    name = tell.voice.stitch(stitch)
    if stitch.many:
        if amount.one:
            return name
        return f"{amount.text} {many(stitch.many)} of {stitch.legs} {tell.voice.bare(stitch)}"
    if stitch.unlike:
        return times_over(name, amount)
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
    over = taken(item.stitch)
    return times_over(_together(item.stitch, "", over, item.span, tell), amount)


def picot(item: Picot, tell: Telling) -> str:
    """A picot, or several."""
    amount = tell.amount(item.n)
    if amount.none:
        return ""
    name = f"ch-{item.chains} picot"
    text = name if amount.one else f"{amount.text} {many(name)}"
    return f"{text} {into(item.target, tell)}" if item.target else text


_EVENLY = {
    "all": "{n} {stitch} evenly over the whole edge",
    "inc": "1 {stitch} {loop}in each st, increasing {n} evenly",
    "dec": "1 {stitch} {loop}in each st, decreasing {n} evenly",
}


def evenly(item: Evenly, tell: Telling) -> str:
    """Stitches spread evenly, with the spacing as the work came to it."""
    amount = tell.amount(item.n)
    name = tell.voice.stitch(item.stitch) + _LOOPS[item.loop]
    text = _EVENLY[item.how].format(n=amount.text, stitch=name, loop="")
    spacings = _spacings(item, name, tell)
    if not all(spacings):
        return text
    if len(set(spacings)) == 1:
        return f"{text}: {spacings[0]}"
    for size, spacing in zip(tell.size_names(tell.sizes), spacings, strict=True):
        tell.details.append(f"{capital(size)}: {spacing}.")
    return f"{text} (spaced as below)"


def _spacings(item: Evenly, name: str, tell: Telling) -> list[str]:
    place = place_met(item.span, tell)
    out = []
    for size in tell.sizes:
        runs = tell.worked.sizes[size].spread(item.span)
        out.append("" if runs is None else _spacing(runs, item, name, place, tell))
    return out


def _spacing(runs: Runs[int], item: Evenly, name: str, place: str, tell: Telling) -> str:
    parts = []
    for node, times in runs.pairs:
        if isinstance(node, Runs):
            inner = _spacing(node, item, name, place, tell)
            parts.append(inner if times == 1 else f"[{inner}] {times} times")
        else:
            parts.append(_stretch(node, times, item, name, place, tell))
    return ", ".join(parts)


def _stretch(made: int, places: int, item: Evenly, name: str, place: str, tell: Telling) -> str:
    if item.how == "dec" and made > 1:
        pair = item.stitch._replace(together=item.stitch.together * made)
        text = _together(pair, item.loop, made, item.span, tell)
        return text if places == 1 else f"[{text}] {places} times"
    if made == 0:
        some = place if places == 1 else f"{places} {many(place)}"
        return f"{tell.voice.terms.skip} next {some}"
    before = _before(item.stitch, item.loop)
    each = f"next {place}" if places == 1 else f"each of next {places} {many(place)}"
    return f"{made} {name} {before} {each}"
