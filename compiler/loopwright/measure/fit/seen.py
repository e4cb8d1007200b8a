"""What the finders look at: each part with a gauge in each size, as worked and as measured."""

from __future__ import annotations

from collections.abc import Iterator
from math import pi

from loopwright.frozen import Frozen, NamedTuple
from loopwright.ir.fabric import Fabric, Fact, WorkedPart, WorkedRow
from loopwright.ir.pattern import Gauge, Part, Pattern, Row
from loopwright.measure.finished import measured
from loopwright.measure.values import PartSize
from loopwright.source import Span

Found = tuple[int, Fact]
"""A fact and the size it happens in."""

ROUND = 2 * pi


class One(NamedTuple):
    """A part with a gauge in one size; ``faulty`` are the labels of its rows that do not come
    out, whose counts are not to be trusted."""

    part: Part
    gauge: Gauge
    worked: WorkedPart
    size: PartSize
    faulty: frozenset[str]


class Seen(Frozen):
    """A pattern as measured; ``parts`` part by part in every size."""

    pattern: Pattern
    fabrics: tuple[Fabric, ...]
    parts: tuple[One, ...]

    @property
    def sound(self) -> Iterator[One]:
        """Those in which every row comes out."""
        return (one for one in self.parts if not one.faulty)

    def other(self, name: str, size: int) -> One | None:
        """Another part in the same size, if it is measured."""
        found = (one for one in self.parts if one.part.name == name and one.size.size == size)
        return next(found, None)


def look(pattern: Pattern, fabrics: tuple[Fabric, ...]) -> Seen:
    """Measure a pattern for the finders."""
    parts = {part.name: part for part in pattern.parts}
    gauges = {gauge.name: gauge for gauge in pattern.gauges}
    made = {(fabric.size, one.name): one for fabric in fabrics for one in fabric.parts}
    facts: dict[tuple[int, str], set[str]] = {}
    for fabric in fabrics:
        for fact in fabric.facts:
            facts.setdefault((fabric.size, fact.part), set()).add(fact.row)
    out = []
    for size in measured(pattern, fabrics):
        key = (size.size, size.part)
        faulty = frozenset(facts.get(key, ()))
        out.append(One(parts[size.part], gauges[size.gauge], made[key], size, faulty))
    return Seen(pattern, fabrics, tuple(out))


def rows_of(worked: WorkedPart) -> Iterator[WorkedRow]:
    """Every row once, however often its stretch is worked."""
    for rows, times in worked.rows:
        if times:
            yield from rows


def place_of(part: Part, row: WorkedRow) -> Span:
    """Where a message about a whole row points: at its stated count, or at its last item."""
    line = part.lines[row.line]
    if not isinstance(line, Row):
        return line.span
    if line.stated is not None:
        return line.stated.span
    return line.items[-1].span if line.items else line.span
