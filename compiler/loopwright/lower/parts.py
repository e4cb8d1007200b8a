"""Parts: how each is worked, where it starts, and its lines in order."""

from __future__ import annotations

from loopwright.ir.numbers import Number
from loopwright.ir.pattern import Edge, Line, Note, Part, Start
from loopwright.lower import faults, rows, sums
from loopwright.lower import numbers as num
from loopwright.lower.context import Broken, Context
from loopwright.lower.header import hook_named
from loopwright.lower.items import NUMBERS, yarns
from loopwright.lower.stitches import plain
from loopwright.source import Span
from loopwright.syntax.tree import Node

MANNERS = {
    "flat": "flat",
    "in_rounds": "rounds",
    "in_spiral": "spiral",
    "in_turned": "turned",
}


class PartSoFar:
    """A part while its lines are read."""

    def __init__(self, name: str, span: Span) -> None:
        self.name = name
        self.span = span
        self.manner = ""
        self.yarns: tuple[str, ...] = ()
        self.hook = ""
        self.gauge = ""
        self.shaped = False
        self.frilled = False
        self.make: tuple[int, ...] = ()
        self.start: Start | None = None
        self.broken = False
        self.lines: list[Line] = []

    def done(self) -> Part | None:
        """The part, or None where it cannot be worked at all."""
        if self.start is None or self.broken or not self.manner:
            return None
        return Part(
            self.name,
            self.manner,
            self.start,
            tuple(self.lines),
            self.yarns,
            self.hook,
            self.gauge,
            self.shaped,
            self.frilled,
            self.span,
            self.make,
        )


def part(ctx: Context, node: Node) -> PartSoFar:
    """A part line."""
    word = node.word("NAME")
    name = str(word)
    out = PartSoFar(name, ctx.span(word))
    if name in ctx.parts:
        ctx.say(faults.name_taken(ctx.span(word), "part", name, ctx.parts[name]))
    else:
        ctx.parts[name] = ctx.span(word)
    for fact in node.nodes():
        try:
            _fact(ctx, out, fact)
        except Broken:
            continue
    if not out.manner:
        out.broken = True
        ctx.say(
            faults.missing_line(
                ctx.span(word),
                f"The part `{name}` does not say how it is worked.",
                f"Write `part {name}: flat`, `in rounds`, `in a spiral` or `in turned rounds`.",
            )
        )
    return out


def _make(ctx: Context, fact: Node) -> tuple[int, ...]:
    """How many are made, in every size."""
    number = fact.nodes()[0]
    values = num.in_every_size(ctx, num.number(ctx, number), number)
    for value in values:
        if value.denominator != 1:
            ctx.say(sums.not_whole(ctx.span(number), "This", f"{float(value):g}", ()))
            raise Broken
        if value < 0:
            ctx.say(sums.below_nought(ctx.span(number), "This", str(value), ()))
            raise Broken
    return tuple(int(value) for value in values)


def _fact(ctx: Context, out: PartSoFar, fact: Node) -> None:
    manner = MANNERS.get(fact.rule)
    if manner is not None:
        if out.manner:
            ctx.say(
                faults.not_understood(
                    ctx.span(fact), "this", "How the part is worked has been said already."
                )
            )
        out.manner = manner
    elif fact.rule == "part_yarn":
        out.yarns = yarns(ctx, fact.nodes()[0])
    elif fact.rule == "part_hook":
        out.hook = hook_named(ctx, fact)
    elif fact.rule == "part_gauge":
        word = fact.word("NAME")
        name = str(word)
        if name in ctx.gauges:
            ctx.use("gauge", name)
            out.gauge = name
        elif name not in ctx.bad:
            num.unknown(ctx, word, "gauge", list(ctx.gauges))
    elif fact.rule == "make":
        out.make = _make(ctx, fact)
    elif fact.rule == "shaped":
        out.shaped = True
    else:
        out.frilled = True


def start(ctx: Context, node: Node) -> Start:
    """A start line."""
    made = [_start(ctx, kid) for kid in node.nodes()]
    first = made[0]
    if len(made) == 1:
        return first
    return Start(
        first.what,
        first.n,
        first.ring,
        first.stitch,
        first.edges,
        tuple(made[1:]),
        ctx.span(node),
    )


def _start(ctx: Context, node: Node) -> Start:
    rule = node.rule
    span = ctx.span(node)
    if rule == "start_chain":
        return Start("chain", _n(ctx, node), node.has("ring"), span=span)
    if rule == "start_magic":
        return Start("magic ring", span=span)
    if rule == "start_foundation":
        stitch_node = node.find("stitch")
        assert stitch_node is not None
        return Start("foundation", _n(ctx, node), stitch=plain(ctx, stitch_node), span=span)
    if rule == "start_through":
        edges = tuple(_edge(ctx, kid) for kid in node.nodes())
        return Start("through", edges=edges, span=span)
    return Start("edges", edges=(_one_edge(ctx, node),), span=span)


def _one_edge(ctx: Context, node: Node) -> Edge:
    rule = node.rule
    span = ctx.span(node)
    if rule == "start_around":
        word = node.word("NAME")
        name = str(word)
        if name not in ctx.openings and name not in ctx.bad and name not in ctx.unread:
            num.unknown(ctx, word, "opening", list(ctx.openings))
            raise Broken
        return Edge("opening", name, span=span)
    if rule == "start_all_round":
        return Edge("all round", _part_name(ctx, node), span=span)
    if rule == "start_unworked":
        return Edge("unworked", _part_name(ctx, node), span=span)
    edge_node = next(kid for kid in node.nodes() if kid.rule.startswith("edge_"))
    edge = _edge(ctx, edge_node)
    if rule == "start_along":
        return edge
    n: Number | None = None
    if node.find(*NUMBERS) is not None:
        n = _n(ctx, node)
    ordinal = node.word("ORD")
    nth = int(str(ordinal)[:-2]) if ordinal is not None else 0
    return Edge(edge.what, edge.part, n, nth, span)


def _edge(ctx: Context, node: Node) -> Edge:
    what = {"edge_last": "last", "edge_start": "start"}.get(node.rule, "row ends")
    if what == "row ends" and node.has("other"):
        what = "other row ends"
    return Edge(what, _part_name(ctx, node), span=ctx.span(node))


def _part_name(ctx: Context, node: Node) -> str:
    word = node.word("NAME")
    name = str(word)
    if name not in ctx.parts:
        if name not in ctx.bad:
            num.unknown(ctx, word, "part", list(ctx.parts))
        raise Broken
    return name


def _n(ctx: Context, node: Node) -> Number:
    found = node.find(*NUMBERS)
    assert found is not None
    return num.number(ctx, found)


__all__ = ["Note", "PartSoFar", "part", "rows", "start"]
