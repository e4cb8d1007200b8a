"""What a checked pattern measures, as plain data: the lengths of its parts and the yarn it takes.

Measured(sizes=("small", "large"), lengths=(Length("hand", "around", {"small": 165.0, ...}),),
         yarn=(YarnTaken("slate", "small", metres=(80, 95), grams=(36, 43), balls=1),), ...)
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from loopwright.frozen import Frozen
from loopwright.ir.checked import Checked
from loopwright.measure.ease import Ease
from loopwright.measure.yarn import Between, Need


class Length(Frozen):
    """One length of a part, in mm to a hundredth, by the name of the size: ``around at the end``.
    None where it is not known; ``about`` where it is reckoned from openwork,
    or there is an edging."""

    part: str
    what: str
    mm: Mapping[str, float | None]
    about: bool = False


class YarnTaken(Frozen):
    """What a size takes of a yarn, from the least to the most, in whole metres and grams; None
    where the pattern does not say enough to tell. ``balls`` are enough for the most."""

    yarn: str
    size: str
    metres: tuple[int, int] | None = None
    grams: tuple[int, int] | None = None
    balls: int | None = None


class EaseFound(Frozen):
    """A ``part`` in a ``size`` against the ``measure`` that it is made to, in mm to a hundredth:
    ``along`` (``around``, ``wide`` or ``high``) it comes out at ``mm``, and ``wanted`` are as many
    as the measure has, times the ``share`` of it (0.5 for each of two fronts)."""

    part: str
    size: str
    measure: str
    along: str
    share: float
    wanted: float
    mm: float

    @property
    def more(self) -> float:
        """The ease in mm; below nought where the part is smaller than the measure."""
        return round(self.mm - self.wanted, 2)


class Measured(Frozen):
    """All that is measured of a pattern. ``without_gauge`` names the parts of which nothing can be
    said."""

    sizes: tuple[str, ...]
    lengths: tuple[Length, ...]
    yarn: tuple[YarnTaken, ...]
    without_gauge: tuple[str, ...]
    eases: tuple[EaseFound, ...] = ()


def measured(checked: Checked) -> Measured:
    """Measure a checked pattern."""
    from loopwright.measure.dimensions import measures
    from loopwright.measure.yarn import needed

    names = checked.pattern.sizes
    parts = measures(checked)
    lengths = tuple(
        Length(
            part.part,
            one.words,
            {names[size.size]: _mm(mm) for size, mm in zip(part.sizes, one.lengths, strict=True)},
            one.about,
        )
        for part in parts
        for one in part.dimensions
    )
    yarn = tuple(
        taken(need, names[need.size]) for need in needed(checked.pattern, checked.fabrics).needs
    )
    known = {part.part for part in parts}
    without = tuple(part.name for part in checked.pattern.parts if part.name not in known)
    eases = tuple(_ease(one, names) for part in parts for one in part.eases)
    return Measured(names, lengths, yarn, without, eases)


def taken(need: Need, size: str) -> YarnTaken:
    """What a size takes of a yarn, rounded."""
    return YarnTaken(need.yarn, size, _whole(need.metres), _whole(need.grams), need.balls)


def _ease(one: Ease, names: tuple[str, ...]) -> EaseFound:
    wanted, found = round(float(one.wanted), 2), round(float(one.found), 2)
    size = names[one.size]
    return EaseFound(one.part, size, one.measure, one.along, float(one.share), wanted, found)


def _mm(length: Fraction | None) -> float | None:
    return None if length is None else round(float(length), 2)


def _whole(amount: Between | None) -> tuple[int, int] | None:
    from loopwright.measure.amounts import rounded

    return None if amount is None else rounded(amount)
