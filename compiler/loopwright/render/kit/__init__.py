"""The kit as a bill of materials: per size, for the one bag that serves all sizes, for many bags.

    kit(checked, "text", bags=20)     a table that a person reads
    kit(checked, "csv")               a row for everything in every size
    kit(checked, "json")

Every figure says how it was got, and is rounded to what it can bear.
"""

from __future__ import annotations

from fractions import Fraction

from loopwright.ir.checked import Checked
from loopwright.measure.kit import bill, order
from loopwright.measure.pace import working_time
from loopwright.measure.yarn import needed
from loopwright.render.kit import plain, text
from loopwright.render.kit.reckoned import Reckoned

FORMS = {"text": text.text, "csv": plain.csv, "json": plain.json}


def kit(checked: Checked, form: str, bags: int = 0, margin: Fraction | None = None) -> str:
    """The bill of a pattern as ``text``, ``csv`` or ``json``. ``margin`` is the share of yarn that
    is ordered besides for ``bags`` bags; without one it is the designer's own, or none."""
    use = needed(checked.pattern, checked.fabrics)
    made = bill(checked.pattern, use)
    more = margin if margin is not None else made.margin or Fraction(0)
    orders = order(made, bags, more) if bags else ()
    time = working_time(checked.pattern, checked.fabrics)
    return FORMS[form](Reckoned(checked.pattern, use, made, time, bags, more, orders))


__all__ = ["FORMS", "kit"]
