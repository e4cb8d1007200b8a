"""Picking up along row ends: how many stitches a row's end takes.

    PER_ROW_END["half"]   3/2: three stitches over the ends of two rows of half stitches

Table G of the trade's tables, by neutral names; source keys are those of that table. Too many
stitches ruffle the edge, too few curl it in. picotedge reasons from height: a row of long stitches
is about two plain ones high, one of double long about three. The table's set numbers "evenly" and
its rule for knitted edges are no rates of a crochet stitch, and are left out.
"""

from __future__ import annotations

from fractions import Fraction

from loopwright.frozen import NamedTuple


class Pickup(NamedTuple):
    """Plain stitches to one row end of a stitch (``loop`` is ``back`` in a rib)."""

    stitch: str
    loop: str
    per_row: Fraction
    sources: tuple[str, ...]


PICKUPS: tuple[Pickup, ...] = (
    Pickup("plain", "", Fraction(1), ("ambassador", "picotedge")),
    Pickup("half", "", Fraction(3, 2), ("ambassador",)),
    Pickup("long", "", Fraction(2), ("ambassador", "picotedge", "cabana", "primavera")),
    Pickup("double long", "", Fraction(3), ("picotedge", "cabana")),
    Pickup("plain", "back", Fraction(1), ("burnhills", "365crochet")),
)

PER_ROW_END: dict[str, Fraction] = {one.stitch: one.per_row for one in PICKUPS if not one.loop}
