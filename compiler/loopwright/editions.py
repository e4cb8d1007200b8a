"""Two editions of a pattern held against each other: found, put into words, and told in a form."""

from __future__ import annotations

from functools import partial

from loopwright.changes import compare as find
from loopwright.changes.values import START
from loopwright.diagnostics import ERROR
from loopwright.ir.checked import Checked
from loopwright.ir.pattern import Pattern
from loopwright.pipeline import Result
from loopwright.render.changes import Told, changes
from loopwright.render.prose.line_texts import line_heads, line_texts
from loopwright.render.prose.texts import free_text
from loopwright.render.prose.voice import voice


def compared(
    old: Result, new: Checked, words: tuple[str, str], form: str, missing: tuple[str, ...]
) -> str:
    """What changed, as ``rendering.compare`` has it; ``words`` are the terms and the language."""
    assert old.pattern is not None
    faults = sum(one.severity == ERROR for one in old.diagnostics)
    found = find((old.pattern, old.fabrics), new, old.checked, faults)
    speaker = voice(*words)
    before = line_texts(old.checked, speaker) if old.checked else _as_written(old, old.pattern)
    heads = line_heads(old.pattern, speaker), line_heads(new.pattern, speaker)
    free = partial(free_text, voice=speaker)
    after = line_texts(new, speaker)
    told = Told(before, after, heads, speaker, free, not old.checked, missing)
    return changes(found, told, form)


def _as_written(old: Result, pattern: Pattern) -> dict[tuple[int, int], tuple[str, ...]]:
    """The lines of what did not come out, and so has no sheet."""
    told: dict[tuple[int, int], tuple[str, ...]] = {}
    for at, part in enumerate(pattern.parts):
        spans = [(START, part.start.span), *enumerate(line.span for line in part.lines)]
        for index, span in spans:
            source, start = old.source.at(span.start)
            written = source.text[start : start + span.end - span.start]
            told[at, index] = (" ".join(written.split()),)
    return told
