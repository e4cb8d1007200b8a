"""The chart of squares: what filet and colourwork are drawn as, made from the fabric.

    grid(checked, "mat", 0)  ->  Grid, a line of squares for each row, or None
    svg(made, "UK")          ->  the drawing, with a key in UK terms
    text(made, "UK")         ->  the same in words, row by row

A part asks for one by what its fabric is. Where bars stand over bars with chains or filled squares
between them, it is filet, and a square is what lies between two bars. Where every stitch stands on
one stitch and a row changes its yarn, it is colourwork, and a square is a stitch. ``filet`` and
``colour`` read a row so; ``build`` puts rows together; ``draw`` and ``words`` show them.
"""

from __future__ import annotations

from loopwright.render.chart.grid.build import grid, refusal, same_drawing
from loopwright.render.chart.grid.draw import svg
from loopwright.render.chart.grid.values import Grid
from loopwright.render.chart.grid.words import text

__all__ = ["Grid", "grid", "refusal", "same_drawing", "svg", "text"]
