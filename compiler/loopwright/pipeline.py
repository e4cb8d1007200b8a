"""The order of the phases, and nothing else. Pure: text in, values out.

    check_text(name, text) -> Result
    check_text(name, text, Around(used={"house.crochet": "..."}, house=House(terms="UK"))) -> Result

``Result.checked`` is there only when every row of every size was worked and no error was found;
it is the only thing that a renderer accepts.
"""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING, Any, cast

from loopwright.checks import diagnose, word
from loopwright.checks.house import EVERY_RULE, HOUSE, NO_RULES, House, asked
from loopwright.diagnostics import ERROR, Diagnostic
from loopwright.frozen import field, frozen
from loopwright.ir.checked import Checked
from loopwright.ir.fabric import Fabric
from loopwright.ir.pattern import Pattern
from loopwright.lower import library, lower
from loopwright.lower.using import GIVING, Library, UsedFile
from loopwright.source import NotRead, Source, Texts, beside
from loopwright.syntax import Line, moved, read_lines
from loopwright.syntax.parser import cache_folder
from loopwright.work import Effort, work

if TYPE_CHECKING:
    from loopwright.diagnostics.card import Card
    from loopwright.render.prose.style import Style as Style

# fmt: off
__all__ = [
    "ALONE", "EVERY_RULE", "HOUSE", "NO_RULES", "Around", "CannotFollow", "House", "Result",
    "cache_folder", "chart", "check_text", "fits", "house_style", "in_order", "kit", "measures",
    "mend", "no_grid", "overview", "pictured", "row_numbers", "schematics", "sheet", "sizes",
    "tidy", "uses",
]
# fmt: on

MOST_MENDS = 10
"""Rounds of mending: a mend may bring out another, but not without end."""


class CannotPrint(Exception):
    """A sheet that cannot be set on paper; the text says why."""


@frozen
class Around:
    """What a pattern is checked with besides its text: the texts of all files that it uses and that
    those use, by their paths from its folder; those of them that it uses without a line that says
    so (``also``); the rules of the house."""

    used: Texts = field(default=cast("Texts", {}))
    also: tuple[str, ...] = ()
    house: House = NO_RULES


ALONE = Around()


@frozen
class Result:
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
        return not any(one.severity == ERROR for one in self.diagnostics)


def check_text(name: str, text: str, around: Around = ALONE) -> Result:
    """Check a pattern's text; ``name`` is what messages call it."""
    source, books = _opened(name, text, around)
    lines = read_lines(text)
    lowered = lower(lines, len(text), library=books)
    pattern = lowered.pattern
    fabrics: tuple[Fabric, ...] = ()
    found = lowered.diagnostics
    if pattern is not None and around.house != NO_RULES:
        found += asked(pattern, around.house)
    if pattern is not None and not pattern.shared:
        effort = Effort.for_text(len(text), len(pattern.sizes))
        fabrics = tuple(work(pattern, size, effort) for size in range(len(pattern.sizes)))
        told = diagnose(pattern, fabrics)
        if told and pattern.counts and lowered.whole:
            from loopwright.fits import advise

            told = advise(told, lines, pattern, books)
        found += told
        if lowered.whole and any(part.gauge for part in pattern.parts):
            found += _fit(pattern, fabrics, len(text))
        if pattern.kit is not None and lowered.whole and not _faulty(found):
            found += _short(pattern, fabrics)
    elif pattern is not None and lowered.whole and pattern.gauges:
        found += _fit(pattern, fabrics, len(text))
    kept = in_order(_not_allowed(found, [*lines, *books.lines()]))
    clean = not any(one.severity == ERROR for one in kept)
    whole = lowered.whole and clean
    works = pattern is not None and whole and not pattern.shared
    checked = Checked(pattern, fabrics) if pattern is not None and works else None
    return Result(source, pattern, fabrics, kept, checked)


def _opened(name: str, text: str, around: Around) -> tuple[Source, Library]:
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
        lines = [moved(line, base) for line in read_lines(one, GIVING)]
        files[key] = UsedFile(base, lines)
        sources.append((base, Source(beside(name, key) or key, one)))
        base += len(one) + 1
    return Source(name, text, tuple(sources)), library(files, basename(name), around.also)


def uses(text: str) -> tuple[str, ...]:
    """The files that a text says it uses, as written, in order."""
    if "use" not in text:
        return ()
    found = (line.tree for line in read_lines(text, frozenset(("use",))))
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


def fits(name: str, text: str, around: Around = ALONE) -> str:
    """Which values of each count come out, as text."""
    from loopwright.fits import fits as find
    from loopwright.fits import table

    lines = read_lines(text)
    _, books = _opened(name, text, around)
    pattern = lower(lines, len(text), library=books).pattern
    return table(find(lines, pattern, books), pattern.sizes) if pattern is not None else ""


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


def sheet(
    checked: Checked,
    terms: str,
    form: str,
    charts: tuple[tuple[str, str], ...] = (),
    *,
    picture: bytes = b"",
    link: str = "",
    language: str = "en",
    style: Style | None = None,
) -> str:
    """The written pattern in UK or US terms, as ``html``, ``markdown`` or ``text``; ``charts``
    are (title, SVG) to set into the page, and so is the ``picture`` as bytes; Markdown calls it
    by its ``link``. ``language`` is English or one that has a catalogue,
    ``style`` a house's (``house_style``)."""
    from loopwright.render.sheet import sheet as make

    how = {**_taken(checked), "language": language, "style": style}
    if form == "html":
        how |= {"schematics": schematics(checked, terms), "hook_charts": hook_charts(checked)}
    return make(checked, terms, form, charts, picture, link, **how)


def _taken(checked: Checked) -> dict[str, Any]:
    """What each size takes and comes out at, for a sheet."""
    from loopwright.measure.dimensions import measures as measured
    from loopwright.measure.pace import working_time
    from loopwright.measure.yarn import needed

    about = (checked.pattern, checked.fabrics)
    return {"yarn": needed(*about), "time": working_time(*about), "sizes": measured(checked)}


def hook_charts(checked: Checked) -> dict[tuple[str, int], str]:
    """The bare drawing of every part in every size, for a page that lights one row of it."""
    from loopwright.render.chart import chart as lay_out
    from loopwright.render.chart import rows_only

    drawn = {}
    for part in checked.pattern.parts:
        for size in range(len(checked.pattern.sizes)):
            drawn[part.name, size] = rows_only(lay_out(checked, part.name, size))
    return drawn


def one_size(checked: Checked, size: int) -> Checked:
    """The pattern in its size number ``size`` alone."""
    from loopwright.ir.one_size import only

    return only(checked, size)


def house_style(name: str, text: str | None = None) -> Style:
    """The house style that ships under a name, or the one that a TOML ``text`` describes.

    Raises:
        CannotFollow: there is none of that name, or the text is no style; what is wrong.
    """
    from loopwright.render.prose.style import BadStyle, shipped, style_of

    try:
        return shipped(name) if text is None else style_of(text)
    except BadStyle as error:
        raise CannotFollow(str(error)) from None


class CannotFollow(Exception):
    """A house style that cannot be followed."""


def pdf(
    checked: Checked,
    terms: str,
    paper: str,
    charts: tuple[tuple[str, str], ...] = (),
    *,
    large: bool = False,
    picture: bytes = b"",
    language: str = "en",
    style: Style | None = None,
) -> bytes:
    """The written pattern as a PDF on ``a4`` or ``letter`` paper, in large print where ``large``;
    ``picture``, ``language`` and ``style`` as for ``sheet``.

    Raises:
        CannotPrint: it cannot be set; why.
        ImportError: what sets it is not installed (``can_print``).
    """
    from loopwright.render.sheet import CannotSet, paper_sheet

    try:
        how = {**_taken(checked), "language": language, "style": style, "picture": picture}
        how["schematics"] = schematics(checked, terms)
        return paper_sheet(checked, terms, paper, charts, large=large, **how)
    except CannotSet as error:
        raise CannotPrint(str(error)) from None


def pictured(data: bytes) -> tuple[str, int, int] | None:
    """The kind of a picture, by its first bytes, and its dots; None where no sheet can show it."""
    from loopwright.render.sheet.picture import measured

    return measured(data)


def can_print() -> bool:
    """Whether what sets a PDF is installed."""
    from loopwright.render.sheet import can_set

    return can_set()


def charts(checked: Checked, terms: str) -> tuple[tuple[str, str], ...]:
    """The charts of every part in the first size, as (title, SVG), to set into a page."""
    pattern = checked.pattern
    drawn = []
    for part in pattern.parts:
        title = part.name if len(pattern.sizes) == 1 else f"{part.name}, {pattern.sizes[0]}"
        for kind in chart_kinds(checked, part.name, 0):
            titled = f"{title}, in squares" if kind == "grid" else title
            drawn.append((titled, chart(checked, part.name, 0, terms, kind=kind)))
    return tuple(drawn)


def chart_kinds(checked: Checked, part: str, size: int) -> tuple[str, ...]:
    """The kinds of chart that a part has in a size."""
    return ("symbols",) if no_grid(checked, part, size) else ("symbols", "grid")


def sizes(checked: Checked, terms: str, form: str, *, rows: bool = False) -> str:
    """The finished sizes, as ``text`` (with every row where ``rows``) or ``json``."""
    from loopwright.render.sizes import sizes as make

    return make(checked, terms, form, rows=rows)


def schematics(checked: Checked, terms: str) -> tuple[tuple[str, str], ...]:
    """The drawing of every part that has a size, as (part, SVG)."""
    from loopwright.measure.dimensions import measures as measure
    from loopwright.render.schematic import schematic as draw

    drawn = ((one.part, draw(checked, one, terms)) for one in measure(checked))
    return tuple((part, svg) for part, svg in drawn if svg)


def kit(checked: Checked, form: str, bags: int = 0, margin: Fraction | None = None) -> str:
    """What goes in the bag, per size and for ``bags`` bags, as ``text``, ``csv`` or ``json``."""
    from loopwright.render.kit import kit as make

    return make(checked, form, bags, margin)


def measures(group: str, form: str) -> str:
    """The standard measures of ``head``, ``hand``, ``foot`` or all, as ``text`` or ``json``."""
    from loopwright.render.measures import measures as make

    return make(group, form)


def chart(
    checked: Checked,
    part: str,
    size: int,
    terms: str,
    *,
    kind: str = "symbols",
    form: str = "svg",
    whole: bool = False,
    rows: tuple[int, int] | None = None,
    source: Source | None = None,
) -> str:
    """The chart of a part in a size, as ``svg`` or ``text``: of ``symbols``, or the ``grid`` of
    squares, which only a part has that ``no_grid`` says nothing of.

    ``whole`` leaves out no repeat, ``rows`` all but the rows of those numbers; with the
    ``source`` each symbol says which line it comes from."""
    if kind == "grid":
        from loopwright.render.chart import grid as squares

        made = squares.grid(checked, part, size, whole=whole, rows=rows)
        if made is None:
            raise ValueError(squares.refusal(checked, part, size))
        return (
            squares.text(made, terms) + "\n" if form == "text" else squares.svg(made, terms, source)
        )
    from loopwright.render.chart import chart as lay_out
    from loopwright.render.chart import svg, text

    drawn = lay_out(checked, part, size, whole=whole, rows=rows)
    return text(drawn, terms) + "\n" if form == "text" else svg(drawn, terms, source)


def no_grid(checked: Checked, part: str, size: int, rows: tuple[int, int] | None = None) -> str:
    """Why a part (or those rows of it) has no chart of squares; nothing where it has one."""
    from loopwright.render.chart.grid import refusal

    return refusal(checked, part, size, rows)


def row_numbers(checked: Checked, part: str, size: int) -> tuple[int, int]:
    """The numbers of a part's first and last row in a size; a setup row is number 0."""
    from loopwright.render.chart.numbers import row_numbers as find

    return find(checked, part, size)


def overview(title: str, summary: str, cards: tuple[Card, ...]) -> str:
    """The page of a whole repository, as HTML."""
    from loopwright.render.overview import overview as make

    return make(title, summary, cards)


def compare(old: Result, new: Checked, terms: str, form: str) -> str:
    """What changed from an edition, which need not have come out, to another: as ``text``,
    ``markdown`` (a notice to post) or ``json``. The old edition must have been understood so far
    that there is a pattern."""
    from loopwright.changes import compare as find
    from loopwright.changes.values import START
    from loopwright.render.changes import Told, changes
    from loopwright.render.prose.line_texts import line_texts
    from loopwright.render.prose.voice import voice

    assert old.pattern is not None
    faults = sum(one.severity == ERROR for one in old.diagnostics)
    found = find((old.pattern, old.fabrics), new, old.checked, faults)
    if old.checked is not None:
        before = line_texts(old.checked, voice(terms))
    else:
        # What did not come out has no sheet: it is told as it is written.
        before = {}
        for at, part in enumerate(old.pattern.parts):
            spans = [(START, part.start.span), *enumerate(line.span for line in part.lines)]
            for index, span in spans:
                before[at, index] = (" ".join(old.source.text[span.start : span.end].split()),)
    return changes(found, Told(before, line_texts(new, voice(terms)), terms), form)


def mend(text: str, name: str = "", around: Around = ALONE) -> str:
    """The text with every safe edit made, and those that show only after them."""
    for _ in range(MOST_MENDS):
        edits = sorted(
            {
                edit
                for one in check_text(name, text, around).diagnostics
                for edit in one.edits
                if edit.safe and edit.span.end <= len(text)
            },
            key=lambda edit: edit.span,
        )
        if not edits:
            return text
        out = []
        done = 0
        for edit in edits:
            if edit.span.start >= done:
                out.append(text[done : edit.span.start] + edit.text)
                done = edit.span.end
        text = "".join(out) + text[done:]
    return text


def tidy(text: str) -> str:
    """The pattern's text in the canonical layout."""
    from loopwright.syntax.tidy import tidy as lay_out

    return lay_out(text)
