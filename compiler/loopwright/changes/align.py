"""Which line of the new edition a line of the old one has become.

Lines that say the same are matched first; what is left between them by its label, and then by its
order, so that a row put in between does not make every row after it a new one.
"""

from __future__ import annotations

from collections.abc import Hashable, Iterator, Sequence
from difflib import SequenceMatcher

from loopwright.ir.pattern import Line, RepeatRows, Row

Pair = tuple[int | None, int | None]


def aligned(old: Sequence[Line], new: Sequence[Line]) -> list[Pair]:
    """Pairs of indices, old and new, in the order of the new lines; what was taken out stands
    where it was."""
    said = ([_said(one) for one in old], [_said(one) for one in new])
    pairs: list[Pair] = []
    for same, i, j, k, m in _blocks(*said):
        if same:
            pairs += zip(range(i, j), range(k, m), strict=True)
        else:
            pairs += _by_label(old, new, (i, j, k, m))
    return pairs


def _blocks(old: list[Hashable], new: list[Hashable]) -> Iterator[tuple[bool, int, int, int, int]]:
    for tag, i, j, k, m in SequenceMatcher(None, old, new, autojunk=False).get_opcodes():
        yield tag == "equal", i, j, k, m


def _by_label(
    old: Sequence[Line], new: Sequence[Line], span: tuple[int, int, int, int]
) -> Iterator[Pair]:
    i, j, k, m = span
    labels = ([_label(one) for one in old[i:j]], [_label(one) for one in new[k:m]])
    for same, a, b, c, d in _blocks(*labels):
        if same:
            yield from zip(range(i + a, i + b), range(k + c, k + d), strict=True)
            continue
        both = min(b - a, d - c)
        while both and any(type(old[i + a + n]) is not type(new[k + c + n]) for n in range(both)):
            both -= 1
        yield from ((i + a + n, k + c + n) for n in range(both))
        yield from ((n, None) for n in range(i + a + both, i + b))
        yield from ((None, n) for n in range(k + c + both, k + d))


def _label(line: Line) -> Hashable:
    label = line.label if isinstance(line, Row | RepeatRows) else ""
    return type(line).__name__, label


def _said(line: Line) -> Hashable:
    """What a line says, without its number: a row that moved down says the same."""
    if isinstance(line, Row):
        return "row", line.is_round, line.items, line.as_row
    if isinstance(line, RepeatRows):
        return "repeat", line.how, line.n, line.lengths, line.last - line.first, line.count
    return type(line).__name__, line
