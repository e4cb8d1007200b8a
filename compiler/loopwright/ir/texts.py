"""The designer's own words in a pattern: its texts, notes and remarks."""

from __future__ import annotations

from collections.abc import Iterator

from loopwright.ir.pattern import Note, Pattern, RepeatRows, Row, Text


def words_of(text: Text) -> str:
    """The designer's own words only, without what braces fill in."""
    return " ".join(piece for piece in text.pieces if isinstance(piece, str))


def free_texts(pattern: Pattern) -> Iterator[Text]:
    """Everything in a pattern that is written in the designer's own words."""
    yield from (text for _, text in pattern.texts)
    yield from (note.text for note in pattern.notes)
    for part in pattern.parts:
        for line in part.lines:
            if isinstance(line, Note):
                yield line.text
            elif isinstance(line, (Row, RepeatRows)) and line.remark is not None:
                yield line.remark


def words_in(pattern: Pattern) -> Iterator[str]:
    """All of these words, the title's, and what things of the kit are called."""
    yield pattern.title
    yield from (words_of(text) for text in free_texts(pattern))
    if pattern.kit is not None:
        yield from (item.name for item in pattern.kit.items if item.what == "thing")
