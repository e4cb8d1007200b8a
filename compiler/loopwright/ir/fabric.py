"""The fabric: one size of a pattern as worked, row by row, in runs.

``Made`` is a stitch as the maker makes it and says what it goes into, relative to the stitch
before it, so that ten stitches into ten places are ten equal atoms:

    2 tr in each of next 3 sts   =   (tr, step 1), (tr, step 0)   three times

``Place`` is what a row leaves for the next one. Positions on an edge count from 0 in the order in
which the row *meets* the edge (flat rows meet it turned round).
"""

from __future__ import annotations

from loopwright.frozen import Frozen, NamedTuple
from loopwright.ir.items import Kind
from loopwright.ir.runs import Runs
from loopwright.source import Span
from loopwright.trade.stitches import Stitch


class Place(NamedTuple):
    """A place on an edge. ``what`` is ``st`` (a stitch; ``stitch`` None for one whose kind is
    not known after a fault), ``sp`` (a space of ``chains`` chains), ``ch`` (a chain of the
    start), ``end`` (a row end, as high as ``stitch``) or ``hook`` (the chains skipped from the
    hook at the start, which may be worked into as a space and are not owed). A stitch with
    ``chains`` is a chain that counts as that stitch. ``own`` names the designer's own stitch that
    it is part of, ``lead`` marks the first stitch of one."""

    what: str
    stitch: Stitch | None = None
    chains: int = 0
    yarn: str = ""
    own: str = ""
    lead: bool = False


class Made(NamedTuple):
    """One thing made (or a chain run).

    ``what``: ``st`` a stitch; ``as`` a chain that counts as a stitch; ``skip as`` skipped
    starting chains that count; ``ch`` loose chains, which leave a space; ``open`` the chains of
    an opening, a space too; ``turn`` a turning chain that does not count; ``join``; ``picot``;
    ``hook sp`` chains skipped from the hook within the work, which leave a space too; ``hook ch``
    three or more skipped from the hook on the starting chain; ``join
    sp`` a join with a stitch, which closes a space of ``chains`` chains.

    ``into`` is what it goes into: ``st``, ``sp`` (``chain`` tells which chain, 0 for the space),
    ``ch``, ``end``, ``ring``, ``gap`` (before the place) or ``""`` for nothing; ``own`` is a
    chain made in this row, ``deep`` a place of an earlier row, ``left`` a stitch left unworked
    earlier, none of which is on the edge met. Positions past the end of the edge met are the
    other side of the starting chain (`other side`: backwards from its last chain but one) or the
    round's own first stitches (`run on`). ``post`` when it
    goes around it. ``step`` is the position of its first place less that of the last place used
    before it in the row (which is -1 at the start of a row); ``also`` the further places of a
    decrease, relative to the first. With ``into`` not on the edge met, ``step`` is 0 and moves
    nothing.

    ``item`` is the index in ``WorkedRow.spans`` of the text it was written as. ``begins`` names the
    designer's own stitches, one within another, whose first thing it is.
    """

    what: str
    stitch: Stitch | None = None
    chains: int = 0
    into: str = ""
    step: int = 0
    also: tuple[int, ...] = ()
    chain: int = 0
    post: bool = False
    loop: str = ""
    yarn: str = ""
    own: str = ""
    lead: bool = False
    item: int = 0
    opening: str = ""
    begins: tuple[str, ...] = ()


class Fact(NamedTuple):
    """Something that went wrong at the hook: its kind (the code that words it), the text it
    happened at, the part and the row, and the numbers of it."""

    kind: str
    span: Span
    part: str
    row: str
    values: tuple[tuple[str, object], ...]

    def get(self, key: str) -> object:
        """One of its values, or None."""
        for name, value in self.values:
            if name == key:
                return value
        return None


class WorkedRow(Frozen):
    """A row as worked once.

    ``line`` is the index of its ``Row`` in the part's lines; ``number`` its row number (0 where
    it has none); ``below`` the edge as this row meets it, ``edge`` the one it leaves, in the
    order made. ``turned`` tells whether the row goes in the opposite direction to the row below,
    ``wrong_side`` whether the wrong side faces the maker. ``shift`` is how many places a
    ``move to`` passed over (``below`` is already turned so that the new first place comes
    first). ``spans`` are the texts that ``Made.item`` points into. ``repeats`` tells how often
    each bracket (by its span) was worked, ``spreads`` for each ``evenly`` the runs of (stitches
    in a place, places) in order. ``last_twice`` is the text of what goes into the last place,
    named so, after it was worked into already. ``left`` are the
    stretches of the edge met, from a position to before another, that were left unworked in words
    and wait until they are named.
    """

    line: int
    label: str
    number: int
    is_round: bool
    made: Runs[Made]
    below: Runs[Place]
    edge: Runs[Place]
    counts: tuple[tuple[Kind, int], ...]
    turned: bool
    wrong_side: bool
    shift: int = 0
    on_ring: bool = False
    spans: tuple[Span, ...] = ()
    repeats: tuple[tuple[Span, int], ...] = ()
    spreads: tuple[tuple[Span, Runs[int]], ...] = ()
    last_twice: Span | None = None
    left: tuple[tuple[int, int], ...] = ()


class LineResult(Frozen):
    """What a written line came to in one size: the count of its last row, how many rows it
    worked, and the number of rows in the part before and after it. ``stated`` are the counts
    stated for it, with values."""

    line: int
    label: str
    counts: tuple[tuple[Kind, int], ...]
    stated: tuple[tuple[Kind, int], ...] | None
    worked: int
    rows_after: int


class OpeningMade(Frozen):
    """A named opening: the stitches it passes over and the chains above them."""

    name: str
    under: Runs[Place]
    chains: int
    span: Span


class TakenUp(NamedTuple):
    """Stitches of a part's edge (``what``, as in ``pattern.Edge``) that another begins on: ``n`` of
    the ``have`` that there are, after the first ``first``."""

    span: Span
    part: str
    what: str
    first: int
    n: int
    have: int


class WorkedPart(Frozen):
    """A part as worked. ``rows`` holds stretches of rows with how many times each stretch is
    worked; ``start`` is the edge it began with (``from_chain`` where that was a chain), ``taken``
    what that was of parts before it."""

    name: str
    start: Runs[Place]
    from_chain: bool
    from_ring: bool
    rows: tuple[tuple[tuple[WorkedRow, ...], int], ...]
    lines: tuple[LineResult, ...]
    last: Runs[Place]
    row_count: int
    row_ends: Runs[Place]
    worked_start: Runs[Place]
    openings: tuple[OpeningMade, ...] = ()
    unworked: Runs[Place] = Runs(())
    taken: tuple[TakenUp, ...] = ()


class Fabric(Frozen):
    """One size of a pattern as worked, with the facts of what went wrong."""

    size: int
    parts: tuple[WorkedPart, ...]
    facts: tuple[Fact, ...]
    stitches: int
    rows: int
