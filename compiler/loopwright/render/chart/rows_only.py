"""The chart without its heading and key, a group for each row: for a page that lights one row.

The page knows the words; here is only the drawing. It takes its colours from the page, so that it
can be light or dark: ``y0`` to ``y5`` are the yarns in order, and everything else is in the page's
own ink. ``data-row`` is the row's number in the part, 0 for what the part begins with.
"""

from __future__ import annotations

from loopwright.render.chart.brackets import band_path, bracket_path, caption
from loopwright.render.chart.svg import COLOURS
from loopwright.render.chart.symbols import number, strokes
from loopwright.render.chart.values import Bracket, Chart, Mark, Symbol
from loopwright.render.markup import escape
from loopwright.render.speaker import Speaker, speaker_of, told


def rows_only(chart: Chart, who: Speaker | str = "UK") -> str:
    """The drawing as SVG to stand in a page, told to a reader; it has no names of its own to
    clash with others."""
    speaker, w, h = speaker_of(who), number(chart.width), number(chart.height)
    rows: dict[int, list[Symbol]] = {}
    for symbol in chart.symbols:
        rows.setdefault(symbol.number if symbol.row else 0, []).append(symbol)
    several = len(chart.yarns) > 1
    marks: dict[str, list[str]] = {}
    for mark in chart.marks:
        letter = chart.yarns[mark.yarn][0] if several else ""
        marks.setdefault(mark.text or "0", []).append(_mark(mark, letter, speaker))
    lines = [
        f'<svg xmlns="http://www.w3.org/2000/svg" role="img" width="{w}" height="{h}" '
        f'viewBox="0 0 {w} {h}" aria-label="{escape(told(chart.title, speaker))}">'
    ]
    for one in chart.brackets:
        if one.band:
            lines.append(f'<path class="band" fill-rule="evenodd" d="{band_path(one)}"/>')
    for row, symbols in rows.items():
        beside = "".join(marks.pop(str(row), []))
        lines.append(f'<g data-row="{row}">{_paths(symbols)}{beside}</g>')
    lines += ["".join(rest) for rest in marks.values()]
    lines += [_bracket(one, speaker) for one in chart.brackets]
    for broken in chart.breaks:
        points = "L".join(f"{number(p.x)} {number(p.y)}" for p in broken.points)
        lines.append(f'<path class="break" d="M{points}"/>')
    return "\n".join([*lines, "</svg>"])


def _paths(symbols: list[Symbol]) -> str:
    """All lines of one yarn as one path, all filled areas as another."""
    out = ""
    for yarn in sorted({symbol.yarn for symbol in symbols}):
        drawn = [one for symbol in symbols if symbol.yarn == yarn for one in strokes(symbol)]
        named = f'class="y{yarn % len(COLOURS)}'
        lines = "".join(one.path for one in drawn if not one.filled)
        areas = "".join(one.path for one in drawn if one.filled)
        out += f'<path {named} line" d="{lines}"/>' if lines else ""
        out += f'<path {named} area" d="{areas}"/>' if areas else ""
    return out


def _mark(mark: Mark, letter: str, speaker: Speaker) -> str:
    x, y = number(mark.at.x), number(mark.at.y + 3)
    words = escape(told(mark.text, speaker))
    return f'<text class="y{mark.yarn % len(COLOURS)}" x="{x}" y="{y}">{words}{letter}</text>'


def _bracket(one: Bracket, speaker: Speaker) -> str:
    words = caption(one, told(one.text, speaker), 16, 24)
    lines = "".join(
        f'<tspan x="{number(words.x)}" dy="{11 if i else 0}">{escape(piece)}</tspan>'
        for i, piece in enumerate(words.lines)
    )
    return (
        f'<path class="line" d="{bracket_path(one)}"/>'
        f'<text class="{words.anchor}" x="{number(words.x)}" y="{number(words.y)}">{lines}</text>'
    )
