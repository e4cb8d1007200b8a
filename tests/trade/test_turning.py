"""Turning chains against table E (dummies, bestknit, lowdown, knotions and others)."""

from __future__ import annotations

from published_tables import NEUTRAL, keys, sources, table

from loopwright.trade.stitches import BASICS
from loopwright.trade.terms import UK, stitch_of
from loopwright.trade.turning import TURNING


def number(text: str) -> int | None:
    return int(text.rstrip("ndrth")) if text else None


def test_every_value_is_the_table_s() -> None:
    rows = table("E_turning_chains")
    assert list(TURNING) == [NEUTRAL[row["stitch_us"]] for row in rows]
    for row in rows:
        one = TURNING[NEUTRAL[row["stitch_us"]]]
        assert one.chains == int(row["turning_ch"])
        assert one.extra_if_counts == number(row["extra_foundation_ch_if_tch_counts"])
        assert one.extra_if_not == number(row["extra_foundation_ch_if_not"])
        assert one.first_in == number(row["first_st_in_ch_from_hook"])
        assert ("yes" if one.counts else "no") == row["counts_by_default"].split()[0]
        assert one.disputed == ("disputed" in row["counts_by_default"])
        assert one.sources == keys(row)
        assert set(one.sources) <= sources()


def test_the_uk_names_of_the_table_are_the_same_stitches() -> None:
    for row in table("E_turning_chains"):
        stitch = stitch_of(row["stitch_uk"], UK)
        assert stitch is not None
        assert stitch.basic == NEUTRAL[row["stitch_us"]]


def test_a_stitch_is_as_high_as_its_turning_chain() -> None:
    for name, one in TURNING.items():
        assert BASICS[name].height == one.chains
