"""What is measured of a pattern and what goes in its bag, as values for other programs: worked out
by hand, and the same as the command says."""

from __future__ import annotations

import json
from fractions import Fraction
from pathlib import Path

import pytest

import loopwright
from support import EXAMPLES, HOUSE, run, text_of

MITTENS = text_of(HOUSE / "examples" / "breakwater-mittens.crochet")
by_example = pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)


def test_measures_are_those_of_the_command() -> None:
    measured = loopwright.measure(MITTENS)
    printed = json.loads(run("sizes", "-", "--format", "json", given=MITTENS.encode()).out)
    wanted = [
        (part["part"], one["words"], one["mm"])
        for part in printed["parts"]
        for one in part["dimensions"]
    ]
    assert [(one.part, one.what, dict(one.mm)) for one in measured.lengths] == wanted
    assert measured.sizes == ("child", "woman", "man")
    assert [one.size for one in measured.yarn] == ["child", "woman", "man"]
    for one in measured.yarn:
        assert one.metres is not None
        assert 0 < one.metres[0] <= one.metres[1]
    assert measured.without_gauge == ()


def test_a_length_by_hand() -> None:
    text = (
        "pattern: Ten\nterms: UK\ngauge g: 20 sts and 20 rows to 10 cm in dc\n"
        "part swatch: flat, gauge g\nstart: ch 11\n"
        "row 1: dc in 2nd ch from hook, dc in each ch across = 10 sts\n"
        "rows 2-8: ch 1, dc in each st across = 10 sts\n"
    )
    measured = loopwright.measure(text)
    # 10 stitches at 2 to the cm, 8 rows at 2 to the cm
    assert {one.what: one.mm["one size"] for one in measured.lengths} == {
        "width": 50.0,
        "height": 40.0,
    }


BAG = """pattern: Limpet Band
terms: UK
designer: Keeper of the pier
sizes: short (long)
yarn slate: "DK wool", 50 g = 110 m, price 4.50 per ball
hook main: 4 mm
measure head: 18 cm
gauge tide: 20 sts and 20 rows to 10 cm in dc, hook main, yarn slate, weighs 8 g
count width: 40 (60)
kit: 2 (3) balls slate, hook main price 2.50, 2 wooden buttons price 0.40 each, a bag, margin 10%
part band: flat, yarn slate, gauge tide
start: ch {width + 1}
row 1: dc in 2nd ch from hook, dc in each ch across = {width} sts
rows 2-10: ch 1, dc in each st across = {width} sts
"""


def test_a_bag_by_hand() -> None:
    bag = loopwright.read(BAG).bag(bags=10)
    slate, hook, buttons, paper = bag.things
    assert (slate.what, slate.unit, slate.stated, slate.price) == (
        "yarn",
        "ball",
        True,
        Fraction(9, 2),
    )
    assert (slate.in_bag, dict(slate.by_size)) == (3, {"short": 2, "long": 3})
    assert (hook.name, hook.unit, buttons.in_bag, buttons.price) == (
        "main",
        "piece",
        2,
        Fraction(2, 5),
    )
    assert paper.price is None
    # 3 x 4.50 + 2.50 + 2 x 0.40, and 2 x 4.50 in the short one; nobody said what a bag costs
    assert bag.cost == loopwright.Cost(Fraction("16.80"), (paper.name,))
    assert bag.cost_by_size["short"].total == Fraction("12.30")
    # 20 x 20 stitches to 8 g, and 40 x 10 are as many; the allowance is a tenth, and half as much
    # again at most. What is left of two balls goes up to whole grams as well.
    took = slate.takes["short"].grams
    assert took is not None
    assert 9 <= took[0] == took[1] <= 10
    assert slate.left_unit == "g"
    assert 100 - took[1] <= slate.left["short"][0] <= 101 - took[1]
    # 10 bags of 3 balls and a tenth more; hooks and buttons have no margin
    ordered = {one.name: one for one in bag.orders}
    assert (bag.bags, bag.margin) == (10, Fraction(1, 10))
    assert (ordered["slate"].balls, ordered["slate"].grams, ordered["slate"].metres) == (
        33,
        1650,
        3630,
    )
    assert ordered["slate"].cost == Fraction("148.50")
    assert (ordered["main"].amount, ordered["main"].cost) == (10, 25)
    assert loopwright.read(BAG).bag().orders == ()


@by_example
def test_a_bag_is_that_of_the_command(path: Path) -> None:
    bag = loopwright.read(text_of(path), name=str(path)).bag(bags=7)
    told = json.loads(run("kit", str(path), "--format", "json", "--bags", "7").out)
    assert [(one.what, one.unit, float(one.in_bag)) for one in bag.things] == [
        (one["what"], one["unit"], one["in_bag"]) for one in told["items"]
    ]
    for thing, item in zip(bag.things, told["items"], strict=True):
        for size, need in item.get("needed", {}).items():
            took = thing.takes.get(size)
            assert (took is None) == (need is None)
            if took is not None and need["grams"] is not None:
                assert took.grams == (need["grams"]["least"], need["grams"]["most"])
            if took is not None and need["left_over"] is not None:
                left = need["left_over"]
                assert (thing.left[size], thing.left_unit) == (
                    (left["least"], left["most"]),
                    left["unit"],
                )
    assert [(one.balls, one.grams, one.metres) for one in bag.orders] == [
        (one["balls"], one["grams"], one["metres"]) for one in told["order"]["items"]
    ]


def test_what_a_pattern_says_of_itself() -> None:
    assert loopwright.read(BAG).texts == {"designer": "Keeper of the pier"}
    skill = loopwright.read(MITTENS).texts["skill"]
    assert f"skill: {skill}\n" in MITTENS
    assert loopwright.read("nothing").texts == {}


def test_ease_by_hand() -> None:
    eases = {(one.part, one.size): one for one in loopwright.measure(MITTENS).eases}
    hand = eases["hand", "child"]
    # 28 stitches at 17 to 10 cm, around a palm of 15 cm
    assert (hand.measure, hand.along, hand.share) == ("palm", "around", 1.0)
    assert (hand.wanted, hand.mm, hand.more) == (150.0, round(28 / 1.7 * 10, 2), 14.71)
