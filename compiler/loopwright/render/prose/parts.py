"""A part in words: how it is worked, how it starts, every line of it in order."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

from loopwright.frozen import Slotted, field
from loopwright.ir.pattern import (
    ComesOut,
    Gather,
    Line,
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
from loopwright.render.prose.finished import STATED
from loopwright.render.prose.items import held, yarn_name, yarns
from loopwright.render.prose.lengths import both
from loopwright.render.prose.materials import hook_size
from loopwright.render.prose.reminders import reminders, yarns_of
from loopwright.render.prose.repeats import repeat_step
from loopwright.render.prose.rows import steps
from loopwright.render.prose.telling import Telling
from loopwright.render.prose.texts import free_text
from loopwright.render.prose.tongue import phrase
from loopwright.render.prose.voice import Voice
from loopwright.render.prose.words import across, capital, sentence, spoken

# How a part is worked; the second where it has rows among its rounds.
_MANNERS = {
    "flat": (phrase("Worked flat in rows; turn at the end of each row."),) * 2,
    "rounds": (
        phrase("Worked in joined rounds, without turning."),
        phrase("Worked in joined rounds, without turning; turn at the end of each row."),
    ),
    "spiral": (
        phrase("Worked in a spiral, without joining; keep a marker in the first st of each round."),
        phrase(
            "Worked in a spiral, without joining; keep a marker in the first st of each round; "
            "turn at the end of each row."
        ),
    ),
    "turned": (
        phrase("Worked in joined rounds, turned at the end of each round."),
        phrase("Worked in joined rounds and in rows, turned at the end of each."),
    ),
}


class _Blocks(Slotted):
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


def part_section(pattern: Pattern, part: Part, tell: Telling, end: int) -> Section:
    """A part's section of the sheet, up to its line number ``end``."""
    out = _Blocks(pattern, part, tell)
    out.put(Paragraph(" ".join(intro(pattern, part, tell))))
    # What is true of the whole part is read before it is begun; what it comes out at, under sizes.
    lines = [one for one in enumerate(part.lines[:end]) if not isinstance(one[1], ComesOut)]
    first = next(
        (at for at, (_, line) in enumerate(lines) if isinstance(line, Row | RepeatRows)), 0
    )
    ahead = [one for one in lines[:first] if isinstance(one[1], Stripes)]
    for index, line in ahead:
        _LINES[type(line)](line, index, out)
    begin = edges.start(part.start, pattern, part, tell)
    out.steps.append(Step(tell.voice.say("Start"), sentence(begin)))
    for index, line in lines:
        if (index, line) not in ahead:
            _LINES[type(line)](line, index, out)
    out.close()
    return Section(capital(spoken(part.name)), tuple(out.blocks), "part")


def line_blocks(
    line: Line, index: int, pattern: Pattern, part: Part, tell: Telling
) -> tuple[Block, ...]:
    """What one line of a part becomes, by itself."""
    out = _Blocks(pattern, part, tell)
    _LINES[type(line)](line, index, out)
    out.close()
    return tuple(out.blocks)


def intro(pattern: Pattern, part: Part, tell: Telling) -> Iterator[str]:
    """How a part is worked, before its first line: sentences."""
    say = tell.voice.say
    if any(n != 1 for n in part.make):
        if any(part.make):
            yield say("Make {n}.", n=across([str(n) for n in part.make]))
        else:
            yield say("It is not made in this size.")
    in_rows = any(isinstance(line, Row) and not line.is_round for line in part.lines)
    yield say(_MANNERS[part.manner][in_rows])
    if part.yarns:
        yield _yarns(part, tell.voice)
    if part.hook:
        yield say("Hook: {hook}.", hook=hook_size(part.hook, pattern, tell.voice))
    if part.gauge and len(pattern.gauges) > 1:
        yield say("Tension: {name}.", name=spoken(part.gauge))
    yield from reminders(part, tell)
    if part.shaped:
        yield say("It is meant to take a shape and not to lie flat.")
    if part.frilled:
        yield say("It is meant to frill.")


def _yarns(part: Part, voice: Voice) -> str:
    """Every yarn of a part, those first that it begins with."""
    used = set[str]()
    told = []
    for names in yarns_of(part):
        if not used >= set(names):
            told.append(yarns(names, voice))
            used |= set(names)
    listed = voice.listing(told)
    if any(yarn_name(name, voice) != spoken(name) for name in used):
        return voice.say("Use {yarn}.", yarn=listed)
    return voice.say("Yarn: {yarn}.", yarn=listed)


def _row(row: Row, index: int, out: _Blocks) -> None:
    out.steps.extend(steps(row, index, out.tell))


def _repeat(line: RepeatRows, index: int, out: _Blocks) -> None:
    out.steps.append(repeat_step(line, index, out.part, out.tell))


def _seam(line: Seam, index: int, out: _Blocks) -> None:
    out.steps.append(seam_step(line, out.pattern, out.part, out.tell))


def seam_step(line: Seam, pattern: Pattern, part: Part, tell: Telling) -> Step:
    """A seam as a step of its own."""
    return Step(tell.voice.say("Seam"), sentence(edges.seam(line, pattern, part, tell)))


def _gather(line: Gather, index: int, out: _Blocks) -> None:
    voice = out.tell.voice
    text = voice.say(
        "Break the yarn with a long end, thread it through the sts of the last {row} and draw it "
        "up tight.",
        row=voice.row_word(edges.ends_in_round(out.part)),
    )
    out.steps.append(Step(voice.say("Gather"), text))


def _note(line: Note, index: int, out: _Blocks) -> None:
    if not line.finish:
        out.put(Paragraph(free_text(line.text, out.tell.voice), "note"))


def _stripes(line: Stripes, index: int, out: _Blocks) -> None:
    voice, in_rounds = out.tell.voice, edges.ends_in_round(out.part)
    bands = []
    for n, names in line.bands:
        amount = out.tell.amount(n)
        rows = voice.row_word(in_rounds, 1 if amount.one else 2)
        yarn = held([spoken(name) for name in names], voice)
        bands.append(voice.say("{n} {rows} {yarn}", n=amount.text, rows=rows, yarn=yarn))
    told = voice.say(
        "Stripes: {stripes}. Repeat these stripes throughout.", stripes=", ".join(bands)
    )
    out.put(Paragraph(told))


def _comes_out(line: ComesOut, index: int, out: _Blocks) -> None:
    voice = out.tell.voice
    sizes = ", ".join(
        voice.say(
            "{size} {way}", size=voice.figures(both(lengths, unit)), way=voice.say(STATED[name][0])
        )
        for name, lengths, unit in line.dimensions
    )
    name = spoken(out.part.name)
    out.put(Paragraph(voice.say("The {part} comes out at {sizes}.", part=name, sizes=sizes)))


_LINES: dict[type[Any], Callable[[Any, int, _Blocks], None]] = {
    Row: _row,
    RepeatRows: _repeat,
    Seam: _seam,
    Gather: _gather,
    Note: _note,
    Stripes: _stripes,
    ComesOut: _comes_out,
}
