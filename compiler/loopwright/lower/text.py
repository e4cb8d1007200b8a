"""Free text: words as they stand, with what is in braces made ready to print in any terms."""

from __future__ import annotations

import re
from fractions import Fraction

from loopwright.ir.numbers import CannotReckon, reckon
from loopwright.ir.pattern import Text
from loopwright.lower import faults, sums
from loopwright.lower import numbers as num
from loopwright.lower.context import Broken, Context
from loopwright.lower.literal import literals
from loopwright.source import Span
from loopwright.syntax.parser import parse
from loopwright.syntax.tree import Misread
from loopwright.trade.stitches import Stitch
from loopwright.trade.terms import TERMS, stitch_of

_BRACES = re.compile(r"\{[^{}]*\}")
_WORD = re.compile(r"(?<![\w{-])[a-z][a-z0-9]*(?![\w}-])")
_NAME = re.compile(r"\{\s*([A-Za-z_][\w-]*)\s*\}")
_STITCH_WORDS = re.compile(r"(?:fp|bp)?(?:dc|tr|htr|dtr|trtr|ttr|sc|hdc|trc)(?:\d+tog)?\Z")


def text(ctx: Context, content: str, at: int, *, plain: bool = False) -> Text:
    """Free text that begins at offset ``at`` of the file. ``plain`` text keeps its braces."""
    pieces: list[str | tuple[str, ...] | Stitch] = []
    done = 0
    if not plain:
        for match in _BRACES.finditer(content):
            pieces.append(_words(ctx, content[done : match.start()], at + done))
            value = _value(ctx, match, at)
            pieces.append(value if value is not None else match.group())
            done = match.end()
        pieces.append(_words(ctx, content[done:], at + done))
    else:
        pieces.append(content)
    kept = _trim([re.sub(r"\s+", " ", one) if isinstance(one, str) else one for one in pieces])
    return Text(tuple(literals(kept)))


def _trim(
    pieces: list[str | tuple[str, ...] | Stitch],
) -> list[str | tuple[str, ...] | Stitch]:
    if pieces and isinstance(pieces[0], str):
        pieces[0] = pieces[0].lstrip()
    if pieces and isinstance(pieces[-1], str):
        pieces[-1] = pieces[-1].rstrip()
    return [one for one in pieces if one != ""]


def _words(ctx: Context, words: str, at: int) -> str:
    for match in _WORD.finditer(words):
        word = match.group()
        if _STITCH_WORDS.match(word) and stitch_of(word, ctx.terms):
            span = Span(at + match.start(), at + match.end())
            ctx.say(faults.untranslated_term(span, word))
    return words


def _value(ctx: Context, match: re.Match[str], at: int) -> tuple[str, ...] | Stitch | None:
    span = Span(at + match.start(), at + match.end())
    name = _NAME.fullmatch(match.group())
    if name:
        word = name.group(1)
        measure = ctx.measures.get(word)
        if measure is not None:
            ctx.use("measure", word)
            return tuple(length(one, measure.unit) for one in measure.lengths)
        if word not in ctx.counts:
            stitch = stitch_of(word, ctx.terms)
            if stitch is not None:
                return stitch
            for other in TERMS.values():
                if stitch_of(word, other):
                    ctx.foreign(span, word, "")
                    return None
    return _number(ctx, match.group(), span)


def _number(ctx: Context, braces: str, span: Span) -> tuple[str, ...] | None:
    tree = parse("braces_only", braces)
    if isinstance(tree, Misread):
        ctx.say(
            faults.not_understood(
                span, braces, "In braces stands a name, a stitch, or arithmetic such as {body / 2}."
            )
        )
        return None
    base, ctx.base = ctx.base, span.start
    moved, ctx.moved = ctx.moved, ()
    try:
        num.check_sums(ctx, tree, braces)
        number = num.expression(ctx, tree.children[1])
        names = [
            {name: Fraction(count.values[size]) for name, count in ctx.counts.items()}
            for size in range(len(ctx.sizes))
        ]
        values = [reckon(number, size, names[size]) for size in range(len(ctx.sizes))]
    except Broken:
        return None
    except (CannotReckon, KeyError):
        ctx.say(sums.not_whole(span, braces, "no number", ()))
        return None
    finally:
        ctx.base, ctx.moved = base, moved
    return tuple(_plain(Fraction(value)) for value in values)


def _plain(value: Fraction) -> str:
    return str(value.numerator) if value.denominator == 1 else f"{float(value):g}"


def length(mm: Fraction, unit: str) -> str:
    """A length in the unit it was written in: ``15 cm``."""
    return f"{_plain(mm / num.MM[unit])} {unit}"
