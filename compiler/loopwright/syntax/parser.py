"""The parser: one logical line at a time, by the tables that Lark makes of grammar/pattern.lark.

    parse("row_line", "row 2: ch 1, dc in each st across")   ->   a Node, or a Misread

It does what Lark's LALR parser with the contextual lexer does, word for word and error for error
(the tests hold the two side by side), without importing Lark. It is quicker to start and to run,
because one regular expression finds all words; only where the word that it finds cannot stand, the
text is read again by what the context allows. The same line is never parsed twice in a process.
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

END, NAME = "$END", "NAME"
_END = "_"
"""The end of the line, where only a name of Python's will do."""


class Misread(NamedTuple):
    """Where a line stopped making sense: the offending stretch and what could stand there."""

    start: int
    end: int
    found: str
    expected: frozenset[str]
    reason: str = ""


class Parser:
    """Runs the tables. The words that may come next are the terminals among the actions of the
    state that was reached."""

    def __init__(self, tables: Tables) -> None:
        self.tables = tables
        self._worded = frozenset(tables.words.values())
        own = self._worded.union(tables.ignored)
        kinds = "|".join(
            f"(?P<{kind}>{one})" for kind, one in tables.patterns.items() if kind not in own
        )
        self._blank = f"(?:{'|'.join(tables.patterns[kind] for kind in tables.ignored)})*+"
        self._scan = re.compile(rf"{self._blank}(?:{kinds}|(?P<{_END}>\Z))").match

    def parse(self, start: str, text: str) -> Node | Misread:
        """Parse a line with the start rule of its label."""
        actions, rules = self.tables.actions, self.tables.rules
        end = self.tables.ends[start]
        states = [self.tables.starts[start]]
        parts: list[Any] = []
        at = 0
        while True:
            word = self._word(actions[states[-1]], text, at)
            if word is None:
                return self._no_word(states, text, at)
            while (step := actions[states[-1]].get(word.type)) is not None and step < 0:
                rule, size, label, single, inlined = rules[~step]
                made = parts[-size:]
                del parts[-size:], states[-size:]
                if inlined:
                    made = _spread(made, inlined)
                if label:
                    parts.append(made[0] if single and len(made) == 1 else Node(label, made))
                else:
                    parts.append(made)
                states.append(actions[states[-1]][rule])
                if states[-1] == end and word.type == END:
                    return parts[-1]  # type: ignore[no-any-return]
            if step is None:
                return self._no_place(states, text, word)
            states.append(step)
            parts.append(word)
            at = word.end_pos

    # ----------------------------------------------------------------- words
    def _word(self, state: dict[str, int], text: str, at: int) -> Word | None:
        """The next word, of a kind that may come in this state; None where there is none."""
        match = self._scan(text, at)
        if match is not None:
            kind = match.lastgroup or _END
            start, end = match.span(kind)
            if kind == NAME:
                kind = self._named(state, text[start:end])
            elif kind == _END:
                return Word(END, text, end, end)
            if kind in state:
                return Word(kind, text, start, end)
        return self._in_context(state, text, self._past_blanks(text, at))

    def _named(self, state: dict[str, int], written: str) -> str:
        """Whether a name is a word of the notation here."""
        kind = self.tables.words.get(written, NAME)
        return kind if kind in state else NAME

    def _in_context(self, state: dict[str, int], text: str, at: int) -> Word | None:
        """The next word, when only the words that may come next are looked for."""
        for kind, pattern in self.tables.patterns.items():
            if kind not in state or (kind in self._worded and NAME in state):
                continue
            match = re.compile(pattern).match(text, at)
            if match is not None:
                kind = self._named(state, match.group()) if kind == NAME else kind
                return Word(kind, text, at, match.end())
        return None

    def _past_blanks(self, text: str, at: int) -> int:
        match = re.compile(self._blank).match(text, at)
        return match.end() if match else at

    # ---------------------------------------------------------------- faults
    def _no_word(self, states: list[int], text: str, at: int) -> Misread:
        """What stands here is no word that may come next: another word, or none at all."""
        state = self.tables.actions[states[-1]]
        match = self._scan(text, at)
        if match is not None:
            start, end = match.span(match.lastgroup or _END)
            return Misread(start, end, text[start:end], self._expected(states))
        start = self._past_blanks(text, at)
        end = start + 1
        while end < len(text) and (text[end].isalnum() or text[end] == "_"):
            end += 1
        hidden = self._worded if NAME in state else ()
        known = [kind for kind in self.tables.patterns if kind in state and kind not in hidden]
        return Misread(start, end, text[start:end], frozenset(known or [END]))

    def _no_place(self, states: list[int], text: str, word: Word) -> Misread:
        """A word that may come next by itself, but not after all that stands before it."""
        expected = self._expected(states)
        if word.type == END:
            end = len(text.rstrip())
            return Misread(end, end, "", expected)
        return Misread(word.start_pos, word.end_pos, str(word), expected)

    def _expected(self, states: list[int]) -> frozenset[str]:
        """The kinds of word that could come next."""
        state = self.tables.actions[states[-1]]
        known = [kind for kind in state if kind == END or kind in self.tables.patterns]
        return frozenset([kind for kind in known if self._fits(kind, states)] or known)

    def _fits(self, kind: str, states: list[int]) -> bool:
        """Whether a word of this kind can be taken once what is complete before it is made up."""
        states = states.copy()
        while (step := self.tables.actions[states[-1]].get(kind)) is not None and step < 0:
            rule, size, *_ = self.tables.rules[~step]
            del states[-size:]
            states.append(self.tables.actions[states[-1]][rule])
        return step is not None or (kind == END and states[-1] in self.tables.ends.values())


def _spread(parts: list[Any], inlined: tuple[int, ...]) -> list[Any]:
    """The parts, those at ``inlined`` replaced by what they hold."""
    out: list[Any] = []
    for at, part in enumerate(parts):
        if at in inlined:
            out.extend(part)
        else:
            out.append(part)
    return out


_parser: Parser | None = None
_trees: dict[tuple[str, str], Node | Misread] = {}


def parser() -> Parser:
    """The parser, loaded once in a process."""
    global _parser
    if _parser is None:
        _parser = Parser(load())
    return _parser


def parse(start: str, text: str) -> Node | Misread:
    """Parse one logical line with the start rule of its label."""
    key = (start, text)
    tree = _trees.get(key)
    if tree is None:
        tree = _too_deep(text) or parser().parse(start, text)
        if len(_trees) >= MOST_KEPT:
            _trees.clear()
        _trees[key] = tree
    return tree


def _too_deep(text: str) -> Misread | None:
    if text.count("(") + text.count("[") + text.count("{") <= DEEPEST:
        return None
    depth = 0
    for at, char in enumerate(text):
        if char in "([{":
            depth += 1
            if depth > DEEPEST:
                return Misread(at, at + 1, char, frozenset(), "deep")
        elif char in ")]}":
            depth -= 1
    return None
