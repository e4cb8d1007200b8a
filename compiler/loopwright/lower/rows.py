"""A part's lines, from tree to IR: rows, repeats, seams and what is printed between them."""

from __future__ import annotations

from collections.abc import Callable

from loopwright.frozen import replace
from loopwright.ir.items import Item, Kind
from loopwright.ir.numbers import Given, Number
from loopwright.ir.pattern import (
    ComesOut,
    Edge,
    Gather,
    Line,
    RepeatRows,
    Row,
    Seam,
    Stated,
    StatedCount,
    Stripes,
    Text,
)
from loopwright.lower import faults
from loopwright.lower import numbers as num
from loopwright.lower.context import Broken, Context, nearest
from loopwright.lower.header import size_name
from loopwright.lower.items import NUMBERS, items, yarns
from loopwright.lower.places import KINDS, kind
from loopwright.lower.stitches import meant
from loopwright.lower.text import text
from loopwright.syntax import lines as syntax
from loopwright.syntax.parser import parse
from loopwright.syntax.tree import Misread, Node


def row(ctx: Context, node: Node) -> Row:
    """A row line."""
    label, body = node.nodes()
    return _row(ctx, node, label, body, broken=False)


def broken_row(ctx: Context, line: syntax.Line) -> Row | None:
    """What can be saved of a row line that was not understood: its label and stated count, so
    that one slip is one message. The fault itself has been reported."""
    colon = line.text.find(":")
    if colon < 0:
        return None
    rest = line.text[colon + 1 :]
    equals = rest.rfind("=")
    # The stand-in keeps the offsets of the stated count.
    pad = " " * max(equals - len(" ch 1"), 0)
    for told in ([f" ch 1{pad}{rest[equals:]}"] if equals >= 0 else []) + [" ch 1"]:
        tree = parse("row_line", f"{line.text[: colon + 1]}{told}")
        if not isinstance(tree, Misread):
            label, body = tree.nodes()
            quiet = len(ctx.out)
            try:
                saved = _row(ctx, tree, label, body, broken=True)
            except Broken:
                saved = None
            del ctx.out[quiet:]
            return replace(saved, span=line.span) if saved is not None else None
    return None


def _row(ctx: Context, node: Node, label: Node, body: Node, *, broken: bool) -> Row:
    numbers, quals = _numbers(ctx, label)
    ctx.variable = variable = _variable(ctx, label)
    made: tuple[Item, ...] = ()
    as_row = None
    sizes, side = _qualifiers(ctx, quals)
    try:
        if body.rule == "as_row":
            ints = [num.integer(ctx, word) for word in body.words("INT")]
            as_row = (ints[0], ints[-1])
        else:
            inner = body.find("items")
            assert inner is not None
            made = items(ctx, inner)
    except Broken:
        broken = True
    stated = _stated(ctx, body)
    remark = _remark(ctx, body)
    ctx.variable = ""
    word = label.find("row_word")
    assert word is not None
    return Row(
        _label(label),
        str(word.children[0]).startswith("round"),
        numbers,
        () if broken else made,
        variable,
        sizes,
        side,
        label.rule == "setup_row",
        as_row,
        broken,
        stated,
        remark,
        ctx.span(node),
    )


def _variable(ctx: Context, label: Node) -> str:
    """The name that ``as r`` gives the row's number, or ``""``."""
    word = label.word("NAME")
    name = str(word) if word is not None else ""
    if name in ctx.counts:
        ctx.say(faults.name_taken(ctx.span(word), "count", name, ctx.counts[name].span))
    return name


def _label(label: Node) -> str:
    """The label in the designer's words, without what stands in brackets."""
    words: list[str] = []
    for kid in label.children:
        if isinstance(kid, Node):
            if kid.rule == "row_word":
                words.append(str(kid.children[0]))
        elif kid == "as":
            break
        elif kid in ("-", ",") or (words and words[-1].endswith("-")):
            words[-1] += str(kid)
        else:
            words.append(str(kid))
    return " ".join(words)


def _numbers(ctx: Context, label: Node) -> tuple[tuple[tuple[int, int], ...], list[Node]]:
    quals = [kid for kid in label.nodes() if kid.rule in ("side", "only")]
    ints = [num.integer(ctx, word) for word in label.words("INT")]
    if label.rule == "numbered":
        first, last = ints[0], ints[-1]
        if last < first:
            ctx.say(
                faults.not_understood(
                    ctx.span(label),
                    f"{first}-{last}",
                    "A range of rows runs from the lower number up.",
                )
            )
            raise Broken
        return ((first, last),), quals
    return tuple((one, one) for one in ints), quals


def _qualifiers(ctx: Context, quals: list[Node]) -> tuple[tuple[int, ...] | None, str]:
    sizes: tuple[int, ...] | None = None
    side = ""
    for one in quals:
        if one.rule == "side":
            side = "RS" if one.has("RS") else "WS"
        elif not one.has("only"):
            ctx.say(
                faults.not_understood(
                    ctx.span(one),
                    "this",
                    "In brackets after a row number stands RS, WS, or sizes and `only`.",
                    ("Write it as `(large only)`.",),
                )
            )
        else:
            sizes = _some_sizes(ctx, one)
    return sizes, side


def _some_sizes(ctx: Context, node: Node) -> tuple[int, ...]:
    out = []
    for kid in node.nodes():
        name = size_name(kid)
        if name in ctx.sizes:
            out.append(ctx.sizes.index(name))
        else:
            if not ctx.sizes_known:
                continue  # which there are, nobody can tell; that is said already
            several = [one for one in name.split(" and ") if one in ctx.sizes]
            out.extend(ctx.sizes.index(one) for one in several)
            near = ", ".join(several) if several else nearest(name, ctx.sizes)
            listed = f"Sizes here: {', '.join(ctx.sizes)}." if ctx.named_sizes else ""
            ctx.say(faults.unknown_name(ctx.span(kid), "size", name, near, listed))
    return tuple(out)


def _stated(ctx: Context, body: Node) -> Stated | None:
    node = body.find("stated")
    if node is None:
        return None
    counts = []
    for one in node.nodes():
        if one.rule != "count":
            continue
        try:
            counts.append(_count(ctx, one))
        except Broken:
            continue
    counting = ""
    if node.find("counting_ch") is not None:
        counting = "ch"
    elif node.find("not_counting_turning") is not None:
        counting = "no turning"
    return Stated(tuple(counts), counting, ctx.span(node)) if counts else None


def _count(ctx: Context, node: Node) -> StatedCount:
    number_node = node.find(*NUMBERS)
    assert number_node is not None
    n = num.number(ctx, number_node)
    kind_node = node.find(*KINDS)
    assert kind_node is not None
    sizes = None
    if any(kid.rule == "size_name" for kid in node.nodes()):
        names = [kid for kid in node.nodes() if kid.rule == "size_name"]
        sizes = _some_sizes(ctx, _Names(names))  # type: ignore[arg-type]
    return StatedCount(n, kind(ctx, kind_node, counted=True), sizes, ctx.span(node))


class _Names:
    """Just the size names of a stated count, in the shape of a node."""

    def __init__(self, names: list[Node]) -> None:
        self._names = names

    def nodes(self) -> list[Node]:
        return self._names


def _remark(ctx: Context, body: Node) -> Text | None:
    node = body.find("remark")
    if node is None:
        return None
    word = node.children[0]
    return text(ctx, str(word)[1:-1], ctx.span(word).start + 1)


def repeat(ctx: Context, node: Node) -> RepeatRows:
    """A repeat line."""
    what, how = node.nodes()[0], node.nodes()[1]
    ints = [num.integer(ctx, word) for word in what.words("INT")]
    label = f"repeat {_label(what)}"
    facts: dict[str, object] = {}
    if what.rule == "repeat_rows":
        facts["first"], facts["last"] = ints[0], ints[-1]
        if ints[-1] < ints[0]:
            ctx.say(
                faults.not_understood(
                    ctx.span(what), label, "A range of rows runs from the lower number up."
                )
            )
            raise Broken
    else:
        facts["count"] = ints[0] if ints else 1
    facts.update(_how(ctx, how))
    return RepeatRows(
        label,
        stated=_stated(ctx, node),
        remark=_remark(ctx, node),
        span=ctx.span(node),
        **facts,  # type: ignore[arg-type]
    )


def _how(ctx: Context, how: Node) -> dict[str, object]:
    if how.rule == "more_times":
        return {"how": "more", "n": num.number(ctx, how.nodes()[0])}
    if how.rule == "bare_times":
        ctx.say(
            faults.not_understood(
                ctx.span(how),
                " ".join(str(word) for word in _flat(how)),
                "Makers read this both as so many in all and as so many further.",
                (f"Write `{' '.join(str(word) for word in _flat(how)[:-1])} more times`.",),
            )
        )
        raise Broken
    if how.rule == "until_length":
        lengths, unit = num.lengths(ctx, how)
        return {"how": "length", "lengths": lengths, "unit": unit}
    n = _per_size_number(ctx, how.nodes()[0])
    return {"how": "rows" if how.rule == "until_rows" else "sts", "n": n}


def _per_size_number(ctx: Context, node: Node) -> Number:
    kid = node.children[0]
    if not isinstance(kid, Node):
        return num.named(ctx, kid)
    if kid.rule != "decimal":
        return num.expression(ctx, kid)
    first = Given(int(num.decimal(ctx, kid)))
    rest = [num.cell(ctx, one) for one in num.cells(node)]
    return num.per_size(ctx, node, [first, *rest]) if rest else first


def _flat(node: Node) -> list[object]:
    out: list[object] = []
    for kid in node.children:
        out.extend(_flat(kid) if isinstance(kid, Node) else [kid])
    return out


def seam(ctx: Context, node: Node, part: str) -> Seam:
    """``seam: last row to start, sl st blo``."""
    edges = [
        kid for kid in node.nodes() if kid.rule in ("seam_last", "seam_start", "seam_row_ends")
    ]
    one, two = (seam_edge(ctx, kid, part) for kid in edges)
    stitch = None
    loop = ""
    runs: list[tuple[Number, str]] = []
    for kid in node.nodes():
        if kid.rule == "seam_stitch":
            stitch_node = kid.find("stitch")
            assert stitch_node is not None
            stitch = meant(ctx, stitch_node).stitch
            loop_node = kid.find("loop")
            loop = {"blo": "back", "flo": "front", "third": "third"}.get(
                str(loop_node.children[0]) if loop_node else "", ""
            )
        elif kid.rule == "seam_run":
            runs.append((num.number(ctx, kid.nodes()[0]), ""))
        elif kid.rule == "seam_opening":
            name = str(kid.word("NAME"))
            ctx.openings.setdefault(name, ctx.span(kid.word("NAME")))
            runs.append((num.number(ctx, kid.nodes()[0]), name))
    return Seam(one, two, stitch, loop, tuple(runs), ctx.span(node))


def seam_edge(ctx: Context, node: Node, part: str) -> Edge:
    """One edge of a seam: of another part, or of the part itself."""
    word = node.word("NAME")
    name = str(word) if word is not None else part
    if name not in ctx.parts and name not in ctx.bad:
        if word is not None:
            num.unknown(ctx, word, "part", list(ctx.parts))
        raise Broken  # a part whose own line was not understood has been reported
    what = {"seam_last": "last", "seam_start": "start"}.get(node.rule, "row ends")
    if what == "row ends" and node.has("other"):
        what = "other row ends"
    return Edge(what, name, span=ctx.span(node))


def gather(ctx: Context, node: Node) -> Gather:
    """``gather: last round``."""
    return Gather(ctx.span(node))


def stripes(ctx: Context, node: Node) -> Stripes:
    """``stripes: 2 rows slate, 4 rows foam``."""
    bands = []
    for one in node.nodes():
        n = num.number(ctx, one.nodes()[0])
        found = one.find("yarns")
        assert found is not None
        bands.append((n, yarns(ctx, found)))
    return Stripes(tuple(bands), ctx.span(node))


def comes_out(ctx: Context, node: Node) -> ComesOut:
    """``comes out at: 54 cm around, 20 cm high``."""
    out = []
    for one in node.nodes():
        mm, unit = num.lengths(ctx, one)
        out.append((str(one.children[-1]), mm, unit))
    return ComesOut(tuple(out), ctx.span(node))


LINES: dict[str, Callable[[Context, Node], Line]] = {
    "row_line": row,
    "repeat_line": repeat,
    "gather_line": gather,
    "stripes_line": stripes,
    "comes_line": comes_out,
}

__all__ = ["LINES", "Kind", "broken_row", "repeat", "row", "seam"]


def nothing_known(line: syntax.Line) -> Row:
    """A row of which nothing can be saved: what comes after it cannot be counted."""
    return Row("this row", False, (), (), broken=True, span=line.span)
