"""Finished sizes to read or to reckon with: a table for people, and the same as plain data.

sizes(checked, "UK", "text")    every part, a column a size
sizes(checked, "UK", "json")    docs/sizes.schema.json
"""

from __future__ import annotations

from loopwright.ir.checked import Checked
from loopwright.measure.dimensions import measures
from loopwright.render.sizes import plain, text


def sizes(checked: Checked, terms: str, form: str, *, rows: bool = False) -> str:
    """The finished sizes of a pattern as ``text`` (with every row where ``rows``) or ``json``."""
    found = measures(checked)
    if form == "json":
        return plain.json(checked, found)
    return text.text(checked, found, terms, rows=rows)
