"""Which place each stitch goes into, followed back to the very stitch that left that place.

A row says where its stitches go on the edge as it meets it (``ir.fabric``). Here the edge is laid
beside the one the row before left, whichever way round, and every position becomes a ``Ref``: the
row, the place in the order made, and how many times the join was passed on the way.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from loopwright.frozen import Frozen, NamedTuple
from loopwright.ir.fabric import Made, Place, WorkedRow
from loopwright.source import Span
from loopwright.trade.stitches import Stitch

TAKES = ("st", "sp", "ch", "end", "gap")
LEAVES = {
    "st": "st",
    "as": "st",
    "skip as": "st",
    "ch": "sp",
    "open": "sp",
    "hook sp": "sp",
    "join sp": "sp",
    "hook ch": "hook",
}


class Ref(NamedTuple):
    """A place: of which drawn row (0 is the start), which in the order made; ``turn`` is how many
    rounds further on it is met."""

    row: int
    place: int
    turn: int = 0


class Thing(Frozen):
    """Something made, with what it goes into and the place it leaves (-1 for none). ``nth`` is
    its number among the stitches of the row, 0 for what is no stitch; ``jumped`` are the places
    passed over since the one before."""

    made: Made
    nth: int
    span: Span
    feet: tuple[Ref, ...]
    place: int
    jumped: tuple[Ref, ...] = ()


class Linked(Frozen):
    """A drawn row, linked: its things, what it leaves, and the places it did not come to (a
    spiral meets those next). ``unworked`` are those that it left in words, ``inside``
    tells that it begins beside such as the row before left."""

    worked: WorkedRow
    number: int
    things: tuple[Thing, ...]
    edge: tuple[Place, ...]
    left: tuple[tuple[Ref, Place], ...] = ()
    moved: tuple[Ref, ...] = ()
    unworked: tuple[Ref, ...] = ()
    inside: bool = False


Edge = Sequence[tuple[Ref, Place]]


def start_edge(places: Sequence[Place]) -> list[tuple[Ref, Place]]:
    """The start as an edge, in the order in which the first row meets it."""
    return [(Ref(0, i), place) for i, place in enumerate(places)]


def edge_of(row: Linked, index: int) -> list[tuple[Ref, Place]]:
    """What a drawn row leaves, in the order made."""
    return [(Ref(index, i), place) for i, place in enumerate(row.edge)]


def link(
    worked: WorkedRow,
    number: int,
    index: int,
    before: Edge,
    left: Edge,
    after_crab: bool = False,
    after_open: bool = False,
    after_row: bool = False,
) -> Linked:
    """Link a row: ``before`` is the edge that the row before it left, ``left`` the places still
    unmet by it. ``after_crab`` where that row is a round worked backwards, so that the next one
    goes back over it without being turned; ``after_open`` where it is a round of a spiral, so
    that the next one begins wherever it stopped; ``after_row`` where it is a row, whose end is not
    joined to its beginning."""
    below = worked.below.atoms()
    goes_back = worked.turned != (after_crab and worked.is_round)
    refs = _meet(below, _orders(worked, goes_back, after_row, index, before, left), after_open)
    edge = tuple(worked.edge.atoms())
    things: list[Thing] = []
    at, furthest, given, stitches = -1, -1, 0, 0
    for made in worked.made.atoms():
        feet: tuple[int, ...] = ()
        jumped: tuple[Ref, ...] = ()
        if made.into in TAKES:
            first = at + made.step
            feet = (first, *[first + more for more in made.also])
            if made.into == "gap" and first >= len(refs) > 0:
                feet = (first - len(refs) if worked.is_round else len(refs) - 1,)
            jumped = tuple([_ref(refs, i, index) for i in range(at + 1, first)])
            at = first + (made.also[-1] if made.also else 0)
            furthest = max(furthest, *feet)
        place = -1
        on = made.what == "ch" and bool(things) and things[-1].made.what == "ch"
        if given < len(edge) and not on and _leaves(made, edge[given]):
            place, given = given, given + 1
        counts = place >= 0 and edge[place].what == "st"
        stitches += counts
        span = worked.spans[made.item] if made.item < len(worked.spans) else Span(0, 0)
        refs_of = tuple([_ref(refs, i, index) for i in feet])
        things.append(Thing(made, stitches if counts else 0, span, refs_of, place, jumped))
    rest = tuple(zip(refs[furthest + 1 :], below[furthest + 1 :], strict=True))
    moved = _moved_over(worked, before, after_row)
    unworked = tuple(ref for low, high in worked.left for ref in refs[low:high])
    return Linked(worked, number, tuple(things), edge, rest, moved, unworked)


def _moved_over(worked: WorkedRow, before: Edge, after_row: bool) -> tuple[Ref, ...]:
    """The stitches that a `move to` slip stitched over, in the order met."""
    if not 0 < worked.shift <= len(before):
        return ()
    met = [*before]
    if worked.turned:  # a round begins in the stitch joined into, and then goes back
        joined = worked.is_round and not after_row
        met = met[:1] + met[:0:-1] if joined else met[::-1]
    return tuple(ref for ref, place in met[: worked.shift] if place.what == "st")


def _ref(refs: list[Ref], at: int, index: int) -> Ref:
    """The place at a position; past the end a spiral goes on into the round's own stitches."""
    if at < 0:
        return refs[0] if refs else Ref(index, 0, 0)
    return refs[at] if at < len(refs) else Ref(index, at - len(refs), 1)


def _leaves(made: Made, place: Place) -> bool:
    """Whether this is what left that place."""
    if LEAVES.get(made.what) != place.what:
        return False
    if place.what == "st":
        stitch = made.stitch
        if stitch is not None and stitch.crab:
            stitch = stitch._replace(crab=False)
        return place.stitch is None or stitch == place.stitch
    return True


def _meet(
    below: Sequence[Place], orders: Iterable[list[tuple[Ref, Place]]], after_open: bool
) -> list[Ref]:
    """The refs of the edge as the row meets it. Rows worked over and over are kept with the edge
    that they met the first time; later they may meet as many places of other stitches."""
    tried: list[list[tuple[Ref, Place]]] = []
    for order in orders:
        found = _within(below, order)
        if found is None and not tried and not after_open and _as_many(below, order):
            found = [ref for ref, _ in order]
        if found is not None:
            return found
        tried.append(order)
    return _by_share(below, tried[0])


def _orders(
    worked: WorkedRow, goes_back: bool, after_row: bool, index: int, before: Edge, left: Edge
) -> Iterator[list[tuple[Ref, Place]]]:
    """The orders in which a row may meet the edge before it, likeliest first."""
    ahead = list(before)
    back = ahead[::-1]
    if index == 1 and goes_back:  # the start is given as the first row drawn meets it
        yield from (ahead, back)
        return
    shift = worked.shift % len(ahead) if ahead and index > 1 else 0
    if goes_back and worked.is_round and not after_row:
        past = _turned(back, -1)
        # What it passes when it moves on first comes last, once around further back.
        for order in (ahead[:1] + past[:-1], past, back):
            yield order[shift:] + _turned(order[:shift], -1)
        return
    if goes_back:
        yield from (back, ahead)
        return
    yield ahead[shift:] + _turned(ahead[:shift], 1)
    own = [(Ref(index, i, 1), place) for i, place in enumerate(worked.edge.atoms())]
    yield [*left, *ahead, *own]
    yield ahead + own
    yield ahead + _turned(ahead, 1)
    yield back


def _turned(order: Edge, rounds: int) -> list[tuple[Ref, Place]]:
    """The same places so many rounds further on."""
    return [(Ref(row, place, turn + rounds), kind) for (row, place, turn), kind in order]


def _within(below: Sequence[Place], order: list[tuple[Ref, Place]]) -> list[Ref] | None:
    """Where ``below`` lies in an order, as one stretch of it."""
    length = len(below)
    places = [_kind(place) for _, place in order]
    wanted = [_kind(place) for place in below]
    for start in range(len(order) - length + 1):
        if places[start : start + length] == wanted:
            return [ref for ref, _ in order[start : start + length]]
    return None


def _as_many(below: Sequence[Place], order: Edge) -> bool:
    """Whether these are stitches and spaces as many as those and in the same order."""
    return [(place.what, place.chains) for place in below] == [
        (place.what, place.chains) for _, place in order
    ]


def _kind(place: Place) -> tuple[str, Stitch | None, int]:
    """What matters of a place here; its yarn does not."""
    return place.what, place.stitch, place.chains


def _by_share(below: Sequence[Place], before: Edge) -> list[Ref]:
    """Where the edges cannot be laid side by side (after a fault), in proportion."""
    if not before:
        return [Ref(0, i) for i in range(len(below))]
    return [before[i * len(before) // len(below)][0] for i in range(len(below))]
