"""The automaton reads what Lark reads with its own lexer, its own parser and its own tree, right or
wrong, in every line that there is and in lines that slips were made in."""

from __future__ import annotations

import random
import re
from pathlib import Path
from typing import Any

import pytest
from lark import Lark, Tree, UnexpectedCharacters, UnexpectedToken
from loopwright.grammar import GRAMMAR

from loopwright.syntax import tables
from loopwright.syntax.automaton import END
from loopwright.syntax.lines import START_RULES, cut
from loopwright.syntax.parser import automaton
from loopwright.syntax.tree import Misread, Node, Word
from support import CASES, EXAMPLES, WORKED, text_of

SLIPS = 3000
SIGNS = ' ,:;()[]{}=#*"\n\t-+^/.12aé\u200b'
STRAY = [
    "2nd",
    "ch-2",
    "4mm",
    "5-tr",
    "#x",
    "# y",
    '"',
    "ch-",
    "3.",
    "3.5.",
    "-",
    "accross",
    "11th",
]


@pytest.fixture(scope="module")
def larks() -> Lark:
    """The parser that Lark itself makes of the grammar, with its own lexer and its own tree."""
    return tables.lark_of(Path(GRAMMAR).read_text("utf-8"), lexer="contextual", strict=True)


def lines() -> list[tuple[str, str]]:
    """Every line that has a grammar, with its start rule, each once."""
    found: dict[tuple[str, str], None] = {}
    for path in [*EXAMPLES, *WORKED, *CASES]:
        for _, line in cut(text_of(path)):
            word = re.match("[A-Za-z]+", line)
            if word and word[0] in START_RULES:
                found[START_RULES[word[0]], line] = None
    return list(found)


def ours(start: str, line: str) -> object:
    """All there is to a reading of ours: kinds, words and offsets, or where it went wrong, and what
    could stand there."""
    read = automaton().read(start, line)
    return tuple(read) if isinstance(read, Misread) else _node(read)


def _node(one: Node | Word) -> object:
    if isinstance(one, Node):
        return one.rule, one.start, one.end, [_node(kid) for kid in one.children]
    return one.type, str(one), one.start_pos, one.end_pos


def theirs(lark: Lark, start: str, line: str) -> object:
    """The same of a reading of Lark's."""
    try:
        return _tree(lark.parse(line, start=start))
    except UnexpectedToken as error:
        token, expected = error.token, frozenset(error.accepts or error.expected)
        if token.type == "$END":
            end = len(line.rstrip())
            return end, end, "", expected, ""
        return token.start_pos, token.end_pos, str(token), expected, ""
    except UnexpectedCharacters as error:
        at = error.pos_in_stream
        word = re.compile(r".\w*", re.DOTALL).match(line, at)
        assert word
        could = frozenset(error.allowed) - {"<END-OF-FILE>"} or frozenset([END])
        return at, word.end(), word[0], could, ""


def _tree(one: Any) -> Any:
    if isinstance(one, Tree):
        kids = [_tree(kid) for kid in one.children]
        return str(one.data), _begun(one), _ended(one), kids
    return one.type, str(one), one.start_pos, one.end_pos


def _begun(one: Any) -> Any:
    return _begun(one.children[0]) if isinstance(one, Tree) else one.start_pos


def _ended(one: Any) -> Any:
    return _ended(one.children[-1]) if isinstance(one, Tree) else one.end_pos


def test_every_line_reads_as_with_lark(larks: Lark) -> None:
    every = lines()
    assert len(every) > 700
    for start, line in every:
        assert ours(start, line) == theirs(larks, start, line), line


def test_slips_read_as_with_lark(larks: Lark) -> None:
    chance = random.Random(1847)
    every = lines()
    words = sorted({word for _, line in every for word in line.split()}) + STRAY
    for _ in range(SLIPS):
        start, line = chance.choice(every)
        for _ in range(chance.choice((1, 1, 2, 3))):
            line = slip(chance, line, words)
        assert ours(start, line) == theirs(larks, start, line), line


def slip(chance: random.Random, line: str, words: list[str]) -> str:
    """The line with a word too many, a sign too many, some letters missing, or another word."""
    at = chance.randrange(len(line) + 1)
    kind = chance.randrange(4)
    if kind == 0:
        return line[:at] + chance.choice(words) + line[at:]
    if kind == 1:
        return line[:at] + chance.choice(SIGNS) + line[at:]
    if kind == 2:
        return line[:at] + line[at + chance.randrange(1, 6) :]
    parts = line.split(" ")
    parts[chance.randrange(len(parts))] = chance.choice(words)
    return " ".join(parts)
