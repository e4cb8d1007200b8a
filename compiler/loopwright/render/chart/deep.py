"""Stitches worked further down: into earlier rows, and into what was skipped or left there.

The fabric says of such a stitch that its place is not on the edge met (``deep``, ``left``), and
the row as written says which it is: so many rows below, a space of a certain round, a stitch that
was skipped or left. Followed down from stitch to stitch that is one place, where the symbol starts.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from loopwright.frozen import replace
from loopwright.ir.items import Group, Item, Repeat, Target, Work
from loopwright.ir.pattern import Part, Row
from loopwright.render.chart.links import Linked, Ref, Thing
from loopwright.source import Span

Targets = dict[Span, Target]


def targets_of(part: Part) -> Targets:
    """What every stitch of a part that goes further down is written to go into."""
    found: Targets = {}
    for line in part.lines:
        if isinstance(line, Row):
            for item in _worked(line.items):
                target = item.target
                if target is not None and (target.below or target.of_row):
                    found[item.span] = target
    return found


def _worked(items: Iterable[Item]) -> Iterator[Work]:
    for item in items:
        if isinstance(item, Work):
            yield item
        elif isinstance(item, Group | Repeat):
            yield from _worked(item.items)


def reach_down(row: Linked, rows: Sequence[Linked], index: int, targets: Targets) -> Linked:
    """The row with the places of its stitches that go further down. ``rows`` are those before it,
    the first of them number 1; ``index`` is its own number."""
    if not any(thing.made.into in ("deep", "left") for thing in row.things):
        return row
    over = _used(row)
    left = _unworked(row, rows)
    given: dict[tuple[int, int, str], int] = {}
    things: list[Thing] = []
    for i, thing in enumerate(row.things):
        feet: tuple[Ref, ...] = ()
        if thing.made.into == "left":
            feet = tuple(left[:1])
            left = left[1:]
        elif thing.made.into == "deep":
            again = bool(i) and _same_work(row.things[i - 1], thing)
            target = targets.get(thing.span)
            if target is not None and target.kind.what != "sp" and target.how != "next skipped":
                feet = _below(over.get(i), rows, index, target)
            if target is not None and not feet:
                feet = _next_of(target, row, rows, index, given, again)
        things.append(replace(thing, feet=feet) if feet else thing)
    return replace(row, things=tuple(things))


def _same_work(one: Thing, two: Thing) -> bool:
    """Whether two stitches follow one another out of the same words: both go into one place."""
    return one.made.into == "deep" and one.made.item == two.made.item


def _used(row: Linked) -> dict[int, Ref]:
    """For each spike, the stitch straight above its place: those that the next stitch on the edge
    passes over, in order."""
    out: dict[int, Ref] = {}
    waiting: list[int] = []
    for i, thing in enumerate(row.things):
        if thing.made.into == "deep":
            waiting.append(i)
        elif thing.feet:
            out.update(zip(waiting, thing.jumped, strict=False))
            waiting = []
    out.update(zip(waiting, (ref for ref, _ in row.left), strict=False))
    return out


def _below(ref: Ref | None, rows: Sequence[Linked], index: int, target: Target) -> tuple[Ref, ...]:
    """The place straight below a stitch, so many rows down or in a certain row."""
    numbers = {row.number: i for i, row in enumerate(rows, start=1)}
    down = index - target.below if target.below else numbers.get(target.of_row, -1)
    while ref is not None and ref.row > max(down, 0):
        ref = _foot(rows[ref.row - 1], ref.place)
    return (ref,) if ref is not None and ref.row == max(down, 0) else ()


def _foot(row: Linked, place: int) -> Ref | None:
    """The place that the stitch which left a place goes into."""
    for thing in row.things:
        if thing.place == place:
            return thing.feet[0] if thing.feet else None
    return None


def _next_of(
    target: Target,
    row: Linked,
    rows: Sequence[Linked],
    index: int,
    given: dict[tuple[int, int, str], int],
    again: bool,
) -> tuple[Ref, ...]:
    """The next space of an earlier row, or the next stitch that one skipped."""
    numbers = {one.number: i for i, one in enumerate(rows, start=1)}
    down = index - target.below if target.below else numbers.get(target.of_row, -1)
    if not 1 <= down <= len(rows):
        return ()
    lower, kind = rows[down - 1], target.kind
    if kind.what == "sp":
        places = [
            Ref(down, i)
            for i, place in enumerate(lower.edge)
            if place.what == "sp" and kind.chains in (0, place.chains)
        ]
        if target.below and lower.worked.wrong_side != row.worked.wrong_side:
            places.reverse()
    else:
        places = [ref for thing in lower.things for ref in thing.jumped]
        places += [ref for ref, _ in lower.left]
        places = [ref for ref in places if not ref.row or _is_stitch(rows[ref.row - 1], ref)]
    key = (target.below, target.of_row, kind.what)
    nth = given.get(key, 0) - again
    given[key] = nth + 1
    return (places[nth],) if 0 <= nth < len(places) else ()


def _is_stitch(row: Linked, ref: Ref) -> bool:
    return ref.place < len(row.edge) and row.edge[ref.place].what == "st"


def _unworked(row: Linked, rows: Sequence[Linked]) -> list[Ref]:
    """What earlier rows left in words, in the order in which this row comes to it."""
    out: list[Ref] = []
    for lower in rows:
        if not lower.worked.is_round:
            refs = [ref for ref, _ in lower.left]
            out += refs if lower.worked.wrong_side == row.worked.wrong_side else refs[::-1]
    return out
