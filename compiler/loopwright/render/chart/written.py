"""What is asked of a part as it is written, to lay out and to draw what it came to."""

from __future__ import annotations

from collections.abc import Iterator

from loopwright.ir.items import Chain, Change, Group, Item, Move, Repeat, Work
from loopwright.ir.numbers import Given
from loopwright.ir.pattern import Part, Row
from loopwright.source import Span
from loopwright.trade.stitches import Stitch


def late_changes(part: Part) -> frozenset[int]:
    """The lines of a part that slip stitch along to a new first place in the old yarn, and only
    then take another."""
    out = []
    for i, line in enumerate(part.lines):
        if not isinstance(line, Row):
            continue
        items = _items(part, line)
        moves = [k for k, item in enumerate(items) if isinstance(item, Move)]
        changes = [k for k, item in enumerate(items) if isinstance(item, Change)]
        if moves and changes and moves[0] < changes[0] and not moves[0]:
            out.append(i)
    return frozenset(out)


def groups_of(part: Part) -> Iterator[tuple[Span, Stitch, int]]:
    """The groups of a part that count as one stitch: the stitch they begin with, and how many
    chains stand on it."""
    items = [item for line in part.lines if isinstance(line, Row) for item in line.items]
    while items:
        item = items.pop()
        if isinstance(item, Repeat):
            items += item.items
        if isinstance(item, Group) and item.as_stitch is not None:
            stitches = [one.stitch for one in item.items if isinstance(one, Work)]
            chains = [one.n for one in item.items if isinstance(one, Chain)]
            if stitches:
                first = chains[0] if chains else None
                count = int(first.value) if isinstance(first, Given) else 1
                yield item.span, stitches[0], count


def _items(part: Part, row: Row) -> tuple[Item, ...]:
    """The items of a row, or of the row that it is worked as."""
    if row.as_row is None:
        return row.items
    for line in part.lines:
        if isinstance(line, Row) and any(a <= row.as_row[0] <= b for a, b in line.numbers):
            return line.items
    return row.items


def sided_lines(part: Part) -> frozenset[int]:
    """The lines of a part that say which side they are worked on."""
    rows = (i for i, line in enumerate(part.lines) if isinstance(line, Row) and line.side)
    return frozenset(rows)
