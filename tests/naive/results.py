"""What the naive worker finds, in plain values that a test can compare."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import NamedTuple

from loopwright.trade.stitches import Stitch

CountKey = str | Stitch | tuple[str, int]
Counts = dict[CountKey, int]


class NaiveFault(NamedTuple):
    """Something that went wrong: the code the notation gives it, and the row it happened in."""

    kind: str
    row: str


@dataclass
class NaiveRow:
    """One row as worked. ``line`` is the line it is written in; ``places`` tells for every stitch
    of it the places it goes into, as positions on the edge as the row meets it; empty where it
    stands in a ring or in a chain of its own row, None where only the total is fixed (`evenly`,
    skipped chains that count) or where it goes into a row further down. ``yarns`` tells for every
    stitch what it is made with."""

    line: int
    label: str
    counts: Counts
    places: list[tuple[int, ...] | None]
    yarns: list[str]


@dataclass
class NaiveLine:
    """One written line: what its last row counts, and how many rows it worked."""

    line: int
    counts: Counts
    worked: int


@dataclass
class NaivePart:
    """One part, as far as it could be worked. ``fault`` is the first that was met, if any."""

    name: str
    rows: list[NaiveRow] = field(default_factory=list)
    lines: list[NaiveLine] = field(default_factory=list)
    fault: NaiveFault | None = None
    row_count: int = 0


@dataclass
class NaiveResult:
    """All parts of one size, by name; parts that stand on a faulty one are left out."""

    size: int
    parts: dict[str, NaivePart] = field(default_factory=dict)

    @property
    def faults(self) -> list[NaiveFault]:
        """The first fault of each part that has one."""
        return [part.fault for part in self.parts.values() if part.fault]
