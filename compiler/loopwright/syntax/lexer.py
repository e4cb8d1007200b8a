"""The lexer: Lark's contextual lexer, made ready for a state when a line first comes to it.

Lark makes a regular expression for every set of words that may come next, two hundred of them
here, and to compile those that one pattern needs takes longer than to check it. This lexer finds
every word with a single expression, in the order in which Lark would try them; the word that it
finds first is the one that Lark would find wherever that word may stand. Where it may not, Lark's
own expression for the state is asked, and what Lark says then, its error too, holds.
"""

from __future__ import annotations

import re
from collections.abc import Collection
from copy import copy

from lark.common import LexerConf
from lark.lexer import AbstractBasicLexer, BasicLexer, ContextualLexer
from lark.utils import TextSlice

NAME = "NAME"


class LazyContextualLexer(ContextualLexer):
    """Has a lexer for each state, as Lark's own has, but from the first use on."""

    def __init__(
        self,
        conf: LexerConf,
        states: dict[int, Collection[str]],
        always_accept: Collection[str] = (),
    ) -> None:
        conf = copy(conf)
        conf.skip_validation = True
        self.root_lexer = BasicLexer(conf)
        self.lexers = _Lexers(conf, states, Words(self.root_lexer))


class Words:
    """Finds any word of the notation. ``named`` are those of its own words that look like names."""

    def __init__(self, lexer: BasicLexer) -> None:
        name = re.compile(lexer.terminals_by_name[NAME].pattern.to_regexp())
        literals = {
            one.pattern.value: one.name for one in lexer.terminals if one.pattern.type == "str"
        }
        self.named = {text: kind for text, kind in literals.items() if name.fullmatch(text)}
        apart = set(self.named.values())
        patterns = [
            f"(?P<{one.name}>{one.pattern.to_regexp()})"
            for one in lexer.terminals
            if one.name not in apart
        ]
        self.find = re.compile("|".join(patterns))


class _Lexers(dict[int, AbstractBasicLexer]):
    """The lexers by state, each made when it is first looked up."""

    def __init__(self, conf: LexerConf, states: dict[int, Collection[str]], words: Words) -> None:
        self.conf = conf
        self.states = states
        self.words = words

    def __missing__(self, state: int) -> AbstractBasicLexer:
        known = {*self.states[state], *self.conf.ignore}
        conf = copy(self.conf)
        conf.terminals = [one for one in conf.terminals if one.name in known]
        self[state] = made = _Lexer(conf, self.words)
        return made


class _Lexer(BasicLexer):
    """The lexer of one state: what may come next is ``known``."""

    def __init__(self, conf: LexerConf, words: Words) -> None:
        super().__init__(conf)
        self.callback = {}
        self.known = frozenset(one.name for one in self.terminals)
        self.named = words.named
        self.find = words.find.match

    def match(self, text: TextSlice[str], pos: int) -> tuple[str, str] | None:
        """The word at a position and its kind."""
        match = self.find(text.text, pos, text.end)
        if match is not None:
            kind, found = match.lastgroup, match.group()
            if kind == NAME and (own := self.named.get(found)) in self.known:
                kind = own
            if kind in self.known:
                return found, kind
        return super().match(text, pos)  # type: ignore[no-any-return, no-untyped-call]
