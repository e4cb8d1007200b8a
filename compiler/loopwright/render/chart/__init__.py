"""The chart of a part: symbols placed where the fabric has its stitches, then drawn as SVG.

    chart(checked, "disc", 0)  ->  Chart, every symbol with its place, row, stitch and source
    svg(chart, "UK")           ->  the drawing, with a key in UK terms
    text(chart, "UK")          ->  the same in words, row by row
    rows_only(chart)           ->  the bare drawing, for a page that lights one row
    every_size(checked, "UK")  ->  the charts that a page shows, one for sizes that are drawn alike

``links`` and ``deep`` follow every stitch to the place it goes into; ``strips`` with a layout for
each shape (``layout_rows`` with ``sweeps``, ``layout_rounds``, ``layout_oval``, ``layout_frame``)
finds where each stands; ``symbols`` knows what each looks like; ``choose`` says what is drawn, with
``leave_out`` for rows, ``wedge`` for large rounds and ``sides`` for ovals and borders, ``notes``
what is not; ``layout_wedge`` and ``tubes`` cut open what is laid out round and drawn flat.
"""

from __future__ import annotations

from loopwright.ir.checked import Checked
from loopwright.render.chart.all_sizes import bare, every_size, needed
from loopwright.render.chart.build import build
from loopwright.render.chart.choose import Wish
from loopwright.render.chart.rows_only import rows_only
from loopwright.render.chart.svg import svg
from loopwright.render.chart.text import text
from loopwright.render.chart.values import Chart, Symbol

__all__ = ["Chart", "Symbol", "bare", "chart", "every_size", "rows_only", "svg", "text"]


def chart(
    checked: Checked,
    part: str,
    size: int,
    *,
    whole: bool = False,
    rows: tuple[int, int] | None = None,
) -> Chart:
    """The chart of the part of that name, in the size of that index.

    ``whole`` draws every repeat and every row, as far as a chart can hold them; ``rows`` draws
    only the rows whose numbers lie from the first to the last of the two."""
    if not whole and rows is None:
        return needed(checked, part, size)
    return build(checked, part, size, Wish(whole, rows))
