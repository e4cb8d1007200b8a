"""Starts along several edges of one part, which lie on that part in an order of their own.

Row ends lead from the first row up to the last, the other row ends from the last row down to the
first; the start lies at the bottom and the last row at the top. Where one edge ends at the top and
the next begins at the bottom, nobody can go on from the one to the other.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import pairwise

from loopwright.checks.told import Told
from loopwright.diagnostics import ADVICE, Diagnostic, rule
from loopwright.ir.fabric import Fabric, Fact
from loopwright.ir.pattern import Edge, Part, Pattern, Row, Seam

LEADS = {
    "row ends": ("first", "last"),
    "other row ends": ("last", "first"),
    "start": ("first", "first"),
    "last": ("last", "last"),
}
"""At which row an edge begins and at which it ends."""

ENDS = ("row ends", "other row ends")

_FROM = {
    "row ends": "row ends of `{part}` lead to its last row",
    "other row ends": "other row ends of `{part}` lead to its first row",
    "start": "start of `{part}` lies at its first row",
    "last": "last row of `{part}` lies at its top",
}
_TO = {
    "row ends": "row ends begin at its first row",
    "other row ends": "other row ends begin at its last row",
    "start": "start lies at its first row",
    "last": "last row lies at its top",
}


def starts(pattern: Pattern, fabrics: tuple[Fabric, ...]) -> tuple[tuple[int, Fact], ...]:
    """The first such place of each start, in every size that was worked."""
    parts = {part.name: part for part in pattern.parts}
    found = {part.name: next(_apart(part, parts), None) for part in pattern.parts}
    return tuple(
        (fabric.size, fact)
        for fabric in fabrics
        for worked in fabric.parts
        if (fact := found[worked.name]) is not None
    )


def _apart(part: Part, parts: Mapping[str, Part]) -> Iterator[Fact]:
    """Where the edges that a part begins on do not go on from one another."""
    for one, two in pairwise((part.start, *part.start.then)):
        if not len(one.edges) == len(two.edges) == 1:
            continue
        first, second = one.edges[0], two.edges[0]
        if _is_apart(first, second) and _in_rows(parts.get(first.part)):
            values = (("one", first), ("two", second))
            yield Fact("edges-apart", second.span, part.name, "", values)


def _is_apart(one: Edge, two: Edge) -> bool:
    """Whether of two whole edges of one part, row ends among them, the second begins elsewhere."""
    if one.part != two.part or not {one.what, two.what} <= LEADS.keys():
        return False
    sides = [edge for edge in (one, two) if edge.what in ENDS]
    if not sides or any(edge.n is not None or edge.from_nth for edge in sides):
        return False
    return LEADS[one.what][1] != LEADS[two.what][0]


def _in_rows(part: Part | None) -> bool:
    """Whether a part is a flat piece, which no seam closes."""
    if part is None or part.manner != "flat":
        return False
    rounds = any(isinstance(line, Row) and line.is_round for line in part.lines)
    return not rounds and not any(isinstance(line, Seam) for line in part.lines)


@rule("edges-apart", "placing", ADVICE)
def edges_apart(told: Told) -> Diagnostic:
    """A start goes along one edge of a part and then along another that does not begin there.

    `row ends` lead from the first row of a part to its last and `other row ends` back again, so that
    other row ends, start and row ends follow on from one another around a piece, and so do row
    ends, last row and other row ends. In another order the maker would have to cut the yarn.

    Breaks:
        pattern: Tideline Swatch
        terms: UK
        part swatch: flat
        start: ch 11
        row 1: dc in 2nd ch from hook, dc in each ch across = 10 sts
        row 2: ch 1, dc in each st across = 10 sts
        part edging: flat
        start: along row ends of swatch then along start of swatch
        row 1: ch 1, dc in each st across = 12 sts
    Keeps:
        pattern: Tideline Swatch
        terms: UK
        part swatch: flat
        start: ch 11
        row 1: dc in 2nd ch from hook, dc in each ch across = 10 sts
        row 2: ch 1, dc in each st across = 10 sts
        part edging: flat
        start: along other row ends of swatch then along start of swatch
        row 1: ch 1, dc in each st across = 12 sts
    """
    one, two = told.fact.get("one"), told.fact.get("two")
    assert isinstance(one, Edge)
    assert isinstance(two, Edge)
    text = (
        f"The {_FROM[one.what].format(part=one.part)}, and its {_TO[two.what]}: the work cannot go"
        " on from the one to the other."
    )
    wrong = one if one.what in ENDS else two
    right = ENDS[wrong.what == ENDS[0]]
    return told.say(
        text,
        f"Write `along {right}` for `along {wrong.what}`: row ends lead from the first row to the"
        " last, the other row ends from the last to the first.",
    )
