"""Seams: two edges that must come out stitch for stitch."""

from __future__ import annotations

from loopwright.ir.pattern import Edge, Seam
from naive.edges import DonePart, Room
from naive.numbers import how_many
from naive.things import FaultError, Thing, is_stitch


def sew(seam: Seam, name: str, part: DonePart, room: Room) -> None:
    """Sew a seam of the part ``name``; gaps in it are openings, of the stitches on both sides."""
    one, two = (_edge(edge, name, part, room) for edge in (seam.one, seam.two))
    if (seam.one.what, seam.one.part or name) == (seam.two.what, seam.two.part or name):
        # An edge with itself: folded, its last stitch comes to lie on its first.
        one, two = one[: (len(one) + 1) // 2], one[(len(one) + 1) // 2 :][::-1]
    runs = [(how_many(n, room.size, room.names), opening) for n, opening in seam.runs]
    if len(one) != len(two) or (runs and sum(n for n, _ in runs) != len(one)):
        raise FaultError("seam-edges-differ")
    at = 0
    for n, opening in runs:
        if opening:
            room.openings[opening] = (one[at : at + n] + two[at : at + n][::-1], 0)
        at += n


def _edge(edge: Edge, name: str, part: DonePart, room: Room) -> list[Thing]:
    """The stitches of an edge."""
    if edge.part not in ("", name):
        part = room.parts[edge.part]
    if edge.what == "last":
        return [thing for thing in part.last if is_stitch(thing)]
    if edge.what == "start":
        return [thing for thing in part.start if is_stitch(thing)]
    return [Thing("end") for _ in range(part.row_ends)]
