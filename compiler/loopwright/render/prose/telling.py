"""What is known while a row is told: the sizes it is for, the names in braces, what was worked.

An ``Amount`` is a number as printed for all of those sizes at once, with what grammar needs of it.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from fractions import Fraction

from loopwright.frozen import Frozen, NamedTuple, field, replace
from loopwright.ir.numbers import Given, Named, Number, PerSize, reckon
from loopwright.render.prose.tongue import Noun, phrase
from loopwright.render.prose.voice import Voice
from loopwright.render.prose.words import across, plain
from loopwright.render.prose.worked import PartWorked, SizeWorked
from loopwright.source import Span


class Amount(NamedTuple):
    """A number in every size: as printed, whether it is one everywhere, whether nought, the number
    that grammar goes by (the largest, where sizes differ), and the sizes told of in which it is
    nought though it is not so in all."""

    text: str
    one: bool
    none: bool
    n: int
    without: tuple[int, ...] = ()


ONE = Amount("1", True, False, 1)


class Telling(Frozen):
    """One row's telling.

    ``sizes`` are the indices of the sizes told of, ``names`` the counts in each size of the
    pattern, ``variable`` the name and value of the row number that braces may use (no value where
    the rows are told of all at once), ``nth`` which of the rows of ``line`` this is, where they
    are told one by one. ``inside`` is true within a group, where everything goes
    into one place. ``is_round`` whether the row is a round. ``details`` collects lines that
    have to be set out size by size.
    """

    voice: Voice
    worked: PartWorked
    all_sizes: tuple[str, ...]
    sizes: tuple[int, ...]
    names: tuple[Mapping[str, int], ...]
    is_round: bool = False
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
            return f"({formula(number, self.voice)})"
        return self.voice.figures(plain(self.value(number, size)))

    def amount(self, number: Number) -> Amount:
        """The number in all sizes told of."""
        if self.open(number):
            return Amount(f"({formula(number, self.voice)})", False, False, 2)
        return self.in_sizes([self.value(number, size) for size in self.sizes])

    def in_sizes(self, values: Sequence[Fraction | int]) -> Amount:
        """Values, one for each size told of."""
        made = amount_of(values)
        made = made._replace(text=self.voice.figures(made.text))
        if made.none:
            return made
        sizes = zip(self.sizes, values, strict=True)
        return made._replace(without=tuple(size for size, value in sizes if value == 0))

    def each_size(self, ask: Callable[[SizeWorked], int | None]) -> Amount | None:
        """A finding of the work in all sizes told of; None where one of them has no number."""
        values = [ask(self.worked.sizes[size]) for size in self.sizes]
        known = [value for value in values if value is not None]
        return self.in_sizes(known) if known and len(known) == len(values) else None

    def times(self, bracket: Span) -> Amount | None:
        """How often a bracket was worked, where that is one number in each size."""
        return self.each_size(lambda size: size.times(bracket, self.line, self.nth))

    def row_word(self, n: int = 1) -> Noun:
        """``row`` or ``round``: whatever is being told of."""
        return self.voice.row_word(self.is_round, n)

    def named_sizes(self, sizes: tuple[int, ...]) -> str:
        """``size small``, ``sizes small and large``."""
        names = self.size_names(sizes)
        told = self.voice.listing(names)
        return self.voice.many("size {names}", "sizes {names}", len(names), names=told)

    def size_names(self, sizes: tuple[int, ...]) -> list[str]:
        """The designer's names of sizes."""
        return [self.all_sizes[size] for size in sizes]


def amount_of(values: Sequence[Fraction | int]) -> Amount:
    """Values, one a size, as an amount."""
    return Amount(
        across([plain(value) for value in values]),
        all(value == 1 for value in values),
        all(value == 0 for value in values),
        _grammar(values),
    )


def _grammar(values: Sequence[Fraction | int]) -> int:
    """The number that grammar goes by: several, where the sizes differ."""
    most = max((-int(-value // 1) for value in values), default=0)
    return most if len(set(values)) < 2 else max(most, 2)


def mentions(number: Number, name: str) -> bool:
    """Whether a number depends on a name."""
    if type(number) is Named:
        return number.name == name
    if type(number) is Given:
        return False
    if type(number) is PerSize:
        return any(mentions(value, name) for value in number.values)
    return mentions(number.left, name) or mentions(number.right, name)  # type: ignore[union-attr]


_SIGNS = {
    "+": phrase("{left} + {right}"),
    "-": phrase("{left} − {right}"),
    "*": phrase("{left} × {right}"),
    "/": phrase("{left} ÷ {right}"),
    "^": phrase("{left} to the power of {right}"),
}


def formula(number: Number, voice: Voice) -> str:
    """A number written out, for a range of rows too long to be told one by one."""
    if type(number) is Given:
        return voice.figures(plain(number.value))
    if type(number) is Named:
        return number.name
    if type(number) is PerSize:
        return across([formula(value, voice) for value in number.values])
    left = _operand(number.left, voice)  # type: ignore[union-attr]
    right = _operand(number.right, voice)  # type: ignore[union-attr]
    return voice.say(_SIGNS[number.op], left=left, right=right)  # type: ignore[union-attr]


def _operand(number: Number, voice: Voice) -> str:
    text = formula(number, voice)
    return text if isinstance(number, (Given, Named)) else f"({text})"
