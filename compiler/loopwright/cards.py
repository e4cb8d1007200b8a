"""What the overview of a repository says of one pattern, put into words.

card(pattern, verdict, measured, links) -> Card(worked="70 rows, 1,960 stitches", ...)
"""

from __future__ import annotations

from collections.abc import Iterator

from loopwright.diagnostics.card import Card, Link
from loopwright.diagnostics.reports.plain import worked
from loopwright.diagnostics.verdict import Verdict
from loopwright.ir.pattern import Pattern
from loopwright.measured import Measured, YarnTaken


def card(
    pattern: Pattern | None, told: Verdict, taken: Measured | None, links: tuple[Link, ...]
) -> Card:
    """What the page says of a pattern, of which nothing need be ``taken`` or known."""
    return Card(
        told.name,
        told.title,
        pattern.sizes if pattern and not pattern.shared else (),
        worked(told) if told.sizes else "",
        tuple((one.name, _values(one.values)) for one in pattern.counts) if pattern else (),
        tuple(_yarn(taken)) if taken else (),
        told.messages,
        links,
    )


def _values(values: tuple[int, ...]) -> str:
    first, *rest = values
    same = len(set(values)) == 1
    return f"{first}" if same else f"{first} ({', '.join(map(str, rest))})"


def _yarn(taken: Measured) -> Iterator[tuple[str, str]]:
    for name in dict.fromkeys(one.yarn for one in taken.yarn):
        sizes = [one for one in taken.yarn if one.yarn == name]
        if len(taken.sizes) == 1:
            yield name or "yarn", _amount(sizes[0])
        else:
            yield name or "yarn", "; ".join(f"{one.size} {_amount(one)}" for one in sizes)


def _amount(one: YarnTaken) -> str:
    amount, unit = (one.metres, "m") if one.metres else (one.grams, "g")
    if amount is None:
        return "not known"
    least, most = amount
    told = f"{least} {unit}" if least == most else f"{least} to {most} {unit}"
    if one.balls is None:
        return told
    return f"{told} ({one.balls} {'ball' if one.balls == 1 else 'balls'})"
