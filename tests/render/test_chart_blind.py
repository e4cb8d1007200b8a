"""The blind reading test: from a chart's words alone every row is worked again, stitch by stitch,
and must be the row of the fabric.

Held over every part and size of every example and every worked pattern in both terms, over every
clean example of the documentation, and over patterns that are made up at random.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest
from chart_reader import Done, Read, read
from hypothesis import HealthCheck, Phase, given, settings

import docs_blocks as docs
from loopwright import pipeline
from loopwright.ir.checked import Checked
from loopwright.ir.fabric import Made, WorkedPart, WorkedRow
from loopwright.render.chart import chart, text
from loopwright.trade.stitches import BASICS, Stitch
from properties.features import FRAMES, framed_as
from properties.strategies import patterns
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
steady = settings(
    max_examples=50,
    derandomize=True,
    deadline=None,
    phases=(Phase.explicit, Phase.generate),
    database=None,
    suppress_health_check=list(HealthCheck),
)
few = settings(steady, max_examples=10)


@cache
def checked_of(path: Path) -> Checked | None:
    """A pattern as checked; nothing for a published one that has a fault."""
    return pipeline.check_text(path.name, text_of(path)).checked


CLEAN = [path for path in WORKED if checked_of(path) is not None]


@pytest.mark.parametrize("path", [*EXAMPLES, *CLEAN], ids=lambda path: path.stem)
def test_the_words_of_a_chart_are_its_fabric(path: Path) -> None:
    checked = checked_of(path)
    assert checked is not None
    assert hold(checked, "UK", "US")


def test_enough_patterns_are_read() -> None:
    assert len(EXAMPLES) >= 11
    assert len(CLEAN) >= 25


@pytest.mark.parametrize("block", BLOCKS, ids=lambda block: block.name)
def test_every_construct_of_the_notation_is_told(block: docs.Block) -> None:
    result = pipeline.check_text("example", docs.whole(block), docs.around(block))
    checked = result.checked
    if checked is None:  # a file that others use has no parts
        assert result.clean
        return
    hold(checked, checked.pattern.terms)


@steady
@given(patterns(faulty=False))
def test_made_up_patterns_are_told(written: str) -> None:
    checked = pipeline.check_text("example", written).checked
    if checked is not None:
        hold(checked, checked.pattern.terms)


def test_less_common_things_are_told() -> None:
    """Openings, edges, gaps, markers, nets, cloth from corner to corner: those that come out."""
    told = 0
    for frame in FRAMES:

        @few
        @given(framed_as(frame))
        def tell(written: str) -> None:
            nonlocal told
            checked = pipeline.check_text("example", written).checked
            if checked is not None:
                told += hold(checked, checked.pattern.terms)

        tell()
    assert told > 100  # rows


WRONG = [
    ("3 tr in the ring", "2 tr in the ring"),
    ("miss 3 places", "miss 2 places"),
    ("ch 1, ", "ch 2, "),
    ("2 tr in the same space", "2 tr"),
    (") 3 times", ") 4 times"),
    ("right side", "wrong side"),
    ("past 3 places", "past 2 places"),
    ("tr, ch 2", "dtr, ch 2"),
    ("104 stitches", "103 stitches"),
    ("with slate", "with foam"),
]


@pytest.mark.parametrize(("right", "wrong"), WRONG)
def test_a_word_that_is_wrong_is_found_out(right: str, wrong: str) -> None:
    (path,) = [path for path in EXAMPLES if path.stem == "harbour-square"]
    checked = checked_of(path)
    assert checked is not None
    words = text(chart(checked, "square", 0), "UK")
    held_all(words, "UK", checked.fabrics[0].parts[0])
    assert right in words
    with pytest.raises(AssertionError):
        held_all(words.replace(right, wrong, 1), "UK", checked.fabrics[0].parts[0])


def hold(checked: Checked, *terms: str) -> int:
    """Hold the words of every chart in these terms against its fabric; how many rows were held."""
    rows = 0
    for size, fabric in enumerate(checked.fabrics):
        for part in fabric.parts:
            if any(row.made.length > WIDEST for stretch, _ in part.rows for row in stretch):
                continue
            if sum(len(stretch) * times for stretch, times in part.rows) > WIDEST:
                continue
            drawn = chart(checked, part.name, size)
            rows += sum(held_all(text(drawn, one), one, part) for one in terms)
    return rows


def held_all(words: str, terms: str, part: WorkedPart) -> int:
    """Hold the words of one chart against its part; how many rows were held."""
    found = read(words, terms)
    worked = list(worked_rows(part))
    assert found.start == part.start.length or not part.start.length
    assert found.ring == (part.from_ring and part.from_chain)
    assert len(found.rows) == len(worked)
    for one, (row, side) in zip(found.rows, worked, strict=True):
        held(one, row, side)
    return len(worked)


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
