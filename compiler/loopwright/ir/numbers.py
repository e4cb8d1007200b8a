"""Numbers as written: given, per size, named, or reckoned. They get a value with a size only."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from loopwright.frozen import Frozen

LARGEST = 10**60
"""Past this a number is no longer a number of stitches, rows or anything else in yarn."""


class Given(Frozen):
    """The same in every size: ``12``."""

    value: Fraction | int


class PerSize(Frozen):
    """One value for each size, in the order of the sizes: ``12 (14, 16)``."""

    values: tuple[Number, ...]


class Named(Frozen):
    """The name of a count, or of the row number that ``as r`` names."""

    name: str


class Reckoned(Frozen):
    """Arithmetic: ``op`` is one of ``+ - * / ^``."""

    op: str
    left: Number
    right: Number


Number = Given | PerSize | Named | Reckoned


class CannotReckon(Exception):
    """A number that has no value; ``code`` is the message it earns, ``value`` what came out."""

    def __init__(self, code: str, value: str) -> None:
        super().__init__(code)
        self.code = code
        self.value = value


def reckon(number: Number, size: int, names: Mapping[str, Fraction | int]) -> Fraction | int:
    """The value of a number in a size (an index). Raises ``CannotReckon``."""
    if type(number) is Given:
        return number.value
    if type(number) is PerSize:
        return reckon(number.values[size], size, names)
    if type(number) is Named:
        return names[number.name]
    assert type(number) is Reckoned
    left = reckon(number.left, size, names)
    right = reckon(number.right, size, names)
    value = operate(number.op, left, right)
    if not -LARGEST <= value <= LARGEST:
        raise CannotReckon("not-whole", "a number of more than 60 digits")
    return value


def operate(op: str, left: Fraction | int, right: Fraction | int) -> Fraction | int:
    if op == "+":
        return left + right
    if op == "-":
        return left - right
    if op == "*":
        return left * right
    if op == "/":
        if right == 0:
            raise CannotReckon("not-whole", "a division by nought")
        return Fraction(left) / right
    base, power = Fraction(left), Fraction(right)
    if power < 0 or power.denominator != 1:
        raise CannotReckon("not-whole", f"a power of {right}")
    if power > 200 and abs(base) > 1:
        raise CannotReckon("not-whole", "a number of more than 60 digits")
    return base ** int(power)


def whole(number: Number, size: int, names: Mapping[str, Fraction | int]) -> int:
    """The value of a number that must be whole and not below nought. Raises ``CannotReckon``
    with ``not-whole`` or ``below-nought``."""
    value = reckon(number, size, names)
    if type(value) is not int:
        if value.denominator != 1:
            raise CannotReckon("not-whole", _plain(Fraction(value)))
        value = int(value)
    if value < 0:
        raise CannotReckon("below-nought", str(value))
    return value


def _plain(value: Fraction) -> str:
    text = f"{float(value):.4f}".rstrip("0").rstrip(".")
    return text if Fraction(text) == value else f"{value.numerator}/{value.denominator}"
