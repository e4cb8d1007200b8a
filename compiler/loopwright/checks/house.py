"""Rules of a house: what a publisher asks of every pattern besides that it comes out.

They hold only where the settings of a repository say so (``House``).
"""

from __future__ import annotations

from loopwright.frozen import frozen


@frozen
class House:
    """What a house asks of every pattern: its ``terms`` (UK, US, or empty for either), a stated
    count on every row, a gauge for every part, a licence line."""

    terms: str = ""
    stated_counts: bool = False
    gauge: bool = False
    licence: bool = False


NO_RULES = House()
