"""What a code means, from the docstring of the rule that owns it."""

from __future__ import annotations

import textwrap

from loopwright.asked import CannotAnswer
from loopwright.checks.house import EVERY_RULE, HOUSE
from loopwright.diagnostics import RULES
from loopwright.diagnostics.catalogue import Described, by_group, described
from loopwright.diagnostics.text import message
from loopwright.pipeline import ALONE, Around, check_text  # importing it signs every rule in


def explained(code: str) -> Described:
    """The documentation of a code. Raises ``CannotAnswer`` for one that does not exist."""
    if code not in RULES:
        from difflib import get_close_matches

        near = get_close_matches(code, RULES, 1)
        more = f" Did you mean `{near[0]}`?" if near else ""
        raise CannotAnswer(f"there is no code `{code}`.{more} `loopwright explain` lists them all.")
    return described(code)


def around(found: Described) -> Around:
    """What the examples of a code are checked with: a rule of the house holds where it is asked."""
    return Around(house=EVERY_RULE) if found.group == HOUSE else ALONE


def explanation(code: str) -> str:
    """A code's documentation as text: the rule, a pattern that earns it with the message, the
    mend."""
    found = explained(code)
    result = check_text("example.crochet", found.breaks, around(found))
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
    groups = []
    for group, codes in by_group().items():
        lines = [group]
        for code in codes:
            found = explained(code)
            kind = " (advice)" if found.severity == "advice" else ""
            lines.append(f"  {code}{kind}\n      {found.rule}")
        groups.append("\n".join(lines))
    return "\n\n".join(groups) + "\n"


_PAGE = """\
# What the checker says

Every message has a code. This page lists them all, with a pattern that earns each and the same
pattern put right. `loopwright explain CODE` prints the same. An error means that the pattern does
not come out, or cannot be checked; advice means that it does, and that something is worth a look.

A line may carry `# allow CODE: reason` where the designer means what it says. The rules of a house
hold only where the settings of a repository ask for them.

This page is made from the rules themselves (`python tests/docs_blocks.py`).
"""


def codes_page() -> str:
    """Every code's documentation as one Markdown page, by group."""
    parts = [_PAGE]
    for group, codes in by_group().items():
        parts += [f"## {group.capitalize()}\n", *(_section(explained(code)) for code in codes)]
    return "\n".join(parts)


def _section(found: Described) -> str:
    result = check_text("example.crochet", found.breaks, around(found))
    told = "\n\n".join(message(result.source, one) for one in result.diagnostics)
    kind = "*Advice.* " if found.severity == "advice" else ""
    asked = "pattern house" if found.group == HOUSE else "pattern"
    return (
        f"### {found.code}\n\n{kind}{_filled(found.rule)}\n\n{_filled(found.why)}\n\n"
        f"```{asked} {found.severity} {found.code}\n{found.breaks}```\n\n"
        f"```message example.crochet\n{told}\n```\n\n"
        f"Put right:\n\n```{asked}\n{found.keeps}```\n"
    )


def _filled(text: str) -> str:
    return textwrap.fill(text, 98, break_long_words=False, break_on_hyphens=False)
