"""The automaton: reads one line by the parser's tables, a word at a time.

    Automaton(tables).read("row_line", "row 1: 3 dc")  ->  a node, or where it stopped making sense

Which words may come next depends on what was read so far. A single expression finds every word that
there is, in the order in which they are tried; where it finds one that may not stand here, an
expression is made of those that may, and asked. What is then still none is wrong, and what could
stand there instead are the words with which the automaton would go on.
"""

from __future__ import annotations

import re
from typing import Any

from loopwright.syntax.tables import Tables
from loopwright.syntax.tree import Misread, Node, Word

END, STRAY = "$END", ""
"""The kinds of the word that stands for the end of the line, and of that for what is none."""


class Automaton:
    """Runs the tables; it may be asked as often as one likes."""

    def __init__(self, tables: Tables) -> None:
        self.tables = tables
        self._among: dict[frozenset[str], re.Pattern[str]] = {}
        self._every = self._expression(frozenset(kind for kind, _ in tables.patterns))

    def read(self, start: str, text: str) -> Node | Misread:
        """Read a line by the rule for its label."""
        states, last, at = self.tables.states, self.tables.ends[start], 0
        stack = [self.tables.starts[start]]
        values: list[Any] = []
        while True:
            row = states[stack[-1]]
            word = self._word(row, text, at)
            at = word.end_pos
            action = row.get(word.type)
            while action is not None and action < 0:
                action = self._complete(~action, stack, values)
                if action == last and word.type == END:
                    node = values[-1]
                    assert isinstance(node, Node)
                    return node
                stack.append(action)
                action = states[action].get(word.type)
            if action is None:
                return self._misread(text, word, stack, last)
            stack.append(action)
            values.append(word)

    def _word(self, row: dict[str, int], text: str, at: int) -> Word:
        """The next word from a place on, of those that a state knows; one of the kind ``END`` where
        there is none, and ``STRAY`` where none of them stands there."""
        ignored, known = self.tables.ignored, None
        while at < len(text):
            match, kind = self._find(self._every, row, text, at)
            if kind not in row and kind not in ignored:
                known = known or self._expression(ignored.union(row))
                match, kind = self._find(known, row, text, at)
            if match is None or kind is None:
                return _made("", STRAY, at)
            if kind not in ignored:
                return _made(match[0], kind, at)
            at = match.end()
        return _made("", END, at)

    def _find(
        self, expression: re.Pattern[str], row: dict[str, int], text: str, at: int
    ) -> tuple[re.Match[str] | None, str | None]:
        """What an expression finds at a place, and its kind: one of the notation's own words where
        the state knows it, or else the kind with many forms that it is one of."""
        match = expression.match(text, at)
        kind = match.lastgroup if match else None
        own = self.tables.own
        if match and kind in own and (named := own[kind].get(match[0])) in row:
            kind = named
        return match, kind

    def _complete(self, number: int, stack: list[int], values: list[Any]) -> int:
        """Put in the place of the values of a rule what becomes of them; the state to go to."""
        name, origin, size, opened, inlined, gives_way = self.tables.rules[number]
        if size == 1 and opened is None:
            stack.pop()
            if inlined:
                values[-1] = [values[-1]]
            elif not gives_way:
                values[-1] = Node(name, [values[-1]])
        else:
            kids = values[-size:]
            del values[-size:], stack[-size:]
            if opened is not None:
                kids = _opened(kids, opened)
            if inlined:
                values.append(kids)
            elif gives_way and len(kids) == 1:
                values.append(kids[0])
            else:
                values.append(Node(name, kids))
        return self.tables.states[stack[-1]][origin]

    def _expression(self, known: frozenset[str]) -> re.Pattern[str]:
        """What finds one of these kinds of words. A word of the notation's own that looks like a
        name is found as a name where names are among them."""
        made = self._among.get(known)
        if made is None:
            own, written = self.tables.own, self.tables.written
            forms = {form for kind in own if kind in known for form in own[kind]}
            every = (
                f"(?P<{kind}>{pattern})"
                for kind, pattern in self.tables.patterns
                if kind in known and written.get(kind) not in forms
            )
            made = self._among[known] = re.compile("|".join(every))
        return made

    def _stray(self, text: str, at: int, stack: list[int], last: int) -> Misread:
        """No word that may stand here: another one, or what is no word at all."""
        match = self._every.match(text, at)
        if match is not None:
            return Misread(at, match.end(), match[0], self._accepted(stack, last))
        end = at + 1
        while end < len(text) and (text[end].isalnum() or text[end] == "_"):
            end += 1
        known = self._expression(self.tables.ignored.union(self.tables.states[stack[-1]]))
        allowed = frozenset(known.groupindex) - self.tables.ignored
        return Misread(at, end, text[at:end], allowed or frozenset([END]))

    def _misread(self, text: str, word: Word, stack: list[int], last: int) -> Misread:
        """A word, or the end of the line, with which the automaton does not go on."""
        if word.type == STRAY:
            return self._stray(text, word.start_pos, stack, last)
        accepted = self._accepted(stack, last)
        if word.type == END:
            end = len(text.rstrip())
            return Misread(end, end, "", accepted)
        return Misread(word.start_pos, word.end_pos, str(word), accepted)

    def _accepted(self, stack: list[int], last: int) -> frozenset[str]:
        """The kinds of words with which it would go on; where there is none, those that the state
        knows."""
        kinds = [kind for kind in self.tables.states[stack[-1]] if kind.isupper()]
        return frozenset([kind for kind in kinds if self._goes_on(kind, stack, last)] or kinds)

    def _goes_on(self, kind: str, stack: list[int], last: int) -> bool:
        states, rules = self.tables.states, self.tables.rules
        stack = stack[:]
        while True:
            action = states[stack[-1]].get(kind)
            if action is None:
                return False
            if action >= 0:
                return True
            rule = rules[~action]
            del stack[-rule.size :]
            stack.append(states[stack[-1]][rule.origin])
            if kind == END and stack[-1] == last:
                return True


def _made(written: str, kind: str, at: int) -> Word:
    word = Word(written)
    word.type, word.start_pos, word.end_pos = kind, at, at + len(written)
    return word


def _opened(values: list[Any], opened: tuple[bool, ...]) -> list[Any]:
    """The values, and in the place of those that are opened what they hold. The first of them grows
    in its place, so that a long list is not copied for every one that is put to its end."""
    flat: list[Any] = []
    for value, one in zip(values, opened, strict=True):
        if not one:
            flat.append(value)
        elif flat:
            flat += value
        else:
            flat = value
    return flat
