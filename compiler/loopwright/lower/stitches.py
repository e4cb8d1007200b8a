"""Stitch words to neutral stitches, in the terms of the pattern."""

from __future__ import annotations

from typing import Any

from loopwright.diagnostics import Edit
from loopwright.frozen import NamedTuple
from loopwright.lower import faults
from loopwright.lower.context import Broken, Context
from loopwright.syntax.tree import Node
from loopwright.trade.stitches import MANY, PLAIN, SLIP, Stitch
from loopwright.trade.terms import Terms, abbreviation, other, stitch_of

TUNISIAN = ("tss", "tks", "tps", "tfs", "tunisian")

WORDS = ("join", "turn", "skip", "miss", "each", "next", "mark", "move", "leave")
"""Words of the notation that are found where a stitch should stand."""

ANY = ("st", "sts", "stitch", "stitches")
"""Words for a stitch that do not say which."""

FORMS = {"picot": "ch-3 picot", **{form: f"5-{{}} {form}" for form in MANY if form != "shell"}}
"""Forms that say how many of what they are made of, each as it is written."""

SURE = 0.75
LEAST = 0.6
CLOSE = 0.1
"""How like a known word another must be for that to be meant, and no stitch of her own; for it to
be worth a guess; and how much less like a second guess may be."""

LONGEST_WORD = 40


class Meant(NamedTuple):
    """What a stitch word means: a stitch, or the designer's own (``own``), or a picot."""

    stitch: Stitch
    own: str = ""
    picot: int = 0


def meant(ctx: Context, node: Node) -> Meant:
    """Lower a ``stitch`` node. Raises ``Broken`` after saying what is wrong."""
    words = node.children
    first = words[0]
    if first == "sl":
        return Meant(SLIP)
    if first == "crab":
        return Meant(word(ctx, words[1])._replace(crab=True))
    if first.type == "N_STITCH":
        return Meant(many(ctx, first, words[1]))
    if first.type == "CH_N":
        if str(words[1]) in ("picot", "picots"):
            return Meant(PLAIN, picot=int(str(first)[3:]))
        raise _no_stitch(ctx, node, f"{first} {words[1]}")
    own = own_name(ctx, str(first))
    if own:
        return Meant(ctx.owns[own].height, own)
    return Meant(word(ctx, first))


def plain(ctx: Context, node: Node) -> Stitch:
    """A ``stitch`` node where only a stitch of the trade can stand."""
    found = meant(ctx, node)
    if found.own or found.picot:
        raise _no_stitch(ctx, node, " ".join(str(word) for word in node.children))
    return found.stitch


def own_name(ctx: Context, word: str) -> str:
    """The designer's own stitch that a word names, singular or plural, or ``""``."""
    if word in ctx.owns:
        ctx.use("stitch", word)
        return word
    for ending in ("s", "es"):
        single = word.removesuffix(ending)
        if single != word and single in ctx.owns:
            ctx.use("stitch", single)
            return single
    return ""


def many(ctx: Context, n_stitch: Any, form: Any) -> Stitch:
    """``5-tr`` and ``cluster``: several made as one."""
    legs, _, name = str(n_stitch).partition("-")
    word = str(form)
    single = word[:-1] if word.endswith("s") else word
    if single == "shell" and stitch_of(name, ctx.terms) is not None and ctx.bad.isdisjoint({word}):
        ctx.say(faults.shell(ctx.span(n_stitch), ctx.span(form), f"{legs} {name}"))
        raise Broken
    if single not in MANY or single == "shell":
        raise _no_stitch(ctx, n_stitch, word, at=form)
    base = stitch_of(name, ctx.terms)
    if base is None:
        raise _no_stitch(ctx, n_stitch, name)
    return base._replace(many=single, legs=int(legs))


def word(ctx: Context, word: Any, as_what: str = "") -> Stitch:
    """The stitch that a word means; it is one to be worked, or, as a ``place``, one to work into,
    or one that is ``counted``."""
    found = stitch_of(str(word), ctx.terms)
    if found is None:
        raise _no_stitch(ctx, word, str(word), as_what=as_what)
    return found


def _no_stitch(ctx: Context, node: Any, word: str, at: Any = None, as_what: str = "") -> Broken:
    span = ctx.span(at if at is not None else node)
    if word in ctx.bad:
        return Broken()
    if word.lower() in TUNISIAN:
        ctx.say(
            faults.not_in_this_edition(
                span,
                f"`{word}` is Tunisian crochet, which this edition of the notation does not have.",
                "Keep such a part in a `note`, where it is printed and not checked.",
            )
        )
        return Broken()
    there = stitch_of(word, other(ctx.terms))
    if there is not None:
        ctx.foreign(span, word, abbreviation(there, ctx.terms))
    elif word == "evenly":
        ctx.say(faults.how_many_evenly(span, ctx.terms))
    elif word in ANY:
        ctx.say(faults.which_stitch(span, word, ctx.terms))
    elif stitch_of(word.lower(), ctx.terms) is not None:
        text, small = "Stitches are written in small letters.", word.lower()
        edits = (Edit(span, small, safe=True),)
        ctx.say(faults.written_otherwise(span, text, f"Write `{small}`.", edits))
    elif word.removesuffix("s") in FORMS:
        ctx.say(faults.how_many(span, word, FORMS[word.removesuffix("s")], ctx.terms))
    else:
        near, sure = _near(ctx, word)
        if not near and ctx.unknowable("stitch"):
            return Broken()
        if as_what == "counted" and not near:
            ctx.say(faults.not_defined(span, word, ctx.terms, counted=True))
        elif as_what and not near:
            ctx.say(faults.no_place(span, word, ctx.terms))
        else:
            ctx.say(faults.unknown_stitch(span, word, ctx.terms, near, sure=sure))
    return Broken()


def _posts(terms: Terms) -> list[str]:
    return [f"{side}p{one}" for side in "fb" for one in terms.words]


def _near(ctx: Context, word: str) -> tuple[tuple[str, ...], bool]:
    """The stitches that are likely to be meant by a word, the likeliest first, and whether one of
    them surely is."""
    from difflib import SequenceMatcher

    if not word.isascii() or len(word) > LONGEST_WORD:
        return (), False
    known = [*ctx.terms.words, *ctx.owns, *_posts(ctx.terms), *WORDS]
    like = {one: SequenceMatcher(None, word.lower(), one).ratio() for one in known}
    best = max(like.values())
    near = [
        one
        for one in sorted(like, key=lambda one: -like[one])
        if like[one] > best - CLOSE and like[one] >= (SURE if one in WORDS else LEAST)
    ]
    return tuple(near[:2]), bool(near) and best >= SURE
