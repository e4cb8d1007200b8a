"""The schematic: a small drawing of a part with its measurements, as pattern sheets have them.

    schematic(checked, measures, "UK") -> SVG, or nothing where there is nothing to draw

The first of the part's sizes is drawn; the letters at its edges stand for lengths that are given
below in every size. Plain attributes, no styles, scripts or outside resources.
"""

from __future__ import annotations

from collections.abc import Callable
from html import escape

from loopwright.ir.checked import Checked
from loopwright.ir.pattern import ONE_SIZE
from loopwright.measure.dimensions import PartMeasures, how_text, length_in_sizes
from loopwright.measure.ease import ease_text, share_text
from loopwright.measure.form import Form
from loopwright.render.schematic.flat import disc, motif, outline, ruffle
from loopwright.render.schematic.pen import HEIGHT, RULE, WIDTH, Drawing, number
from loopwright.render.schematic.round import surface
from loopwright.trade.terms import TERMS

LINE = 15.0
SIDE = 16.0
INDENT = 16.0
LETTERS = "ABCDEFGH"
NOT_DRAWN = "room"
"""The dimension that is no length in the drawing: what a ruffle would have room for."""

MOST_CHARACTERS = 78

DRAW: dict[str, Callable[[Form, dict[str, str]], Drawing]] = {
    "disc": disc,
    "motif": motif,
    "ruffle": ruffle,
    "surface": surface,
    "outline": outline,
}


def schematic(checked: Checked, measures: PartMeasures, terms: str) -> str:
    """The drawing of a part in its sizes; empty where it has no form."""
    form = measures.form
    if form is None:
        return ""
    shown = [one.where for one in measures.dimensions if one.where != NOT_DRAWN]
    letters = dict(zip(shown, LETTERS, strict=False))
    drawing = DRAW[form.kind](form, letters)
    lines = [
        (letters.get(one.where, ""), f"{one.words}: {length_in_sizes(one, measures)}")
        for one in measures.dimensions
    ]
    lines += [("", note) for note in _notes(checked, measures, drawing, terms)]
    title = f"{measures.part.replace('_', ' ').capitalize()}: finished size"
    return _svg(measures.part, title, drawing, lines)


def _notes(checked: Checked, measures: PartMeasures, drawing: Drawing, terms: str) -> list[str]:
    """How the figures were got, and what the drawing does not show."""
    pattern = checked.pattern
    first = measures.sizes[0].size
    out = []
    if pattern.sizes != (ONE_SIZE,):
        out.append(f"Drawn in the size {pattern.sizes[first]}.")
    for one in measures.eases:
        if one.size == first:
            out.append(f"For {share_text(one)}{one.measure}: {ease_text(one)}.")
    (part,) = (part for part in pattern.parts if part.name == measures.part)
    if part.shaped and measures.form is not None and measures.form.kind == "surface":
        out.append("Drawn as the counts make it, before it is stuffed or stretched.")
    if measures.excess is not None:
        out.append(f"The edge ruffles: {measures.excess}° more than a full turn.")
    form = measures.form
    if form is not None and form.left_out:
        rows = "round" if form.kind == "outline" else "row"
        many = f"1 {rows} is" if form.left_out == 1 else f"{form.left_out:,} {rows}s are"
        out.append(f"{many} not drawn.")
    out.extend(drawing.notes)
    out.append(how_text(measures, TERMS[terms].gauge))
    return out


def _svg(part: str, title: str, drawing: Drawing, lines: list[tuple[str, str]]) -> str:
    """The drawing with its words under it, each line with the letter it explains."""
    name = "".join(c if c.isalnum() else "-" for c in f"schematic-{part}")
    words = []
    y = HEIGHT + 34
    for letter, line in lines:
        if letter:
            words.append(
                f'<text x="{number(SIDE)}" y="{number(y)}" font-weight="bold" '
                f'fill="{RULE}">{letter}</text>'
            )
        x = SIDE + (INDENT if letter else 0.0)
        for piece in _wrapped(line):
            words.append(f'<text x="{number(x)}" y="{number(y)}">{escape(piece)}</text>')
            y += LINE
    w, h = number(WIDTH), number(y - LINE + 14)
    out = [
        f'<svg xmlns="http://www.w3.org/2000/svg" role="img" width="{w}" height="{h}" '
        f'viewBox="0 0 {w} {h}" aria-labelledby="{name}-title {name}-text" '
        'font-family="sans-serif" font-size="11">',
        f'<title id="{name}-title">{escape(title)}</title>',
        f'<desc id="{name}-text">{escape(" ".join(_sentence(*line) for line in lines))}</desc>',
        f'<rect x="0" y="0" width="{w}" height="{h}" fill="#ffffff"/>',
        f'<text x="{number(SIDE)}" y="20" font-size="13" font-weight="bold">{escape(title)}</text>',
        *drawing.body,
        *words,
        "</svg>",
        "",
    ]
    return "\n".join(out)


def _sentence(letter: str, line: str) -> str:
    return f"{f'{letter}, ' if letter else ''}{line.removesuffix('.')}."


def _wrapped(line: str) -> list[str]:
    out = [""]
    for word in line.split(" "):
        if out[-1] and len(out[-1]) + 1 + len(word) > MOST_CHARACTERS:
            out.append(word)
        else:
            out[-1] = f"{out[-1]} {word}" if out[-1] else word
    return out
