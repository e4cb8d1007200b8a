"""A whole pattern in one size, part by part."""

from __future__ import annotations

from fractions import Fraction

from loopwright.ir.pattern import Edge, Part, Pattern, Seam, Start
from naive.edges import Room
from naive.part import PartWork
from naive.results import NaiveResult


def work_pattern(pattern: Pattern, size: int) -> NaiveResult:
    """Make every stitch of a pattern in one size."""
    names = {count.name: count.values[size] for count in pattern.counts}
    room = Room(size, names, {own.name: own for own in pattern.stitches})
    result = NaiveResult(size)
    for part in pattern.parts:
        if not stands(part, room):
            continue
        work = PartWork(part, room, gauge_rows(pattern, part), gauge_stitch(pattern, part))
        result.parts[part.name] = work.work()
        if work.out.fault is None:
            room.parts[part.name] = work.done()
    return result


def gauge_rows(pattern: Pattern, part: Part) -> Fraction | None:
    """Rows to the millimetre, where the part's gauge tells."""
    for gauge in pattern.gauges:
        if gauge.name == part.gauge and gauge.rows is not None:
            return gauge.rows / gauge.over
    return None


def gauge_stitch(pattern: Pattern, part: Part) -> str:
    """The stitch of the part's gauge, by its neutral name."""
    for gauge in pattern.gauges:
        if gauge.name == part.gauge:
            return gauge.stitch.basic
    return ""


def stands(part: Part, room: Room) -> bool:
    """Whether everything that a part begins on was made without a fault."""
    starts: list[Start] = [part.start, *part.start.then]
    edges: list[Edge] = [edge for start in starts for edge in start.edges]
    edges += [
        edge for line in part.lines if isinstance(line, Seam) for edge in (line.one, line.two)
    ]
    for edge in edges:
        if edge.what == "opening":
            if edge.part not in room.openings:
                return False
        elif edge.part not in ("", part.name, *room.parts):
            return False
    return True
