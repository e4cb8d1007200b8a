"""What changed, as plain text for the designer."""

from __future__ import annotations

import textwrap

from loopwright.changes.values import Changes, LineChange
from loopwright.render.changes.told import (
    HEADINGS,
    Told,
    counts,
    fact_name,
    fact_text,
    heading,
    in_sizes,
    is_wording,
    now,
    was,
)

WIDTH = 78


def text(found: Changes, told: Told) -> str:
    """Every change, in the order of the new edition; wording by itself at the end."""
    lines = [_title(found)]
    if found.faults:
        lines.append(
            f"The old edition did not come out ({found.faults} "
            f"error{'' if found.faults == 1 else 's'}); its rows are told as they are written."
        )
    if found.none:
        return "\n".join([*lines, "Nothing changed for a maker.", ""])
    work = [one for one in found.lines if not is_wording(one)]
    facts = [one for one in found.facts if one.what != "text"]
    wording = [one for one in found.lines if is_wording(one)]
    texts = [one for one in found.facts if one.what == "text"]
    if work:
        lines += ["", "Rows", *(line for one in work for line in _change(one, found, told))]
    if facts:
        lines += ["", "Sizes and materials"]
        lines += [_wrapped(f"{fact_name(one, found)}: {fact_text(one)}") for one in facts]
    if wording or texts:
        lines += ["", "Wording only: nothing is worked differently"]
        lines += [line for one in wording for line in _change(one, found, told)]
        lines += [_wrapped(f"{one.name}: {fact_text(one)}") for one in texts]
    if not work and not facts:
        lines += ["", "Nothing is worked differently."]
    return "\n".join([*lines, ""])


def _title(found: Changes) -> str:
    version = " to ".join(one for one in (found.old_version, found.version) if one)
    renamed = f" (before: {found.old_title})" if found.old_title != found.title else ""
    return f"{found.title}{renamed}{f', {version}' if version else ''}"


def _change(one: LineChange, found: Changes, told: Told) -> list[str]:
    kind = HEADINGS.get(one.kind, "").lower()
    parts = [heading(one), in_sizes(one, found)]
    lines = [_wrapped(f"{', '.join(part for part in parts if part)}{f': {kind}' if kind else ''}")]
    before, after = was(one, told), now(one, told)
    if before and before != after:
        lines.append(_wrapped(f"before: {before}", 4))
    if after:
        lines.append(_wrapped(f"now: {after}", 4))
    return lines + [_wrapped(line, 4) for line in counts(one)]


def _wrapped(line: str, indent: int = 2) -> str:
    return textwrap.fill(
        line,
        WIDTH,
        initial_indent=" " * indent,
        subsequent_indent=" " * (indent + 4),
        break_long_words=False,
        break_on_hyphens=False,
    )
