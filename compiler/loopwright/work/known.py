"""Known rows: a row worked before on an equal edge, with equal numbers, is not worked again.

What the hand does in a row depends on its items, on the numbers that they come to, and on how it
meets the edge; on nothing else, unless it looks further down. So the same row of another sleeve, of
another size, of a value that is tried, or of another pattern is taken over as it was made, with
the places in the text put in anew. It costs as much effort as when it was worked, so that what
is found never depends on what was worked before.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache
from itertools import count
from typing import TYPE_CHECKING, get_args

from loopwright.frozen import NamedTuple
from loopwright.ir.items import Group, Item, Repeat, Scope, Target, Work
from loopwright.ir.numbers import CannotReckon, Named, Number, PerSize, Reckoned, reckon
from loopwright.ir.pattern import OwnStitch, Row
from loopwright.source import Span
from loopwright.work.effort import Effort
from loopwright.work.hand import Hand

if TYPE_CHECKING:
    from loopwright.work.row import Meeting

MOST_KNOWN = 8_000
"""Rows kept; past it the one goes that was not asked for longest."""

MOST_ALIKE = 1_000
"""Texts of rows kept. There are few that come again, and they do so soon: to keep as many as there
are rows would find two in a thousand more, and hold a tenth more memory in a long run."""

Key = tuple[object, ...]


class Known(NamedTuple):
    """A row as the hand left it, and what that took. Spans are told by where they stand among
    those of the row (``Reading.spans``)."""

    hand: Hand
    spent: int
    spans: tuple[int, ...]
    repeats: tuple[int, ...]
    spreads: tuple[int, ...]


class Reading(NamedTuple):
    """A row as far as it decides what is made: ``like`` is the same for rows that are equal,
    ``numbers`` are those that have no value without a size, ``spans`` the texts of its items,
    ``crab`` whether anything in it is worked backwards.
    ``like`` is 0 for a row that cannot be known again. ``row`` keeps the row that this was read
    from, so that its identity stays its own."""

    row: Row
    like: int
    numbers: tuple[Number, ...]
    spans: tuple[Span, ...]
    owns: bool
    crab: bool


_numbering = count(1)


@lru_cache(MOST_KNOWN)
def _cell(key: Key) -> list[Known]:
    """Where a row is kept that is known by a key; empty until it is worked."""
    return []


@lru_cache(MOST_ALIKE)
def _like(items: tuple[Item, ...]) -> int:
    """A number for rows of equal items: never that of others, though one that was long not asked
    for gets another."""
    return next(_numbering)


def forget() -> None:
    """Forget every row."""
    _cell.cache_clear()
    _like.cache_clear()


def reading_of(row: Row, effort: Effort) -> Reading:
    """The reading of a row, made once for all sizes of a pattern."""
    return effort.readings.get(id(row)) or _read(row, effort)


def key_of(
    reading: Reading, meeting: Meeting, owns: dict[str, OwnStitch], manner: str
) -> Key | None:
    """By what a row is known again; None where it cannot be, or its numbers have no values."""
    if not reading.like:
        return None
    size, names = meeting.size, meeting.names
    try:
        numbers = tuple([reckon(one, size, names) for one in reading.numbers])
    except CannotReckon:
        return None
    return (
        reading.like,
        numbers,
        meeting.below,
        meeting.ring,
        meeting.turned,
        meeting.yarn,
        meeting.in_join,
        meeting.unworked,
        reading.row.is_round,
        manner,
        tuple(meeting.marks.items()) if meeting.marks else (),
        # The designer's own stitches have numbers of their own.
        (size, tuple(names.items()), tuple(owns.values())) if reading.owns else (),
    )


def recall(key: Key, reading: Reading, meeting: Meeting) -> Hand | None:
    """The hand as it would be left by working the row."""
    cell = _cell(key)
    effort = meeting.effort
    if not cell or cell[0].spent > effort.left:
        return None
    known = cell[0]
    effort.left -= known.spent
    hand = Hand.__new__(Hand)
    fields = hand.__dict__
    fields.update(known.hand.__dict__)
    spans = reading.spans
    fields["size"] = meeting.size
    fields["names"] = meeting.names
    fields["effort"] = effort
    fields["faults"] = []
    fields["spans"] = [spans[at] for at in known.spans]
    if known.repeats:
        many = known.hand.repeats.values()
        fields["repeats"] = {spans[at]: n for at, n in zip(known.repeats, many, strict=True)}
    if known.spreads:
        runs = known.hand.spreads.values()
        fields["spreads"] = {spans[at]: one for at, one in zip(known.spreads, runs, strict=True)}
    return hand


def keep(key: Key, reading: Reading, hand: Hand, spent: int) -> None:
    """Keep how the hand left a row, where that can be told without this pattern's text."""
    if hand.faults or hand.openings or hand.elsewhere:
        return
    if hand.twice is not None or hand.last_twice is not None:
        return
    at = {one: index for index, one in enumerate(reading.spans)}
    try:
        places = [tuple([at[one] for one in of]) for of in (hand.spans, hand.repeats, hand.spreads)]
    except KeyError:
        return
    kept = Hand.__new__(Hand)
    kept.__dict__.update(hand.__dict__)
    kept.forget_pattern()
    _cell(key)[:] = [Known(kept, spent, *places)]


# ------------------------------------------------------------------ reading a row
def _read(row: Row, effort: Effort) -> Reading:
    spans: list[Span] = []
    numbers: list[Number] = []
    owns = crab = False
    for item in _all(row.items):
        spans.append(item.span)
        owns = owns or bool(getattr(item, "own", ""))
        crab = crab or (type(item) is Work and item.stitch.crab)
        numbers.extend(_numbers(item))
    like = 0
    # Items that stand at one place of the text cannot be told apart by it.
    if len(set(spans)) == len(spans):
        like = _like(row.items)
    reading = Reading(row, like, tuple(numbers), tuple(spans), owns, crab)
    effort.readings[id(row)] = reading
    return reading


def _all(items: tuple[Item, ...]) -> Iterator[Item]:
    for item in items:
        yield item
        if type(item) is Repeat or type(item) is Group:
            yield from _all(item.items)


def _numbers(item: Item) -> Iterator[Number]:
    """The numbers of an item that have no value without a size."""
    for name in FIELDS[type(item)]:
        one = getattr(item, name)
        if type(one) in UNSIZED:
            yield one
        elif type(one) is Target:
            if type(one.n) in UNSIZED:
                yield one.n
            if one.scope is not None and type(one.scope.n) in UNSIZED:
                yield one.scope.n
        elif type(one) is Scope and type(one.n) in UNSIZED:
            yield one.n


NUMBERED = ("n", "times", "chains", "target", "scope")
FIELDS: dict[type, tuple[str, ...]] = {
    kind: tuple(name for name in NUMBERED if name in kind.__match_args__) for kind in get_args(Item)
}
"""The fields of each kind of item in which there may be numbers."""

UNSIZED = (PerSize, Named, Reckoned)
