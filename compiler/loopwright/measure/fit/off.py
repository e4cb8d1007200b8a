"""Finished sizes that are not what the pattern says they are.

Two things are held against what the gauge makes: the size that the designer states (`comes out
at`), and the length that a count was made for. What a designer calls wide or long is a matter of
how the part lies before her, so a stated size is off only when the part has no such length any way
round.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from loopwright.ir.fabric import Fact
from loopwright.ir.pattern import ComesOut
from loopwright.measure.ease import works
from loopwright.measure.fit.seen import Found, One, Seen
from loopwright.measure.lengths import length_text
from loopwright.measure.values import PartSize

OFF = Fraction(1, 14)
"""How far from its measure a size is off, of that measure: half-way to the next size. Published
hats of 14, 16 and 18 in (shropshire) are 2 in apart, so half-way is 1 in 14 on the smallest."""

LEAST = Fraction(10)
"""Less than this, in mm, is nothing a tape would show (common practice without a source)."""

ROUND = Fraction(355, 113)
"""How many times round a circle is as across, to six figures."""

WAYS = {
    "around": ("around", "wide", "high"),
    "wide": ("wide", "high", "flat", "across"),
    "long": ("high", "wide", "flat", "across"),
    "high": ("high", "wide"),
    "deep": ("high", "wide"),
    "across": ("across", "wide", "high", "flat"),
}
"""What a dimension can be of a part, the likeliest first."""


def sizes(seen: Seen) -> Iterator[Found]:
    """Parts whose size is off."""
    for one in seen.parts:
        found = next(_stated(one), None) or next(_counted(one, seen), None)
        if found is not None:
            yield one.size.size, found


def is_off(found: Fraction, wanted: Fraction) -> bool:
    """Whether one length is too far from another."""
    return abs(found - wanted) > max(wanted * OFF, LEAST)


def _stated(one: One) -> Iterator[Fact]:
    for line in one.part.lines:
        if not isinstance(line, ComesOut):
            continue
        for dimension, lengths, unit in line.dimensions:
            if one.faulty and not _lengths(one, WAYS[dimension][0]):
                continue  # what it most likely means cannot be told before every row comes out
            wanted = lengths[one.size.size]
            found = [mm for way in WAYS[dimension] for mm in _lengths(one, way)]
            if found and wanted and all(is_off(mm, wanted) for mm in found):
                yield Fact(
                    "size-off-measure",
                    line.span,
                    one.part.name,
                    "",
                    (
                        ("wanted", length_text(wanted, unit)),
                        ("found", length_text(_likeliest(found, one, dimension), unit)),
                        ("dimension", dimension),
                        ("gauge", one.gauge.name),
                        ("every", tuple(length_text(mm, unit) for mm in lengths)),
                    ),
                )


def _likeliest(found: list[Fraction], one: One, dimension: str) -> Fraction:
    """What to name of several lengths: the longest of the likeliest kind."""
    first = next(way for way in WAYS[dimension] if _lengths(one, way))
    return max(_lengths(one, first)) if found else Fraction(0)


def _lengths(one: One, way: str) -> tuple[Fraction, ...]:
    """The lengths of a part in one way, of rows that come out only."""
    rows = [row for row in one.size.rows if row.label not in one.faulty]
    round_, flat = ([row.long for row in rows if row.is_round is yes] for yes in (True, False))
    if way == "around":
        return tuple(dict.fromkeys(round_))
    if way == "wide":
        return tuple(dict.fromkeys(flat))
    if way == "high":
        return (one.size.high,) if one.size.high is not None and not one.faulty else ()
    if not round_:
        return ()
    # Laid flat a tube is half as wide as it is around, a disc is across what a circle is, or twice
    # what its rounds are high, and a square has four sides.
    widest = max(round_)
    if way == "flat":
        return (widest / 2,)
    twice = _lengths(one, "high")
    return (widest / ROUND, widest / 4, *(mm * 2 for mm in twice))


def _counted(one: One, seen: Seen) -> Iterator[Fact]:
    """Counts that were made for a length, and do not come to it."""
    if one.faulty:
        return
    for worked in works(one.part, one.size, seen.pattern):
        count = worked.count
        wanted = count.lengths[one.size.size]
        if wanted > 0 and is_off(worked.found, wanted):
            unit = _unit(one.size, seen, count.made_to[0].measure if count.made_to else "")
            other = count.gauge if count.gauge != one.gauge.name else ""
            yield Fact(
                "size-off-measure",
                count.span,
                one.part.name,
                "",
                (
                    ("wanted", length_text(wanted, unit)),
                    ("found", length_text(worked.found, unit)),
                    ("dimension", worked.along),
                    ("gauge", one.gauge.name),
                    ("count", count.name),
                    ("other", other),
                    ("multiple", count.multiple),
                    ("value", count.values[one.size.size]),
                ),
            )


def _unit(size: PartSize, seen: Seen, measure: str) -> str:
    return next((one.unit for one in seen.pattern.measures if one.name == measure), size.unit)
