"""What is written, in one size: every number is its value and no place in a file is left. Nothing
of the other sizes is left either.

Two lines that settle alike say the same to a maker of that size.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields
from fractions import Fraction

from loopwright.ir.fabric import Made, WorkedRow
from loopwright.ir.numbers import CannotReckon, Given, Named, PerSize, Reckoned, reckon
from loopwright.ir.one_size import in_size
from loopwright.ir.runs import Builder, Runs

MOST_COMPARED = 100_000
"""Stitches of a row that are compared one by one; longer rows are compared as they are written."""

Settled = object


def settled(value: object, size: int, names: Mapping[str, int]) -> Settled:
    """A line, an item or a part of one, in the size of that index; ``names`` are its counts."""
    return _settled(in_size(value, size), size, names)


def _settled(value: object, size: int, names: Mapping[str, int]) -> Settled:
    if isinstance(value, Given | PerSize | Named | Reckoned):
        return _number(value, size, names)
    if isinstance(value, tuple):
        return (type(value).__name__, *(_settled(one, size, names) for one in value))
    if hasattr(value, "__dataclass_fields__"):
        parts = [
            _settled(getattr(value, one.name), size, names)
            for one in fields(value)  # type: ignore[arg-type]
            if one.compare
        ]
        return (type(value).__name__, *parts)
    return value


def _number(value: Given | PerSize | Named | Reckoned, size: int, names: Mapping[str, int]) -> str:
    known: dict[str, Fraction | int] = dict(names)
    try:
        return str(reckon(value, size, known))
    except (CannotReckon, KeyError):
        # It hangs on the row's own number.
        return repr(value)


def same_work(one: WorkedRow, other: WorkedRow, yarns: Mapping[str, str]) -> bool:
    """Whether two rows are the same stitches in the same places; ``yarns`` are the names that the
    first one's yarns have in the second."""
    if (one.is_round, one.turned, one.shift, one.made.length) != (
        other.is_round,
        other.turned,
        other.shift,
        other.made.length,
    ):
        return False
    mine, theirs = _bare(one.made, yarns), _bare(other.made, {})
    if mine == theirs:
        return True
    if mine.length > MOST_COMPARED:
        return False
    return all(a == b for a, b in zip(mine.expand(), theirs.expand(), strict=True))


def _bare(runs: Runs[Made], yarns: Mapping[str, str]) -> Runs[Made]:
    """What was made, without where it is written."""
    out: Builder[Made] = Builder()
    for node, times in runs.pairs:
        if isinstance(node, Runs):
            out.repeat(_bare(node, yarns), times)
        else:
            held = "+".join(yarns.get(name, name) for name in node.yarn.split("+"))
            out.add(node._replace(item=0, yarn=held), times)
    return out.done()
