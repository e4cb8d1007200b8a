"""Form: what a part is, laid on a table, and so how a schematic draws it.

disc      rounds from a middle that lie flat
motif     the same with corners
ruffle    rounds that have no room to lie flat
oval      rounds about both sides of a chain that lie flat
surface   rounds that stand up: a tube, a bowl, a hat, a ball
outline   rows
"""

from __future__ import annotations

from math import pi

from loopwright.frozen import Frozen
from loopwright.ir.fabric import WorkedPart
from loopwright.ir.pattern import Gauge, Part
from loopwright.measure.growth import BORDER, Growth, fans_out, growth, starts_in_a_middle
from loopwright.measure.outline import Outline, outline
from loopwright.measure.oval import Oval, oval
from loopwright.measure.shape import Profile, profile
from loopwright.measure.values import PartSize


class Form(Frozen):
    """``kind`` is one of those above; with ``corners`` for a motif, the ``oval``, the ``profile``
    of other rounds, the ``outline`` of rows. ``middle`` tells whether rounds begin in one.
    ``left_out`` is how many rows or rounds are not in the drawing, where a part has both."""

    kind: str
    corners: int = 0
    profile: Profile | None = None
    outline: Outline | None = None
    middle: bool = False
    left_out: int = 0
    oval: Oval | None = None


def form(part: Part, worked: WorkedPart, size: PartSize, gauge: Gauge) -> Form | None:
    """What a part is in a size; None where it has nothing that could be drawn by itself: a border
    is drawn with nothing inside it, and of rows about a middle it is not known how they bend."""
    if not size.within_reason or any(edge.what == "all round" for edge in part.start.edges):
        return None
    rounds, rows = _many(size)
    if fans_out(part, worked):
        return None
    if rows >= rounds:
        made = outline(worked, size, gauge)
        return Form("outline", outline=made, left_out=rounds) if made is not None else None
    if not rows and (flat := oval(part, worked, size, gauge)) is not None:
        return Form("oval", oval=flat)
    middle = starts_in_a_middle(part, worked)
    turned = profile(size, _hole(part, worked, gauge) if middle else None)
    grown = growth(part, worked, size)
    kind = _kind(part, grown) if grown is not None and not grown.oval else "surface"
    if turned is None:
        return None
    corners = grown.corners if grown is not None and kind == "motif" else 0
    return Form(kind, corners, turned, None, middle, rows)


def _many(size: PartSize) -> tuple[int, int]:
    """How many rounds and how many rows a part has."""
    rounds = rows = 0
    for stretch, times in size.stretches:
        round_ = sum(row.is_round for row in stretch)
        rounds += round_ * times
        rows += (len(stretch) - round_) * times
    return rounds, rows


def _hole(part: Part, worked: WorkedPart, gauge: Gauge) -> float:
    """The radius of the ring a part begins with, in mm."""
    if part.start.what != "chain" or not part.start.ring:
        return 0.0
    return worked.start.length * float(gauge.over / gauge.stitches) / (2 * pi)


def _kind(part: Part, grown: Growth) -> str:
    """What rounds from a middle are. The loops of openwork have no width of their own, so it is
    taken at its word: flat unless the part is said to be otherwise."""
    openwork = any(row.openwork for row in grown.rows)
    if part.shaped and not part.frilled and grown.after > BORDER:
        return "surface"  # rounds that grow fast, and then no more, turn over: a hat, a bowl
    if grown.ruffles and (part.frilled or not openwork):
        return "ruffle"
    flat = openwork or not grown.cups
    if part.shaped or grown.after > BORDER or not flat:
        return "surface"
    return "motif" if grown.corners else "disc"
