"""Stitches per row end against table G (ambassador, picotedge, cabana, primavera, burnhills)."""

from __future__ import annotations

from fractions import Fraction

from published_tables import NEUTRAL, sources, table

from loopwright.trade.pickup import PER_ROW_END, PICKUPS

NO_RATES = ["sc rows, set number", "knit stockinette row ends"]
"""Rows of the table that are not a rate of a crochet stitch."""


def rate(text: str) -> Fraction:
    """``1 per row``, ``3 per 2 rows``."""
    stitches, rows = text.replace("rows", "").replace("row", "").split("per")
    return Fraction(int(stitches), int(rows.strip() or 1))


def test_every_rate_is_the_table_s() -> None:
    rows = table("G_row_end_pickup")
    assert [row["row_stitch_us"] for row in rows if row["row_stitch_us"] in NO_RATES] == NO_RATES
    rows = [row for row in rows if row["row_stitch_us"] not in NO_RATES]
    for one, row in zip(PICKUPS, rows, strict=True):
        us, _, manner = row["row_stitch_us"].partition(" blo rib")
        assert one.stitch == NEUTRAL[us]
        assert one.loop == ("back" if manner else "")
        assert one.per_row == rate(row["per_row_end"])
        assert one.sources == tuple(row["source"].split("(")[0].split())
        # 365crochet is named in the table without an address
        assert set(one.sources) - {"365crochet"} <= sources()


def test_published_examples() -> None:
    # primavera: 7 rows of UK trebles = 14 stitches
    assert 7 * PER_ROW_END["long"] == 14
    # ambassador: 3 stitches for 2 rows of US half doubles
    assert 2 * PER_ROW_END["half"] == 3
