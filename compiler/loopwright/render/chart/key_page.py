"""The key under a chart: its entries in columns, each symbol beside its name, then the yarns."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from textwrap import wrap

from loopwright.render.chart.key import Entry
from loopwright.render.chart.symbols import number
from loopwright.render.chart.values import Symbol
from loopwright.render.markup import escape

SIDE = 16.0
CELL = 34.0  # the width a symbol has
GAP = 8.0  # from a symbol to its name
COLUMN = 190.0  # the least width of a column
MOST_COLUMNS = 4
LINE = 14.0
CHARACTER = 5.9  # of the key's type, on average
LEAST_TALL = 22.0
AROUND = 15.0  # free above and below a symbol

Draw = Callable[[Symbol, str], str]


def key_page(
    entries: Sequence[Entry],
    yarns: Sequence[tuple[str, str, str]],
    width: float,
    y: float,
    draw: Draw,
    letters: str = "",
    heading: str = "Key",
) -> tuple[list[str], float]:
    """The key from a height on, and where it ends. ``yarns`` are (letter and name, colour of the
    ink, what the designer says of it), after ``letters``, which says where their letters stand;
    ``draw`` draws a symbol in a colour."""
    out = [
        f'<text x="{number(SIDE)}" y="{number(y + 4)}" font-weight="bold">{escape(heading)}</text>'
    ]
    y += 12
    inside = width - 2 * SIDE
    columns = max(1, min(MOST_COLUMNS, int(inside // COLUMN), len(entries)))
    column = min(inside / columns, 1.6 * COLUMN) if columns > 1 else inside
    for first in range(0, len(entries), columns):
        row = entries[first : first + columns]
        names = [_lines(one.name, int((column - CELL - 2 * GAP) / CHARACTER)) for one in row]
        tall = max(
            max(_height(one), LINE * len(name)) for one, name in zip(row, names, strict=True)
        )
        tall = max(LEAST_TALL, tall + AROUND)
        for i, (entry, name) in enumerate(zip(row, names, strict=True)):
            out += _entry(entry, name, SIDE + i * column, y + tall / 2, draw)
        y += tall
    for yarn, ink, told in (*([(letters, INK, "")] if yarns and letters else ()), *yarns):
        y += LINE
        words = f"{yarn} ({told})" if told else yarn
        pieces = _lines(words, int(inside / CHARACTER)) or [words]
        for i, piece in enumerate(pieces):
            y += LINE if i else 0.0
            at = f'x="{number(SIDE)}" y="{number(y + 4)}" fill="{ink}"'
            out.append(f"<text {at}>{escape(piece)}</text>")
    return out, y + 18


def _lines(words: str, width: int) -> list[str]:
    """Words in lines of so many letters; nearly all find room in one."""
    if 0 < len(words) <= width and words == " ".join(words.split()):
        return [words]

    return wrap(words, width)


def _height(entry: Entry) -> float:
    high, low = _box(entry)
    return low - high


def _box(entry: Entry) -> tuple[float, float]:
    """The highest and the lowest point of a symbol that stands on (0, 0)."""
    symbol = entry.symbol
    ys = [point.y for point in (symbol.top, *symbol.feet, *symbol.path)]
    return min(ys), max(ys)


def _entry(entry: Entry, name: list[str], x: float, middle: float, draw: Draw) -> list[str]:
    """A symbol and its name, both about the same middle."""
    high, low = _box(entry)
    foot = middle - (high + low) / 2
    out = [
        f'<g transform="translate({number(x + CELL / 2)} {number(foot)})">'
        f"{draw(entry.symbol, INK)}</g>"
    ]
    top = middle + 4 - LINE * (len(name) - 1) / 2
    for i, piece in enumerate(name):
        at = f'x="{number(x + CELL + GAP)}" y="{number(top + i * LINE)}"'
        out.append(f"<text {at}>{escape(piece)}</text>")
    return out


INK = "#000000"
