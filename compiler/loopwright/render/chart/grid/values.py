"""The chart of squares as a value: lines of squares, before anything is drawn."""

from __future__ import annotations

from loopwright.frozen import Frozen, NamedTuple
from loopwright.render.chart.choose import Over
from loopwright.render.chart.values import Words
from loopwright.source import Span
from loopwright.trade.stitches import Stitch

OPEN, FILLED = 0, 1
FILET, COLOUR = "filet", "colour"


class Square(NamedTuple):
    """A square: ``kind`` is ``OPEN`` or ``FILLED`` in filet, the index of the yarn in colourwork;
    ``nth`` is the number in its row of the stitch that ends it, ``span`` where that is written."""

    kind: int
    nth: int
    span: Span


class Line(Frozen):
    """A row of squares in the order worked. ``right`` is how many columns lie to the right of it
    on the page; ``index`` counts the rows that were looked at from 0, ``number`` is the row's."""

    squares: tuple[Square, ...]
    index: int
    number: int
    wrong_side: bool
    is_round: bool
    right: int = 0

    @property
    def leftwards(self) -> tuple[Square, ...]:
        """The squares from right to left, as the right side shows them."""
        return self.squares[::-1] if self.wrong_side else self.squares


class Again(NamedTuple):
    """Columns that come again: after ``lead`` columns from the right, ``unit`` of them, ``shown``
    times on the page and so many ``times`` in all, in each size."""

    lead: int
    unit: int
    shown: int
    times: tuple[int, ...]


class Grid(Frozen):
    """A chart of squares. ``kind`` is ``filet`` or ``colour``; a square is ``unit`` columns of
    stitches wide; ``stitch`` is that of filet's bars, or of all of the colourwork where it is one.
    ``yarns`` are (letter, name, description); ``over`` the rows worked over and over, by index.
    ``whole`` are the lines with all their columns, where ``lines`` leave some out; ``others`` are
    the charts of further sizes that this one stands for as well."""

    title: str
    part: str
    size: str
    kind: str
    unit: int
    stitch: Stitch | None
    columns: int
    lines: tuple[Line, ...]
    whole: tuple[Line, ...]
    over: tuple[Over, ...]
    again: Again | None
    yarns: tuple[tuple[str, str, str], ...]
    notes: tuple[Words, ...]
    others: tuple[Grid, ...] = ()
