"""What ``build`` makes of one pattern: the files of a folder, as (path, text)."""

from __future__ import annotations

from loopwright import pipeline
from loopwright.ir.checked import Checked
from loopwright.repository.paper import Paper, printed
from loopwright.source import Source


def made(
    checked: Checked, name: str, paper: Paper | None = None, source: Source | None = None
) -> list[tuple[str, str | bytes]]:
    """Sheets in both terms, as a page and as Markdown, and the charts of each part in each size:
    of symbols, and of squares where the part is filet or colourwork; on ``paper``, sheets as PDF
    too.

    The charts of the first size are set into the pages too.
    """
    pattern = checked.pattern
    files: list[tuple[str, str | bytes]] = []
    for terms in ("UK", "US"):
        charts = pipeline.charts(checked, terms)
        low = terms.lower()
        files.append((f"{name}-{low}.html", pipeline.sheet(checked, terms, "html", charts)))
        files.append((f"{name}-{low}.md", pipeline.sheet(checked, terms, "markdown")))
        if paper is not None:
            files.append((f"{name}-{low}.pdf", printed(checked, terms, paper, charts)))
    for part in pattern.parts:
        for size, size_name in enumerate(pattern.sizes):
            named = f"-{_slug(size_name)}" if len(pattern.sizes) > 1 else ""
            path = f"charts/{name}-{_slug(part.name)}{named}"
            for kind in pipeline.chart_kinds(checked, part.name, size):
                drawing = pipeline.chart(
                    checked, part.name, size, pattern.terms, kind=kind, source=source
                )
                files.append((f"{path}{'-squares' if kind == 'grid' else ''}.svg", drawing))
    return files


def drawn(checked: Checked, name: str, terms: str) -> list[tuple[str, str]]:
    """A schematic of every part that has a size."""
    found = pipeline.schematics(checked, terms)
    return [(f"{name}-{_slug(part)}.svg", svg) for part, svg in found]


def _slug(text: str) -> str:
    return "".join(char if char.isalnum() else "-" for char in text.lower()).strip("-")
