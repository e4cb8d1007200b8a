"""The lexer finds what Lark's own contextual lexer finds, right or wrong, in every line that there
is and in lines that slips were made in."""

from __future__ import annotations

import random
import re
from pathlib import Path
from typing import Any

import pytest
from lark import Lark, UnexpectedCharacters, UnexpectedToken
from lark.lexer import ContextualLexer
from loopwright.grammar import GRAMMAR

from loopwright.syntax import parser
from loopwright.syntax.lexer import LazyContextualLexer
from loopwright.syntax.lines import START_RULES, cut
from loopwright.syntax.tree import Node
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
def ours() -> Lark:
    """The parser as the program has it."""
    made = parser.load()
    assert type(lexer_of(made)) is LazyContextualLexer
    return made


@pytest.fixture(scope="module")
def larks() -> Lark:
    """The parser with Lark's own lexer, which it has where it is built strictly."""
    made = parser.build(Path(GRAMMAR).read_text("utf-8"), strict=True)
    assert type(lexer_of(made)) is ContextualLexer
    return made


def lexer_of(lark: Any) -> object:
    """The lexer inside one of Lark's parsers."""
    return lark.parser.lexer


def lines() -> list[tuple[str, str]]:
    """Every line that has a grammar, with its start rule, each once."""
    found: dict[tuple[str, str], None] = {}
    for path in [*EXAMPLES, *WORKED, *CASES]:
        for _, line in cut(text_of(path)):
            word = re.match("[A-Za-z]+", line)
            if word and word[0] in START_RULES:
                found[START_RULES[word[0]], line] = None
    return list(found)


def reading(lark: Lark, start: str, line: str) -> object:
    """All there is to a reading: kinds, words and offsets, or where and how it went wrong."""
    try:
        return _plain(lark.parse(line, start=start))
    except UnexpectedToken as error:
        return error.token.type, str(error.token), error.token.start_pos, error.accepts
    except UnexpectedCharacters as error:
        return error.pos_in_stream, error.allowed


def _plain(one: Any) -> object:
    if isinstance(one, Node):
        return one.rule, one.start, one.end, [_plain(kid) for kid in one.children]
    return one.type, str(one), one.start_pos, one.end_pos


def test_every_line_reads_as_with_larks_own(ours: Lark, larks: Lark) -> None:
    every = lines()
    assert len(every) > 700
    for start, line in every:
        assert reading(ours, start, line) == reading(larks, start, line), line


def test_slips_read_as_with_larks_own(ours: Lark, larks: Lark) -> None:
    chance = random.Random(1847)
    every = lines()
    words = sorted({word for _, line in every for word in line.split()}) + STRAY
    for _ in range(SLIPS):
        start, line = chance.choice(every)
        for _ in range(chance.choice((1, 1, 2, 3))):
            line = slip(chance, line, words)
        assert reading(ours, start, line) == reading(larks, start, line), line


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


def test_a_state_is_made_ready_when_a_line_comes_to_it() -> None:
    fresh: Any = parser.load()
    assert not fresh.parser.lexer.lexers
    fresh.parse("gather: last round", start="gather_line")
    assert 0 < len(fresh.parser.lexer.lexers) < 10
