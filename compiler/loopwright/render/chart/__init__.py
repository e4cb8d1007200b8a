"""The chart of a part: symbols placed where the fabric has its stitches, then drawn as SVG.

    chart(checked, "disc", 0)  ->  Chart, every symbol with its place, row, stitch and source
    svg(chart, "UK")           ->  the drawing, with a key in UK terms
    text(chart, "UK")          ->  the same in words, row by row
    rows_only(chart)           ->  the bare drawing, for a page that lights one row

``links`` and ``deep`` follow every stitch to the place it goes into; ``strips`` with a layout for
each shape (``layout_rows`` with ``sweeps``, ``layout_rounds``, ``layout_oval``, ``layout_frame``)
finds where each stands; ``symbols`` knows what each looks like; ``choose`` and ``leave_out`` say
what is drawn and ``notes`` what is not.
"""

from __future__ import annotations

from loopwright.ir.checked import Checked
from loopwright.render.chart.build import build
from loopwright.render.chart.choose import Wish
from loopwright.render.chart.rows_only import rows_only
from loopwright.render.chart.svg import svg
from loopwright.render.chart.text import text
from loopwright.render.chart.values import Chart, Symbol
from loopwright.render.speaker import Speaker, speaker_of

__all__ = ["Chart", "Symbol", "chart", "in_squares", "rows_only", "svg", "text"]


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
    return build(checked, part, size, Wish(whole, rows))


def in_squares(title: str, who: Speaker | str) -> str:
    """The title of a chart of squares, where that of symbols has the one given."""
    return speaker_of(who).say("{title}, in squares", title=title)
