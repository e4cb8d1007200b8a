"""Measuring does not go through the stitches one by one: of so many it would never end. How long it
takes, the benchmarks say."""

from __future__ import annotations

from measuring import checked

from loopwright.measure.dimensions import measures
from loopwright.measure.fit import fit

ENDLESS = """pattern: Endless
terms: US
sizes: small (large)
measure width: 40 (10000000000000) cm
gauge g: 20 sts and 20 rows to 10 cm in sc
count wide: width, at g sts, even
part cloth: flat, gauge g
start: ch {wide + 1}
row 1: sc in 2nd ch from hook, sc in each ch across = wide sts
row 2: ch 1, [sc inc, sc dec, sc] to last 4 sts, sc in each st across
row 3: ch 1, sc in each st across
repeat row 3: 1000000000000 more times
part tube: in rounds, gauge g
start: along last row of cloth
round 1: ch 1, sc in each st around, join
rounds 2-1000000000000: ch 1, sc in each st around, join
"""


def test_a_million_million_rows_are_measured() -> None:
    many = checked(ENDLESS)
    found = measures(many)
    fit(many.pattern, many.fabrics)  # comes to an end
    cloth, tube = (part.sizes[1] for part in found)
    # 10^13 cm at 2 to the cm; the rows and rounds 5 mm high each
    assert cloth.wide is not None
    assert cloth.wide.last == 10**14
    assert cloth.high == 5 * (10**12 + 3)
    assert tube.high == 5 * 10**12
