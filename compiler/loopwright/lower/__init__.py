"""Lowering: from trees to the pattern without sizes. Names, terms, numbers and units are settled
here, so that nothing further on asks what a word means.

    lower(read_lines(text)) -> Lowered(pattern or None, diagnostics)
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping

from loopwright.diagnostics import Diagnostic, Edit
from loopwright.frozen import NamedTuple, replace
from loopwright.ir.pattern import Note, Part, Pattern
from loopwright.lower import counts, faults, header, kit, numbering, parts, rows, text
from loopwright.lower import numbers as num
from loopwright.lower.context import Broken, Context
from loopwright.lower.gathering import of_other_terms
from loopwright.lower.literal import literal
from loopwright.lower.misread import as_meant, capitals, meant, misread, reconsider
from loopwright.lower.parts import PartSoFar
from loopwright.lower.using import NOTHING, Library, UsedFile, leave_unused, use
from loopwright.source import NotRead, Span
from loopwright.syntax.lines import Line
from loopwright.syntax.tree import Node
from loopwright.trade.terms import TERMS

OF_TERMS = ("other-terms", "unknown-stitch", "untranslated-term")
"""What cannot be said of a pattern without its terms."""

SKILLS = ("basic", "easy", "intermediate", "complex")


class Lowered(NamedTuple):
    """A pattern and what was found wrong in the writing of it. ``pattern`` is None where not even
    its terms are known; ``whole`` is False where a part of it could not be lowered."""

    pattern: Pattern | None
    diagnostics: tuple[Diagnostic, ...]
    whole: bool


class _Lowering:
    def __init__(
        self, instead: Mapping[str, int], library: Library, chain: tuple[str, ...]
    ) -> None:
        self.instead = instead
        self.library = library
        self.chain = chain
        self.ctx = Context()
        self.title = ""
        self.title_span: Span | None = None
        self.shared = False
        self.terms: str = ""
        self.header_lines: list[Line] = []
        self.notes: list[Note] = []
        self.picture: tuple[str, str] | None = None
        self.parts: list[PartSoFar] = []
        self.whole = True
        self.starts: list[int] = []
        self.capitals: list[Line] = []
        """Lines whose labels are written with capitals."""
        self.tried: set[str] = set()
        """Labels of lines that were not understood: they are not missing."""

    # ---------------------------------------------------------------- lines

    def header_first(self, lines: Iterable[Line]) -> None:
        """Terms and sizes hold for the whole file, wherever they stand in it."""
        for one in lines:
            line = as_meant(self.ctx, one) if one.label in ("terms", "sizes") else one
            self.ctx.base = line.start
            if line.label == "terms" and line.readable:
                self._terms(line)
            elif line.label == "sizes" and line.tree is not None:
                header.sizes(self.ctx, line.tree)
            elif line.tree is None and meant(line).label == "part":
                self._save_part_name(line)
            elif meant(line).label == "sizes":
                self.ctx.sizes_known = False

    def use_first(self, lines: list[Line]) -> None:
        """What other files give is there for the whole file, too."""
        for one in lines:
            line = as_meant(self.ctx, one) if one.label == "use" else one
            if line.label == "use" and line.tree is not None:
                word = line.tree.word("FILENAME") or line.tree.word("STRING")
                self.ctx.base = line.start
                span = self.ctx.span(word)
                use(self.ctx, self.library, str(word).strip('"'), span, self.chain)
        if len(self.chain) == 1:
            here = next((line.span for line in lines), Span(0, 0))
            for key in self.library.also:
                use(self.ctx, self.library, key, here, self.chain)

    def _save_part_name(self, line: Line) -> None:
        words = line.text.replace(":", " ").split()
        if len(words) > 1:
            self.ctx.bad.add(words[1])

    def _terms(self, line: Line) -> None:
        word = line.content.strip()
        at = line.content_at + line.content.find(word) if word else line.start
        span = Span(at, at + len(word)) if word else line.span
        if word not in TERMS:
            hints = ("Write `terms: UK` or `terms: US`.",)
            known = word.upper() in TERMS
            edits = (Edit(span, word.upper(), safe=True),) if known else ()
            self.ctx.say(faults.not_understood(span, word, "The terms are UK or US.", hints, edits))
            if not known:
                self.tried.add("terms")
                return
            word = word.upper()
        elif self.terms:
            self.ctx.say(faults.name_taken(span, "line", "terms", None))
        self.terms = word
        self.ctx.terms, self.ctx.terms_span = TERMS[word], span

    def line(self, line: Line) -> None:
        """Lower one line."""
        ctx = self.ctx
        ctx.base = line.start
        ctx.variable = ""
        if line.misread is not None and line.misread.reason == "capital":
            self.capitals.append(line)
        elif line.misread is not None:
            ctx.say(misread(ctx, line))
        line = as_meant(ctx, line)
        if not line.readable:
            self._misread(line)
        elif line.tree is None:
            self._free_text(line)
        else:
            said, part = len(ctx.out), self.parts[-1] if self.parts else None
            worked = len(part.lines) if part is not None else 0
            self._readable(line, line.tree)
            better = reconsider(ctx, line, said)
            if part is not None and better is not line and better.tree is not None:
                del part.lines[worked:]
                self._readable(better, better.tree)

    def _readable(self, line: Line, tree: Node) -> None:
        try:
            num.check_sums(self.ctx, tree, line.text)
            self._tree(line, tree)
        except Broken:
            self._broken(line)

    def _misread(self, line: Line) -> None:
        self.whole = False
        line = meant(line)
        self.tried.add(line.label)
        words = line.text.replace(":", " ").split()
        self.ctx.unread.update(words)
        if line.label == "part":
            unknown = PartSoFar(words[1] if len(words) > 1 else "", line.span)
            unknown.broken = True
            self.parts.append(unknown)
        else:
            self._broken(line)

    def _broken(self, line: Line) -> None:
        self.whole = False
        part = self.parts[-1] if self.parts else None
        words = line.text.replace(":", " ").split()
        if line.label in ("count", "measure", "yarn", "hook", "gauge", "tension", "stitch"):
            self.ctx.bad.update(words[1:2])
        elif part is None:
            return
        elif line.label == "start":
            part.broken = True
        elif line.label in ("row", "rows", "round", "rounds", "next", "setup", "repeat"):
            saved = rows.broken_row(self.ctx, line) if line.label != "repeat" else None
            part.lines.append(saved or rows.nothing_known(line))

    def _free_text(self, line: Line) -> None:
        ctx = self.ctx
        content = line.content
        if line.label in ("pattern", "shared"):
            title = " ".join(content.split())
            if self.title_span is not None:
                first = "shared" if self.shared else "pattern"
                ctx.say(faults.name_taken(line.span, "line", first, self.title_span))
            elif not title:
                ctx.say(faults.missing_line(line.span, "The pattern has no title.", "Write one."))
            self.title, self.title_span = literal(title), line.span
            self.shared = self.shared or line.label == "shared"
        elif line.label in ("note", "finish"):
            made = text.text(ctx, content, line.content_at)
            note = Note(made, line.label == "finish", line.span)
            if self.parts:
                self.parts[-1].lines.append(note)
            else:
                self.notes.append(note)
        elif line.label == "notation":
            if content.strip() != "1":
                ctx.say(
                    faults.not_in_this_edition(
                        line.span,
                        f"The pattern asks for edition {content.strip()} of the notation.",
                        "This program reads edition 1.",
                    )
                )
        elif line.label != "terms":
            self._header_text(line)

    def _header_text(self, line: Line) -> None:
        word = line.content.strip()
        if line.label == "skill" and word not in SKILLS:
            hint = f"Write one of {', '.join(SKILLS)}."
            self.ctx.say(faults.not_understood(line.span, word, hint))
        self.header_lines.append(line)

    def _tree(self, line: Line, tree: Node) -> None:
        ctx = self.ctx
        make = _HEADER.get(tree.rule)
        if make is not None:
            make(ctx, tree)
        elif tree.rule == "count_line":
            header.check_count_name(ctx, tree)
            made = counts.count(ctx, tree)
            if made is not None:
                tried = self.instead.get(made.name)
                if tried is not None:
                    made = replace(made, values=(tried,) * len(ctx.sizes))
                ctx.counts[made.name] = made
        elif tree.rule == "picture_line":
            string = tree.word("STRING")
            self.picture = (
                str(tree.word("FILENAME")),
                literal(str(string)[1:-1]) if string else "",
            )
        elif tree.rule == "part_line":
            self.parts.append(parts.part(ctx, tree))
            ctx.in_rounds = self.parts[-1].manner != "flat"
        elif tree.rule not in ("sizes_line", "use_line"):
            self._in_part(line, tree)

    def _in_part(self, line: Line, tree: Node) -> None:
        if not self.parts:
            self._no_part(line)
            return
        part = self.parts[-1]
        if tree.rule == "start_line":
            if part.start is not None:
                self.ctx.say(faults.name_taken(line.span, "line", "start", part.start.span))
                return
            part.start = parts.start(self.ctx, tree)
        elif tree.rule == "seam_line":
            part.lines.append(rows.seam(self.ctx, tree, part.name))
        else:
            part.lines.append(rows.LINES[tree.rule](self.ctx, tree))

    def _no_part(self, line: Line) -> None:
        """Say once that lines stand outside any part; none of them can be worked."""
        self.whole = False
        if "part" in self.tried:
            return
        self.tried.add("part")
        hint = "Write a line such as `part NAME: flat` (or `in rounds`, or `in a spiral`) above it."
        if line.label != "start":
            hint = f"{hint[:-1]}, and under that one how it starts, such as `start: ch 20`."
        text_ = f"A `{line.label}` line belongs to a part, and no part stands above it."
        self.ctx.say(faults.missing_line(line.span, text_, hint))

    # ----------------------------------------------------------------- whole

    def finish(self, end: int) -> Lowered:
        """Say what is missing or unused, and hand the pattern on."""
        ctx = self.ctx
        self._missing()
        made = self._parts()
        if self.terms and self.whole and not self.shared:
            self._unused()
        leave_unused(ctx)
        self.whole = self.whole and not ctx.lost
        # Free text may name measures and counts that stand below it.
        texts = [
            (line.label, text.text(ctx, line.content, line.content_at))
            for line in self.header_lines
        ]
        pattern = Pattern(
            self.title,
            self.terms or "UK",
            ctx.sizes,
            tuple(texts),
            tuple(ctx.measures.values()),
            tuple(ctx.yarns.values()),
            tuple(ctx.hooks.values()),
            tuple(ctx.gauges.values()),
            tuple(ctx.counts.values()),
            tuple(ctx.owns.values()),
            tuple(made),
            self.picture,
            tuple(self.notes),
            ctx.allowance,
            ctx.kit,
            ctx.pace,
            self.shared,
        )
        if self.capitals:
            ctx.say(capitals(self.capitals))
        numbering.check(ctx, pattern)
        ctx.out.extend(of_other_terms(ctx, self.starts))
        if not self.terms:
            return Lowered(None, tuple(one for one in ctx.out if one.code not in OF_TERMS), False)
        return Lowered(pattern, tuple(ctx.out), self.whole)

    def _parts(self) -> list[Part]:
        """The parts that could be read; none of a file that holds what others use."""
        made = [one for one in (part.done() for part in self.parts) if one is not None]
        self.whole = self.whole and len(made) == len(self.parts)
        return [] if self.shared else made

    def _missing(self) -> None:
        ctx = self.ctx
        here = Span(0, 0)
        if self.title_span is None and "pattern" not in self.tried:
            hint = "Begin the file with `pattern:` and the title."
            ctx.say(faults.missing_line(here, "The pattern has no title line.", hint))
        if not self.terms and "terms" not in self.tried:
            hint = "Write `terms: UK` or `terms: US` under the title."
            text_ = "The pattern does not say whether it is in UK or US terms."
            ctx.say(faults.missing_line(self.title_span or here, text_, hint))
        if self.shared:
            self._no_parts()
        elif not self.parts and "part" not in self.tried:
            hint = "Write `part NAME: flat` (or `in rounds`), then how it starts."
            ctx.say(faults.missing_line(self.title_span or here, "There is no part.", hint))
        for part in self.parts:
            if part.start is None and not part.broken:
                text_ = f"The part `{part.name}` does not say how it starts."
                begins = "start: ch 20" if part.manner == "flat" else "start: magic ring"
                hint = f"Add a line such as `{begins}` under it."
                ctx.say(faults.missing_line(part.span, text_, hint))

    def _no_parts(self) -> None:
        for part in self.parts[:1]:
            could_be = "A file that begins with `shared` holds what patterns use, and no parts."
            hint = "Begin it with `pattern` in place of `shared`, or move the part into a pattern."
            self.ctx.say(faults.not_understood(part.span, "part", could_be, (hint,)))

    def _unused(self) -> None:
        ctx = self.ctx
        for what, table in (
            ("measure", ctx.measures),
            ("count", ctx.counts),
            ("gauge", ctx.gauges),
            ("stitch", ctx.owns),
        ):
            for name, one in table.items():
                if (what, name) not in ctx.used and (what, name) not in ctx.brought:
                    ctx.say(faults.unused_name(one.span, what, name))
        for name, yarn in ctx.yarns.items():
            if ("yarn", name) not in ctx.used and ("yarn", name) not in ctx.brought:
                ctx.say(faults.yarn_unused(yarn.span, name))
        for name, hook in ctx.hooks.items():
            if ("hook", name) not in ctx.used and ("hook", name) not in ctx.brought:
                ctx.say(faults.hook_unused(hook.span, name))


_HEADER: dict[str, Callable[[Context, Node], None]] = {
    "measure_line": header.measure,
    "yarn_line": header.yarn,
    "hook_line": header.hook,
    "gauge_line": header.gauge,
    "stitch_line": header.stitch,
    "allowance_line": kit.allowance,
    "kit_line": kit.kit,
    "pace_line": kit.pace,
}


def lower(
    lines: list[Line],
    end: int = 0,
    instead: Mapping[str, int] | None = None,
    library: Library = NOTHING,
) -> Lowered:
    """Lower a pattern's lines. ``end`` is the length of the text; ``instead`` gives counts other
    values than those written, to try them; ``library`` are the files that it may use."""
    return _lowering(lines, instead or {}, library, (library.own,)).finish(end)


def as_it_is_meant(line: Line) -> Node | None:
    """What a line that could not be read parses to as it is meant, where that is certain."""
    return as_meant(Context(), line).tree


def library(
    files: Mapping[str, UsedFile | NotRead], own: str, also: tuple[str, ...] = ()
) -> Library:
    """The files that the pattern ``own`` may use, by their paths from its folder; ``also`` are
    those that it uses without a line that says so."""
    return Library(files, own, also, _lower_used)


def _lower_used(lines: list[Line], library: Library, chain: tuple[str, ...]) -> Context:
    work = _lowering(lines, {}, library, chain)
    if not work.terms and "terms" not in work.tried:
        text_ = "The file does not say whether it is in UK or US terms."
        here = Span(lines[0].start, lines[0].start) if lines else Span(0, 0)
        work.ctx.say(faults.missing_line(here, text_, "Write `terms: UK` or `terms: US`."))
    work.ctx.out.extend(of_other_terms(work.ctx, work.starts))
    return work.ctx


def _lowering(
    lines: list[Line], instead: Mapping[str, int], library: Library, chain: tuple[str, ...]
) -> _Lowering:
    work = _Lowering(instead, library, chain)
    work.starts = [line.start for line in lines]
    work.header_first(lines)
    work.use_first(lines)
    for line in lines:
        work.line(line)
    return work
