"""Which side faces: a side is written down, and in some of the sizes another one comes to face.

Which side a row has facing follows from how many rows were turned before it, and that may differ by
size: `until 6 (7) cm` ends on the wrong side in one and on the right side in another.

    row 2: ch 1, dc in each st across
    repeat row 2: until 6 (7) cm
    next row (RS): ...                    row 7 in one size, row 8 in the other
"""

from __future__ import annotations

from collections.abc import Iterator

from loopwright.checks.told import Told, sizes_words
from loopwright.diagnostics import ADVICE, Diagnostic, rule
from loopwright.frozen import NamedTuple
from loopwright.ir.fabric import Fabric, Fact, WorkedPart, WorkedRow
from loopwright.ir.pattern import Part, Pattern, Row
from loopwright.source import Span

NAMES = {"RS": "right", "WS": "wrong"}


class _Written(NamedTuple):
    """A row with its side written down: of which part and where, what it is called in a size, and
    the part whose last row it goes along, if it begins so."""

    part: str
    span: Span
    row: str
    side: str
    along: str


def facing(pattern: Pattern, fabrics: tuple[Fabric, ...]) -> tuple[tuple[int, Fact], ...]:
    """The rows whose side faces in some sizes, and not in others."""
    found: dict[Span, list[tuple[int, _Written, bool]]] = {}
    sided = [
        part
        for part in pattern.parts
        if any(isinstance(line, Row) and line.side for line in part.lines)
    ]
    for fabric in fabrics if len(fabrics) > 1 and sided else ():
        worked = {one.name: one for one in fabric.parts}
        for part in sided:
            if part.name in worked:
                for one, faces in _sided(part, worked):
                    found.setdefault(one.span, []).append((fabric.size, one, faces == one.side))
    return tuple(fact for sizes in found.values() for fact in _facts(pattern, sizes))


def _facts(pattern: Pattern, sizes: list[tuple[int, _Written, bool]]) -> Iterator[tuple[int, Fact]]:
    # Where it faces in no size, all of them are alike, and it may be meant for another way round.
    agree = tuple(pattern.sizes[size] for size, _, faces in sizes if faces)
    for size, one, faces in sizes if agree else ():
        if not faces:
            values = (("side", one.side), ("along", one.along), ("agree", agree))
            yield size, Fact("side-differs", one.span, one.part, one.row, values)


def _sided(part: Part, worked: dict[str, WorkedPart]) -> Iterator[tuple[_Written, str]]:
    """Each row of a part with a side, and the side that comes to face there."""
    rows = worked[part.name].rows
    wrong = False
    told = set()
    for at, (stretch, times) in enumerate(rows):
        begun = wrong
        for nth, row in enumerate(stretch):
            line = part.lines[row.line]
            assert isinstance(line, Row)
            first = not (at or nth)
            wrong = _on_edge(part, worked) if first else wrong != _turned(row)
            if line.side and row.line not in told:
                told.add(row.line)
                along = part.start.edges[0].part if first and _along_last(part, worked) else ""
                if not first or along:
                    written = _Written(part.name, line.span, row.label, line.side, along)
                    yield written, "WS" if wrong else "RS"
                wrong = line.side == "WS"
        if times > 1:
            wrong = begun != (sum(map(_turned, stretch)) * times % 2 == 1)


def _along_last(part: Part, worked: dict[str, WorkedPart]) -> bool:
    """Whether a part begins along the last row of another, and of no more than that."""
    start = part.start
    last = len(start.edges) == 1 and not start.then and start.edges[0].what == "last"
    return last and start.edges[0].part in worked and bool(worked[start.edges[0].part].rows)


def _on_edge(part: Part, worked: dict[str, WorkedPart]) -> bool:
    """Whether the wrong side faces in a first row: along a last row, as it does in that."""
    if not _along_last(part, worked):
        return False
    rows = worked[part.start.edges[0].part].rows
    turned = sum(sum(map(_turned, stretch)) * times for stretch, times in rows)
    return rows[0][0][0].wrong_side != (turned % 2 == 1)


def _turned(row: WorkedRow) -> bool:
    """Whether the work was turned before a row; one worked backwards goes back without that."""
    crab = any(made.stitch is not None and made.stitch.crab for made in row.made.tally())
    return row.turned != crab


@rule("side-differs", "placing", ADVICE)
def side_differs(told: Told) -> Diagnostic:
    """A row is said to have one side facing, and in some sizes it has the other.

    Rows are turned, so which side faces goes by how many there are. Where a length, or a number of
    rows that differs by size, comes to an even number in one size and an odd one in another, what
    follows falls on opposite sides: a right-side row, a buttonhole or a pattern of front posts
    comes out on the wrong side of the work in some sizes.

    Breaks:
        pattern: Tideline Vest
        terms: UK
        sizes: small (large)
        tension plain: 10 sts and 10 rows to 10 cm in dc
        part body: flat, tension plain
        start: ch 41
        row 1 (RS): dc in 2nd ch from hook, dc in each ch across = 40 sts
        row 2: ch 1, dc in each st across
        repeat row 2: until 6 (7) cm
        part front: flat, tension plain
        start: along last row of body
        row 1 (RS): ch 1, 20 dc, leave the rest unworked = 20 sts
    Keeps:
        pattern: Tideline Vest
        terms: UK
        sizes: small (large)
        tension plain: 10 sts and 10 rows to 10 cm in dc
        part body: flat, tension plain
        start: ch 41
        row 1 (RS): dc in 2nd ch from hook, dc in each ch across = 40 sts
        row 2: ch 1, dc in each st across
        repeat row 2: until 7 (9) rows
        part front: flat, tension plain
        start: along last row of body
        row 1 (RS): ch 1, 20 dc, leave the rest unworked = 20 sts
    """
    side, along = str(told.fact.get("side")), told.fact.get("along")
    agree: tuple[str, ...] = told.fact.get("agree")  # type: ignore[assignment]
    own, other = NAMES[side], NAMES["WS" if side == "RS" else "RS"]
    here = f"in {sizes_words(told.sizes)} the {other} side faces, in {sizes_words(agree)} the {own}"
    text = f"This row is said to have the {own} side facing: {here} side."
    if along:
        text = (
            f"This row is said to have the {own} side facing, and goes along the last row of {along}"
            f" as that was made: {here} side."
        )
    return told.say(
        text,
        "Let there be an even number of rows before it in every size, or an odd one (`until 8 rows`,"
        " a count that is `even`), or leave the side out.",
    )
