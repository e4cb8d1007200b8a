"""A row's words as a tree: commas between items, brackets within brackets."""

from __future__ import annotations

import re
from dataclasses import dataclass


@dataclass(frozen=True)
class Plain:
    """Words without brackets around them."""

    text: str


@dataclass(frozen=True)
class Again:
    """``[...] 7 times``; ``times`` is nothing where it goes as far as ``far`` says."""

    items: tuple[Item, ...]
    times: int | None
    far: str


@dataclass(frozen=True)
class Group:
    """``(...) in next ch-2 sp``."""

    items: tuple[Item, ...]
    where: str


Item = Plain | Again | Group


class Unread(Exception):
    """Words that the reader does not know."""


def items_of(text: str) -> tuple[Item, ...]:
    """The items of a row, in order."""
    return tuple(_item(piece) for piece in _split(text) if piece)


def _split(text: str) -> list[str]:
    """The text at its commas, those within brackets left alone."""
    out, depth = [""], 0
    for sign in text:
        depth += (sign in "[(") - (sign in "])")
        if sign == "," and depth == 0:
            out.append("")
        else:
            out[-1] += sign
    return [piece.strip() for piece in out]


def _item(text: str) -> Item:
    if text.startswith("["):
        inner, after = _closed(text, "]")
        found = re.fullmatch(r"(?:(\d+) times|(once))?(.*)", after)
        assert found
        times = int(found[1]) if found[1] else 1 if found[2] else None
        return Again(items_of(inner), times, found[3].strip())
    if text.startswith("("):
        inner, after = _closed(text, ")")
        return Group(items_of(inner), after)
    return Plain(text)


def _closed(text: str, end: str) -> tuple[str, str]:
    begin = text[0]
    depth = 0
    for at, sign in enumerate(text):
        depth += (sign == begin) - (sign == end)
        if depth == 0:
            return text[1:at], text[at + 1 :].strip()
    raise Unread(f"a bracket that is not closed: {text}")
