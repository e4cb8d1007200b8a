"""The sections of a sheet in the order in which the trade expects them."""

from __future__ import annotations

from collections.abc import Iterator

from loopwright.ir.checked import Checked
from loopwright.ir.pattern import Note, Part, Pattern, Seam
from loopwright.ir.texts import free_texts
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
    Steps,
    Table,
    Words,
)
from loopwright.render.prose.finished import finished_blocks
from loopwright.render.prose.parts import part_section, seam_step
from loopwright.render.prose.spelling import spelled_out
from loopwright.render.prose.telling import Telling
from loopwright.render.prose.texts import free_text
from loopwright.render.prose.tongue import phrase
from loopwright.render.prose.voice import Voice
from loopwright.render.prose.words import capital, spoken
from loopwright.render.prose.worked import PartWorked, part_worked

_SKILLS = {
    "basic": phrase("basic"),
    "easy": phrase("easy"),
    "intermediate": phrase("intermediate"),
    "complex": phrase("complex"),
}


def whole(
    checked: Checked,
    speaker: Voice,
    yarn: YarnUse | None,
    time: tuple[Time, ...],
    measured: tuple[PartMeasures, ...],
) -> Document:
    """The document in the voice of ``speaker``."""
    pattern = checked.pattern
    before = tuple(_before(pattern, speaker, yarn, time, measured))
    own = glossary.own_stitches(pattern, _telling(checked, speaker, PartWorked((), {}, {})))
    told, assembly = _instructions(checked, speaker)
    after = (*_assembly(assembly, speaker), *_finishing(pattern, speaker))
    words = " ".join(_all_words((*before, *told, *after), own))
    short = glossary.abbreviations(speaker, words)
    stitches = [Section(speaker.say("Abbreviations"), (short,), "abbreviations")]
    if own.pairs:
        stitches.append(Section(speaker.say("Special stitches"), (own,), "stitches"))
    if speaker.style.spell_first:
        told = spelled_out(told, glossary.meanings(speaker))
    sections = (
        *before,
        *stitches,
        _terms(pattern, speaker),
        *_notes(pattern, speaker),
        *told,
        *after,
        *_caution(pattern, speaker),
        *_about(pattern, speaker),
    )
    lead = tuple(_lead(pattern, speaker))
    bold = speaker.style.bold_counts
    return Document(pattern.title, speaker.lang, lead, sections, _page_words(speaker), bold)


def _telling(checked: Checked, speaker: Voice, worked: PartWorked) -> Telling:
    pattern = checked.pattern
    sizes = tuple(range(len(pattern.sizes)))
    names = tuple({count.name: count.values[size] for count in pattern.counts} for size in sizes)
    return Telling(speaker, worked, pattern.sizes, sizes, names)


def _page_words(speaker: Voice) -> Words:
    say = speaker.say
    return Words(
        say("Note:"),
        say("Picture: {text}", text="{text}"),
        say("Chart: {title}", title="{title}"),
        say("Finished parts"),
        say("The chart is in the web page of this pattern."),
        colon=say(":"),
    )


def _texts(pattern: Pattern, label: str, speaker: Voice) -> list[str]:
    """What a free-text line of the header says, once for each time that it stands there."""
    found = (free_text(text, speaker) for name, text in pattern.texts if name == label)
    return [text for text in found if text]


def _lead(pattern: Pattern, speaker: Voice) -> Iterator[Block]:
    for text in _texts(pattern, "about", speaker):
        yield Paragraph(text, "lead")
    say = speaker.say
    pairs = [(say("Designer"), text) for text in _texts(pattern, "designer", speaker)]
    for skill in _texts(pattern, "skill", speaker):
        pairs.append((say("Skill level"), say(_SKILLS[skill])))
    if pairs:
        yield Entries(tuple(pairs))


def _before(
    pattern: Pattern,
    speaker: Voice,
    yarn: YarnUse | None,
    time: tuple[Time, ...],
    measured: tuple[PartMeasures, ...],
) -> Iterator[Section]:
    """What is needed before the first stitch."""
    say = speaker.say
    finished = finished_blocks(pattern, measured, speaker)
    sizes = (*materials.size_blocks(pattern, measured, speaker), *finished)
    yield Section(say("Sizes") if len(pattern.sizes) > 1 else say("Size"), sizes, "sizes")
    needed: list[Block] = []
    entries = materials.material_entries(pattern, speaker)
    if entries.pairs:
        needed.append(entries)
    if yarn is not None:
        needed += needs.yarn_blocks(pattern, yarn, speaker)
    if needed:
        yield Section(say("Materials"), tuple(needed), "materials")
    yield from needs.kit_section(pattern, speaker)
    yield from needs.time_section(pattern, time, speaker)
    if pattern.gauges:
        yield Section(say("Tension"), materials.gauge_blocks(pattern, speaker), "gauge")


def _terms(pattern: Pattern, speaker: Voice) -> Section:
    """Which country's terms these are, and the same stitches in the other's."""
    here, say = speaker.terms.name, speaker.say
    blocks: list[Block] = [Paragraph(say("This pattern is in {name} terms.", name=here), "lead")]
    if pattern.terms != here and any(True for _ in free_texts(pattern)):
        text = say(
            "The designer wrote it in {name} terms; notes in the designer's own words are printed "
            "as they were written.",
            name=pattern.terms,
        )
        blocks.append(Paragraph(text))
    if not speaker.tongue.english:
        text = say(
            "[UK] after a stitch means that no source was found for its name in this language, so "
            "that the UK one is printed; [en] before a phrase means that it is not translated yet."
        )
        blocks.append(Paragraph(text))
    table = glossary.both_terms(speaker)
    if table is not None:
        blocks.append(table)
    return Section(say("Terms"), tuple(blocks), "terms")


def _notes(pattern: Pattern, speaker: Voice) -> Iterator[Section]:
    notes = tuple(
        Paragraph(free_text(note.text, speaker)) for note in pattern.notes if not note.finish
    )
    if notes:
        yield Section(speaker.say("Notes"), notes, "notes")


def _instructions(checked: Checked, speaker: Voice) -> tuple[tuple[Section, ...], Steps]:
    """The parts, and the seams that come after everything else: those are the assembly."""
    pattern = checked.pattern
    told, steps = [], []
    for index, part in enumerate(pattern.parts):
        tell = _telling(checked, speaker, part_worked(checked.fabrics, index))
        last = part is pattern.parts[-1]
        end = len(part.lines) - _trailing_seams(part) if last else len(part.lines)
        told.append(part_section(pattern, part, tell, end))
        for line in part.lines[end:]:
            if isinstance(line, Seam):
                steps.append(seam_step(line, pattern, part, tell))
    return tuple(told), Steps(tuple(steps))


def _trailing_seams(part: Part) -> int:
    """How many lines at a part's end sew things together, or are printed under finishing."""
    n = 0
    for line in reversed(part.lines):
        if not (isinstance(line, Seam) or (isinstance(line, Note) and line.finish)):
            break
        n += 1
    return n


def _assembly(steps: Steps, speaker: Voice) -> Iterator[Section]:
    if steps.steps:
        yield Section(speaker.say("Assembly"), (steps,), "assembly")


def _finishing(pattern: Pattern, speaker: Voice) -> Iterator[Section]:
    """What is done at the end; each part's own is told by its name where there are several."""
    found: list[tuple[Part | None, Note]] = [(None, note) for note in pattern.notes if note.finish]
    for part in pattern.parts:
        found += [(part, one) for one in part.lines if isinstance(one, Note) and one.finish]
    if not found:
        return
    several = len({part.name for part, _ in found if part is not None}) > 1
    blocks: list[Block] = []
    for part_of, note in found:
        text = free_text(note.text, speaker)
        if several and part_of is not None:
            text = speaker.say("{part}: {text}", part=capital(spoken(part_of.name)), text=text)
        blocks.append(Paragraph(text))
    yield Section(speaker.say("Finishing"), tuple(blocks), "finishing")


def _caution(pattern: Pattern, speaker: Voice) -> Iterator[Section]:
    texts = _texts(pattern, "caution", speaker)
    usual = caution(pattern, speaker)
    if usual:
        texts.append(usual)
    if texts:
        blocks = tuple(Paragraph(text, "caution") for text in texts)
        yield Section(speaker.say("Caution"), blocks, "caution")


def _about(pattern: Pattern, speaker: Voice) -> Iterator[Section]:
    """The version, what changed in it, and what may be done with the pattern."""
    say = speaker.say
    pairs = [(say("Version"), text) for text in _texts(pattern, "version", speaker)]
    pairs += [(say("Changes"), text) for text in _texts(pattern, "changes", speaker)]
    pairs += [(say("Licence"), text) for text in _texts(pattern, "licence", speaker)]
    if pairs:
        yield Section(say("About this pattern"), (Entries(tuple(pairs)),), "about")


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
