"""What a row comes to, in words: as the designer stated it, else the stitches that were made.

28 (32, 36) sts, 1 ch-4 sp
"""

from __future__ import annotations

from loopwright.ir.items import ANY_STITCH, Kind
from loopwright.ir.pattern import Row, Stated
from loopwright.render.prose.places import noun
from loopwright.render.prose.telling import Telling, amount_of
from loopwright.render.prose.tongue import phrase
from loopwright.render.prose.voice import Voice
from loopwright.render.prose.words import across

_COUNTING = {
    "": "",
    "ch": phrase("{counts}, counting the ch"),
    "no turning": phrase("{counts}, not counting the turning ch"),
}
NONE = "–"


def stated_count(stated: Stated, tell: Telling) -> str:
    """The counts as stated, for all sizes told of."""
    kinds: list[Kind] = []
    for count in stated.counts:
        if count.kind not in kinds:
            kinds.append(count.kind)
    parts = [_of_kind(kind, stated, tell) for kind in kinds]
    text = ", ".join(part for part in parts if part)
    how = _COUNTING[stated.counting]
    return tell.voice.say(how, counts=text) if text and how else text


def _of_kind(kind: Kind, stated: Stated, tell: Telling) -> str:
    values = []
    for size in tell.sizes:
        value = NONE
        for count in stated.counts:
            if count.kind == kind and (count.sizes is None or size in count.sizes):
                value = tell.in_size(count.n, size)
        values.append(value)
    if all(value == NONE for value in values):
        return ""
    n = 1 if all(value in ("1", NONE) for value in values) else 2
    named = across([value for value in values if value != NONE])
    text = f"{named} {noun(kind, tell, n)}"
    if NONE not in values:
        return text
    shown = tell.size_names(
        tuple(size for size, value in zip(tell.sizes, values, strict=True) if value != NONE)
    )
    return f"{text} ({tell.voice.listing(shown)})"


def made_count(row: Row, tell: Telling) -> str:
    """The stitches that a row was found to make; of several rows that differ, the last's."""
    results = [tell.worked.sizes[size].lines.get(tell.line) for size in tell.sizes]
    if any(result is None or not result.worked for result in results):
        return ""
    last = sts([stitches(result.counts) for result in results if result], tell.voice)
    if tell.nth is not None:
        found = [tell.worked.sizes[size].rows(tell.line)[tell.nth] for size in tell.sizes]
        return sts([stitches(one.counts) for one in found], tell.voice)
    several = any(first != last for first, last in row.numbers) or len(row.numbers) > 1
    if last and several and (row.as_row is not None or _differ(tell)):
        return _at_end_of(last, row, tell)
    return last


def _at_end_of(count: str, row: Row, tell: Telling) -> str:
    """The count of the last of several rows, where the others' may be others."""
    number = row.numbers[-1][-1]
    return tell.voice.say(
        "{counts} at the end of {row} {n}", counts=count, row=tell.row_word(), n=number
    )


def _differ(tell: Telling) -> bool:
    for size in tell.sizes:
        worked = tell.worked.sizes[size]
        own = worked.rows(tell.line)[: worked.lines[tell.line].worked]
        if len({stitches(one.counts) for one in own}) > 1:
            return True
    return False


def sts(values: list[int], voice: Voice) -> str:
    """``28 (32, 36) sts``; nothing where there are none."""
    if not any(values):
        return ""
    amount = amount_of(values)
    n = 1 if amount.one else 2
    return f"{amount.text} {voice.noun('st', 'sts', n)}"


def stitches(counts: tuple[tuple[Kind, int], ...]) -> int:
    """The number of stitches among a row's counts."""
    return dict(counts).get(ANY_STITCH, 0)
