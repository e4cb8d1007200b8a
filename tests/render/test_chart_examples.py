"""The charts of every example, and of every worked pattern that comes out, held against the fabric
they are drawn from."""

from __future__ import annotations

from pathlib import Path
from xml.etree import ElementTree

import pytest
from chart_geometry import assert_apart, assert_on_the_page, row_of, rows_drawn

from loopwright.ir.checked import Checked
from loopwright.ir.fabric import WorkedPart
from loopwright.pipeline import check_text
from loopwright.render.chart import Chart, chart, svg, text
from loopwright.source import Source
from loopwright.trade.stitches import SLIP

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.crochet"))


WORKED = sorted((Path(__file__).parents[1] / "worked").glob("*.crochet"))
CLEAN = [path for path in WORKED if check_text(path.name, path.read_text("utf-8")).checked]


def read(path: Path) -> tuple[Source, Checked]:
    source = path.read_text(encoding="utf-8")
    checked = check_text(path.name, source).checked
    assert checked is not None
    return Source(path.name, source), checked


def worked_rows(part: WorkedPart) -> dict[int, tuple[int, int]]:
    """For each row of the part, counted out one by one: how many stitches, and chain runs."""
    out: dict[int, tuple[int, int]] = {}
    number = 0
    for rows, times in part.rows:
        for _ in range(times):
            for row in rows:
                number += 1
                made = row.made.tally()
                stitches = sum(n for m, n in made.items() if m.what == "st" and m.stitch != SLIP)
                chains = sum(n for m, n in made.items() if m.what in ("ch", "open", "hook sp"))
                out[number] = (stitches, chains)
    return out


def charts(path: Path, whole: bool = False) -> list[tuple[WorkedPart, Chart]]:
    _, checked = read(path)
    return [
        (part, chart(checked, part.name, size, whole=whole))
        for size, fabric in enumerate(checked.fabrics)
        for part in fabric.parts
    ]


@pytest.mark.parametrize("path", [*EXAMPLES, *CLEAN], ids=lambda path: path.stem)
def test_every_row_drawn_has_the_stitches_of_the_fabric(path: Path) -> None:
    for part, drawn in charts(path, whole=True):
        known = worked_rows(part)
        assert rows_drawn(drawn) == len(known)
        first = min((s.number for s in drawn.symbols if s.row == 1), default=1)
        for row in range(1, rows_drawn(drawn) + 1):
            number = next(s.number for s in drawn.symbols if s.row == row)
            stitches, chains = known[number - first + 1]
            assert len(row_of(drawn, row)) == stitches, (drawn.title, number)
            runs = [s for s in drawn.symbols if s.row == row and s.words[0][:3] == "ch "]
            runs = [s for s in runs if s.look.shape == "chain"]
            assert len(runs) == chains, (drawn.title, number)


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_rows_that_are_not_drawn_are_told_of(path: Path) -> None:
    for part, drawn in charts(path):
        left_out = len(worked_rows(part)) - rows_drawn(drawn)
        assert left_out <= 0 or drawn.notes


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_symbols_lie_on_the_page_and_apart(path: Path) -> None:
    for _, drawn in charts(path):
        assert_on_the_page(drawn)
        assert_apart(drawn, least=9.0)


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_the_drawing_is_whole_in_both_terms(path: Path) -> None:
    source, checked = read(path)
    for _, drawn in charts(path)[:3]:
        for terms in ("UK", "US"):
            root = ElementTree.fromstring(svg(drawn, terms, source))
            groups = [g for g in root.iter() if g.get("data-stitch")]
            assert len(groups) == len(drawn.symbols)
            assert text(drawn, terms) in "".join(root.itertext())
    assert checked.pattern.title in charts(path)[0][1].title


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_every_symbol_points_at_its_instruction(path: Path) -> None:
    source, _ = read(path)
    for _, drawn in charts(path):
        for symbol in drawn.symbols:
            written = source.text[symbol.span.start : symbol.span.end]
            assert written.strip()
