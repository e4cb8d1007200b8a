"""What ``build`` makes of one pattern: the files of a folder, as (path, text)."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING

from loopwright.repository.beside import NO_PICTURE, Beside, quoted
from loopwright.repository.files import handed
from loopwright.repository.paper import Paper, printed
from loopwright.repository.wording import ENGLISH, PLAIN, Wording

if TYPE_CHECKING:
    from loopwright import Pattern


def made(
    pattern: Pattern,
    name: str,
    words: Wording = PLAIN,
    paper: Paper | None = None,
    picture: Beside = NO_PICTURE,
) -> tuple[list[tuple[str, str | bytes]], list[str]]:
    """Sheets in both terms (or in another language), as a page and as Markdown, and the charts of
    each part in each size: of symbols, and of squares where the part is filet or colourwork; on
    ``paper``, sheets as PDF too. Then why the picture is not in them, where it is not.

    The charts are set into the pages too, one for all sizes drawn alike, and so is the picture;
    Markdown calls a copy of it that goes with the rest.
    """
    files: list[tuple[str, str | bytes]] = []
    copy = f"pictures/{name}.{picture.ending}" if picture.data else ""
    called = quoted(copy)
    troubles = list(picture.troubles)
    english = words.language == ENGLISH
    for terms in ("UK", "US") if english else (pattern.terms,):
        charts = pattern.charts(terms=terms, language=words.language)
        path = f"{name}-{terms.lower() if english else words.language}"
        for form, ending, shown in (("html", "html", charts), ("markdown", "md", ())):
            how = {"picture": picture.data, "link": called, **words._asdict()}
            text = pattern.sheet(terms=terms, form=form, charts=shown, **how)
            files.append((f"{path}.{ending}", text))
        if paper is not None:
            data, more = printed(pattern, terms, paper, charts, words, picture)
            files.append((f"{path}.pdf", data))
            troubles += [one for one in more if one not in troubles]
    if copy:
        files.append((copy, picture.data))
    return files + _charts(pattern, name), troubles


def _charts(pattern: Pattern, name: str) -> list[tuple[str, str | bytes]]:
    """The charts of each part in each size."""
    files: list[tuple[str, str | bytes]] = []
    for part in pattern.parts:
        for size in pattern.sizes:
            named = f"-{slug(size)}" if len(pattern.sizes) > 1 else ""
            path = f"charts/{name}-{slug(part)}{named}"
            for kind in pattern.chart_kinds(part=part, size=size):
                drawing = pattern.chart(part=part, size=size, kind=kind).svg
                files.append((f"{path}{'-squares' if kind == 'grid' else ''}.svg", drawing))
    return files


def drawn(pattern: Pattern, name: str, terms: str) -> list[tuple[str, str | bytes]]:
    """A schematic of every part that has a size."""
    found = pattern.schematics(terms=terms)
    return [(f"{name}-{slug(part)}.svg", svg) for part, svg in found]


def slug(text: str) -> str:
    """A name as a part of a file's name."""
    return "".join(char if char.isalnum() else "-" for char in text.lower()).strip("-")


def named(file: str, size: str | None, language: str) -> tuple[str, str]:
    """What the files of a build are called after, and what was asked for: a build takes away only
    what the same question was answered with before."""
    name, asked = name_of(file), "build"
    if size is not None:
        name, asked = f"{name}-{slug(size)}", f"{asked} --size {size}"
    return name, asked if language == ENGLISH else f"{asked} --language {language}"


def name_of(file: str) -> str:
    """What the files that are made of a pattern are called after."""
    return "pattern" if handed(file) else os.path.splitext(os.path.basename(file))[0]
