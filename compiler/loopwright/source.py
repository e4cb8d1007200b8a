"""Text and places in it: what every message points at.

A ``Span`` is a pair of offsets into the text; a ``Source`` turns an offset into a line and a
column. Lines and columns count from 1, columns in characters.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Mapping

from loopwright.frozen import NamedTuple


class Span(NamedTuple):
    """A stretch of text: ``start`` is the first character, ``end`` the one after the last."""

    start: int
    end: int

    def moved(self, by: int) -> Span:
        """The same stretch, ``by`` characters further on."""
        return Span(self.start + by, self.end + by)


class NotRead(NamedTuple):
    """In place of a text that could not be read: why, as the end of a sentence (``there is no such
    file``), and how to put it right where that is not to name another file."""

    why: str
    hint: str = ""


Texts = Mapping[str, str | NotRead]
"""The files that a pattern uses, and that those use, by their paths from its own folder:
``../shared/house.crochet``."""


def beside(file: str, written: str) -> str | None:
    """The path of a file that another one names: both from the folder of the pattern, the name
    from the folder of the file that it stands in. None where what is written is no such path."""
    from posixpath import dirname, join, normpath

    if not written.isprintable() or "\\" in written or written.startswith("/"):
        return None
    if written[1:2] == ":" or not written.strip():
        return None
    return normpath(join(dirname(file), written))


def with_line_ends(text: str) -> str:
    """The text with a line end in the place of each CR that stands alone for one, as old editors
    wrote them. Every character keeps its place; a CR before a line end belongs to that."""
    if "\r" not in text:
        return text
    import re

    def read(found: re.Match[str]) -> str:
        ends = found.group()
        return ends if ends[-1] == "\n" else "\n" * len(ends)

    return re.sub(r"\r+\n?", read, text)


class Source:
    """A pattern file's text under the name that messages give it.

    The files that it uses are ``used``, each with the offset at which it begins: one row of offsets
    goes on over all of them, so that a span is two numbers wherever it stands.
    """

    __slots__ = ("_starts", "name", "text", "used")

    def __init__(self, name: str, text: str, used: tuple[tuple[int, Source], ...] = ()) -> None:
        self.name = name
        self.text = text
        self.used = used
        starts = [0]
        find = text.find
        at = find("\n")
        while at >= 0:
            starts.append(at + 1)
            at = find("\n", at + 1)
        self._starts = starts

    def at(self, offset: int) -> tuple[Source, int]:
        """The file that an offset is in, and the offset in that file."""
        for base, one in reversed(self.used):
            if offset >= base:
                return one, offset - base
        return self, offset

    def position(self, offset: int) -> tuple[int, int]:
        """The line and column in this file of an offset in it, both from 1."""
        line = bisect_right(self._starts, offset)
        return line, offset - self._starts[line - 1] + 1

    def line(self, number: int) -> str:
        """The text of a line, counted from 1, without its line end."""
        start = self._starts[number - 1]
        end = self._starts[number] if number < len(self._starts) else len(self.text)
        return self.text[start:end].rstrip("\r\n")

    def line_start(self, number: int) -> int:
        """The offset at which a line begins, counted from 1."""
        return self._starts[number - 1]
