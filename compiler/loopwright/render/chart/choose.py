"""What is drawn of a part, and in words what is not.

A chart holds so many symbols and no more, whatever the pattern says: a stretch of rows that is
worked over and over is drawn twice and bracketed, a strip out of the middle of long rows is left
out, and rows that no longer fit are named.
"""

from __future__ import annotations

from collections.abc import Sequence

from loopwright.frozen import Frozen, replace
from loopwright.ir.fabric import WorkedPart
from loopwright.render.chart.cutting import LeftOut
from loopwright.render.chart.leave_out import (
    LEAST_KEPT,
    Cut,
    Repeat,
    without_repeats,
    without_strip,
)
from loopwright.render.chart.sides import LONG, Pair, Side, without_sides
from loopwright.render.chart.stretches import Drawn, Stretch, begun_again, stretches, windowed
from loopwright.render.chart.wedge import LARGE, Wedge, wedge_of

MOST_SYMBOLS = 4000
MOST_IN_A_ROW = 300
WIDE = 36  # from here on, repeats within a row are drawn a few times only
WHOLE_SYMBOLS = 40_000
WHOLE_ROW = 4000
DRAWN_TIMES = 2  # how often a stretch is drawn that is worked more than ALL_TIMES times
ALL_TIMES = 4


class Wish(Frozen):
    """How much of a part is wished for: ``whole`` with every repeat, ``rows`` only those whose
    numbers lie from the first to the last of the two. Sizes are tried to be drawn alike with:
    ``like``, so few repeats that the first row has so many symbols, as another size has, or sides
    as short as long ones are; ``fan``, rounds as a wedge from their ring on, which sizes of more or
    fewer repeats have in common; ``bracketed``, every stretch of rows that is worked more than once
    in a bracket, with what it is begun with once more at the end."""

    whole: bool = False
    rows: tuple[int, int] | None = None
    like: int = 0
    fan: bool = False
    bracketed: bool = False

    @property
    def most(self) -> int:
        """How many symbols may be drawn."""
        return WHOLE_SYMBOLS if self.whole else MOST_SYMBOLS

    @property
    def widest(self) -> int:
        """How many symbols a row may have."""
        return WHOLE_ROW if self.whole else MOST_IN_A_ROW

    def from_start(self) -> Wish:
        """The same, with the rows before those wished for, which those stand on."""
        return replace(self, rows=(0, self.rows[1]) if self.rows else None)

    def has(self, number: int) -> bool:
        """Whether the row of that number is to be drawn."""
        return self.rows is None or self.rows[0] <= number <= self.rows[1]


EVERYTHING_NEEDED = Wish()


class Over(Frozen):
    """A stretch that is worked over and over: the first and the last of the rows drawn for it (by
    their index), how many rows it has and how often it is worked; ``more`` of them once more at
    the end, which are not drawn again."""

    first: int
    last: int
    rows: int
    times: int
    more: int = 0


class Selection(Frozen):
    """The rows to draw, the stretches to bracket, the strip left out of each row (in step with
    ``rows``; empty where the rows are whole), and the numbers of rows not drawn at all because
    more than ``most`` symbols, or ``widest`` in a row, do not fit; the ``repeat`` that is drawn a
    few times only within the rows; ``clean`` where the strips leave a gap that goes straight up;
    ``wedge`` where rounds are drawn as a part of the circle; ``unlike`` where so much is drawn
    whole that repeats would be left out of it, had its rows any in common; ``sides`` are those of
    an oval or a border that have repeats left out."""

    rows: tuple[Drawn, ...]
    over: tuple[Over, ...]
    strips: tuple[LeftOut | None, ...]
    first_missing: int = 0
    last_missing: int = 0
    most: int = MOST_SYMBOLS
    widest: int = MOST_IN_A_ROW
    repeat: Repeat | None = None
    clean: bool = True
    wedge: Wedge | None = None
    unlike: bool = False
    sides: tuple[Side, ...] = ()


def laid_from(chosen: Selection) -> tuple[object, ...]:
    """What a drawing is laid out from: the rows and what is left out of them, but for numbers."""
    rows = tuple(
        (
            row.worked.line,
            row.worked.is_round,
            row.worked.turned,
            row.worked.wrong_side,
            row.worked.shift,
            row.worked.spans,
            row.worked.left,
            row.worked.made,
            row.worked.below,
            row.worked.edge,
        )
        for row in chosen.rows
    )
    strips = tuple((one.after, one.below, one.things > 0) if one else () for one in chosen.strips)
    sides = tuple((one.which, one.low) for one in chosen.sides)
    return rows, strips, chosen.clean, chosen.wedge, sides


def select(
    part: WorkedPart,
    sided_lines: frozenset[int],
    wish: Wish,
    *,
    may_cut: bool = False,
    may_wedge: bool = False,
    pairs: Sequence[Pair] = (),
) -> Selection:
    """Choose what to draw; ``may_cut`` where a strip may be left out of the rows, ``may_wedge``
    where they are rounds of which a part of the circle may be drawn; ``pairs`` are opposite sides,
    as places that the first round meets, of which repeats may be left out."""
    found = stretches(part, sided_lines, fold=wish.bracketed)
    rows, over, total = _drawn(windowed(found, wish.rows), wish)
    widest = max((row.worked.made.length for row in rows), default=0)
    tried = may_wedge or bool(pairs) or (may_cut and widest > WIDE)
    cut = _cut(rows, wish) if may_cut and rows else Cut(rows, [None] * len(rows))
    rows, strips = cut.rows, cut.strips
    wedge, sides = None, tuple[Side, ...]()
    if may_wedge and not wish.whole:
        rows, wedge = wedge_of(rows, [symbols_of(row) for row in rows], wish.most, wish.fan)
    if pairs and not wish.whole:
        rows, sides = without_sides(rows, pairs, LEAST_KEPT if wish.like else LONG)
    fits = _fitting(rows, may_cut, wish)
    missing = (rows[fits].number, total) if fits < len(rows) else (0, 0)
    whole = not (wish.whole or wedge or sides or any(strips) or missing[0])
    kept = tuple(replace(one, last=min(one.last, fits - 1)) for one in over if one.first < fits)
    return Selection(
        tuple(rows[:fits]),
        kept,
        tuple(strips[:fits]),
        *missing,
        wish.most,
        wish.widest,
        cut.repeat,
        cut.clean,
        wedge if wedge and wedge.first < fits else None,
        tried and whole and _cost(rows) > LARGE,
        tuple(replace(one, strips=one.strips[:fits]) for one in sides if one.row < fits),
    )


def _cut(rows: list[Drawn], wish: Wish) -> Cut:
    """The rows without the repeats, or the strip, that is left out of them."""
    widest = max(row.worked.made.length for row in rows)
    too_much = widest > wish.widest or _cost(rows) > wish.most
    whole = Cut(rows, [None] * len(rows))
    if not too_much and (wish.whole or not (widest > WIDE or wish.like)):
        return whole
    if not too_much and any(map(_takes_up, rows)):
        return whole  # what short rows left lies beside the strip, and would not be found past it
    return without_repeats(rows, wish.like) or (without_strip(rows) if too_much else whole)


def _takes_up(row: Drawn) -> bool:
    """Whether a row takes up what earlier ones left unworked."""
    return any(made.into == "left" for made in row.worked.made.tally())


def _drawn(stretched: Sequence[Stretch], wish: Wish) -> tuple[list[Drawn], list[Over], int]:
    """The rows with long repeats drawn a few times only, as far as they could possibly fit."""
    rows: list[Drawn] = []
    over: list[Over] = []
    total = 0
    for at, stretch in enumerate(stretched):
        times, number, length = stretch.times, stretch.number, len(stretch.rows)
        most = 1 if wish.bracketed else ALL_TIMES
        shown = times if wish.whole or times <= most else _drawn_times(stretch)
        more = begun_again(stretch, stretched[at + 1 :]) if wish.bracketed and times > 1 else 0
        shown = 1 if more else shown
        first = len(rows)
        for nth in range(min(shown, wish.most)):
            for i, worked in enumerate(stretch.copy(nth)):
                if len(rows) <= wish.most:
                    rows.append(Drawn(worked, number + nth * length + i))
        if (shown < times or (times > 1 and wish.bracketed)) and first < len(rows):
            over.append(Over(first, len(rows) - 1, length, times, more))
        total = stretch.last + more
        if more:
            break
    return rows, over, total


def _drawn_times(stretch: Stretch) -> int:
    """How often a stretch is drawn: so that what follows goes on from the side it does."""
    if not stretch.alternates or stretch.times % 2 == 0:
        return DRAWN_TIMES
    return DRAWN_TIMES + 1 if len(stretch.rows) == 1 else 1


def _cost(rows: list[Drawn]) -> int:
    return sum(symbols_of(row) for row in rows)


def symbols_of(row: Drawn) -> int:
    """How many symbols a row is drawn with: each chain of a run is one."""
    tally = row.worked.made.tally().items()
    return max(sum(max(made.chains, 1) * times for made, times in tally), 1)


def _fitting(rows: list[Drawn], may_cut: bool, wish: Wish) -> int:
    """How many rows, from the first, can be drawn."""
    spent = 0
    for i, row in enumerate(rows):
        length = row.worked.made.length
        spent += symbols_of(row)
        if spent > wish.most or (may_cut and length > wish.widest):
            return i
        if row.worked.below.length > wish.most or row.worked.edge.length > wish.most:
            return i
    return len(rows)
