"""What the work found out that the prose needs: how often brackets were worked, what untyped
stitches went into, what each line came to. One value a part, over all sizes.

Brackets and stitches are found again by their span in the text. A bracket that was not worked the
same number of times each time it was met has no single number: then its rows are told one by one,
or, where they are repeated later on with other numbers, in the designer's own word.
"""

from __future__ import annotations

from collections.abc import Iterator

from loopwright.frozen import Frozen, field
from loopwright.ir.fabric import Fabric, LineResult, WorkedPart, WorkedRow
from loopwright.ir.runs import Runs
from loopwright.source import Span


class SizeWorked(Frozen):
    """One size of a part as worked."""

    part: WorkedPart
    lines: dict[int, LineResult]
    repeats: dict[Span, set[int]] = field(default_factory=dict)
    spreads: dict[Span, set[Runs[int]]] = field(default_factory=dict)

    def times(self, bracket: Span, line: int, nth: int | None) -> int | None:
        """How often a bracket was worked, in row ``nth`` of a line where they differ; None where
        there is no one number."""
        found = self.repeats.get(bracket, set())
        if len(found) == 1:
            return next(iter(found))
        rows = self.rows(line) if nth is not None and not self.again(line) else []
        if nth is None or nth >= len(rows):
            return None
        return dict(rows[nth].repeats).get(bracket)

    def again(self, line: int) -> bool:
        """Whether a line's rows are worked again, from a repeat line or `as row`."""
        result = self.lines.get(line)
        total = sum(
            times * sum(row.line == line for row in stretch) for stretch, times in self.part.rows
        )
        return result is None or total > result.worked

    def differs(self, line: int, most: int) -> bool:
        """Whether the rows of a line, worked there and nowhere else, differ in their numbers."""
        if self.again(line):
            return False
        rows = self.rows(line, most)
        return len({(row.repeats, row.counts) for row in rows}) > 1

    def spread(self, evenly: Span, line: int, nth: int) -> Runs[int] | None:
        """How an ``evenly`` was spread: always the same, or in row ``nth`` of its line."""
        found = self.spreads.get(evenly, set())
        if len(found) == 1:
            return next(iter(found))
        rows = self.rows(line)
        return dict(rows[nth].spreads).get(evenly) if nth < len(rows) else None

    def loop_first(self, line: int) -> int | None:
        """How many chains the loop has that the rows of a line begin with, after the chain that
        does not count; nought where they begin with none, None where they differ."""
        found = {_loop_first(row) for row in self.rows(line)}
        return next(iter(found)) if len(found) == 1 else None

    def beside_skipped(self, line: int) -> int | None:
        """How many of the chains that a line's rows miss at the hook are a space beside the stitch
        that the others count as; nought where they begin otherwise, None where they differ."""
        found = {_beside_skipped(row) for row in self.rows(line)}
        return next(iter(found)) if len(found) == 1 else None

    def rows(self, line: int, limit: int = 60) -> list[WorkedRow]:
        """The first rows worked from a written line, in order."""
        out: list[WorkedRow] = []
        for stretch, times in self.part.rows:
            for _ in range(times):
                mine = [row for row in stretch if row.line == line]
                if not mine:
                    break
                out += mine
                if len(out) >= limit:
                    return out[:limit]
        return out


def counted_chain(row: WorkedRow) -> tuple[int, int]:
    """How many chains of the one that a row begins with stand for its first stitch, and how many it
    has with those that are a space beside it; noughts where it begins otherwise."""
    things = row.made.slice(0, min(row.made.length, 2)).expand()
    first, *then = things if row.made.length else (None,)
    if first is None or first.what != "as":
        return 0, 0
    beside = [one.chains for one in then if one.what == "ch" and one.item == first.item]
    return first.chains, first.chains + sum(beside)


def _beside_skipped(row: WorkedRow) -> int:
    things = row.made.slice(0, min(row.made.length, 2)).expand()
    first, *then = things if row.made.length else (None,)
    if first is None or first.what != "skip as":
        return 0
    return sum(one.chains for one in then if one.what == "ch" and one.item == first.item)


def _loop_first(row: WorkedRow) -> int:
    things = row.made.slice(0, min(row.made.length, 2)).expand()
    after = [one for one in things if one.what != "turn"]
    return after[0].chains if after and after[0].what in ("ch", "open") else 0


class PartWorked(Frozen):
    """A part as worked in every size. ``into`` tells for each written item what kinds of place
    it went into, ``whats`` what it made, by span."""

    sizes: tuple[SizeWorked, ...]
    into: dict[Span, set[str]]
    whats: dict[Span, set[str]]

    @property
    def has_turning(self) -> bool:
        """Whether a turning chain that does not count was made."""
        return any("turn" in what for what in self.whats.values())

    @property
    def has_post(self) -> bool:
        """Whether a stitch was made around a post."""
        return any("post" in what for what in self.whats.values())

    def begun(self, sizes: tuple[int, ...], line: int) -> tuple[int, int]:
        """How the rows of a line begin in these sizes (``counted_chain``); noughts where they do
        not all begin alike."""
        rows = (row for size in sizes for row in self.sizes[size].rows(line))
        found = {counted_chain(row) for row in rows}
        return next(iter(found)) if len(found) == 1 else (0, 0)

    def top_of(self, chains: int) -> int:
        """Which chain is the top of the stitch that one of so many counts as; nought where that
        differs, or none does."""
        rows = (row for size in self.sizes for row in _distinct(size.part))
        found = {top for top, whole in map(counted_chain, rows) if whole == chains}
        return next(iter(found)) if len(found) == 1 else 0

    def tops(self) -> list[tuple[int, int]]:
        """Of the chains that count as a stitch and a space: which one is the stitch's top, of how
        many."""
        rows = (row for size in self.sizes for row in _distinct(size.part))
        return sorted({(top, whole) for top, whole in map(counted_chain, rows) if top < whole})

    @property
    def has_counted(self) -> bool:
        """Whether a chain that counts as a stitch was made."""
        return any("as" in what for what in self.whats.values())


def part_worked(fabrics: tuple[Fabric, ...], index: int) -> PartWorked:
    """Part number ``index`` over all sizes."""
    into: dict[Span, set[str]] = {}
    whats: dict[Span, set[str]] = {}
    sizes = []
    for fabric in fabrics:
        part = fabric.parts[index]
        size = SizeWorked(part, {line.line: line for line in part.lines})
        for row in _distinct(part):
            _note(row, size, into, whats)
        sizes.append(size)
    return PartWorked(tuple(sizes), into, whats)


def _distinct(part: WorkedPart) -> Iterator[WorkedRow]:
    for stretch, _ in part.rows:
        yield from stretch


def _note(
    row: WorkedRow, size: SizeWorked, into: dict[Span, set[str]], whats: dict[Span, set[str]]
) -> None:
    for span, times in row.repeats:
        size.repeats.setdefault(span, set()).add(times)
    for span, runs in row.spreads:
        size.spreads.setdefault(span, set()).add(runs)
    for made in row.made.tally():
        if made.item < len(row.spans):
            span = row.spans[made.item]
            into.setdefault(span, set()).add(made.into)
            whats.setdefault(span, set()).add(made.what)
            if made.post:
                whats[span].add("post")
