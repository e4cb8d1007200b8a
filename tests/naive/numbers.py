"""Numbers of the pattern, given a size and the names in reach."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from loopwright.ir.numbers import Given, Named, Number, PerSize
from naive.things import FaultError


def worth(number: Number, size: int, names: Mapping[str, int]) -> Fraction:
    """What a number comes to, not yet said to be whole."""
    if isinstance(number, Given):
        return Fraction(number.value)
    if isinstance(number, PerSize):
        return worth(number.values[size], size, names)
    if isinstance(number, Named):
        return Fraction(names[number.name])
    left = worth(number.left, size, names)
    right = worth(number.right, size, names)
    if number.op == "+":
        return left + right
    if number.op == "-":
        return left - right
    if number.op == "*":
        return left * right
    if number.op == "/":
        return left / right
    return Fraction(left ** int(right))


def how_many(number: Number, size: int, names: Mapping[str, int]) -> int:
    """A number of things: whole, and not less than nought."""
    value = worth(number, size, names)
    if value.denominator != 1:
        raise FaultError("not-whole")
    if value < 0:
        raise FaultError("below-nought")
    return int(value)
