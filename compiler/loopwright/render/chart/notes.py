"""What a chart says in words: what the part begins on, and what the drawing leaves out."""

from __future__ import annotations

from collections.abc import Iterator

from loopwright.ir.fabric import WorkedPart
from loopwright.ir.pattern import Part, Start, Yarn
from loopwright.render.chart.choose import Selection
from loopwright.render.chart.leave_out import LeftOut
from loopwright.render.chart.values import Words

_EDGES = {
    "last": "the last row",
    "start": "the start",
    "row ends": "the row ends",
    "other row ends": "the other row ends",
    "all round": "all edges",
    "unworked": "the unworked stitches",
}


def rows_words(part: Part, rows: tuple[int, int] | None) -> str:
    """Which rows are shown, for the end of a title; nothing where all are."""
    if rows is None:
        return ""
    noun = "row" if part.manner == "flat" else "round"
    first, last = max(rows[0], 1), rows[1]
    return f", {noun} {first:,}" if first == last else f", {noun}s {first:,} to {last:,}"


def yarn_words(yarn: Yarn) -> str:
    """What the designer says of a yarn: ``DK wool, slate``."""
    return ", ".join(one for one in (yarn.description, yarn.colour) if one)


def start_words(part: Part, worked: WorkedPart, rows: tuple[int, int] | None) -> Words:
    """What the part begins on, or what the first row shown is worked into."""
    if rows is not None and rows[0] > max(worked.rows[0][0][0].number, 1):
        noun = "row" if part.manner == "flat" else "round"
        return (f"The first {noun} shown is worked into {noun} {rows[0] - 1:,}.",)
    return ("Begin with ", *_start(part.start, worked), ".")


def _start(start: Start, worked: WorkedPart) -> Words:
    if start.what == "magic ring":
        return ("a magic ring",)
    if start.what == "chain":
        chains = f"a chain of {worked.start.length:,}"
        return (f"{chains}, joined into a ring",) if start.ring else (chains,)
    if start.what == "foundation" and start.stitch:
        return (f"{worked.start.length:,} foundation ", start.stitch)
    names = [
        f"the opening {edge.part or edge.what}"
        if edge.what == "opening"
        else f"{_EDGES.get(edge.what, edge.what)} of the {edge.part or 'part itself'}"
        for edge in start.edges
    ]
    places = worked.start.length
    return (f"{' and '.join(names)}: {places:,} {'place' if places == 1 else 'places'}",)


def notes_of(selection: Selection) -> tuple[Words, ...]:
    """Everything that the drawing leaves out."""
    return tuple(
        (note,)
        for note in (*_overs(selection), *_strips(selection), *_wedge(selection), *_rows(selection))
    )


def _overs(selection: Selection) -> Iterator[str]:
    for over in selection.over:
        first = selection.rows[over.first].number
        worked = selection.rows[over.first].worked
        noun = "round" if worked.is_round else "row"
        drawn = (over.last - over.first + 1) // over.rows
        last = first + over.rows * over.times - 1
        what = f"one {noun}" if over.rows == 1 else f"{over.rows} {noun}s"
        yield (
            f"{noun.capitalize()}s {first:,} to {last:,} are {what} worked {over.times:,} "
            f"times, drawn {drawn} {'time' if drawn == 1 else 'times'}."
        )


def _strips(selection: Selection) -> Iterator[str]:
    """The strip left out of every row; rows that leave out the same are told together."""
    told: list[tuple[int, int, LeftOut]] = []
    for drawn, strip in zip(selection.rows, selection.strips, strict=True):
        if strip is None or not strip.things:
            continue
        same = told and _same(told[-1][2], strip) and told[-1][1] == drawn.number - 1
        if same:
            told[-1] = (told[-1][0], drawn.number, strip)
        else:
            told.append((drawn.number, drawn.number, strip))
    if told and selection.repeat:
        repeat = selection.repeat
        sts = "1 stitch" if repeat.sts == 1 else f"{repeat.sts} stitches"
        yield (
            f"Every row is drawn with a few of its repeats"
            f"{'; the zigzag line stands for the others' if selection.clean else ' only'}. "
            f"The repeat of {sts} in the bracket is worked as often as it says."
        )
        return
    if told:
        yield "A strip of every row is left out of the drawing, at the zigzag line:"
    for first, last, strip in told:
        rows = f"row {first}" if first == last else f"rows {first} to {last}"
        yield f"{rows}: {strip.things:,} stitches and chains are not drawn{_again(strip)}."


def _wedge(selection: Selection) -> Iterator[str]:
    """The part of large rounds that is drawn."""
    wedge = selection.wedge
    if wedge is None:
        return
    first, last = (selection.rows[at].number for at in (wedge.first, -1))
    yield (
        f"Rounds {first:,} to {last:,} are drawn in part, {wedge.drawn:,} of the {wedge.times:,} "
        f"repeats of each; they go on at the zigzag line. The repeat under the arc is worked as "
        f"often in each of these rounds as it says."
    )


def _again(strip: LeftOut) -> str:
    if strip.unit < 2:
        return ""
    return f", which are {strip.times:,} repeats of the {strip.unit} before the line"


def _rows(selection: Selection) -> Iterator[str]:
    if selection.first_missing:
        first, last = selection.first_missing, selection.last_missing
        noun = "Round" if any(drawn.worked.is_round for drawn in selection.rows) else "Row"
        rows = f"{noun} {first} is" if first == last else f"{noun}s {first:,} to {last:,} are"
        yield (
            f"{rows} not drawn: a chart holds {selection.most:,} symbols, "
            f"and {selection.widest:,} in a row. The text equivalent tells of them."
        )


def _same(one: LeftOut, two: LeftOut) -> bool:
    return (one.things, one.unit, one.times) == (two.things, two.unit, two.times)
