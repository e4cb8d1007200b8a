"""Numbers as written: given, per size, named, or reckoned. They get a value with a size only."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction


@dataclass(frozen=True, slots=True)
class Given:
    """The same in every size: ``12``."""

    value: Fraction | int


@dataclass(frozen=True, slots=True)
class PerSize:
    """One value for each size, in the order of the sizes: ``12 (14, 16)``."""

    values: tuple[Number, ...]


@dataclass(frozen=True, slots=True)
class Named:
    """The name of a count, or of the row number that ``as r`` names."""

    name: str


@dataclass(frozen=True, slots=True)
class Reckoned:
    """Arithmetic: ``op`` is one of ``+ - * / ^``."""

    op: str
    left: Number
    right: Number


Number = Given | PerSize | Named | Reckoned
