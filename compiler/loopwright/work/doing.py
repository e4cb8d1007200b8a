"""Doing: the items of a row, each by the function that owns its kind, found through ``DO``."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from loopwright.ir import items as ir
from loopwright.ir.items import Item
from loopwright.ir.pattern import OwnStitch
from loopwright.source import Span
from loopwright.work import brackets, chains, stitching, turns
from loopwright.work.effort import TooLong
from loopwright.work.hand import Hand


class Doing:
    """Works items with a hand. ``owns`` are the designer's own stitches by name; ``nested`` is
    how deep in them the work is."""

    def __init__(self, hand: Hand, owns: dict[str, OwnStitch]) -> None:
        self.hand = hand
        self.owns = owns
        self.nested = 0

    def items(self, items: Sequence[Item]) -> None:
        """Work items in order."""
        for index, item in enumerate(items):
            self.item(item, items[index + 1] if index + 1 < len(items) else None)

    def item(self, item: Item, following: Item | None) -> None:
        """Work one item; ``following`` decides what a first chain is."""
        hand = self.hand
        hand.effort.left -= 1
        if hand.effort.left < 0:
            raise TooLong
        span = item.span
        if not hand.spans or hand.spans[hand.item] is not span:
            hand.item = self._index_of(span)
        self.one(item, following)

    def one(self, item: Item, following: Item | None) -> None:
        """Work one item under the text of the item that it belongs to."""
        if isinstance(item, ir.Chain):
            chains.chain(self, item, following)
        else:
            DO[type(item)](self, item)

    def _index_of(self, span: Span) -> int:
        spans = self.hand.spans
        for index in range(len(spans) - 1, -1, -1):
            if spans[index] is span:
                return index
        spans.append(span)
        return len(spans) - 1


DO: dict[type, Callable[[Doing, Any], None]] = {
    ir.Work: stitching.work_stitches,
    ir.Increase: stitching.increase,
    ir.Decrease: stitching.decrease,
    ir.Evenly: brackets.evenly,
    ir.Group: brackets.group,
    ir.Repeat: brackets.repeat_items,
    ir.Skip: chains.skip,
    ir.Opening: chains.opening,
    ir.Picot: chains.picot,
    ir.Join: turns.join,
    ir.Turn: turns.turn,
    ir.Move: turns.move_late,
    ir.Leave: turns.leave,
    ir.Change: turns.change,
    ir.Mark: turns.mark,
    ir.RunOn: turns.run_on,
    ir.OtherSide: turns.other_side,
}
