"""The blind reading test: from a chart's words alone every row is worked again, stitch by stitch,
and must be the row of the fabric.

Held over every part and size of every example, every worked pattern and every clean example of the
notation's reference, in both terms.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest
from chart_reader import Done, Read, read

import docs_blocks as docs
from loopwright import pipeline
from loopwright.ir.checked import Checked
from loopwright.ir.fabric import Made, WorkedPart, WorkedRow
from loopwright.render.chart import chart, text
from loopwright.trade.stitches import BASICS, Stitch
from support import EXAMPLES, WORKED, text_of

HEIGHTS = {name: at for at, name in enumerate(BASICS)}
INTO = {"st": "stitch", "sp": "space", "ch": "chain", "end": "row end"}
WIDEST = 5_000
"""A row of more stitches is not worked one by one."""

TALL = 400
"""Rows that the words tell of; those past them are said not to be told."""

BLOCKS = [
    block
    for page in docs.PAGES
    for block in docs.blocks(page)
    if block.kind in ("pattern", "rows") and "error" not in block.words
]


@cache
def checked_of(path: Path) -> Checked | None:
    """A pattern as checked; nothing for a published one that has a fault."""
    return pipeline.check_text(path.name, text_of(path)).checked


CLEAN = [path for path in WORKED if checked_of(path) is not None]


@pytest.mark.parametrize("terms", ["UK", "US"])
@pytest.mark.parametrize("path", [*EXAMPLES, *CLEAN], ids=lambda path: path.stem)
def test_the_words_of_a_chart_are_its_fabric(path: Path, terms: str) -> None:
    checked = checked_of(path)
    assert checked is not None
    assert hold(checked, terms)


def test_enough_patterns_are_read() -> None:
    assert len(EXAMPLES) >= 11
    assert len(CLEAN) >= 25


@pytest.mark.parametrize("block", BLOCKS, ids=lambda block: block.name)
def test_every_construct_of_the_notation_is_told(block: docs.Block) -> None:
    checked = pipeline.check_text("example", docs.whole(block)).checked
    assert checked is not None
    hold(checked, checked.pattern.terms)


def hold(checked: Checked, terms: str) -> int:
    """Hold the words of every chart against its fabric; how many rows were held."""
    rows = 0
    for size, fabric in enumerate(checked.fabrics):
        for part in fabric.parts:
            if any(row.made.length > WIDEST for stretch, _ in part.rows for row in stretch):
                continue
            if sum(len(stretch) * times for stretch, times in part.rows) > WIDEST:
                continue
            found = read(text(chart(checked, part.name, size), terms), terms)
            worked = list(worked_rows(part))
            assert len(found.rows) == len(worked)
            for one, (row, side) in zip(found.rows, worked, strict=True):
                held(one, row, side)
                rows += 1
    return rows


def worked_rows(part: WorkedPart) -> Iterator[tuple[WorkedRow, bool]]:
    """Every row of a part, and whether it is worked on the wrong side: turning changes it, and so
    does going back along a row in crab stitch."""
    wrong: bool | None = None
    for stretch, times in part.rows:
        for _ in range(times):
            for row in stretch:
                crab = any(made.stitch.crab for made in row.made.tally() if made.stitch)
                wrong = row.wrong_side if wrong is None else wrong != (row.turned != crab)
                yield row, wrong


def held(one: Read, row: WorkedRow, wrong_side: bool) -> None:
    """One row as read, against the row of the fabric."""
    yarns = {made.yarn for made in row.made.tally() if made.yarn}
    assert one.shift == row.shift
    assert one.things == list(fabric_things(row, len(yarns) > 1)), one.name
    assert [one.yarn] == [" and ".join(dict.fromkeys(m.yarn for m in row.made.tally() if m.yarn))]
    edge = row.edge.tally().items()
    assert one.stitches == sum(n for place, n in edge if place.what == "st")
    assert one.spaces == sum(n for place, n in edge if place.what == "sp")
    assert one.wrong_side == wrong_side, one.name


def fabric_things(row: WorkedRow, yarns: bool) -> Iterator[Done]:
    """What the fabric says was made, in the same terms as the reader's."""
    before: Made | None = None
    for made in row.made.expand():
        yield thing(made, before, yarns)
        before = made


def thing(made: Made, before: Made | None, yarns: bool) -> Done:
    """One thing of the fabric. In the chains of a space, from the first on and one after another,
    is into the next chain."""
    stitch = told(made.stitch) if made.stitch and made.what != "join" else ()
    into, step, chain = INTO.get(made.into, made.into), made.step, made.chain
    if made.into == "sp" and chain:
        on = before is not None and before.into == "sp" and step == 0
        last = before.chain if before is not None else 0
        if (step and chain == 1) or (on and chain - last in (0, 1)):
            into, step, chain = "chain", step or chain - last, 0
    if made.what not in ("st", "as"):
        into, step = "", 0
    yarn = made.yarn if yarns and made.what in ("st", "as", "ch", "open", "join sp") else ""
    around = made.post and made.what == "st"
    also = made.also if made.what == "st" else ()
    chains = made.chains if made.what != "st" else 0
    return Done(made.what, stitch, chains, into, step, also, chain, around, made.loop, yarn)


def told(stitch: Stitch) -> tuple[object, ...]:
    """A stitch as the reader holds it."""
    return (
        HEIGHTS[stitch.basic],
        stitch.post,
        stitch.together,
        stitch.many,
        stitch.legs,
        stitch.crab,
        tuple(told(one) for one in stitch.unlike),
    )
