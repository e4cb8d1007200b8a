"""Yarn weights against table A (issuhub2018, handspun222, onatrain)."""

from __future__ import annotations

import itertools
from fractions import Fraction

from published_tables import NEUTRAL, keys, sources, table

from loopwright.trade.stitches import BASICS
from loopwright.trade.weights import OVER_INCHES, STITCH, WEIGHTS


def number(text: str) -> Fraction | None:
    return Fraction(text) if text else None


def test_every_value_is_the_table_s() -> None:
    rows = table("A_yarn_weights")
    assert [str(one.category) for one in WEIGHTS] == [row["category"] for row in rows]
    for one, row in zip(WEIGHTS, rows, strict=True):
        assert one.name == row["name"]
        assert "; ".join(one.types) == row["types"]
        assert one.stitches == (number(row["sc_per_4in_min"]), number(row["sc_per_4in_max"]))
        assert one.hook_mm == (number(row["hook_mm_min"]), number(row["hook_mm_max"]))
        assert one.hook_us == row["hook_us"]
        assert one.sources == keys(row)
        assert set(one.sources) <= sources()


def test_the_ranges_count_us_single_crochet_over_four_inches() -> None:
    # the table's columns are sc_per_4in
    assert NEUTRAL["sc"] == STITCH
    assert STITCH in BASICS
    assert OVER_INCHES == 4


def test_thicker_yarn_has_fewer_stitches_and_a_larger_hook() -> None:
    for thin, thick in itertools.pairwise(WEIGHTS):
        assert thin.stitches[1] > thick.stitches[1]
        assert thin.hook_mm[1] == thick.hook_mm[0]  # one ends where the next begins
