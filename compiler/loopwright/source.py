"""Text and places in it: what every message points at.

A ``Span`` is a pair of offsets into the text; a ``Source`` turns an offset into a line and a
column. Lines and columns count from 1, columns in characters.
"""

from __future__ import annotations

from bisect import bisect_right
from typing import NamedTuple


class Span(NamedTuple):
    """A stretch of text: ``start`` is the first character, ``end`` the one after the last."""

    start: int
    end: int

    def moved(self, by: int) -> Span:
        """The same stretch, ``by`` characters further on."""
        return Span(self.start + by, self.end + by)


class Source:
    """A pattern file's text under the name that messages give it."""

    __slots__ = ("_starts", "name", "text")

    def __init__(self, name: str, text: str) -> None:
        self.name = name
        self.text = text
        starts = [0]
        find = text.find
        at = find("\n")
        while at >= 0:
            starts.append(at + 1)
            at = find("\n", at + 1)
        self._starts = starts

    def position(self, offset: int) -> tuple[int, int]:
        """The line and column of an offset, both from 1."""
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
