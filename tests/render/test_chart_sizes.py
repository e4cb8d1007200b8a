"""A page shows for each part the charts of every size, one for all that differ in numbers only;
and such a chart is that of each of its sizes."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

import pytest
from chart_geometry import row_of
from chart_wedges import LARGE
from test_chart_marks import assert_well_drawn

from loopwright import pipeline, rendering
from loopwright.ir.checked import Checked
from loopwright.render.chart import Chart, chart, text
from loopwright.render.chart.all_sizes import shared
from support import EXAMPLES, WORKED, text_of


@cache
def checked_of(path: Path) -> Checked | None:
    return pipeline.check_text(path.name, text_of(path)).checked


SIZED = [
    path
    for path in (*EXAMPLES, *WORKED)
    for checked in [checked_of(path)]
    if checked is not None and len(checked.pattern.sizes) > 1
]
each = pytest.mark.parametrize("path", SIZED, ids=lambda path: path.stem)


def example(name: str) -> Checked:
    checked = checked_of(next(path for path in SIZED if path.stem == name))
    assert checked is not None
    return checked


def titles(checked: Checked) -> list[str]:
    return [title for title, _ in rendering.charts(checked, "UK")]


def together(checked: Checked) -> list[tuple[str, list[int], Chart]]:
    """The charts that stand for several sizes: their part, the sizes and the chart."""
    return [
        (part.name, sizes, one)
        for part in checked.pattern.parts
        for sizes, one in shared(checked, part.name)
        if len(sizes) > 1
    ]


@each
def test_every_size_of_every_part_is_in_one_chart(path: Path) -> None:
    checked = checked_of(path)
    assert checked is not None
    for part in checked.pattern.parts:
        sizes = [size for them, _ in shared(checked, part.name) for size in them]
        assert sorted(sizes) == list(range(len(checked.pattern.sizes)))


def test_titles_say_which_sizes() -> None:
    # The thumb is opened over as many stitches of more from size to size: the hands are not alike.
    assert titles(example("breakwater-mittens")) == [
        "cuff, in all sizes",
        "hand, size child",
        "hand, size woman",
        "hand, size man",
        "thumb, in all sizes",
    ]
    # Rounds 4 to 6 come two times more in the smallest size and three times more in the others.
    assert titles(example("hawser-hat")) == ["hat, in all sizes"]
    band = ["band, in all sizes", "band, in all sizes, in squares"]
    assert titles(example("signal-band")) == band
    # A size so narrow that it would be drawn whole is drawn like the wide one.
    assert titles(example("limpet-scarf")) == ["scarf, in all sizes"]
    # Five rows over and over, and at the end one (three, three) of them once more.
    assert titles(example("ebb-ripple")) == ["blanket, in all sizes"]
    # More wedges around, and nothing else.
    assert titles(example("bollard-tam")) == ["tam, in all sizes"]


def test_rows_that_end_part_way_say_how_far() -> None:
    """90 (140, 200) cm at 7.5 rows to 10 cm are 68 (105, 150) rows. After rows 1 and 2 that is 13
    (20, 29) times five, and 1 (3, 3) more: as far as row 3 (5, 5)."""
    [(_, sizes, one)] = together(example("ebb-ripple"))
    assert sizes == [0, 1, 2]
    assert "rows 3 to 7: work 13 (20, 29) times in all, then once more as far as row 3 (5, 5)" in [
        bracket.text for bracket in one.brackets
    ]
    told = " ".join(text(one, "UK").split())
    assert "Rows 3 to 67 (102, 147) are 5 rows worked 13 (20, 29) times, drawn 1 time." in told
    assert (
        "Then they are worked once more as far as row 3 (5, 5), which is not drawn again." in told
    )
    assert [mark.text for mark in one.marks if mark.text] == list("1234567")


SOME = """pattern: Mooring Strap
terms: UK
sizes: short (middle, long)
count wide: 4 (10, 12)
part strap: flat
start: ch {wide + 1}
row 1: dc in 2nd ch from hook, dc in each ch across = wide sts
row 2: ch 1, dc in each st across = wide sts
repeat row 2: 8 (10, 12) more times
next row (middle, long only): ch 3 as tr, tr in each st across
next row (middle, long only): ch 1, [dc, ch 1, miss 1 st] across
"""


def test_some_sizes_have_their_numbers_and_no_others() -> None:
    text_ = SOME.replace("4 (10, 12)", "40 (50, 60)")
    checked = pipeline.check_text("strap.crochet", text_).checked
    assert checked is not None
    assert titles(checked) == ["strap, size short", "strap, sizes middle and long"]
    [(_, sizes, one)] = together(checked)
    assert sizes == [1, 2]
    # Row 2 and 10 (12) more like it, then rows 13 and 14 (15 and 16).
    assert "row 2: work 11 (13) times in all" in [bracket.text for bracket in one.brackets]
    assert [mark.text for mark in one.marks][-2:] == ["13 (15)", "14 (16)"]
    assert text(one, "UK").startswith(
        "Mooring Strap: chart of the strap, sizes middle and long\nBegin with a chain of 51 (61)."
    )


def test_a_pattern_of_one_size_names_none() -> None:
    coaster = checked_of(next(path for path in EXAMPLES if path.stem == "limpet-coaster"))
    assert coaster is not None
    assert titles(coaster) == ["disc"]


def test_numbers_are_those_of_all_its_sizes() -> None:
    # Head 48 (54, 60) cm less 4 at 14 stitches to 10 cm are 61.6 (70, 78.4): 64 (72, 80) in eights.
    # One (two, two) rounds more of round 3; then 12 (13, 14) cm at 8 rounds to 10 cm are 9.6
    # (10.4, 11.2), the nearest 10 (11, 12) rounds, of which 4 (5, 5) came before.
    [(_, sizes, one)] = together(example("lantern-hat"))
    assert sizes == [0, 1, 2]
    assert [bracket.text for bracket in one.brackets] == [
        "8 sts, work 8 (9, 10) times",
        "round 3: work 2 (3, 3) times in all",
        "round 5 (6, 6): work 6 (6, 7) times in all",
    ]
    marks = [mark.text for mark in one.marks]
    assert marks[:6] == ["1", "2", "3", "4", "5 (6, 6)", "6 (7, 7)"]
    assert marks[6:] == [f"{n} ({n + 1}, {n + 2})" for n in range(11, 18)]
    said = text(one, "UK")
    assert "Begin with a chain of 64 (72, 80), joined into a ring." in said
    assert "Rounds 3 to 4 (5, 5) are one round worked 2 (3, 3) times, drawn 2 times." in said


@each
def test_its_words_tell_the_rows_of_every_size(path: Path) -> None:
    checked = checked_of(path)
    assert checked is not None
    for part, sizes, one in together(checked):
        for terms in ("UK", "US"):
            told = by_size(text(one, terms), checked.pattern.sizes[sizes[0]])
            for size in sizes:
                own = rows_told(text(chart(checked, part, size), terms))
                assert told[checked.pattern.sizes[size]] == own


def rows_told(words: str) -> list[str]:
    return [line for line in words.splitlines() if re.match(r"(Setup )?(R|r)o(w|und)\b.*: ", line)]


def by_size(words: str, first: str) -> dict[str, list[str]]:
    """The rows of each size, read from the words of one chart."""
    pieces = re.split(r"^In size (.+?) (all|the|these) rows are .*$", words, flags=re.MULTILINE)
    rows = rows_told(pieces[0])
    out = {first: rows}
    for size, how, told in zip(pieces[1::3], pieces[2::3], pieces[3::3], strict=True):
        own = rows_told(told)
        names = {line.split(",")[0]: line for line in own}
        changed = [names.get(line.split(",")[0], line) for line in rows]
        out[size] = {"all": rows, "the": own, "these": changed}[how]
    return out


@each
def test_it_is_drawn_as_well_as_any_chart(path: Path) -> None:
    checked = checked_of(path)
    assert checked is not None
    for _, _, one in together(checked):
        assert_well_drawn(one)


@pytest.mark.parametrize("name", ["throw", "mast"])
def test_rounds_of_more_or_fewer_repeats_are_one_wedge_from_the_ring(name: str) -> None:
    checked = pipeline.check_text("large.crochet", LARGE[name].text).checked
    assert checked is not None
    [(part, sizes, one)] = together(checked)
    assert sizes == list(range(len(checked.fabrics)))
    assert_well_drawn(one)
    [arc] = [bracket for bracket in one.brackets if bracket.centre]
    assert arc.text == LARGE[name].said
    # Two of 6 or 8 repeats: of every round a third or a quarter.
    share = {"throw": 3, "mast": 4}[name]
    known = [row.made.tally() for rows, _ in checked.fabrics[0].parts[0].rows for row in rows]
    first, second = (sum(n for m, n in made.items() if m.what == "st") for made in known[:2])
    assert [len(row_of(one, 1)), len(row_of(one, 2))] == [first // share, second // share]
    # By itself each size is drawn with a whole middle.
    assert len(row_of(chart(checked, part, 0), 1)) == first


@each
def test_it_has_the_rows_of_every_one_of_its_sizes(path: Path) -> None:
    checked = checked_of(path)
    assert checked is not None
    for part, sizes, one in together(checked):
        for size, drawn in zip(sizes, (one, *one.others), strict=True):
            whole = chart(checked, part, size, whole=True)
            assert drawn.selection is not None
            for row, chosen in enumerate(drawn.selection.rows, start=1):
                own = [s for s in whole.symbols if s.number == chosen.number and s.row]
                looks = [s.look for s in one.symbols if s.row == row]
                assert {s.look for s in own} == set(looks), (one.title, size, chosen.number)
                assert len(looks) <= len(own)


def test_a_page_and_a_pdf_take_the_charts_of_every_size() -> None:
    checked = example("breakwater-mittens")
    page = rendering.sheet(checked, "UK", "html", rendering.charts(checked, "UK"))
    heads = re.findall(r"<h2>([^<]+)</h2>\s*<figure", page)
    assert [head.rpartition(": ")[2] for head in heads] == titles(checked)


def test_the_working_mode_draws_equal_charts_once() -> None:
    checked = example("tideline-cowl")
    drawn = rendering.hook_charts(checked, "UK", "en")
    assert len(drawn) == 2
    assert len(set(drawn.values())) == 1
    # Where rows have other numbers in another size, a row is lit by its own number.
    hat = rendering.hook_charts(example("lantern-hat"), "UK", "en")
    assert len(set(hat.values())) == 3
    assert 'data-row="18"' in hat["hat", 1]
    assert 'data-row="19"' in hat["hat", 2]
