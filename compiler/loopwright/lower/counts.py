"""Counts: numbers per size, given or made from a length at a gauge, and the rule they keep.

A value carries its unit through the arithmetic: ``palm + 1 cm`` is a length in every size, and
becomes stitches through ``at GAUGE sts``.
"""

from __future__ import annotations

from fractions import Fraction
from typing import NoReturn

from loopwright.frozen import NamedTuple, replace
from loopwright.ir.numbers import CannotReckon, Given, operate
from loopwright.ir.pattern import Count, MadeTo
from loopwright.lower import faults, sums
from loopwright.lower import numbers as num
from loopwright.lower.context import Broken, Context
from loopwright.syntax.tree import Node


class Amount(NamedTuple):
    """Values per size; ``power`` is 1 for lengths (in mm), 0 for plain numbers; ``given`` when it
    is written out and not reckoned from anything; ``of`` the measures in it, with how many times
    each is in it in every size."""

    values: tuple[Fraction, ...]
    power: int
    given: bool
    of: tuple[MadeTo, ...] = ()


class _Rules:
    def __init__(self) -> None:
        self.multiple = 1
        self.plus = 0
        self.rounding = ""
        self.gauge: tuple[str, bool, Node] | None = None


def count(ctx: Context, node: Node) -> Count | None:
    """Lower a ``count`` line; None where it is wrong (and said so)."""
    name_word = node.word("NAME")
    name = str(name_word)
    parts = node.nodes()
    try:
        rules = _rules(ctx, parts[1:])
        amount = _amount(ctx, parts[0])
        values = _at_gauge(ctx, node, amount, rules)
        whole = _round(ctx, node, name, values, amount, rules)
    except Broken:
        ctx.bad.add(name)
        return None
    computed = not amount.given
    assert name_word is not None
    made = Count(name, whole, computed, rules.multiple, rules.plus, span=ctx.span(name_word))
    if rules.gauge is None:
        return made
    gauge, by_row, _ = rules.gauge
    along = "rows" if by_row else "sts"
    return replace(made, lengths=amount.values, gauge=gauge, along=along, made_to=amount.of)


def _rules(ctx: Context, nodes: list[Node]) -> _Rules:
    rules = _Rules()
    for node in nodes:
        if node.rule == "at_gauge":
            by_row = node.find("row_word") is not None
            rules.gauge = (str(node.word("NAME")), by_row, node)
        elif node.rule == "multiple":
            ints = node.words("INT")
            rules.multiple = num.integer(ctx, ints[0])
            rules.plus = num.integer(ctx, ints[1]) if len(ints) > 1 else 0
            if rules.multiple == 0:
                ctx.say(
                    faults.not_understood(
                        ctx.span(node), "multiple of 0", "A multiple is of 1 or more."
                    )
                )
                raise Broken
        elif node.rule == "parity":
            rules.multiple, rules.plus = 2, int(node.has("odd"))
        else:
            rules.rounding = str(node.children[1])
    return rules


def _amount(ctx: Context, node: Node) -> Amount:
    rule = node.rule
    if rule in ("sum", "product", "power"):
        left, op, right = node.children
        return _combine(ctx, node, str(op), _amount(ctx, left), _amount(ctx, right))
    if rule == "negative":
        inner = _amount(ctx, node.children[1])
        minus = tuple(MadeTo(one.measure, _negative(one.shares)) for one in inner.of)
        return Amount(_negative(inner.values), inner.power, False, minus)
    if rule == "grouped":
        return _amount(ctx, node.children[1])
    if rule == "named":
        return _named(ctx, node)
    first = num.decimal(ctx, node.nodes()[0])
    rest = num.cells(node)
    values = (first,) * len(ctx.sizes)
    if rest:
        cells = [num.cell(ctx, cell) for cell in rest]
        number = num.per_size(ctx, node, [Given(first), *cells])
        values = num.in_every_size(ctx, number, node)
    unit = node.find("unit")
    if unit is None:
        return Amount(values, 0, True)
    factor = num.MM.get(str(unit.children[0]))
    if factor is None:
        ctx.say(
            sums.units_disagree(
                ctx.span(unit), f"`{unit.children[0]}` is not a length.", "Write cm, mm or in."
            )
        )
        raise Broken
    return Amount(tuple(value * factor for value in values), 1, False)


def _named(ctx: Context, node: Node) -> Amount:
    name = str(node.children[0])
    measure = ctx.measures.get(name)
    if measure is not None:
        ctx.use("measure", name)
        once = (Fraction(1),) * len(ctx.sizes)
        return Amount(measure.lengths, 1, False, (MadeTo(name, once),))
    known = ctx.counts.get(name)
    if known is not None:
        ctx.use("count", name)
        return Amount(tuple(Fraction(value) for value in known.values), 0, False)
    if name not in ctx.bad:
        names = [*ctx.counts, *ctx.measures]
        num.unknown(ctx, node.children[0], "count or measure", names)
    raise Broken


def _combine(ctx: Context, node: Node, op: str, left: Amount, right: Amount) -> Amount:
    power = left.power
    if op in "+-" and left.power != right.power:
        ctx.say(
            sums.units_disagree(
                ctx.span(node),
                "A length and a plain number cannot be added to each other.",
                "Give both a unit, or neither.",
            )
        )
        raise Broken
    if op == "*":
        power = left.power + right.power
    elif op == "/":
        power = left.power - right.power
    if power not in (0, 1) or (op == "^" and (left.power or right.power)):
        ctx.say(
            sums.units_disagree(
                ctx.span(node),
                "This would be an area or a length divided the wrong way round.",
                "A length can be multiplied or divided by a plain number only.",
            )
        )
        raise Broken
    try:
        values = tuple(
            Fraction(operate(op, one, two))
            for one, two in zip(left.values, right.values, strict=True)
        )
    except CannotReckon as error:
        num.say_cannot(ctx, node, error)
        raise Broken from None
    given = left.given and right.given and not left.power
    return Amount(values, power, given, _measures_in(op, left, right))


def _measures_in(op: str, left: Amount, right: Amount) -> tuple[MadeTo, ...]:
    """How many times each measure is in what comes of an operation. Only a length has measures in
    it, and a length is added to, or multiplied or divided by a number, and nothing else."""
    if op in "+-":
        sides = ((left, 1), (right, 1 if op == "+" else -1))
        shares: dict[str, tuple[Fraction, ...]] = {}
        for side, sign in sides:
            for one in side.of:
                before = shares.get(one.measure, (Fraction(0),) * len(one.shares))
                both = zip(before, one.shares, strict=True)
                shares[one.measure] = tuple(had + sign * more for had, more in both)
        return tuple(MadeTo(name, times) for name, times in shares.items() if any(times))
    length, number = (left, right) if left.of else (right, left)
    factors = [value if op == "*" else 1 / value for value in number.values] if length.of else []
    return tuple(
        MadeTo(one.measure, tuple(a * b for a, b in zip(one.shares, factors, strict=True)))
        for one in length.of
    )


def _negative(values: tuple[Fraction, ...]) -> tuple[Fraction, ...]:
    return tuple(-value for value in values)


def _at_gauge(ctx: Context, node: Node, amount: Amount, rules: _Rules) -> tuple[Fraction, ...]:
    if rules.gauge is None:
        if amount.power:
            ctx.say(
                sums.units_disagree(
                    ctx.span(node.nodes()[0]),
                    "This is a length, and a count is a number of stitches or rows.",
                    "Add `at GAUGE sts` or `at GAUGE rows`.",
                )
            )
            raise Broken
        return amount.values
    name, by_row, at_node = rules.gauge
    gauge = ctx.gauges.get(name)
    if gauge is None:
        if name not in ctx.bad:
            num.unknown(ctx, at_node.word("NAME"), "gauge", list(ctx.gauges))
        raise Broken
    ctx.use("gauge", name)
    if not amount.power:
        ctx.say(
            sums.units_disagree(
                ctx.span(node.nodes()[0]),
                f"`at {name}` turns a length into stitches, and this is a plain number.",
                "Give the number a unit (cm, mm or in), or take `at` out.",
            )
        )
        raise Broken
    if by_row and gauge.rows is None:
        _no_rows(ctx, at_node, name)
    per = gauge.rows if by_row and gauge.rows is not None else gauge.stitches
    return tuple(value * per / gauge.over for value in amount.values)


def _no_rows(ctx: Context, node: Node, name: str) -> NoReturn:
    ctx.say(
        faults.missing_line(
            ctx.span(node),
            f"The gauge `{name}` does not say how many rows there are.",
            f"Write the rows too: `gauge {name}: 14 sts and 8 rows to 10 cm in ...`.",
        )
    )
    raise Broken


def _round(
    ctx: Context,
    node: Node,
    name: str,
    values: tuple[Fraction, ...],
    amount: Amount,
    rules: _Rules,
) -> tuple[int, ...]:
    if amount.given:
        return _as_given(ctx, node, name, values, rules)
    free = rules.gauge is None and rules.multiple == 1 and not rules.rounding
    if free and any(value.denominator != 1 for value in values):
        _not_whole(ctx, node, name, values)
        raise Broken
    out = tuple(nearest(value, rules.multiple, rules.plus, rules.rounding) for value in values)
    if any(value < 0 for value in out):
        bad = tuple(size for size, value in zip(ctx.sizes, out, strict=True) if value < 0)
        shown = ", ".join(str(value) for value in out if value < 0)
        ctx.say(sums.below_nought(ctx.span(node.nodes()[0]), f"`{name}`", shown, _some(ctx, bad)))
        raise Broken
    return out


def nearest(value: Fraction, multiple: int, plus: int, rounding: str) -> int:
    """The nearest ``multiple`` times something plus ``plus``; halves go up."""
    steps = (value - plus) / multiple
    if rounding == "up":
        whole = -((-steps.numerator) // steps.denominator)
    elif rounding == "down":
        whole = steps.numerator // steps.denominator
    else:
        whole = (2 * steps.numerator + steps.denominator) // (2 * steps.denominator)
    return int(whole * multiple + plus)


def _some(ctx: Context, bad: tuple[str, ...]) -> tuple[str, ...]:
    return bad if ctx.named_sizes else ()


def _not_whole(ctx: Context, node: Node, name: str, values: tuple[Fraction, ...]) -> None:
    pairs = [
        (size, value)
        for size, value in zip(ctx.sizes, values, strict=True)
        if value.denominator != 1
    ]
    shown = ", ".join(dict.fromkeys(f"{float(value):g}" for _, value in pairs))
    sizes = _some(ctx, tuple(size for size, _ in pairs))
    hint = "Add `multiple of N`, `rounded up` or `rounded down`, or change the numbers."
    ctx.say(sums.not_whole(ctx.span(node.nodes()[0]), f"`{name}`", shown, sizes, hint))


def _as_given(
    ctx: Context, node: Node, name: str, values: tuple[Fraction, ...], rules: _Rules
) -> tuple[int, ...]:
    if any(value.denominator != 1 for value in values):
        _not_whole(ctx, node, name, values)
        raise Broken
    whole = tuple(int(value) for value in values)
    if any(value < 0 for value in whole):
        _round(ctx, node, name, values, Amount(values, 0, False), _Rules())
    wrong = [
        (size, value)
        for size, value in zip(ctx.sizes, whole, strict=True)
        if (value - rules.plus) % rules.multiple or value < rules.plus
    ]
    if wrong:
        shown = ", ".join(dict.fromkeys(str(value) for _, value in wrong))
        sizes = _some(ctx, tuple(size for size, _ in wrong))
        near = " and ".join(dict.fromkeys(_both_sides(value, rules) for _, value in wrong))
        hint = f"Make it {near}, the nearest that keep the rule; or change the rule."
        ctx.say(
            sums.not_a_multiple(
                ctx.span(node.nodes()[0]),
                name,
                rule_text(rules.multiple, rules.plus),
                shown,
                sizes,
                hint,
            )
        )
    return whole


def _both_sides(value: int, rules: _Rules) -> str:
    low = nearest(Fraction(value), rules.multiple, rules.plus, "down")
    high = nearest(Fraction(value), rules.multiple, rules.plus, "up")
    return f"{low} or {high}" if low >= max(rules.plus, 1) else str(max(high, rules.plus))


def rule_text(multiple: int, plus: int) -> str:
    """A rule in words: ``a multiple of 4 plus 1``, ``odd``."""
    if multiple == 2:
        return "odd" if plus % 2 else "even"
    return f"a multiple of {multiple}" + (f" plus {plus}" if plus else "")
