"""What is repeated, longer or shorter by a few stitches, so that it comes out in every size.

24 (30, 36) sts, [5 dc, dc2tog] around = 20 (25, 30) sts   ->   [4 dc, dc2tog] around
"""

from __future__ import annotations

from loopwright.checks.chains import SILENT, repeat_at, taken
from loopwright.checks.told import Told, differing, number
from loopwright.ir import items as ir
from loopwright.ir.items import ANY_STITCH, Item
from loopwright.ir.numbers import Given
from loopwright.trade.terms import abbreviation


def as_stated(told: Told) -> str:
    """The repeat told of with another number of one of its stitches, with which it fits, and the
    row makes what is stated, in every size; empty where there is none, or more in the row."""
    row, repeat = told.row, repeat_at(told)
    if row is None or repeat is None or repeat.scope is None or repeat.scope.how != "end":
        return ""
    others = [one for one in row.items if one is not repeat and not isinstance(one, SILENT)]
    turning = all(isinstance(one, ir.Chain) and one.counts_as is None for one in others)
    if not turning or len(told.facts) < len(told.pattern.sizes) or repeat.stop is not None:
        return ""
    takes = [taken(item) for item in repeat.items]
    counts = _counts(told)
    if not all(takes) or not counts:
        return ""
    by = more_in_each(sum(takes), *counts)
    for at, item in enumerate(repeat.items if by else ()):
        if isinstance(item, ir.Work) and item.stitch.together == 1 and takes[at] > -by:
            return _written(told, repeat, at, by)
    return ""


def more_in_each(takes: int, makes: int, sizes: list[tuple[int, int]]) -> int:
    """By how many plain stitches a repeat that takes and makes so many has to be longer (shorter,
    below nought), so that over as many stitches as each size has it comes to as many as are stated
    there; nought where there is no such number, or more than one.

    A plain stitch more or fewer leaves alone how many stitches a repeat loses; and what the whole
    row loses tells how often it is worked. A repeat that loses none fits by any divisor.
    """
    lost = takes - makes
    found = set()
    for have, stated in sizes:
        times, rest = divmod(have - stated, lost) if lost else (0, 0)
        if rest or times < 2 or have % times:
            return 0
        found.add(have // times - takes)
    return found.pop() if len(found) == 1 else 0


def _counts(told: Told) -> tuple[int, list[tuple[int, int]]] | None:
    """How many each repeat makes; and what the row works into and is stated to make, in each size."""
    makes: set[int] = set()
    for _, fact in told.facts:
        for kind, _, made in differing(fact):
            done = number(fact, "done")
            if kind != ANY_STITCH or not done or made % done:
                return None
            makes.add(made // done)
    if len(makes) != 1:
        return None
    (each,) = makes
    stated = []
    for _, fact in told.facts:
        n = next((n for _, n, _ in differing(fact)), number(fact, "done") * each)
        stated.append((number(fact, "have"), n))
    return each, stated


def _written(told: Told, repeat: ir.Repeat, changed: int, by: int) -> str:
    """The repeat as it is written, with one of its numbers changed."""
    written = [_item(told, item, by * (at == changed)) for at, item in enumerate(repeat.items)]
    word = repeat.scope.word if repeat.scope is not None else ""
    return f"[{', '.join(written)}] {word}" if all(written) and word else ""


def _item(told: Told, item: Item, by: int) -> str:
    """One item, with so many more of it; empty where it is none of the plain ones."""
    loops = {"": "", "back": " blo", "front": " flo"}
    if isinstance(item, ir.Work) and item.target is None and item.loop in loops and not item.own:
        word = f"{abbreviation(item.stitch, told.terms)}{loops[item.loop]}"
    elif isinstance(item, ir.Increase):
        word = f"{abbreviation(item.stitch, told.terms)} inc"
    elif isinstance(item, ir.Decrease):
        word = f"{abbreviation(item.stitch._replace(together=1), told.terms)} dec"
    else:
        return ""
    if not isinstance(item.n, Given):
        return ""
    n = int(item.n.value) + by
    return f"{n} {word}" if n > 1 else word
