"""The kit and what belongs to it, from tree to IR: what is in the bag, how much yarn is allowed for
tails and a swatch, and how fast the designer works."""

from __future__ import annotations

from fractions import Fraction

from loopwright.ir.numbers import Given
from loopwright.ir.pattern import Kit, KitItem, Pace
from loopwright.lower import faults
from loopwright.lower import numbers as num
from loopwright.lower.context import Broken, Context, nearest
from loopwright.lower.header import hook_named
from loopwright.lower.literal import literal
from loopwright.source import Span
from loopwright.syntax.tree import Node


def allowance(ctx: Context, node: Node) -> None:
    """``allowance: 10%``."""
    span = ctx.span(node)
    _once(ctx, "allowance", span)
    ctx.allowance = _share(ctx, node.nodes()[0])


def pace(ctx: Context, node: Node) -> None:
    """``pace: 18 to 25 sts a minute``."""
    span = ctx.span(node)
    _once(ctx, "pace", span)
    first, last = (num.decimal(ctx, kid) for kid in node.nodes() if kid.rule == "decimal")
    slow, fast = min(first, last), max(first, last)
    if not slow:
        ctx.say(faults.not_understood(span, "0 sts", "A pace is more than nought."))
        raise Broken
    per = "an hour" if node.has("hour") else "a minute"
    minutes = 60 if node.has("hour") else 1
    written = f"{_plain(slow)} to {_plain(fast)} sts {per}"
    ctx.pace = Pace(slow / minutes, fast / minutes, written, span)


def kit(ctx: Context, node: Node) -> None:
    """``kit: 2 balls slate, hook main, 3 wooden buttons price 0.40 each, margin 10%``."""
    span = ctx.span(node)
    _once(ctx, "kit", span)
    margin = None
    items = []
    broken = False
    for kid in node.nodes():
        try:
            if kid.rule == "kit_margin":
                margin = _share(ctx, kid.nodes()[0])
            else:
                items.append(_ITEMS[kid.rule](ctx, kid))
                _no_yarn_twice(ctx, items)
        except Broken:
            broken = True
    ctx.kit = Kit(tuple(items), margin, span)
    if broken:
        raise Broken


def _no_yarn_twice(ctx: Context, items: list[KitItem]) -> None:
    """A yarn is told of once: two amounts of it leave open which of them is meant."""
    *before, last = items
    if last.what == "yarn" and any(one.name == last.name and one.what == "yarn" for one in before):
        text = f"`{last.name}` is in the bag already."
        hint = "Write once how much of it there is."
        ctx.say(faults.not_understood(last.span, last.name, text, (hint,)))
        raise Broken


def _once(ctx: Context, label: str, span: Span) -> None:
    first = ctx.once.setdefault(label, span)
    if first is not span:
        ctx.say(faults.name_taken(span, "line", label, first))
        raise Broken


def _share(ctx: Context, node: Node) -> Fraction:
    return num.decimal(ctx, node.nodes()[0]) / 100


def _amounts(ctx: Context, node: Node) -> tuple[Fraction, ...]:
    """A ``kit_number``: how much in each size."""
    first = num.decimal(ctx, node.nodes()[0])
    rest = [num.cell(ctx, one) for one in num.cells(node)]
    if not rest:
        return (first,) * len(ctx.sizes)
    number = num.per_size(ctx, node, [Given(first), *rest])
    return num.in_every_size(ctx, number, node)


def _price(ctx: Context, node: Node) -> Fraction | None:
    price = node.find("kit_price")
    return num.decimal(ctx, price.nodes()[0]) if price is not None else None


def _balls(ctx: Context, node: Node) -> KitItem:
    word = node.word("NAME")
    amounts = _amounts(ctx, node.nodes()[0])
    if str(word) not in ctx.yarns:
        if str(word) not in ctx.bad:
            num.unknown(ctx, word, "yarn", list(ctx.yarns))
        raise Broken
    return KitItem("yarn", str(word), amounts, "ball", _price(ctx, node), ctx.span(node))


def _amount(ctx: Context, node: Node) -> KitItem:
    """``50 g slate``, or ``50 cm elastic``."""
    amounts = _amounts(ctx, node.nodes()[0])
    unit_node, thing = node.find("unit"), node.find("thing")
    assert unit_node is not None
    assert thing is not None
    unit, name = str(unit_node.children[0]), _words(thing)
    price, span = _price(ctx, node), ctx.span(node)
    if name in ctx.yarns:
        grams = num.GRAMS.get(unit)
        factor = grams if grams is not None else num.MM[unit] / 1000
        amounts = tuple(amount * factor for amount in amounts)
        return KitItem("yarn", name, amounts, "m" if grams is None else "g", price, span)
    if name in ctx.bad:
        raise Broken
    word = thing.word("NAME")
    if word is not None and len(thing.children) == 1 and nearest(name, ctx.yarns):
        num.unknown(ctx, word, "yarn", list(ctx.yarns))
        raise Broken
    return KitItem("thing", name, amounts, unit, price, span)


def _hook(ctx: Context, node: Node) -> KitItem:
    ones = (Fraction(1),) * len(ctx.sizes)
    used = ("hook", str(node.word("NAME"))) in ctx.used
    name = hook_named(ctx, node)
    if not used:
        ctx.used.discard(("hook", name))  # a hook in the bag is not yet one that is worked with
    return KitItem("hook", name, ones, "", _price(ctx, node), ctx.span(node))


def _thing(ctx: Context, node: Node) -> KitItem:
    number, thing = node.find("kit_number"), node.find("thing")
    assert thing is not None
    ones = (Fraction(1),) * len(ctx.sizes)
    amounts = _amounts(ctx, number) if number is not None else ones
    yarn = str(thing.children[-1])
    if yarn in ctx.yarns:
        text = "A yarn goes into the bag by the ball, by weight or by length."
        hint = f"Write it as `2 balls {yarn}` or `100 g {yarn}`."
        ctx.say(faults.not_understood(ctx.span(node), _written(thing), text, (hint,)))
        raise Broken
    return KitItem("thing", _words(thing), amounts, "", _price(ctx, node), ctx.span(node))


def _words(thing: Node) -> str:
    return literal(" ".join(str(word).strip('"') for word in thing.children))


def _written(thing: Node) -> str:
    return " ".join(map(str, thing.children))


def _plain(value: Fraction) -> str:
    return f"{float(value):g}"


_ITEMS = {
    "kit_balls": _balls,
    "kit_amount": _amount,
    "kit_hook": _hook,
    "kit_thing": _thing,
}
