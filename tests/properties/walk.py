"""Walking along an edge, choosing something to work in each place that is met."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import NamedTuple

from hypothesis import strategies as st

from properties.tokens import Draw, Token, Words


class Step(NamedTuple):
    """One item: its text, how far along the edge it gets, and what it makes."""

    text: str
    to: int
    made: list[Token]


class Walk:
    """A walk over some tokens. ``used`` is what was worked last: ``st``, ``sp``, ``skip``, or
    nothing yet. ``last`` where the row ends with it; ``deep`` is how many brackets it is in."""

    def __init__(
        self,
        draw: Draw,
        words: Words,
        edge: Sequence[Token],
        used: str,
        last: bool = False,
        deep: int = 0,
    ) -> None:
        self.draw = draw
        self.words = words
        self.edge = list(edge)
        self.used = used
        self.last = last
        self.deep = deep
        self.at = 0
        self.steps: list[Step] = []

    def go(self) -> list[Step]:
        """Walk to the end; where a space was worked last, the last stitches may be passed by."""
        from properties.choices import choices

        while self.at < len(self.edge):
            if self.last and self.used == "sp" and self.only_stitches() and self.now_and_then():
                break
            self.add(self.one_of(choices(self))(self))
            if self.at < len(self.edge) and self.used and self.now_and_then():
                n = self.number(1, 4)
                self.add(Step(f"ch {n}", self.at, [Token("sp", chains=n)]))
        return self.steps

    def add(self, step: Step) -> None:
        """Write an item down."""
        self.steps.append(step)
        self.at = step.to

    # ---------------------------------------------------------------- choosing

    def one_of(self, choices: Sequence[Callable[[Walk], Step]]) -> Callable[[Walk], Step]:
        """One of some ways to go on."""
        chosen: Callable[[Walk], Step] = self.draw(st.sampled_from(choices))
        return chosen

    def number(self, low: int, high: int) -> int:
        """A number between two."""
        return int(self.draw(st.integers(low, high)))

    def coin(self) -> bool:
        """Either way."""
        return bool(self.draw(st.booleans()))

    def now_and_then(self) -> bool:
        """One time in four."""
        return self.number(0, 3) == 3

    def word(self) -> str:
        """A plain stitch."""
        return str(self.draw(st.sampled_from(self.words.stitches)))

    # ---------------------------------------------------------------- what is ahead

    @property
    def here(self) -> Token:
        """The next place."""
        return self.edge[self.at]

    def run(self) -> int:
        """How many stitches come next, before a space or the end."""
        n = 0
        while self.at + n < len(self.edge) and self.edge[self.at + n].what != "sp":
            n += 1
        return n

    def called(self, token: Token) -> str:
        """What to call a space: by its length, unless a chain that counts is as long."""
        counted = [one.chains for one in self.edge if one.what == "st" and one.chains]
        if any(token.chains in (n, n + 2) for n in counted):
            return "sp"
        return f"ch-{token.chains} sp"

    def only_stitches(self) -> bool:
        """Whether no space is ahead."""
        return all(token.what == "st" for token in self.edge[self.at :])

    def kind(self, n: int = 1) -> str:
        """What an untyped place is called here."""
        if self.here.what == "ch":
            return "ch"
        return "st" if n == 1 else "sts"
