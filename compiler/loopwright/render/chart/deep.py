"""Stitches worked further down: into earlier rows, and into what was skipped or left there.

The fabric says of such a stitch that its place is not on the edge met (``deep``, ``left``), and
the row as written says which it is: so many rows below, a space of a certain round, a stitch that
was skipped or left. Followed down from stitch to stitch that is one place, where the symbol starts.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from loopwright.frozen import NamedTuple, replace
from loopwright.ir.items import Group, Item, Repeat, Target, Work
from loopwright.ir.numbers import Given
from loopwright.ir.pattern import Part, Row
from loopwright.render.chart.links import Linked, Ref, Thing
from loopwright.render.chart.stretches import crab
from loopwright.source import Span


class Targets(NamedTuple):
    """What stitches that go further down are written to go into, by their text, and the number of
    the row that each line is written for."""

    by_text: dict[Span, Work]
    written: dict[int, int]

    def of(self, span: Span, line: int, number: int) -> Target | None:
        """What a stitch of a row of that number goes into. Where a line is worked again later on,
        a row that it names by its number is as far below it as it was the first time."""
        work = self.by_text.get(span)
        target = work.target if work else None
        if target is None or not target.of_row:
            return target
        return replace(target, of_row=target.of_row + number - self.written.get(line, number))

    def each(self, span: Span) -> int:
        """How many stitches of that text go into one place; 0 where that is not written as one
        number."""
        work = self.by_text.get(span)
        return int(work.n.value) if work is not None and isinstance(work.n, Given) else 0


def targets_of(part: Part) -> Targets:
    """What every stitch of a part that goes further down is written to go into."""
    found: dict[Span, Work] = {}
    written = {}
    for index, line in enumerate(part.lines):
        if isinstance(line, Row):
            if line.numbers and not line.variable:
                written[index] = line.numbers[0][0]
            for item in all_work(line.items):
                target = item.target
                if target is not None and (target.below or target.of_row or target.how == "base"):
                    found[item.span] = item
    return Targets(found, written)


def all_work(items: Iterable[Item]) -> Iterator[Work]:
    """The stitches among what is written, within repeats and groups too."""
    for item in items:
        if isinstance(item, Work):
            yield item
        elif isinstance(item, Group | Repeat):
            yield from all_work(item.items)


def reach_down(row: Linked, rows: Sequence[Linked], index: int, targets: Targets) -> Linked:
    """The row with the places of its stitches that go further down. ``rows`` are those before it,
    the first of them number 1; ``index`` is its own number."""
    if rows and row.worked.turned and _left_its_end(rows[-1]):
        row = replace(row, inside=True)
    if not any(thing.made.into in ("deep", "left") for thing in row.things):
        return row
    again = _again(row, targets)
    over = _used(row, again)
    near, far = _unworked(row, rows)
    left = near + far
    # Where a round begins with what lies past the end of the last row, the rest lies past its join.
    first = next((thing.made.into for thing in row.things if thing.feet or _left(thing)), "")
    wound = row.worked.is_round and first == "left" and bool(near)
    given: dict[tuple[int, int, str], int] = {}
    things: list[Thing] = []
    for i, thing in enumerate(row.things):
        feet: tuple[Ref, ...] = ()
        if _left(thing):
            # What lies at the beginning of a round lies past its join, unless it is come to first.
            past = row.worked.is_round and len(left) <= len(far) and (wound or first != "left")
            feet = tuple(_past(row, ref, rows) if past else ref for ref in left[:1])
            left = left[1:]
        elif wound:
            feet = tuple(_past(row, ref, rows) for ref in thing.feet)
        elif thing.made.into == "deep":
            target = targets.of(thing.span, row.worked.line, row.number)
            if target is not None and target.how == "base":
                target = None
            if target is not None and target.kind.what != "sp" and target.how != "next skipped":
                feet = _below(over.get(i), rows, index, target)
            if target is not None and not feet:
                feet = _next_of(target, row, rows, index, given, again[i])
        things.append(replace(thing, feet=feet) if feet else thing)
    return replace(row, things=tuple(things))


def _again(row: Linked, targets: Targets) -> list[bool]:
    """For each thing whether it is a stitch that goes into the same place as the one before it:
    so many stitches as are written for one place, one after another, go there."""
    out: list[bool] = []
    done = 0
    for i, thing in enumerate(row.things):
        before = row.things[i - 1].made if i else None
        same = before is not None and before.into == "deep" == thing.made.into
        done = done + 1 if same and before and before.item == thing.made.item else 0
        each = targets.each(thing.span)
        out.append(done % each > 0 if each else done > 0)
    return out


def _used(row: Linked, again: Sequence[bool]) -> dict[int, Ref]:
    """For each spike, the stitch straight above its place: those that the next stitch on the edge
    passes over, in order."""
    out: dict[int, Ref] = {}
    waiting: list[list[int]] = []
    rest = [ref for ref, _ in row.left]
    for i, thing in enumerate(row.things):
        if thing.made.into == "deep":
            if again[i] and waiting:
                waiting[-1].append(i)
            else:
                waiting.append([i])
        elif thing.feet:
            out.update(_each(waiting, thing.jumped))
            waiting = []
    out.update(_each(waiting, rest))
    return out


def _each(waiting: Sequence[Sequence[int]], places: Sequence[Ref]) -> Iterator[tuple[int, Ref]]:
    for those, ref in zip(waiting, places, strict=False):
        yield from ((i, ref) for i in those)


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
    begins = False  # whether it begins with the place in which a round that goes back begins too
    if kind.what == "sp":
        places = [
            Ref(down, i)
            for i, place in enumerate(lower.edge)
            if place.what == "sp" and kind.chains in (0, place.chains)
        ]
        begins = bool(places) and not places[0].place
    else:
        places = [ref for thing in lower.things for ref in thing.jumped]
        places += [ref for ref, _ in lower.left]
        begins = next((bool(one.jumped) for one in lower.things if one.feet), False)
        places = [ref for ref in places if not ref.row or _is_stitch(rows[ref.row - 1], ref)]
    if _way(lower) != _way(row):
        stays = int(begins and row.worked.is_round and lower.worked.is_round)
        places[stays:] = places[stays:][::-1]
    key = (target.below, target.of_row, kind.what)
    nth = given.get(key, 0) - again
    given[key] = nth + 1
    return (places[nth],) if 0 <= nth < len(places) else ()


def _is_stitch(row: Linked, ref: Ref) -> bool:
    return ref.place < len(row.edge) and row.edge[ref.place].what == "st"


def _unworked(row: Linked, rows: Sequence[Linked]) -> tuple[list[Ref], list[Ref]]:
    """What earlier rows left in words and none took up, in the order in which this row comes to
    it: near, at its end, what rows that go the same way left, the last of them nearest; and far,
    at its beginning, what the others left."""
    left: list[tuple[bool, list[Ref]]] = []
    for lower in rows:
        taken = {_here(ref) for one in lower.things if _left(one) for ref in one.feet}
        left = [(way, [ref for ref in refs if _here(ref) not in taken]) for way, refs in left]
        left.append((_way(lower), list(lower.unworked)))
    own = _way(row)
    near = [ref for way, refs in reversed(left) if way == own for ref in refs]
    return near, [ref for way, refs in left if way != own for ref in reversed(refs)]


def _left(thing: Thing) -> bool:
    """Whether a stitch goes into what was left in words."""
    return thing.made.into == "left"


def _here(ref: Ref) -> Ref:
    """The place itself, however often the join was passed on the way to it."""
    return ref._replace(turn=0)


def _past(row: Linked, ref: Ref, rows: Sequence[Linked]) -> Ref:
    """The place as a round comes to it that passes its join on the way: one round further on, as
    the row goes that made the place."""
    made_in = rows[max(ref.row - 1, 0)]
    return ref._replace(turn=ref.turn + (1 if _way(made_in) == _way(row) else -1))


def _left_its_end(row: Linked) -> bool:
    """Whether a row was not worked to its end."""
    left = row.worked.left
    return bool(left) and left[-1][1] == row.worked.below.length


def _way(row: Linked) -> bool:
    """Which of the two ways a row goes."""
    return row.worked.wrong_side != crab(row.worked)
