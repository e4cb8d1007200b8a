"""What ``chart`` answers: the chart that is asked for, in which form and how large."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from loopwright.repository.files import CannotLook
from loopwright.repository.wording import language

if TYPE_CHECKING:
    from argparse import Namespace

    from loopwright import Pattern

PNG_SCALE = 2.0
"""A PNG is drawn so much larger unless it is said: two dots for every one of a plain screen."""

MOST_DOTS = 64_000_000
"""Of one PNG: a quarter of a gigabyte while it is drawn."""


def answer(pattern: Pattern, told: Namespace, form: str) -> tuple[str | bytes, list[str]]:
    """The chart as ``svg``, ``png`` or ``text``, and what is to be said beside it. Raises
    ``CannotLook``, and ``CannotAnswer`` where there is no such chart."""
    made = pattern.chart(
        part=told.part or "",
        size=told.size or "",
        terms=(told.terms or "").upper(),
        kind=told.kind or "",
        form="text" if form == "text" else "svg",
        rows=told.rows,
        whole=told.whole,
        language=language(told.language, told.terms),
    )
    hints = []
    others = [one for one in made.parts if one != made.part]
    if others and told.part is None:
        listed = ", ".join(others)
        hints.append(f"This is the part {made.part}; there is also {listed} (--part NAME).")
    if made.kind == "grid" and told.kind is None:
        hints.append("This is the chart of squares; `--kind symbols` draws every stitch.")
    if form == "png":
        return _png(made.svg, told.scale or PNG_SCALE), hints
    return (scaled(made.svg, told.scale) if told.scale else made.svg or made.text), hints


def scaled(svg: str, scale: float) -> str:
    """A drawing so many times as large: the page grows, what is on it keeps its numbers."""
    width, height = page_of(svg)
    told = f'width="{_number(width * scale)}" height="{_number(height * scale)}"'
    return re.sub(r'width="[\d.]+" height="[\d.]+"', told, svg, count=1)


def page_of(svg: str) -> tuple[float, float]:
    """The width and the height of a drawing."""
    found = re.search(r'<svg [^>]*?width="([\d.]+)" height="([\d.]+)"', svg)
    return (float(found[1]), float(found[2])) if found else (0.0, 0.0)


def _number(value: float) -> str:
    return f"{value:.2f}".rstrip("0").rstrip(".")


def _png(svg: str, scale: float) -> bytes:
    from loopwright.repository.picture import png

    width, height = (round(one * scale) for one in page_of(svg))
    if width * height > MOST_DOTS:
        raise CannotLook(
            f"at this scale the picture would have {width:,} by {height:,} dots, and more than "
            f"{MOST_DOTS // 1_000_000} million are not drawn; take a smaller --scale, or --rows."
        )
    return png(svg, scale)
