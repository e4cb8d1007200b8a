"""Where a stitch goes that is worked further down, in words: which row, and which place of it.

The fabric says that such a stitch goes into an earlier row (``deep``) or into what was left in
words (``left``); the row as written says which row and which of its places.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import cast

from loopwright.frozen import replace
from loopwright.ir.fabric import Made, WorkedRow
from loopwright.ir.items import Kind, Target, Work
from loopwright.ir.numbers import Given
from loopwright.ir.runs import Builder, Runs
from loopwright.render.chart.deep import Targets
from loopwright.render.chart.stretches import Stretch, crab
from loopwright.render.chart.values import Far, Words
from loopwright.render.speaker import phrase, phrases, said, said_many


def fars_of(
    row: WorkedRow, number: int, again: bool, targets: Targets, left_by: str
) -> tuple[tuple[int, Far], ...]:
    """What is said of the stitches of a row that go further down, by their item. A row that is
    worked ``again`` later on, beside its number, says how far below it they go. ``left_by`` is the
    row that left what this one takes up, where it is one."""
    out: dict[int, Far] = {}
    for made in row.made.tally():
        far = None
        if made.into == "left":
            far = _left(left_by)
        elif made.into == "deep" and made.item < len(row.spans):
            span = row.spans[made.item]
            target = targets.of(span, row.line, number)
            if target is not None and target.of_row and again:
                target = replace(target, of_row=0, below=number - target.of_row)
            far = _deep(target, targets.by_text[span], row.is_round) if target is not None else None
        if far is not None:
            out[made.item] = far
    return tuple(out.items())


# In a part of rows, and in one of rounds.
_OF_ROW = (phrase("row {n}"), phrase("round {n}"))
_BELOW = (
    phrases("{n} row below this one", "{n} rows below this one"),
    phrases("{n} round below this one", "{n} rounds below this one"),
)


_PASSED_BELOW = phrases("the next stitch passed over {row}", "the next stitches passed over {row}")
_PASSED_BY = phrases(
    "the next stitch that {row} passed over", "the next stitches that {row} passed over"
)


def _left(by: str) -> Far:
    if not by:
        return Far(
            (said("the stitch left unworked earlier and nearest at this end"),),
            (said("the stitches left unworked earlier and nearest at this end"),),
            1,
        )
    return Far(
        (said("the next stitch that {row} left unworked", row=by),),
        (said("the next stitches that {row} left unworked", row=by),),
        1,
    )


def _deep(target: Target, work: Work, is_round: bool) -> Far | None:
    each = int(work.n.value) if isinstance(work.n, Given) else 0
    if target.how == "base":
        return _both(
            phrases("the place that the ch-{n} stands on", "the places that the ch-{n} stands on"),
            each,
            n=target.chains,
        )
    if not (target.below or target.of_row):
        return None
    if target.below:
        row = said_many(*_BELOW[is_round], target.below, n=target.below)
    else:
        row = said(_OF_ROW[is_round], n=f"{target.of_row:,}")
    if target.how == "next skipped":
        return _both(_PASSED_BELOW if target.below else _PASSED_BY, each, row=row)
    where = row if target.below else said("of {row}", row=row)
    return _of_kind(target.kind, each, where)


def _of_kind(kind: Kind, each: int, where: str) -> Far:
    """A place of a kind in an earlier row."""
    if kind.what == "st":
        return _both(
            phrases(
                "the stitch {where} under the next place",
                "the stitches {where} under the next places",
            ),
            each,
            where=where,
        )
    if kind.what == "sp" and kind.chains:
        return _both(
            phrases("the next ch-{n} space {where}", "the next ch-{n} spaces {where}"),
            each,
            n=kind.chains,
            where=where,
        )
    if kind.what == "sp":
        return _both(
            phrases("the next chain space {where}", "the next chain spaces {where}"),
            each,
            where=where,
        )
    if kind.what == "stitch" and kind.stitch is not None:
        return _both(
            phrases("the next {stitch} {where}", "the next {stitch} {where}"),
            each,
            stitch=kind.stitch,
            where=where,
        )
    return _both(
        phrases("the next such place {where}", "the next such places {where}"), each, where=where
    )


def _both(words: tuple[str, str], each: int, **values: object) -> Far:
    """The words of one such place and of several."""
    one, several = words
    return Far((said(one, **values),), (said(several, **values),), each)


def marked(made: Runs[Made], fars: dict[int, Far]) -> Runs[Made]:
    """The same things, each that goes further down with what is said of that as its ``opening``."""
    if not fars:
        return made
    out: Builder[Made] = Builder()
    for node, times in made.pairs:
        if isinstance(node, Runs):
            out.repeat(marked(node, fars), times)
        elif node.into in ("deep", "left"):
            out.add(node._replace(opening=cast("str", fars.get(node.item, ""))), times)
        else:
            out.add(node, times)
    return out.done()


def placed(what: Words, opening: object, times: int) -> Words:
    """So many stitches with where they go, from what they were marked with."""
    assert isinstance(opening, Far)
    if times == 1 or opening.each == times or not opening.each:
        return (said("{what} in {place}", what=what, place=opening.one),)
    if opening.each == 1:
        return (said("{what} (one in each of {places})", what=what, places=opening.many),)
    each = phrase("{what} ({n} in each of {places})")
    return (said(each, what=what, n=opening.each, places=opening.many),)


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
            name = said(_OF_ROW[row.is_round], n=f"{number:,}")
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
