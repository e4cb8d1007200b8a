"""The tree of one line: nodes with a rule name, their children and where they stand.

A node keeps every word that was written, keywords too, so that its span is exact:

    row_line
      numbered      row 2
      worked        ch 2, [3 tr, fptr] around

Offsets are relative to the line's first character, so that an equal line gives an equal tree
wherever it stands.
"""

from __future__ import annotations

from typing import Any, cast

from loopwright.frozen import NamedTuple


class Word(str):
    """A written word or number: a string with its kind (``type``) and offsets."""

    __slots__ = ("end_pos", "start_pos", "type")
    type: str
    start_pos: int
    end_pos: int


class Misread(NamedTuple):
    """Where a line stopped making sense: the offending stretch and what could stand there."""

    start: int
    end: int
    found: str
    expected: frozenset[str]
    reason: str = ""


class Node:
    """A construct of the notation: ``rule`` names it, ``children`` are its words and nodes in
    order."""

    __slots__ = ("children", "end", "rule", "start")

    def __init__(self, rule: str, kids: list[Any]) -> None:
        self.rule = rule
        self.children: list[Any] = kids
        first, last = kids[0], kids[-1]
        self.start: int = first.start if type(first) is Node else first.start_pos
        self.end: int = last.end if type(last) is Node else last.end_pos

    def nodes(self) -> list[Node]:
        """Its children that are constructs."""
        return [kid for kid in self.children if type(kid) is Node]

    def find(self, *rules: str) -> Node | None:
        """Its first child of one of these rules."""
        for kid in self.children:
            if type(kid) is Node and kid.rule in rules:
                return kid
        return None

    def words(self, kind: str) -> list[Word]:
        """Its own words of a kind (``NAME``, ``INT``...)."""
        return [
            cast("Word", kid) for kid in self.children if type(kid) is not Node and kid.type == kind
        ]

    def word(self, kind: str) -> Word | None:
        """Its first own word of a kind."""
        for kid in self.children:
            if type(kid) is not Node and kid.type == kind:
                return cast("Word", kid)
        return None

    def has(self, text: str) -> bool:
        """Whether one of its own words reads so."""
        return any(type(kid) is not Node and kid == text for kid in self.children)

    def __repr__(self) -> str:
        return f"{self.rule}({', '.join(map(repr, self.children))})"
