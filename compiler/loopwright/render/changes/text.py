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
    lacking,
    now,
    rows_heading,
    text_name,
    unlike,
    was,
)

WIDTH = 78


def text(found: Changes, told: Told) -> str:
    """Every change, in the order of the new edition; wording by itself at the end."""
    say = told.speaker.say
    lacks = [_wrapped(one, 0) for one in (lacking(told),) if one]
    lines = [*lacks, _title(found, told), *_faults(found, told)]
    if found.none:
        return "\n".join([*lines, say("Nothing changed for a maker."), ""])
    work = [one for one in found.lines if not is_wording(one)]
    facts = [one for one in found.facts if one.what != "text"]
    wording = [one for one in found.lines if is_wording(one)]
    texts = [one for one in found.facts if one.what == "text"]
    if work:
        lines += ["", rows_heading(work, told.speaker)]
        lines += [line for one in work for line in _change(one, found, told)]
    if facts:
        lines += ["", say("Sizes and materials")]
        lines += [_pair(fact_name(one, found, told), fact_text(one, told), told) for one in facts]
    if wording or texts:
        lines += ["", say("Wording only: nothing is worked differently")]
        lines += [line for one in wording for line in _change(one, found, told)]
        lines += [_pair(text_name(one, found, told), fact_text(one, told), told) for one in texts]
    if not work and not facts:
        lines += ["", say("Nothing is worked differently.")]
    return "\n".join([*lines, ""])


def _faults(found: Changes, told: Told) -> list[str]:
    """That the old edition did not come out, where it did not."""
    if not found.faults:
        return []
    said = told.speaker.many(
        "The old edition did not come out ({n} error); its rows are told as they are written.",
        "The old edition did not come out ({n} errors); its rows are told as they are written.",
        found.faults,
        n=found.faults,
    )
    return [_wrapped(said, 0)]


def _title(found: Changes, told: Told) -> str:
    say, title = told.speaker.say, found.title
    if found.old_title != found.title:
        title = say("{now} (before: {was})", now=title, was=found.old_title)
    if found.old_version and found.version and found.old_version != found.version:
        version = say("{was} to {now}", was=found.old_version, now=found.version)
    else:
        version = found.version or found.old_version
    return f"{title}, {version}" if version else title


def _pair(name: str, said: str, told: Told) -> str:
    return _wrapped(told.speaker.say("{size}: {spacing}", size=name, spacing=said))


def _change(one: LineChange, found: Changes, told: Told) -> list[str]:
    say = told.speaker.say
    name = ", ".join(p for p in (heading(one, told), in_sizes(one.sizes, found, told)) if p)
    if one.kind in HEADINGS:
        name = say("{size}: {spacing}", size=name, spacing=say(HEADINGS[one.kind]))
    lines = [_wrapped(name)]
    before, after = was(one, told), now(one, told)
    if before:
        lines.append(_wrapped(say("before: {text}", text=before), 4))
    if after:
        lines.append(_wrapped(say("now: {text}", text=after), 4))
    numbers = unlike(one, told) if before == after else counts(one, told)
    return lines + [_wrapped(line, 4) for line in numbers]


def _wrapped(line: str, indent: int = 2) -> str:
    return textwrap.fill(
        line,
        WIDTH,
        initial_indent=" " * indent,
        subsequent_indent=" " * (indent + 4) if indent else "",
        break_long_words=False,
        break_on_hyphens=False,
    )
