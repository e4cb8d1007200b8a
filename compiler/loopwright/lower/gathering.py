"""Words of the other country's terms, gathered: a pattern that is wholly in them gets one message,
where the first of them stands, with how many more there are and the lines that they are in."""

from __future__ import annotations

from bisect import bisect_right

from loopwright.diagnostics import Diagnostic, Edit, Related
from loopwright.frozen import replace
from loopwright.lower import faults
from loopwright.lower.context import Context, Foreign
from loopwright.trade.terms import Terms, other

MOST_RELATED = 6
"""Lines that are named beside the first."""

MOST_WORDS = 6
"""Words whose meaning is given."""


def of_other_terms(ctx: Context, starts: list[int]) -> list[Diagnostic]:
    """The message on words of the other terms, where there are any. ``starts`` is where the
    lines of the file begin."""
    words = sorted(ctx.foreigners.values())
    if not words:
        return []
    first = words[0]
    one = faults.other_terms(first.span, first.word, ctx.terms, first.here)
    return [one if len(words) == 1 else _gathered(one, words, starts, ctx.terms)]


def _gathered(one: Diagnostic, words: list[Foreign], starts: list[int], terms: Terms) -> Diagnostic:
    there = other(terms).name
    more = (
        "1 more such word stands" if len(words) == 2 else f"{len(words) - 1} more such words stand"
    )
    text = f"{one.text[:-1]}; {more} in it."
    hints: tuple[str, ...] = (f"If the whole pattern is in {there} terms, write `terms: {there}`.",)
    means = {word.word: word.here for word in words if word.here}
    if means:
        told = [f"`{here}` for `{word}`" for word, here in list(means.items())[:MOST_WORDS]]
        more = " and so on" if len(means) > MOST_WORDS else ""
        hints = (*hints, f"If it is in {terms.name} terms, write {', '.join(told)}{more}.")
    edits = tuple(
        Edit(word.span, word.here, word.word in faults.SAME_MEANING) for word in words if word.here
    )
    return replace(one, text=text, hints=hints, edits=edits, related=_related(words, starts))


def _related(words: list[Foreign], starts: list[int]) -> tuple[Related, ...]:
    """The other lines that such words stand in, with those words."""
    lines: dict[int, list[Foreign]] = {}
    for word in words[1:]:
        lines.setdefault(bisect_right(starts, word.span.start), []).append(word)
    return tuple(
        Related(found[0].span, ", ".join(dict.fromkeys(f"`{word.word}`" for word in found)))
        for found in list(lines.values())[:MOST_RELATED]
    )
