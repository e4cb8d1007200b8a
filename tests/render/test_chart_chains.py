"""Stitches into the chains of a row stand over the chains that the maker meets.

Told by hand: a row that goes back over three chains comes first to the one that was made last. In
the picture that is the nearest one, so that three stitches into three chains stand side by side.
"""

from __future__ import annotations

import pytest
from chart_geometry import apart, row_of

from loopwright.pipeline import check_text
from loopwright.render.chart import Chart, Symbol, chart, text
from loopwright.render.chart.values import STEP, Point

HEAD = "pattern: Slipway Band\nterms: UK\npart band: flat\nstart: 12 foundation dc\n"
GAP = "ch 1, 3 dc, ch 3, skip 3 sts, 6 dc\n"


def drawn(rows: str) -> Chart:
    checked = check_text("band", HEAD + rows).checked
    assert checked is not None
    return chart(checked, "band", 0)


def chains(drawn: Chart, row: int) -> list[float]:
    """Where the chains of a row lie, in the order made."""
    run = next(s for s in drawn.symbols if s.row == row and s.path and len(s.path) == 4)
    return [(one.x + two.x) / 2 for one, two in zip(run.path, run.path[1:], strict=False)]


def feet(symbols: list[Symbol]) -> list[float]:
    return [symbol.feet[0].x for symbol in symbols]


@pytest.mark.parametrize(
    "written",
    [
        "ch 1, 6 dc, dc in each of next 3 ch, 3 dc",
        "ch 1, dc in each st and ch across",
        "ch 1, 6 dc, dc in 1st ch of next ch-3 sp, dc in next ch, dc in next ch, 3 dc",
        "ch 1, 6 dc, dc in 1st ch of next ch-3 sp, htr in next ch, tr in next ch, 3 dc",
    ],
)
def test_a_row_that_turned_meets_the_last_chain_first(written: str) -> None:
    band = drawn(f"row 1: {GAP}row 2: {written} = 12 sts\n")
    three = row_of(band, 2)[6:9]
    made_last_first = chains(band, 1)[::-1]
    assert feet(three) == pytest.approx(made_last_first, abs=1)
    # Nothing crosses: they come to the chains and end in the order in which the row is worked.
    for along in (feet(three), [symbol.top.x for symbol in three]):
        assert along == sorted(along)


def test_one_stitch_goes_into_the_chain_that_is_named() -> None:
    # Going back, the 1st chain met is the last one made, and the 3rd met the first made.
    for nth, made, told in (
        ("1st", 2, "dc in the next chain,"),
        ("2nd", 1, "dc in the 2nd chain of the next space,"),
        ("3rd", 0, "dc in the 3rd chain of the next space,"),
    ):
        band = drawn(f"row 1: {GAP}row 2: ch 1, 6 dc, dc in {nth} ch of next ch-3 sp, 3 dc\n")
        assert row_of(band, 2)[6].feet[0].x == pytest.approx(chains(band, 1)[made], abs=1)
        assert told in text(band, "UK")


def test_a_row_that_did_not_turn_meets_the_first_chain_first() -> None:
    back = "ch 1, 3 dc, ch 3, skip 3 sts, 6 dc, do not turn\n"
    band = drawn(f"row 1: {back}row 2: ch 1, 3 dc, dc in each of next 3 ch, 6 dc = 12 sts\n")
    three = row_of(band, 2)[3:6]
    assert feet(three) == pytest.approx(chains(band, 1), abs=1)
    assert feet(three) == sorted(feet(three), reverse=True)


def test_a_row_worked_backwards_meets_the_last_chain_first() -> None:
    back = f"row 1: {GAP.strip()}, do not turn\n"
    band = drawn(f"{back}row 2: 6 crab dc, crab dc in each of next 3 ch, 3 crab dc = 12 sts\n")
    assert feet(row_of(band, 2)[6:9]) == pytest.approx(chains(band, 1)[::-1], abs=1)


@pytest.mark.parametrize(("turn", "met"), [("", [0, 1, 2]), (", turn", [2, 1, 0])])
def test_rounds_meet_chains_the_way_they_go(turn: str, met: list[int]) -> None:
    checked = check_text(
        "ring",
        "pattern: Slipway Ring\nterms: UK\npart ring: in rounds\nstart: magic ring\n"
        "round 1: ch 1, 9 dc in ring, join = 9 sts\n"
        f"round 2: ch 1, 3 dc, ch 3, skip 3 sts, 3 dc, join{turn}\n"
        "round 3: ch 1, dc in each st and ch around, join = 9 sts\n",
    ).checked
    assert checked is not None
    ring = chart(checked, "ring", 0)
    run = next(s for s in ring.symbols if s.row == 2 and len(s.path) == 4)
    middles = [
        Point((one.x + two.x) / 2, (one.y + two.y) / 2)
        for one, two in zip(run.path, run.path[1:], strict=False)
    ]
    # Turned, a round begins in the first stitch and comes to the last three before the chains.
    three = row_of(ring, 3)[4:7] if turn else row_of(ring, 3)[3:6]
    nearest = [
        min(range(3), key=lambda i, foot=symbol.feet[0]: apart(middles[i], foot))
        for symbol in three
    ]
    assert nearest == met


SOCK = """pattern: Shelduck Sock
terms: US
part sock: in rounds
start: ch 12
round 1: sc in 2nd ch from hook, 9 sc, 3 sc in last ch, other side, 9 sc, 2 sc in last ch, join
rounds 2-5 as r: ch 1, [sc inc, {6 + 2 * r} sc, sc inc] 2 times, join
round 6: ch 1, 20 sc, opening heel over 20 sts, join
round 7: ch 1, sc in each st and ch around, join = 40 sts
round 8: ch 1, sc in each st around, join = 40 sts
"""


def test_an_opening_goes_around_the_end_of_an_oval() -> None:
    checked = check_text("sock", SOCK).checked
    assert checked is not None
    sock = chart(checked, "sock", 0)
    assert sock.manner == "oval"
    run = next(s for s in sock.symbols if s.row == 6 and len(s.path) == 21)
    # As many chains as stitches passed over lie along one side and half of either end, each about
    # as long as the others; what is worked next stands on them, no longer than other stitches.
    long = [apart(one, two) for one, two in zip(run.path, run.path[1:], strict=False)]
    assert max(long) < 1.5 * min(long)
    assert sum(long) < 2 * 20 * STEP
    for row in (7, 8):
        assert len(row_of(sock, row)) == 40
        for symbol in row_of(sock, row):
            assert apart(symbol.feet[0], symbol.top) < 2 * STEP


def skipped(rows: str, manner: str = "flat", n: int = 10) -> Chart:
    head = f"pattern: Slipway Band\nterms: UK\npart band: {manner}\nstart: ch {n}\n"
    checked = check_text("band", head + rows).checked
    assert checked is not None
    return chart(checked, "band", 0)


@pytest.mark.parametrize(("nth", "chains"), [("2nd", 1), ("3rd", 2), ("4th", 3), ("5th", 4)])
def test_chains_skipped_at_the_hook_are_drawn_as_chains_alone(nth: str, chains: int) -> None:
    # Of 10 chains each that is not skipped has its stitch, and no slip stitch is made.
    band = skipped(f"row 1: tr in {nth} ch from hook, tr in each ch across\n")
    shapes = [symbol.look.shape for symbol in band.symbols if symbol.row == 1]
    assert shapes == ["stitch"] * (10 - chains)
    upright = [symbol for symbol in band.symbols if symbol.look.shape == "upright chain"]
    assert [len(symbol.path) - 1 for symbol in upright] == [chains]


def test_chains_skipped_at_the_hook_are_told_once() -> None:
    words = text(skipped("row 1: tr in 4th ch from hook, tr in each ch across\n"), "UK")
    assert "Row 1, right side: ch 3 of the start passed over, 7 tr (one in each" in words
    assert "miss" not in words


def test_in_a_round_the_skipped_chains_are_met_at_its_end_and_drawn_as_no_stitch() -> None:
    band = skipped("round 1: 11 tr in 4th ch from hook, join\n", "in rounds", 4)
    shapes = [symbol.look.shape for symbol in band.symbols if symbol.row == 1]
    assert sorted(shapes) == ["dot", *["stitch"] * 11]  # the dot is the join
    assert "join, the ch 3 missed at the start come last; 11 stitches." in text(band, "UK")
