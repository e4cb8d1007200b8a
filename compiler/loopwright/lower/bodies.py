"""Measures taken from the standard tables: ``measure head: who 6 months (48 cm, adult woman)``.

The tables are loaded only by a pattern that takes a measure from them.
"""

from __future__ import annotations

from fractions import Fraction

from loopwright.diagnostics import Diagnostic
from loopwright.frozen import NamedTuple
from loopwright.ir.pattern import Body, Measure
from loopwright.lower import faults, sums
from loopwright.lower import numbers as num
from loopwright.lower.context import Broken, Context
from loopwright.source import Span
from loopwright.syntax.tree import Node

UNIT = "cm"
"""The unit of a measure that no size gives in one of its own."""


class _Fit(NamedTuple):
    """The length of one size: in mm, the unit where one was written, the table where it is from."""

    mm: Fraction
    unit: str
    body: Body | None


def mixed(ctx: Context, node: Node) -> bool:
    """Whether a measure line has more in it than lengths of one unit."""
    return node.find("body", "fit") is not None


def measure(ctx: Context, name: str, node: Node, span: Span) -> Measure:
    """A measure whose sizes are each given by themselves. Raises ``Broken``."""
    made: list[_Fit] = []
    broken = False
    for kid in node.nodes():
        try:
            made.append(_fit(ctx, name, kid))
        except Broken:
            broken = True
    if broken:
        raise Broken
    if len(made) == 1:
        made *= len(ctx.sizes)
    if len(made) != len(ctx.sizes):
        whole = Span(ctx.span(node.nodes()[0]).start, ctx.span(node).end)
        ctx.say(sums.wrong_number_of_sizes(whole, len(made), ctx.sizes))
        raise Broken
    unit = next((one.unit for one in made if one.unit), UNIT)
    return Measure(name, tuple(one.mm for one in made), unit, span, tuple(one.body for one in made))


def _fit(ctx: Context, name: str, node: Node) -> _Fit:
    body = node if node.rule == "body" else node.find("body")
    if body is not None:
        return _body(ctx, name, body)
    if node.rule == "lengths":
        return _first(ctx, node)
    value, unit_node = node.nodes()
    unit = str(unit_node.children[0])
    factor = num.MM.get(unit)
    if factor is None:
        hint = "Write cm, mm or in."
        ctx.say(sums.units_disagree(ctx.span(unit_node), f"`{unit}` is not a length.", hint))
        raise Broken
    return _Fit(num.decimal(ctx, value) * factor, unit, None)


def _first(ctx: Context, node: Node) -> _Fit:
    """The first size's length, where the others stand in brackets by themselves."""
    if num.cells(node.nodes()[0]):
        text = "Here every size has its length already, and more follow."
        hint = "Write one length for each size, as in `40 cm (44 cm, adult woman)`."
        ctx.say(faults.not_understood(ctx.span(node), "", text, (hint,)))
        raise Broken
    lengths, unit = num.lengths(ctx, node)
    return _Fit(lengths[0], unit, None)


def _body(ctx: Context, name: str, node: Node) -> _Fit:
    from loopwright.trade.bodies import NoStandard, standard

    phrase = " ".join(str(word) for word in node.children)
    try:
        found = standard(name, phrase)
    except NoStandard as error:
        ctx.say(unknown_body(ctx.span(node), error.text, error.known))
        raise Broken from None
    return _Fit(found.mm, "", Body(found.source, found.of))


def unknown_body(span: Span, text: str, known: str) -> Diagnostic:
    """A standard measure that there is not: a name that nothing gives, like any other."""
    return Diagnostic("unknown-name", "error", span, text, (known,))
