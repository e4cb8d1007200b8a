"""The lines of measures from tables, kit, allowance, pace and `make`: what they mean, and what is
said of them where they are wrong."""

from __future__ import annotations

from fractions import Fraction

import pytest

from loopwright.ir.pattern import Body, Pattern
from loopwright.pipeline import Result, check_text

PATTERN = """pattern: Foghorn Band
terms: UK
sizes: baby (woman)
yarn slate: "DK wool", 50 g = 110 m
hook main: 4 mm
gauge plain: 16 sts and 18 rounds to 10 cm in dc, hook main, yarn slate
{lines}
count round: {count}
part band: in rounds, yarn slate, hook main, gauge plain{make}
start: ch round, join into ring
round 1: ch 1, dc in each ch around, join = round sts
"""


def result(lines: str = "", count: str = "60 (80)", make: str = "") -> Result:
    return check_text("notation", PATTERN.format(lines=lines, count=count, make=make))


def pattern(lines: str = "", count: str = "60 (80)", make: str = "") -> Pattern:
    found = result(lines, count, make)
    assert found.checked is not None, [one.text for one in found.diagnostics]
    return found.checked.pattern


def messages(lines: str, make: str = "") -> list[tuple[str, str]]:
    """The codes on a pattern, each with the text that it underlines."""
    found = result(lines, make=make)
    text = found.source.text
    return [
        (one.code, text[one.span.start : one.span.end])
        for one in found.diagnostics
        if one.code not in ("unused-name", "yarn-short")
    ]


HEAD = "head, at plain sts"


def test_a_body_in_each_size() -> None:
    (head,) = pattern("measure head: who girls 6 months (adult woman)", HEAD).measures
    assert head.lengths == (422, 560)
    assert head.unit == "cm"
    assert head.bodies == (
        Body("who", "6 months, median of girls"),
        Body("ansur", "adult woman, median"),
    )


def test_a_body_beside_a_length() -> None:
    (head,) = pattern("measure head: 17 in (adult woman)", HEAD).measures
    assert head.lengths == (Fraction("431.8"), 560)
    assert head.unit == "in"
    assert head.bodies == (None, Body("ansur", "adult woman, median"))


def test_one_body_for_every_size() -> None:
    (head,) = pattern("measure head: hat size M", HEAD).measures
    assert head.lengths == (560, 560)


def test_lengths_alone_are_from_no_table() -> None:
    (head,) = pattern("measure head: 42 (56) cm", HEAD).measures
    assert (head.lengths, head.unit, head.bodies) == ((420, 560), "cm", ())


def test_a_count_follows_the_body() -> None:
    # 42.2 cm and 56 cm less 3 cm at 1.6 to the cm: 62.72 and 84.8
    counts = pattern("measure head: who girls 6 months (adult woman)", "head - 3 cm, at plain sts")
    assert counts.counts[0].values == (63, 85)


@pytest.mark.parametrize(
    ("line", "code", "underlined"),
    [
        ("measure head: who 7 months (adult woman)", "unknown-name", "who 7 months"),
        ("measure head: who 6 months (adult)", "unknown-name", "adult"),
        ("measure foot: who 6 months", "unknown-name", "who 6 months"),
        ("measure head: adult woman (adult man, hat size M)", "wrong-number-of-sizes", ""),
        ("measure head: 40 (50) cm (adult woman)", "not-understood", "40 (50) cm"),
        ("measure head: 50 g (adult woman)", "units-disagree", "g"),
        ("measure head: adult woman (50 g)", "units-disagree", "g"),
    ],
)
def test_bodies_that_are_wrong(line: str, code: str, underlined: str) -> None:
    ((found, text),) = messages(line)
    assert found == code
    assert underlined in text


def test_a_measure_that_is_wrong_is_said_once() -> None:
    found = result("measure head: who 7 months", HEAD)
    assert [one.code for one in found.diagnostics] == ["unknown-name"]
    assert "newborn, 1, 2" in found.diagnostics[0].hints[0]


# ------------------------------------------------------------------ kit


def test_what_is_in_the_bag() -> None:
    kit = pattern(
        "kit: 2 (3) balls slate, hook main price 2.50, 3 wooden buttons price 0.4 each,"
        ' stitch marker, 50 cm elastic, "1 card, printed", margin 12.5%'
    ).kit
    assert kit is not None
    assert kit.margin == Fraction(1, 8)
    assert [(one.what, one.name, one.amounts, one.unit, one.price) for one in kit.items] == [
        ("yarn", "slate", (2, 3), "ball", None),
        ("hook", "main", (1, 1), "", Fraction("2.5")),
        ("thing", "wooden buttons", (3, 3), "", Fraction("0.4")),
        ("thing", "stitch marker", (1, 1), "", None),
        ("thing", "elastic", (50, 50), "cm", None),
        ("thing", "1 card, printed", (1, 1), "", None),
    ]


@pytest.mark.parametrize(
    ("written", "amount", "unit"),
    [
        ("1 skein", Fraction(1), "ball"),
        ("1.5 balls", Fraction("1.5"), "ball"),
        ("2 oz", Fraction("56.69904625"), "g"),
        ("120 yd", Fraction("109.728"), "m"),
        ("12000 cm", Fraction(120), "m"),
    ],
)
def test_yarn_by_the_ball_by_weight_and_by_length(
    written: str, amount: Fraction, unit: str
) -> None:
    kit = pattern(f"kit: {written} slate").kit
    assert kit is not None
    assert (kit.items[0].amounts[0], kit.items[0].unit) == (amount, unit)


def test_words_that_are_units_elsewhere_stay_words() -> None:
    kit = pattern("kit: g clamp, 2 margin notes").kit
    assert kit is not None
    assert [one.name for one in kit.items] == ["g clamp", "margin notes"]


@pytest.mark.parametrize(
    ("line", "code", "underlined"),
    [
        ("kit: 2 balls slte", "unknown-name", "slte"),
        ("kit: 50 g slat", "unknown-name", "slat"),
        ("kit: hook small", "unknown-name", "small"),
        ("kit: 2 slate", "not-understood", "2 slate"),
        ("kit: 2 hanks slate", "not-understood", "2 hanks slate"),
        ("kit: 1 ball slate, 20 g slate", "not-understood", "20 g slate"),
        ("kit: 2 (3, 4) balls slate", "wrong-number-of-sizes", "2 (3, 4)"),
        ("kit: hook main\nkit: hook main", "name-taken", "kit: hook main"),
        ("pace: 5 to 6 sts a minute\npace: 5 to 6 sts a minute", "name-taken", "pace"),
        ("allowance: 5%\nallowance: 6%", "name-taken", "allowance: 6%"),
        ("pace: 0 to 5 sts a minute", "not-understood", "pace"),
        ("pace: 18 sts a minute", "not-understood", "sts"),
        ("allowance: 5 g", "not-understood", "g"),
        ("kit: margin 5", "not-understood", ""),
    ],
)
def test_kits_that_are_wrong(line: str, code: str, underlined: str) -> None:
    ((found, text),) = messages(line)
    assert found == code
    assert underlined in text


def test_every_slip_of_a_kit_is_said() -> None:
    assert messages("kit: 2 balls slte, hook smal, 2 slate") == [
        ("unknown-name", "slte"),
        ("unknown-name", "smal"),
        ("not-understood", "2 slate"),
    ]


def test_a_hook_in_the_bag_is_not_yet_used() -> None:
    assert messages("hook small: 3 mm\nkit: hook small") == [("hook-unused", "small")]


def test_the_pace_and_the_allowance() -> None:
    made = pattern("pace: 1200 to 600 sts an hour\nallowance: 7.5%")
    assert made.pace is not None
    assert (made.pace.slow, made.pace.fast) == (10, 20)
    assert made.pace.written == "600 to 1200 sts an hour"
    assert made.allowance == Fraction("0.075")
    bare = pattern()
    assert (bare.pace, bare.allowance, bare.kit) == (None, None, None)


# ----------------------------------------------------------------- make


def test_how_many_are_made() -> None:
    assert pattern(make=", make 2").parts[0].make == (2, 2)
    assert pattern(make=", make 2 (4)").parts[0].make == (2, 4)
    assert pattern("count pair: 2", make=", make {pair * 2}").parts[0].make == (4, 4)
    assert pattern().parts[0].make == ()


@pytest.mark.parametrize(
    ("make", "code", "underlined"),
    [
        (", make {3 / 2}", "not-whole", "{3 / 2}"),
        (", make {1 - 2}", "below-nought", "{1 - 2}"),
        (", make 2 (3, 4)", "wrong-number-of-sizes", "2 (3, 4)"),
    ],
)
def test_numbers_of_parts_that_are_wrong(make: str, code: str, underlined: str) -> None:
    assert messages("", make) == [(code, underlined)]
