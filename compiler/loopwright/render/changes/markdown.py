"""What changed, as a notice in Markdown that a designer can post as it stands."""

from __future__ import annotations

import re
from collections.abc import Iterator

from loopwright.changes.values import ADDED, REMOVED, RENUMBERED, Changes, LineChange
from loopwright.render.changes.told import (
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

_MARKS = re.compile(r"([\\`*_<>|~\[\]#&])")


def plain(text: str) -> str:
    """Words that print as they are."""
    return _MARKS.sub(r"\\\1", text)


def markdown(found: Changes, told: Told) -> str:
    """The notice: corrections first, then sizes and materials, and wording by itself."""
    blocks = [*_head(found, told)]
    work = [one for one in found.lines if not is_wording(one)]
    facts = [one for one in found.facts if one.what != "text"]
    wording = [one for one in found.lines if is_wording(one)]
    texts = [one for one in found.facts if one.what == "text"]
    if work:
        blocks.append("## Corrections")
        blocks += [block for one in work for block in _correction(one, found, told)]
    if facts:
        blocks.append("## Sizes and materials")
        said = (f"- **{plain(fact_name(one, found))}**: {plain(fact_text(one))}" for one in facts)
        blocks.append("\n".join(said))
    if wording or texts:
        blocks += ["## Wording", "Nothing is worked differently for these."]
        lines = [_reworded(one, found, told) for one in wording]
        lines += [f"- **{plain(one.name.capitalize())}**: {plain(fact_text(one))}" for one in texts]
        blocks.append("\n".join(lines))
    if not work and not facts:
        blocks.append("Nothing is worked differently.")
    return "\n\n".join(blocks) + "\n"


def _head(found: Changes, told: Told) -> Iterator[str]:
    yield f"# Erratum: {plain(found.title)}"
    if found.version and found.version != found.old_version:
        before = f" (before: {plain(found.old_version)})" if found.old_version else ""
        yield f"Version {plain(found.version)}{before}. In {told.terms} terms."
    else:
        yield f"In {told.terms} terms."
    sizes = [one for one in found.every if one != "one size"]
    if len(sizes) > 1:
        first, rest = plain(sizes[0]), plain(", ".join(sizes[1:]))
        yield f"Numbers are given for the sizes {first} ({rest})."


def _correction(one: LineChange, found: Changes, told: Told) -> Iterator[str]:
    sizes = in_sizes(one, found)
    name = plain(heading(one)) + (f" ({plain(sizes)})" if sizes else "")
    before, after = plain(was(one, told)), plain(now(one, told))
    if one.kind == ADDED:
        yield f"**{name}** is new:"
        yield f"> {after}"
    elif one.kind == REMOVED:
        yield f"**{name}** is taken out. It read:"
        yield f"> {before}"
    elif one.kind == RENUMBERED:
        yield f"**{name}** is the same under another number. It was: {before}"
    else:
        yield f"**{name}** now reads:"
        yield f"> {after}"
        if before != after:
            yield f"Before: {before}"
    numbers = counts(one)
    if numbers and (before == after or found.faults) and one.kind not in (ADDED, REMOVED):
        yield "\n".join(f"- {plain(line)}" for line in numbers)


def _reworded(one: LineChange, found: Changes, told: Told) -> str:
    sizes = in_sizes(one, found)
    before, after = was(one, told), now(one, told)
    name = plain(heading(one)) + (f" ({plain(sizes)})" if sizes else "")
    if not after:
        return f"- **{name}**: taken out: {plain(before)}"
    return f"- **{name}**: {plain(after)}" + (f" (before: {plain(before)})" if before else "")
