"""What a chart says in words: what the part begins on, and what the drawing leaves out."""

from __future__ import annotations

from collections.abc import Container, Iterator, Sequence

from loopwright.ir.fabric import WorkedPart
from loopwright.ir.pattern import Edge, Part, Start, Yarn
from loopwright.render.chart.choose import Selection
from loopwright.render.chart.cutting import LeftOut
from loopwright.render.chart.values import Words
from loopwright.render.speaker import phrase, said, said_many

_EDGES = {
    "last": (phrase("the last row of the {part}"), phrase("the last row of the part itself")),
    "last round": (
        phrase("the last round of the {part}"),
        phrase("the last round of the part itself"),
    ),
    "start": (phrase("the start of the {part}"), phrase("the start of the part itself")),
    "row ends": (phrase("the row ends of the {part}"), phrase("the row ends of the part itself")),
    "other row ends": (
        phrase("the other row ends of the {part}"),
        phrase("the other row ends of the part itself"),
    ),
    "all round": (phrase("all edges of the {part}"), phrase("all edges of the part itself")),
    "unworked": (
        phrase("the unworked stitches of the {part}"),
        phrase("the unworked stitches of the part itself"),
    ),
}
# In a part of rows, and in one of rounds.
_SHOWN = (
    (phrase(", row {first}"), phrase(", rows {first} to {last}")),
    (phrase(", round {first}"), phrase(", rounds {first} to {last}")),
)
_INTO = (
    phrase("The first row shown is worked into row {n}."),
    phrase("The first round shown is worked into round {n}."),
)
_TIMES = (
    phrase("Rows {first} to {last} are {n} rows worked {times} times, {drawn}."),
    phrase("Rounds {first} to {last} are {n} rounds worked {times} times, {drawn}."),
)
_ONE_TIMES = (
    phrase("Rows {first} to {last} are one row worked {times} times, {drawn}."),
    phrase("Rounds {first} to {last} are one round worked {times} times, {drawn}."),
)
_AND_MORE = (
    phrase("Then they are worked once more as far as row {last}, which is not drawn again."),
    phrase("Then they are worked once more as far as round {last}, which is not drawn again."),
)
_MISSING = (
    (
        phrase(
            "Row {first} is not drawn: a chart holds {most} symbols, and {widest} in a row. The "
            "text equivalent tells of them."
        ),
        phrase(
            "Rows {first} to {last} are not drawn: a chart holds {most} symbols, and {widest} in a "
            "row. The text equivalent tells of them."
        ),
    ),
    (
        phrase(
            "Round {first} is not drawn: a chart holds {most} symbols, and {widest} in a row. The "
            "text equivalent tells of them."
        ),
        phrase(
            "Rounds {first} to {last} are not drawn: a chart holds {most} symbols, and {widest} in "
            "a row. The text equivalent tells of them."
        ),
    ),
)

_OPEN_ONCE = phrase(
    "Rounds {first} to {last} are drawn in part, {drawn} of the {times} repeats of each; they "
    "go on at the zigzag line. The repeat under the arc is worked as often in each of these "
    "rounds as it says."
)
_OPEN_TWICE = phrase(
    "Rounds {first} to {last} are drawn in part, {drawn} of the {times} repeats of each; they "
    "go on from one zigzag line to the other. The repeat under the arc is worked as often in each "
    "of these rounds as it says."
)


def rows_words(part: Part, rows: tuple[int, int] | None) -> str:
    """Which rows are shown, for the end of a title; nothing where all are."""
    if rows is None:
        return ""
    first, last = max(rows[0], 1), rows[1]
    shown = _SHOWN[part.manner != "flat"][first != last]
    return said(shown, first=f"{first:,}", last=f"{last:,}")


def yarn_words(yarn: Yarn) -> str:
    """What the designer says of a yarn: ``DK wool, slate``."""
    return ", ".join(one for one in (yarn.description, yarn.colour) if one)


def start_words(
    part: Part,
    worked: WorkedPart,
    rows: tuple[int, int] | None,
    others: Sequence[WorkedPart] = (),
) -> Words:
    """What the part begins on, or what the first row shown is worked into. ``others`` are the parts
    on whose edges it may begin."""
    if rows is not None and rows[0] > max(worked.rows[0][0][0].number, 1):
        return (said(_INTO[part.manner != "flat"], n=f"{rows[0] - 1:,}"),)
    return (said("Begin with {start}.", start=_start(part.start, worked, others)),)


def _start(start: Start, worked: WorkedPart, others: Sequence[WorkedPart]) -> Words:
    if start.what == "magic ring":
        return (said("a magic ring"),)
    length = f"{worked.start.length:,}"
    if not start.then and start.what == "chain":
        if start.ring:
            return (said("a chain of {n}, joined into a ring", n=length),)
        return (said("a chain of {n}", n=length),)
    if not start.then and start.what == "foundation" and start.stitch:
        return (said("{n} foundation {stitch}", n=length, stitch=start.stitch),)
    rounds = {one.name for one in others if one.rows and one.rows[-1][0][-1].is_round}
    edges = _begun_on(start, rounds)
    for more in start.then:
        edges = said("{edges}, and then {edge}", edges=edges, edge=_begun_on(more, rounds))
    places = said_many("{n} place", "{n} places", worked.start.length, n=length)
    return (said("{edges}: {places}", edges=edges, places=places),)


def _begun_on(start: Start, rounds: Container[str]) -> str:
    """One of the things, one after another, that a part begins on."""
    if start.what == "chain":
        return said("a chain")
    if start.what == "foundation":
        return said("foundation stitches")
    names = [_edge(edge, rounds) for edge in start.edges]
    edges = names[0] if names else ""
    for name in names[1:]:
        edges = said("{edges} and {edge}", edges=edges, edge=name)
    return edges


def _edge(edge: Edge, rounds: Container[str]) -> str:
    """What an edge is called; ``rounds`` are the parts whose last row is a round."""
    if edge.what == "opening":
        return said("the opening {name}", name=edge.part or edge.what)
    of, own = _EDGES["last round" if edge.what == "last" and edge.part in rounds else edge.what]
    return said(of, part=edge.part) if edge.part else said(own)


def notes_of(selection: Selection, begins_within: bool = False) -> tuple[Words, ...]:
    """Everything that the drawing leaves out, and where rounds begin that do so ``within`` it."""
    within = said("Rounds begin within the chart and go on at its other end.")
    return tuple(
        (note,)
        for note in (
            *([within] if begins_within else []),
            *_overs(selection),
            *_strips(selection),
            *_wedge(selection),
            *_sides(selection),
            *_unlike(selection),
            *_rows(selection),
        )
    )


def _overs(selection: Selection) -> Iterator[str]:
    for over in selection.over:
        first = selection.rows[over.first].number
        worked = selection.rows[over.first].worked
        drawn = (over.last - over.first + 1) // over.rows
        last = first + over.rows * over.times - 1
        words = said(
            (_ONE_TIMES if over.rows == 1 else _TIMES)[worked.is_round],
            first=f"{first:,}",
            last=f"{last:,}",
            n=over.rows,
            times=f"{over.times:,}",
            drawn=said_many("drawn {n} time", "drawn {n} times", drawn, n=drawn),
        )
        yield words
        if over.more:
            yield said(_AND_MORE[worked.is_round], last=f"{first + over.more - 1:,}")


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
        if selection.clean:
            some = phrase(
                "Every row is drawn with a few of its repeats; the zigzag line stands for the "
                "others. The repeat of {sts} in the bracket is worked as often as it says."
            )
        else:
            some = phrase(
                "Every row is drawn with a few of its repeats only. The repeat of {sts} in the "
                "bracket is worked as often as it says."
            )
        sts = said_many("{n} stitch", "{n} stitches", repeat.sts, n=repeat.sts)
        yield said(some, sts=sts)
        return
    if told:
        yield said("A strip of every row is left out of the drawing, at the zigzag line:")
    for first, last, strip in told:
        rows = said("row {first}", first=first)
        if first != last:
            rows = said("rows {first} to {last}", first=first, last=last)
        yield _left_out(rows, strip)


def _wedge(selection: Selection) -> Iterator[str]:
    """The part of large rounds that is drawn."""
    wedge = selection.wedge
    if wedge is None:
        return
    first, last = (selection.rows[at].number for at in (wedge.first, -1))
    yield said(
        _OPEN_TWICE if wedge.two_ends else _OPEN_ONCE,
        first=f"{first:,}",
        last=f"{last:,}",
        drawn=f"{wedge.drawn:,}",
        times=f"{wedge.times:,}",
    )


def _sides(selection: Selection) -> Iterator[str]:
    """What is left out along straight sides."""
    if selection.sides:
        yield said(
            "The long sides are drawn with a few of their repeats; the zigzag lines stand for the "
            "others. The repeat in a bracket is worked as often along that side as it says."
        )


# In a part of rows, and in one of rounds.
_UNLIKE = (
    phrase("The rows are drawn whole: they have no repeats in common that could be left out."),
    phrase("The rounds are drawn whole: they have no repeats in common that could be left out."),
)


def _unlike(selection: Selection) -> Iterator[str]:
    """Why so much is drawn."""
    if selection.unlike:
        yield said(_UNLIKE[any(drawn.worked.is_round for drawn in selection.rows)])


def _left_out(rows: str, strip: LeftOut) -> str:
    """How much of some rows is not drawn."""
    things = f"{strip.things:,}"
    if strip.unit < 2:
        return said("{rows}: {n} stitches and chains are not drawn.", rows=rows, n=things)
    return said(
        "{rows}: {n} stitches and chains are not drawn, which are {times} repeats of the {unit} "
        "before the line.",
        rows=rows,
        n=things,
        times=f"{strip.times:,}",
        unit=strip.unit,
    )


def _rows(selection: Selection) -> Iterator[str]:
    if selection.first_missing:
        first, last = selection.first_missing, selection.last_missing
        rounds = any(drawn.worked.is_round for drawn in selection.rows)
        yield said(
            _MISSING[rounds][first != last],
            first=f"{first:,}",
            last=f"{last:,}",
            most=f"{selection.most:,}",
            widest=f"{selection.widest:,}",
        )


def _same(one: LeftOut, two: LeftOut) -> bool:
    return (one.things, one.unit, one.times) == (two.things, two.unit, two.times)
