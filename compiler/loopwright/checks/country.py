"""Stitches that stand on the chains of the other country's stitch of the same name.

terms: UK, `dc in 4th ch from hook`, `ch 3 as dc`: so stands a US dc, which the UK calls tr
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from loopwright.checks.told import ordinal
from loopwright.diagnostics import ADVICE, Diagnostic, Related, rule
from loopwright.frozen import NamedTuple
from loopwright.ir import items as ir
from loopwright.ir.items import Item
from loopwright.ir.numbers import Given
from loopwright.ir.pattern import Pattern, Row
from loopwright.source import Span
from loopwright.trade.stitches import Stitch
from loopwright.trade.terms import TERMS, Terms, other
from loopwright.trade.turning import TURNING

MOST_RELATED = 6
"""Signs named beside the first."""


LEAST = {"as": 3, "hook": 4}
"""A shorter chain than is usual is a sign from here on: some US makers begin a dc with one chain."""


class Sign(NamedTuple):
    """A chain that is of the usual height for one of two countries' stitches: where it stands, as
    it is written, the stitch's word, the stitch in each country, and whether the other's is meant."""

    span: Span
    written: str
    word: str
    here: str
    there: str
    foreign: bool


def other_country(pattern: Pattern) -> tuple[Diagnostic, ...]:
    """The advice on a pattern whose words are all of both countries, and whose chains are those of
    the other's stitches."""
    terms = TERMS[pattern.terms]
    rows = [line for part in pattern.parts for line in part.lines if isinstance(line, Row)]
    foreign_words = other(terms).words
    if any(terms.short[basic] not in foreign_words for row in rows for basic in _basics(row.items)):
        return ()
    signs = [sign for row in rows for sign in _signs(row.items, terms)]
    foreign = [sign for sign in signs if sign.foreign]
    if len(foreign) <= len(signs) - len(foreign):
        return ()
    return (terms_unlikely(terms, foreign),)


def _basics(items: Sequence[Item]) -> Iterator[str]:
    """The stitches of a row by their neutral names, but for slip stitches."""
    for item in items:
        if isinstance(item, ir.Group | ir.Repeat):
            yield from _basics(item.items)
        stitch = getattr(item, "stitch", None)
        if isinstance(stitch, Stitch) and stitch.basic != "slip":
            yield stitch.basic


def _signs(items: Sequence[Item], terms: Terms) -> Iterator[Sign]:
    for at, item in enumerate(items):
        if isinstance(item, ir.Chain | ir.Skip) and item.counts_as is not None:
            if isinstance(item.n, Given):
                high = int(item.n.value) - item.and_chains
                yield from _sign(item.span, item.counts_as, terms, high, "as")
        elif isinstance(item, ir.Work) and item.target is not None and item.target.how == "hook":
            following = items[at + 1] if at + 1 < len(items) else None
            plain = isinstance(following, ir.Work) and following.stitch == item.stitch
            if at == 0 and plain and item.n == Given(1):
                yield from _sign(item.span, item.stitch, terms, item.target.nth, "hook")


def _sign(span: Span, stitch: Stitch, terms: Terms, n: int, how: str) -> Iterator[Sign]:
    """The sign that a chain is, where it is one country's usual and not the other's."""
    if stitch != Stitch(stitch.basic):
        return
    word = terms.short[stitch.basic]
    basic = other(terms).words.get(word)
    usual, others = (_usual(one, how) for one in (stitch.basic, basic))
    if basic is None or basic == stitch.basic or usual is None or others is None:
        return
    if n == others and others < usual and others < LEAST[how]:
        return
    written = f"ch {n} as {word}" if how == "as" else f"{word} in {ordinal(n)} ch from hook"
    if n in (usual, others):
        yield Sign(span, written, word, stitch.basic, basic, n == others)


def _usual(basic: str | None, how: str) -> int | None:
    """The chains of a stitch's turning chain, or the chain from the hook that takes the first."""
    one = TURNING.get(basic or "")
    return None if one is None else one.chains if how == "as" else one.first_in


@rule("terms-unlikely", "writing", ADVICE)
def terms_unlikely(terms: Terms, signs: Sequence[Sign]) -> Diagnostic:
    """Every word is of both countries' terms, and the chains are those of the other's stitches.

    `dc` and `tr` are other stitches in the UK than in the US, and a pattern of these words alone
    can be read in either terms and comes out in both. A chain of three that counts as a `dc`, or a
    `dc` in the 4th chain from the hook, is a US dc all the same, and not the UK's, which stands on
    one chain.

    Breaks:
        pattern: Tideline Swatch
        terms: UK
        part swatch: flat
        start: ch 22
        row 1: dc in 4th ch from hook, dc in each ch across = 19 sts
        row 2: ch 3 as dc, dc in each st across = 19 sts
    Keeps:
        pattern: Tideline Swatch
        terms: US
        part swatch: flat
        start: ch 22
        row 1: dc in 4th ch from hook, dc in each ch across = 19 sts
        row 2: ch 3 as dc, dc in each st across = 19 sts
    """
    first, *rest = signs
    there, here = other(terms).name, terms.name
    means = terms.short[first.there]
    text = (
        f"`{first.written}` is how a {there} {first.word} begins (a {here} {means}), and this"
        f" pattern is in {here} terms, in which all its words have a meaning too."
    )
    return Diagnostic(
        "terms-unlikely",
        ADVICE,
        first.span,
        text,
        (
            f"If the whole pattern is in {there} terms, write `terms: {there}`.",
            f"If it is in {here} terms, write `{means}` for `{first.word}`, or fewer chains."
            if TURNING[first.here].chains < TURNING[first.there].chains
            else f"If it is in {here} terms, write `{means}` for `{first.word}`, or more chains.",
        ),
        related=tuple(Related(one.span, f"`{one.written}`") for one in rest[:MOST_RELATED]),
    )
