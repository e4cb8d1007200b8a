"""What changed between two editions of a pattern, as plain values.

Sizes are named, never numbered, because the two editions need not have the same.
"""

from __future__ import annotations

from loopwright.frozen import Frozen, NamedTuple
from loopwright.ir.pattern import Text, Yarn

WORK, COUNT, TIMES, ADDED, REMOVED = "work", "count", "times", "added", "removed"
RENUMBERED, WORDING = "renumbered", "wording"
START = -1
"""The line number of a part's start."""

Place = tuple[int, int]
"""A line: the index of its part and its own among the part's lines (``START`` for the start)."""


class Counted(Frozen):
    """What a line comes to in a size: its stitches, and the rows that it works, before and now.
    None where the size or the line is not there."""

    size: str
    stitches: tuple[int | None, int | None]
    rows: tuple[int | None, int | None]


class LineChange(Frozen):
    """A line that changed. ``kind`` is

    ``work`` other stitches or other places; ``count`` the same work under another count;
    ``times`` the same rows, more or fewer of them; ``added``, ``removed``; ``renumbered`` the same
    row under another number; ``wording`` the same work in other words, or a note.

    ``label`` is the line's name, as the designer calls it now (or did, where it is taken out).
    ``sizes`` are those in which it changed, ``old`` and ``new`` where the line stands in each
    edition (None where those sizes do not have it), ``counts`` what it comes to in those sizes;
    ``in_rounds`` whether what it works are rounds.
    """

    part: str
    label: str
    kind: str
    sizes: tuple[str, ...]
    old: Place | None
    new: Place | None
    counts: tuple[Counted, ...] = ()
    in_rounds: bool = False


class Square(NamedTuple):
    """A gauge: so many stitches, and rows or rounds where it says, to a length in both measures."""

    stitches: str
    rows: str
    in_rounds: bool
    over: str


class Taken(NamedTuple):
    """The yarn that a size takes: balls, and grams, metres and yards from the least to the most;
    None where it is not known."""

    balls: int | None
    grams: tuple[int, int] | None = None
    metres: tuple[int, int] | None = None
    yards: tuple[int, int] | None = None


Fact = str | Yarn | Square | Taken | tuple[Text, ...]
"""Something beside the rows, as it is in a size; empty where it is not there."""


class FactChange(Frozen):
    """Something beside the rows that changed: ``what`` is ``size``, ``part``, ``yarn``, ``hook``,
    ``gauge``, ``measure``, ``amount`` (of a yarn), ``finished`` (a length of a part, ``of``) or
    ``text`` (wording), ``name`` which one. ``was`` and ``now`` are empty where it was not or is no
    more; ``sizes`` are those in which it changed so, empty where sizes do not matter."""

    what: str
    name: str
    sizes: tuple[str, ...]
    was: Fact
    now: Fact
    of: str = ""


class Changes(Frozen):
    """All that changed, in the order of the new pattern. ``every`` are the sizes that both
    editions have; ``faults`` is how many errors the old one had."""

    old_title: str
    title: str
    old_version: str
    version: str
    every: tuple[str, ...]
    lines: tuple[LineChange, ...]
    facts: tuple[FactChange, ...]
    faults: int

    @property
    def none(self) -> bool:
        """Whether nothing at all changed."""
        return not self.lines and not self.facts
