"""Prose: a checked pattern in trade English, in either country's terms, or in another language,
for all sizes at once.

    prose(checked, "UK") -> Document
    prose(checked, "UK", language="fr", style=shipped("compact")) -> Document

The document is plain words in blocks; ``render.sheet`` makes pages of it.
"""

from __future__ import annotations

from loopwright.ir.checked import Checked
from loopwright.measure.dimensions import PartMeasures
from loopwright.measure.pace import Time
from loopwright.measure.yarn import YarnUse
from loopwright.render.prose.document import (
    Block,
    Document,
    Entries,
    Paragraph,
    Section,
    Step,
    Steps,
    Table,
    Words,
)
from loopwright.render.prose.style import BadStyle, Style, shipped, style_of
from loopwright.render.prose.voice import ENGLISH, Voice, voice
from loopwright.render.prose.whole import whole

__all__ = [
    "ENGLISH",
    "BadStyle",
    "Block",
    "Document",
    "Entries",
    "Paragraph",
    "Section",
    "Step",
    "Steps",
    "Style",
    "Table",
    "Voice",
    "Words",
    "prose",
    "shipped",
    "style_of",
]


def prose(
    checked: Checked,
    terms: str,
    yarn: YarnUse | None = None,
    time: tuple[Time, ...] = (),
    measured: tuple[PartMeasures, ...] = (),
    language: str = ENGLISH,
    style: Style | None = None,
) -> Document:
    """The pattern as a document in ``UK`` or ``US`` terms, with the yarn, the time and the
    finished sizes that were measured for it; in another ``language`` in that one's terms, and in
    the ``style`` of a house."""
    return whole(checked, voice(terms, language, style), yarn, time, measured)
