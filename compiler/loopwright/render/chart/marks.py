"""What stands beside the symbols: row numbers, brackets for repeats, lines at strips left out."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import pairwise
from math import hypot

from loopwright.frozen import replace
from loopwright.render.chart.choose import Over
from loopwright.render.chart.clear import DIGIT
from loopwright.render.chart.heights import joined
from loopwright.render.chart.layout import Laid
from loopwright.render.chart.spots import At, Layer, Spot
from loopwright.render.chart.strips import STANDING
from loopwright.render.chart.times import Times
from loopwright.render.chart.values import STEP, Bracket, Break, Mark, Point
from loopwright.render.speaker import phrase, said, said_many

# A row or several, a round or several.
_WORKED = (
    (
        phrase("row {first}: work {times} times in all"),
        phrase("rows {first} to {last}: work {times} times in all"),
    ),
    (
        phrase("round {first}: work {times} times in all"),
        phrase("rounds {first} to {last}: work {times} times in all"),
    ),
)

_ON_GREY = (
    (
        phrase("row {first}, on grey: work {times} times in all"),
        phrase("rows {first} to {last}, on grey: work {times} times in all"),
    ),
    (
        phrase("round {first}, on grey: work {times} times in all"),
        phrase("rounds {first} to {last}, on grey: work {times} times in all"),
    ),
)

_AND_MORE = (
    phrase("{what}, then once more as far as row {last}"),
    phrase("{what}, then once more as far as round {last}"),
)

OUTSIDE = 0.9  # how far outside the last round the arc over a repeat lies, in stitches
CLEAR_OF_NUMBERS = 3.4  # how far before a round's first stitch its bracket lies
APART = 1.5  # how far a bracket stays from the end of its rows, so that two do not run together
NEAR = 8.0  # how near to a number the line of a bracket and its ends may come
OVER_TOPS = 0.12  # how far past the tops of rounds the grey reaches that they lie on
LETTER_UP = 0.1  # how far above the feet of stitches the letter of a new yarn stands
BEYOND = 0.35  # how far past the last stitches of its rounds a wedge ends
DRAWN_APART = 1.3  # from here on the places of a start are not beside one another


def mark(layer: Layer, laid: Laid, yarns: list[str]) -> Mark:
    """The number of a row, before its first symbol."""
    assert layer.linked is not None
    first = next((s for s in layer.spots if s.kind != "join"), layer.spots[0])
    base = first.feet[0] if first.feet else At(first.s, first.v - 0.5)
    level = (base.v + first.v) / 2
    s = (base.s + first.s) / 2
    metric = laid.plane.metric(At(s, first.v))  # where the row was spaced
    out = 1.05 if laid.plane.around is None or joined(layer) else 0.85
    if layer is laid.layers[1] and laid.lead and first.kind != "upright":
        out += 1.0
    at = laid.plane.page(At(s - layer.way * out / metric, level))
    toward = laid.plane.page(At(s - layer.way * (out - 0.1) / metric, level))
    made = first.thing.made.yarn if first.thing else ""
    yarn = yarns.index(made) if made in yarns else 0
    return Mark(
        str(layer.linked.number) if layer.linked.number else said("setup"), at, toward, yarn
    )


def labelled(mark: Mark, text: str) -> Mark:
    """The mark with a longer text, moved back from the row by what it has grown."""
    grown = DIGIT * (len(text) - len(mark.text)) / 2
    back = mark.at.x - mark.toward.x
    if not mark.text or not grown or not back:
        return replace(mark, text=text)
    aside = grown if back > 0 else -grown
    at, toward = (Point(point.x + aside, point.y) for point in (mark.at, mark.toward))
    return Mark(text, at, toward, mark.yarn)


def ends(mark: Mark) -> Iterator[Point]:
    """Where what is written of a mark begins and ends, past what any page has room for."""
    half = max(DIGIT * len(mark.text) / 2 - DIGIT, 0.0)
    yield Point(mark.at.x - half, mark.at.y)
    yield Point(mark.at.x + half, mark.at.y)


def changes(layer: Layer, laid: Laid, yarns: list[str]) -> Iterator[Mark]:
    """A letter before each stitch at which the yarn changes within a row, between the feet of that
    and of the one before it."""
    before, last = "", None
    for spot in layer.spots:
        yarn = spot.thing.made.yarn if spot.thing else ""
        if yarn in yarns and before and yarn != before and last is not None:
            foot = min((foot.v for one in (last, spot) for foot in one.feet), default=spot.v - 0.8)
            aside = layer.way * spot.half / laid.plane.metric(At(spot.s, spot.v))
            at = laid.plane.page(At(spot.s - aside, foot + LETTER_UP))
            yield Mark("", at, at, yarns.index(yarn))
        before, last = yarn or before, spot


def brackets(laid: Laid, times: Times) -> Iterator[Bracket]:
    """A bracket beside each stretch of rows that is worked over and over, and one below the
    repeat that is drawn a few times only."""
    yield from _repeat_bracket(laid, times)
    yield from _arc(laid, times)
    for over in laid.selection.over:
        if over.first < laid.skipped:
            continue
        rows = laid.layers[over.first + 1 : over.last + 2]
        spots = [spot for row in rows for spot in row.spots]
        if not spots:
            continue
        low = min((foot.v for spot in spots for foot in spot.feet), default=0.0)
        high = max(spot.v for spot in spots)
        words = _over_words(laid, over, times)
        band = _band(laid, over)
        if laid.selection.wedge is not None and over.first >= laid.selection.wedge.first:
            yield _along_wedge(laid, rows, words)
            continue
        one, two = _beside(laid, low, high)
        one, two = Point(one.x, one.y - APART), Point(two.x, two.y + APART)
        yield Bracket(one, two, Point(-6.0, 0.0), words, band=band)


def _band(laid: Laid, over: Over) -> tuple[tuple[Point, ...], ...]:
    """The outer and the inner edge of rounds that are worked over and over, all around; nothing of
    rows, nor of a wedge, beside which their bracket stands."""
    if laid.plane.around is None or laid.selection.wedge is not None:
        return ()
    edges = []
    for layer in (laid.layers[over.last + 1], laid.layers[over.first]):
        left = [spot for spot in layer.spots if spot.thing is None or spot.thing.place >= 0]
        tops = sorted((spot.s, spot.v) for spot in left if spot.kind in (*STANDING, "place"))
        edges.append(tuple(laid.plane.page(At(s, v + OVER_TOPS)) for s, v in tops))
    return tuple(edges)


def _over_words(laid: Laid, over: Over, times: Times) -> str:
    """The rows by their numbers, and how often they are worked."""
    rows = laid.selection.rows[over.first : over.first + over.rows]
    first, last = rows[0].number, rows[-1].number
    worked = tuple(row.worked for row in rows)
    grey, is_round = bool(_band(laid, over)), rows[0].worked.is_round
    words = said(
        (_ON_GREY if grey else _WORKED)[is_round][over.rows != 1],
        first=f"{first:,}",
        last=f"{last:,}",
        times=times.of_rows(worked, first, over.times),
    )
    if not over.more:
        return words
    return said(_AND_MORE[is_round], what=words, last=f"{first + over.more - 1:,}")


def _beside(laid: Laid, low: float, high: float) -> tuple[Point, Point]:
    """Where the bracket of rows from one height to another stands: to the right of all rows. That
    of rounds stands as high as they are at the top of the chart."""
    if laid.plane.around is None:
        edge = min(min(s.s for s in layer.spots) for layer in laid.layers if layer.spots)
        return laid.plane.page(At(edge - 2.6, low)), laid.plane.page(At(edge - 2.6, high))
    round_ = [laid.plane.page(At(s.s, s.v)) for layer in laid.layers for s in layer.spots]
    right = max(point.x for point in round_) + 1.2 * STEP
    return Point(right, laid.plane.page(At(0.0, low)).y), Point(
        right, laid.plane.page(At(0.0, high)).y
    )


def clear_of(bracket: Bracket, marks: Iterable[Mark]) -> Bracket:
    """The bracket, where it goes up beside rows, moved clear of the numbers there."""
    if bracket.centre is not None or not bracket.side.x:
        return bracket
    low, high = sorted((bracket.one.y, bracket.two.y))
    lean = (bracket.two.x - bracket.one.x) / (bracket.two.y - bracket.one.y or 1.0)
    moved = 0.0
    for one in marks:
        if one.text and low - NEAR <= one.at.y <= high + NEAR:
            line = bracket.one.x + (one.at.y - bracket.one.y) * lean
            moved = max(moved, max(point.x for point in ends(one)) + DIGIT + NEAR - line)
    shift = Point(bracket.one.x + moved, bracket.one.y), Point(bracket.two.x + moved, bracket.two.y)
    return replace(bracket, one=shift[0], two=shift[1])


def _along_wedge(laid: Laid, rows: list[Layer], words: str) -> Bracket:
    """The bracket of rounds of a wedge: on the right, where they begin, beyond their numbers, or
    end."""
    two_ends = laid.selection.wedge is not None and laid.selection.wedge.two_ends
    ends = []
    for layer, foot in ((rows[0], True), (rows[-1], False)):
        first = min(layer.spots, key=_along) if two_ends else layer.spots[0]
        v = first.feet[0].v if foot and first.feet else first.v
        aside = CLEAR_OF_NUMBERS / laid.plane.metric(At(first.s, v))
        ends.append(laid.plane.page(At(first.s - aside, v)))
    one, two = ends
    x, y = two.x - one.x, two.y - one.y
    length = hypot(x, y) or 1.0
    return Bracket(one, two, Point(6 * y / length, -6 * x / length), words)


def _repeat_bracket(laid: Laid, times: Times) -> Iterator[Bracket]:
    """The repeat that is drawn a few times only, below the chart."""
    repeat = laid.selection.repeat
    if repeat is None or repeat.row + 1 >= len(laid.layers):
        return
    layer, row = laid.layers[repeat.row + 1], laid.selection.rows[repeat.row].worked
    spots = layer.spots[repeat.first : repeat.first + repeat.unit]
    feet = [foot.s for spot in spots for foot in spot.feet] or [spot.s for spot in spots]
    end = max(foot * layer.way for foot in feet) + 0.5
    wide = repeat.sts * (1.0 if repeat.on_row_ends else _step_of(laid.layers[0]))
    low, high = sorted((end * layer.way, (end - wide) * layer.way))
    depth = -1.0 - laid.foundation
    under = max(laid.plane.page(At(spot.s, depth)).y for spot in laid.layers[0].spots)
    one, two = (Point(laid.plane.page(At(s, 0.0)).x, under) for s in (high, low))
    often = times.of_bracket(row, repeat.times)
    words = said_many(
        "{n} st, work {times} times",
        "{n} sts, work {times} times",
        repeat.sts,
        n=repeat.sts,
        times=often,
    )
    yield Bracket(one, two, Point(0.0, -6.0), words)


def _arc(laid: Laid, times: Times) -> Iterator[Bracket]:
    """An arc outside a wedge, over one repeat of its last round."""
    wedge = laid.selection.wedge
    if wedge is None or laid.skipped >= len(laid.layers) - 1:
        return
    layer = laid.layers[-1]
    over = _one_repeat(layer, *wedge.repeats[len(laid.layers) - 2 - wedge.first])
    if not over:
        return
    ends = (min(over, key=_along), max(over, key=_along))
    out = max(hypot(*laid.plane.page(At(s.s, s.v))) for la in laid.layers for s in la.spots)
    out += OUTSIDE * STEP
    points = []
    for spot, side in zip(ends, (-1, 1), strict=True):
        at = At(spot.s + side * spot.half / laid.plane.metric(At(spot.s, spot.v)), spot.v)
        x, y = laid.plane.page(at)
        far = out / (hypot(x, y) or 1.0)
        points.append(Point(x * far, y * far))
    often = times.of_wedge([row.worked for row in laid.selection.rows[wedge.first :]], wedge.times)
    words = said("work {times} times in each round", times=often)
    yield Bracket(points[0], points[1], Point(0.0, 0.0), words, Point(0.0, 0.0))


def _one_repeat(layer: Layer, begin: int, unit: int) -> list[Spot]:
    """What stands of the last repeat of a round up to one that begins there, of those that lie in
    one piece."""
    for first in range(begin, -1, -1):
        over = [spot for spot in layer.spots[first : first + unit] if spot.kind in STANDING]
        if all((two.s - one.s) * layer.way > 0 for one, two in pairwise(over)):
            return over
    return []


def _along(spot: Spot) -> float:
    return spot.s


def _step_of(start: Layer) -> float:
    """How far from one another the places of the start are drawn, in stitches: 1 and a little, or
    clearly more where several stitches are worked into each."""
    along = sorted(spot.s for spot in start.spots)
    gaps = sorted(two - one for one, two in pairwise(along))
    middle = gaps[len(gaps) // 2] if gaps else 1.0
    return middle if middle > DRAWN_APART else 1.0


def breaks(laid: Laid) -> Iterator[Break]:
    """A line up through the rows where a strip is left out of them, or where a wedge ends."""
    points: list[Point] = []
    if (wedge := laid.selection.wedge) is not None:
        for side in (1, -1) if wedge.two_ends else (1,):
            yield Break(tuple(_end_of_wedge(laid, wedge.first + 1, side)))
        return
    if not laid.selection.clean:
        return
    if any(layer.gap for layer in laid.layers):
        for side in (1, -1) if any(laid.selection.strips) else ():
            yield Break(tuple(_end_of_wedge(laid, 1, side)))
        return
    for layer, strip in zip(laid.layers[1:], laid.selection.strips, strict=False):
        if strip is None or not 0 < strip.after < len(layer.spots):
            continue
        one, two = layer.spots[strip.after - 1], layer.spots[strip.after]
        low = min((foot.v for foot in (*one.feet, *two.feet)), default=one.v - 1)
        if not points:
            points.append(laid.plane.page(At(_gap(one, two), low - 0.5)))
        points.append(laid.plane.page(At(_gap(one, two), max(one.v, two.v))))
    if points:
        yield Break(tuple(points))


def _end_of_wedge(laid: Laid, first: int, side: int) -> Iterator[Point]:
    """The end of a wedge on one side (1 the left), from the middle outwards; a straight line, clear
    of the numbers, where its rounds begin and end anywhere."""
    layers = laid.layers[max(first, laid.skipped + 1) :]
    ends = [_end_of_round(layer, laid, side) for layer in layers]
    furthest = max((side * end.s for end in ends), default=0.0)
    wound = laid.selection.wedge is not None and laid.selection.wedge.wound
    beyond = BEYOND + (CLEAR_OF_NUMBERS if wound and side < 0 else 0.0)
    for end in ends:
        s = side * furthest if wound else end.s
        yield laid.plane.page(At(s + side * beyond / laid.plane.metric(At(s, end.v)), end.v))


def _end_of_round(layer: Layer, laid: Laid, side: int) -> At:
    """How far what stands of a round reaches on one side."""
    last = max(
        (spot for spot in layer.spots if spot.kind in STANDING), key=lambda spot: side * spot.s
    )
    half = last.half / laid.plane.metric(At(last.s, last.v))
    reach = [side * last.s + half, *(side * at.s for at in last.path)]
    return At(side * max(reach), last.v)


def _gap(one: Spot, two: Spot) -> float:
    """The middle of what is free between two neighbours."""
    first, then = (one, two) if one.s < two.s else (two, one)
    return (first.s + first.half + then.s - then.half) / 2
