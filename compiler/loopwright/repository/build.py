"""What ``build`` makes of one pattern: the files of a folder, as (path, text)."""

from __future__ import annotations

from loopwright import pipeline
from loopwright.ir.checked import Checked


def made(checked: Checked, name: str) -> list[tuple[str, str]]:
    """Sheets in both terms, as a page and as Markdown, and a chart of each part in each size.

    The charts of the first size are set into the pages too.
    """
    pattern = checked.pattern
    files: list[tuple[str, str]] = []
    for terms in ("UK", "US"):
        charts = []
        for part in pattern.parts:
            title = part.name if len(pattern.sizes) == 1 else f"{part.name}, {pattern.sizes[0]}"
            charts.append((title, pipeline.chart(checked, part.name, 0, terms)))
        low = terms.lower()
        files.append((f"{name}-{low}.html", pipeline.sheet(checked, terms, "html", tuple(charts))))
        files.append((f"{name}-{low}.md", pipeline.sheet(checked, terms, "markdown")))
    for part in pattern.parts:
        for size, size_name in enumerate(pattern.sizes):
            named = f"-{_slug(size_name)}" if len(pattern.sizes) > 1 else ""
            path = f"charts/{name}-{_slug(part.name)}{named}.svg"
            files.append((path, pipeline.chart(checked, part.name, size, pattern.terms)))
    return files


def drawn(checked: Checked, name: str, terms: str) -> list[tuple[str, str]]:
    """A schematic of every part that has a size."""
    found = pipeline.schematics(checked, terms)
    return [(f"{name}-{_slug(part)}.svg", svg) for part, svg in found]


def _slug(text: str) -> str:
    return "".join(char if char.isalnum() else "-" for char in text.lower()).strip("-")
