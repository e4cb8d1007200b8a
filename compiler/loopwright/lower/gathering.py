"""Words of the other country's terms, gathered: a pattern that is wholly in them gets one message,
where the first of them stands, with how many more there are and the lines that they are in."""

from __future__ import annotations

from bisect import bisect_right

from loopwright.diagnostics import Diagnostic, Edit, Related
from loopwright.frozen import replace
from loopwright.lower import faults
from loopwright.lower.context import Context, Foreign
from loopwright.trade.terms import other

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
    return [one if len(words) == 1 else _gathered(ctx, one, words, starts)]


def _gathered(ctx: Context, one: Diagnostic, words: list[Foreign], starts: list[int]) -> Diagnostic:
    more = len(words) - 1
    stand = "1 more such word stands" if more == 1 else f"{more} more such words stand"
    there, here = other(ctx.terms).name, ctx.terms.name
    whole = f"If the whole pattern is in {there} terms, write `terms: {there}`."
    each = f"If it is in {here} terms, write {_means(words)}." if _means(words) else ""
    alike = all(word.word in faults.SAME_MEANING for word in words)
    edits = [
        Edit(word.span, word.here, safe=True) for word in words if word.word in faults.SAME_MEANING
    ]
    if not alike and ctx.terms_span is not None:
        edits.insert(0, Edit(ctx.terms_span, there))
    return replace(
        one,
        text=f"{one.text[:-1]}; {stand} in it.",
        hints=tuple(hint for hint in ((each, whole) if alike else (whole, each)) if hint),
        edits=tuple(edits),
        related=_related(words, starts),
    )


def _means(words: list[Foreign]) -> str:
    """What to write for each of the words."""
    means = {word.word: word.here for word in words if word.here}
    told = [f"`{here}` for `{word}`" for word, here in list(means.items())[:MOST_WORDS]]
    return ", ".join(told) + (" and so on" if len(means) > MOST_WORDS else "")


def _related(words: list[Foreign], starts: list[int]) -> tuple[Related, ...]:
    """The other lines that such words stand in, with those words."""
    lines: dict[int, list[Foreign]] = {}
    for word in words[1:]:
        lines.setdefault(bisect_right(starts, word.span.start), []).append(word)
    return tuple(
        Related(found[0].span, ", ".join(dict.fromkeys(f"`{word.word}`" for word in found)))
        for found in list(lines.values())[:MOST_RELATED]
    )
