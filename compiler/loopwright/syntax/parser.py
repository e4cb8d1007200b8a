"""The parser: one logical line at a time, by the tables that Lark makes of grammar/pattern.lark.

    parse("row_line", "row 2: ch 1, dc in each st across")   ->   a Node, or a Misread

It does what Lark's LALR parser with the contextual lexer does, word for word and error for error
(the tests hold them side by side), without importing Lark. What it leaves out is what makes a
general parser slow: all words are found with one regular expression, and only where the word it
finds cannot stand is the text read again by what the context allows. The same line is never parsed
twice in a process.
"""

from __future__ import annotations

import re
from typing import Any, NamedTuple

from loopwright.syntax.tables import Tables, load
from loopwright.syntax.tree import Node, Word

MOST_KEPT = 50_000
"""Lines whose trees are kept; past it the store starts afresh."""

DEEPEST = 40
"""Brackets within brackets; a pattern that a maker can follow stays far below."""

END = "$END"
NAME = "NAME"


class Misread(NamedTuple):
    """Where a line stopped making sense: the offending stretch and what could stand there."""

    start: int
    end: int
    found: str
    expected: frozenset[str]
    reason: str = ""


class Parser:
    """Runs the tables. ``State`` is what may come next: the actions of one state."""

    def __init__(self, tables: Tables) -> None:
        self.tables = tables
        words = set(tables.words.values())
        ignored = "|".join(tables.patterns[kind] for kind in tables.ignored)
        kinds = "|".join(
            f"(?P<{kind}>{pattern})"
            for kind, pattern in tables.patterns.items()
            if kind not in words and kind not in tables.ignored
        )
        self._blank = f"(?:{ignored})*+"
        self._scan = re.compile(rf"{self._blank}(?:{kinds}|(?P<_>\Z))").match
        self._words = words

    def parse(self, start: str, text: str) -> Node | Misread:
        """Parse a line with a start rule."""
        actions, rules = self.tables.actions, self.tables.rules
        end = self.tables.ends[start]
        states = [self.tables.starts[start]]
        values: list[Any] = []
        at = 0
        while True:
            word = self._next(actions[states[-1]], text, at)
            if word is None:
                return self._no_word(states, text, at)
            kind = word.type
            while (step := actions[states[-1]].get(kind, END)) < 0:
                rule, size, label, single, inlined = rules[~step]
                ...
