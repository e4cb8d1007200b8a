"""One slip in a row that shows in one size as this and in another as that is one message.

A repeat that takes too many stitches does not fit where they leave a rest, and makes a wrong
count where they happen not to.
"""

from __future__ import annotations

from bisect import bisect_right

from loopwright.diagnostics import ERROR, Diagnostic
from loopwright.frozen import replace
from loopwright.ir.pattern import Pattern


def one_a_line(pattern: Pattern, found: tuple[Diagnostic, ...]) -> tuple[Diagnostic, ...]:
    """The messages, those about the same line in different sizes put into one."""
    if len(pattern.sizes) == 1 or len(found) < 2:
        return found
    starts = sorted(line.span.start for part in pattern.parts for line in part.lines)
    lines: dict[int, list[Diagnostic]] = {}
    kept = []
    for one in found:
        if one.severity == ERROR and one.sizes and one.row:
            lines.setdefault(bisect_right(starts, one.span.start), []).append(one)
        else:
            kept.append(one)
    for told in lines.values():
        sizes = [size for one in told for size in one.sizes]
        apart = len(set(sizes)) == len(sizes)
        kept += [_together(pattern, told)] if apart and len(told) > 1 else told
    return tuple(kept)


def _together(pattern: Pattern, told: list[Diagnostic]) -> Diagnostic:
    """One message of several, each about other sizes."""
    told = sorted(told, key=lambda one: pattern.sizes.index(one.sizes[0]))
    sizes = {size for one in told for size in one.sizes}
    text = " ".join(f"In {_listed(one.sizes)}: {one.text}" for one in told)
    ordered = tuple(size for size in pattern.sizes if size in sizes)
    return replace(told[0], text=text, sizes=ordered, edits=())


def _listed(sizes: tuple[str, ...]) -> str:
    return " and ".join(filter(None, (", ".join(sizes[:-1]), sizes[-1])))
