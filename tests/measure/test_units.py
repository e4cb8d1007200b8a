"""Units: every factor against pint both ways, and no sum of lengths and weights."""

from __future__ import annotations

from fractions import Fraction

import pytest
from pint import UnitRegistry

from loopwright.lower.numbers import GRAMS, MM
from loopwright.measure.amounts import YARD
from loopwright.measure.lengths import inches
from loopwright.pipeline import check_text
from loopwright.trade.bodies_trade import INCH

UNITS = UnitRegistry(non_int_type=Fraction)
PINT = {"in": "inch", "inches": "inch", "yd": "yard", "oz": "ounce", "g": "gram"}


@pytest.mark.parametrize("unit", MM)
def test_lengths_both_ways(unit: str) -> None:
    name = PINT.get(unit, unit)
    assert UNITS.Quantity(Fraction(1), name).to("millimeter").magnitude == MM[unit]
    assert UNITS.Quantity(MM[unit], "millimeter").to(name).magnitude == 1


@pytest.mark.parametrize("unit", GRAMS)
def test_weights_both_ways(unit: str) -> None:
    name = PINT[unit]
    assert UNITS.Quantity(Fraction(1), name).to("gram").magnitude == GRAMS[unit]
    assert UNITS.Quantity(GRAMS[unit], "gram").to(name).magnitude == 1


def test_inches_and_yards_of_the_tables() -> None:
    assert UNITS.Quantity(Fraction(1), "inch").to("millimeter").magnitude == INCH
    assert UNITS.Quantity(YARD, "meter").to("yard").magnitude == 1


HEAD = """pattern: Tideline Swatch
terms: UK
sizes: small (large)
"""
PART = """part swatch: flat
start: ch 11
row 1: dc in 2nd ch from hook, dc in each ch across = 10 sts
"""
GAUGE = "gauge plain: 16 sts and 18 rows to 10 cm in dc"


@pytest.mark.parametrize(
    "line",
    [
        "measure head: 50 g",
        "measure head: 50 (60) oz",
        "measure head: 50 g (adult woman)",
        "measure head: adult woman (2 oz)",
        'yarn slate: "DK wool", 50 g = 110 g',
        'yarn slate: "DK wool", 50 m = 110 yd',
        "hook main: 4 g",
        "gauge plain: 16 sts to 10 g in dc",
        f"{GAUGE}, weighs 4 m",
        f"{GAUGE}, uses 4 g",
        f"{GAUGE}\ncount body: 10 cm + 4 g, at plain sts",
        f"{GAUGE}\nmeasure head: 50 cm\ncount body: head + 4, at plain sts",
        f"{GAUGE}\ncount body: 50 g, at plain sts",
        f"{GAUGE}\ncount body: 50 oz / 2",
    ],
)
def test_a_weight_is_no_length_and_a_length_no_number(line: str) -> None:
    codes = {one.code for one in check_text("units", f"{HEAD}{line}\n{PART}").diagnostics}
    assert "units-disagree" in codes
    assert codes <= {"units-disagree", "unused-name", "hook-unused", "yarn-unused"}


def test_a_finished_size_in_grams() -> None:
    (one,) = check_text("units", f"{HEAD}{PART}comes out at: 50 g wide\n").diagnostics
    assert one.code == "units-disagree"


@pytest.mark.parametrize("mm", [Fraction(0), Fraction(1, 3), Fraction(127, 5), Fraction(10**9 + 7)])
def test_an_inch_is_what_the_whole_of_the_library_says(mm: Fraction) -> None:
    made = inches(mm)
    assert made == UNITS.Quantity(mm, "millimeter").to("inch").magnitude
    assert isinstance(made, Fraction)
