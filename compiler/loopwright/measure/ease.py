"""Ease: how much larger or smaller a part is than the measure that it was made to.

    measure head: 48 cm                     48 cm head
    count wrap: head - 4 cm, at lamp sts    hat 45.5 cm around: 2.5 cm of negative ease, 5%

Which measure that is, the pattern says itself: a part that works a count over its whole width (or
for all of its rows) is made to the measure that the count's line names. A blanket is made to no
body: a measure called ``width`` is what the designer planned the thing itself to be, and there is
no ease against it.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from loopwright.frozen import Frozen
from loopwright.ir.items import Evenly, Item
from loopwright.ir.numbers import Given, Named, Number, Reckoned
from loopwright.ir.pattern import Count, MadeTo, Measure, Part, Pattern, RepeatRows, Row
from loopwright.measure.lengths import length_text
from loopwright.measure.values import PartSize


class Ease(Frozen):
    """A part in a size against a measure. ``along`` is ``around``, ``wide`` or ``high``; ``share``
    how many times the measure goes into it (a half for each of two fronts); ``wanted`` is that
    many times the measure and ``found`` what the part comes out at, in mm; ``unit`` is the
    measure's; ``planned`` which length of the thing itself it is, where it is no body's."""

    part: str
    size: int
    measure: str
    along: str
    share: Fraction
    wanted: Fraction
    found: Fraction
    unit: str
    planned: str = ""

    @property
    def more(self) -> Fraction:
        """How much larger the part is than the measure, in mm; less than nought if smaller."""
        return self.found - self.wanted

    @property
    def percent(self) -> int:
        """The same in hundredths of the measure, to the nearest."""
        hundredths = abs(self.more) * 100 / self.wanted
        whole = (2 * hundredths.numerator + hundredths.denominator) // (2 * hundredths.denominator)
        return whole if self.more >= 0 else -whole


class Worked(Frozen):
    """A count as a part works it: ``along`` is ``around``, ``wide`` or ``high``, and ``found``
    what its value comes to at the part's own gauge, in mm."""

    count: Count
    along: str
    found: Fraction


def ease_text(ease: Ease) -> str:
    """Ease in words, ``2.5 cm of negative ease, 5%``; against a length that was planned, ``2.5 cm
    less, 5%``."""
    more = length_text(abs(ease.more), ease.unit)
    if more.startswith("0 "):
        return "the same" if ease.planned else "no ease"
    if ease.planned:
        sign = " less" if ease.more < 0 else " more"
    else:
        sign = " of negative ease" if ease.more < 0 else " of ease"
    percent = abs(ease.percent)
    return f"{more}{sign}, {percent}%" if percent else f"{more}{sign}"


def share_text(ease: Ease) -> str:
    """How much of the measure a part is made to: nothing for the whole of it, ``half of ``."""
    if ease.share == 1:
        return ""
    if ease.share == Fraction(1, 2):
        return "half of "
    if ease.share.denominator == 1:
        return f"{ease.share} times "
    return f"{ease.share} of "


def eases(pattern: Pattern, sizes: tuple[PartSize, ...]) -> tuple[Ease, ...]:
    """The ease of every part that was made to a measure, in every size."""
    measures = {one.name: one for one in pattern.measures}
    found: dict[tuple[str, int, str, str], Ease] = {}
    for part, size in with_parts(pattern, sizes):
        for worked in works(part, size, pattern):
            made_to = _single(worked.count)
            measure = measures.get(made_to.measure) if made_to is not None else None
            if made_to is None or measure is None:
                continue
            share = made_to.shares[size.size]
            wanted = share * measure.lengths[size.size]
            if share > 0 and wanted > 0:
                key = (part.name, size.size, measure.name, worked.along)
                own = planned(measure, pattern)
                ease = Ease(*key, share, wanted, worked.found, measure.unit, own)
                found.setdefault(key, ease)
    return tuple(found.values())


PLANNED = {
    "width": "width",
    "wide": "width",
    "breadth": "width",
    "length": "length",
    "long": "length",
    "height": "height",
    "high": "height",
    "depth": "depth",
    "deep": "depth",
    "diameter": "diameter",
    "across": "diameter",
}
"""Names of measures that are a thing's own and no body's, with the length that each is."""


def planned(measure: Measure, pattern: Pattern) -> str:
    """Which length of the thing itself a measure is (``width``, also of ``blanket_width``); nothing
    for one of a body, as ``head`` and ``foot_length`` are."""
    words = measure.name.replace("-", "_").split("_")
    of = "_".join(words[:-1])
    parts = {part.name.replace("-", "_") for part in pattern.parts}
    if any(measure.bodies) or (of and of not in parts):
        return ""
    return PLANNED.get(words[-1], "")


def _single(count: Count) -> MadeTo | None:
    """The one measure a count is made to; None where it is made of none or of several."""
    return count.made_to[0] if len(count.made_to) == 1 else None


def with_parts(pattern: Pattern, sizes: tuple[PartSize, ...]) -> Iterator[tuple[Part, PartSize]]:
    """Every size with the part that it is of."""
    parts = {part.name: part for part in pattern.parts}
    for size in sizes:
        yield parts[size.part], size


def works(part: Part, size: PartSize, pattern: Pattern) -> Iterator[Worked]:
    """The counts that a part is made to, and what they come to in it."""
    named = set(_named(part))
    gauges = {gauge.name: gauge for gauge in pattern.gauges}
    gauge = gauges[size.gauge]
    for count in pattern.counts:
        value = count.values[size.size]
        if (count.along, count.name) not in named or not value:
            continue
        if count.along == "sts":
            across = [row for row in size.rows if row.stitches == value]
            if across:
                along = "around" if across[0].is_round else "wide"
                yield Worked(count, along, value * gauge.over / gauge.stitches)
        elif size.high is not None and _many(size) == value:
            yield Worked(count, "high", size.high)


def _many(size: PartSize) -> int:
    rows = sum(len(stretch) * times for stretch, times in size.stretches)
    return rows + (size.founded > 0)


def _named(part: Part) -> Iterator[tuple[str, str]]:
    """The counts that a part names by themselves, as its width (``sts``) or its rows."""
    start = part.start.n
    if part.start.what == "chain" and _is_plus(start):
        start = start.left  # type: ignore[union-attr]
    yield from _alone("sts", start)
    for line in part.lines:
        if isinstance(line, RepeatRows):
            yield from _alone({"rows": "rows", "sts": "sts"}.get(line.how, ""), line.n)
        elif isinstance(line, Row):
            for one in line.stated.counts if line.stated else ():
                yield from _alone("sts" if one.kind.what == "st" else "", one.n)
            yield from _spread(line.items)


def _is_plus(number: Number | None) -> bool:
    """``wrap + 1``: a starting chain with the chains that are skipped."""
    return type(number) is Reckoned and number.op == "+" and type(number.right) is Given


def _spread(items: tuple[Item, ...]) -> Iterator[tuple[str, str]]:
    for item in items:
        if type(item) is Evenly and item.how == "all":
            yield from _alone("sts", item.n)


def _alone(along: str, number: Number | None) -> Iterator[tuple[str, str]]:
    if type(number) is Named:
        yield along, number.name
