"""Starts: the edge that a part's first row meets."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from loopwright.frozen import NamedTuple
from loopwright.ir.fabric import Fact, Place, TakenUp, WorkedPart
from loopwright.ir.numbers import CannotReckon, whole
from loopwright.ir.pattern import Edge, Start
from loopwright.ir.runs import Builder, Runs, run
from loopwright.source import Span
from loopwright.work.places import takes_stitch

CHAIN = Place("ch")


class Begun(NamedTuple):
    """The edge a part begins with. ``chain`` and ``ring`` tell what it is; ``rows`` how many
    rows it is itself (foundation stitches are one); ``taken`` what it is of other parts."""

    edge: Runs[Place]
    chain: bool
    ring: bool
    rows: int = 0
    taken: tuple[TakenUp, ...] = ()


class CannotStart(Exception):
    """The part cannot be worked because one before it could not be, or an edge is not there."""

    def __init__(self, fact: Fact | None = None) -> None:
        super().__init__()
        self.fact = fact


class Starting:
    """Finds edges among the parts worked so far. ``used`` remembers how far along each edge the
    parts that take `next ... of` it have come."""

    def __init__(
        self,
        parts: Mapping[str, WorkedPart],
        openings: Mapping[str, Runs[Place]],
        used: dict[tuple[str, str], int],
        size: int,
        names: Mapping[str, Fraction | int],
    ) -> None:
        self.parts = parts
        self.openings = openings
        self.used = used
        self.size = size
        self.names = names

    def begin(self, start: Start) -> Begun:
        """The edge of a start line, its `then` included."""
        first = self._one(start)
        if not start.then:
            return first
        out: Builder[Place] = Builder()
        out.extend(first.edge)
        taken = first.taken
        for more in start.then:
            begun = self._one(more)
            out.extend(begun.edge)
            taken += begun.taken
        return Begun(out.done(), False, False, taken=taken)

    def _one(self, start: Start) -> Begun:
        if start.what == "chain":
            n = self._number(start)
            return Begun(run(CHAIN, n), True, start.ring)
        if start.what == "magic ring":
            return Begun(Runs(()), False, True)
        if start.what == "foundation":
            n = self._number(start)
            return Begun(run(Place("st", start.stitch), n), False, False, 1)
        if start.what == "through":
            return self._through(start)
        edge = start.edges[0]
        last = self.used.get((edge.part, edge.what), 0)
        places = self.edge(edge)
        return Begun(places, False, False, taken=self._taken(edge, places, last))

    def _taken(self, edge: Edge, places: Runs[Place], last: int) -> tuple[TakenUp, ...]:
        """The stitches of another part that an edge is; ``last`` is how far they were taken."""
        if edge.what not in ("last", "start"):
            return ()
        of = edge_of_part(self.parts[edge.part], edge.what)
        first = edge.from_nth - 1 if edge.from_nth else last if edge.n is not None else 0
        n, have = (one.before(one.length, takes_stitch) for one in (places, of))
        return (TakenUp(edge.span, edge.part, edge.what, first, n, have),)

    def _number(self, start: Start) -> int:
        assert start.n is not None
        try:
            return whole(start.n, self.size, self.names)
        except CannotReckon as error:
            raise CannotStart(_fact(error.code, start.span, value=error.value)) from None

    def _through(self, start: Start) -> Begun:
        one, two = (self.edge(edge) for edge in start.edges)
        have = [edge.before(edge.length, takes_stitch) for edge in (one, two)]
        if have[0] != have[1]:
            raise CannotStart(
                _fact("seam-edges-differ", start.span, one=have[0], two=have[1], through=True)
            )
        return Begun(one, False, False)

    def edge(self, edge: Edge) -> Runs[Place]:
        """The places of an edge of a part."""
        if edge.what == "opening":
            found = self.openings.get(edge.part)
            if found is None:
                raise CannotStart
            return found
        part = self.parts.get(edge.part)
        if part is None:
            raise CannotStart
        whole_edge = edge_of_part(part, edge.what)
        if edge.n is None and not edge.from_nth:
            return whole_edge
        return self._some(edge, whole_edge)

    def _some(self, edge: Edge, places: Runs[Place]) -> Runs[Place]:
        key = (edge.part, edge.what)
        have = places.before(places.length, takes_stitch)
        first = edge.from_nth - 1 if edge.from_nth else self.used.get(key, 0)
        if edge.from_nth and first >= have:
            raise CannotStart(
                _fact("edge-ran-out", edge.span, start=True, nth=edge.from_nth, have=have)
            )
        if edge.n is None:
            wanted = have - first
        else:
            try:
                wanted = whole(edge.n, self.size, self.names)
            except CannotReckon as error:
                raise CannotStart(_fact(error.code, edge.span, value=error.value)) from None
        if first + wanted > have or wanted < 0 or first < 0:
            raise CannotStart(
                _fact("edge-ran-out", edge.span, start=True, wanted=wanted, have=have - first)
            )
        self.used[key] = first + wanted
        if not wanted:
            return Runs(())
        low = places.nth(first, takes_stitch)
        high = places.nth(first + wanted - 1, takes_stitch) + 1
        return places.slice(low, high)


def edge_of_part(part: WorkedPart, what: str) -> Runs[Place]:
    """One edge of a worked part."""
    if what == "last":
        return part.last
    if what == "start":
        return part.worked_start
    if what == "row ends":
        return part.row_ends
    if what == "other row ends":
        return part.row_ends.reversed()
    if what == "unworked":
        return part.unworked
    out: Builder[Place] = Builder()
    for one in ("last", "row ends", "start", "other row ends"):
        out.extend(edge_of_part(part, one))
    return out.done()


def _fact(kind: str, span: Span, **values: object) -> Fact:
    return Fact(kind, span, "", "", tuple(values.items()))
