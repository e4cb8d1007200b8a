"""What is made of a pattern's text, without working it or after: the text mended, and tidied.

mend(text)    with every change that cannot alter what is meant
tidy(text)    in the canonical layout
"""

from __future__ import annotations

from loopwright.pipeline import ALONE, Around, check_text
from loopwright.source import with_line_ends

MOST_MENDS = 10
"""Rounds of mending: a mend may bring out another, but not without end."""


def mend(text: str, name: str = "", around: Around = ALONE) -> str:
    """The text with every safe edit made, and those that show only after them. Where every line of
    it ends in a CR alone, so does every one of what comes out."""
    read = with_line_ends(text)
    made = _mended(read, name, around)
    if made == read:
        return text
    return made.replace("\n", "\r") if "\r" in text and "\n" not in text else made


def _mended(text: str, name: str, around: Around) -> str:
    for _ in range(MOST_MENDS):
        edits = sorted(
            {
                edit
                for one in check_text(name, text, around).diagnostics
                for edit in one.edits
                if edit.safe and edit.span.end <= len(text)
            },
            key=lambda edit: edit.span,
        )
        if not edits:
            return text
        out = []
        done = 0
        for edit in edits:
            if edit.span.start >= done:
                out.append(text[done : edit.span.start] + edit.text)
                done = edit.span.end
        text = "".join(out) + text[done:]
    return text


def tidy(text: str) -> str:
    """The pattern's text in the canonical layout."""
    from loopwright.syntax.tidy import tidy as lay_out

    return lay_out(text)
