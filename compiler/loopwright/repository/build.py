"""What ``build`` makes of one pattern: the files of a folder, as (path, text)."""

from __future__ import annotations

from typing import TYPE_CHECKING

from loopwright import pipeline
from loopwright.ir.checked import Checked
from loopwright.repository.wording import ENGLISH
from loopwright.source import Source

if TYPE_CHECKING:
    from loopwright.pipeline import Style


def made(
    checked: Checked,
    name: str,
    source: Source | None = None,
    language: str = ENGLISH,
    style: Style | None = None,
) -> list[tuple[str, str]]:
    """Sheets in both terms (or in another language), as a page and as Markdown, and the charts of
    each part in each size: of symbols, and of squares where the part is filet or colourwork.

    The charts of the first size are set into the pages too.
    """
    pattern = checked.pattern
    files: list[tuple[str, str]] = []
    for terms in ("UK", "US") if language == ENGLISH else (pattern.terms,):
        charts = []
        for part in pattern.parts:
            title = part.name if len(pattern.sizes) == 1 else f"{part.name}, {pattern.sizes[0]}"
            for kind in _kinds(checked, part.name, 0):
                titled = f"{title}, in squares" if kind == "grid" else title
                drawing = pipeline.chart(checked, part.name, 0, terms, kind=kind)
                charts.append((titled, drawing))
        path = f"{name}-{terms.lower() if language == ENGLISH else language}"
        for form, ending, shown in (("html", "html", tuple(charts)), ("markdown", "md", ())):
            text = pipeline.sheet(checked, terms, form, shown, language=language, style=style)
            files.append((f"{path}.{ending}", text))
    for part in pattern.parts:
        for size, size_name in enumerate(pattern.sizes):
            named = f"-{slug(size_name)}" if len(pattern.sizes) > 1 else ""
            path = f"charts/{name}-{slug(part.name)}{named}"
            for kind in _kinds(checked, part.name, size):
                drawing = pipeline.chart(
                    checked, part.name, size, pattern.terms, kind=kind, source=source
                )
                files.append((f"{path}{'-squares' if kind == 'grid' else ''}.svg", drawing))
    return files


def _kinds(checked: Checked, part: str, size: int) -> tuple[str, ...]:
    """The kinds of chart that a part has."""
    return ("symbols",) if pipeline.no_grid(checked, part, size) else ("symbols", "grid")


def drawn(checked: Checked, name: str, terms: str) -> list[tuple[str, str]]:
    """A schematic of every part that has a size."""
    found = pipeline.schematics(checked, terms)
    return [(f"{name}-{slug(part)}.svg", svg) for part, svg in found]


def slug(text: str) -> str:
    """A name as a part of a file's name."""
    return "".join(char if char.isalnum() else "-" for char in text.lower()).strip("-")
