"""The items of a row, from tree to IR: one small function for each construct."""

from __future__ import annotations

from collections.abc import Callable

from loopwright.ir import items as ir
from loopwright.ir.items import Item
from loopwright.ir.numbers import Given, Number
from loopwright.lower import faults
from loopwright.lower import numbers as num
from loopwright.lower.context import Broken, Context
from loopwright.lower.places import KINDS, kind, limit, place, where
from loopwright.lower.stitches import meant, plain
from loopwright.syntax.tree import Node
from loopwright.trade.stitches import Stitch

NUMBERS = ("whole", "per_size", "computed", "named")
ONE = Given(1)


def items(ctx: Context, node: Node) -> tuple[Item, ...]:
    """Every item of an ``items`` node; raises ``Broken`` if any was wrong, after all were read."""
    return several(ctx, node.nodes())


def several(ctx: Context, nodes: list[Node]) -> tuple[Item, ...]:
    """Lower several items, so that one that is wrong does not hide another."""
    out = []
    broken = False
    for node in nodes:
        try:
            out.append(item(ctx, node))
        except Broken:
            broken = True
    if broken:
        raise Broken
    return tuple(out)


def item(ctx: Context, node: Node) -> Item:
    """Lower one item."""
    return LOWER[node.rule](ctx, node)


def _n(ctx: Context, node: Node) -> Number:
    found = node.find(*NUMBERS)
    return num.number(ctx, found) if found is not None else ONE


def _stitch_node(node: Node) -> Node:
    found = node.find("stitch")
    assert found is not None
    return found


def _loop(node: Node) -> str:
    found = node.find("loop")
    if found is None:
        return ""
    return {"blo": "back", "flo": "front", "third": "third"}[str(found.children[0])]


def _work(ctx: Context, node: Node) -> Item:
    stitch_node = _stitch_node(node)
    found = meant(ctx, stitch_node)
    n = _n(ctx, node)
    place_node = node.find("place")
    target = place(ctx, place_node) if place_node is not None else None
    span = ctx.span(node)
    if found.picot:
        return ir.Picot(found.picot, n, target, span)
    if target is not None and target.post and not found.own and not found.stitch.post:
        ctx.say(
            faults.not_understood(
                ctx.span(node),
                "around",
                "Only a post stitch (fp..., bp...) goes around another; the others go `in` it.",
                ("Write `in` for `around`, or make it a post stitch.",),
            )
        )
        raise Broken
    named = ctx.span(stitch_node)
    if target is not None and target.how == "each skipped":
        n = _shared_out(n, target.n)
    return ir.Work(found.stitch, n, target, _loop(node), found.own, span, named)


def _shared_out(n: Number, places: Number) -> Number:
    """How many go into each: `2 fptr around 2 skipped sts` are two in all, as `2 fptr` are."""
    match n, places:
        case Given(value=many), Given(value=over) if over and many % over == 0:
            return Given(many // over)
    return n


def _inc(ctx: Context, node: Node) -> Item:
    return ir.Increase(plain(ctx, _stitch_node(node)), _n(ctx, node), ctx.span(node))


def _dec(ctx: Context, node: Node) -> Item:
    stitch = plain(ctx, _stitch_node(node))._replace(together=2)
    return ir.Decrease(stitch, _n(ctx, node), ctx.span(node))


def _evenly(ctx: Context, node: Node) -> Item:
    stitch = plain(ctx, _stitch_node(node))
    return ir.Evenly(stitch, _n(ctx, node), "all", _loop(node), ctx.span(node))


def _inc_evenly(ctx: Context, node: Node) -> Item:
    stitch = plain(ctx, _stitch_node(node))
    return ir.Evenly(stitch, _n(ctx, node), "inc", "", ctx.span(node))


def _dec_evenly(ctx: Context, node: Node) -> Item:
    stitch = plain(ctx, _stitch_node(node))
    return ir.Evenly(stitch, _n(ctx, node), "dec", "", ctx.span(node))


def _tog(ctx: Context, node: Node) -> Item:
    stitches = [plain(ctx, kid) for kid in node.nodes() if kid.rule == "stitch"]
    if len(stitches) < 2:
        tall = ctx.terms.short["long"]
        ctx.say(
            faults.not_understood(
                ctx.span(node),
                "tog",
                f"Two or more stitches are worked together: `tog(fp{tall}, {tall})`.",
            )
        )
        raise Broken
    first, rest = stitches[0], tuple(stitches[1:])
    if all(one == first for one in rest):
        joined = first._replace(together=len(stitches))
    else:
        joined = first._replace(together=len(stitches), unlike=rest)
    place_node = node.find("place")
    target = place(ctx, place_node) if place_node is not None else None
    return ir.Work(joined, _n(ctx, node), target, "", "", ctx.span(node), ctx.span(node))


def _group(ctx: Context, node: Node) -> Item:
    inner = node.find("items")
    place_node = node.find("place")
    assert inner is not None
    assert place_node is not None
    made = items(ctx, inner)
    target = place(ctx, place_node)
    as_node = node.find("stitch")
    as_stitch = plain(ctx, as_node) if as_node is not None else None
    return ir.Group(made, target, as_stitch, ctx.span(node))


def _bracket(ctx: Context, node: Node) -> Item:
    nodes = node.nodes()
    ending = nodes[-1]
    first = nodes[0].nodes()
    rest = nodes[1].nodes() if len(nodes) > 2 else []
    made = several(ctx, first + rest)
    stop = len(first) if rest else None
    span = ctx.span(node)
    if ending.rule == "times":
        return ir.Repeat(made, num.number(ctx, ending.nodes()[0]), None, stop, span)
    if ending.rule == "to_end":
        scope = ir.Scope("end", word=str(ending.children[0]))
    else:
        scope = limit(ctx, ending.nodes()[0])
    return ir.Repeat(made, None, scope, stop, span)


def _counts_as(ctx: Context, node: Node) -> tuple[Stitch | None, int]:
    """``as tr`` or ``as (tr, ch 1)``: the stitch, and the loose chains after it."""
    as_node = node.find("as_what")
    if as_node is None:
        return None, 0
    single = as_node.find("stitch")
    if single is not None:
        return plain(ctx, single), 0
    inner = as_node.find("items")
    assert inner is not None
    made = items(ctx, inner)
    match made:
        case (ir.Work(stitch=stitch, n=Given(1), target=None, own=""),):
            return stitch, 0
        case (
            ir.Work(stitch=stitch, n=Given(1), target=None, own=""),
            ir.Chain(n=Given(value=chains), counts_as=None),
        ):
            return stitch, int(chains)
    ctx.say(
        faults.not_understood(
            ctx.span(as_node),
            "this",
            "A chain counts as one stitch, or as a stitch and chains:"
            f" `as ({ctx.terms.short['long']}, ch 1)`.",
        )
    )
    raise Broken


def _chain(ctx: Context, node: Node) -> Item:
    stitch, loose = _counts_as(ctx, node)
    return ir.Chain(_n(ctx, node), stitch, loose, ctx.span(node))


def _skip_word(ctx: Context, node: Node) -> None:
    found = node.find("skip_word")
    if found is not None and found.has("miss") and ctx.terms.name == "US":
        ctx.foreign(ctx.span(found), "miss", "skip")
        raise Broken


def _skip(ctx: Context, node: Node) -> Item:
    _skip_word(ctx, node)
    kind_node = node.find(*KINDS)
    assert kind_node is not None
    stitch, loose = _counts_as(ctx, node)
    return ir.Skip(_n(ctx, node), kind(ctx, kind_node), stitch, loose, ctx.span(node))


def _skip_next(ctx: Context, node: Node) -> Item:
    _skip_word(ctx, node)
    kind_node = node.find(*KINDS)
    assert kind_node is not None
    return ir.Skip(_n(ctx, node), kind(ctx, kind_node), span=ctx.span(node))


def _join(ctx: Context, node: Node) -> Item:
    found = node.find("stitch")
    return ir.Join(plain(ctx, found) if found is not None else None, ctx.span(node))


def _opening(ctx: Context, node: Node) -> Item:
    word = node.word("NAME")
    name = str(word)
    numbers = [num.number(ctx, kid) for kid in node.nodes() if kid.rule in NUMBERS]
    chains = numbers[1] if len(numbers) > 1 else None
    ctx.openings.setdefault(name, ctx.span(word))
    return ir.Opening(name, numbers[0], chains, ctx.span(node))


def yarns(ctx: Context, node: Node) -> tuple[str, ...]:
    """The yarns of ``slate + foam``; each must have its line."""
    names = []
    for word in node.words("NAME"):
        name = str(word)
        if name in ctx.yarns:
            ctx.use("yarn", name)
            names.append(name)
        elif name not in ctx.bad:
            num.unknown(ctx, word, "yarn", list(ctx.yarns))
            raise Broken
    return tuple(names)


def _change(ctx: Context, node: Node) -> Item:
    return ir.Change(yarns(ctx, node.nodes()[0]), ctx.span(node))


LOWER: dict[str, Callable[[Context, Node], Item]] = {
    "work": _work,
    "inc": _inc,
    "dec": _dec,
    "evenly": _evenly,
    "inc_evenly": _inc_evenly,
    "dec_evenly": _dec_evenly,
    "tog": _tog,
    "group": _group,
    "bracket": _bracket,
    "chain": _chain,
    "skip": _skip,
    "skip_next": _skip_next,
    "join": _join,
    "turn": lambda ctx, node: ir.Turn(True, ctx.span(node)),
    "no_turn": lambda ctx, node: ir.Turn(False, ctx.span(node)),
    "move": lambda ctx, node: ir.Move(where(ctx, node.nodes()[0]), ctx.span(node)),
    "run_on": lambda ctx, node: ir.RunOn(ctx.span(node)),
    "leave": lambda ctx, node: ir.Leave(_n(ctx, node), ctx.span(node)),
    "leave_rest": lambda ctx, node: ir.Leave(None, ctx.span(node)),
    "opening": _opening,
    "change": _change,
    "mark": lambda ctx, node: ir.Mark(str(node.word("NAME")), ctx.span(node)),
    "other_side": lambda ctx, node: ir.OtherSide(ctx.span(node)),
}
