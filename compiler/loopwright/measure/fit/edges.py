"""Stitches picked up along an edge: too many of them flare, too few gather it in.

Along row ends there are two rates, and an edge is called off only where both say so: the one that
is published for the stitch (table G of the trade's tables, ``trade.pickup``), and the one that the
gauges of the two parts make, row height against stitch width. Along a last round or a starting
chain, worked stitch for stitch, the two gauges tell.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from loopwright.frozen import NamedTuple
from loopwright.ir.fabric import Fact, Place, WorkedRow
from loopwright.ir.pattern import Start
from loopwright.ir.runs import Runs
from loopwright.measure.fit.seen import Found, One, Seen, rows_of
from loopwright.measure.heights import height_of
from loopwright.measure.lengths import length_text
from loopwright.trade.pickup import PER_ROW_END
from loopwright.trade.stitches import Stitch

TOO_MANY = Fraction(5, 4)
TOO_FEW = 1 / TOO_MANY
"""How far off an edge is taken as meant: 30 stitches on 26 rows are published (365crochet), which
is 15 in a hundred; the rest is common practice without a source."""


class Picked(NamedTuple):
    """Stitches over an edge: ``many`` of them on ``places``; ``length`` of the edge by its gauge
    (None where that is not known), ``rate`` how many the table has for it (None where it has not),
    ``item`` the index of what picks them up, ``stitch`` what the edge is of."""

    many: int
    places: int
    length: Fraction | None
    rate: Fraction | None
    item: int
    stitch: Stitch | None


def picked_up(seen: Seen) -> Iterator[Found]:
    """Parts that begin along an edge with too many stitches for it, or too few."""
    for one in seen.sound:
        if one.part.start.what != "edges" or one.part.frilled or one.part.shaped:
            continue
        below = _edge_of(one, seen)
        row = next(rows_of(one.worked), None)
        if below is None or row is None or row.shift or one.worked.unworked:
            continue
        picked = _row_ends(row, below) or _stitches(row, below)
        kind = _kind(one, picked) if picked is not None else ""
        if picked is not None and kind:
            yield _told(kind, one, row, picked)


def _edge_of(one: One, seen: Seen) -> One | None:
    """The part whose edge this one begins along; None where there are several gauges in it."""
    starts: tuple[Start, ...] = (one.part.start, *one.part.start.then)
    names = {edge.part for start in starts for edge in start.edges if edge.what != "opening"}
    if any(start.what != "edges" for start in starts) or len(names) != 1:
        return None
    below = seen.other(names.pop(), one.size.size)
    return below if below is not None and not below.faulty else None


def _row_ends(row: WorkedRow, below: One) -> Picked | None:
    """What goes into row ends, against all the row ends there are."""
    ends = {place: n for place, n in row.below.tally().items() if place.what == "end"}
    made = {one: n for one, n in row.made.tally().items() if one.into == "end"}
    many = sum(n for one, n in made.items() if one.what in ("st", "as"))
    if not ends or not many:
        return None
    if any(one.what == "ch" for one in row.made.tally()):
        return None
    length: Fraction | None = Fraction(0)
    rate: Fraction | None = Fraction(0)
    for place, n in ends.items():
        basic = place.stitch.basic if place.stitch is not None else ""
        high = height_of(basic, below.gauge) if basic else None
        length = None if length is None or high is None else length + high * n
        each = PER_ROW_END.get(basic)
        rate = None if rate is None or each is None else rate + each * n
    usual = max(ends, key=lambda place: ends[place])
    item = next(iter(made)).item
    return Picked(many, sum(ends.values()), length, rate, item, usual.stitch)


def _stitches(row: WorkedRow, below: One) -> Picked | None:
    """What goes stitch for stitch into stitches; a row that increases or decreases says itself
    that the edge is to be another width."""
    if any(place.what != "st" for place in row.below.tally()):
        return None
    made = {one: n for one, n in row.made.tally().items() if one.what in ("st", "as")}
    if not made:
        return None
    plain = all(one.into == "st" and one.step == 1 and not one.also for one in made)
    many = sum(made.values())
    if not plain or many != _places(row.below):
        return None
    each = below.gauge.over / below.gauge.stitches
    return Picked(many, many, many * each, None, next(iter(made)).item, None)


def _places(edge: Runs[Place]) -> int:
    return sum(edge.tally().values())


def _kind(one: One, picked: Picked) -> str:
    """What is off where every rate that is known says too many, or too few."""
    ratios = []
    if picked.length:
        ratios.append(_wide(one, picked) / picked.length)
    if picked.rate:
        ratios.append(picked.many / picked.rate)
    if ratios and all(ratio > TOO_MANY for ratio in ratios):
        return "edge-flares"
    if ratios and all(ratio < TOO_FEW for ratio in ratios):
        return "edge-gathers"
    return ""


def _wide(one: One, picked: Picked) -> Fraction:
    return picked.many * one.gauge.over / one.gauge.stitches


def _told(kind: str, one: One, row: WorkedRow, picked: Picked) -> Found:
    unit = one.gauge.unit
    length = picked.length
    fits = picked.rate if length is None else length * one.gauge.stitches / one.gauge.over
    return one.size.size, Fact(
        kind,
        row.spans[picked.item],
        one.part.name,
        row.label,
        (
            ("many", picked.many),
            ("places", picked.places),
            ("wide", length_text(_wide(one, picked), unit)),
            ("length", length_text(length, unit) if length is not None else ""),
            ("fits", round(fits) if fits is not None else 0),
            ("rate", round(picked.rate) if picked.rate is not None else 0),
            ("stitch", picked.stitch),
        ),
    )
