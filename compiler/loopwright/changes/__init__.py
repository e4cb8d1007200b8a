"""What changed between two editions of a pattern, for somebody who is making it.

    compare(old, new) -> Changes

A row has changed where other stitches are made or other places are used, in the sizes in which that
is so; a row that is only written otherwise is wording. The old edition need not come out: that is
what it is corrected for.
"""

from __future__ import annotations

from loopwright.changes.facts import fact_changes
from loopwright.changes.lines import Edition, Pairing, part_changes
from loopwright.changes.values import Changes, LineChange
from loopwright.ir.checked import Checked
from loopwright.ir.fabric import Fabric
from loopwright.ir.pattern import Pattern

__all__ = ["Changes", "compare"]


def compare(
    old: tuple[Pattern, tuple[Fabric, ...]], new: Checked, old_checked: Checked | None, faults: int
) -> Changes:
    """The old edition as it was worked, with ``old_checked`` where it came out and the number of
    its ``faults`` where it did not, against the new one."""
    before, after = Edition(*old), Edition(new.pattern, new.fabrics)
    every = tuple(name for name in new.pattern.sizes if name in old[0].sizes)
    both = Pairing(before, after, every, _yarns(old[0], new.pattern))
    lines: list[LineChange] = []
    for index, part in enumerate(new.pattern.parts):
        was = next((i for i, one in enumerate(old[0].parts) if one.name == part.name), None)
        if was is not None:
            lines += part_changes(both, was, index)
    return Changes(
        old[0].title,
        new.pattern.title,
        _version(old[0]),
        _version(new.pattern),
        every,
        tuple(lines),
        tuple(fact_changes(both, (old_checked, new))),
        faults,
    )


def _yarns(old: Pattern, new: Pattern) -> dict[str, str]:
    """What each yarn of the old edition is called now: a yarn that is gone is the one that stands
    in its place."""
    names = [one.name for one in new.yarns]
    left = [name for name in names if name not in {one.name for one in old.yarns}]
    gone = [one.name for one in old.yarns if one.name not in names]
    return dict(zip(gone, left, strict=False)) if len(gone) == len(left) else {}


def _version(pattern: Pattern) -> str:
    found = [text for label, text in pattern.texts if label == "version"]
    pieces = found[-1].pieces if found else ()
    return " ".join(one for one in pieces if isinstance(one, str)).strip()
