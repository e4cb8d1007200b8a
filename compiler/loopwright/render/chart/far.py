"""Where a stitch goes that is worked further down, in words: which row, and which place of it.

The fabric says that such a stitch goes into an earlier row (``deep``) or into what was left in
words (``left``); the row as written says which row and which of its places.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from loopwright.frozen import replace
from loopwright.ir.fabric import Made, WorkedRow
from loopwright.ir.items import Target, Work
from loopwright.ir.numbers import Given
from loopwright.ir.runs import Builder, Runs
from loopwright.render.chart.deep import Targets
from loopwright.render.chart.stretches import Stretch, crab
from loopwright.render.chart.values import Far

EDGE = "\x1f"  # between the words of one place, those of several, and how many stitches go in each


def fars_of(
    row: WorkedRow, number: int, again: bool, targets: Targets, left_by: str
) -> tuple[tuple[int, Far], ...]:
    """What is said of the stitches of a row that go further down, by their item. A row that is
    worked ``again`` later on, beside its number, says how far below it they go. ``left_by`` is the
    row that left what this one takes up, where it is one."""
    out: dict[int, Far] = {}
    noun = "round" if row.is_round else "row"
    for made in row.made.tally():
        far = None
        if made.into == "left":
            far = _left(left_by)
        elif made.into == "deep" and made.item < len(row.spans):
            span = row.spans[made.item]
            target = targets.of(span, row.line, number)
            if target is not None and target.of_row and again:
                target = replace(target, of_row=0, below=number - target.of_row)
            far = _deep(target, targets.by_text[span], noun) if target is not None else None
        if far is not None:
            out[made.item] = far
    return tuple(out.items())


def _left(by: str) -> Far:
    if not by:
        place = "left unworked earlier and nearest at this end"
        return Far((f"the stitch {place}",), (f"the stitches {place}",), 1)
    return Far(
        (f"the next stitch that {by} left unworked",),
        (f"the next stitches that {by} left unworked",),
        1,
    )


def _deep(target: Target, work: Work, noun: str) -> Far | None:
    each = int(work.n.value) if isinstance(work.n, Given) else 0
    if target.how == "base":
        stands = f"that the ch-{target.chains} stands on"
        return Far((f"the place {stands}",), (f"the places {stands}",), each)
    if not (target.below or target.of_row):
        return None
    row = f"{noun} {target.of_row:,}"
    if target.below:
        row = f"{target.below} {noun}{'' if target.below == 1 else 's'} below this one"
    where = f" {row}" if target.below else f" of {row}"
    if target.how == "next skipped":
        passed = f"passed over{where}" if target.below else f"that {row} passed over"
        return Far((f"the next stitch {passed}",), (f"the next stitches {passed}",), each)
    kind = target.kind
    if kind.what == "st":
        return Far(
            (f"the stitch{where} under the next place",),
            (f"the stitches{where} under the next places",),
            each,
        )
    if kind.what == "sp":
        space = f"ch-{kind.chains} space" if kind.chains else "chain space"
        return Far((f"the next {space}{where}",), (f"the next {space}s{where}",), each)
    if kind.what == "stitch" and kind.stitch is not None:
        name = ("the next ", kind.stitch, where)
        return Far(name, name, each)
    return Far((f"the next such place{where}",), (f"the next such places{where}",), each)


def marked(made: Runs[Made], fars: dict[int, str]) -> Runs[Made]:
    """The same things, each that goes further down with the words for it as its ``opening``."""
    if not fars:
        return made
    out: Builder[Made] = Builder()
    for node, times in made.pairs:
        if isinstance(node, Runs):
            out.repeat(marked(node, fars), times)
        elif node.into in ("deep", "left"):
            out.add(node._replace(opening=fars.get(node.item, "")), times)
        else:
            out.add(node, times)
    return out.done()


def written(one: str, many: str, each: int) -> str:
    """The words for such a place, as they are marked."""
    return EDGE.join((one, many, str(each)))


def placed(opening: str, times: int) -> str:
    """Where so many stitches go, from the words that they were marked with."""
    one, many, each = opening.split(EDGE)
    n = int(each)
    if times == 1 or n == times or not n:
        return f" in {one}"
    return f" ({'one' if n == 1 else n} in each of {many})"


# ------------------------------------------------------------------ which row left it


def left_by(found: Sequence[Stretch]) -> dict[int, str]:
    """For each row that takes up what one single row left, the name of that row; as far as the
    rows are not worked over and over."""
    left: list[tuple[bool, str, int]] = []
    out: dict[int, str] = {}
    for stretch in found:
        if stretch.times > 1 and any(row.left or _taken(row) for row in stretch.rows):
            break
        for number, row in enumerate(stretch.rows, start=stretch.number):
            way = row.wrong_side != crab(row)
            by = list(dict.fromkeys(_take(left, way, _taken(row))))
            if len(by) == 1:
                out[number] = by[0]
            name = f"{'round' if row.is_round else 'row'} {number:,}"
            left.append((way, name, sum(high - low for low, high in row.left)))
    return out


def _taken(row: WorkedRow) -> int:
    return sum(times for made, times in row.made.tally().items() if made.into == "left")


def _take(left: list[tuple[bool, str, int]], way: bool, many: int) -> Iterator[str]:
    """Take so many away, those that a row going one way comes to first, and say who left them."""
    along = [i for i in reversed(range(len(left))) if left[i][0] == way]
    for i in along + [i for i in range(len(left)) if left[i][0] != way]:
        own, name, here = left[i]
        took = min(many, here)
        if took:
            left[i] = (own, name, here - took)
            many -= took
            yield name
