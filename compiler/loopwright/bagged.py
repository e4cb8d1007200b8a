"""What goes in the bag of a kit, as plain data: what each size takes, what it costs, what to order.

Bag(sizes=("child", "woman"), things=(Thing("yarn", "slate", unit="ball", ...), ...), ...)

Amounts and prices are exact fractions; what a size takes of a yarn is rounded to what it can bear.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from loopwright.frozen import Frozen
from loopwright.ir.checked import Checked
from loopwright.measure.amounts import rounded
from loopwright.measure.kit import Bill, Entry, Order, bill, order
from loopwright.measure.pace import working_time
from loopwright.measure.yarn import Between, needed
from loopwright.measured import YarnTaken, taken

PIECE = "piece"


class Thing(Frozen):
    """One thing in the bag: ``what`` it is (``yarn``, ``hook`` or a word of the kit line), its
    ``name`` there, and how much of it is in the one bag that serves every size (``in_bag``) and in
    one made up for each (``by_size``), in ``unit`` (``ball``, ``g``, ``m``, ``piece`` or as
    written). ``stated`` where the designer says so. ``price`` is of one ball or piece, or of the
    whole of anything weighed or measured, in her currency; None where there is none.

    ``takes`` is, of a yarn, what each size takes, where that is known; ``left`` what is left of its
    bag then, from the least to the most, in ``left_unit``: below nought where it is too little."""

    what: str
    name: str
    unit: str
    stated: bool
    price: Fraction | None
    in_bag: Fraction
    by_size: Mapping[str, Fraction]
    takes: Mapping[str, YarnTaken]
    left: Mapping[str, tuple[int, int]]
    left_unit: str = ""


class Cost(Frozen):
    """What a bag costs without the things of ``without_price``."""

    total: Fraction
    without_price: tuple[str, ...]


class Ordered(Frozen):
    """How much of a thing to dye, order or wind for all bags: in its own ``unit``, and of a yarn
    in whole balls, grams and metres where they can be told."""

    what: str
    name: str
    amount: Fraction
    unit: str
    balls: int | None
    grams: int | None
    metres: int | None
    cost: Fraction | None


class Bag(Frozen):
    """Everything in the bag, yarns first. ``cost`` is that of the bag for every size,
    ``cost_by_size`` those of one made up for each. ``minutes`` is how long each size takes at the
    designer's pace, from the least to the most; empty where she states none. ``orders`` are for
    ``bags`` bags with ``margin`` more yarn; empty where ``bags`` is nought. Nothing is known of the
    yarn of the parts in ``without_gauge``."""

    sizes: tuple[str, ...]
    things: tuple[Thing, ...]
    cost: Cost
    cost_by_size: Mapping[str, Cost]
    minutes: Mapping[str, tuple[int, int]]
    bags: int
    margin: Fraction
    orders: tuple[Ordered, ...]
    without_gauge: tuple[str, ...]


def bagged(checked: Checked, bags: int, margin: Fraction | None) -> Bag:
    """The bag of a checked pattern. Without a ``margin`` it is the designer's own, or none."""
    use = needed(checked.pattern, checked.fabrics)
    made = bill(checked.pattern, use)
    names = made.sizes
    more = margin if margin is not None else made.margin or Fraction(0)
    times = working_time(checked.pattern, checked.fabrics)
    return Bag(
        names,
        tuple(_thing(entry, names) for entry in made.entries),
        _cost(made, None),
        {name: _cost(made, size) for size, name in enumerate(names)},
        {names[one.size]: (int(one.least), -int(-one.most // 1)) for one in times},
        bags,
        more,
        tuple(_ordered(one) for one in (order(made, bags, more) if bags else ())),
        use.without,
    )


def _thing(entry: Entry, names: tuple[str, ...]) -> Thing:
    needs = ((size, need) for size, need in enumerate(entry.needs) if need is not None)
    left = [(size, entry.left(size, amount)) for size, amount in enumerate(entry.amounts)]
    known = [(names[size], one) for size, one in left if one is not None]
    return Thing(
        entry.what,
        entry.name,
        entry.unit or PIECE,
        entry.stated,
        entry.price,
        entry.amount,
        dict(zip(names, entry.amounts, strict=True)),
        {names[size]: taken(need, names[size]) for size, need in needs},
        {name: _left(amount) for name, (amount, _) in known},
        known[0][1][1] if known else "",
    )


def _left(amount: Between) -> tuple[int, int]:
    if amount.least < 0:  # too little is told exactly: nobody orders by it
        return int(amount.least // 1), int(amount.most // 1)
    return rounded(amount)


def _cost(made: Bill, size: int | None) -> Cost:
    total, without = made.costs(size)
    return Cost(total, tuple(entry.name for entry in without))


def _ordered(one: Order) -> Ordered:
    entry = one.entry
    grams, metres = (_up(amount) for amount in (one.grams, one.metres))
    unit = entry.unit or PIECE
    return Ordered(entry.what, entry.name, one.amount, unit, one.balls, grams, metres, one.cost)


def _up(amount: Fraction | None) -> int | None:
    return None if amount is None else rounded(Between(amount, amount))[1]
