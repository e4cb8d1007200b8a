"""Markdown: the marks that would change how words look are written so that they do not."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

from loopwright.render.prose import Table

_MARKS = re.compile(r"([\\`*_<>|~])")
_BEGINNING = re.compile(r"\A(\s*)(#|[-+](?=\s)|(\d+)([.)])(?=\s)|=+\Z|-+\Z)")


def plain(text: str) -> str:
    """Words that print as they are, within a line."""
    text = _MARKS.sub(r"\\\1", text)
    text = re.sub(r"&(?=#?\w+;)", "&amp;", text)
    return text.replace("](", "]\\(").replace("![", "!\\[").replace("]:", "]\\:")


def opening(text: str) -> str:
    """Words that print as they are at the beginning of a paragraph."""
    text = plain(text)
    match = _BEGINNING.match(text)
    if match is None:
        return text
    if match.group(3):
        return f"{match.group(3)}\\{text[match.start(4) :]}"
    return f"{match.group(1)}\\{text[match.start(2) :]}"


def alternative(text: str) -> str:
    """Words that stand for a picture: between brackets, so that theirs are no marks."""
    return re.sub(r"(?<!\\)([\[\]])", r"\\\1", plain(text))


def table(one: Table) -> str:
    """A table with its caption over it and a line under its head."""
    rows = [one.head, tuple("---" for _ in one.head), *one.rows]
    lines = [f"*{plain(one.caption)}*", ""]
    for at, row in enumerate(rows):
        cells = row if at == 1 else tuple(plain(cell) for cell in row)
        lines.append(f"| {' | '.join(cells)} |")
    return "\n".join(lines)


FILTERS: dict[str, Callable[..., Any]] = {
    "md": plain,
    "alternative": alternative,
    "opening": opening,
    "table": table,
}
