"""Bodies against table C (who, ansur, dayhealth, dayhealth2, kocaelinde, angelehats, cncaps,
ailime, sunshine, fiend, oldhooker), and what the phrases of the notation mean."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest
from published_tables import keys, sources, table

from loopwright.trade import bodies_trade
from loopwright.trade.bodies import EVERY_PART, NoStandard, standard
from loopwright.trade.bodies_adults import ADULTS, MEASURED, PERCENTS
from loopwright.trade.bodies_trade import GROUPS, HAT_SIZES, INCH
from loopwright.trade.bodies_who import CHILDREN, Lms, at_z, head, z_of

WHO = table("C_who_head_circumference")
ANSUR = table("C_ansur2_adults_mm")
PARTS_OF_ANSUR = {
    "headcircumference": "head",
    "headbreadth": "head breadth",
    "headlength": "head length",
    "handcircumference": "hand",
    "handlength": "hand length",
    "wristcircumference": "wrist",
    "footlength": "foot length",
    "balloffootcircumference": "foot around",
    "anklecircumference": "ankle",
}


# ------------------------------------------------------------------ who


def test_every_l_m_and_s_is_the_who_s() -> None:
    assert len(WHO) == sum(map(len, CHILDREN.values())) == 36
    for row in WHO:
        one = CHILDREN[row["sex"]][int(row["month"])]
        assert one.power == Fraction(row["L"])
        assert one.median == Fraction(row["M_cm"])
        assert one.variation == Fraction(row["S"])


@pytest.mark.parametrize("row", WHO, ids=lambda row: f"{row['sex']}-{row['month']}")
def test_the_who_s_percentiles_and_deviations(row: dict[str, str]) -> None:
    one = CHILDREN[row["sex"]][int(row["month"])]
    for percent in (3, 15, 50, 85, 97):
        assert abs(head(one, percent) / 10 - Fraction(row[f"p{percent}"])) <= Fraction("0.0501")
    for z in (-3, -2, -1, 1, 2, 3):
        name = f"sd_{z:+d}"
        assert abs(at_z(one, z) - float(row[name])) <= 0.0501
    assert head(one, 50) / 10 == Fraction(row["M_cm"])


def test_the_formula_where_l_is_not_one() -> None:
    # who: X = M (1 + L S z) ^ (1/L); L nought: M exp(S z)
    two, little, none = (
        Lms(Fraction(power), Fraction(40), Fraction(1, 10)) for power in ("2", "0.000001", "0")
    )
    assert at_z(two, 1) == pytest.approx(40 * math.sqrt(1.2))
    assert at_z(none, 2) == pytest.approx(40 * math.exp(0.2))
    assert at_z(none, 0) == 40
    # as L goes to nought, the first becomes the second
    assert at_z(little, 2) == pytest.approx(at_z(none, 2), rel=1e-5)


def test_percentiles_in_deviations() -> None:
    # the tables of the normal distribution
    assert z_of(50) == 0
    assert z_of(97) == pytest.approx(1.8808, abs=1e-4)
    assert z_of(15) == pytest.approx(-1.0364, abs=1e-4)


# ---------------------------------------------------------------- ansur


def test_every_length_of_grown_people_is_ansur_s() -> None:
    assert len(ANSUR) == len(ADULTS) == 18
    assert set(EVERY_PART) == set(PARTS_OF_ANSUR.values())
    for row in ANSUR:
        who = {"male": "man", "female": "woman"}[row["sex"]]
        one = ADULTS[who, PARTS_OF_ANSUR[row["measure"]]]
        assert MEASURED[who] == int(row["n"])
        assert (one.mean, one.deviation) == (Fraction(row["mean"]), Fraction(row["sd"]))
        assert one.percentiles == {n: Fraction(row[f"p{n}"]) for n in PERCENTS}


# ------------------------------------------------------------ the trade


def test_the_trade_council_s_ranges() -> None:
    # dayhealth, dayhealth2, kocaelinde
    for row in table("C_trade_council_head"):
        group = GROUPS[row["group"].lower()]
        assert (group.least, group.most) == (
            Fraction(row["head_in_min"]),
            Fraction(row["head_in_max"]),
        )
        assert group.sources == keys(row)
        assert set(keys(row)) <= sources()
        # the table prints cm too, to the nearest half or so
        assert abs(group.least * INCH / 10 - Fraction(row["head_cm_min"])) <= Fraction("0.51")
        assert abs(group.most * INCH / 10 - Fraction(row["head_cm_max"])) <= Fraction("0.51")


PRINTED = {
    "newborn": "Newborn",
    "3 to 6 months": "3-6 m",
    "3 to 10 years": "3-10 y",
    "teen": "Teen",
}
"""Groups that hat charts in print agree on, and what those call them."""


@pytest.mark.parametrize("name", PRINTED)
def test_what_hat_charts_in_print_agree_on(name: str) -> None:
    group = GROUPS[name]
    assert len(group.sources) > 1
    for source in group.sources:
        (row,) = (
            row
            for row in table("C_hat_size_tables_in")
            if (row["source"], row["group"]) == (source, PRINTED[name])
        )
        least, most = row["head_in"].split("-")
        assert (Fraction(least), Fraction(most)) == (group.least, group.most)
        assert source in sources()


def test_every_group_is_in_a_table() -> None:
    council = {row["group"].lower() for row in table("C_trade_council_head")}
    assert set(GROUPS) == council | set(PRINTED)


def test_hat_letters() -> None:
    rows = table("C_hat_labels")
    for size in HAT_SIZES.values():
        for source in size.sources:
            (row, *_) = (
                row for row in rows if (row["source"], row["cm"]) == (source, str(size.cm))
            )
            assert row["us"] == size.us
            assert row["label"].split()[0] == size.letter
        (uk,) = (
            row["uk"] for row in rows if row["source"] == "ailime" and row["cm"] == str(size.cm)
        )
        assert uk == size.uk


def eighths(number: str) -> Fraction:
    """``6 7/8``."""
    return sum((Fraction(part) for part in number.split()), Fraction(0))


def test_the_rule_of_hat_numbers() -> None:
    # liquihat: the US number is inches / pi to the nearest 1/8, the UK one 1/8 smaller
    for size in HAT_SIZES.values():
        inches = size.cm / 2.54
        assert eighths(size.us) == Fraction(round(inches / math.pi * 8), 8)
        assert eighths(size.us) - eighths(size.uk) == Fraction(1, 8)


def test_the_source_keys_have_addresses() -> None:
    used = {key for one in (*GROUPS.values(), *HAT_SIZES.values()) for key in one.sources}
    assert used | {"who", "ansur"} <= sources()
    assert float(bodies_trade.INCH) == 25.4


# -------------------------------------------------------------- phrases


@pytest.mark.parametrize(
    ("name", "phrase", "mm"),
    [
        ("head", "who boys 6 months", 433),  # who: M 43.3393 cm
        ("head", "who girls 6 months", 422),  # who: M 42.2079 cm
        ("head", "who 6 months", 428),  # half-way: 42.7736
        ("head", "who girl newborn", 339),  # who: 33.8787
        ("head", "who 2 years boys", 482),  # who: 48.2494 at 24 months
        ("head", "who boys 24 months at 97th percentile", 508),  # who: p97 50.8
        ("head", "who girls 60 months at 3rd percentile", 472),  # who: p3 47.2
        ("crown", "who boys 12 months", 461),  # who: 46.0637; a child's measure is a head
        ("head", "adult woman", 560),  # ansur: p50
        ("head", "adult man at 95th percentile", 601),  # ansur
        ("palm", "adult woman", 187),  # ansur: hand circumference
        ("hand-length", "adult man at 5th", 177),  # ansur
        ("foot", "adult man", 271),  # ansur: foot length
        ("sock", "adult woman ankle", 215),  # ansur
        ("head", "adult man head breadth", 154),  # ansur
        ("head", "trade toddler", 432),  # dayhealth: 16 to 18 in, 17 in are 431.8 mm
        ("head", "trade teen", 540),  # sunshine: 20.5 to 22 in, 21.25 in are 539.75 mm
        ("head", "hat size M", 560),  # angelehats
    ],
)
def test_what_a_phrase_means(name: str, phrase: str, mm: int) -> None:
    assert standard(name, phrase).mm == mm


@pytest.mark.parametrize(
    ("name", "phrase", "said"),
    [
        ("head", "who 7 months", "newborn, 1, 2, 3, 4, 5, 6, 9, 12"),
        ("head", "who boys girls 6 months", "The ages"),
        ("head", "who", "The ages"),
        ("head", "who 6 months at 100th percentile", "from the 1st to the 99th"),
        ("foot", "who 6 months", "adult"),
        ("head", "adult child", "`adult woman` and `adult man`"),
        ("crown", "adult woman", "wrist"),
        ("head", "adult woman at 6th percentile", "5th"),
        ("head", "trade giant", "toddler"),
        ("head", "trade toddler at 5th percentile", "another source"),
        ("head", "hat size Q", "XXL"),
        ("head", "hat", "XXL"),
        ("head", "somebody", "who 6 months"),
    ],
)
def test_a_phrase_that_means_nothing_is_answered_with_what_there_is(
    name: str, phrase: str, said: str
) -> None:
    with pytest.raises(NoStandard) as stop:
        standard(name, phrase)
    assert said in stop.value.known
    assert stop.value.text.endswith(".")
