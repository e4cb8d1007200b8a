"""What a code means, from the docstring of the rule that owns it."""

from __future__ import annotations

import inspect
import textwrap
from typing import NamedTuple

from loopwright import pipeline  # importing it signs every rule in
from loopwright.diagnostics import RULES
from loopwright.diagnostics.text import message
from loopwright.repository.files import CannotLook

__all__ = ["Explained", "every_code", "explained", "explanation"]


class Explained(NamedTuple):
    """A code's documentation in parts: the rule, why it matters, patterns that break and keep it."""

    code: str
    group: str
    severity: str
    rule: str
    why: str
    breaks: str
    keeps: str


def explained(code: str) -> Explained:
    """The documentation of a code. Raises ``CannotLook`` for one that does not exist."""
    rule = RULES.get(code)
    if rule is None:
        from difflib import get_close_matches

        near = get_close_matches(code, RULES, 1)
        more = f" Did you mean `{near[0]}`?" if near else ""
        raise CannotLook(f"there is no code `{code}`.{more} `loopwright explain` lists them all.")
    text = inspect.cleandoc(rule.function.__doc__ or "")
    head, _, rest = text.partition("Breaks:\n")
    breaks, _, keeps = rest.partition("Keeps:\n")
    first, _, why = head.strip().partition("\n\n")
    return Explained(
        code,
        rule.group,
        rule.severity,
        " ".join(first.split()),
        " ".join(why.split()),
        textwrap.dedent(breaks).strip("\n") + "\n",
        textwrap.dedent(keeps).strip("\n") + "\n",
    )


def explanation(code: str) -> str:
    """A code's documentation as text: the rule, a pattern that earns it with the message, the
    mend."""
    found = explained(code)
    result = pipeline.check_text("example.crochet", found.breaks)
    told = [message(result.source, one) for one in result.diagnostics if one.code == code]
    kind = " (advice)" if found.severity == "advice" else ""
    parts = [
        f"{code}{kind}",
        textwrap.fill(found.rule, 78),
        textwrap.fill(found.why, 78),
        "For example:\n\n" + textwrap.indent(found.breaks, "    "),
        "\n".join(told),
        "Put right:\n\n" + textwrap.indent(found.keeps, "    "),
    ]
    return "\n\n".join(part.rstrip() for part in parts) + "\n"


def every_code() -> str:
    """Every code with its rule in a line, by group."""
    groups: dict[str, list[str]] = {}
    for code in RULES:
        found = explained(code)
        kind = " (advice)" if found.severity == "advice" else ""
        groups.setdefault(found.group, []).append(f"  {code}{kind}\n      {found.rule}")
    return "\n\n".join(f"{group}\n" + "\n".join(lines) for group, lines in groups.items()) + "\n"
