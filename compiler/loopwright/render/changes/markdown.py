"""What changed, as a notice in Markdown that a designer can post as it stands."""

from __future__ import annotations

import re
from collections.abc import Iterator

from loopwright.changes.values import ADDED, REMOVED, RENUMBERED, Changes, FactChange, LineChange
from loopwright.ir.pattern import ONE_SIZE
from loopwright.render.changes.told import (
    Told,
    capital,
    counts,
    fact_name,
    fact_text,
    heading,
    in_sizes,
    is_wording,
    lacking,
    now,
    text_name,
    unlike,
    was,
)

_MARKS = re.compile(r"([\\`*_<>|~\[\]#&])")


def plain(text: str) -> str:
    """Words that print as they are."""
    return _MARKS.sub(r"\\\1", text)


def markdown(found: Changes, told: Told) -> str:
    """The notice: corrections first, then sizes and materials, and wording by itself."""
    say = told.speaker.say
    blocks = [*(f"**{plain(one)}**" for one in (lacking(told),) if one), *_head(found, told)]
    work = [one for one in found.lines if not is_wording(one)]
    facts = [one for one in found.facts if one.what != "text"]
    wording = [one for one in found.lines if is_wording(one)]
    texts = [one for one in found.facts if one.what == "text"]
    if work:
        blocks.append("## " + say("Corrections"))
        blocks += [block for one in work for block in _correction(one, found, told)]
    if facts:
        blocks.append("## " + say("Sizes and materials"))
        blocks.append("\n".join(_fact(fact_name(one, found, told), one, told) for one in facts))
    if wording or texts:
        blocks += ["## " + say("Wording"), say("Nothing is worked differently for these.")]
        lines = [_reworded(one, found, told) for one in wording]
        lines += [_fact(text_name(one, found, told), one, told) for one in texts]
        blocks.append("\n".join(lines))
    if not work and not facts:
        blocks.append(say("Nothing is worked differently."))
    return "\n\n".join(blocks) + "\n"


def _fact(name: str, one: FactChange, told: Told) -> str:
    bold, said = f"**{plain(name)}**", plain(fact_text(one, told))
    return "- " + told.speaker.say("{size}: {spacing}", size=bold, spacing=said)


def _head(found: Changes, told: Told) -> Iterator[str]:
    say = told.speaker.say
    yield "# " + say("Erratum: {title}", title=plain(found.title))
    in_terms = say("In {name} terms.", name=told.speaker.terms.name)
    if found.version and found.version != found.old_version:
        version = plain(found.version)
        if found.old_version:
            was_version = plain(found.old_version)
            version = say("{now} (before: {was})", now=version, was=was_version)
        yield say("Version {name}.", name=version) + " " + in_terms
    else:
        yield in_terms
    sizes = [one for one in found.every if one != ONE_SIZE]
    if len(sizes) > 1:
        names = f"{plain(sizes[0])} ({plain(', '.join(sizes[1:]))})"
        yield say("Numbers are given for the sizes {names}.", names=names)


def _name(one: LineChange, found: Changes, told: Told) -> str:
    """The line in bold, with the sizes in which it changed."""
    sizes = in_sizes(one.sizes, found, told)
    return f"**{plain(heading(one, told))}{f' ({plain(sizes)})' if sizes else ''}**"


def _correction(one: LineChange, found: Changes, told: Told) -> Iterator[str]:
    say, name = told.speaker.say, _name(one, found, told)
    before, after = plain(was(one, told)), plain(now(one, told))
    if one.kind == ADDED:
        yield say("{name} is new:", name=name)
        yield f"> {after}"
        return
    if one.kind == REMOVED:
        yield say("{name} is taken out. It read:", name=name)
        yield f"> {before}"
        return
    if one.kind == RENUMBERED:
        yield say("{name} is the same under another number. It was: {was}", name=name, was=before)
    else:
        yield say("{name} now reads:", name=name)
        yield f"> {after}"
        if before:
            yield capital(say("before: {text}", text=before))
    numbers = unlike(one, told) if before == after else counts(one, told) if found.faults else []
    if numbers:
        yield "\n".join(f"- {plain(line)}" for line in numbers)


def _reworded(one: LineChange, found: Changes, told: Told) -> str:
    say, name = told.speaker.say, _name(one, found, told)
    before, after = plain(was(one, told)), plain(now(one, told))
    if not after:
        said = say("taken out: {was}", was=before)
    elif before:
        said = say("{now} (before: {was})", now=after, was=before)
    else:
        said = say("new: {now}", now=after)
    return "- " + say("{size}: {spacing}", size=name, spacing=said)
