"""Places in words: what a stitch goes into, and how far an ``each`` reaches.

Target("each next", Kind("stitch", stitch=TR), n=3)  ->  in each of next 3 tr
"""

from __future__ import annotations

from collections.abc import Callable

from loopwright.ir.items import Kind, Scope, Target
from loopwright.render.prose.telling import Telling
from loopwright.render.prose.words import many, ordinal, spoken


def noun(kind: Kind, tell: Telling, plural: bool = False) -> str:
    """What a kind of place is called: ``st``, ``ch-2 sps``, ``row ends``, ``fptr``."""
    if kind.what == "stitch" and kind.stitch is not None:
        word = tell.voice.stitch(kind.stitch)
        counted = kind.stitch.many or kind.stitch.basic == "slip"
        return many(word) if plural and counted else word
    if kind.what in ("own", "many"):
        word = spoken(kind.own)
    elif kind.what == "sp":
        word = f"ch-{kind.chains} sp" if kind.chains else "sp"
    else:
        word = kind.what
    return many(word) if plural else word


def gap_between(kind: Kind) -> str:
    """Of a gap between one own stitch and the next: ``between shells``."""
    return f" between {many(spoken(kind.own))}" if kind.what == "gap" and kind.own else ""


def scope(what: Scope, tell: Telling) -> str:
    """How far: ``around``, ``to last 3 sts``, ``to next ch-2 sp``."""
    if what.how == "last":
        amount = tell.amount(what.n)
        if amount.one:
            return f"to last {noun(what.kind, tell)}"
        return f"to last {amount.text} {noun(what.kind, tell, True)}"
    if what.how == "next":
        return f"to next {noun(what.kind, tell)}"
    if what.how == "marked":
        return f"to marker {spoken(what.name)}"
    return what.word if what.how == "end" else ""


def where(target: Target, tell: Telling) -> str:
    """The place without its preposition: ``each of next 3 sts``, ``2nd ch from hook``."""
    return _WHERE[target.how](target, tell) + gap_between(target.kind) + _depth(target, tell)


def into(target: Target, tell: Telling, loop: str = "") -> str:
    """The place with its preposition: ``in next st``, ``around next fptr``."""
    if target.post:
        return f"around {where(target, tell)}"
    if loop == "third":
        return f"in third loop of {where(target, tell)}"
    return f"in {where(target, tell)}"


def _depth(target: Target, tell: Telling) -> str:
    if target.below:
        return f" {target.below} {tell.word}{'s' if target.below > 1 else ''} below"
    return f" of {tell.word} {target.of_row}" if target.of_row else ""


def _next(target: Target, tell: Telling) -> str:
    return f"next {noun(target.kind, tell)}"


def _each_next(target: Target, tell: Telling) -> str:
    amount = tell.amount(target.n)
    if amount.one:
        return f"next {noun(target.kind, tell)}"
    return f"each of next {amount.text} {noun(target.kind, tell, True)}"


def _each(target: Target, tell: Telling) -> str:
    far = scope(target.scope, tell) if target.scope else ""
    return f"each {noun(target.kind, tell)} {far}".rstrip()


def _each_last(target: Target, tell: Telling) -> str:
    amount = tell.amount(target.n)
    if amount.one:
        return f"last {noun(target.kind, tell)}"
    return f"each of last {amount.text} {noun(target.kind, tell, True)}"


def _same(target: Target, tell: Telling) -> str:
    return f"same {noun(target.kind, tell)}"


def _first(target: Target, tell: Telling) -> str:
    return f"first {noun(target.kind, tell)}"


def _last(target: Target, tell: Telling) -> str:
    return f"last {noun(target.kind, tell)}"


def _ring(target: Target, tell: Telling) -> str:
    return "ring"


def _marked(target: Target, tell: Telling) -> str:
    return f"st with marker {spoken(target.name)}"


def _hook(target: Target, tell: Telling) -> str:
    return f"{ordinal(target.nth)} ch from hook"


def _top(target: Target, tell: Telling) -> str:
    return f"top of ch-{target.chains}"


def _base(target: Target, tell: Telling) -> str:
    return f"base of {target.which} ch-{target.chains}"


def _chain_of(target: Target, tell: Telling) -> str:
    return f"{ordinal(target.nth)} ch of {target.which} {noun(target.kind, tell)}"


def _nth(target: Target, tell: Telling) -> str:
    return f"{ordinal(target.nth)} {noun(target.kind, tell)} from here"


def _skipped(target: Target, tell: Telling) -> str:
    nth = f"{ordinal(target.nth)} " if target.nth else ""
    return f"{nth}{tell.voice.skipped} st"


def _next_skipped(target: Target, tell: Telling) -> str:
    return f"next {tell.voice.skipped} st"


def _each_skipped(target: Target, tell: Telling) -> str:
    amount = tell.amount(target.n)
    if amount.one:
        return f"{tell.voice.skipped} st"
    return f"each of {amount.text} {tell.voice.skipped} sts"


def _each_unworked(target: Target, tell: Telling) -> str:
    amount = tell.amount(target.n)
    if amount.one:
        return "next st left unworked"
    return f"each of {amount.text} sts left unworked"


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
