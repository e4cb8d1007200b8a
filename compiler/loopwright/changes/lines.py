"""The lines of a part in two editions, held against each other size by size."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import groupby

from loopwright.changes.align import Pair, aligned
from loopwright.changes.settled import same_work, settled
from loopwright.changes.values import (
    ADDED,
    COUNT,
    REMOVED,
    RENUMBERED,
    START,
    TIMES,
    WORDING,
    WORK,
    Counted,
    LineChange,
    Place,
)
from loopwright.frozen import Frozen
from loopwright.ir.fabric import Fabric, LineResult, WorkedPart, WorkedRow
from loopwright.ir.items import ANY_STITCH
from loopwright.ir.line_rows import line_rows
from loopwright.ir.pattern import Line, Note, Part, Pattern, RepeatRows, Row

_CALLED = {
    "Seam": "seam",
    "Gather": "gather",
    "Note": "note",
    "Stripes": "stripes",
    "ComesOut": "comes out at",
}


class Edition:
    """One edition, with what is asked of it again and again."""

    def __init__(self, pattern: Pattern, fabrics: tuple[Fabric, ...]) -> None:
        self.pattern = pattern
        self.fabrics = fabrics
        self.names = [
            {count.name: count.values[size] for count in pattern.counts}
            for size in range(len(pattern.sizes))
        ]
        self._rows: dict[tuple[int, int], dict[int, list[tuple[WorkedRow, int]]]] = {}

    def size(self, name: str) -> int:
        """The index of a size."""
        return self.pattern.sizes.index(name)

    def worked(self, index: int, size: int) -> WorkedPart | None:
        """A part as worked; None where it could not be begun."""
        name = self.pattern.parts[index].name
        return next((one for one in self.fabrics[size].parts if one.name == name), None)

    def result(self, place: Place, size: int) -> LineResult | None:
        """What a line came to."""
        part = self.worked(place[0], size)
        return next((one for one in part.lines if one.line == place[1]), None) if part else None

    def rows(self, place: Place, size: int) -> list[tuple[WorkedRow, int]]:
        """The rows that a line made, each with how often it comes in its stretch."""
        index, line = place
        if (index, size) not in self._rows:
            part, worked = self.pattern.parts[index], self.worked(index, size)
            found: dict[int, list[tuple[WorkedRow, int]]] = {}
            for one in line_rows(part, worked, size) if worked else ():
                made = found.setdefault(one.line, [])
                made += [(row, times) for stretch, times in one.rows for row in stretch]
            self._rows[index, size] = found
        return self._rows[index, size].get(line, [])


class Pairing(Frozen):
    """Two editions, the sizes that both have, and what the old one's yarns are called in the new
    one."""

    old: Edition
    new: Edition
    every: tuple[str, ...]
    yarns: Mapping[str, str]


def part_changes(both: Pairing, old: int, new: int) -> Iterator[LineChange]:
    """What changed in a part, given by its index in each edition."""
    before, after = both.old.pattern.parts[old], both.new.pattern.parts[new]
    yield from _start(both, before, after, (old, new))
    for pair in aligned(before.lines, after.lines):
        at_old = (old, pair[0]) if pair[0] is not None else None
        at_new = (new, pair[1]) if pair[1] is not None else None
        if at_old is None or at_new is None:
            yield from _alone(both, after.name, at_old, at_new)
            continue
        lines = _lines(before, after, pair)
        yield from _gathered(both, after.name, lines, at_old, at_new)


def _lines(before: Part, after: Part, pair: Pair) -> tuple[Line, Line]:
    assert pair[0] is not None
    assert pair[1] is not None
    return before.lines[pair[0]], after.lines[pair[1]]


def _start(both: Pairing, before: Part, after: Part, at: tuple[int, int]) -> Iterator[LineChange]:
    sizes = tuple(
        name
        for name in both.every
        if _said(both.old, before.start, name) != _said(both.new, after.start, name)
    )
    if sizes:
        yield LineChange(after.name, "start", WORK, sizes, (at[0], START), (at[1], START))


def _said(edition: Edition, value: object, name: str) -> object:
    size = edition.size(name)
    return settled(value, size, edition.names[size])


def _alone(both: Pairing, part: str, old: Place | None, new: Place | None) -> Iterator[LineChange]:
    """A line that only one of the editions has, in the sizes that work it."""
    edition, place = (both.new, new) if new is not None else (both.old, old)
    assert place is not None
    line = edition.pattern.parts[place[0]].lines[place[1]]
    kind = ADDED if new is not None else REMOVED
    if isinstance(line, Note):
        yield LineChange(part, _label(line), WORDING, both.every, old, new)
        return
    sizes = tuple(name for name in both.every if _worked_in(edition, line, name))
    if sizes:
        yield _change(both, part, line, kind, sizes, old, new)


def _worked_in(edition: Edition, line: Line, name: str) -> bool:
    """Whether a size has a line at all."""
    return not isinstance(line, Row) or line.sizes is None or edition.size(name) in line.sizes


def _change(
    both: Pairing,
    part: str,
    line: Line,
    kind: str,
    sizes: tuple[str, ...],
    old: Place | None,
    new: Place | None,
) -> LineChange:
    """A change of a line that is worked, with what it comes to."""
    rows = isinstance(line, Row | RepeatRows)
    counts = tuple(_counted(both, old, new, name) for name in sizes) if rows else ()
    edition, place = (both.new, new) if new is not None else (both.old, old)
    in_rounds = rows and place is not None and _in_rounds(edition, place)
    return LineChange(part, _label(line), kind, sizes, old, new, counts, in_rounds)


def _in_rounds(edition: Edition, place: Place) -> bool:
    """Whether a line works rounds: as it was worked, or as its part is where it was not."""
    for size in range(len(edition.fabrics)):
        for row, _ in edition.rows(place, size):
            return row.is_round
    part = edition.pattern.parts[place[0]]
    line = part.lines[place[1]]
    return line.is_round if isinstance(line, Row) else part.manner != "flat"


def _label(line: Line) -> str:
    """What a line is called: ``round 3``, ``repeat row 2``, ``seam``."""
    if isinstance(line, Row | RepeatRows):
        return line.label
    return _CALLED[type(line).__name__]


def _gathered(
    both: Pairing, part: str, lines: tuple[Line, Line], old: Place, new: Place
) -> Iterator[LineChange]:
    """The kinds of change of one line, each with the sizes in which it is of that kind."""
    kinds = [(_kind(both, lines, old, new, name), name) for name in both.every]
    found = sorted((one for one in kinds if one[0]), key=lambda one: one[0])
    for kind, group in groupby(found, key=lambda one: one[0]):
        sizes = tuple(name for _, name in group)
        was, now = None if kind == ADDED else old, None if kind == REMOVED else new
        yield _change(both, part, lines[1], kind, sizes, was, now)


def _kind(both: Pairing, lines: tuple[Line, Line], old: Place, new: Place, name: str) -> str:
    """In what way a line changed in a size; empty where it did not."""
    before, after = lines
    if isinstance(before, Note) and isinstance(after, Note):
        return WORDING if _noted(both.old, before, name) != _noted(both.new, after, name) else ""
    had, has = _worked_in(both.old, before, name), _worked_in(both.new, after, name)
    if not had or not has:
        return "" if had is has else ADDED if has else REMOVED
    same = _said(both.old, before, name) == _said(both.new, after, name)
    if not isinstance(before, Row | RepeatRows) or not isinstance(after, Row | RepeatRows):
        return "" if same else WORK
    sizes = both.old.size(name), both.new.size(name)
    made = both.old.rows(old, sizes[0]), both.new.rows(new, sizes[1])
    found = _rows_changed(made[0], made[1], both.yarns)
    if found:
        return found
    if _stated(both.old, before, name) != _stated(both.new, after, name) and _results_differ(
        both.old.result(old, sizes[0]), both.new.result(new, sizes[1])
    ):
        return COUNT
    if _named(before) != _named(after):
        return RENUMBERED
    same_words = _said(both.old, before.remark, name) == _said(both.new, after.remark, name)
    return "" if same and same_words else WORDING


def _noted(edition: Edition, note: Note, name: str) -> object:
    """What a note says in a size, and whether it is printed under finishing."""
    return _said(edition, note.text, name), note.finish


def _rows_changed(
    old: list[tuple[WorkedRow, int]], new: list[tuple[WorkedRow, int]], yarns: Mapping[str, str]
) -> str:
    if any(not same_work(one[0], other[0], yarns) for one, other in zip(old, new, strict=False)):
        return WORK
    return "" if sum(n for _, n in old) == sum(n for _, n in new) else TIMES


def _stated(edition: Edition, line: Row | RepeatRows, name: str) -> object:
    return _said(edition, line.stated, name)


def _results_differ(old: LineResult | None, new: LineResult | None) -> bool:
    """Whether what is stated is not the same number: how it is written does not matter."""
    if old is None or new is None:
        return old is not new
    return old.stated != new.stated


def _named(line: Row | RepeatRows) -> object:
    if isinstance(line, Row):
        return line.numbers, line.side
    return line.first, line.last, line.count


def _counted(both: Pairing, old: Place | None, new: Place | None, name: str) -> Counted:
    found: list[tuple[int | None, int | None]] = []
    for edition, place in ((both.old, old), (both.new, new)):
        size = edition.size(name)
        result = edition.result(place, size) if place is not None else None
        if result is None:
            found.append((None, None))
        else:
            counts = dict(result.counts) | dict(result.stated or ())
            found.append((counts.get(ANY_STITCH), result.worked))
    return Counted(name, (found[0][0], found[1][0]), (found[0][1], found[1][1]))
