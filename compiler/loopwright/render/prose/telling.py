"""What is known while a row is told: the sizes it is for, the names in braces, what was worked.

An ``Amount`` is a number as printed for all of those sizes at once, with what grammar needs of it.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction
from typing import NamedTuple

from loopwright.ir.numbers import Given, Named, Number, PerSize, reckon
from loopwright.render.prose.voice import Voice
from loopwright.render.prose.words import across, plain
from loopwright.render.prose.worked import PartWorked, SizeWorked
from loopwright.source import Span


class Amount(NamedTuple):
    """A number in every size: as printed, whether it is one everywhere, whether nought."""

    text: str
    one: bool
    none: bool


@dataclass(frozen=True, slots=True)
class Telling:
    """One row's telling.

    ``sizes`` are the indices of the sizes told of, ``names`` the counts in each size of the
    pattern, ``variable`` the name and value of the row number that braces may use (no value where
    the rows are told of all at once), ``nth`` which of the rows of ``line`` this is, where they
    are told one by one. ``inside`` is true within a group, where everything goes
    into one place. ``details`` collects lines that have to be set out size by size.
    """

    voice: Voice
    worked: PartWorked
    all_sizes: tuple[str, ...]
    sizes: tuple[int, ...]
    names: tuple[Mapping[str, int], ...]
    word: str = "row"
    line: int = 0
    nth: int | None = None
    variable: tuple[str, int | None] = ("", None)
    inside: bool = False
    details: list[str] = field(default_factory=list)

    def within(self) -> Telling:
        """The telling inside a group."""
        return replace(self, inside=True)

    def value(self, number: Number, size: int) -> Fraction | int:
        """The number in one size."""
        names: dict[str, Fraction | int] = dict(self.names[size])
        name, value = self.variable
        if value is not None:
            names[name] = value
        return reckon(number, size, names)

    def open(self, number: Number) -> bool:
        """Whether a number depends on the row's own, and so has no value here."""
        name, value = self.variable
        return bool(name) and value is None and mentions(number, name)

    def in_size(self, number: Number, size: int) -> str:
        """The number in one size, as printed."""
        if self.open(number):
            return f"({formula(number)})"
        return plain(self.value(number, size))

    def amount(self, number: Number) -> Amount:
        """The number in all sizes told of."""
        if self.open(number):
            return Amount(f"({formula(number)})", False, False)
        return amount_of([self.value(number, size) for size in self.sizes])

    def each_size(self, ask: Callable[[SizeWorked], int | None]) -> Amount | None:
        """A finding of the work in all sizes told of; None where one of them has no number."""
        values = [ask(self.worked.sizes[size]) for size in self.sizes]
        known = [value for value in values if value is not None]
        return amount_of(known) if known and len(known) == len(values) else None

    def times(self, bracket: Span) -> Amount | None:
        """How often a bracket was worked, where that is one number in each size."""
        return self.each_size(lambda size: size.times(bracket, self.line, self.nth))

    def size_names(self, sizes: tuple[int, ...]) -> list[str]:
        """The designer's names of sizes."""
        return [self.all_sizes[size] for size in sizes]


def amount_of(values: list[Fraction | int] | list[int]) -> Amount:
    """Values, one a size, as an amount."""
    return Amount(
        across([plain(value) for value in values]),
        all(value == 1 for value in values),
        all(value == 0 for value in values),
    )


def mentions(number: Number, name: str) -> bool:
    """Whether a number depends on a name."""
    if type(number) is Named:
        return number.name == name
    if type(number) is Given:
        return False
    if type(number) is PerSize:
        return any(mentions(value, name) for value in number.values)
    return mentions(number.left, name) or mentions(number.right, name)  # type: ignore[union-attr]


_SIGNS = {"+": " + ", "-": " − ", "*": " × ", "/": " ÷ ", "^": " to the power of "}


def formula(number: Number) -> str:
    """A number written out, for a range of rows too long to be told one by one."""
    if type(number) is Given:
        return plain(number.value)
    if type(number) is Named:
        return number.name
    if type(number) is PerSize:
        return across([formula(value) for value in number.values])
    left, right = _operand(number.left), _operand(number.right)  # type: ignore[union-attr]
    return f"{left}{_SIGNS[number.op]}{right}"  # type: ignore[union-attr]


def _operand(number: Number) -> str:
    text = formula(number)
    return text if isinstance(number, (Given, Named)) else f"({text})"
