"""Reading a row as colourwork: one stitch on each stitch of the row below, whatever its yarn."""

from __future__ import annotations

from loopwright.frozen import Frozen
from loopwright.ir.fabric import Made, WorkedRow
from loopwright.source import Span
from loopwright.trade.stitches import Stitch

_STITCHES = ("st", "as", "skip as")
_SILENT = ("turn", "join")
_INTO = ("st", "ch", "end")


class Dyed(Frozen):
    """A row read as colourwork: the yarn of each stitch in the order made with where that is
    written, and its stitch where all of it is one."""

    yarns: tuple[str, ...]
    spans: tuple[Span, ...]
    stitch: Stitch | None


def dyed_of(row: WorkedRow, first: bool) -> Dyed | None:
    """A row as colourwork, or None where it takes in, gives out or passes anything. The ``first``
    row of a part stands on its start, which need not be as long as the row."""
    yarns: list[str] = []
    spans: list[Span] = []
    stitches: dict[Stitch, None] = {}
    for made in row.made.expand():
        if made.what in _SILENT:
            continue
        if not _plain(made) or (made.step != 1 and not (first and len(yarns) < 2)):
            return None
        assert made.stitch is not None
        yarns.append(made.yarn)
        spans.append(row.spans[made.item] if made.item < len(row.spans) else Span(0, 0))
        stitches.setdefault(made.stitch._replace(post=""))
    if not yarns or (not first and row.below.length != len(yarns)) or row.shift:
        return None
    return Dyed(tuple(yarns), tuple(spans), next(iter(stitches)) if len(stitches) == 1 else None)


def _plain(made: Made) -> bool:
    """Whether this is one stitch in one place."""
    stitch = made.stitch
    if made.what not in _STITCHES or stitch is None:
        return False
    if made.what == "st" and made.into not in _INTO:
        return False
    return not (made.also or made.chain or stitch.many or stitch.crab or stitch.together > 1)
