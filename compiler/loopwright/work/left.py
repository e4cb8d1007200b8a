"""What was left unworked in words: it waits at the end of the row that left it.

A row comes to its end beside what rows going the same way left there, the last of them nearest.
What rows going the other way left lies at its beginning, and is met from the outside inwards.
"""

from __future__ import annotations

from loopwright.ir.fabric import Place
from loopwright.ir.runs import Builder, Runs

Left = tuple[tuple[bool, Runs[Place]], ...]
"""What each row left, oldest first, as it met it, and which of the two ways it went."""


def _order(left: Left, way: bool) -> list[int]:
    """In which order a row that goes one way comes to what each row left."""
    along = [i for i in reversed(range(len(left))) if left[i][0] == way]
    return along + [i for i in range(len(left)) if left[i][0] != way]


def nearest_first(left: Left, way: bool) -> Runs[Place]:
    """What was left, in the order in which a row that goes one way comes to it."""
    out: Builder[Place] = Builder()
    for i in _order(left, way):
        own, places = left[i]
        out.extend(places if own == way else places.reversed())
    return out.done()


def without(left: Left, way: bool, taken: int) -> Left:
    """What is still left after a row that goes one way has taken up so many."""
    rest = list(left)
    for i in _order(left, way) if taken else ():
        own, places = left[i]
        here = min(taken, places.length)
        low, high = (here, places.length) if own == way else (0, places.length - here)
        rest[i] = (own, places.slice(low, high))
        taken -= here
    return tuple(one for one in rest if one[1].length)


def all_left(left: Left) -> Runs[Place]:
    """All that was left, oldest first."""
    out: Builder[Place] = Builder()
    for _, places in left:
        out.extend(places)
    return out.done()
