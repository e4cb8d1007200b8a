"""A part of very many rows: its first rows as far as they fit, and above them its last.

The last rows are what finishes the piece, and are drawn on the edge they are worked into, as where
they alone are asked for. What lies between is said in words.
"""

from __future__ import annotations

from collections.abc import Iterator

from loopwright.frozen import NamedTuple, replace
from loopwright.ir.fabric import WorkedPart, WorkedRow
from loopwright.render.chart.choose import Selection, Wish, select, symbols_of
from loopwright.render.chart.stretches import Drawn, Stretch, stretches, windowed
from loopwright.render.chart.values import STEP, Bracket, Break, Chart, Point, Symbol, Words
from loopwright.render.speaker import phrase, said

MOST_LAST = 8  # rows
MOST_ALIKE = 8  # of the first ones, where those that are left out go on with the same
BETWEEN = 1.5 * STEP  # what is kept free between the first rows and the last


class Ends(NamedTuple):
    """Of which to which number the first rows are drawn, and of which to which the last."""

    first: tuple[int, int]
    last: tuple[int, int]


def ends_of(
    part: WorkedPart, sided_lines: frozenset[int], wish: Wish, chosen: Selection, begins: int
) -> Ends | None:
    """Where rows are left out of what was ``chosen``, the first and the last to be drawn; None
    where the last would take more room than half a chart has. ``begins`` is how many of the
    chosen rows are not drawn, but laid out under others."""
    if not chosen.first_missing or not chosen.rows:
        return None
    found = windowed(stretches(part, sided_lines), wish.rows)
    low, high = _last(found, chosen.first_missing), chosen.last_missing
    last = select(part, sided_lines, replace(wish, rows=(low, high)), may_cut=True)
    free = wish.most - sum(map(symbols_of, last.rows))
    if last.first_missing or free < wish.most / 2:
        return None
    kept = _first(chosen.rows, free)
    begin = chosen.rows[begins].number if begins < len(chosen.rows) else kept + 1
    return Ends((begin if wish.rows else 0, kept), (low, high)) if begin <= kept else None


def _first(rows: tuple[Drawn, ...], free: int) -> int:
    """The number up to which the first rows are drawn with so many symbols: not all of those at
    the end that are written as one."""
    kept, line, alike = 0, -1, 0
    enough: list[int] = []
    for row in rows:
        free -= symbols_of(row)
        if free < 0:
            break
        kept = row.number
        alike = alike + 1 if row.worked.line == line else 1
        line = row.worked.line
        enough = [*enough, kept] if alike > 1 else [kept]
    return enough[min(alike, MOST_ALIKE) - 1] if enough else kept


def _last(found: tuple[Stretch, ...], missing: int) -> int:
    """The number from which on the last rows are drawn: those worked otherwise than what goes on
    and on before them, and the last of that."""
    low, before = 0, -1
    for count, (number, row) in enumerate(_backwards(found)):
        if count == MOST_LAST or number < missing or (count > 1 and row.line == before):
            break
        low, before = number, row.line
    return low


def _backwards(found: tuple[Stretch, ...]) -> Iterator[tuple[int, WorkedRow]]:
    """The last rows with their numbers, from the last on."""
    for stretch in reversed(found):
        length = len(stretch.rows)
        for back in range(min(length * stretch.times, MOST_LAST + 1)):
            yield stretch.last - back, stretch.rows[-1 - back % length]


def together(first: Chart, last: Chart, ends: Ends, most: int) -> Chart:
    """One chart of the first rows and, above them, the last; ``most`` symbols are in it."""
    yarns = list(dict.fromkeys(name for _, name in (*first.yarns, *last.yarns)))
    where = [yarns.index(name) for _, name in last.yarns]
    width = max(first.width, last.width)
    aside = (width - first.width) / 2
    down = last.height + BETWEEN
    drawn = max((symbol.row for symbol in first.symbols), default=0)
    first, last = _moved(first, aside, down), _moved(last, (width - last.width) / 2, 0.0)
    symbols = [
        replace(one, row=one.row + drawn if one.row else 0, yarn=where[one.yarn] if where else 0)
        for one in last.symbols
    ]
    marks = [replace(one, yarn=where[one.yarn] if where else 0) for one in last.marks]
    return replace(
        first,
        width=width,
        height=down + first.height,
        symbols=(*first.symbols, *symbols),
        marks=(*first.marks, *marks),
        brackets=(*first.brackets, *last.brackets),
        breaks=(*first.breaks, *last.breaks),
        yarns=tuple((chr(65 + i), yarn) for i, yarn in enumerate(yarns)),
        notes=(*first.notes, *_notes(first, last, ends, most)),
    )


# In a part of rows, and in one of rounds: of one and of several.
_NOT_DRAWN = (
    (
        phrase(
            "Row {first} is not drawn: a chart holds {most} symbols. The text "
            "equivalent tells of them."
        ),
        phrase(
            "Rows {first} to {last} are not drawn: a chart holds {most} symbols. "
            "The text equivalent tells of them."
        ),
    ),
    (
        phrase(
            "Round {first} is not drawn: a chart holds {most} symbols. The text "
            "equivalent tells of them."
        ),
        phrase(
            "Rounds {first} to {last} are not drawn: a chart holds {most} symbols. "
            "The text equivalent tells of them."
        ),
    ),
)
_ABOVE = (
    (
        phrase("Row {first} is drawn above the others, on the edge of row {below}{how}."),
        phrase(
            "Rows {first} to {last} are drawn above the others, on the edge of row {below}{how}."
        ),
    ),
    (
        phrase("Round {first} is drawn above the others, on the edge of round {below}{how}."),
        phrase(
            "Rounds {first} to {last} are drawn above the others, on the edge of "
            "round {below}{how}."
        ),
    ),
)
_AS_ROWS = phrase(
    ", one row above another: right-side rows are read from right to left, "
    "wrong-side rows from left "
    "to right"
)
_AS_ROUNDS = phrase(", one round above another and read from right to left; their ends meet")


def _notes(first: Chart, last: Chart, ends: Ends, most: int) -> Iterator[Words]:
    """What lies between, and how the last rows are drawn."""
    rounds = last.manner != "rows"
    low, high = ends.last
    above = ends.first[1] + 1
    if low > above:
        words = _NOT_DRAWN[rounds][low - 1 > above]
        yield (said(words, first=f"{above:,}", last=f"{low - 1:,}", most=f"{most:,}"),)
    how: str = ""
    if first.manner != last.manner:
        how = said(_AS_ROUNDS if rounds else _AS_ROWS)
    words = _ABOVE[rounds][high > low]
    yield (said(words, first=f"{low:,}", last=f"{high:,}", below=f"{low - 1:,}", how=how),)
    for note in last.notes:
        of_rows = str(note[0]).lower().startswith("round" if rounds else "row")
        yield note if of_rows else (said("Of these: {note}", note=note),)


def _moved(chart: Chart, right: float, down: float) -> Chart:
    """The same chart further to the right and further down."""

    def moved(point: Point) -> Point:
        return Point(round(point.x + right, 2), round(point.y + down, 2))

    def symbol(one: Symbol) -> Symbol:
        feet, path = tuple(map(moved, one.feet)), tuple(map(moved, one.path))
        return replace(one, top=moved(one.top), feet=feet, path=path)

    def bracket(one: Bracket) -> Bracket:
        centre = moved(one.centre) if one.centre is not None else None
        band = tuple(tuple(map(moved, edge)) for edge in one.band)
        return replace(one, one=moved(one.one), two=moved(one.two), centre=centre, band=band)

    return replace(
        chart,
        symbols=tuple(map(symbol, chart.symbols)),
        marks=tuple(replace(m, at=moved(m.at), toward=moved(m.toward)) for m in chart.marks),
        brackets=tuple(map(bracket, chart.brackets)),
        breaks=tuple(Break(tuple(map(moved, b.points))) for b in chart.breaks),
    )
