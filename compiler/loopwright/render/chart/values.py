"""The chart as a value: symbols in their places, before anything is drawn.

All lengths are in units of the page, ``STEP`` to a stitch; x runs to the right and y down, as on
a page. Words are kept as pieces, text and stitches in turn, and become UK or US only when said.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from loopwright.frozen import Frozen, NamedTuple
from loopwright.ir.fabric import WorkedRow
from loopwright.source import Span
from loopwright.trade.stitches import Stitch

if TYPE_CHECKING:
    from loopwright.render.chart.choose import Selection

STEP = 16.0  # from one stitch to the next: a little over 4 mm on paper at 96 units to the inch

Words = tuple[str | Stitch, ...]
"""What is said of something: text and phrases (``render.speaker.said``), with stitches between."""


class Point(NamedTuple):
    """A point of the page."""

    x: float
    y: float


class Look(NamedTuple):
    """What tells one symbol of the key from another: its shape, and for a stitch which, seen from
    the right side, and in which loop."""

    shape: str
    stitch: Stitch | None = None
    loop: str = ""


class Symbol(Frozen):
    """A placed symbol.

    ``top`` is where it ends and ``feet`` where it comes from (several for a decrease, none for a
    ring); a run of chains has a ``path`` with one more point than it has chains. ``angle`` is in
    degrees clockwise from upright, ``scale`` its length against the usual one for its height.
    ``row`` counts the rows drawn from 1 (0 for the start), ``nth`` the stitches of the row (0 for
    what is no stitch).
    """

    look: Look
    top: Point
    feet: tuple[Point, ...]
    path: tuple[Point, ...]
    angle: float
    scale: float
    row: int
    number: int
    nth: int
    span: Span
    words: Words
    yarn: int = 0

    @property
    def name(self) -> str:
        """The symbol's name, without regard to terms."""
        stitch = self.look.stitch
        return f"{self.look.shape} {stitch.basic}" if stitch else self.look.shape


class Mark(Frozen):
    """The number at the start of a row, beside its first symbol, with an arrow the way it is
    read: ``toward`` is a step that way, or none where there is no room for an arrow. Without a
    number it is a change of yarn in a row."""

    text: str
    at: Point
    toward: Point
    yarn: int


class Bracket(Frozen):
    """A bracket along ``one`` to ``two`` with what it says; ``side`` is the way its ends point, and
    its words, in lines of ``widest`` characters where there is little room, stand on the other.
    With a ``centre`` it is an arc anticlockwise about that, and its ends point there. ``band`` are
    the outer and the inner edge of the rounds that it is of, which lie on grey."""

    one: Point
    two: Point
    side: Point
    text: str
    centre: Point | None = None
    band: tuple[tuple[Point, ...], ...] = ()
    widest: int = 0


class Break(Frozen):
    """Where a strip of every row is left out: a zigzag line through these points."""

    points: tuple[Point, ...]


class Far(NamedTuple):
    """Where a stitch goes that is worked further down: the words of one such place and of several,
    and how many stitches go into each (0 where that is not known)."""

    one: Words
    many: Words
    each: int


class RowText(Frozen):
    """A row for the text equivalent: as worked, its number in the part, how often its stretch is
    worked and how many rows that stretch has;
    ``alternates`` where it is on either side in turn. ``far`` is what is said of the stitches that
    go further down, by their item.
    """

    worked: WorkedRow
    number: int
    times: int
    stretch: int
    alternates: bool = False
    far: tuple[tuple[int, Far], ...] = ()


class OtherSize(Frozen):
    """A further size that a chart stands for: its name, its rows, and what was chosen of them."""

    size: str
    rows: tuple[RowText, ...]
    selection: Selection | None


class Chart(Frozen):
    """A whole chart: ``manner`` is ``rows``, ``rounds``, ``half circle``, ``oval``, ``frame`` (a
    border around its piece) or ``flat rounds`` (rounds drawn as rows from right to left).
    ``notes`` say in words whatever is left out of the drawing,
    ``described`` what the designer says of each yarn by its name. ``selection`` is what was chosen
    to be drawn; ``others`` are further sizes that this one stands for as well."""

    title: str
    part: str
    size: str
    manner: str
    width: float
    height: float
    symbols: tuple[Symbol, ...]
    marks: tuple[Mark, ...]
    brackets: tuple[Bracket, ...]
    breaks: tuple[Break, ...]
    rows: tuple[RowText, ...]
    yarns: tuple[tuple[str, str], ...]
    start: Words
    notes: tuple[Words, ...]
    described: tuple[tuple[str, str], ...] = ()
    selection: Selection | None = None
    others: tuple[OtherSize, ...] = ()
