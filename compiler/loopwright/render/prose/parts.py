"""A part in words: how it is worked, how it starts, every line of it in order."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

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
from loopwright.render.prose.document import Block, Paragraph, Section, Step, Steps
from loopwright.render.prose.items import yarns
from loopwright.render.prose.lengths import both
from loopwright.render.prose.materials import hook_size
from loopwright.render.prose.repeats import repeat_step
from loopwright.render.prose.rows import steps
from loopwright.render.prose.telling import Telling
from loopwright.render.prose.texts import free_text
from loopwright.render.prose.words import across, capital, sentence, spoken

_MANNERS = {
    "flat": "Worked flat in rows",
    "rounds": "Worked in joined rounds, without turning",
    "spiral": "Worked in a spiral, without joining; keep a marker in the first st of each round",
    "turned": "Worked in joined rounds, turned at the end of each round",
}


@dataclass(slots=True)
class _Blocks:
    """The blocks of a part while its lines are told; steps that follow one another go together."""

    pattern: Pattern
    part: Part
    tell: Telling
    blocks: list[Block] = field(default_factory=list)
    steps: list[Step] = field(default_factory=list)

    def put(self, block: Block) -> None:
        self.close()
        self.blocks.append(block)

    def close(self) -> None:
        if self.steps:
            self.blocks.append(Steps(tuple(self.steps)))
            self.steps = []


def part_section(pattern: Pattern, part: Part, tell: Telling) -> Section:
    """A part's section of the sheet."""
    out = _Blocks(pattern, part, tell)
    out.put(Paragraph(_intro(pattern, part, tell)))
    begin = edges.start(part.start, pattern, part, tell)
    out.steps.append(Step("Start", sentence(begin)))
    for index, line in enumerate(part.lines):
        _LINES[type(line)](line, index, out)
    out.close()
    return Section(capital(spoken(part.name)), tuple(out.blocks))


def _intro(pattern: Pattern, part: Part, tell: Telling) -> str:
    sentences = [_make(part), _manner(part), _use(pattern, part, tell), _turning(part, tell)]
    if part.shaped:
        sentences.append("It is meant to take a shape and not to lie flat.")
    if part.frilled:
        sentences.append("It is meant to frill.")
    return " ".join(text for text in sentences if text)


def _make(part: Part) -> str:
    """How many of it are made, where more or fewer than one are in some size."""
    if all(n == 1 for n in part.make):
        return ""
    return f"Make {across([str(n) for n in part.make])}."


def _manner(part: Part) -> str:
    text = _MANNERS[part.manner]
    in_rows = any(isinstance(line, Row) and not line.is_round for line in part.lines)
    if in_rows:
        text += "; turn at the end of each row"
    return f"{text}."


def _use(pattern: Pattern, part: Part, tell: Telling) -> str:
    tools = []
    if part.yarns:
        tools.append(f"Yarn: {yarns(part.yarns)}.")
    if part.hook:
        tools.append(f"Hook: {hook_size(part.hook, pattern)}.")
    if part.gauge and len(pattern.gauges) > 1:
        tools.append(f"{capital(tell.voice.terms.gauge)}: {spoken(part.gauge)}.")
    return " ".join(tools)


def _turning(part: Part, tell: Telling) -> str:
    """Said once a part: the chain that begins a row and does not count."""
    if not tell.worked.has_turning:
        return ""
    kinds = {line.is_round for line in part.lines if isinstance(line, Row)}
    if kinds == {True}:
        name = "The chain at the start of a round"
    elif kinds == {False}:
        name = "The turning chain"
    else:
        name = "The chain at the start of a row or round"
    unless = " unless the instructions say that it does" if tell.worked.has_counted else ""
    return f"{name} does not count as a stitch{unless}."


def _row(row: Row, index: int, out: _Blocks) -> None:
    out.steps.extend(steps(row, index, out.tell))


def _repeat(line: RepeatRows, index: int, out: _Blocks) -> None:
    out.steps.append(repeat_step(line, index, out.part, out.tell))


def _seam(line: Seam, index: int, out: _Blocks) -> None:
    text = sentence(edges.seam(line, out.pattern, out.part, out.tell))
    out.steps.append(Step("Seam", text))


def _gather(line: Gather, index: int, out: _Blocks) -> None:
    word = edges.last_word(out.part)
    text = (
        f"Break the yarn with a long end, thread it through the sts of the last {word} and draw "
        "it up tight."
    )
    out.steps.append(Step("Gather", text))


def _note(line: Note, index: int, out: _Blocks) -> None:
    if not line.finish:
        out.put(Paragraph(free_text(line.text, out.tell.voice), "note"))


def _stripes(line: Stripes, index: int, out: _Blocks) -> None:
    bands = []
    for n, names in line.bands:
        amount = out.tell.amount(n)
        word = "round" if edges.last_word(out.part) == "round" else "row"
        bands.append(f"{amount.text} {word}{'' if amount.one else 's'} {yarns(names)}")
    text = f"Stripes: {', '.join(bands)}. Repeat these stripes throughout."
    out.put(Paragraph(text))


def _comes_out(line: ComesOut, index: int, out: _Blocks) -> None:
    sizes = [f"{both(lengths, unit)} {name}" for name, lengths, unit in line.dimensions]
    out.put(Paragraph(f"The {spoken(out.part.name)} comes out at {', '.join(sizes)}."))


_LINES: dict[type[Any], Callable[[Any, int, _Blocks], None]] = {
    Row: _row,
    RepeatRows: _repeat,
    Seam: _seam,
    Gather: _gather,
    Note: _note,
    Stripes: _stripes,
    ComesOut: _comes_out,
}
