"""Yarn, worked out by hand: windchilde's rates, a gauge, and nothing else."""

from __future__ import annotations

from fractions import Fraction

import pytest

from loopwright.ir.checked import Checked
from loopwright.measure.amounts import (
    between_text,
    figures,
    grams_text,
    how_text,
    left_text,
    metres_text,
    percent_text,
    plain,
)
from loopwright.measure.yarn import Between, Need, YarnUse, needed
from loopwright.pipeline import check_text

HEAD = "pattern: Tideline Swatch\nterms: US\nallowance: 0%\n"
SLATE = 'yarn slate: "wool", 50 g = 100 m\n'
ROWS = """part piece: flat, gauge plain
start: ch 21
row 1: sc in 2nd ch from hook, sc in each ch across = 20 sts
row 2: ch 1, sc in each st across = 20 sts
"""
# 21 chains of 5.1 and one turning chain, and 40 single crochets of 10.6, in widths of a stitch.
WIDTHS = 22 * Fraction("5.1") + 40 * Fraction("10.6")
INCH = Fraction(254, 10000)


def checked(text: str) -> Checked:
    result = check_text("yarn", HEAD + text)
    assert result.checked is not None, [one.text for one in result.diagnostics]
    return result.checked


def use_of(text: str) -> YarnUse:
    made = checked(text)
    return needed(made.pattern, made.fabrics)


def need_of(text: str, yarn: str = "slate") -> Need:
    (need,) = (one for one in use_of(text).needs if one.yarn == yarn)
    return need


# ---------------------------------------------------------- estimates


def test_a_gauge_without_rows_goes_by_the_width_of_a_stitch() -> None:
    # 4 sts to the inch: a quarter of an inch each; a fifth either way
    need = need_of(f"{SLATE}gauge plain: 4 sts to 1 in in sc, yarn slate\n{ROWS}")
    metres = WIDTHS / 4 * INCH
    assert need.metres == Between(metres * 4 / 5, metres * 6 / 5)
    assert need.grams == Between(metres * 2 / 5, metres * 3 / 5)  # half a gram a metre
    assert need.balls == 1
    assert need.how == ("estimate",)


def test_a_gauge_with_rows_goes_by_the_yarn_of_a_square() -> None:
    # windchilde: 31.42 in to the square inch with stitches 4/14 in wide; a row is 1/5 in high
    need = need_of(f"{SLATE}gauge plain: 4 sts and 5 rows to 1 in in sc, yarn slate\n{ROWS}")
    stitch = Fraction("31.42") * Fraction(4, 14) / 5 * INCH
    metres = WIDTHS / Fraction("10.6") * stitch
    assert need.metres == Between(metres * 4 / 5, metres * 6 / 5)


def test_windchilde_s_worked_example() -> None:
    # 34 x 34 in of hdc take 37,084.48 in of yarn. At 14 sts and 8 rows to 4 in that is 68 rows of
    # 119 stitches; besides them the program counts 120 chains and 67 turning chains.
    need = need_of(
        f"{SLATE}gauge plain: 14 sts and 8 rows to 4 in in hdc, yarn slate\n"
        "part piece: flat, gauge plain\nstart: ch 120\n"
        "row 1: hdc in 2nd ch from hook, hdc in each ch across = 119 sts\n"
        "row 2: ch 1, hdc in each st across = 119 sts\nrepeat row 2: until 34 in\n"
    )
    stitch = Fraction("37084.48") / (119 * 68)
    yarn = Fraction("37084.48") + (120 + 67) * stitch * Fraction("5.1") / Fraction("15.7")
    assert need.metres is not None
    assert (need.metres.least + need.metres.most) / 2 == yarn * INCH


# ------------------------------------------------------------ swatches


def test_a_weighed_swatch() -> None:
    # 16 sts and 20 rows: 320 single crochets of 10.6 widths in 8 g
    need = need_of(
        f"{SLATE}gauge plain: 16 sts and 20 rows to 4 in in sc, yarn slate, weighs 8 g\n{ROWS}"
    )
    grams = WIDTHS / (320 * Fraction("10.6")) * 8
    assert need.grams == Between(grams, grams)
    assert need.metres == Between(2 * grams, 2 * grams)
    assert (need.balls, need.how) == (1, ("weighed",))


def test_a_swatch_whose_yarn_was_measured() -> None:
    need = need_of(
        f"{SLATE}gauge plain: 16 sts and 20 rows to 4 in in sc, yarn slate, uses 20 yd\n{ROWS}"
    )
    metres = WIDTHS / (320 * Fraction("10.6")) * 20 * 36 * INCH
    assert need.metres == Between(metres, metres)
    assert need.how == ("used",)


def test_a_swatch_of_a_yarn_whose_ball_is_not_known() -> None:
    text = 'yarn slate: "wool"\ngauge plain: 16 sts and 20 rows to 4 in in sc, weighs 8 g\n' + ROWS
    need = need_of(text)
    grams = WIDTHS / (320 * Fraction("10.6")) * 8
    assert (need.grams, need.metres, need.balls) == (Between(grams, grams), None, None)


def test_other_stitches_take_their_published_share() -> None:
    # the swatch is of dc (20.4), the part of sc (10.6)
    need = need_of(
        f"{SLATE}gauge plain: 16 sts and 10 rows to 4 in in dc, yarn slate, weighs 8 g\n{ROWS}"
    )
    assert need.grams is not None
    assert need.grams.most == WIDTHS / (160 * Fraction("20.4")) * 8


BOTH = 'yarn rock: "wool", 50 g = 100 m\nyarn mist: "mohair", 25 g = 200 m\n'
TOGETHER = ROWS.replace("flat", "flat, yarn rock + mist")


def test_strands_held_together_count_for_each() -> None:
    # a metre of both weighs 0.5 + 0.125 g, so 8 g are 12.8 m of each
    text = f"{BOTH}gauge plain: 16 sts and 20 rows to 4 in in sc, yarn rock + mist, weighs 8 g\n"
    needs = use_of(text + TOGETHER).needs
    metres = WIDTHS / (320 * Fraction("10.6")) * Fraction("12.8")
    assert [need.yarn for need in needs] == ["rock", "mist"]
    assert [need.metres for need in needs] == [Between(metres, metres)] * 2
    assert [need.grams and need.grams.most for need in needs] == [metres / 2, metres / 8]


def test_strands_whose_weights_are_not_known_are_estimated() -> None:
    text = f"{BOTH}gauge plain: 16 sts and 20 rows to 4 in in sc, yarn rock + mist, weighs 8 g\n"
    needs = use_of(text.replace(", 25 g = 200 m", "") + TOGETHER).needs
    assert {need.how for need in needs} == {("estimate",)}
    assert needs[1].grams is None


def test_a_part_in_another_yarn_than_its_swatch_takes_the_same_length() -> None:
    text = f"{BOTH}gauge plain: 16 sts and 20 rows to 4 in in sc, yarn rock, weighs 8 g\n"
    (need,) = (one for one in use_of(text + ROWS.replace("flat", "flat, yarn mist")).needs)
    metres = WIDTHS / (320 * Fraction("10.6")) * 16
    assert (need.yarn, need.metres) == ("mist", Between(metres, metres))
    assert need.grams == Between(metres / 8, metres / 8)


def test_grams_and_metres_of_an_unknown_ball_are_not_added() -> None:
    # one part weighed, the other not: both by estimate
    text = (
        'yarn slate: "wool"\n'
        "gauge plain: 16 sts and 20 rows to 4 in in sc, weighs 8 g\n"
        "gauge other: 16 sts and 20 rows to 4 in in sc\n"
        + ROWS
        + ROWS.replace("piece", "more").replace("gauge plain", "gauge other")
    )
    need = need_of(text)
    stitch = Fraction("31.42") * Fraction(4, 14) / 5 * INCH
    metres = 2 * WIDTHS / Fraction("10.6") * stitch
    assert need.metres == Between(metres * 4 / 5, metres * 6 / 5)
    assert (need.grams, need.how) == (None, ("estimate",))


# --------------------------------------------------------- all together


def test_what_is_made_twice_takes_twice() -> None:
    text = f"{SLATE}gauge plain: 16 sts and 20 rows to 4 in in sc, yarn slate, weighs 8 g\n{ROWS}"
    one, two = need_of(text), need_of(text.replace("flat", "flat, make 2"))
    assert one.grams is not None
    assert two.grams == Between(2 * one.grams.most, 2 * one.grams.most)


def test_the_allowance() -> None:
    text = f"{SLATE}gauge plain: 16 sts and 20 rows to 4 in in sc, yarn slate, weighs 8 g\n{ROWS}"
    bare = need_of(text)
    use = needed_without_allowance_line(text)
    assert bare.grams is not None
    assert use.needs[0].grams == bare.grams.times(Fraction(11, 10))
    assert (use.allowance, use.stated) == (Fraction(1, 10), False)
    assert use_of(text).stated


def needed_without_allowance_line(text: str) -> YarnUse:
    result = check_text("yarn", HEAD.replace("allowance: 0%\n", "") + text)
    assert result.checked is not None
    return needed(result.checked.pattern, result.checked.fabrics)


def test_balls_are_rounded_up_from_the_most() -> None:
    # 5 g of 8 g a swatch: 320 stitches and 22 chains, 8.3 g; balls of 4 g and of 10 g
    rows = ROWS.replace("row 2:", "rows 2-16:")
    gauge = "gauge plain: 16 sts and 20 rows to 4 in in sc, yarn slate, weighs 8 g\n"
    small = need_of(f'yarn slate: "wool", 4 g = 8 m\n{gauge}{rows}')
    large = need_of(f'yarn slate: "wool", 10 g = 20 m\n{gauge}{rows}')
    assert small.grams is not None
    assert 8 < small.grams.most < 12
    assert (small.balls, large.balls) == (3, 1)


def test_a_part_without_gauge_is_named_and_not_reckoned() -> None:
    text = f"{SLATE}gauge plain: 4 sts to 1 in in sc, yarn slate\n{ROWS}"
    text += ROWS.replace("piece", "cord").replace(", gauge plain", "")
    use = use_of(text)
    assert use.without == ("cord",)
    assert use.needs == use_of(f"{SLATE}gauge plain: 4 sts to 1 in in sc, yarn slate\n{ROWS}").needs
    none = use_of(ROWS.replace(", gauge plain", ""))
    assert none.needs == ()
    assert "No part has a tension" in how_text(none, "tension")


def test_a_pattern_that_names_no_yarn() -> None:
    (need,) = use_of(f"gauge plain: 4 sts to 1 in in sc\n{ROWS}").needs
    assert (need.yarn, need.grams, need.balls) == ("", None, None)


def test_every_size_has_its_own() -> None:
    text = f"sizes: small (large)\n{SLATE}gauge plain: 4 sts to 1 in in sc, yarn slate\n" + (
        "part piece: flat, gauge plain\nstart: 10 (20) foundation sc\nrow 1: ch 1, 10 (20) sc\n"
    )
    small, large = use_of(text).needs
    assert (small.size, large.size) == (0, 1)
    # 10 foundation stitches of 16.0, 10 of 10.6, one chain of 5.1; then 20 of each
    assert small.metres is not None
    assert large.metres is not None
    assert large.metres.most - small.metres.most == Fraction(266, 4) * INCH * 6 / 5


# ---------------------------------------------------------------- words


@pytest.mark.parametrize(
    ("value", "digits", "down", "up"),
    [
        ("0", 2, 0, 0),
        ("0.4", 2, 0, 1),
        ("18.2", 3, 18, 19),
        ("99.9", 2, 99, 100),
        ("182.3", 3, 182, 183),
        ("182.3", 2, 180, 190),
        ("180", 2, 180, 180),
        ("1234.5", 3, 1230, 1240),
        ("12345", 2, 12000, 13000),
    ],
)
def test_figures(value: str, digits: int, down: int, up: int) -> None:
    assert figures(Fraction(value), digits, up=False) == down
    assert figures(Fraction(value), digits, up=True) == up


def exactly(text: str) -> Between:
    return Between(Fraction(text), Fraction(text))


def test_amounts_in_words() -> None:
    assert grams_text(exactly("18.2")) == "19 g"
    assert metres_text(exactly("182.3")) == "183 m / 200 yd"  # 199.4 yd
    about = Between(Fraction("110.2"), Fraction("167.9"))
    assert metres_text(about) == "110 to 170 m / 120 to 190 yd"  # 120.5, 183.6 yd
    assert between_text(Between(Fraction(1234), Fraction(5678))) == "1,200 to 5,700"
    assert plain(Fraction("1200.5")) == "1,200.5"
    assert percent_text(Fraction("0.125")) == "12.5%"


def test_what_is_left_in_words() -> None:
    assert left_text(exactly("26.7"), "g") == "26 g"
    assert left_text(exactly("-3.2"), "g") == "4 g short"
    assert left_text(Between(Fraction("12.4"), Fraction("30.8")), "g") == "12 to 31 g"
    assert left_text(Between(Fraction("-20.1"), Fraction("-5.5")), "m") == "5 to 21 m short"
    assert left_text(Between(Fraction("-7.5"), Fraction("12.8")), "g") == "from 8 g short to 12 g"


def test_every_figure_says_how_it_was_got() -> None:
    gauge = "gauge plain: 16 sts and 20 rows to 4 in in sc, yarn slate"
    weighed = how_text(use_of(f"{SLATE}{gauge}, weighs 8 g\n{ROWS}"))
    assert "the swatch that was weighed" in weighed
    assert "published rates" in weighed
    assert "estimate" not in weighed
    assert "the designer's figure" in weighed
    guessed = how_text(needed_without_allowance_line(f"{SLATE}{gauge}\n{ROWS}"))
    assert "an estimate from the gauge and published rates, which may be 20% off" in guessed
    assert "10% is added for tails and a swatch (common practice)" in guessed
