"""The pattern sheet: one page that a maker prints or reads on a screen.

    sheet(checked, "UK", "html")      one file, with the charts in it, nothing fetched
    sheet(checked, "US", "markdown")
    sheet(checked, "UK", "text")      78 columns

    paper_sheet(checked, "UK", "a4")  a PDF, as bytes

The words are made in ``render.prose``; here they are only laid out. Charts come in as SVG that has
been drawn already. The HTML page and the PDF show them; the other two print their titles and what
the drawing says of itself. What one form alone needs is imported when that form is asked for.
"""

from __future__ import annotations

import re
from functools import lru_cache
from typing import TYPE_CHECKING

from loopwright.ir.checked import Checked
from loopwright.measure.dimensions import PartMeasures
from loopwright.measure.pace import Time
from loopwright.measure.yarn import YarnUse
from loopwright.render.prose import ENGLISH, Style, prose
from loopwright.render.sheet.drawings import Drawing, drawing

if TYPE_CHECKING:
    from jinja2 import Environment

    from loopwright.render.sheet.working import Charts

TEMPLATES = {"html": "page.html.j2", "markdown": "page.md.j2"}
FORMS = (*TEMPLATES, "text")


def sheet(
    checked: Checked,
    terms: str,
    form: str,
    charts: tuple[tuple[str, str], ...] = (),
    picture: bytes = b"",
    link: str = "",
    yarn: YarnUse | None = None,
    time: tuple[Time, ...] = (),
    sizes: tuple[PartMeasures, ...] = (),
    schematics: tuple[tuple[str, str], ...] = (),
    language: str = ENGLISH,
    style: Style | None = None,
    hook_charts: Charts | None = None,
) -> str:
    """The sheet in ``UK`` or ``US`` terms as ``html``, ``markdown`` or ``text``.

    ``charts`` are (title, SVG text); ``picture`` is the pattern's picture as bytes, read by
    whoever may read files, and ``link`` the address by which Markdown calls it; ``yarn`` and
    ``time`` are what each size takes, ``sizes`` what each part comes out at, where that was
    measured. ``schematics`` are drawings of the finished parts, as (part, SVG text); their lengths
    are in the table of sizes too, so that only a page that can show them has them. ``language`` and
    ``style`` are the prose's. A page has a working mode too where ``hook_charts`` are given: the
    bare drawings that it lights rows in.
    """
    document = prose(checked, terms, yarn, time, sizes, language, style)
    drawings = tuple(drawing(title, svg, at) for at, (title, svg) in enumerate(charts, 1))
    sketches = tuple(
        drawing(title, svg, at) for at, (title, svg) in enumerate(schematics, len(charts) + 1)
    )
    if form == "text":
        from loopwright.render.sheet import text

        return closed_up(text.page(document, drawings, _pictured(checked)))
    from loopwright.render.sheet.picture import address, measured

    page = _environment(form).get_template(TEMPLATES[form])
    told = page.render(
        document=document,
        drawings=drawings,
        sketches=sketches,
        picture=address(picture) if form == "html" else "",
        extent=measured(picture),
        link=link,
        pictured=_pictured(checked),
        **(_live(checked, terms, hook_charts, language, style) if form == "html" else {}),
    )
    return closed_up(told)


def paper_sheet(
    checked: Checked,
    terms: str,
    paper: str,
    charts: tuple[tuple[str, str], ...] = (),
    *,
    large: bool = False,
    yarn: YarnUse | None = None,
    time: tuple[Time, ...] = (),
    sizes: tuple[PartMeasures, ...] = (),
    schematics: tuple[tuple[str, str], ...] = (),
    picture: bytes = b"",
    language: str = ENGLISH,
    style: Style | None = None,
) -> bytes:
    """The sheet as a PDF on ``a4`` or ``letter`` paper, in large print where ``large``; the rest
    as for ``sheet``. Raises ``pdf.CannotSet``."""
    from loopwright.render.sheet.pdf import Page, pdf

    document = prose(checked, terms, yarn, time, sizes, language, style)
    drawings = tuple(drawing(title, svg) for title, svg in charts)
    sketches = tuple(drawing(title, svg) for title, svg in schematics)
    page = Page(
        document,
        f"{terms} terms" if language == ENGLISH else "",
        sketches,
        drawings,
        picture=picture,
        pictured=_pictured(checked),
    )
    return pdf(page, paper, large=large)


def _pictured(checked: Checked) -> str:
    """The words that stand for the picture; empty where there are none."""
    return checked.pattern.picture[1] if checked.pattern.picture else ""


def _live(
    checked: Checked, terms: str, charts: Charts | None, language: str, style: Style | None
) -> dict[str, object]:
    """What a page needs to come alive, and the styles and the script that it allows."""
    from loopwright.render.prose.at_hook import at_hook, voices
    from loopwright.render.prose.hook_words import hook_words
    from loopwright.render.sheet.working import working

    found = None
    speakers = voices(language, style)
    own = speakers.get(terms) or next(iter(speakers.values()))
    if charts is not None:
        whole = at_hook(checked, speakers.values())
        lang = {name: one.lang for name, one in speakers.items()}
        found = working(checked.pattern, whole, lang, charts)
    return {
        "working": found,
        "uncounted": charts is not None and found is None,
        "own_terms": terms if terms in speakers else language,
        "hook": hook_words(own),
        "styles": _own("page.css") + (_own("working.css") if found else ""),
        "script": _own("working.js"),
    }


@lru_cache(maxsize=8)
def _own(name: str) -> str:
    """One of this folder's files, as it stands in a page."""
    from jinja2 import PackageLoader

    text = PackageLoader("loopwright.render.sheet", "").get_source(_environment("html"), name)[0]
    return closed_up(text)


@lru_cache(maxsize=len(TEMPLATES))
def _environment(form: str) -> Environment:
    from jinja2 import Environment, PackageLoader, StrictUndefined

    from loopwright.render.sheet import markdown
    from loopwright.render.sheet.keeping import bound
    from loopwright.render.sheet.working import allowed

    environment = Environment(
        loader=PackageLoader("loopwright.render.sheet", ""),
        autoescape=form == "html",
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )
    environment.filters.update(allowed=allowed, bound=bound)
    environment.filters.update(markdown.FILTERS)
    return environment


def closed_up(told: str) -> str:
    """No white space at line ends, never two empty lines, one newline at the end."""
    lines = "\n".join(line.rstrip() for line in told.splitlines())
    return re.sub(r"\n{3,}", "\n\n", lines).strip("\n") + "\n"


__all__ = ["FORMS", "Drawing", "paper_sheet", "sheet"]
