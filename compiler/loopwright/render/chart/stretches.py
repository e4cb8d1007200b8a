"""The rows of a part in stretches that are worked so many times, numbered and each on its side."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from loopwright.frozen import Frozen, replace
from loopwright.ir.fabric import WorkedPart, WorkedRow


class Stretch(Frozen):
    """Rows worked one after another so many times; ``number`` is that of the first row the first
    time (0 for a setup row)."""

    rows: tuple[WorkedRow, ...]
    times: int
    number: int

    @property
    def last(self) -> int:
        """The number of its last row the last time."""
        return self.number + len(self.rows) * self.times - 1

    @property
    def alternates(self) -> bool:
        """Whether the right and the wrong side take turns from one time to the next."""
        return self.times > 1 and sum(row.turned != crab(row) for row in self.rows) % 2 == 1

    @property
    def wrong_side(self) -> bool:
        """Whether the last row is worked on the wrong side the last time."""
        return self.rows[-1].wrong_side != (self.alternates and self.times % 2 == 0)

    def copy(self, nth: int) -> tuple[WorkedRow, ...]:
        """The rows as they are worked the ``nth`` time, counted from 0."""
        if not self.alternates or nth % 2 == 0:
            return self.rows
        return tuple(replace(row, wrong_side=not row.wrong_side) for row in self.rows)


class Drawn(Frozen):
    """A row that is drawn, and its number in the part."""

    worked: WorkedRow
    number: int  # 0 for a setup row


def stretches(
    part: WorkedPart, sided_lines: frozenset[int], fold: bool = False
) -> tuple[Stretch, ...]:
    """The rows of a part in stretches, numbered, each row on its side of the work. A stretch
    takes in rows before it that are the same once more; with ``fold`` so do rows that are worked
    only once more. ``sided_lines`` are the lines that say themselves which side they are worked
    on."""
    out: list[Stretch] = []
    for rows, times in part.rows:
        last = out[-1].last if out else 0
        wrong = out[-1].wrong_side if out else False
        again = bool(out) and rows[0].number <= last
        stated = frozenset[int]() if again else sided_lines
        sided = tuple(_sides(rows, wrong, stated)) if out else rows
        number = last + 1 if again else rows[0].number
        more = Stretch(sided, times, number)
        again = times > 1 or (fold and len(rows) > 1)
        while again and (earlier := _same_before(out, more)) is not None:
            del out[-len(rows) :]
            more = Stretch(earlier.rows, more.times + 1, earlier.number)
        out.append(more)
    return tuple(_folded(out) if fold else out)


def _folded(single: Iterable[Stretch]) -> Iterator[Stretch]:
    """The same with single rows that come again straight after themselves as one stretch."""
    out: list[Stretch] = []
    for one in single:
        last = out[-1] if out else None
        same = last is not None and len(last.rows) == len(one.rows) == 1
        if last is not None and same and _told(last.rows[0]) == _told(one.rows[0]):
            out[-1] = Stretch(last.rows, last.times + one.times, last.number)
        else:
            out.append(one)
    yield from out


def begun_again(stretch: Stretch, rest: Sequence[Stretch]) -> int:
    """With how many of its first rows a stretch is begun once more at the end, and nothing else
    follows; 0 where that is not so."""
    length = len(stretch.rows)
    if sum(len(one.rows) * one.times for one in rest) >= length:
        return 0
    rows = [row for one in rest for _ in range(one.times) for row in one.rows]
    same = all(_told(one) == _told(two) for one, two in zip(rows, stretch.rows, strict=False))
    return len(rows) if same else 0


def windowed(stretched: tuple[Stretch, ...], rows: tuple[int, int] | None) -> tuple[Stretch, ...]:
    """The stretches, or what of them lies between two row numbers: whole times stay together,
    and the rows of a time that is cut become stretches of their own."""
    if rows is None:
        return stretched
    return tuple(piece for one in stretched for piece in _within(one, *rows))


def _within(stretch: Stretch, first: int, last: int) -> Iterator[Stretch]:
    length = len(stretch.rows)
    low, high = (
        max(first - stretch.number, 0),
        min(last - stretch.number + 1, length * stretch.times),
    )
    whole, after = -(-low // length), max(high, 0) // length
    if whole > after:
        yield from _single(stretch, low, high)
        return
    yield from _single(stretch, low, min(whole * length, high))
    if after > whole:
        number = stretch.number + whole * length
        yield Stretch(stretch.copy(whole), after - whole, number)
    yield from _single(stretch, max(after * length, low), high)


def _single(stretch: Stretch, low: int, high: int) -> Iterator[Stretch]:
    """The rows of a stretch from one to another, each by itself."""
    for at in range(low, high):
        nth, i = divmod(at, len(stretch.rows))
        yield Stretch((stretch.copy(nth)[i],), 1, stretch.number + at)


def crab(row: WorkedRow) -> bool:
    """Whether a row is worked backwards: the other way, on the same side."""
    return any(made.stitch.crab for made in row.made.tally() if made.stitch)


def is_open(row: WorkedRow) -> bool:
    """Whether this is a round that nothing closes, as in a spiral."""
    return row.is_round and all(made.what not in ("join", "join sp") for made in row.made.tally())


def _sides(rows: Iterable[WorkedRow], wrong: bool, stated: frozenset[int]) -> Iterator[WorkedRow]:
    """The rows as worked after a row on a given side."""
    for row in rows:
        wrong = row.wrong_side if row.line in stated else wrong != (row.turned != crab(row))
        yield replace(row, wrong_side=wrong)


def _told(row: WorkedRow) -> tuple[object, ...]:
    """What makes a row the same row once more."""
    return row.line, row.made, row.edge, row.turned


def _same_before(out: list[Stretch], stretch: Stretch) -> Stretch | None:
    """The same rows worked once, straight before a stretch, as a stretch; None where others
    are."""
    count = len(stretch.rows)
    before = out[-count:]
    if len(before) < count or any(one.times > 1 or len(one.rows) > 1 for one in before):
        return None
    rows = tuple(one.rows[0] for one in before)
    for one, two in zip(rows, stretch.rows, strict=True):
        if _told(one) != _told(two):
            return None
    return Stretch(rows, 1, before[0].number)
