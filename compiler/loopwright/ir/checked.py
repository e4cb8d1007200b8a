"""A checked pattern: the only thing that a renderer or a measure accepts.

Only ``pipeline`` makes one, and only from a pattern in which every row was worked in every size.
"""

from __future__ import annotations

from loopwright.frozen import Frozen
from loopwright.ir.fabric import Fabric
from loopwright.ir.pattern import Pattern


class Checked(Frozen):
    """A pattern and its fabrics, one for each of ``pattern.sizes`` in their order."""

    pattern: Pattern
    fabrics: tuple[Fabric, ...]
