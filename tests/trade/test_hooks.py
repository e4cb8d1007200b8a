"""Hooks against table B (sysclp, matifs; steel homeq, winenfood)."""

from __future__ import annotations

from fractions import Fraction

import pytest
from published_tables import keys, sources, table

from loopwright.trade.hooks import HOOKS, STEEL, mm_of_uk, mm_of_us, names_of
from loopwright.trade.weights import WEIGHTS


def test_every_row_is_the_table_s() -> None:
    rows = table("B_hook_sizes")
    assert len(rows) == len(HOOKS) + len(STEEL)
    for one, row in zip(HOOKS + STEEL, rows, strict=True):
        assert one.mm == Fraction(row["mm"])
        assert one.us == row["us"].replace(" (no letter)", "")
        assert one.uk == row["uk_old"].replace("none", "")
        if "winenfood" in row["source"]:  # keyed in the table by its address
            assert one.sources == ("winenfood",)
        else:
            assert one.sources == keys(row)
            assert set(one.sources) <= sources()


@pytest.mark.parametrize(
    ("mm", "us", "uk"),
    [
        ("2", "", "14"),  # US B/1 is 2.25 mm in table A (issuhub2018)
        ("2.25", "B/1", "13"),  # matifs
        ("2.5", "", ""),  # sysclp's C/2 and 12 are not followed
        ("2.75", "C/2", "12"),  # matifs
        ("3.75", "F/5", ""),  # sysclp, matifs: no UK number exists
        ("4.5", "7", "7"),  # matifs
        ("9", "M/N-13", "00"),  # matifs
    ],
)
def test_names(mm: str, us: str, uk: str) -> None:
    hook = names_of(Fraction(mm))
    assert hook is not None
    assert (hook.us, hook.uk) == (us, uk)


def test_a_hook_in_no_table_has_no_names() -> None:
    assert names_of(Fraction(7)) is None  # table B: not found in any readable source
    assert mm_of_us("Z/99") is None
    assert mm_of_uk("") is None


def test_each_name_that_is_followed_is_one_hook() -> None:
    assert mm_of_us("B/1") == Fraction("2.25")  # table A, issuhub2018; matifs
    assert mm_of_us("C/2") == Fraction("2.75")  # matifs
    assert mm_of_uk("12") == Fraction("2.75")  # matifs
    assert mm_of_us("steel 00") == Fraction("3.5")  # homeq
    for hook in HOOKS:
        names = names_of(hook.mm)
        assert names is not None
        assert not names.us or mm_of_us(names.us) == hook.mm
        assert not names.uk or mm_of_uk(names.uk) == hook.mm


def test_the_hooks_agree_with_the_table_of_yarn_weights() -> None:
    # table A writes each border twice, in mm and in US sizes: 2.25 to 3.5 is B/1 to E/4 ...
    for weight in WEIGHTS[1:6]:
        least, most = weight.hook_us.split(" to ")
        assert (mm_of_us(least), mm_of_us(most)) == weight.hook_mm
