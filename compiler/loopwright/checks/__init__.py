"""Checks: one rule, one function, its own words. Facts of the work in, diagnostics out.

A rule takes the facts of its kind that happened at one place of the text, in one or more sizes,
and words one diagnostic for all of them.
"""

from __future__ import annotations

from loopwright.checks import counting, placing
from loopwright.checks.others import WORDS
from loopwright.checks.told import Told, gather
from loopwright.diagnostics import RULES, Diagnostic
from loopwright.ir.fabric import Fabric
from loopwright.ir.pattern import Pattern

__all__ = ["counting", "diagnose", "placing"]


def diagnose(pattern: Pattern, fabrics: tuple[Fabric, ...]) -> tuple[Diagnostic, ...]:
    """Every diagnostic that the facts of the fabrics earn."""
    if not any(fabric.facts for fabric in fabrics):
        return ()
    return tuple(_word(told) for told in gather(pattern, fabrics))


def _word(told: Told) -> Diagnostic:
    words = WORDS.get(told.kind) or RULES[told.kind].function
    found: Diagnostic = words(told)
    return found
