"""The catalogue of codes: every rule signs itself in here, with its own words.

A rule is a function that makes the diagnostics of one code. Its docstring is its documentation:
a first line that says the rule, a paragraph on why it matters at the hook, then a pattern that
``Breaks:`` it and one that ``Keeps:`` it. ``explain`` and the pages in docs/ are made from that.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, TypeVar

from loopwright.diagnostics.model import ERROR
from loopwright.frozen import Frozen, NamedTuple

F = TypeVar("F", bound=Callable[..., Any])


class Rule(Frozen):
    """A code, how much it weighs, the group it belongs to and the function that words it."""

    code: str
    group: str
    severity: str
    function: Callable[..., Any]


RULES: dict[str, Rule] = {}

GROUPS = ("counting", "placing", "fabric", "materials", "writing", "text", "house")
"""The groups of codes, in the order in which they are listed."""


def rule(code: str, group: str, severity: str = ERROR) -> Callable[[F], F]:
    """Sign a rule in under its code. A code can be signed in once only."""

    def sign(function: F) -> F:
        if code in RULES:
            raise ValueError(f"the code {code} is taken")
        RULES[code] = Rule(code, group, severity, function)
        return function

    return sign


def by_group() -> dict[str, list[str]]:
    """The codes of each group by name, whichever module was imported first."""
    return {group: sorted(c for c in RULES if RULES[c].group == group) for group in GROUPS}


class Described(NamedTuple):
    """A code's documentation: the rule, why it matters, patterns that break and keep it."""

    code: str
    group: str
    severity: str
    rule: str
    why: str
    breaks: str
    keeps: str


def described(code: str) -> Described:
    """The documentation of a code, from the docstring of its rule. Raises ``KeyError``."""
    import inspect
    import textwrap

    rule = RULES[code]
    text = inspect.cleandoc(rule.function.__doc__ or "")
    head, _, rest = text.partition("Breaks:\n")
    breaks, _, keeps = rest.partition("Keeps:\n")
    first, _, why = head.strip().partition("\n\n")
    return Described(
        code,
        rule.group,
        rule.severity,
        " ".join(first.split()),
        " ".join(why.split()),
        textwrap.dedent(breaks).strip("\n") + "\n",
        textwrap.dedent(keeps).strip("\n") + "\n",
    )
