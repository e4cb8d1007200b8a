"""Fit: what a gauge finds about the fabric that a count does not show. Facts, without words.

    fit(pattern, fabrics) -> ((size, Fact), ...)

A fact's kind is the code of the rule in ``checks.fabric`` that words it. Nothing is found of a
part without gauge, and of each kind one thing a part: the first that is met, in every size it
happens in.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from loopwright.ir.fabric import Fabric, Fact
from loopwright.ir.pattern import Pattern
from loopwright.measure.fit import edges, likely, off, rounds, turning
from loopwright.measure.fit.seen import Found, Seen, look

FINDERS: tuple[Callable[[Seen], Iterator[Found]], ...] = (
    turning.chains,
    edges.picked_up,
    rounds.flat,
    rounds.gathered,
    off.sizes,
    likely.gauges,
)


def fit(pattern: Pattern, fabrics: tuple[Fabric, ...]) -> tuple[Found, ...]:
    """Everything found, as (size, fact)."""
    seen = look(pattern, fabrics)
    first: dict[tuple[str, str], Fact] = {}
    out = []
    for find in FINDERS:
        for size, fact in find(seen):
            kept = first.setdefault((fact.kind, fact.part or str(fact.span.start)), fact)
            if kept.span == fact.span:
                out.append((size, fact))
    return tuple(dict.fromkeys(out))
