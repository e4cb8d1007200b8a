"""What lowering knows while it goes through the lines: the terms, the names, what was said."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from typing import Any

from loopwright.diagnostics import Diagnostic
from loopwright.frozen import NamedTuple
from loopwright.ir.pattern import Count, Gauge, Hook, Kit, Measure, OwnStitch, Pace, Yarn
from loopwright.source import Span
from loopwright.trade.terms import TERMS, Terms

SHARED_NAMES = ("yarn", "hook", "gauge", "stitch")
"""What names a file gives to those that use it."""

MOST_TRIES = 400
"""Readings of lines as they might be meant, in one pattern."""


class Broken(Exception):
    """A construct that has been reported and cannot be lowered."""


class Foreign(NamedTuple):
    """A word of the other country's terms, where it stands, and what it is in the pattern's."""

    span: Span
    word: str
    here: str


class Context:
    """The names of a pattern, filled line by line; ``base`` is the offset of the line at hand."""

    def __init__(self) -> None:
        self.base = 0
        self.terms: Terms = TERMS["UK"]
        self.terms_span: Span | None = None
        self.sizes: tuple[str, ...] = ("one size",)
        self.named_sizes = False
        self.measures: dict[str, Measure] = {}
        self.yarns: dict[str, Yarn] = {}
        self.hooks: dict[str, Hook] = {}
        self.gauges: dict[str, Gauge] = {}
        self.counts: dict[str, Count] = {}
        self.owns: dict[str, OwnStitch] = {}
        self.parts: dict[str, Span] = {}
        self.openings: dict[str, Span] = {}
        self.bad: set[str] = set()
        """Names whose own line was not understood: using one is no second fault."""
        self.unread: set[str] = set()
        """Words of lines that were not understood: one of them may be the name of an opening."""
        self.used: set[tuple[str, str]] = set()
        self.allowance: Fraction | None = None
        self.kit: Kit | None = None
        self.pace: Pace | None = None
        self.once: dict[str, Span] = {}
        """Lines of which there is one only, each with where it stands."""
        self.variable = ""
        self.mended: dict[int, object] = {}
        """Lines that were not understood, by where they begin, as they were probably meant."""
        self.foreigners: dict[Span, Foreign] = {}
        self.moved: tuple[Any, ...] = ()
        """What was mended in the line at hand, the last first: its places are not the file's."""
        self.in_rounds = False
        """Whether the part at hand is worked in rounds."""
        self.tries = MOST_TRIES
        self.brought: dict[tuple[str, str], str] = {}
        """What names came from another file, each with that file."""
        self.unfit: dict[tuple[str, str], Span] = {}
        """Of those, the ones with a value per size for other sizes than these, each with its
        ``use`` line."""
        self.lost = False
        """Whether a file could not be used: what it would have given is not known."""
        self.sizes_known = True
        """False where the line of the sizes was not understood: how many there are is not known."""
        self.out: list[Diagnostic] = []

    def span(self, node: Any) -> Span:
        """Where a node or word of the line at hand stands in the file."""
        if hasattr(node, "start_pos"):
            start, end = node.start_pos, node.end_pos
        else:
            start, end = node.start, node.end
        for slip in self.moved:
            start, end = slip.before(start), slip.before(end)
        return Span(self.base + start, self.base + end)

    def say(self, diagnostic: Diagnostic) -> None:
        """Add a message."""
        self.out.append(diagnostic)

    def foreign(self, span: Span, word: str, here: str) -> None:
        """Note a word of the other country's terms, and what it is in these (or ``""``)."""
        self.foreigners.setdefault(span, Foreign(span, word, here))

    def unknowable(self, what: str) -> bool:
        """Whether a name that nothing gives may stand in a file that could not be used."""
        return self.lost and what in SHARED_NAMES

    def use(self, what: str, name: str) -> None:
        """Note that a name is used."""
        self.used.add((what, name))


def nearest(word: str, known: Iterable[str], least: float = 0.6) -> str | None:
    """The known word that a slip of the finger would turn into this one, or None."""
    from difflib import get_close_matches

    found = get_close_matches(word, list(known), n=1, cutoff=least)
    return found[0] if found else None
