"""The parser: over grammar/pattern.lark, one logical line at a time.

The tables are Lark's (LALR), the automaton that reads a line by them is ours. The same line is
never read twice in a process.
"""

from __future__ import annotations

from functools import cache, lru_cache

from loopwright.syntax.automaton import Automaton
from loopwright.syntax.tables import load
from loopwright.syntax.tree import Misread, Node

MOST_KEPT = 8_000
"""Lines whose trees are kept; past it the one goes that was not asked for longest."""

DEEPEST = 40
"""Brackets within brackets; a pattern that a maker can follow stays far below."""


@cache
def automaton() -> Automaton:
    """The automaton, made ready once in a process."""
    return Automaton(load())


def literal(terminal: str) -> str:
    """How a word or sign of the grammar is written; empty for one that has many forms."""
    return automaton().tables.written.get(terminal, "")


def own_words() -> frozenset[str]:
    """The words of the notation's own, as they are written."""
    return frozenset(word for word in automaton().tables.written.values() if word.isalpha())


@lru_cache(MOST_KEPT)
def parse(start: str, text: str) -> Node | Misread:
    """Parse one logical line with the start rule of its label."""
    deep = _too_deep(text)
    return automaton().read(start, text) if deep is None else deep


def forget() -> None:
    """Forget the trees of all lines."""
    parse.cache_clear()


def _too_deep(text: str) -> Misread | None:
    depth = 0
    for at, char in enumerate(text):
        if char in "([{":
            depth += 1
            if depth > DEEPEST:
                return Misread(at, at + 1, char, frozenset(), "deep")
        elif char in ")]}":
            depth -= 1
    return None
