"""The schematic: a small drawing of a part with its measurements, as pattern sheets have them.

    schematic(checked, measures, "UK") -> SVG, or nothing where there is nothing to draw

The first of the part's sizes is drawn; the letters at its edges stand for lengths that are given
below in every size. Plain attributes, no styles, scripts or outside resources.
"""

from __future__ import annotations

from collections.abc import Callable

from loopwright.ir.checked import Checked
from loopwright.ir.pattern import ONE_SIZE
from loopwright.measure.dimensions import PartMeasures
from loopwright.measure.form import Form
from loopwright.render.markup import escape
from loopwright.render.schematic.flat import disc, motif, outline, oval, ruffle
from loopwright.render.schematic.pen import HEIGHT, RULE, WIDTH, Drawing, number
from loopwright.render.schematic.round import surface
from loopwright.render.schematic.words import ease, how, length
from loopwright.render.speaker import Speaker, phrases, speaker_of

LINE = 15.0
SIDE = 16.0
INDENT = 16.0
LETTERS = "ABCDEFGH"
NOT_DRAWN = "room"
"""The dimension that is no length in the drawing: what a ruffle would have room for."""

MOST_CHARACTERS = 78

DRAW: dict[str, Callable[[Form, dict[str, str], str], Drawing]] = {
    "disc": disc,
    "motif": motif,
    "ruffle": ruffle,
    "oval": oval,
    "surface": surface,
    "outline": outline,
}


def schematic(checked: Checked, measures: PartMeasures, who: Speaker | str) -> str:
    """The drawing of a part in its sizes, in the words of a reader; empty where it has no form."""
    form = measures.form
    if form is None:
        return ""
    speaker = speaker_of(who)
    shown = [one.where for one in measures.dimensions if one.where != NOT_DRAWN]
    letters = dict(zip(shown, LETTERS, strict=False))
    drawing = DRAW[form.kind](form, letters, escape(speaker.say("start")))
    lines = [
        (letters.get(one.where, ""), length(one, measures, speaker)) for one in measures.dimensions
    ]
    lines += [("", note) for note in _notes(checked, measures, drawing, speaker)]
    part = measures.part.replace("_", " ").capitalize()
    return _svg(measures.part, speaker.say("{part}: finished size", part=part), drawing, lines)


# A round or several, a row or several.
_LEFT_OUT = {
    True: phrases("{n} round is not drawn.", "{n} rounds are not drawn."),
    False: phrases("{n} row is not drawn.", "{n} rows are not drawn."),
}


def _notes(
    checked: Checked, measures: PartMeasures, drawing: Drawing, speaker: Speaker
) -> list[str]:
    """How the figures were got, and what the drawing does not show."""
    pattern, say = checked.pattern, speaker.say
    first = measures.sizes[0].size
    out = []
    if pattern.sizes != (ONE_SIZE,):
        out.append(say("Drawn in the size {size}.", size=pattern.sizes[first]))
    out += [ease(one, speaker) for one in measures.eases if one.size == first]
    (part,) = (part for part in pattern.parts if part.name == measures.part)
    form = measures.form
    if part.shaped and form is not None and form.kind == "surface":
        out.append(say("Drawn as the counts make it, before it is stuffed or stretched."))
    if measures.excess is not None:
        out.append(say("The edge ruffles: {n}° more than a full turn.", n=measures.excess))
    if form is not None and form.left_out:
        one, several = _LEFT_OUT[form.kind == "outline"]
        out.append(speaker.many(one, several, form.left_out, n=f"{form.left_out:,}"))
    out += [say(note) for note in drawing.notes]
    out.append(how(measures, speaker))
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
