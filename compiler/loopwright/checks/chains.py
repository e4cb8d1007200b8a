"""Mends that a chain makes: a turning chain that should count as a stitch, a starting chain that is
too short or too long.

    ch 3, 29 tr = 30 sts, over 30        ->  ch 3 as tr, 29 tr
    start: ch 30, ... across = 30 sts    ->  start: ch 31
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from loopwright.checks.told import Told, differing, number, ordinal
from loopwright.checks.told import each as each_size
from loopwright.diagnostics import Edit
from loopwright.frozen import NamedTuple
from loopwright.ir import items as ir
from loopwright.ir.fabric import Fact
from loopwright.ir.items import Item
from loopwright.ir.numbers import Given, Number, PerSize
from loopwright.ir.pattern import Row
from loopwright.source import Span
from loopwright.trade.stitches import Stitch

LEAST_HIGH = 2
"""Chains of a turning chain that may count as a stitch: one alone never does."""

SILENT = (ir.Turn, ir.Change, ir.Mark, ir.Join)
"""Items that take nothing of the row below."""


class Mend(NamedTuple):
    """A way to put a row right, in words and as a change of the text."""

    hint: str
    edits: tuple[Edit, ...] = ()


def counting(told: Told) -> Mend | None:
    """The chain that begins a row, counted as its first stitch, where the row is one short."""
    row = told.row
    if row is None or not _one_short(told):
        return None
    items = [item for item in row.items if not isinstance(item, ir.Move | ir.Change)]
    if len(items) < 2:
        return None
    first, second = items[0], items[1]
    if isinstance(first, ir.Work):
        return _skipped(told, first)
    stitch = _first_stitch(items[1:])
    if not isinstance(first, ir.Chain) or stitch is None or not _as_high(first, stitch):
        return None
    word = told.terms.short[stitch.basic]
    written = f"ch {stitch.height} as {word}"
    if isinstance(second, ir.Skip) and second.n == Given(1) and second.kind.what == "st":
        span = Span(first.span.start, second.span.end)
        hint = f"Write `{written}` for `ch {stitch.height}, skip 1 st` if the chain counts as a {word}."
    elif told.kind == "places-left-over" or _stays(second):
        span = first.span
        hint = f"Write `{written}` if the chain counts as a {word}."
    else:
        return None
    return Mend(hint, (Edit(span, written),))


def _one_short(told: Told) -> bool:
    """Whether a row is one stitch short of its count in every size told of."""
    facts = [fact for _, fact in told.facts]
    over = told.kind == "places-left-over"
    if over and not all(number(one, "left") == 1 and not number(one, "spaces") for one in facts):
        return False
    differs = [differing(one) for one in facts]
    if any(stated - made != 1 for one in differs for _, stated, made in one):
        return False
    return all(differs) or (over and not any(differs))


def _as_high(chain: ir.Chain, stitch: Stitch) -> bool:
    high = stitch.height
    return chain.counts_as is None and high >= LEAST_HIGH and chain.n == Given(high)


def _stays(item: Item) -> bool:
    """Whether what is worked first goes into a ring or a space, in which the chain stands too."""
    while isinstance(item, ir.Repeat):
        item = item.items[0]
    target = item.target if isinstance(item, ir.Work | ir.Group) else None
    return target is not None and (target.how == "ring" or target.kind.what == "sp")


def _skipped(told: Told, first: ir.Work) -> Mend | None:
    """The chains skipped at the hook, counted as a stitch."""
    target, high = first.target, first.stitch.height
    if told.kind != "count-differs" or target is None or target.how != "hook":
        return None
    gap, odd = divmod(target.nth - 1 - high, 2)
    if gap < 0 or odd or high < LEAST_HIGH or first.n != Given(1) or first.stitch.post:
        return None
    word, skip = told.terms.short[first.stitch.basic], told.terms.skip
    there = f"`{word} in {ordinal(target.nth)} ch from hook`"
    if gap:  # a stitch, the chains to the next one, and as many of the start below those
        counted = f"({word}, ch {gap})"
        written = f"{skip} {high + gap} ch as {counted}, {skip} {gap} ch, {word}"
        hint = f"If the skipped chains count as {counted}, write `{written}` for {there}."
    else:
        written = f"{skip} {high} ch as {word}, {word}"
        hint = f"If the {high} skipped chains count as a {word}, write `{written}` for {there}."
    return Mend(hint, (Edit(first.span, written),))


def _first_stitch(items: Sequence[Item]) -> Stitch | None:
    """The stitch that is made first."""
    for item in items:
        if isinstance(item, ir.Group | ir.Repeat):
            found = _first_stitch(item.items)
            if found is not None:
                return found
        elif isinstance(item, ir.Work | ir.Increase | ir.Decrease | ir.Evenly):
            return item.stitch
    return None


# ------------------------------------------------------------- the starting chain


def start_longer(told: Told, by: Callable[[Fact], int]) -> str:
    """``start: ch 31``: the starting chain that is longer by so many in each size told of, for a
    row that is worked into it; empty where it cannot be told."""
    part, row = told.part, told.row
    if part is None or row is None or part.start.what != "chain" or part.start.then:
        return ""
    if row is not next((line for line in part.lines if isinstance(line, Row)), None):
        return ""
    values = _values(part.start.n, len(told.pattern.sizes))
    longer = {size: by(fact) for size, fact in told.facts}
    wanted = [value + longer.get(size, 0) for size, value in enumerate(values)]
    if not wanted or min(wanted) < 1:
        return ""
    first, *rest = map(str, wanted)
    sizes = f" ({', '.join(rest)})" if len(set(wanted)) > 1 else ""
    return f"start: ch {first}{sizes}" + (", join into ring" if part.start.ring else "")


def _values(n: Number | None, sizes: int) -> list[int]:
    """The chains that are written, in each size; none where they are reckoned."""
    every = n.values if isinstance(n, PerSize) else (n,) * sizes
    given = [one.value for one in every if isinstance(one, Given)]
    return [int(one) for one in given] if len(given) == len(every) == sizes else []


def ends(told: Told) -> bool:
    """Whether the item at the place told of is the last of its row that takes anything."""
    row = told.row
    if row is None:
        return False
    taking = [item for item in row.items if not isinstance(item, SILENT)]
    return bool(taking) and taking[-1].span == told.span


def one_each(told: Told) -> bool:
    """Whether a row takes one more stitch, and makes one more, for each one more that it meets:
    all of it is fixed but one `dc in each ch across`."""
    row = told.row
    if row is None or row.as_row is not None:
        return False
    open_ended = [item for item in _all(row.items) if _is_open(item)]
    if len(open_ended) != 1 or open_ended[0] not in row.items:
        return False
    work = open_ended[0]
    return (
        isinstance(work, ir.Work)
        and work.n == Given(1)
        and work.stitch.together == 1
        and not work.own
    )


def _is_open(item: Item) -> bool:
    """Whether how often an item is worked depends on what is there."""
    if isinstance(item, ir.Evenly | ir.OtherSide | ir.RunOn):
        return True
    if isinstance(item, ir.Leave):
        return item.n is None
    if isinstance(item, ir.Repeat):
        return item.times is None
    target = item.target if isinstance(item, ir.Work | ir.Group) else None
    return target is not None and target.how == "each"


def _all(items: tuple[Item, ...]) -> Iterator[Item]:
    """Items, with those inside them."""
    for item in items:
        yield item
        if isinstance(item, ir.Group | ir.Repeat):
            yield from _all(item.items)


def counted_fits(told: Told) -> str:
    """What to write where a repeat leaves one stitch over, and the chain that begins the row would
    take it if it counted; empty where it would not."""
    row = told.row
    if row is None or len(row.items) < 2:
        return ""
    if any(number(one, "have") - number(one, "used") != 1 for _, one in told.facts):
        return ""
    items = [item for item in row.items if not isinstance(item, ir.Move | ir.Change)]
    first, stitch = items[0], _first_stitch(items[1:])
    if not isinstance(first, ir.Chain) or stitch is None or not _as_high(first, stitch):
        return ""
    word = told.terms.short[stitch.basic]
    return f"Write `ch {stitch.height} as {word}` if the chain counts as a {word}: it takes the first stitch then."


def counted_first(told: Told) -> str:
    """What to write where a row begins with a chain and goes on in the same stitch, as if the chain
    counted; empty where it does not begin so."""
    row = told.row
    items = [item for item in row.items if not isinstance(item, ir.Move | ir.Change)] if row else []
    stitch = _first_stitch(items[1:])
    if not items or not isinstance(items[0], ir.Chain) or stitch is None:
        return ""
    if not _as_high(items[0], stitch) or items[1].span != told.span:
        return ""
    word = told.terms.short[stitch.basic]
    return f"Write `ch {stitch.height} as {word}` if the chain counts as a {word}: it stands in the first stitch then."


def times_to_fill(told: Told) -> str:
    """How often the one repeat of a row would be worked to take all that is there, in each size;
    empty where the row takes anything else, or it would not come out either."""
    row = told.row
    taking = [one for one in row.items if not isinstance(one, (*SILENT, ir.Chain))] if row else []
    if len(taking) != 1 or not isinstance(taking[0], ir.Repeat) or taking[0].times is None:
        return ""
    worked = _values(taking[0].times, len(told.pattern.sizes))
    found = []
    for size, fact in told.facts:
        times = worked[size] if worked else 0
        each, odd = divmod(number(fact, "have") - number(fact, "left"), times) if times else (0, 1)
        if odd or not each or number(fact, "left") % each:
            return ""
        found.append(times + number(fact, "left") // each)
    return each_size(tuple(found))


def repeat_at(told: Told) -> ir.Repeat | None:
    """The repeat at the place told of."""
    row = told.row
    found = _all(row.items) if row is not None else ()
    return next(
        (one for one in found if isinstance(one, ir.Repeat) and one.span == told.span), None
    )


def taken_after(told: Told) -> int:
    """How many stitches of the row below the items after the repeat told of take; nought where
    that is not a fixed number of plain places."""
    row = told.row
    after = [item for item in row.items if item.span.start >= told.span.end] if row else []
    each = [taken(item) for item in after if not isinstance(item, (*SILENT, ir.Chain, ir.Picot))]
    return sum(each) if all(each) else 0


def taken(item: Item) -> int:
    """The stitches that one item takes; nought where that is not a fixed number."""
    if isinstance(item, ir.Work):
        plain = item.target is None or (item.target.how == "next" and item.target.kind.what == "st")
        times = item.n if item.target is None else Given(1)
        return int(times.value) * item.stitch.together if plain and isinstance(times, Given) else 0
    each = 1 if isinstance(item, ir.Increase) else 2 if isinstance(item, ir.Decrease) else 0
    if isinstance(item, ir.Skip) and item.kind.what == "st":
        each = 1
    if isinstance(item, ir.Increase | ir.Decrease | ir.Skip) and isinstance(item.n, Given):
        return each * int(item.n.value)
    return 0


def to_fill(told: Told, left: int) -> str:
    """What could be worked in so many stitches after the repeat told of: as much of it again as
    takes so many, where it begins with chains and skips, or else its first stitch."""
    repeat = repeat_at(told)
    begun: list[str] = []
    used = 0
    for item in repeat.items if repeat is not None else ():
        if not isinstance(item, ir.Chain | ir.Skip) or item.counts_as is not None:
            break
        if not isinstance(item.n, Given):
            break
        begun.append(_written(item, int(item.n.value), told))
        used += taken(item)
        if used == left:
            return ", ".join(begun)
    stitch = _first_stitch(repeat.items) if repeat is not None else None
    name = told.terms.short[stitch.basic if stitch is not None else "plain"]
    return f"{left} {name}" if left > 1 else name


def _written(item: ir.Chain | ir.Skip, n: int, told: Told) -> str:
    """Chains or a skip as they are written."""
    if isinstance(item, ir.Chain):
        return f"ch {n}"
    return f"{told.terms.skip} {n} {'st' if n == 1 else 'sts'}"
