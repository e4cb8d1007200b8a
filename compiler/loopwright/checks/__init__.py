"""Checks: one rule, one function, its own words. Facts of the work in, diagnostics out.

A rule takes the facts of its kind that happened at one place of the text, in one or more sizes,
and words one diagnostic for all of them.
"""

from __future__ import annotations

from loopwright.checks import counting, fabric, fitting, materials, placing, ran_out, seams, spaces
from loopwright.checks.again import worked_again
from loopwright.checks.facing import facing
from loopwright.checks.others import WORDS
from loopwright.checks.sizes import one_a_line
from loopwright.checks.starts import starts
from loopwright.checks.told import Told, gather
from loopwright.checks.unsaid import unsaid
from loopwright.diagnostics import RULES, Diagnostic
from loopwright.ir.fabric import Fabric, Fact
from loopwright.ir.pattern import Pattern

__all__ = [
    "counting",
    "diagnose",
    "fabric",
    "fitting",
    "materials",
    "placing",
    "ran_out",
    "seams",
    "spaces",
    "word",
]


def diagnose(pattern: Pattern, fabrics: tuple[Fabric, ...]) -> tuple[Diagnostic, ...]:
    """Every diagnostic that the facts of the fabrics earn."""
    facts = tuple((one.size, fact) for one in fabrics for fact in one.facts)
    looked_for = (unsaid, worked_again, starts, facing)
    return word(pattern, facts + sum((look(pattern, fabrics) for look in looked_for), ()))


def word(pattern: Pattern, facts: tuple[tuple[int, Fact], ...]) -> tuple[Diagnostic, ...]:
    """Every diagnostic that facts earn, each given with the size it happened in."""
    return one_a_line(pattern, tuple(_word(told) for told in _once(gather(pattern, facts))))


def _once(found: list[Told]) -> list[Told]:
    """What is to be worded: of the rounds of a part that closes none of them, only the first."""
    parts: set[str] = set()
    kept = []
    for told in found:
        if told.kind == "not-closed" and placing.never_joined(told):
            if told.fact.part in parts:
                continue
            parts.add(told.fact.part)
        kept.append(told)
    return kept


def _word(told: Told) -> Diagnostic:
    words = WORDS.get(told.kind) or RULES[told.kind].function
    found: Diagnostic = words(told)
    return found
