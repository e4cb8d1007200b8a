"""The chart of squares as SVG: plain attributes, the same bytes for the same squares."""

from __future__ import annotations

from collections.abc import Iterator

from loopwright.render.chart.brackets import wrap
from loopwright.render.chart.choose import Over
from loopwright.render.chart.grid import words
from loopwright.render.chart.grid.values import FILET, FILLED, Grid, Square
from loopwright.render.chart.svg import LEAST_WIDTH, LINE, SIDE, paragraphs
from loopwright.render.chart.symbols import number
from loopwright.render.markup import escape
from loopwright.render.speaker import Speaker, phrase, speaker_of, told
from loopwright.source import Source

By = tuple[Speaker, Source | None]
"""In whose words, and the text that squares say their lines of."""

# This row or these, this round or these.
_THESE = (
    (
        phrase("this row: work {times} times in all"),
        phrase("these {n} rows: work {times} times in all"),
    ),
    (
        phrase("this round: work {times} times in all"),
        phrase("these {n} rounds: work {times} times in all"),
    ),
)

CELL = 15.0
ROOM = 34.0  # beside the squares, for the row numbers
UNDER = 20.0  # under them, for the column numbers
WORDS = 92.0  # beside them, for a bracket and its words

# Light enough to carry a black sign; the first yarn is left white and without a sign.
FILLS = ("#ffffff", "#a9cbe8", "#f2c7a5", "#d3bfe6", "#b5e0d4", "#e8b4c4")
INK = "#1d1d1d"
THIN = '<path d="{}" fill="none" stroke="#8a8a8a" stroke-width="0.6"/>'
THICK = '<path d="{}" fill="none" stroke="#000000" stroke-width="1.4"/>'


def svg(grid: Grid, who: Speaker | str, source: Source | None = None) -> str:
    """The squares with their heading, numbers and key, in the words of a reader. With the source
    every square carries the line of the pattern that it comes from."""
    speaker = speaker_of(who)
    across = grid.columns * CELL + 2 * ROOM + (WORDS if grid.over else 0.0)
    width = max(across + 2 * SIDE, LEAST_WIDTH)
    head, top = paragraphs(_heading(grid, speaker), width, 22.0)
    left = (width - across) / 2 + ROOM
    page = _Page(grid, left, top + 2)
    below = page.bottom + UNDER + (26.0 if grid.again else 8.0)
    key, bottom = _key(grid, speaker, width, below)
    body = [
        *(
            piece
            for row in range(len(grid.lines))
            for piece in _line(grid, page, row, (speaker, source))
        ),
        THIN.format(_thin(grid, page)),
        THICK.format(_thick(grid, page)),
        *_row_numbers(grid, page, speaker),
        *_column_numbers(grid, page),
        *(_over(one, page, grid, speaker) for one in grid.over),
        *_again(grid, page, speaker),
    ]
    return "\n".join([*_open(grid, speaker, width, bottom), *head, *body, *key, "</svg>", ""])


class _Page:
    """Where the squares lie: column 0 is at the right, row 0 at the bottom."""

    def __init__(self, grid: Grid, left: float, top: float) -> None:
        self.left = left
        self.top = top
        self.right = left + grid.columns * CELL
        self.bottom = top + len(grid.lines) * CELL

    def x(self, column: int) -> float:
        """The right side of a column."""
        return self.right - column * CELL

    def y(self, row: int) -> float:
        """The bottom of a row."""
        return self.bottom - row * CELL


def _open(grid: Grid, speaker: Speaker, width: float, height: float) -> list[str]:
    w, h = number(width), number(height)
    own = f"squares-{grid.part}-{grid.size}-{speaker.terms.name}"
    name = "".join(c if c.isalnum() else "-" for c in own)
    return [
        f'<svg xmlns="http://www.w3.org/2000/svg" role="img" width="{w}" height="{h}" '
        f'viewBox="0 0 {w} {h}" aria-labelledby="{name}-title {name}-text" '
        'font-family="sans-serif" font-size="11">',
        f'<title id="{name}-title">{escape(told(grid.title, speaker))}</title>',
        f'<desc id="{name}-text">{escape(words.text(grid, speaker))}</desc>',
        f'<rect x="0" y="0" width="{w}" height="{h}" fill="#ffffff"/>',
    ]


def _heading(grid: Grid, speaker: Speaker) -> list[tuple[str, bool]]:
    lines = [told(words.reading(grid), speaker), " ".join(words.measure(grid, speaker))]
    lines += [told(one, speaker) for one in (*words.repeat(grid), *grid.notes)]
    return [(told(grid.title, speaker), True), *((line, False) for line in lines)]


def _line(grid: Grid, page: _Page, row: int, by: By) -> Iterator[str]:
    """The squares of a row, each with where it comes from and what it is."""
    line = grid.lines[row]
    yield f'<g data-row="{line.number}">'
    for i, square in enumerate(line.leftwards):
        x, y = page.x(line.right + i + 1), page.y(row + 1)
        yield _square(grid, square, x, y, by)
    yield "</g>"


def _square(grid: Grid, square: Square, x: float, y: float, by: By) -> str:
    speaker, source = by
    at = f' data-line="{source.position(square.span.start)[0]}"' if source else ""
    name = escape(told(words.kind_name(grid, square.kind), speaker))
    return (
        f'<g data-stitch="{square.nth}"{at} data-span="{square.span.start}-{square.span.end}" '
        f'data-name="{name}">{_drawn(grid, square.kind, x, y)}</g>'
    )


def _drawn(grid: Grid, kind: int, x: float, y: float) -> str:
    """A square: its ground, and the sign of its yarn."""
    if grid.kind == FILET:
        fill, sign = (INK, "") if kind == FILLED else (FILLS[0], "")
    else:
        fill, sign = FILLS[kind % len(FILLS)], _sign(kind, x + CELL / 2, y + CELL / 2)
    side = number(CELL)
    ground = f'<rect x="{number(x)}" y="{number(y)}" width="{side}" height="{side}" fill="{fill}"/>'
    return ground + sign


def _sign(kind: int, x: float, y: float) -> str:
    """The sign of a yarn, which tells it without colour; past the drawn ones its letter."""
    line = 'fill="none" stroke="#000000" stroke-width="1.2" stroke-linecap="round"'
    a, b = number(x), number(y)
    low, high = (number(x - 3.5), number(y - 3.5)), (number(x + 3.5), number(y + 3.5))
    signs = (
        "",
        f'<circle cx="{a}" cy="{b}" r="2.6" fill="#000000"/>',
        f'<path d="M{low[0]} {low[1]}L{high[0]} {high[1]}M{low[0]} {high[1]}L{high[0]} {low[1]}" '
        f"{line}/>",
        f'<circle cx="{a}" cy="{b}" r="3.4" {line}/>',
        f'<path d="M{low[0]} {high[1]}L{high[0]} {low[1]}" {line}/>',
        f'<path d="M{low[0]} {high[1]}L{a} {low[1]}L{high[0]} {high[1]}Z" {line}/>',
    )
    if kind < len(signs):
        return signs[kind]
    letter = chr(65 + kind)
    return f'<text x="{a}" y="{number(y + 3.5)}" font-size="9" text-anchor="middle">{letter}</text>'


def _thin(grid: Grid, page: _Page) -> str:
    """The lines around every square."""
    out = []
    for row, line in enumerate(grid.lines):
        one, two = number(page.x(line.right + len(line.squares))), number(page.x(line.right))
        top, bottom = number(page.y(row + 1)), number(page.y(row))
        out.append(f"M{one} {top}L{two} {top}M{one} {bottom}L{two} {bottom}")
        for column in range(line.right, line.right + len(line.squares) + 1):
            x = number(page.x(column))
            out.append(f"M{x} {top}L{x} {bottom}")
    return "".join(out)


def _thick(grid: Grid, page: _Page) -> str:
    """The bold lines: around the whole, after every tenth column and every row of a ten."""
    out = []
    for row, line in enumerate(grid.lines):
        first, last = line.right, line.right + len(line.squares)
        top, bottom = number(page.y(row + 1)), number(page.y(row))
        for column in range(first, last + 1):
            if column in (first, last) or column % 10 == 0:
                x = number(page.x(column))
                out.append(f"M{x} {bottom}L{x} {top}")
        ends = f"{number(page.x(last))} {{0}}L{number(page.x(first))} {{0}}"
        if row == 0:
            out.append("M" + ends.format(bottom))
        if row == len(grid.lines) - 1 or line.number % 10 == 0:
            out.append("M" + ends.format(top))
    return "".join(out)


def _row_numbers(grid: Grid, page: _Page, speaker: Speaker) -> Iterator[str]:
    """The number of each row where it begins, those of the tens bold."""
    for row, line in enumerate(grid.lines):
        y = page.y(row) - CELL / 2 + 3.2
        if line.wrong_side:
            x, anchor = page.x(line.right + len(line.squares)) - 5, "end"
        else:
            x, anchor = page.x(line.right) + 5, "start"
        shown = str(line.number) if line.number else escape(speaker.say("setup"))
        yield _figure(shown, x, y, anchor, line.number % 10 == 0)


def _column_numbers(grid: Grid, page: _Page) -> Iterator[str]:
    """The first, every fifth and the last column's number, those of the tens bold."""
    last = grid.columns
    shown = {1, last, *range(5, last + 1, 5)}
    if last > 100 and last % 5 == 1:
        shown.remove(last)  # there is no room for two such numbers side by side
    for column in sorted(shown):
        x = page.x(column) + CELL / 2
        yield _figure(str(column), x, page.bottom + 12, "middle", column % 10 == 0)


def _figure(text: str, x: float, y: float, anchor: str, bold: bool) -> str:
    weight = ' font-weight="bold"' if bold else ""
    return (
        f'<text x="{number(x)}" y="{number(y)}" font-size="9" text-anchor="{anchor}"{weight}>'
        f"{text}</text>"
    )


def _over(over: Over, page: _Page, grid: Grid, speaker: Speaker) -> str:
    """A bracket beside rows that are worked over and over."""
    first = grid.lines[0].index
    low, high = page.y(over.first - first) - 1, page.y(over.last - first + 1) + 1
    x = page.right + ROOM - 4
    what = _THESE[grid.lines[0].is_round][over.rows != 1]
    pieces = wrap(speaker.say(what, n=over.rows, times=f"{over.times:,}"), 16)
    path = f"M{number(x - 5)} {number(low)}L{number(x)} {number(low)}"
    path += f"L{number(x)} {number(high)}L{number(x - 5)} {number(high)}"
    y = (low + high) / 2 + 3 - 5.5 * (len(pieces) - 1)
    spans = "".join(
        f'<tspan x="{number(x + 5)}" dy="{0 if i == 0 else 11}">{escape(piece)}</tspan>'
        for i, piece in enumerate(pieces)
    )
    lines = f'<text x="{number(x + 5)}" y="{number(y)}" font-size="9">{spans}</text>'
    return f'<path d="{path}" fill="none" stroke="#000000" stroke-width="1.2"/>{lines}'


def _again(grid: Grid, page: _Page, speaker: Speaker) -> Iterator[str]:
    """A bracket under the columns that come again."""
    if grid.again is None:
        return
    lead, unit, _, _ = grid.again
    one, two, y = page.x(lead + unit) + 1, page.x(lead) - 1, page.bottom + UNDER
    path = f"M{number(one)} {number(y - 4)}L{number(one)} {number(y)}"
    path += f"L{number(two)} {number(y)}L{number(two)} {number(y - 4)}"
    what = phrase("{n} sts: work {times} times in all")
    if grid.kind == FILET:
        what = phrase("{n} squares: work {times} times in all")
    said = escape(speaker.say(what, n=unit, times=words.times(grid)))
    yield f'<path d="{path}" fill="none" stroke="#000000" stroke-width="1.2"/>'
    # The words begin at the bracket's right end, so that they do not run out of a narrow page.
    place = f'x="{number(two)}" y="{number(y + 12)}" font-size="9" text-anchor="end"'
    yield f"<text {place}>{said}</text>"


def _key(grid: Grid, speaker: Speaker, width: float, y: float) -> tuple[list[str], float]:
    """The kinds of squares under the chart, each with what it stands for."""
    y += 8
    heading = escape(speaker.say("Key"))
    out = [f'<text x="{number(SIDE)}" y="{number(y)}" font-weight="bold">{heading}</text>']
    y += 8
    for kind, said in words.squares(grid, speaker):
        side = number(CELL)
        frame = f'<rect x="{number(SIDE)}" y="{number(y)}" width="{side}" height="{side}" '
        out.append(_drawn(grid, kind, SIDE, y))
        out.append(f'{frame}fill="none" stroke="#8a8a8a" stroke-width="0.6"/>')
        for piece in wrap(said, (width - 2 * SIDE - CELL - 10) / 5.9):
            x = number(SIDE + CELL + 8)
            out.append(f'<text x="{x}" y="{number(y + 11)}">{escape(piece)}</text>')
            y += LINE
        y += 5
    return out, y + 10
