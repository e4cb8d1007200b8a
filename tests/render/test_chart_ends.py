"""Of very many rows the first are drawn, and the last, which finish the piece.

By hand: a shawl grows by 8 trebles a row, 8, 16, 24 ... so that 40 rows are 8 x 40 x 41 / 2 = 6,560
trebles and more than a chart holds. The edging is rows 41 and 42.
"""

from __future__ import annotations

from functools import cache

from chart_geometry import assert_on_the_page, row_of, rows_drawn

from loopwright.pipeline import check_text
from loopwright.render.chart import Chart, Symbol, chart, rows_only, svg, text
from loopwright.render.chart.choose import MOST_SYMBOLS

SHAWL = """pattern: Wrack Shawl
terms: UK
part shawl: flat
start: ch 4, join into ring
row 1: ch 4 as (tr, ch 1), (3 tr, ch 2, 3 tr, ch 1, tr) in ring = 8 tr
row 2: ch 4 as (tr, ch 1), 2 tr in next ch-1 sp, tr in each tr to next ch-2 sp,
    (2 tr, ch 2, 2 tr) in next ch-2 sp, tr in each tr to next ch-1 sp, 2 tr in next ch-1 sp, ch 1,
    tr in top of ch-4 = 16 tr
repeat row 2: 38 more times
next row: ch 1, dc in next st, dc in next ch-1 sp, dc in each st to next ch-2 sp,
    3 dc in next ch-2 sp, dc in each st to next ch-1 sp, dc in next ch-1 sp, dc in last st
next row: ch 1, dc in first st, [miss 2 sts, (tr,
    ch-3 picot, tr, ch-3 picot, tr, ch-3 picot, tr) in next st, miss 2 sts, dc in next st] across
"""


@cache
def drawn(rows: tuple[int, int] | None = None) -> Chart:
    checked = check_text("shawl", SHAWL).checked
    assert checked is not None
    return chart(checked, "shawl", 0, rows=rows)


def numbers(drawn: Chart) -> list[str]:
    return [mark.text for mark in drawn.marks if mark.text]


def said(drawn: Chart) -> list[str]:
    return [str(note[0]) for note in drawn.notes]


def fans(symbols: list[Symbol]) -> list[list[Symbol]]:
    """The fans of a row, by the foot that each stands on, in the order made."""
    out: dict[tuple[float, float], list[Symbol]] = {}
    for symbol in symbols:
        out.setdefault(tuple(symbol.feet[0]), []).append(symbol)
    return [fan for fan in out.values() if len(fan) > 1]


def test_the_rows_asked_for_are_drawn_however_many_lie_below_them() -> None:
    end = drawn((40, 42))
    assert end.title.endswith("rows 40 to 42")
    assert numbers(end) == ["40", "41", "42"]
    assert not any("are not drawn: a chart holds" in note for note in said(end))
    assert text(end, "UK").splitlines()[1] == "The first row shown is worked into row 39."
    assert_on_the_page(end)
    # What is left of the edging is whole fans of 4 trebles, a double crochet before and after each.
    edging = row_of(end, 3)
    assert len(fans(edging)) >= 4
    assert all(len(fan) == 4 for fan in fans(edging))
    assert edging[0].words[0] == edging[-1].words[0] != fans(edging)[0][0].words[0]


def test_the_first_rows_and_the_last_are_drawn() -> None:
    shawl = drawn()
    # Rows 2 to 40 are written as one: some of them, the last of them, and the two of the edging.
    assert numbers(shawl) == [*map(str, range(1, 10)), "40", "41", "42"]
    assert [len(row_of(shawl, row)) for row in range(2, 10)] == [8 * n - 1 for n in range(2, 10)]
    assert len(shawl.symbols) <= MOST_SYMBOLS
    assert_on_the_page(shawl)
    assert shawl.manner == "half circle"
    between, above = said(shawl)[:2]
    assert between.startswith("Rows 10 to 39 are not drawn: a chart holds 4,000 symbols.")
    assert above.startswith("Rows 40 to 42 are drawn above the others, on the edge of row 39")
    assert "right-side rows are read from right to left" in above
    for note in said(shawl):
        assert note in text(shawl, "UK")


def test_the_last_rows_stand_above_the_first_ones() -> None:
    shawl = drawn()
    first = min(s.top.y for row in range(1, 10) for s in row_of(shawl, row))
    assert rows_drawn(shawl) == 12
    for row in (10, 11, 12):
        assert max(symbol.feet[0].y for symbol in row_of(shawl, row)) < first


def test_all_rows_are_told_in_words() -> None:
    told = text(drawn(), "UK").splitlines()
    assert [line.split(",")[0] for line in told if line.startswith("Row ")] == [
        f"Row {n}" for n in range(1, 43)
    ]


def test_a_page_can_light_each_row_drawn() -> None:
    page = rows_only(drawn())
    for row in (1, 9, 40, 41, 42):
        assert page.count(f'data-row="{row}"') == 1
    assert 'data-row="10"' not in page
    assert svg(drawn(), "UK").count("<title id=") == 1


def test_rows_of_a_flat_piece_too() -> None:
    # 150 rows of 30 stitches and a turning chain are 4,650. No row is like the one before it.
    rows = "".join(f"row {n}: ch 1, {n % 29 + 1} dc, [dc blo] across\n" for n in range(1, 151))
    start = "pattern: Cloth\nterms: UK\npart a: flat\nstart: 30 foundation dc\n"
    checked = check_text("cloth", start + rows).checked
    assert checked is not None
    cloth = chart(checked, "a", 0)
    # The last 8 are 8 x 31 = 248 symbols; of 31 in the 3,752 that are left go 121 rows.
    assert numbers(cloth) == [str(n) for n in (*range(1, 122), *range(143, 151))]
    assert said(cloth) == [
        "Rows 122 to 142 are not drawn: a chart holds 4,000 symbols. "
        "The text equivalent tells of them.",
        "Rows 143 to 150 are drawn above the others, on the edge of row 142.",
    ]


def test_the_grey_that_rounds_lie_on_stays_with_them() -> None:
    # Rounds 3 to 12 are one, on grey; then 60 rounds that grow by 6 are more than a chart holds.
    rounds = (
        "pattern: Limpet\nterms: UK\npart a: in rounds\nstart: magic ring\n"
        "round 1: ch 1, 12 dc in ring, join = 12 sts\nround 2: ch 1, [dc inc] around, join\n"
        "rounds 3-12: ch 1, [dc] around, join = 24 sts\n"
        + "".join(
            f"round {n}: ch 1, {5 * (n % 4)} dc, 6 dc inc, [dc] around, join\n"
            for n in range(13, 73)
        )
    )
    checked = check_text("limpet", rounds).checked
    assert checked is not None
    limpet = chart(checked, "a", 0)
    assert numbers(limpet)[-1] == "72"
    banded = [one for one in limpet.brackets if one.band]
    third = [symbol.top for symbol in row_of(limpet, 3)]
    middle = sum(top.y for top in third) / len(third)
    for one in banded:
        edge = one.band[0]
        assert abs(sum(point.y for point in edge) / len(edge) - middle) < 20
    assert banded
