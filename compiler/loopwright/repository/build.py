"""What ``build`` makes of one pattern: the files of a folder, as (path, text)."""

from __future__ import annotations

import os

from loopwright import pipeline
from loopwright.ir.checked import Checked
from loopwright.repository.paper import Paper, printed
from loopwright.repository.wording import ENGLISH, PLAIN, Wording
from loopwright.source import Source


def made(
    checked: Checked,
    name: str,
    source: Source | None = None,
    words: Wording = PLAIN,
    paper: Paper | None = None,
) -> list[tuple[str, str | bytes]]:
    """Sheets in both terms (or in another language), as a page and as Markdown, and the charts of
    each part in each size: of symbols, and of squares where the part is filet or colourwork; on
    ``paper``, sheets as PDF too.

    The charts of the first size are set into the pages too.
    """
    pattern = checked.pattern
    files: list[tuple[str, str | bytes]] = []
    english = words.language == ENGLISH
    for terms in ("UK", "US") if english else (pattern.terms,):
        charts = pipeline.charts(checked, terms)
        path = f"{name}-{terms.lower() if english else words.language}"
        for form, ending, shown in (("html", "html", charts), ("markdown", "md", ())):
            text = pipeline.sheet(checked, terms, form, shown, **words._asdict())
            files.append((f"{path}.{ending}", text))
        if paper is not None:
            files.append((f"{path}.pdf", printed(checked, terms, paper, charts, words)))
    for part in pattern.parts:
        for size, size_name in enumerate(pattern.sizes):
            named = f"-{slug(size_name)}" if len(pattern.sizes) > 1 else ""
            path = f"charts/{name}-{slug(part.name)}{named}"
            for kind in pipeline.chart_kinds(checked, part.name, size):
                drawing = pipeline.chart(
                    checked, part.name, size, pattern.terms, kind=kind, source=source
                )
                files.append((f"{path}{'-squares' if kind == 'grid' else ''}.svg", drawing))
    return files


def drawn(checked: Checked, name: str, terms: str) -> list[tuple[str, str]]:
    """A schematic of every part that has a size."""
    found = pipeline.schematics(checked, terms)
    return [(f"{name}-{slug(part)}.svg", svg) for part, svg in found]


def slug(text: str) -> str:
    """A name as a part of a file's name."""
    return "".join(char if char.isalnum() else "-" for char in text.lower()).strip("-")


def name_of(file: str) -> str:
    """What the files that are made of a pattern are called after."""
    return os.path.splitext(os.path.basename(file))[0] if file != "-" else "pattern"
