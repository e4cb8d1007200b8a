"""Ovals that lie flat, and what is none: lengths worked out by hand."""

from __future__ import annotations

import pytest

from loopwright.measure.dimensions import measures
from loopwright.pipeline import check_text
from loopwright.render.sizes.plain import json
from loopwright.rendering import schematics
from measure.measuring import codes

GAUGE = "10 sts and 10 rounds to 10 cm in dc"


def rug(*more: str, manner: str = "in rounds") -> str:
    """Twelve chains worked, rounds of six more each."""
    lines = (
        "pattern: Pier Rug", "terms: UK", f"gauge g: {GAUGE}",
        f"part rug: {manner}, gauge g", "start: ch 13",
        "round 1: dc in 2nd ch from hook, 10 dc, 3 dc in next ch, other side, 10 dc, "
        "2 dc in next ch, join = 26 sts",
        "rounds 2-4 as r: ch 1, {r - 2} dc, dc inc, 10 dc, [{r - 2} dc, dc inc] 3 times, 10 dc, "
        "[{r - 2} dc, dc inc] 2 times, join = {20 + 6 * r} sts",
        *more, "",
    )  # fmt: skip
    return "\n".join(lines)


def told(text: str) -> dict[str, float | None]:
    made = check_text("test", text).checked
    assert made is not None
    (part,) = measures(made)
    return {
        one.words: None if one.lengths[0] is None else float(one.lengths[0])
        for one in part.dimensions
    }


def test_an_oval_is_so_long_and_so_wide() -> None:
    """From the first of 12 chains to the last are 11 cm; 4 rounds of 1 cm lie on every side of
    that; the last round has 44 stitches."""
    assert told(rug()) == {"length": 190.0, "width": 80.0, "around the edge": 440.0}


def test_a_border_belongs_to_it() -> None:
    border = "round 5: ch 1, [crab dc] around, join = 44 sts"
    assert told(rug(border)) == {"length": 210.0, "width": 100.0, "around the edge": 440.0}


@pytest.mark.parametrize(
    ("more", "manner"),
    [
        # A bag: its bottom is an oval, and its sides stand on that.
        ("rounds 5-9: ch 1, dc in each st around, join = 44 sts", "in rounds"),
        # Said to cup.
        ("round 5: ch 1, dc in each st around, join = 44 sts", "in rounds, shaped"),
        # Drawn in again at its edge.
        ("round 5: ch 1, [2 dc, dc dec] 11 times, join = 33 sts", "in rounds"),
    ],
)
def test_what_is_no_flat_oval(more: str, manner: str) -> None:
    assert "length" not in told(rug(more, manner=manner))


def test_it_is_drawn_from_above_and_told_as_data() -> None:
    made = check_text("test", rug()).checked
    assert made is not None
    ((_, svg),) = schematics(made, "UK")
    assert ">length: 19 cm / 7½ in<" in svg
    assert ">width: 8 cm / 3¼ in<" in svg
    # 19 cm in 300 units: the straight of 11 cm is 173.7 of them, an end 63.2.
    assert 'd="M153.2 84.8L326.8 84.8A63.2 63.2' in svg
    assert '"kind": "oval"' in json(made, measures(made))


def test_corners_of_two_stitches_with_a_chain_between_make_a_motif() -> None:
    text = "\n".join(
        (
            "pattern: Urchin", "terms: UK", "gauge g: 14 sts and 7 rounds to 10 cm in tr",
            "part urchin: in rounds, gauge g", "start: magic ring",
            "round 1: ch 3 as tr, tr in ring, [ch 2, 2 tr in ring] 5 times, ch 2, join = 12 tr",
            "rounds 2-4 as r: ch 3 as tr, {r - 1} tr, (tr, ch 2, tr) in next ch-2 sp, "
            "[{2 * r - 2} tr, (tr, ch 2, tr) in next ch-2 sp] 5 times, {r - 2} tr, join "
            "= {12 * r} tr", "",
        )
    )  # fmt: skip
    # 48 tr and 12 ch are 60 places of 10/14 cm, and a sixth of that is a side.
    found = told(text)
    assert set(found) == {"each side", "around the edge"}
    assert found["each side"] == pytest.approx(6000 / 14 / 6)


def base(*rounds: str) -> str:
    """The oval base of a bag, about 14 chains worked, with four stitches at each end of them."""
    lines = (
        "pattern: Pier Bag", "terms: UK", "gauge g: 12 sts and 13 rounds to 10 cm in dc",
        "part base: in rounds, gauge g", "start: ch 15",
        "round 1: 2 dc in 2nd ch from hook, 12 dc, 4 dc in next ch, other side, 12 dc, "
        "2 dc in next ch, join = 32 sts",
        "round 2: ch 1, [2 dc inc, 12 dc, 2 dc inc] 2 times, join = 40 sts",
        *rounds, "",
    )  # fmt: skip
    return "\n".join(lines)


EIGHT = tuple(
    f"round {n}: ch 1, [[{n - 2} dc, dc inc] 2 times, 12 dc, [{n - 2} dc, dc inc] 2 times] "
    f"2 times, join = {24 + 8 * n} sts"
    for n in (3, 4, 5)
)
DOUBLED = (
    "round 3: ch 1, [4 dc inc, 12 dc, 4 dc inc] 2 times, join = 56 sts",
    "round 4: ch 1, [8 dc inc, 12 dc, 8 dc inc] 2 times, join = 88 sts",
)


def test_an_oval_that_grows_by_eight_lies_flat() -> None:
    """13 of 12 to 10 cm from the first of 14 chains to the last; 5 rounds of 13 to 10 cm on
    every side; 64 stitches around."""
    across, out = 13 * 100 / 12, 5 * 100 / 13
    assert told(base(*EIGHT)) == pytest.approx(
        {"length": across + 2 * out, "width": 2 * out, "around the edge": 64 * 100 / 12}
    )
    assert codes(base(*EIGHT)) == []


def test_an_oval_whose_ends_are_doubled_ruffles() -> None:
    """Rounds of 13 to 10 cm have room for 2 pi times 7.7 mm, 5.8 stitches more each. Round 3 has
    24 more than round 1; with a third more than a disc may, 1.29 times, there is room for 20."""
    (advice,) = check_text("test", base(*DOUBLED)).diagnostics
    assert advice.code == "round-ruffles"
    assert (advice.part, advice.row) == ("base", "round 3")
    assert "A flat oval of dc grows by about 6 stitches a round at this gauge" in advice.text
    assert codes(base(*DOUBLED).replace("in rounds,", "in rounds, frilled,")) == []
    assert codes(base(*DOUBLED[:1])) == []  # three rounds can be pulled flat


def test_an_oval_that_ruffles_is_no_tube() -> None:
    assert set(told(base(*DOUBLED))) == {"length", "width", "around the edge"}
