"""Numbers, lengths and arithmetic, from tree to IR.

Lengths are exact rationals in millimetres. The factors below are exact by definition (the inch by
the international yard and pound agreement of 1959); a test holds them against pint.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from loopwright.ir.numbers import CannotReckon, Given, Named, Number, PerSize, Reckoned
from loopwright.lower import faults, sums
from loopwright.lower.context import Broken, Context, nearest
from loopwright.syntax.tree import Node

MM = {
    "mm": Fraction(1),
    "cm": Fraction(10),
    "m": Fraction(1000),
    "in": Fraction(127, 5),
    "inch": Fraction(127, 5),
    "inches": Fraction(127, 5),
    "yd": Fraction(4572, 5),
}
GRAMS = {"g": Fraction(1), "oz": Fraction("28.349523125")}
GIVEN = {
    "yarn": 'Give it a line of its own, as in `yarn {name}: "DK wool", 50 g = 110 m`.',
    "hook": "Give it a line of its own, as in `hook {name}: 4 mm`.",
    "gauge": "Give it a line of its own, as in `gauge {name}: 14 sts and 8 rows to 10 cm in ...`.",
    "count": "Give it a line of its own, as in `count {name}: 28`.",
    "opening": "Name it where it is made, as in `opening {name} over 4 sts`.",
    "part": "A part that is referred to stands above, with a line such as `part {name}: flat`.",
}
"""What gives a name, for one that nothing gives."""

LONGEST = 60
"""Digits in one number."""


LONGEST_SUM = 200
"""Terms of one sum, and brackets inside each other in it."""


def check_sums(ctx: Context, tree: Node, text: str) -> None:
    """Report arithmetic that nobody could follow. Raises ``Broken``."""
    if sum(map(text.count, "+-*/^")) <= LONGEST_SUM:
        return
    todo = [(tree, 1)]
    while todo:
        node, depth = todo.pop()
        if depth > LONGEST_SUM:
            told = f"There is a sum here with more than {LONGEST_SUM} terms."
            hint = "Give parts of it a `count` line of their own."
            ctx.say(faults.not_in_this_edition(ctx.span(tree), told, hint))
            raise Broken
        todo.extend((kid, depth + 1) for kid in node.nodes())


def integer(ctx: Context, word: Any) -> int:
    """A written whole number."""
    if len(word) > LONGEST:
        ctx.say(
            faults.not_in_this_edition(
                ctx.span(word),
                f"This number has {len(word)} digits; at most {LONGEST} are read.",
                "Write a smaller number.",
            )
        )
        raise Broken
    return int(word)


def decimal(ctx: Context, node: Node) -> Fraction:
    """A ``decimal`` node: a number with or without a point."""
    word = node.children[0]
    if word.type == "INT":
        return Fraction(integer(ctx, word))
    return point(ctx, word)


def point(ctx: Context, word: Any) -> Fraction:
    """A written number with a point."""
    if len(word) > LONGEST:
        integer(ctx, word)
    return Fraction(str(word))


def number(ctx: Context, node: Node) -> Number:
    """Any node that stands for a number of things."""
    rule = node.rule
    if rule == "whole":
        return Given(integer(ctx, node.children[0]))
    if rule == "per_size":
        first = Given(integer(ctx, node.children[0]))
        return per_size(ctx, node, [first, *(cell(ctx, one) for one in cells(node))])
    if rule == "computed":
        return expression(ctx, node.children[0])
    if rule == "named":
        return named(ctx, node.children[0])
    return expression(ctx, node)


def cells(node: Node) -> list[Node]:
    """The values in the round brackets of a number per size."""
    return [kid for kid in node.nodes() if kid.rule == "cell"]


def cell(ctx: Context, node: Node) -> Number:
    kid = node.children[0]
    if isinstance(kid, Node):
        return expression(ctx, kid)
    if kid.type == "DECIMAL":
        return Given(point(ctx, kid))
    return Given(integer(ctx, kid))


def per_size(ctx: Context, node: Node, values: list[Number]) -> Number:
    """A number with one value a size; checks how many there are."""
    if len(values) != len(ctx.sizes):
        if ctx.sizes_known:
            ctx.say(sums.wrong_number_of_sizes(ctx.span(node), len(values), ctx.sizes))
            # Where no line names the sizes, that is one slip, however many numbers follow it.
            ctx.sizes_known = ctx.named_sizes
        raise Broken
    return PerSize(tuple(values))


def named(ctx: Context, word: Any) -> Number:
    """A count's name, or the row number's."""
    name = str(word)
    if name == ctx.variable:
        return Named(name)
    if name in ctx.counts:
        ctx.use("count", name)
        return Named(name)
    if ("count", name) not in ctx.used and name not in ctx.bad:
        unknown(ctx, word, "count", [*ctx.counts, *([ctx.variable] if ctx.variable else [])])
    raise Broken


def unknown(ctx: Context, word: Any, what: str, known: list[str]) -> None:
    """Report a name that nothing gives."""
    name = str(word)
    if name in ctx.measures:
        ctx.use("measure", name)
        ctx.say(
            sums.units_disagree(
                ctx.span(word),
                f"`{name}` is a length, and a number of stitches or rows should stand here.",
                f"Make a count of it first: `count NAME: {name}, at GAUGE sts`.",
            )
        )
        return
    near = nearest(name, known)
    if not near and ctx.unknowable(what):
        return
    if near:
        ctx.use(what, near)  # meant, most likely, and then not unused
    hint = GIVEN.get(what, "").format(name=name)
    if known and what == "count":
        hint = f"Use one of the counts there are: {', '.join(known)}."
    ctx.say(faults.unknown_name(ctx.span(word), what, name, near, hint))


def expression(ctx: Context, node: Node) -> Number:
    """Arithmetic without units."""
    rule = node.rule
    if rule in ("sum", "product", "power"):
        left, op, right = node.children
        return Reckoned(str(op), expression(ctx, left), expression(ctx, right))
    if rule == "negative":
        return Reckoned("-", Given(0), expression(ctx, node.children[1]))
    if rule in ("grouped", "braces"):
        return expression(ctx, node.children[1])
    if rule == "named":
        return named(ctx, node.children[0])
    if rule == "quantity":
        unit = node.find("unit")
        if unit is not None:
            ctx.say(
                sums.units_disagree(
                    ctx.span(node),
                    "A length stands here, and a plain number should.",
                    "A length becomes stitches or rows on a `count` line, with `at GAUGE sts`.",
                )
            )
            raise Broken
        first = Given(decimal(ctx, node.nodes()[0]))
        rest = [cell(ctx, one) for one in cells(node)]
        return per_size(ctx, node, [first, *rest]) if rest else _plain(first)
    return number(ctx, node)


def _plain(given: Given) -> Given:
    value = given.value
    return Given(int(value)) if Fraction(value).denominator == 1 else given


def lengths(ctx: Context, node: Node) -> tuple[tuple[Fraction, ...], str]:
    """A ``decimals`` node followed by a unit: mm in each size, and the unit as written.

    ``node`` is the node that holds both.
    """
    values = decimals(ctx, node.nodes()[0])
    unit_node = node.find("unit")
    assert unit_node is not None
    unit = str(unit_node.children[0])
    factor = MM.get(unit)
    if factor is None:
        ctx.say(
            sums.units_disagree(
                ctx.span(unit_node), f"`{unit}` is not a length.", "Write cm, mm or in."
            )
        )
        raise Broken
    return tuple(value * factor for value in values), unit


def decimals(ctx: Context, node: Node) -> tuple[Fraction, ...]:
    """A ``decimals`` node: one plain number for each size."""
    kid = node.children[0]
    if not isinstance(kid, Node):
        return in_every_size(ctx, named(ctx, kid), node)
    if kid.rule == "decimal":
        first = decimal(ctx, kid)
        rest = [cell(ctx, one) for one in cells(node)]
        if not rest:
            return (first,) * len(ctx.sizes)
        return in_every_size(ctx, per_size(ctx, node, [Given(first), *rest]), node)
    return in_every_size(ctx, expression(ctx, kid), node)


def in_every_size(ctx: Context, what: Number, node: Node) -> tuple[Fraction, ...]:
    """The value of a number in every size, from the counts known so far."""
    from loopwright.ir.numbers import reckon

    try:
        return tuple(
            Fraction(
                reckon(what, size, {name: count.values[size] for name, count in ctx.counts.items()})
            )
            for size in range(len(ctx.sizes))
        )
    except CannotReckon as error:
        say_cannot(ctx, node, error)
        raise Broken from None
    except KeyError:
        raise Broken from None


def say_cannot(ctx: Context, node: Node, error: CannotReckon) -> None:
    """Report arithmetic that has no value."""
    span = ctx.span(node)
    if error.code == "below-nought":
        ctx.say(sums.below_nought(span, "This", error.value, ()))
    else:
        ctx.say(sums.not_whole(span, "This", error.value, ()))
