"""Prose: a checked pattern in trade English, in either country's terms, for all sizes at once.

    prose(checked, "UK") -> Document

The document is plain words in blocks; ``render.sheet`` makes pages of it.
"""

from __future__ import annotations

from collections.abc import Iterator

from loopwright.ir.checked import Checked
from loopwright.ir.pattern import Note, Pattern
from loopwright.measure.dimensions import PartMeasures
from loopwright.measure.pace import Time
from loopwright.measure.yarn import YarnUse
from loopwright.render.prose import glossary, materials, needs
from loopwright.render.prose.cautions import caution
from loopwright.render.prose.document import (
    Block,
    Document,
    Entries,
    Paragraph,
    Section,
    Step,
    Steps,
    Table,
)
from loopwright.render.prose.finished import finished_blocks
from loopwright.render.prose.parts import part_section
from loopwright.render.prose.telling import Telling
from loopwright.render.prose.texts import free_text, free_texts
from loopwright.render.prose.voice import Voice, voice
from loopwright.render.prose.words import capital, spoken
from loopwright.render.prose.worked import PartWorked, part_worked

__all__ = [
    "Block",
    "Document",
    "Entries",
    "Paragraph",
    "Section",
    "Step",
    "Steps",
    "Table",
    "prose",
]

# The header's lines in the order printed; `about` stands above them without its label.
_HEADER = (
    ("designer", "designer"),
    ("skill", "skill"),
    ("licence", "licence"),
    ("version", "version"),
)


def prose(
    checked: Checked,
    terms: str,
    yarn: YarnUse | None = None,
    time: tuple[Time, ...] = (),
    measured: tuple[PartMeasures, ...] = (),
) -> Document:
    """The pattern as a document in ``UK`` or ``US`` terms, with the yarn, the time and the
    finished sizes that were measured for it."""
    pattern = checked.pattern
    speaker = voice(terms)
    names = tuple(
        {count.name: count.values[size] for count in pattern.counts}
        for size in range(len(pattern.sizes))
    )
    sizes = tuple(range(len(pattern.sizes)))
    nothing = PartWorked((), {}, {})
    plain = Telling(speaker, nothing, pattern.sizes, sizes, names)
    lead = tuple(_lead(pattern, speaker))
    finished = finished_blocks(pattern, measured, speaker)
    before = _before(pattern, speaker, finished, yarn, time)
    own = glossary.own_stitches(pattern, plain)
    told = []
    for index, part in enumerate(pattern.parts):
        worked = part_worked(checked.fabrics, index)
        tell = Telling(speaker, worked, pattern.sizes, sizes, names)
        told.append(part_section(pattern, part, tell))
    after = _finishing(pattern, speaker)
    words = " ".join(_all_words((*before, *told, *after), own))
    sections = [_terms(pattern, speaker), *before]
    sections.append(Section("Abbreviations", (glossary.abbreviations(speaker, words),)))
    if own.pairs:
        sections.append(Section("Special stitches", (own,)))
    return Document(pattern.title, speaker.lang, lead, (*sections, *told, *after))


def _lead(pattern: Pattern, speaker: Voice) -> Iterator[Block]:
    texts = {label: free_text(text, speaker) for label, text in pattern.texts}
    if texts.get("about"):
        yield Paragraph(texts["about"], "lead")
    pairs = tuple(
        (capital(speaker.ours(word)), texts[label]) for label, word in _HEADER if texts.get(label)
    )
    if pairs:
        yield Entries(pairs)


def _terms(pattern: Pattern, speaker: Voice) -> Section:
    """Which country's terms these are, and the same stitches in the other's."""
    here = speaker.terms.name
    blocks: list[Block] = [Paragraph(f"This pattern is in {here} terms.", "lead")]
    if pattern.terms != here and any(True for _ in free_texts(pattern)):
        text = (
            f"The designer wrote it in {pattern.terms} terms; notes in the designer's own words "
            "are printed as they were written."
        )
        blocks.append(Paragraph(text))
    table = glossary.both_terms(speaker)
    if table is not None:
        blocks.append(table)
    return Section("Terms", tuple(blocks))


def _before(
    pattern: Pattern,
    speaker: Voice,
    finished: tuple[Block, ...],
    yarn: YarnUse | None,
    time: tuple[Time, ...],
) -> tuple[Section, ...]:
    """What is needed before the first stitch."""
    sections = []
    warning = caution(pattern)
    if warning:
        sections.append(Section("Caution", (Paragraph(warning, "caution"),)))
    sections.append(Section("Sizes", (*materials.size_blocks(pattern, speaker), *finished)))
    takes = needs.yarn_blocks(pattern, yarn, speaker) if yarn is not None else ()
    if pattern.yarns:
        takes = (materials.yarn_entries(pattern, speaker), *takes)
    if takes:
        sections.append(Section("Yarn", takes))
    if pattern.hooks:
        word = "Hooks" if len(pattern.hooks) > 1 else "Hook"
        sections.append(Section(word, (materials.hook_entries(pattern),)))
    if pattern.gauges:
        heading = capital(speaker.terms.gauge)
        sections.append(Section(heading, (materials.gauge_entries(pattern, speaker),)))
    sections += needs.kit_section(pattern)
    sections += needs.time_section(pattern, time)
    notes = tuple(
        Paragraph(free_text(note.text, speaker)) for note in pattern.notes if not note.finish
    )
    if notes:
        sections.append(Section("Notes", notes))
    return tuple(sections)


def _finishing(pattern: Pattern, speaker: Voice) -> tuple[Section, ...]:
    """What is done at the end; each part's own is told by its name where there are several."""
    whole = [(None, note) for note in pattern.notes if note.finish]
    parts = [
        (part, line)
        for part in pattern.parts
        for line in part.lines
        if isinstance(line, Note) and line.finish
    ]
    found = [*whole, *parts]
    if not found:
        return ()
    several = len({part.name for part, _ in parts}) > 1
    blocks: list[Block] = []
    for part, note in found:
        text = free_text(note.text, speaker)
        before = f"{capital(spoken(part.name))}: " if several and part is not None else ""
        blocks.append(Paragraph(before + text))
    return (Section("Finishing", tuple(blocks)),)


def _all_words(sections: tuple[Section, ...], own: Entries) -> Iterator[str]:
    """Every word of the instructions, to see which abbreviations they use."""
    yield from (text for _, text in own.pairs)
    for section in sections:
        for block in section.blocks:
            yield from _words_in(block)


def _words_in(block: Block) -> Iterator[str]:
    if isinstance(block, Paragraph):
        yield block.text
    elif isinstance(block, Entries):
        yield from (text for _, text in block.pairs)
    elif isinstance(block, Table):
        yield from (cell for row in block.rows for cell in row)
    else:
        for step in block.steps:
            yield from (step.text, step.count, step.label, *step.details)
