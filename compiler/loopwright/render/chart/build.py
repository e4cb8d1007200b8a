"""From a part as worked to a chart: choose the rows, link them, lay them out, name every symbol."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from functools import cache
from math import copysign

from loopwright.frozen import Frozen, replace
from loopwright.ir.checked import Checked
from loopwright.ir.fabric import WorkedPart
from loopwright.ir.pattern import Part, Pattern
from loopwright.render.chart.both_ends import Ends, ends_of, together
from loopwright.render.chart.brackets import ASLANT, arc_middle
from loopwright.render.chart.choose import Selection, Wish
from loopwright.render.chart.clear import cleared
from loopwright.render.chart.deep import targets_of
from loopwright.render.chart.draw import row_symbols, start_symbols
from loopwright.render.chart.far import fars_of, left_by
from loopwright.render.chart.layout import Known, Laid, Shape, shape_of
from loopwright.render.chart.marks import brackets, breaks, changes, clear_of, ends, labelled, mark
from loopwright.render.chart.marks_sides import side_brackets, side_breaks
from loopwright.render.chart.notes import notes_of, rows_words, start_words, yarn_words
from loopwright.render.chart.stretches import stretches, windowed
from loopwright.render.chart.times import times_of
from loopwright.render.chart.values import (
    STEP,
    Bracket,
    Break,
    Chart,
    Far,
    Mark,
    Point,
    RowText,
    Symbol,
    Words,
)
from loopwright.render.chart.written import sided_lines
from loopwright.render.speaker import said

MARGIN = 1.3 * STEP
WORDS_WIDE = 122.0  # the room of a bracket's words


class Beside(Frozen):
    """What stands beside the symbols: the brackets of ``rows``, which are still to be moved clear
    of numbers, those of ``sides``, which are not, and the notes."""

    rows: tuple[Bracket, ...]
    sides: tuple[Bracket, ...]
    notes: tuple[Words, ...]


class Plan(Frozen):
    """A chart before its symbols are drawn: what was wished for, the part as worked, the shape in
    which it is laid out, and what the start says; ``ends`` where only both ends are drawn. It is
    laid out, and what stands ``beside`` it is told, once that is asked for."""

    checked: Checked
    part: Part
    worked: WorkedPart
    size: int
    wish: Wish
    shape: Shape
    yarns: tuple[str, ...]
    start: Words
    ends: Ends | None
    beside: Callable[[], Beside]

    @property
    def laid(self) -> Laid:
        """The part laid out."""
        return self.shape.laid()

    @property
    def brackets(self) -> tuple[Bracket, ...]:
        """All of its brackets, in the order in which they are drawn."""
        return self.beside().rows + self.beside().sides

    @property
    def notes(self) -> tuple[Words, ...]:
        """What is said of what is left out."""
        return self.beside().notes

    @property
    def selection(self) -> Selection | None:
        """What was chosen to be drawn; None where that is both ends."""
        return self.shape.selection if self.ends is None else None


def build(checked: Checked, name: str, size: int, wish: Wish, labels: Sequence[str] = ()) -> Chart:
    """The chart of one part in one size, with as much of it as is wished for; ``labels`` are the
    numbers beside the rows drawn, where they are those of several sizes."""
    return drawn(planned(checked, name, size, wish), labels)


def planned(checked: Checked, name: str, size: int, wish: Wish, known: Known | None = None) -> Plan:
    """The part as it will be laid out; ``known`` is what was laid out before, in any size."""
    pattern = checked.pattern
    worked = next(one for one in checked.fabrics[size].parts if one.name == name)
    part = next(one for one in pattern.parts if one.name == name)
    others = checked.fabrics[size].parts
    shape = shape_of(part, worked, wish, others, known)

    @cache
    def beside() -> Beside:
        laid, often = shape.laid(), times_of(checked, name, size)
        return Beside(
            tuple(brackets(laid, often)),
            tuple(side_brackets(laid, often)),
            notes_of(laid.selection, any(layer.gap for layer in laid.layers)),
        )

    return Plan(
        checked,
        part,
        worked,
        size,
        wish,
        shape,
        tuple(_yarns(pattern, shape.selection)),
        start_words(part, worked, wish.rows, others),
        ends_of(worked, sided_lines(part), wish, shape.selection, shape.skipped),
        beside,
    )


def drawn(plan: Plan, labels: Sequence[str] = ()) -> Chart:
    """The chart that was planned; ``labels`` as for ``build``."""
    pattern, part, size, wish = plan.checked.pattern, plan.part, plan.size, plan.wish
    title = _title(pattern, part.name, size, rows_words(part, wish.rows))
    texts = row_texts(plan)
    if plan.ends:
        windows = (replace(wish, rows=rows) for rows in plan.ends)
        first, last = (build(plan.checked, part.name, size, each) for each in windows)
        both = replace(together(first, last, plan.ends, wish.most), selection=None)
        return replace(both, title=title, start=plan.start, rows=texts)
    laid, yarns = plan.laid, list(plan.yarns)
    symbols = [*start_symbols(part, plan.worked, laid), *_of_rows(laid, yarns, texts)]
    beside = cleared(_numbers(laid, yarns, labels), symbols, len(yarns) > 1)
    around = [*(clear_of(one, beside) for one in plan.beside().rows), *plan.beside().sides]
    for layer in laid.layers[1 + laid.skipped :]:
        beside += changes(layer, laid, yarns)
    return _on_page(
        Chart(
            title=title,
            part=part.name,
            size=pattern.sizes[size],
            manner=laid.manner,
            width=0.0,
            height=0.0,
            symbols=tuple(symbols),
            marks=tuple(beside),
            brackets=tuple(around),
            breaks=(*breaks(laid), *side_breaks(laid)),
            rows=texts,
            yarns=tuple((chr(65 + i), yarn) for i, yarn in enumerate(yarns)),
            start=plan.start,
            notes=plan.notes,
            selection=laid.selection,
            described=tuple((yarn.name, yarn_words(yarn)) for yarn in pattern.yarns),
        )
    )


def _of_rows(laid: Laid, yarns: list[str], texts: Sequence[RowText]) -> Iterator[Symbol]:
    """The symbols of all rows drawn."""
    for index, layer in enumerate(laid.layers[1 + laid.skipped :], start=1):
        far = _far(texts, layer.linked.number if layer.linked else 0)
        yield from row_symbols(layer, index, laid, yarns, far)


def _numbers(laid: Laid, yarns: list[str], labels: Sequence[str]) -> list[Mark]:
    """The numbers beside the rows drawn, or their labels."""
    drawn = laid.layers[1 + laid.skipped :]
    beside = [mark(layer, laid, yarns) for layer in drawn if layer.spots]
    if not labels:
        return beside
    told = [label for label, layer in zip(labels, drawn, strict=True) if layer.spots]
    return list(map(labelled, beside, told))


def _title(pattern: Pattern, name: str, size: int, rows: str) -> str:
    told = {"title": pattern.title, "part": name, "rows": rows}
    if len(pattern.sizes) == 1:
        return said("{title}: chart of the {part}{rows}", **told)
    size_name = pattern.sizes[size]
    return said("{title}: chart of the {part}, size {size}{rows}", size=size_name, **told)


def row_texts(plan: Plan) -> tuple[RowText, ...]:
    """The rows of a planned chart for its text equivalent."""
    return tuple(_texts(plan.part, plan.worked, plan.wish))


def _texts(part: Part, worked: WorkedPart, wish: Wish) -> Iterator[RowText]:
    found = stretches(worked, sided_lines(part))
    targets, by = targets_of(part), left_by(found)
    for stretch in windowed(found, wish.rows):
        for number, row in enumerate(stretch.rows, start=stretch.number):
            times, length = stretch.times, len(stretch.rows)
            far = fars_of(row, number, times > 1, targets, by.get(number, ""))
            yield RowText(row, number, times, length, stretch.alternates, far)


def _far(texts: Sequence[RowText], number: int) -> dict[int, Far]:
    """What the words of the row of that number say of its stitches that go further down."""
    for row in texts:
        times, later = divmod(number - row.number, row.stretch)
        if row.far and not later and 0 <= times < row.times:
            return dict(row.far)
    return {}


def _yarns(pattern: Pattern, chosen: Selection) -> list[str]:
    """The yarns of the part, in the order of the pattern; several held together are one."""
    used: dict[str, None] = {}
    for row in chosen.rows:
        for made in row.worked.made.tally():
            if made.yarn:
                used.setdefault(made.yarn)
    order = [yarn.name for yarn in pattern.yarns]
    rest = [name for name in used if name not in order]
    return [name for name in order if name in used] + rest


def _on_page(chart: Chart) -> Chart:
    """Move everything so that it begins in the top left corner, and measure the page."""
    points = [point for symbol in chart.symbols for point in _points(symbol)]
    points += [point for one in chart.marks for point in ends(one)]
    points += [point for one in chart.brackets for point in (one.one, one.two)]
    points += [point for one in chart.brackets for point in _beyond(one)]
    points += [point for one in chart.breaks for point in one.points]
    across, down = zip(*points, strict=True) if points else ((0.0,), (0.0,))
    left, right = min(across) - MARGIN, max(across) + MARGIN
    top, bottom = min(down) - MARGIN, max(down) + MARGIN

    def moved(point: Point) -> Point:
        return Point(round(point.x - left, 2), round(point.y - top, 2))

    symbols = tuple(_moved(one, moved) for one in chart.symbols)
    marks = tuple(replace(m, at=moved(m.at), toward=moved(m.toward)) for m in chart.marks)
    brackets = tuple(_bracket_on_page(one, moved) for one in chart.brackets)
    breaks = tuple(Break(tuple(moved(p) for p in b.points)) for b in chart.breaks)
    return replace(
        chart,
        symbols=symbols,
        marks=marks,
        brackets=brackets,
        breaks=breaks,
        width=round(right - left, 2),
        height=round(bottom - top, 2),
    )


def _moved(symbol: Symbol, moved: Callable[[Point], Point]) -> Symbol:
    """A symbol in its place on the page."""
    return Symbol(
        symbol.look,
        moved(symbol.top),
        tuple([moved(one) for one in symbol.feet]),
        tuple([moved(one) for one in symbol.path]),
        symbol.angle,
        round(symbol.scale, 2),
        symbol.row,
        symbol.number,
        symbol.nth,
        symbol.span,
        symbol.words,
        symbol.yarn,
    )


def _bracket_on_page(bracket: Bracket, moved: Callable[[Point], Point]) -> Bracket:
    centre = moved(bracket.centre) if bracket.centre is not None else None
    band = tuple(tuple(map(moved, edge)) for edge in bracket.band)
    one, two = moved(bracket.one), moved(bracket.two)
    return replace(bracket, one=one, two=two, centre=centre, band=band)


def _beyond(bracket: Bracket) -> tuple[Point, ...]:
    """Room for the words of a bracket."""
    if bracket.centre is not None:
        at, way = arc_middle(bracket)
        aside = abs(way.x) >= ASLANT
        wide = 0.0 if aside else WORDS_WIDE / 2
        far = Point(at.x + (copysign(WORDS_WIDE, way.x) if aside else 0.0), at.y + way.y * 24.0)
        return at, far, Point(at.x - wide, far.y), Point(at.x + wide, far.y)
    if bracket.side.x:
        return (Point(bracket.one.x - copysign(WORDS_WIDE, bracket.side.x), bracket.one.y),)
    return (Point(bracket.two.x, bracket.two.y - copysign(26.0, bracket.side.y)),)


def _points(symbol: Symbol) -> tuple[Point, ...]:
    return (symbol.top, *symbol.feet, *symbol.path)
