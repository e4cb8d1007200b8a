"""Imported where processes are made as copies of one: brings in all that checks take."""

import loopwright

WARM = """pattern: Warm
terms: UK
sizes: one (two)
hook main: 4 mm
gauge main: 18 sts and 20 rows to 10 cm in dc, hook main
part swatch: flat, hook main, gauge main
start: ch 7 (9)
row 1: dc in 2nd ch from hook, dc in each ch across = 6 (8) sts
"""

loopwright.check(WARM, name="")
