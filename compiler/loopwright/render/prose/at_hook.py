"""The pattern as it is worked: one size, one row at a time, in both terms at once.

    at_hook(checked, voices()) -> AtHook
      sizes[0].parts[1].stretches[2]   rounds 4 and 5: step 7, twice; and why they are repeated
      steps[7].told[0]                 Told("Round {}", "Ch 2, [1 tr in each ...] 7 times, join.")

A sheet says "repeat round 3 another 2 (3, 4) times"; at the hook that is round 4, round 5 and so
on, each with its own numbers. Steps are kept once and the order of them in runs, so that a blanket
of a million rows is no longer than one of ten.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable, Iterator

from loopwright.frozen import Frozen, Slotted, field, replace
from loopwright.frozen import replace as changed
from loopwright.ir.checked import Checked
from loopwright.ir.fabric import Fabric, WorkedPart, WorkedRow
from loopwright.ir.line_rows import LineRows, line_rows
from loopwright.ir.pattern import (
    ComesOut,
    Line,
    Note,
    Part,
    Pattern,
    RepeatRows,
    Row,
    Stripes,
    Text,
)
from loopwright.ir.runs import Runs
from loopwright.render.prose import edges
from loopwright.render.prose.document import Paragraph, Steps
from loopwright.render.prose.items import yarns
from loopwright.render.prose.parts import intro, line_blocks
from loopwright.render.prose.repeats import repeat_step
from loopwright.render.prose.rows import single
from loopwright.render.prose.style import Style
from loopwright.render.prose.telling import Telling
from loopwright.render.prose.texts import free_text
from loopwright.render.prose.voice import ENGLISH, Voice, voice
from loopwright.render.prose.words import capital, sentence, spoken
from loopwright.render.prose.worked import PartWorked, SizeWorked, part_worked
from loopwright.source import Span
from loopwright.trade.stitches import Stitch

MOST_BACK = 1000
"""Rows that a repeat of the last so many can reach back; the worker has the same bound."""


class Told(Frozen):
    """A step in one country's words. ``{}`` in the label stands for the row's number; ``about``
    are lines that stand small: remarks, spacings, how the part is worked."""

    label: str
    text: str
    count: str = ""
    about: tuple[str, ...] = ()


class Task(Frozen):
    """A step in the words of each voice. ``like`` is the number of the first row of its part that
    is worked the same (0 for what is no row), ``stitches`` how many it makes."""

    told: tuple[Told, ...]
    like: int = 0
    stitches: int = 0


class Stretch(Frozen):
    """Steps in order, by their index; where they are rows, ``first`` is the number of the first.
    ``why`` says of repeated rows how far they go; ``measured`` where that is up to a length, which
    only the maker can know."""

    steps: Runs[int]
    first: int = 0
    why: tuple[str, ...] = ()
    measured: bool = False


class PartAtHook(Frozen):
    """A part: its index in the pattern (-1 for the finishing), its name, how many are made."""

    index: int
    name: str
    copies: int
    stretches: tuple[Stretch, ...]


class SizeAtHook(Frozen):
    """One size: its name and its parts in order."""

    name: str
    parts: tuple[PartAtHook, ...]


class AtHook(Frozen):
    """The whole pattern: every step once, and for each size the order of them."""

    steps: tuple[Task, ...]
    sizes: tuple[SizeAtHook, ...]


def voices(language: str = ENGLISH, style: Style | None = None) -> dict[str, Voice]:
    """In whose words a page can speak: in English both countries', else the language's own."""
    if language == ENGLISH:
        return {terms: voice(terms, language, style) for terms in ("UK", "US")}
    return {language: voice("UK", language, style)}


def at_hook(checked: Checked, speakers: Iterable[Voice]) -> AtHook:
    """The pattern as it is worked, in every size, in each speaker's words."""
    speakers = tuple(speakers)
    steps: dict[Task, int] = {}
    sizes = []
    for size, fabric in enumerate(checked.fabrics):
        pattern = _in_size(checked.pattern, size)
        parts = [
            PartAtHook(index, capital(spoken(part.name)), copies, tuple(walk.stretches()))
            for index, part in enumerate(pattern.parts)
            if (copies := part.make[size] if part.make else 1)
            for walk in [_Walk(pattern, part, fabric, index, steps, speakers)]
        ]
        parts += _finishing(pattern, steps, speakers)
        sizes.append(SizeAtHook(pattern.sizes[size], tuple(parts)))
    return AtHook(tuple(steps), tuple(sizes))


def _in_size(pattern: Pattern, size: int) -> Pattern:
    """The pattern with its free texts and lengths for one size only."""
    parts = tuple(
        replace(part, lines=tuple(_line_in_size(line, size) for line in part.lines))
        for part in pattern.parts
    )
    notes = tuple(replace(one, text=_text_in_size(one.text, size)) for one in pattern.notes)
    hooks = tuple(replace(hook, mm=hook.mm[size : size + 1] or hook.mm) for hook in pattern.hooks)
    return replace(pattern, parts=parts, notes=notes, hooks=hooks)


def _line_in_size(line: Line, size: int) -> Line:
    if isinstance(line, Note):
        return replace(line, text=_text_in_size(line.text, size))
    if isinstance(line, ComesOut):
        one = tuple((name, mm[size : size + 1], unit) for name, mm, unit in line.dimensions)
        return replace(line, dimensions=one)
    if isinstance(line, Row | RepeatRows) and line.remark is not None:
        line = replace(line, remark=_text_in_size(line.remark, size))
    if isinstance(line, RepeatRows):
        line = replace(line, lengths=line.lengths[size : size + 1])
    return line


def _text_in_size(text: Text, size: int) -> Text:
    return Text(
        tuple(
            piece[size : size + 1]
            if isinstance(piece, tuple) and not isinstance(piece, Stitch)
            else piece
            for piece in text.pieces
        )
    )


def _finishing(
    pattern: Pattern, steps: dict[Task, int], speakers: tuple[Voice, ...]
) -> list[PartAtHook]:
    notes = [note for note in pattern.notes if note.finish]
    notes += [
        line
        for part in pattern.parts
        for line in part.lines
        if isinstance(line, Note) and line.finish
    ]
    ids = []
    for note in notes:
        told = tuple(Told(one.say("Finishing"), free_text(note.text, one)) for one in speakers)
        ids.append(steps.setdefault(Task(told), len(steps)))
    runs = Runs(tuple((one, 1) for one in ids))
    name = speakers[0].say("Finishing")
    return [PartAtHook(-1, name, 1, (Stretch(runs),))] if ids else []


class _Walk(Slotted):
    """A part walked through in one size, line by line, in the order of the work. ``past`` are the
    rows worked so far, under the numbers that their braces see; ``like`` the number of the first
    row that was worked in a certain way."""

    pattern: Pattern
    part: Part
    fabric: Fabric
    index: int
    steps: dict[Task, int]
    speakers: tuple[Voice, ...]
    past: deque[int] = field(default_factory=lambda: deque(maxlen=MOST_BACK))
    like: dict[tuple[object, ...], int] = field(default_factory=dict)

    @property
    def worked(self) -> WorkedPart:
        return self.fabric.parts[self.index]

    def stretches(self) -> Iterator[Stretch]:
        """Everything that is done for the part, in order."""
        yield self._begin()
        rows: dict[int, list[LineRows]] = {}
        for one in line_rows(self.part, self.worked, self.fabric.size):
            rows.setdefault(one.at, []).append(one)
        for index, line in enumerate(self.part.lines):
            if isinstance(line, Row):
                yield from (self._row(one) for one in rows.get(index, []))
            elif isinstance(line, RepeatRows):
                yield self._repeat(index, line, rows.get(index, []))
            elif not isinstance(line, Stripes | ComesOut) and not _finish(line):
                yield from self._other(index)

    def _telling(self, speaker: Voice, worked: PartWorked | None = None) -> Telling:
        size = self.fabric.size
        names = {count.name: count.values[size] for count in self.pattern.counts}
        return Telling(
            speaker,
            worked or part_worked((self.fabric,) * (size + 1), self.index),
            self.pattern.sizes,
            (size,),
            (names,) * (size + 1),
        )

    def _step(self, told: list[Told], like: int = 0, stitches: int = 0) -> int:
        return self.steps.setdefault(Task(tuple(told), like, stitches), len(self.steps))

    def _begin(self) -> Stretch:
        told = []
        for speaker in self.speakers:
            tell = self._telling(speaker)
            begin = edges.start(self.part.start, self.pattern, self.part, tell)
            about = [" ".join(intro(self.pattern, self.part, tell))]
            for index, line in enumerate(self.part.lines):
                if isinstance(line, Stripes | ComesOut):
                    blocks = line_blocks(line, index, self.pattern, self.part, tell)
                    about += [one.text for one in blocks if isinstance(one, Paragraph)]
            told.append(Told(speaker.say("Start"), sentence(begin), "", tuple(about)))
        return Stretch(Runs(((self._step(told), 1),)))

    def _other(self, index: int) -> Iterator[Stretch]:
        """A note, a seam, a gather: one step each."""
        told = []
        for speaker in self.speakers:
            tell = self._telling(speaker)
            line = self.part.lines[index]
            for block in line_blocks(line, index, self.pattern, self.part, tell):
                if isinstance(block, Steps):
                    told += [Told(one.label, one.text) for one in block.steps]
                elif isinstance(block, Paragraph):
                    told.append(Told(speaker.say("Note"), block.text))
        if told:
            yield Stretch(Runs(((self._step(told), 1),)))

    # ------------------------------------------------------------- rows

    def _row(self, rows: LineRows) -> Stretch:
        row = self.part.lines[rows.line]
        assert isinstance(row, Row)
        numbers = range(rows.first, rows.first + rows.total)
        return self._take(rows, [self._source(row, number) for number in numbers], row)

    def _source(self, row: Row, number: int) -> int:
        """The number that braces see: a row worked `as row 7` is row 7 once more."""
        if row.as_row is None:
            return number
        low, high = row.as_row
        first = next((one for one, two in row.numbers if one <= number <= two), number)
        source = low + (number - first) % (high - low + 1)
        for line in self.part.lines:
            if isinstance(line, Row) and any(one <= source <= two for one, two in line.numbers):
                return self._source(line, source) if line is not row else source
        return source

    def _repeat(self, index: int, line: RepeatRows, rows: list[LineRows]) -> Stretch:
        tells = [self._telling(speaker) for speaker in self.speakers]
        why = tuple(repeat_step(line, index, self.part, tell, whole=False).text for tell in tells)
        if not rows:
            label = [speaker.say("Repeat") for speaker in self.speakers]
            step = self._step([Told(*one) for one in zip(label, why, strict=True)])
            return Stretch(Runs(((step, 1),)))
        if line.count:
            seen = list(self.past)[-line.count :]
        else:
            numbers = range(line.first, line.last + 1)
            seen = [source for one in numbers if (source := self._numbered(one)) is not None]
        return changed(self._take(rows[0], seen), why=why, measured=line.how == "length")

    def _numbered(self, number: int) -> int | None:
        """The number that braces see in the row of that number; None where this size has none."""
        for line in reversed(self.part.lines):
            worked = isinstance(line, Row) and (
                line.sizes is None or self.fabric.size in line.sizes
            )
            if worked and any(low <= number <= high for low, high in line.numbers):  # type: ignore[union-attr]
                return self._source(line, number)  # type: ignore[arg-type]
        return None

    def _take(self, taken: LineRows, seen: list[int], own: Row | None = None) -> Stretch:
        """Rows as steps; ``seen`` are the numbers that their braces see, over and over. ``own`` is
        the line where they are worked where they are written."""
        pairs: list[tuple[int | Runs[int], int]] = []
        done = 0
        for rows, times in taken.rows:
            ids = [
                self._worked_row(row, seen[(done + nth) % len(seen)], own)
                for nth, row in enumerate(rows)
            ]
            done += len(rows) * times
            inner = Runs(tuple((one, 1) for one in ids))
            pairs.append((inner if len(ids) > 1 else ids[0], times))
        self.past.extend(seen[nth % len(seen)] for nth in range(max(done - MOST_BACK, 0), done))
        return Stretch(Runs(tuple(pairs)), taken.first)

    def _worked_row(self, worked: WorkedRow, seen: int, own: Row | None) -> int:
        row = self.part.lines[worked.line]
        assert isinstance(row, Row)
        like = self.like.setdefault((worked.line, worked.made), worked.number)
        told = []
        for speaker in self.speakers:
            tell = changed(
                self._telling(speaker, _only(worked, self.worked, self.fabric.size)),
                is_round=row.is_round,
                line=worked.line,
                variable=(row.variable, seen),
            )
            step = single(row, worked, tell, own)
            about = [*step.details, step.remark, self._yarn(worked, speaker)]
            told.append(Told(step.label, step.text, step.count, tuple(one for one in about if one)))
        return self._step(told, like, _stitches(worked))

    def _yarn(self, worked: WorkedRow, speaker: Voice) -> str:
        """Of a striped part: the yarn of this row."""
        if not any(isinstance(line, Stripes) for line in self.part.lines):
            return ""
        names = dict.fromkeys(made.yarn for made in worked.made.tally() if made.yarn)
        said = [yarns(tuple(name.split("+")), speaker) for name in names]
        return speaker.say("Yarn: {yarn}.", yarn=speaker.listing(said)) if said else ""


def _finish(line: object) -> bool:
    return isinstance(line, Note) and line.finish


def _stitches(worked: WorkedRow) -> int:
    return next((n for kind, n in worked.counts if kind.what == "st"), 0)


def _only(worked: WorkedRow, part: WorkedPart, size: int) -> PartWorked:
    """What was found out in this one row, so that every number in it is its own."""
    repeats: dict[Span, set[int]] = {}
    for span, times in worked.repeats:
        repeats.setdefault(span, set()).add(times)
    spreads: dict[Span, set[Runs[int]]] = {}
    for span, runs in worked.spreads:
        spreads.setdefault(span, set()).add(runs)
    into: dict[Span, set[str]] = {}
    for made in worked.made.tally():
        if made.item < len(worked.spans):
            into.setdefault(worked.spans[made.item], set()).add(made.into)
    one = SizeWorked(part, {}, repeats, spreads)
    return PartWorked((one,) * (size + 1), into, {})
