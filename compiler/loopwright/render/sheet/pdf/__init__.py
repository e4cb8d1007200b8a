"""The sheet as a PDF that a screen reader can read: tagged, held to PDF/UA-1 by the typesetter.

    pdf(page, "a4")                  bytes of a PDF
    pdf(page, "letter", large=True)  in large print

The words reach the typesetter as data (``data.json``) and are set as strings, so that nothing in
them is markup. Only its own fonts and those of this folder are used and no date is written, so that
the same sheet gives the same bytes on every machine.
"""

from __future__ import annotations

import json
import pkgutil
import re
from typing import Any, Literal, cast

from loopwright.frozen import NamedTuple
from loopwright.render.prose import Block, Document, Entries, Paragraph, Steps, Table
from loopwright.render.sheet.drawings import Drawing
from loopwright.render.sheet.keeping import bound
from loopwright.render.sheet.pdf.glyphs import missing, spelled

PAPERS = ("a4", "letter")
STANDARD: Literal["ua-1"] = "ua-1"
ANY_SANS, SANS = 'font-family="sans-serif"', 'font-family="DejaVu Sans"'
"""What a drawing asks for, and the one that there is."""

_ABOUT = re.compile(r' data-[a-z]+="[^"]*"')
"""What a drawing tells programs of its symbols: nothing of it is seen, and all of it is read."""

TRIES = 4
"""Settings of one sheet: each spells out what the one before could not find in the fonts."""


class Page(NamedTuple):
    """What a sheet is made of: its words, its drawings, and its picture as bytes with the words
    that stand in for it. ``terms`` is how the foot of the page calls the terms."""

    document: Document
    terms: str
    sketches: tuple[Drawing, ...] = ()
    charts: tuple[Drawing, ...] = ()
    picture: bytes = b""
    pictured: str = ""


class CannotSet(Exception):
    """The typesetter refused the sheet; the text says why in its own words."""


def can_set() -> bool:
    """Whether the typesetter is installed."""
    try:
        import typst  # noqa: F401
    except ImportError:
        return False
    return True


def pdf(page: Page, paper: str, *, large: bool = False) -> bytes:
    """The sheet on ``a4`` or ``letter`` paper, in large print where ``large``.

    Characters that are in none of the fonts are printed as ``<U+7DE8>``. Raises ``CannotSet``, and
    ``ImportError`` where the typesetter is not installed.
    """
    import typst

    files = _files(page, paper, large=large)
    fonts = typst.Fonts(include_system_fonts=False, font_paths=[_folder()])
    for _ in range(TRIES):
        try:
            made = typst.compile(
                cast(Any, files),  # its types leave out files that are given by name
                format="pdf",
                font_paths=fonts,
                ignore_system_fonts=True,
                pdf_standards=[STANDARD],
                timestamp=0,
            )
        except typst.TypstError as error:
            lacking = missing(error.diagnostic)
            if not lacking:
                raise CannotSet(error.message) from None
            files = {name: spelled(name, data, lacking) for name, data in files.items()}
        else:
            return bytes(made)
    raise CannotSet("it has characters that no font has.")


def _folder() -> str:
    return f"{__path__[0]}/fonts"


def _files(page: Page, paper: str, *, large: bool) -> dict[str, bytes]:
    """What the typesetter is given to read: the layout, the words, the drawings, the picture."""
    layout = pkgutil.get_data(__name__, "page.typ")
    assert layout is not None
    files = {"main": layout}
    words = page.document.words
    told: dict[str, Any] = {
        "title": page.document.title,
        "terms": page.terms,
        "lang": page.document.lang.partition("-")[0],
        "region": page.document.lang.partition("-")[2] or None,
        "paper": {"a4": "a4", "letter": "us-letter"}[paper],
        "large": large,
        "lead": [_kept(_block(one)) for one in page.document.lead],
        "sections": [
            {
                "heading": one.heading,
                "kind": one.kind,
                "blocks": [_kept(_block(each)) for each in one.blocks],
            }
            for one in page.document.sections
        ],
        "note": words.note,
        "colon": words.colon,
        "finished": words.schematics,
        "bold": page.document.bold_counts,
        "pictured": page.pictured or page.document.title,
        "unseen": words.picture_of(page.pictured) if page.pictured else "",
        "picture": "picture.json" if page.picture else None,
    }
    for kind, drawn in (("sketches", page.sketches), ("charts", page.charts)):
        told[kind] = []
        for number, one in enumerate(drawn, 1):
            svg = _ABOUT.sub("", one.svg).replace(ANY_SANS, SANS)
            files[f"{kind}-{number}.svg"] = svg.encode()
            told[kind].append(_drawn(one, kind, words.chart_of(one.title), f"{kind}-{number}.svg"))
    if page.picture:
        # What is handed over has to be text: the bytes go as numbers.
        files["picture.json"] = json.dumps(list(page.picture)).encode()
    files["data.json"] = json.dumps(told, ensure_ascii=False).encode()
    return files


def _kept(value: Any) -> Any:
    """The words of a block with what belongs together kept on one line."""
    if isinstance(value, str):
        return bound(value)
    if isinstance(value, dict):
        return {key: _kept(one) for key, one in value.items()}
    return [_kept(one) for one in value]


def _drawn(one: Drawing, kind: str, heading: str, file: str) -> dict[str, Any]:
    """A drawing as the layout reads it, with the words that stand for it."""
    said = one.description or one.title
    if kind == "sketches" and one.description:
        said = f"{one.title}: {said}"
    return {"heading": heading, "file": file, "words": said, "wide": one.wide, "high": one.high}


def _block(one: Block) -> dict[str, Any]:
    """A block of the document as the layout reads it."""
    if isinstance(one, Paragraph):
        return {"kind": one.kind, "manner": one.manner, "text": one.text}
    if isinstance(one, Entries):
        return {"kind": one.kind, "pairs": one.pairs}
    if isinstance(one, Table):
        return {"kind": one.kind, "caption": one.caption, "head": one.head, "rows": one.rows}
    assert isinstance(one, Steps)
    steps = [
        {
            "label": step.label,
            "text": step.text,
            "count": step.count,
            "remark": step.remark,
            "details": step.details,
        }
        for step in one.steps
    ]
    return {"kind": one.kind, "steps": steps}
