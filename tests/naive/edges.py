"""The edge that a part begins with: a chain, a ring, or edges of parts that are there already."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

from loopwright.ir.items import Group, Item, Picot, Repeat, Work
from loopwright.ir.pattern import Edge, OwnStitch, Start
from naive.numbers import how_many
from naive.things import FaultError, Thing, is_stitch


@dataclass
class Beginning:
    """An edge to begin on. ``ring`` where there is one; ``from_hook`` for a chain that is still
    on the hook; ``of_row`` for foundation stitches, after which flat work is turned. An edge of
    another part is begun where that edge begins, with new yarn."""

    edge: list[Thing]
    ring: bool = False
    from_hook: bool = False
    of_row: bool = False


@dataclass
class DonePart:
    """The edges that a finished part offers to others."""

    last: list[Thing]
    row_ends: int
    start: list[Thing]
    unworked: list[Thing]


@dataclass
class Room:
    """Everything finished so far, and how much of each edge `over next` has taken."""

    size: int
    names: dict[str, int]
    owns: dict[str, OwnStitch]
    parts: dict[str, DonePart] = field(default_factory=dict)
    openings: dict[str, tuple[list[Thing], int]] = field(default_factory=dict)
    taken: dict[tuple[str, str], int] = field(default_factory=dict)


def beginning(start: Start, room: Room) -> Beginning:
    """The edge a part begins with."""
    first = _one(start, room)
    for more in start.then:
        first.edge = first.edge + _one(more, room).edge
        first.from_hook = False
    return first


def _one(start: Start, room: Room) -> Beginning:
    n = how_many(start.n, room.size, room.names) if start.n is not None else 0
    if start.what == "chain":
        return Beginning([Thing("ch") for _ in range(n)], start.ring, not start.ring)
    if start.what == "magic ring":
        return Beginning([], ring=True)
    if start.what == "foundation":
        edge = [Thing("st", start.stitch) for _ in range(n)]
        return Beginning(edge, of_row=True)
    edges = [_edge(edge, room) for edge in start.edges]
    if start.what == "through":
        if len({sum(is_stitch(thing) for thing in edge) for edge in edges}) > 1:
            raise FaultError("seam-edges-differ")
        return Beginning(edges[0])
    return Beginning([thing for edge in edges for thing in edge])


def _edge(edge: Edge, room: Room) -> list[Thing]:
    if edge.what == "opening":
        under, chains = room.openings[edge.part]
        return under + [Thing("ch") for _ in range(chains)]
    part = room.parts[edge.part]
    ends = [Thing("end") for _ in range(part.row_ends)]
    if edge.what == "last":
        return _stretch(edge, part.last, room)
    if edge.what == "start":
        return part.start
    if edge.what == "unworked":
        return part.unworked
    if edge.what == "all round":
        return part.last + ends + part.start + [Thing("end") for _ in ends]
    return ends


def _stretch(edge: Edge, places: list[Thing], room: Room) -> list[Thing]:
    """The part of an edge that is asked for: the next so many, or from a place on."""
    key = (edge.part, edge.what)
    begin = edge.from_nth - 1 if edge.from_nth else 0
    if begin and begin >= len(places):
        raise FaultError("edge-ran-out")
    if edge.n is None:
        return places[begin:]
    if not edge.from_nth:
        begin = room.taken.get(key, 0)
    n = how_many(edge.n, room.size, room.names)
    end = begin
    while n and end < len(places):
        n -= is_stitch(places[end])
        end += 1
    if n:
        raise FaultError("edge-ran-out")
    room.taken[key] = end
    return places[begin:end]


def names_ring(items: Iterable[Item], owns: dict[str, OwnStitch]) -> bool:
    """Whether a row is said to go into the ring."""
    for item in items:
        if isinstance(item, (Work, Group, Picot)) and item.target and item.target.how == "ring":
            return True
        if isinstance(item, (Repeat, Group)) and names_ring(item.items, owns):
            return True
        if isinstance(item, Work) and item.own and names_ring(owns[item.own].items, owns):
            return True
    return False
