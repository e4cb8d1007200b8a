"""Edgings of shells and loops, which stretch nothing: lengths worked out by hand."""

from __future__ import annotations

import pytest

from loopwright.measure.dimensions import how_text
from measure.measuring import advice, codes, measured, pattern

SHELLS = "next round: ch 1, [sc, skip 1 st, 5 dc in next st, skip 1 st] around, join"
LOOPS = "next round: ch 1, [sc, ch 5, skip 1 st] around, join"

SQUARE = pattern(
    "10 sts and 5 rounds to 10 cm in dc",
    "in rounds",
    "start: ch 4, join into ring",
    "round 1: ch 3 as dc, 2 dc in ring, [ch 2, 3 dc in ring] 3 times, ch 2, join = 12 dc",
    *(
        f"round {n}: move to next ch-2 sp, ch 3 as dc, (dc, ch 2, 2 dc) in same sp, "
        "[dc in each st to next ch-2 sp, (2 dc, ch 2, 2 dc) in next ch-2 sp] 3 times, "
        f"dc in each st around, join = {16 * n - 4} dc, 4 ch-2 sps"
        for n in (2, 3, 4)
    ),
    "",
)
"""16 stitches more every round of 2 cm, as a flat square has: 20, 36, 52 and 68 with the chains."""

MAT = pattern(
    "10 sts and 10 rounds to 10 cm in sc",
    "in rounds",
    "start: magic ring",
    "round 1: ch 1, 10 sc in ring, join",
    *(
        f"round {n}: ch 1, [{n - 2} sc, sc inc] around, join = {10 * n} sts"
        for n in (2, 3, 4, 5, 6)
    ),
    "",
).replace(" 0 sc,", "")
"""10 stitches more every round of 1 cm, where 2 pi have room."""

TUBE = pattern(
    "10 sts and 10 rounds to 10 cm in sc",
    "in rounds",
    "start: ch 60, join into ring",
    "rounds 1-10: ch 1, sc in each st around, join = 60 sts",
    "",
).replace(
    "rounds 1-10: ch 1, sc in each st",
    "round 1: ch 1, sc in each ch around, join\nrounds 2-10: ch 1, sc in each st",
)


def told(text: str) -> dict[str, float]:
    part = measured(text)
    return {
        one.words: round(float(one.lengths[0]), 1)
        for one in part.dimensions
        if one.lengths[0] is not None
    }


def test_a_square_stays_a_square_in_shells() -> None:
    assert told(SQUARE) == {"each side": 170, "around the edge": 680}
    # 2 cm of double crochet, flat on a square: 8 times that longer, not 15 shells of 6.
    assert told(SQUARE + SHELLS) == {"each side": 210, "around the edge": 840}


def test_of_shells_sizes_are_told_as_about_right() -> None:
    tube = TUBE + SHELLS
    assert [one.about for one in measured(TUBE).dimensions] == [False, False]
    assert all(one.about for one in measured(tube).dimensions)


@pytest.mark.parametrize("edge", [SHELLS, LOOPS])
def test_a_mat_that_ruffles_does_so_with_an_edging_too(edge: str) -> None:
    assert codes(MAT) == codes(MAT + edge) == ["round-ruffles"]
    assert advice(MAT)[0].text == advice(MAT + edge)[0].text
    # Six rounds of 1 cm reach as far as that, whatever their length; then one of dc, or of sc.
    assert told(MAT)["across, laid flat"] == 120
    assert told(MAT + edge)["across, laid flat"] == (160 if edge == SHELLS else 140)


@pytest.mark.parametrize("edge", [SHELLS, LOOPS])
def test_a_tube_is_as_far_around_as_before(edge: str) -> None:
    assert told(TUBE)["around"] == told(TUBE + edge)["around"] == 600


def test_rounds_after_the_first_of_an_edging_are_of_it_too() -> None:
    more = "\nnext round: ch 1, sc in each st around, join"
    assert told(TUBE + SHELLS + more)["around"] == 600


@pytest.mark.parametrize(
    "last",
    [
        "next round: ch 1, [3 sc in next st] around, join = 180 sts",  # passes no stitch: a ruffle
        "next round: ch 1, [sc, skip 1 st, 3 sc in next st, skip 1 st] around, join = 60 sts",
    ],
)
def test_what_is_no_edging_is_as_long_as_its_stitches(last: str) -> None:
    longest = 1800 if "180" in last else 600
    assert max(row.long for row in measured(TUBE + last).sizes[0].rows) == longest
    assert not any(row.edging for row in measured(TUBE + last).sizes[0].rows)


def test_a_net_about_a_small_middle_is_no_edging() -> None:
    net = pattern(
        "10 sts and 10 rounds to 10 cm in sc",
        "in rounds",
        "start: magic ring",
        "round 1: ch 1, 12 sc in ring, join",
        "round 2: ch 1, [sc, ch 5, skip 1 st] around, join = 6 ch-5 sps",
        "round 3: move to next ch-5 sp, ch 1, sc in same sp, [ch 6, sc in next ch-5 sp] around, "
        "ch 6, join",
    )
    # 12 sc; 6 and 6 times 5 chains; 6 and 6 times 6 chains.
    assert [row.long for row in measured(net).sizes[0].rows] == [120, 360, 420]


def test_a_frill_is_meant() -> None:
    frilled = TUBE.replace("in rounds,", "in rounds, frilled,") + SHELLS
    assert max(row.long for row in measured(frilled).sizes[0].rows) == 900


def test_the_sizes_say_what_is_taken_of_an_edging() -> None:
    taken = "An edging of shells or loops is taken to lie flat on what it is worked on."
    assert taken in how_text(measured(TUBE + SHELLS), "gauge")
    assert taken not in how_text(measured(TUBE), "gauge")
