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
        self.root_lexer = _StateLexer(conf)
        self.lexers = _ByState(self.root_lexer, states)


class _ByState(dict[int, AbstractBasicLexer]):
    """The lexers by state, each made when it is first looked up; ``every`` knows all words."""

    def __init__(self, every: _StateLexer, states: dict[int, Collection[str]]) -> None:
        self.every = every
        self.states = states
        self.made: dict[frozenset[str], AbstractBasicLexer] = {}

    def __missing__(self, state: int) -> AbstractBasicLexer:
        known = self.every.ignore_types.union(self.states[state])
        lexer = self.made.get(known)
        if lexer is None:
            lexer = self.made[known] = self.every.limited(known)
        self[state] = lexer
        return lexer


class _StateLexer(BasicLexer):
    """The lexer of one state. What may come next is ``known``; ``find`` finds any word, and
    ``named`` are the notation's own words that look like a name."""

    def __init__(self, conf: LexerConf) -> None:
        super().__init__(conf)
        name = re.compile(self.terminals_by_name[NAME].pattern.to_regexp())
        literals = [one for one in self.terminals if one.pattern.type == "str"]
        words = [one for one in literals if name.fullmatch(one.pattern.value)]
        self.named = {one.pattern.value: one.name for one in words}
        patterns = [
            f"(?P<{one.name}>{one.pattern.to_regexp()})"
            for one in self.terminals
            if one not in words
        ]
        self.find = re.compile("|".join(patterns))
        self.known = frozenset(one.name for one in self.terminals)
        self.callback = {}

    def limited(self, known: frozenset[str]) -> _StateLexer:
        """The same for a state in which only these may come next."""
        lexer = copy(self)
        lexer.known = known
        lexer.terminals = [one for one in self.terminals if one.name in known]
        lexer.callback = {}
        lexer._scanner = None
        return lexer

    def match(self, text: TextSlice[str], pos: int) -> tuple[str, str] | None:
        """The word at a position and its kind."""
        match = self.find.match(text.text, pos, text.end)
        if match is not None:
            kind, found = match.lastgroup, match.group()
            if kind == NAME and (own := self.named.get(found)) in self.known:
                kind = own
            if kind in self.known:
                return found, kind
        return super().match(text, pos)  # type: ignore[no-any-return, no-untyped-call]
