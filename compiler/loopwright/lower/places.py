"""Where a stitch goes: places, kinds of places, and how far an `each` or a repeat runs."""

from __future__ import annotations

from typing import Any

from loopwright.frozen import replace
from loopwright.ir.items import ANY_STITCH, Kind, Scope, Target
from loopwright.ir.numbers import Given
from loopwright.lower import faults
from loopwright.lower import numbers as num
from loopwright.lower.context import Broken, Context
from loopwright.lower.stitches import many, own_name, word
from loopwright.syntax.tree import Node
from loopwright.trade.stitches import MANY, SLIP
from loopwright.trade.terms import stitch_of

KINDS = (
    "kinds",
    "kind_st",
    "kind_ch",
    "kind_sp",
    "kind_any_sp",
    "kind_gap",
    "kind_row_end",
    "kind_stitch",
    "kind_many",
    "kind_slip",
)


def kind(ctx: Context, node: Node, *, counted: bool = False) -> Kind:
    """Lower a kind of place, to be worked into or ``counted``."""
    rule = node.rule
    if rule in ("kind_st", "st"):
        return ANY_STITCH
    if rule == "kind_ch":
        return Kind("ch")
    if rule == "kind_sp":
        return Kind("sp", int(str(node.children[0])[3:]))
    if rule in ("kind_any_sp", "space"):
        return Kind("sp")
    if rule == "kind_gap":
        return Kind("gap")
    if rule == "kind_row_end":
        return Kind("row end")
    if rule == "kind_slip":
        return Kind("stitch", stitch=SLIP)
    if rule == "kind_many":
        return Kind("stitch", stitch=many(ctx, node.children[0], node.children[1]))
    if rule == "kind_stitch":
        return _named(ctx, node, counted=counted)
    inner = [kind(ctx, kid) for kid in node.nodes()]
    if {one.what for one in inner} == {"st", "ch"}:
        return Kind("st and ch")
    ctx.say(
        faults.not_understood(
            ctx.span(node),
            "and",
            "Only `st and ch` can be worked one after the other as they come.",
            ("Write `st and ch`: of a ch-1 sp the next stitch goes into its one chain.",),
        )
    )
    raise Broken


def _named(ctx: Context, node: Node, *, counted: bool) -> Kind:
    name = str(node.children[0])
    own = own_name(ctx, name)
    if own:
        return Kind("own", own=own)
    if stitch_of(name, ctx.terms) is None:
        single = name.removesuffix("s")
        if single == "shell" and ctx.bad.isdisjoint({name, single}):
            if not ctx.unknowable("stitch"):
                span = ctx.span(node.children[0])
                ctx.say(faults.not_defined(span, name, ctx.terms, counted=counted))
            raise Broken
        if single in MANY or single == "picot":
            return Kind("many", own=single)
    return Kind("stitch", stitch=word(ctx, node.children[0], "counted" if counted else "place"))


def place(ctx: Context, node: Node) -> Target:
    """Lower a ``place`` node: ``in ...`` or ``around ...``."""
    target = where(ctx, node.nodes()[0])
    if node.has("around"):
        return replace(target, post=True, span=ctx.span(node))
    return replace(target, span=ctx.span(node))


def where(ctx: Context, node: Node) -> Target:
    """Lower what comes after ``in``, ``around`` or ``move to``."""
    rule = node.rule
    span = ctx.span(node)
    kind_node = node.find(*KINDS)
    what = kind(ctx, kind_node) if kind_node is not None else ANY_STITCH
    if rule == "next":
        below, of_row = _depth(ctx, node)
        return Target("next", what, below=below, of_row=of_row, span=span)
    if rule == "next_few":
        return Target("each next", what, _number(ctx, node), span=span)
    if rule == "last_few":
        return Target("each last", what, _number(ctx, node), span=span)
    if rule == "each":
        return Target("each", what, scope=_scope(ctx, node), span=span)
    if rule == "each_next":
        return Target("each next", what, _number(ctx, node), span=span)
    if rule == "each_last":
        return Target("each last", what, _number(ctx, node), span=span)
    if rule in ("same", "first", "last"):
        return Target(rule, what, span=span)
    if rule == "ring":
        return Target("ring", span=span)
    if rule == "marked":
        return Target("marked", name=str(node.word("NAME")), span=span)
    if rule == "from_hook":
        return Target("hook", Kind("ch"), nth=_ordinal(node), span=span)
    if rule == "top":
        return Target("top", chains=int(str(node.word("CH_N"))[3:]), span=span)
    if rule == "chain_of":
        which = next(w for w in ("next", "first", "same", "last") if node.has(w))
        return Target("chain of", what, nth=_ordinal(node), which=which, span=span)
    if rule == "nth":
        return Target("nth", what, nth=_ordinal(node), span=span)
    return _uncommon(ctx, node, what)


def _uncommon(ctx: Context, node: Node, what: Kind) -> Target:
    rule = node.rule
    span = ctx.span(node)
    if rule == "skipped":
        return Target("skipped", nth=0, span=span)
    if rule == "nth_skipped":
        return Target("skipped", nth=_ordinal(node), span=span)
    if rule == "few_skipped":
        return Target("each skipped", n=Given(_int(ctx, node)), span=span)
    if rule == "next_unworked":
        return Target("each unworked", n=Given(1), span=span)
    if rule == "each_unworked":
        return Target("each unworked", n=_number(ctx, node), span=span)
    if rule == "base":
        which = "first" if node.has("first") else "next"
        return Target("base", chains=int(str(node.word("CH_N"))[3:]), which=which, span=span)
    if rule == "next_skipped":
        below, of_row = _depth(ctx, node)
        return Target("next skipped", below=below, of_row=of_row, span=span)
    return Target(
        "each",
        Kind("gap", own=own_name(ctx, str(node.word("NAME"))) or _between(ctx, node)),
        scope=Scope("end"),
        span=span,
    )


def _between(ctx: Context, node: Node) -> str:
    word = node.word("NAME")
    ctx.say(
        faults.not_understood(
            ctx.span(word), str(word), "Between what the gaps lie must be a stitch of your own."
        )
    )
    raise Broken


def _depth(ctx: Context, node: Node) -> tuple[int, int]:
    below = node.find("below")
    if below is not None:
        return _int(ctx, below), 0
    of_row = node.find("of_row")
    return (0, _int(ctx, of_row)) if of_row is not None else (0, 0)


def _scope(ctx: Context, node: Node) -> Scope:
    scope = node.find("scope_end", "scope_to")
    if scope is None:
        return Scope("here")
    if scope.rule == "scope_end":
        return Scope("end", word=str(scope.children[0]))
    return limit(ctx, scope.nodes()[0])


def limit(ctx: Context, node: Node) -> Scope:
    """Lower what comes after ``to``."""
    if node.rule == "limit_marked":
        name = str(node.word("NAME"))
        return Scope("marked", name=name, word=f"to marked {name}")
    kind_node = node.find(*KINDS)
    assert kind_node is not None
    what = kind(ctx, kind_node)
    if what.what in ("gap", "st and ch"):
        ctx.say(
            faults.not_understood(
                ctx.span(kind_node),
                "gap" if what.what == "gap" else "st and ch",
                "Work stops at a stitch, a chain, a chain space, a row end or a marker.",
            )
        )
        raise Broken
    if node.rule == "limit_next":
        return Scope("next", kind=what, word="to next")
    numbers = [kid for kid in node.nodes() if kid is not kind_node]
    n = num.number(ctx, numbers[0]) if numbers else Given(1)
    return Scope("last", n, what, word="to last")


def _number(ctx: Context, node: Node) -> Any:
    return num.number(ctx, node.nodes()[0])


def _int(ctx: Context, node: Node) -> int:
    return num.integer(ctx, node.word("INT"))


def _ordinal(node: Node) -> int:
    return int(str(node.word("ORD"))[:-2])
