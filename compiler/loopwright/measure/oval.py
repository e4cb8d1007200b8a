"""Ovals: rounds about a starting chain that is worked along both of its sides, lying flat.

Every round is a stadium about the chain: twice the straight, and a half circle at either end. From
one round to the next it gets 2 pi times the height of a round longer, as a disc does. Where it
grows by less than a disc may and still lie flat (``growth.allowed``), it stands up and is no oval;
where it grows by more, it is one that ruffles.

    straight    the distance from the first to the last chain worked into
    out         how far the rounds reach from the chain
    long        straight + 2 out;    wide    2 out
"""

from __future__ import annotations

from fractions import Fraction
from math import pi

from loopwright.frozen import Frozen
from loopwright.ir.fabric import WorkedPart
from loopwright.ir.pattern import Gauge, Part
from loopwright.measure.growth import BORDER, allowed, both_sides, first_rows
from loopwright.measure.values import PartSize


class Oval(Frozen):
    """A flat oval, in mm: the straight between its ends, and how far it reaches from that."""

    straight: Fraction
    out: Fraction

    @property
    def long(self) -> Fraction:
        """From end to end."""
        return self.straight + 2 * self.out

    @property
    def wide(self) -> Fraction:
        """Across its straight sides."""
        return 2 * self.out


def oval(part: Part, worked: WorkedPart, size: PartSize, gauge: Gauge) -> Oval | None:
    """A part as an oval; None where it is none, or does not lie flat."""
    if part.shaped or part.frilled or size.high is None or not both_sides(part):
        return None
    if not _lies_flat(size):
        return None
    row = next(row for rows, times in worked.rows if times for row in rows)
    first = next((one for one in row.made.slice(0, 1).expand() if one.into == "ch"), None)
    if first is None:
        return None
    chains = worked.start.length - (first.step - 1)
    return Oval(max(chains - 1, 0) * gauge.over / gauge.stitches, size.high)


def _lies_flat(size: PartSize) -> bool:
    """Whether the rounds grow at least as those of a flat piece do, but for a border. Where they
    grow by more, it lies no less flat for that, and ruffles."""
    rounds = first_rows(size.stretches)
    longest = max(row.long for row in rounds)
    grown = next(at for at, row in enumerate(rounds) if row.long == longest)
    if not grown or len(rounds) - 1 - grown > BORDER or rounds[-1].long < longest:
        return False
    out = float(sum(row.high or 0 for row in rounds[1 : grown + 1]))
    ratio = float(longest - rounds[0].long) / (2 * pi * out) if out else 0.0
    names = [row.stitch for row in rounds]
    return ratio >= 1 / allowed(max(names, key=names.count))
