"""Work: the pattern at the hook, in one size. From IR to fabric, in runs; the heart of it all.

    work(pattern, size) -> Fabric

What goes wrong is recorded as a ``Fact`` with its numbers; nothing here is phrased.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from loopwright.ir.fabric import Fabric, Fact, Place, WorkedPart
from loopwright.ir.items import Kind
from loopwright.ir.numbers import CannotReckon, whole
from loopwright.ir.pattern import OwnStitch, Pattern, Seam, Start
from loopwright.ir.runs import Builder, Runs
from loopwright.work.effort import Effort
from loopwright.work.part import FirstFault, PartWorker
from loopwright.work.places import takes_stitch
from loopwright.work.start import CHAIN, CannotStart, Starting

__all__ = ["Effort", "comes_out", "work"]


def work(pattern: Pattern, size: int, effort: Effort | None = None) -> Fabric:
    """Work every part of a pattern in the size with this index; ``effort`` is what the sizes may
    take together."""
    names: Mapping[str, Fraction | int] = {
        count.name: count.values[size] for count in pattern.counts
    }
    owns = {own.name: own for own in pattern.stitches}
    effort = effort or Effort()
    first = _Work(pattern, size, names, owns, effort)
    fabric = first.run()
    if not first.tied or len(fabric.facts) < 2 or effort.left < 0:
        return fabric
    # Nothing in the part told which count to believe; what is worked on it, or sewn to it, may.
    again = Effort(effort.left)
    other = _Work(pattern, size, names, owns, again, believe_made=True).run()
    effort.left = max(again.left, 0)
    return other if again.left >= 0 and len(other.facts) < len(fabric.facts) else fabric


def comes_out(pattern: Pattern, size: int, effort: Effort | None = None) -> bool:
    """Whether every row of a pattern comes out in a size; stops at the first that does not."""
    names = {count.name: count.values[size] for count in pattern.counts}
    owns = {own.name: own for own in pattern.stitches}
    try:
        fabric = _Work(pattern, size, names, owns, effort or Effort(), only_whether=True).run()
    except FirstFault:
        return False
    return not fabric.facts


class _Work:
    def __init__(
        self,
        pattern: Pattern,
        size: int,
        names: Mapping[str, Fraction | int],
        owns: dict[str, OwnStitch],
        effort: Effort,
        *,
        only_whether: bool = False,
        believe_made: bool = False,
    ) -> None:
        self.only_whether = only_whether
        self.believe_made = believe_made
        self.tied = False
        self.effort = effort
        self.pattern = pattern
        self.size = size
        self.names = names
        self.owns = owns
        self.parts: dict[str, WorkedPart] = {}
        self.openings: dict[str, Runs[Place]] = {}
        self.facts: list[Fact] = []
        self.starting = Starting(self.parts, self.openings, {}, size, names)

    def run(self) -> Fabric:
        gauges = {gauge.name: gauge for gauge in self.pattern.gauges}
        for part in self.pattern.parts:
            if self.effort.left < 0:
                break
            try:
                begun = self.starting.begin(part.start)
            except CannotStart as stop:
                if stop.fact is not None:
                    self.facts.append(stop.fact._replace(part=part.name))
                continue
            worker = PartWorker(
                part,
                begun,
                self.size,
                self.names,
                self.owns,
                gauges.get(part.gauge),
                effort=self.effort,
                only_whether=self.only_whether,
                believe_made=self.believe_made,
            )
            worker.unsure = self._in_doubt(part.start)
            worked = worker.work()
            self.tied = self.tied or worker.tied
            self.facts.extend(worker.facts)
            if not worker.unknown:
                self.parts[part.name] = worked
                self._openings(worked)
            for line in part.lines:
                if isinstance(line, Seam):
                    self._seam(line, part.name)
        parts = tuple(self.parts.values())
        stitches = sum(_stitches(part) for part in parts)
        rows = sum(part.row_count for part in parts)
        return Fabric(self.size, parts, tuple(self.facts), stitches, rows)

    def _in_doubt(self, start: Start) -> bool:
        """Whether what a part begins on did not come out itself."""
        edges = [edge for one in (start, *start.then) for edge in one.edges]
        wrong = {fact.part for fact in self.facts}
        return any(edge.part in wrong for edge in edges)

    def _openings(self, worked: WorkedPart) -> None:
        for opening in worked.openings:
            out: Builder[Place] = Builder()
            out.extend(opening.under)
            out.add(CHAIN, opening.chains)
            self.openings[opening.name] = out.done()

    def _seam(self, seam: Seam, part: str) -> None:
        try:
            one, two = (self.starting.edge(edge) for edge in (seam.one, seam.two))
            runs = sum(whole(n, self.size, self.names) for n, _ in seam.runs)
        except (CannotStart, CannotReckon):
            return
        if (seam.one.what, seam.one.part or part) == (seam.two.what, seam.two.part or part):
            one, two = _folded(one)
        have = [edge.before(edge.length, takes_stitch) for edge in (one, two)]
        self._seam_openings(seam, one, two)
        sewn = {seam.one.part or part, seam.two.part or part}
        if any(fact.part in sewn for fact in self.facts):
            return  # what is wrong in the rows is told; the seam may be right
        if have[0] != have[1] or (seam.runs and runs != have[0]):
            values: tuple[tuple[str, object], ...] = (
                ("one", have[0]),
                ("two", have[1]),
                ("runs", runs if seam.runs else None),
            )
            self.facts.append(Fact("seam-edges-differ", seam.span, part, "", values))

    def _seam_openings(self, seam: Seam, one: Runs[Place], two: Runs[Place]) -> None:
        """An opening left in a seam is worked around along one edge and back along the other."""
        at = 0
        for n, name in seam.runs:
            end = at + whole(n, self.size, self.names)
            if name:
                out: Builder[Place] = Builder()
                out.extend(one.slice(at, end))
                out.extend(two.slice(at, end).reversed())
                self.openings[name] = out.done()
            at = end


def _folded(edge: Runs[Place]) -> tuple[Runs[Place], Runs[Place]]:
    """An edge that is joined to itself, folded in the middle: its first half and its other half,
    as they lie on each other."""
    half = (edge.before(edge.length, takes_stitch) + 1) // 2
    fold = edge.nth(half, takes_stitch)
    at = fold if fold >= 0 else edge.length
    return edge.slice(0, at), edge.slice(at, edge.length).reversed()


def _stitches(part: WorkedPart) -> int:
    return sum(
        dict(row.counts).get(Kind("st"), 0) * times
        for stretch, times in part.rows
        for row in stretch
    )
