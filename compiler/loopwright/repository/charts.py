"""What ``chart`` answers: which chart is asked for, in which form and how large."""

from __future__ import annotations

import re
from dataclasses import dataclass

from loopwright import pipeline
from loopwright.ir.checked import Checked
from loopwright.repository.files import CannotLook
from loopwright.source import Source

PNG_SCALE = 2.0
"""A PNG is drawn so much larger unless it is said: two dots for every one of a plain screen."""

MOST_DOTS = 64_000_000
"""Of one PNG: a quarter of a gigabyte while it is drawn."""


@dataclass(frozen=True, slots=True)
class Asked:
    """A chart as it is asked for: ``form`` is ``svg``, ``png`` or ``text``, ``kind`` is
    ``symbols``, ``grid`` or None for what the part has."""

    part: str
    size: int
    terms: str
    form: str
    kind: str | None = None
    rows: tuple[int, int] | None = None
    whole: bool = False
    scale: float | None = None


def answer(checked: Checked, asked: Asked, source: Source) -> tuple[str | bytes, list[str]]:
    """The chart, and what is to be said beside it. Raises ``CannotLook``."""
    rows = _rows(checked, asked)
    refused = ""
    if asked.kind != "symbols":
        refused = pipeline.no_grid(checked, asked.part, asked.size, rows)
    if refused and asked.kind == "grid":
        raise CannotLook(refused)
    kind = "symbols" if refused or asked.kind == "symbols" else "grid"
    form = "text" if asked.form == "text" else "svg"
    made = pipeline.chart(
        checked,
        asked.part,
        asked.size,
        asked.terms,
        kind=kind,
        form=form,
        whole=asked.whole,
        rows=rows,
        source=source,
    )
    hints = []
    if kind == "grid" and asked.kind is None:
        hints.append("This is the chart of squares; `--kind symbols` draws every stitch.")
    if asked.form == "png":
        return _png(made, asked.scale or PNG_SCALE), hints
    return (scaled(made, asked.scale) if asked.scale else made), hints


def _rows(checked: Checked, asked: Asked) -> tuple[int, int] | None:
    """The rows asked for, which are rows of the part; a setup row goes with the first."""
    if asked.rows is None:
        return None
    first, last = pipeline.row_numbers(checked, asked.part, asked.size)
    low, high = asked.rows
    if low < first or high > last:
        some = f"row {last}" if first == last else f"rows {max(first, 1):,} to {last:,}"
        wrong = f"{low:,}" if low == high else f"{low:,} to {high:,}"
        raise CannotLook(f"the part {asked.part} has {some}, not {wrong}.")
    return (min(first, low), high) if low == 1 else (low, high)


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
