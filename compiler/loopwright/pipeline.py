"""The order of the phases, and nothing else. Pure: text in, values out.

    check_text(name, text) -> Result
    check_text(name, text, Around(used={"house.crochet": "..."}, house=House(terms="UK"))) -> Result

``Result.checked`` is there only when every row of every size was worked and no error was found;
it is the only thing that a renderer accepts.
"""

from __future__ import annotations

from typing import cast

from loopwright.checks import diagnose, word
from loopwright.checks.country import other_country
from loopwright.checks.house import NO_RULES, House, asked
from loopwright.diagnostics import ERROR, Diagnostic
from loopwright.frozen import Frozen, field
from loopwright.ir.checked import Checked
from loopwright.ir.fabric import Fabric
from loopwright.ir.pattern import Pattern
from loopwright.lower import as_it_is_meant, library, lower
from loopwright.lower.using import GIVING, Library, UsedFile
from loopwright.source import NotRead, Source, Texts, beside, with_line_ends
from loopwright.syntax import Line, moved, read_lines
from loopwright.work import Effort, work


class Around(Frozen):
    """What a pattern is checked with besides its text: the texts of all files that it uses and that
    those use, by their paths from its folder; those of them that it uses without a line that says
    so (``also``); the rules of the house."""

    used: Texts = field(default=cast("Texts", {}))
    also: tuple[str, ...] = ()
    house: House = NO_RULES


ALONE = Around()


class Result(Frozen):
    """What is known of one pattern after checking it. ``pattern`` is None where not even its
    terms are known; ``fabrics`` are in the order of its sizes."""

    source: Source
    pattern: Pattern | None
    fabrics: tuple[Fabric, ...]
    diagnostics: tuple[Diagnostic, ...]
    checked: Checked | None

    @property
    def clean(self) -> bool:
        """Whether there is no error; advice alone is clean."""
        return not _faulty(self.diagnostics)


def check_text(name: str, text: str, around: Around = ALONE) -> Result:
    """Check a pattern's text; ``name`` is what messages call it."""
    text = with_line_ends(text)
    source, books = opened(name, text, around)
    lines = read_lines(text)
    lowered = lower(lines, len(text), library=books)
    pattern = lowered.pattern
    fabrics: tuple[Fabric, ...] = ()
    found = lowered.diagnostics
    if pattern is not None and around.house != NO_RULES:
        found += asked(pattern, around.house, whole=lowered.whole)
    if pattern is not None and not pattern.shared:
        effort = Effort.for_text(len(text), len(pattern.sizes))
        fabrics = tuple(work(pattern, size, effort) for size in range(len(pattern.sizes)))
        told = diagnose(pattern, fabrics)
        if told and pattern.counts and lowered.whole:
            from loopwright.fitting import advise

            told = advise(told, lines, pattern, books)
        found += told
        if not any(one.code == "other-terms" for one in found):
            found += other_country(pattern)
        if lowered.whole and any(part.gauge for part in pattern.parts):
            found += _fit(pattern, fabrics, len(text))
        if pattern.kit is not None and lowered.whole and not _faulty(found):
            found += _short(pattern, fabrics)
    elif pattern is not None and lowered.whole and pattern.gauges:
        found += _fit(pattern, fabrics, len(text))
    kept = in_order(_not_allowed(found, [*lines, *books.lines()]))
    whole = lowered.whole and not _faulty(kept)
    works = pattern is not None and whole and not pattern.shared
    checked = Checked(pattern, fabrics) if pattern is not None and works else None
    return Result(source, pattern, fabrics, kept, checked)


def opened(name: str, text: str, around: Around) -> tuple[Source, Library]:
    """The text with those that it uses behind it, and these as a library."""
    from posixpath import basename

    files: dict[str, UsedFile | NotRead] = {}
    sources: list[tuple[int, Source]] = []
    base = len(text) + 1
    for key in sorted(around.used):
        one = around.used[key]
        if isinstance(one, NotRead):
            files[key] = one
            continue
        one = with_line_ends(one)
        lines = [moved(line, base) for line in read_lines(one, GIVING)]
        files[key] = UsedFile(base, lines)
        sources.append((base, Source(beside(name, key) or key, one)))
        base += len(one) + 1
    return Source(name, text, tuple(sources)), library(files, basename(name), around.also)


def used_by(text: str) -> tuple[str, ...]:
    """The files that a text says it uses, as written, in order."""
    if "use" not in text:
        return ()
    lines = read_lines(with_line_ends(text), frozenset(("use",)))
    found = (line.tree if line.misread is None else as_it_is_meant(line) for line in lines)
    words = (tree.word("FILENAME") or tree.word("STRING") for tree in found if tree is not None)
    return tuple(str(word).strip('"') for word in words)


def _faulty(found: tuple[Diagnostic, ...]) -> bool:
    return any(one.severity == ERROR for one in found)


def _fit(pattern: Pattern, fabrics: tuple[Fabric, ...], end: int) -> tuple[Diagnostic, ...]:
    """What the gauges find, of lines that stand before the ``end`` of the pattern's own text. What
    is found of another file's is told where that is checked, once for all that use it."""
    from loopwright.measure.fit import fit

    found = fit(pattern, fabrics)
    return word(pattern, tuple(one for one in found if one[1].span.start < end))


def _short(pattern: Pattern, fabrics: tuple[Fabric, ...]) -> tuple[Diagnostic, ...]:
    """What the kit holds too little of."""
    from loopwright.measure.kit import bill, shortages
    from loopwright.measure.yarn import needed

    return word(pattern, shortages(pattern, bill(pattern, needed(pattern, fabrics))))


def in_order(diagnostics: tuple[Diagnostic, ...]) -> tuple[Diagnostic, ...]:
    """Messages in the order of the file, each once."""
    return tuple(sorted(dict.fromkeys(diagnostics), key=lambda one: (one.span, one.code)))


def _not_allowed(found: tuple[Diagnostic, ...], lines: list[Line]) -> tuple[Diagnostic, ...]:
    """Leave out what a line allows with ``# allow CODE: reason``."""
    allowed = [(line.span, one.code) for line in lines for one in line.allowed if one.reason]
    if not allowed:
        return found
    return tuple(
        one
        for one in found
        if not any(
            code == one.code and span.start <= one.span.start <= span.end for span, code in allowed
        )
    )
