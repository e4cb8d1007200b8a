"""Flat circles against table F (magicformula, notflat, squareflat, elephants, pinkmilk)."""

from __future__ import annotations

import re

from published_tables import NEUTRAL, sources, table

from loopwright.trade.flat import BAND, CIRCLES, CONE, Range

KEYLESS = {"adaptation in published hats": "published hats"}


def ranges(text: str) -> Range | None:
    """``6``, ``6-8``, ``8 or 10 or 12``, ``10,11,12``; remarks in brackets are not numbers."""
    found = [int(one) for one in re.findall(r"\d+", text.split("(")[0])]
    return (min(found), max(found)) if found else None


def test_every_range_is_the_table_s() -> None:
    rows = table("F_flat_circle")
    for one, row in zip((*CIRCLES, CONE), rows, strict=True):
        assert one.source == KEYLESS.get(row["source"], row["source"])
        for us in ("sc", "hdc", "dc", "tr"):
            assert one.adds.get(NEUTRAL[us]) == ranges(row[us]), (row["source"], us)
        if one not in (CIRCLES[-1], CONE):
            assert one.source in sources()


def test_the_band_holds_every_source() -> None:
    # sc 6 to 10 (elephants); hdc 8 to 12 (elephants); dc 10 (notflat) to 15 (published hats);
    # tr 12 to 14 (notflat)
    assert BAND == {"plain": (6, 10), "half": (8, 12), "long": (10, 15), "double long": (12, 14)}


def test_a_cone_is_outside_the_band() -> None:
    # amigurumi 5-start: 5, 10, 15, 20, 25 makes a cone
    assert CONE.adds["plain"][1] < BAND["plain"][0]
