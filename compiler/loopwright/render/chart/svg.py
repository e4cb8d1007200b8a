"""The chart as SVG: only draws what was placed, and says in it what the drawing says.

Plain attributes, no styles, scripts or outside resources, so that any browser and any page can
take it in; the same chart gives the same bytes.
"""

from __future__ import annotations

from itertools import pairwise
from math import atan2, degrees, hypot

from loopwright.frozen import replace
from loopwright.render.chart.brackets import band_path, bracket_path, caption, wrap
from loopwright.render.chart.key import key, seen_notes
from loopwright.render.chart.key_page import key_page
from loopwright.render.chart.symbols import number, strokes
from loopwright.render.chart.text import reading, text
from loopwright.render.chart.values import (
    Bracket,
    Break,
    Chart,
    Look,
    Mark,
    Point,
    Symbol,
    Words,
)
from loopwright.render.markup import escape
from loopwright.render.speaker import Speaker, phrase, said, speaker_of, told
from loopwright.source import Source, Span

# Dark enough on white, and told apart without red and green; a letter says the same again.
COLOURS = ("#000000", "#0b4f8a", "#a8430a", "#5b2a86", "#0f6b5c", "#7a1f3d")
PEN = 'fill="none" stroke-width="1.2" stroke-linecap="round" stroke-linejoin="round"'
STANDING = ("stitch", "bunch", "fan", "place", "row end", "space")
ORIGIN = Point(0.0, 0.0)
LEAST_WIDTH = 420.0
LINE = 15.0
SIDE = 16.0
CORNER = 7.0  # from one corner of a zigzag to the next


def svg(chart: Chart, who: Speaker | str, source: Source | None = None) -> str:
    """The chart with its heading, notes and key, in the words of a reader. With the source, every
    symbol carries the line of the pattern that it comes from."""
    speaker = speaker_of(who)
    width = max(chart.width, LEAST_WIDTH)
    head = paragraphs(_heading(chart, speaker), width, 22.0)
    top = head[1] + 6
    entries, below = key(chart, speaker), top + chart.height + 8
    heading, letters = speaker.say("Key"), told(_letters(chart), speaker)
    foot = key_page(entries, _yarns(chart), width, below, _specimen, letters, heading)
    shift = (width - chart.width) / 2
    body = [
        f'<g transform="translate({number(shift)} {number(top)})">',
        *(_band(one) for one in chart.brackets if one.band),
        *(_bracket(one, speaker) for one in chart.brackets),
        *(_break(one) for one in chart.breaks),
        f"<g {PEN}>",
        *map(_Writer(speaker, source).symbol, chart.symbols),
        "</g>",
        *(_mark(one, chart, speaker) for one in chart.marks),
        "</g>",
    ]
    lines = [*_open(chart, speaker, width, foot[1]), *head[0], *body, *foot[0], "</svg>", ""]
    return "\n".join(lines)


def _open(chart: Chart, speaker: Speaker, width: float, height: float) -> list[str]:
    w, h = number(width), number(height)
    own = f"chart-{chart.part}-{chart.size}-{speaker.terms.name}"
    name = "".join(c if c.isalnum() else "-" for c in own)
    return [
        f'<svg xmlns="http://www.w3.org/2000/svg" role="img" width="{w}" height="{h}" '
        f'viewBox="0 0 {w} {h}" aria-labelledby="{name}-title {name}-text" '
        'font-family="sans-serif" font-size="11">',
        f'<title id="{name}-title">{escape(told(chart.title, speaker))}</title>',
        f'<desc id="{name}-text">{escape(text(chart, speaker))}</desc>',
        f'<rect x="0" y="0" width="{w}" height="{h}" fill="#ffffff"/>',
    ]


def _heading(chart: Chart, speaker: Speaker) -> list[tuple[str, bool]]:
    begin = told((*chart.start, " ", *reading(chart)), speaker)
    lines = [(told(chart.title, speaker), True), (begin, False)]
    lines += [(note, False) for note in seen_notes(chart, speaker)]
    return lines + [(told(note, speaker), False) for note in chart.notes]


def paragraphs(lines: list[tuple[str, bool]], width: float, y: float) -> tuple[list[str], float]:
    """Text broken to the width, and where it ends."""
    out = []
    for line, bold in lines:
        for piece in wrap(line, (width - 2 * SIDE) / (7.4 if bold else 5.9)):
            weight = ' font-size="13" font-weight="bold"' if bold else ""
            out.append(f'<text x="{number(SIDE)}" y="{number(y)}"{weight}>{escape(piece)}</text>')
            y += LINE + (3 if bold else 0)
    return out, y


class _Writer:
    """Writes the symbols of one drawing. What comes again and again, the lines of a symbol of the
    same look and length and its words, is put together once."""

    def __init__(self, speaker: Speaker, source: Source | None) -> None:
        self.speaker = speaker
        self.source = source
        self.said: dict[Words, str] = {}
        self.lines: dict[Span, str] = {}
        self.drawn: dict[tuple[Look, float, str], str] = {}

    def symbol(self, symbol: Symbol) -> str:
        """A symbol's lines, with where it comes from and what it is in words."""
        words, span = symbol.words, symbol.span
        label = self.said.get(words)
        if label is None:
            label = self.said[words] = f'"{escape(told(words, self.speaker))}"'
        place = self.lines.get(span)
        if place is None:
            place = self.lines[span] = self._place(span)
        colour = COLOURS[symbol.yarn % len(COLOURS)]
        moved, paths = self._lines(symbol, colour)
        return (
            f'<g data-row="{symbol.number}" data-stitch="{symbol.nth}"{place} data-name={label} '
            f'stroke="{colour}"{moved}>{paths}</g>'
        )

    def _place(self, span: Span) -> str:
        line = f' data-line="{self.source.position(span.start)[0]}"' if self.source else ""
        return f'{line} data-span="{span.start}-{span.end}"'

    def _lines(self, symbol: Symbol, colour: str) -> tuple[str, str]:
        """How a symbol is moved and turned, and its lines before that. A symbol with one foot is
        drawn standing on nought; any other where it is."""
        if len(symbol.feet) != 1 or symbol.path or symbol.look.shape not in STANDING:
            return "", _paths(symbol, colour)
        foot, top = symbol.feet[0], symbol.top
        x, y = top.x - foot.x, foot.y - top.y
        length = round(hypot(x, y), 1)
        paths = self.drawn.get((symbol.look, length, colour))
        if paths is None:
            upright = replace(symbol, feet=(ORIGIN,), top=Point(0.0, -length))
            paths = self.drawn[symbol.look, length, colour] = _paths(upright, colour)
        turn = f" rotate({number(degrees(atan2(x, y)))})" if abs(x) > 0.02 or y < 0 else ""
        return f' transform="translate({number(foot.x)} {number(foot.y)}){turn}"', paths


def _paths(symbol: Symbol, colour: str) -> str:
    """All open lines as one path, all filled ones as another."""
    drawn = strokes(symbol)
    lines = "".join(one.path for one in drawn if not one.filled)
    areas = "".join(one.path for one in drawn if one.filled)
    out = f'<path d="{lines}"/>' if lines else ""
    return out + (f'<path d="{areas}" fill="{colour}" stroke="none"/>' if areas else "")


def _mark(mark: Mark, chart: Chart, speaker: Speaker) -> str:
    """A row's number, its yarn's letter where there are several, and an arrow."""
    letter = chart.yarns[mark.yarn][0] if len(chart.yarns) > 1 else ""
    colour = COLOURS[mark.yarn % len(COLOURS)]
    words = escape(f"{told(mark.text, speaker)}{letter}")
    x, y = number(mark.at.x), number(mark.at.y + 3)
    arrow = _arrow(mark, colour) if mark.text and mark.toward != mark.at else ""
    row = f' data-row="{mark.text}"' if mark.text else ""
    return (
        f'<g{row}><text x="{x}" y="{y}" font-size="9" text-anchor="middle" '
        'stroke="#ffffff" stroke-width="2.5" stroke-linejoin="round" paint-order="stroke" '
        f'fill="{colour}">{words}</text>{arrow}</g>'
    )


def _arrow(mark: Mark, colour: str) -> str:
    """A small arrow under the number, the way the row is read."""
    dx, dy = mark.toward.x - mark.at.x, mark.toward.y - mark.at.y
    size = (dx * dx + dy * dy) ** 0.5 or 1.0
    dx, dy = dx / size, dy / size
    x, y = mark.at.x - dx * 4, mark.at.y + 8 - dy * 4
    tip = Point(x + dx * 8, y + dy * 8)
    wings = [
        f"M{number(tip.x - dx * 3 + side * dy * 2)} {number(tip.y - dy * 3 - side * dx * 2)}"
        f"L{number(tip.x)} {number(tip.y)}"
        for side in (1, -1)
    ]
    path = f"M{number(x)} {number(y)}L{number(tip.x)} {number(tip.y)}{''.join(wings)}"
    return f'<path d="{path}" fill="none" stroke="{colour}" stroke-width="0.8"/>'


def _band(one: Bracket) -> str:
    return f'<path d="{band_path(one)}" fill="#e8e8e8" fill-rule="evenodd"/>'


def _bracket(one: Bracket, speaker: Speaker) -> str:
    """A bracket with its words beside it."""
    words = caption(one, told(one.text, speaker))
    lines = "".join(
        f'<tspan x="{number(words.x)}" dy="{0 if i == 0 else 11}">{escape(piece)}</tspan>'
        for i, piece in enumerate(words.lines)
    )
    return (
        f'<path d="{bracket_path(one)}" fill="none" stroke="#000000" stroke-width="1.2"/>'
        f'<text x="{number(words.x)}" y="{number(words.y)}" font-size="9" '
        f'text-anchor="{words.anchor}">{lines}</text>'
    )


def _break(one: Break) -> str:
    """Two zigzag lines side by side, through the points of the break."""
    path = "".join(_zigzag(one.points, shift) for shift in (-1.8, 1.8))
    return f'<path d="{path}" fill="none" stroke="#000000" stroke-width="0.7"/>'


def _zigzag(points: tuple[Point, ...], shift: float) -> str:
    """A zigzag along the way through these points, its corners evenly spaced."""
    out = []
    side, gone = 1.0, 0.0
    for one, two in pairwise(points):
        length = hypot(two.x - one.x, two.y - one.y)
        while gone < length:
            aside = (shift + 2.2 * side) / length
            x = one.x + (two.x - one.x) * gone / length - (two.y - one.y) * aside
            y = one.y + (two.y - one.y) * gone / length + (two.x - one.x) * aside
            out.append(f"{number(x)} {number(y)}")
            side, gone = -side, gone + CORNER
        gone -= length
    return "M" + "L".join(out) if out else ""


def _specimen(symbol: Symbol, colour: str) -> str:
    """A symbol of the key."""
    return f'<g {PEN} stroke="{colour}">{_paths(symbol, colour)}</g>'


def _letters(chart: Chart) -> str:
    """What the letters of yarns stand beside."""
    rounds = any(row.worked.is_round for row in chart.rows)
    taken = any(not mark.text for mark in chart.marks)
    return said(_LETTERS[rounds][taken])


# In rows and in rounds: where no yarn is taken up within one, and where one is.
_LETTERS = (
    (
        phrase("The letter beside a row's number is its yarn:"),
        phrase(
            "The letter beside a row's number is its yarn, before a stitch the yarn that is taken "
            "up there:"
        ),
    ),
    (
        phrase("The letter beside a round's number is its yarn:"),
        phrase(
            "The letter beside a round's number is its yarn, before a stitch the yarn that is "
            "taken up there:"
        ),
    ),
)


def _yarns(chart: Chart) -> list[tuple[str, str, str]]:
    """The yarns for the key, where there are several: each in the colour of its symbols."""
    if len(chart.yarns) < 2:
        return []
    return [
        (f"{letter}: {name}", COLOURS[i % len(COLOURS)], dict(chart.described).get(name, ""))
        for i, (letter, name) in enumerate(chart.yarns)
    ]
