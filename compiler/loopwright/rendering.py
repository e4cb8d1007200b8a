"""What is made of a checked pattern: by which renderer, and from what was measured of it.

    sheet(checked, "UK", "html")    pdf(checked, "US", "a4")    chart(checked, "cuff", 0, "UK")

Each renderer is imported when it is asked for. Pure, like the phases before it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from loopwright.asked import CannotAnswer
from loopwright.ir.checked import Checked

if TYPE_CHECKING:
    from collections.abc import Sequence
    from fractions import Fraction

    from loopwright.diagnostics.card import Card
    from loopwright.ir.pattern import Pattern
    from loopwright.measure.dimensions import PartMeasures
    from loopwright.pipeline import Result
    from loopwright.render.prose.style import Style
    from loopwright.render.speaker import Speaker
    from loopwright.source import Source

ENGLISH = "en"


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
        how["schematics"] = _outlines(checked, how["sizes"], terms, language)
        how["hook_charts"] = hook_charts(checked, terms, language)
    return make(checked, terms, form, charts, picture, link, **how)


def _taken(checked: Checked) -> dict[str, Any]:
    """What each size takes and comes out at, for a sheet."""
    from loopwright.measure.dimensions import measures as measured
    from loopwright.measure.pace import working_time
    from loopwright.measure.yarn import needed

    about = (checked.pattern, checked.fabrics)
    return {"yarn": needed(*about), "time": working_time(*about), "sizes": measured(checked)}


def _speaker(terms: str, language: str) -> Speaker | str:
    """In whose words something is drawn: English needs no catalogue."""
    if language == ENGLISH:
        return terms
    from loopwright.render.prose.voice import voice

    return voice(terms, language)


def hook_charts(checked: Checked, terms: str, language: str) -> dict[tuple[str, int], str]:
    """The bare drawing of every part in every size, for a page that lights one row of it."""
    from loopwright.render.chart import bare

    return bare(checked, _speaker(terms, language))


def one_size(checked: Checked, size: int) -> Checked:
    """The pattern in its size number ``size`` alone."""
    from loopwright.ir.one_size import only

    return only(checked, size)


def free_texts(pattern: Pattern) -> dict[str, str]:
    """A pattern's free texts by their labels, in the terms that it is written in."""
    from loopwright.render.prose.texts import free_text
    from loopwright.render.prose.voice import voice

    who = voice(pattern.terms, ENGLISH)
    return {label: free_text(text, who) for label, text in pattern.texts}


def house_style(name: str, text: str | None = None) -> Style:
    """The house style that ships under a name, or the one that a TOML ``text`` describes.

    Raises:
        CannotAnswer: there is none of that name, or the text is no style; what is wrong.
    """
    from loopwright.render.prose.style import BadStyle, shipped, style_of

    try:
        return shipped(name) if text is None else style_of(text)
    except BadStyle as error:
        raise CannotAnswer(str(error)) from None


def languages() -> tuple[str, ...]:
    """The languages there are: English, and each that has its files."""
    from importlib.resources import files

    found = files("loopwright.render.prose").joinpath("languages").iterdir()
    return (ENGLISH, *sorted(one.name[:-5] for one in found if one.name.endswith(".toml")))


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
        CannotAnswer: it cannot be set; why.
        ImportError: what sets it is not installed (``can_print``).
    """
    from loopwright.render.sheet import paper_sheet
    from loopwright.render.sheet.pdf import CannotSet

    try:
        how = {**_taken(checked), "language": language, "style": style, "picture": picture}
        how["schematics"] = _outlines(checked, how["sizes"], terms, language)
        return paper_sheet(checked, terms, paper, charts, large=large, **how)
    except CannotSet as error:
        raise CannotAnswer(str(error)) from None


def pictured(data: bytes) -> tuple[str, int, int] | None:
    """The kind of a picture, by its first bytes, and its dots; None where no sheet can show it."""
    from loopwright.render.sheet.picture import measured

    return measured(data)


def can_print() -> bool:
    """Whether what sets a PDF is installed."""
    from loopwright.render.sheet.pdf import can_set

    return can_set()


def charts(checked: Checked, terms: str, language: str = ENGLISH) -> tuple[tuple[str, str], ...]:
    """The charts of every part, one for all sizes that are drawn alike, as (title, SVG), to set
    into a page."""
    from loopwright.render.chart import every_size

    return every_size(checked, _speaker(terms, language))


def chart_kinds(checked: Checked, part: str, size: int) -> tuple[str, ...]:
    """The kinds of chart that a part has in a size."""
    return ("symbols",) if no_grid(checked, part, size) else ("symbols", "grid")


def sizes(checked: Checked, terms: str, form: str, *, rows: bool = False) -> str:
    """The finished sizes, as ``text`` (with every row where ``rows``) or ``json``."""
    from loopwright.render.sizes import sizes as make

    return make(checked, terms, form, rows=rows)


def schematics(
    checked: Checked, terms: str, language: str = ENGLISH
) -> tuple[tuple[str, str], ...]:
    """The drawing of every part that has a size, as (part, SVG)."""
    from loopwright.measure.dimensions import measures as measure

    return _outlines(checked, measure(checked), terms, language)


def _outlines(
    checked: Checked, sizes: Sequence[PartMeasures], terms: str, language: str
) -> tuple[tuple[str, str], ...]:
    """The same of parts that were measured before."""
    from loopwright.render.schematic import schematic as draw

    speaker = _speaker(terms, language)
    drawn = ((one.part, draw(checked, one, speaker)) for one in sizes)
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
    language: str = ENGLISH,
) -> str:
    """The chart of a part in a size, as ``svg`` or ``text``: of ``symbols``, or the ``grid`` of
    squares, which only a part has that ``no_grid`` says nothing of.

    ``whole`` leaves out no repeat, ``rows`` all but the rows of those numbers; with the
    ``source`` each symbol says which line it comes from."""
    who = _speaker(terms, language)
    if kind == "grid":
        from loopwright.render.chart import grid as squares

        made = squares.grid(checked, part, size, whole=whole, rows=rows)
        if made is None:
            raise CannotAnswer(squares.refusal(checked, part, size))
        return squares.text(made, who) + "\n" if form == "text" else squares.svg(made, who, source)
    from loopwright.render.chart import chart as lay_out
    from loopwright.render.chart import svg, text

    drawn = lay_out(checked, part, size, whole=whole, rows=rows)
    return text(drawn, who) + "\n" if form == "text" else svg(drawn, who, source)


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


def compare(
    old: Result,
    new: Checked,
    terms: str,
    form: str,
    language: str = ENGLISH,
    missing: tuple[str, ...] = (),
) -> str:
    """What changed from an edition, which need not have come out, to another: as ``text``,
    ``markdown`` (a notice to post) or ``json``. The old edition must have been understood so far
    that there is a pattern; ``missing`` are files that it uses and that were not found."""
    from loopwright.editions import compared

    return compared(old, new, (terms, language), form, missing)
