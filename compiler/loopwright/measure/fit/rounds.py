"""Rounds that grow out of a middle and do not lie flat, and tops that a thread does not close.

A part is taken to be meant flat when its rounds grow from a middle, or about a chain, and it is
neither ``shaped`` nor ``frilled``. More than flat is a fault in any such rounds, the crown of a hat
among them. Less than flat is told only of a disc that grows up to its last round and that no other
part goes on from: a crown that goes over into a straight side is no cup gone wrong. Openwork is
left alone, because nobody knows how wide its loops are.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from loopwright.ir.fabric import Fact, WorkedRow
from loopwright.ir.pattern import Gather
from loopwright.measure.fit.seen import Found, One, Seen, place_of, rows_of
from loopwright.measure.growth import Growth, flat_growth, growth
from loopwright.measure.lengths import length_text
from loopwright.measure.values import RowSize
from loopwright.trade.stitches import Stitch

FEWEST_ROUNDS = 4
"""Growing rounds before anything is said: two or three can be pulled flat (common practice)."""

DRAWN_UP = Fraction(1, 4)
"""How much of their width stitches keep when a thread draws them up (common practice without a
source)."""

WIDEST_HOLE = Fraction(15)
"""The hole, in mm, that a thread and the end woven across it still close (common practice without
a source)."""


def flat(seen: Seen) -> Iterator[Found]:
    """Parts that ruffle or cup."""
    gone_on_from = {
        edge.part
        for part in seen.pattern.parts
        for start in (part.start, *part.start.then)
        for edge in start.edges
    }
    for one in seen.sound:
        if one.part.shaped or one.part.frilled or one.part.manner == "flat":
            continue
        grown = growth(one.part, one.worked, one.size)
        if grown is None or grown.rounds < FEWEST_ROUNDS or any(r.openwork for r in grown.rows):
            continue
        if grown.ruffles:
            yield _round("round-ruffles", one, grown, _first_too_long(grown))
            continue
        alone = not grown.oval and not grown.after and one.part.name not in gone_on_from
        if grown.cups and alone:
            yield _round("round-cups", one, grown, grown.rounds - 1)


def _first_too_long(grown: Growth) -> int:
    """The round from which on there is too much of it."""
    rows, most = grown.rows, grown.most * flat_growth(grown.corners)
    for at in range(2, len(rows)):
        if float(rows[at].long - rows[0].long) > most * _out(rows[1 : at + 1]):
            return at
    return len(rows) - 1


def _out(rows: tuple[RowSize, ...]) -> float:
    return float(sum(row.high or 0 for row in rows))


def _round(kind: str, one: One, grown: Growth, at: int) -> Found:
    rows = grown.rows
    worked = _row_at(one, at)
    room = float(rows[0].long) + flat_growth(grown.corners) * _out(rows[1 : at + 1])
    more = Fraction(rows[-1].stitches - rows[0].stitches, grown.rounds - 1)
    unit = one.gauge.unit
    return one.size.size, Fact(
        kind,
        place_of(one.part, worked),
        one.part.name,
        worked.label,
        (
            ("around", length_text(rows[at].long, unit)),
            ("room", length_text(Fraction(room), unit)),
            ("grows", round(more)),
            ("each", round(grown.each)),
            ("stitch", Stitch(grown.stitch)),
            ("corners", grown.corners),
            ("oval", grown.oval),
        ),
    )


def _row_at(one: One, at: int) -> WorkedRow:
    """Growing rounds come one by one: none of them is worked several times on end."""
    rows = [
        row for stretch, times in one.worked.rows for _ in range(min(times, 3)) for row in stretch
    ]
    return rows[at]


def gathered(seen: Seen) -> Iterator[Found]:
    """Last rounds that are too wide to be drawn shut."""
    for one in seen.sound:
        line = next((line for line in one.part.lines if isinstance(line, Gather)), None)
        if line is None:
            continue
        *_, size = one.size.rows
        *_, worked = rows_of(one.worked)
        around = size.long
        hole = around * DRAWN_UP * Fraction(113, 355)  # the circle's own ratio, to six figures
        if hole > WIDEST_HOLE:
            unit = one.gauge.unit
            most = int(WIDEST_HOLE / DRAWN_UP * Fraction(355, 113) / (around / size.stitches))
            yield (
                one.size.size,
                Fact(
                    "top-stays-open",
                    line.span,
                    one.part.name,
                    worked.label,
                    (
                        ("stitches", size.stitches),
                        ("around", length_text(around, unit)),
                        ("hole", length_text(hole, unit)),
                        ("most", most),
                    ),
                ),
            )
