"""Every line of a pattern in words, by where it stands: for a notice of what changed.

line_texts(checked, voice)[1, 5]   ("Round 6: Ch 2, [...] 6 (7, 8) times, join. 24 ... sts.",)
line_heads(pattern, voice)[1, 5]   "round 6"
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from loopwright.ir.checked import Checked
from loopwright.ir.pattern import (
    ComesOut,
    Gather,
    Note,
    Part,
    Pattern,
    RepeatRows,
    Row,
    Seam,
    Stripes,
)
from loopwright.render.prose import edges
from loopwright.render.prose.document import Paragraph, Step, Steps
from loopwright.render.prose.parts import line_blocks
from loopwright.render.prose.repeats import repeated
from loopwright.render.prose.rows import row_name
from loopwright.render.prose.telling import Telling
from loopwright.render.prose.texts import free_text
from loopwright.render.prose.voice import Voice
from loopwright.render.prose.words import sentence
from loopwright.render.prose.worked import part_worked

START = -1


def line_texts(checked: Checked, voice: Voice) -> dict[tuple[int, int], tuple[str, ...]]:
    """What the sheet says for each line, under the index of its part and its own; ``START`` is
    the line that the part starts with. Several texts where a line is told row by row."""
    pattern = checked.pattern
    sizes = tuple(range(len(pattern.sizes)))
    names = tuple({count.name: count.values[size] for count in pattern.counts} for size in sizes)
    out: dict[tuple[int, int], tuple[str, ...]] = {}
    for at, part in enumerate(pattern.parts):
        tell = Telling(voice, part_worked(checked.fabrics, at), pattern.sizes, sizes, names)
        begin = sentence(edges.start(part.start, pattern, part, tell))
        out[at, START] = (_told(Step(voice.say("Start"), begin), voice),)
        for index, line in enumerate(part.lines):
            texts: list[str] = []
            if isinstance(line, Note) and line.finish:
                texts.append(free_text(line.text, voice))
            for block in line_blocks(line, index, pattern, part, tell):
                if isinstance(block, Steps):
                    texts += [_told(step, voice) for step in block.steps]
                elif isinstance(block, Paragraph):
                    texts.append(block.text)
            out[at, index] = tuple(texts)
    return out


def _told(step: Step, voice: Voice) -> str:
    label = step.label + voice.say(":") if step.label else ""
    parts = (label, step.text, *step.details, step.count, step.remark)
    return " ".join(one for one in parts if one)


def line_heads(pattern: Pattern, voice: Voice) -> dict[tuple[int, int], str]:
    """What each line is called, under the same; the pattern need not come out."""
    out: dict[tuple[int, int], str] = {}
    for at, part in enumerate(pattern.parts):
        out[at, START] = voice.say("start")
        for index, line in enumerate(part.lines):
            out[at, index] = _HEADS[type(line)](line, index, part, voice)
    return out


_HEADS: dict[type[Any], Callable[[Any, int, Part, Voice], str]] = {
    Row: lambda line, index, part, voice: row_name(line, voice),
    RepeatRows: lambda line, index, part, voice: repeated(line, index, part, voice),
    Seam: lambda line, index, part, voice: voice.say("seam"),
    Gather: lambda line, index, part, voice: voice.say("gather"),
    Note: lambda line, index, part, voice: voice.say("note"),
    Stripes: lambda line, index, part, voice: voice.say("stripes"),
    ComesOut: lambda line, index, part, voice: voice.say("finished size"),
}
