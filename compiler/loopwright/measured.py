"""What a checked pattern measures, as plain data: the lengths of its parts and the yarn it takes.

Measured(sizes=("small", "large"), lengths=(Length("hand", "around", {"small": 165.0, ...}),),
         yarn=(YarnTaken("slate", "small", metres=(80, 95), grams=(36, 43), balls=1),), ...)
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from loopwright.frozen import frozen
from loopwright.ir.checked import Checked
from loopwright.measure.yarn import Between


@frozen
class Length:
    """One length of a part, in mm to a hundredth, by the name of the size: ``around at the end``.
    None where it is not known; ``about`` where it is reckoned from openwork."""

    part: str
    what: str
    mm: Mapping[str, float | None]
    about: bool = False


@frozen
class YarnTaken:
    """What a size takes of a yarn, from the least to the most, in whole metres and grams; None
    where the pattern does not say enough to tell. ``balls`` are enough for the most."""

    yarn: str
    size: str
    metres: tuple[int, int] | None = None
    grams: tuple[int, int] | None = None
    balls: int | None = None


@frozen
class Measured:
    """All that is measured of a pattern. ``without_gauge`` names the parts of which nothing can be
    said."""

    sizes: tuple[str, ...]
    lengths: tuple[Length, ...]
    yarn: tuple[YarnTaken, ...]
    without_gauge: tuple[str, ...]


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
        YarnTaken(need.yarn, names[need.size], _whole(need.metres), _whole(need.grams), need.balls)
        for need in needed(checked.pattern, checked.fabrics).needs
    )
    known = {part.part for part in parts}
    without = tuple(part.name for part in checked.pattern.parts if part.name not in known)
    return Measured(names, lengths, yarn, without)


def _mm(length: Fraction | None) -> float | None:
    return None if length is None else round(float(length), 2)


def _whole(amount: Between | None) -> tuple[int, int] | None:
    from loopwright.measure.amounts import rounded

    return None if amount is None else rounded(amount)
