"""The header's lines, from tree to IR: sizes, measures, yarns, hooks, gauges, own stitches."""

from __future__ import annotations

from fractions import Fraction

from loopwright.ir.pattern import Gauge, Hook, Measure, OwnStitch, Yarn
from loopwright.lower import bodies, faults, sums
from loopwright.lower import numbers as num
from loopwright.lower.context import Broken, Context
from loopwright.lower.items import several, yarns
from loopwright.lower.literal import literal
from loopwright.lower.stitches import plain
from loopwright.syntax.tree import Node
from loopwright.trade.stitches import PLAIN, Stitch
from loopwright.trade.terms import stitch_of

MOST_SIZES = 40
"""Sizes of one pattern."""


def size_name(node: Node) -> str:
    """A size's name, its words joined by single spaces."""
    return " ".join(str(word) for word in node.children)


def sizes(ctx: Context, node: Node) -> None:
    """``child (woman, man)``."""
    names = [kid for kid in node.nodes() if kid.rule == "size_name"]
    seen: dict[str, Node] = {}
    for one in names:
        name = size_name(one)
        if name in seen:
            ctx.say(faults.name_taken(ctx.span(one), "size", name, ctx.span(seen[name])))
        else:
            seen[name] = one
    if len(seen) > MOST_SIZES:
        ctx.say(
            faults.not_in_this_edition(
                ctx.span(node),
                f"The pattern has {len(seen)} sizes; at most {MOST_SIZES} are worked.",
                "Split it into patterns of fewer sizes.",
            )
        )
    ctx.sizes = tuple(seen)[:MOST_SIZES]
    ctx.named_sizes = True


def _name(ctx: Context, node: Node, what: str) -> str:
    """The name that a line gives; reports one that is taken."""
    word = node.word("NAME")
    name = str(word)
    for kind in ("measure", "count") if what in ("measure", "count") else (what,):
        table = _table(ctx, kind)
        if name in table:
            first = table[name].span  # type: ignore[attr-defined]
            ctx.say(faults.name_taken(ctx.span(word), kind, name, first))
            raise Broken
    return name


def _table(ctx: Context, what: str) -> dict[str, object]:
    tables: dict[str, dict[str, object]] = {
        "measure": ctx.measures,  # type: ignore[dict-item]
        "count": ctx.counts,  # type: ignore[dict-item]
        "yarn": ctx.yarns,  # type: ignore[dict-item]
        "hook": ctx.hooks,  # type: ignore[dict-item]
        "gauge": ctx.gauges,  # type: ignore[dict-item]
        "stitch": ctx.owns,  # type: ignore[dict-item]
    }
    return tables[what]


def check_count_name(ctx: Context, node: Node) -> None:
    """Report a count's name that is taken. Raises ``Broken``."""
    _name(ctx, node, "count")


def measure(ctx: Context, node: Node) -> None:
    """``measure palm: 15 (18, 21) cm``."""
    name = _name(ctx, node, "measure")
    span = ctx.span(node.word("NAME"))
    try:
        if bodies.mixed(ctx, node):
            ctx.measures[name] = bodies.measure(ctx, name, node, span)
        else:
            ctx.measures[name] = Measure(name, *num.lengths(ctx, node.nodes()[0]), span)
    except Broken:
        ctx.bad.add(name)
        raise


def yarn(ctx: Context, node: Node) -> None:
    """``yarn slate: "DK wool", 50 g = 110 m, weight 3``."""
    name = _name(ctx, node, "yarn")
    description = literal(str(node.word("STRING"))[1:-1])
    facts: dict[str, object] = {}
    for fact in node.nodes():
        if fact.rule == "put_up":
            grams, metres = _put_up(ctx, fact)
            facts["grams"], facts["metres"] = grams, metres
        elif fact.rule == "weight":
            weight = num.integer(ctx, fact.word("INT"))
            if weight > 7:
                ctx.say(
                    faults.not_understood(
                        ctx.span(fact),
                        f"weight {weight}",
                        "A yarn's weight is a number from 0 to 7.",
                    )
                )
            facts["weight"] = min(weight, 7)
        elif fact.rule == "colour":
            facts["colour"] = literal(str(fact.word("STRING"))[1:-1])
        else:
            facts["price"] = num.decimal(ctx, fact.nodes()[0])
    span = ctx.span(node.word("NAME"))
    ctx.yarns[name] = Yarn(name, description, span=span, **facts)  # type: ignore[arg-type]


def _put_up(ctx: Context, fact: Node) -> tuple[Fraction, Fraction]:
    one, unit_one, two, unit_two = fact.nodes()
    amounts = [
        (num.decimal(ctx, one), str(unit_one.children[0])),
        (num.decimal(ctx, two), str(unit_two.children[0])),
    ]
    amounts.sort(key=lambda pair: pair[1] not in num.GRAMS)
    (grams, mass), (metres, length) = amounts
    if mass not in num.GRAMS or length not in num.MM or not grams or not metres:
        ctx.say(
            sums.units_disagree(
                ctx.span(fact),
                "A ball is so much weight and so much length.",
                "Write it as `50 g = 110 m` (or oz and yd).",
            )
        )
        raise Broken
    return grams * num.GRAMS[mass], metres * num.MM[length] / 1000


def hook(ctx: Context, node: Node) -> None:
    """``hook small: 4 mm``."""
    name = _name(ctx, node, "hook")
    try:
        sizes_mm, _ = num.lengths(ctx, node)
    except Broken:
        ctx.bad.add(name)
        raise
    ctx.hooks[name] = Hook(name, sizes_mm, ctx.span(node.word("NAME")))


def gauge(ctx: Context, node: Node) -> None:
    """``gauge rib: 19 sts and 20 rows to 10 cm in dc blo, hook small``."""
    if node.has("tension") and ctx.terms.name == "US":
        word = node.children[0]
        ctx.foreign(ctx.span(word), "tension", "gauge")
    name = _name(ctx, node, "gauge")
    ctx.bad.add(name)
    over = node.find("gauge_over")
    assert over is not None
    stitches, rows, length = _over(ctx, over)
    stitch_node = over.find("stitch")
    assert stitch_node is not None
    stitch = plain(ctx, stitch_node)
    loop = over.find("loop")
    facts: dict[str, object] = {}
    for fact in node.nodes()[1:]:
        facts.update(_gauge_fact(ctx, fact))
    unit = over.find("unit")
    assert unit is not None
    row_word = over.find("row_word")
    ctx.gauges[name] = Gauge(
        name,
        stitches,
        rows,
        length,
        str(unit.children[0]),
        stitch,
        {"blo": "back", "flo": "front", "third": "third"}[str(loop.children[0])] if loop else "",
        row_word is not None and str(row_word.children[0]).startswith("round"),
        span=ctx.span(node.word("NAME")),
        **facts,  # type: ignore[arg-type]
    )
    ctx.bad.discard(name)


def _over(ctx: Context, over: Node) -> tuple[Fraction, Fraction | None, Fraction]:
    values = [num.decimal(ctx, kid) for kid in over.nodes() if kid.rule == "decimal"]
    unit = over.find("unit")
    assert unit is not None
    factor = num.MM.get(str(unit.children[0]))
    if factor is None or not all(values):
        ctx.say(
            sums.units_disagree(
                ctx.span(over),
                "A gauge is a number of stitches, more than nought, to a length.",
                "Write it as `14 sts and 8 rows to 10 cm in ...`.",
            )
        )
        raise Broken
    rows = values[1] if len(values) > 2 else None
    return values[0], rows, values[-1] * factor


def _gauge_fact(ctx: Context, fact: Node) -> dict[str, object]:
    if fact.rule == "gauge_hook":
        return {"hook": hook_named(ctx, fact)}
    if fact.rule == "gauge_yarn":
        return {"yarns": yarns(ctx, fact.nodes()[0])}
    amount = num.decimal(ctx, fact.nodes()[0])
    unit = str(fact.nodes()[1].children[0])
    table = num.GRAMS if fact.rule == "weighs" else num.MM
    if unit not in table:
        ctx.say(
            sums.units_disagree(
                ctx.span(fact),
                f"`{unit}` does not fit here.",
                "Write what the square `weighs` in g, or what it `uses` in m.",
            )
        )
        raise Broken
    if fact.rule == "weighs":
        return {"weighs": amount * table[unit]}
    return {"uses": amount * table[unit] / 1000}


def hook_named(ctx: Context, node: Node) -> str:
    """The hook that a node names; reports one without a line."""
    word = node.word("NAME")
    name = str(word)
    if name in ctx.hooks:
        ctx.use("hook", name)
        return name
    if name not in ctx.bad:
        num.unknown(ctx, word, "hook", list(ctx.hooks))
    raise Broken


def stitch(ctx: Context, node: Node) -> None:
    """``stitch mussel: (3 tr, ch 1, 3 tr) in next st, height tr``."""
    word = node.word("NAME")
    name = str(word)
    if stitch_of(name, ctx.terms) is not None:
        ctx.say(faults.name_taken(ctx.span(word), "stitch", name, None))
        raise Broken
    _name(ctx, node, "stitch")
    nodes = node.nodes()
    height = nodes.pop() if node.has("height") else None
    try:
        made = several(ctx, nodes)
        tall = plain(ctx, height) if height is not None else tallest(made)
    except Broken:
        ctx.bad.add(name)
        raise
    ctx.owns[name] = OwnStitch(name, made, tall, ctx.span(word))


def tallest(made: tuple[object, ...]) -> Stitch:
    """The tallest stitch among items, for an own stitch whose height is not given."""
    best = PLAIN
    for one in made:
        inner = getattr(one, "items", None)
        found = tallest(inner) if inner else getattr(one, "stitch", None)
        if isinstance(found, Stitch) and found.height > best.height:
            best = Stitch(found.basic)
    return best
