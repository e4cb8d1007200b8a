"""What was reckoned of a kit, before it is laid out in any form."""

from __future__ import annotations

from fractions import Fraction

from loopwright.frozen import NamedTuple
from loopwright.ir.pattern import Pattern
from loopwright.measure.amounts import plain, spoken
from loopwright.measure.kit import BALL, Bill, Entry, Order
from loopwright.measure.pace import Time
from loopwright.measure.yarn import YarnUse


class Reckoned(NamedTuple):
    """A pattern's yarn, its bill, its working time, and what ``bags`` bags take with a margin."""

    pattern: Pattern
    use: YarnUse
    bill: Bill
    time: tuple[Time, ...]
    bags: int
    margin: Fraction
    orders: tuple[Order, ...]


def name_of(entry: Entry, pattern: Pattern) -> str:
    """What a thing in the bag is called: ``slate``, ``hook 4 mm``, ``stitch markers``."""
    if entry.what == "hook":
        return f"hook {hook_mm(entry.name, pattern)}"
    if entry.what == "yarn":
        return spoken(entry.name) or "yarn"
    return entry.name


def hook_mm(name: str, pattern: Pattern) -> str:
    """A hook by its size, or by each of its sizes."""
    hook = next(one for one in pattern.hooks if one.name == name)
    sizes = dict.fromkeys(plain(mm) for mm in hook.mm)
    return f"{', '.join(sizes)} mm"


def amount_of(entry: Entry, amount: Fraction) -> str:
    """How much of it: ``2 balls``, ``50 g``, ``3``."""
    if entry.unit == BALL:
        return f"{plain(amount)} ball{'' if amount == 1 else 's'}"
    return f"{plain(amount)} {entry.unit}".rstrip()


def money(price: Fraction) -> str:
    """A price with two places, halves going up. The currency is the designer's."""
    cents = (2 * price * 100 + 1) // 2
    return f"{cents // 100:,}.{cents % 100:02d}"
