"""One size of a checked pattern, as if it were the only one that the designer had written.

    only(checked, 1).pattern.sizes    ("woman",)

Every number per size becomes that size's, rows of other sizes are left out, and the fabric is that
size's. What is made of it cannot speak of another size.
"""

from __future__ import annotations

from typing import Any

from loopwright.frozen import names_of, replace
from loopwright.ir.checked import Checked
from loopwright.ir.fabric import Fabric, WorkedPart, WorkedRow
from loopwright.ir.numbers import PerSize
from loopwright.ir.pattern import (
    ComesOut,
    Count,
    Hook,
    KitItem,
    Line,
    MadeTo,
    Measure,
    Part,
    RepeatRows,
    Row,
    Stated,
    Text,
)
from loopwright.trade.stitches import Stitch

# The fields that hold one value for each size, by the kind of thing that has them.
_PER_SIZE: dict[type, tuple[str, ...]] = {
    Measure: ("lengths", "bodies"),
    Hook: ("mm",),
    Count: ("values", "lengths"),
    MadeTo: ("shares",),
    RepeatRows: ("lengths",),
    KitItem: ("amounts",),
    Part: ("make",),
}


def only(checked: Checked, size: int) -> Checked:
    """The pattern and its fabric in its size number ``size``."""
    pattern, fabric = checked.pattern, checked.fabrics[size]
    kept = [_kept(part, size) for part in pattern.parts]
    parts = tuple(
        replace(part, lines=tuple(part.lines[at] for at in lines))
        for part, lines in zip(pattern.parts, kept, strict=True)
    )
    alone = in_size(replace(pattern, sizes=(pattern.sizes[size],), parts=parts), size)
    worked = tuple(_renumbered(part, lines) for part, lines in zip(fabric.parts, kept, strict=True))
    one: Fabric = replace(fabric, size=0, parts=worked)
    return Checked(alone, (one,))


def _kept(part: Part, size: int) -> list[int]:
    """The lines of a part that this size has."""
    return [at for at, line in enumerate(part.lines) if _is_for(line, size)]


def _is_for(line: Line, size: int) -> bool:
    return not isinstance(line, Row) or line.sizes is None or size in line.sizes


def _renumbered(part: WorkedPart, kept: list[int]) -> WorkedPart:
    """A part as worked, its rows told by their lines' new numbers."""
    new = {old: at for at, old in enumerate(kept)}
    rows = tuple((tuple(_row(row, new) for row in stretch), n) for stretch, n in part.rows)
    lines = tuple(replace(one, line=new[one.line]) for one in part.lines if one.line in new)
    return replace(part, rows=rows, lines=lines)


def _row(row: WorkedRow, new: dict[int, int]) -> WorkedRow:
    return replace(row, line=new[row.line])


def in_size(value: Any, size: int) -> Any:
    """The pattern or any part of it, with one number wherever there is one for each size."""
    if isinstance(value, PerSize):
        return in_size(value.values[size], size)
    if isinstance(value, Text):
        pieces = value.pieces
        stand = (str, Stitch)
        return Text(tuple(one if isinstance(one, stand) else (one[size],) for one in pieces))
    if type(value) is tuple:
        return tuple(in_size(one, size) for one in value)
    names = () if isinstance(value, type) else names_of(value)
    return _changed(value, names, size) if names else value


def _changed(value: Any, names: tuple[str, ...], size: int) -> Any:
    per_size = _PER_SIZE.get(type(value), ())
    changes = {}
    for name in names:
        old = getattr(value, name)
        new = in_size(old[size : size + 1] if name in per_size else old, size)
        if new is not old:
            changes[name] = new
    if isinstance(value, Row):
        changes["sizes"] = None
    elif isinstance(value, Stated):
        changes["counts"] = tuple(
            replace(in_size(one, size), sizes=None)
            for one in value.counts
            if one.sizes is None or size in one.sizes
        )
    elif isinstance(value, ComesOut):
        changes["dimensions"] = tuple(
            (name, lengths[size : size + 1], unit) for name, lengths, unit in value.dimensions
        )
    return replace(value, **changes) if changes else value
