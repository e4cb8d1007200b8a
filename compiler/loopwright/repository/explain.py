"""What a code means, from the docstring of the rule that owns it."""

from __future__ import annotations

import inspect
import textwrap
from typing import NamedTuple

from loopwright import pipeline  # importing it signs every rule in
from loopwright.diagnostics import RULES
from loopwright.diagnostics.text import message
from loopwright.repository.files import CannotLook

__all__ = ["Explained", "codes_page", "every_code", "explained", "explanation"]


class Explained(NamedTuple):
    """A code's documentation: the rule, why it matters, patterns that break and keep it."""

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


_PAGE = """\
# What the checker says

Every message has a code. This page lists them all, with a pattern that earns each and the same
pattern put right. `loopwright explain CODE` prints the same. An error means that the pattern does
not come out, or cannot be checked; advice means that it does, and that something is worth a look.

A line may carry `# allow CODE: reason` where the designer means what it says.

This page is made from the rules themselves (`python tests/docs_blocks.py`).
"""


def codes_page() -> str:
    """Every code's documentation as one Markdown page, by group."""
    groups: dict[str, list[str]] = {}
    for code in RULES:
        found = explained(code)
        groups.setdefault(found.group, []).append(_section(found))
    parts = [_PAGE]
    for group, sections in groups.items():
        parts += [f"## {group.capitalize()}\n", *sections]
    return "\n".join(parts)


def _section(found: Explained) -> str:
    result = pipeline.check_text("example.crochet", found.breaks)
    told = "\n\n".join(message(result.source, one) for one in result.diagnostics)
    kind = "*Advice.* " if found.severity == "advice" else ""
    return (
        f"### {found.code}\n\n{kind}{_filled(found.rule)}\n\n{_filled(found.why)}\n\n"
        f"```pattern {found.severity} {found.code}\n{found.breaks}```\n\n"
        f"```message example.crochet\n{told}\n```\n\n"
        f"Put right:\n\n```pattern\n{found.keeps}```\n"
    )


def _filled(text: str) -> str:
    return textwrap.fill(text, 98, break_long_words=False, break_on_hyphens=False)
