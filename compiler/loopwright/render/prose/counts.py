"""What a row comes to, in words: as the designer stated it, else the stitches that were made.

    28 (32, 36) sts, 1 ch-4 sp
"""

from __future__ import annotations

from loopwright.ir.items import ANY_STITCH, Kind
from loopwright.ir.pattern import Stated
from loopwright.render.prose.places import noun
from loopwright.render.prose.telling import Telling, mentions
from loopwright.render.prose.words import across, listing, many, plain
from loopwright.render.prose.worked import SizeWorked

_COUNTING = {
    "": "",
    "ch": ", counting the ch",
    "no turning": ", not counting the turning ch",
}
NONE = "–"


def stated_count(stated: Stated, tell: Telling) -> str:
    """The counts as stated, for all sizes told of; empty where they cannot be printed."""
    kinds: list[Kind] = []
    for count in stated.counts:
        if tell.variable[1] is None and tell.variable[0] and mentions(count.n, tell.variable[0]):
            return ""
        if count.kind not in kinds:
            kinds.append(count.kind)
    parts = [_of_kind(kind, stated, tell) for kind in kinds]
    return ", ".join(part for part in parts if part) + _COUNTING[stated.counting]


def _of_kind(kind: Kind, stated: Stated, tell: Telling) -> str:
    values = []
    for size in tell.sizes:
        value = NONE
        for count in stated.counts:
            if count.kind == kind and (count.sizes is None or size in count.sizes):
                value = plain(tell.value(count.n, size))
        values.append(value)
    if all(value == NONE for value in values):
        return ""
    single = all(value in ("1", NONE) for value in values)
    named = across([value for value in values if value != NONE])
    if NONE not in values:
        return f"{named} {noun(kind, tell, not single)}"
    shown = tell.size_names(
        tuple(size for size, value in zip(tell.sizes, values, strict=True) if value != NONE)
    )
    return f"{named} {noun(kind, tell, not single)} ({listing(shown)})"


def made_count(line: int, tell: Telling) -> str:
    """The stitches that a line's rows were found to make: one number, or each row's in turn."""
    per_size = [_row_counts(tell.worked.sizes[size], line) for size in tell.sizes]
    if not all(per_size):
        return ""
    lengths = {len(counts) for counts in per_size}
    if len(lengths) > 1 or lengths.pop() > 8:
        return f"{_shown([counts[-1] for counts in per_size])} after the last"
    steps = [_shown([counts[at] for counts in per_size]) for at in range(len(per_size[0]))]
    return ", then ".join(steps)


def _shown(values: list[int]) -> str:
    single = all(value == 1 for value in values)
    return f"{across([str(value) for value in values])} {'st' if single else many('st')}"


def _row_counts(size: SizeWorked, line: int) -> list[int]:
    """The stitch counts of a line's own rows; one number where they all agree."""
    result = size.lines.get(line)
    if result is None or result.worked == 0:
        return []
    counts = [stitches(row.counts) for row in size.rows(line, min(result.worked, 60))]
    return counts[:1] if len(set(counts)) == 1 else counts


def stitches(counts: tuple[tuple[Kind, int], ...]) -> int:
    """The number of stitches among a row's counts."""
    return dict(counts).get(ANY_STITCH, 0)
