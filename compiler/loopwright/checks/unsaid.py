"""What nothing in the counting shows, and is hardly ever meant: it is looked for in the fabric.

A row that begins with nothing to stand up from, a tall stitch without a turning chain or a stitch
in the very chain that the hook comes out of; and a row whose last place, named as such, was worked
into before.
"""

from __future__ import annotations

from collections.abc import Iterator

from loopwright.ir.fabric import Fabric, Fact, Made, WorkedPart, WorkedRow
from loopwright.ir.pattern import Part, Pattern
from loopwright.trade.turning import TURNING

FROM = 2
"""Chains of the usual turning chain from which it is missed: a row of US sc (UK dc) lies well
without its one, and many makers leave it out (common practice without a source)."""

CHAINS = ("ch", "turn", "as")


def unsaid(pattern: Pattern, fabrics: tuple[Fabric, ...]) -> tuple[tuple[int, Fact], ...]:
    """What there is of this in each part and size."""
    parts = {part.name: part for part in pattern.parts}
    return tuple(
        (fabric.size, fact)
        for fabric in fabrics
        for worked in fabric.parts
        for fact in (*_beginning(parts[worked.name], worked), *_ending(worked))
    )


def _beginning(part: Part, worked: WorkedPart) -> Iterator[Fact]:
    """The first row of a part that begins so, and how many other lines do."""
    rows = list(_without(part, worked))
    if rows:
        row, made, how = rows[0]
        others = len({one.line for one, _, _ in rows} - {row.line})
        values = (("stitch", made.stitch), ("how", how), ("others", others))
        yield Fact("no-turning-chain", row.spans[made.item], worked.name, row.label, values)


def _ending(worked: WorkedPart) -> Iterator[Fact]:
    """The first row of each line that goes into its last place twice."""
    told = set()
    for rows, _ in worked.rows:
        for row in rows:
            if row.last_twice is not None and row.line not in told:
                told.add(row.line)
                places = row.below.run_at(0)[0].what
                yield Fact(
                    "last-place-twice",
                    row.last_twice,
                    worked.name,
                    row.label,
                    (("places", places),),
                )


def _without(part: Part, worked: WorkedPart) -> Iterator[tuple[WorkedRow, Made, str]]:
    """Rows that begin so, with what they begin with."""
    chained = False
    first = True
    for rows, _ in worked.rows:
        for row in rows:
            if row.made.length:
                made = row.made.run_at(0)[0]
                how = _how(part, row, made, first=first)
                if how and not chained:
                    yield row, made, how
                chained = row.made.run_at(row.made.length - 1)[0].what in CHAINS
            first = False


def _how(part: Part, row: WorkedRow, made: Made, *, first: bool) -> str:
    """What a row lacks at its beginning; nothing where it is as it should be."""
    if made.what != "st" or made.stitch is None or made.begins or made.own:
        return ""
    if first and made.into == "ch" and part.start.what == "chain" and not part.start.ring:
        return "hook" if made.step == 1 else ""
    if row.is_round and part.manner == "spiral":
        return ""
    usual = TURNING.get(made.stitch.basic)
    return "row" if usual is not None and usual.chains >= FROM else ""
