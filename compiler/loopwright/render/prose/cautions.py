"""The usual caution where a thing for babies or children, or a toy, has cords or small parts.

The words that set it off, and the caution itself, are common practice without a source.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from loopwright.ir.pattern import Pattern, Seam
from loopwright.ir.texts import words_in
from loopwright.render.prose.tongue import phrase
from loopwright.render.prose.voice import Voice
from loopwright.render.prose.words import spoken
from loopwright.trade.toys import EYES, TOYS

CHILDREN = (
    r"bab(?:y|ies)",
    r"newborns?",
    r"preemies?",
    r"infants?",
    r"toddlers?",
    r"child(?:ren)?(?:'s)?",
    r"kids?",
    r"boys?",
    r"girls?",
    r"nursery",
    r"boot(?:ie|ee)s?",
    r"months?",
    r"(?:[1-9]|1[0-2]) years?",
    r"\d+\s?(?:m|mo|mos|mths?|y|yrs?)",
    r"m\d+",
)
CORDS = (r"cords?", r"ties", r"tie", r"drawstrings?", r"strings?", r"straps?", r"ribbons?")
SMALL_PARTS = (
    r"buttons?",
    r"toggles?",
    r"pom[ -]?poms?",
    r"tassels?",
    r"beads?",
    r"bells?",
    *EYES,
)

_CORD_TEXT = phrase(
    "Cords and ties can strangle a small child: keep them short, leave them out at the neck, and "
    "do not leave a child alone with them."
)
_SMALL_TEXT = phrase(
    "Buttons, pompoms and other parts that can come loose can choke a small child: sew them on "
    "fast and look them over before each use, or leave them out."
)
_EYES_TEXT = phrase(
    "Eyes that are put in can come off: for a child under three years, embroider them instead."
)
_RULES_TEXT = phrase("Follow the safety rules for children's things where you live.")


def caution(pattern: Pattern, voice: Voice) -> str:
    """The caution that a pattern calls for, or nothing."""
    words = " ; ".join(_words(pattern))
    if not _any((*CHILDREN, *TOYS), words):
        return ""
    out = []
    if _any(CORDS, words):
        out.append(voice.say(_CORD_TEXT))
    if _any(SMALL_PARTS, words):
        out.append(voice.say(_SMALL_TEXT))
    if _any(EYES, words):
        out.append(voice.say(_EYES_TEXT))
    return " ".join([*out, voice.say(_RULES_TEXT)]) if out else ""


def _any(table: tuple[str, ...], words: str) -> bool:
    return re.search(rf"\b(?:{'|'.join(table)})\b", words, re.IGNORECASE) is not None


def _words(pattern: Pattern) -> Iterator[str]:
    """Everything that the designer wrote in words, and every name that the designer gave."""
    yield from words_in(pattern)
    yield from pattern.sizes
    yield from (spoken(stitch.name) for stitch in pattern.stitches)
    yield from (body.of for one in pattern.measures for body in one.bodies if body is not None)
    for part in pattern.parts:
        yield spoken(part.name)
        for line in part.lines:
            if isinstance(line, Seam):
                yield from (spoken(opening) for _, opening in line.runs)
