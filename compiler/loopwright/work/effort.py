"""Effort: how much a pattern may take, so that any text is answered before long.

What comes round again is carried on in one go and takes nothing. Each item of a row that is worked,
and each repeat that is worked by itself, takes one.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from loopwright.work.known import Reading

MOST_EFFORT = 300_000
"""Items and repeats worked one by one, in all rows and sizes of a pattern. A garment in ten sizes
takes some ten thousand."""

LEAST_EFFORT = 60_000
"""The same for the shortest pattern; two more characters allow one more in every size."""


class Effort:
    """What is left of it, shared by all rows and sizes of a pattern, with what was read of its
    rows (see ``known``)."""

    __slots__ = ("left", "readings")

    def __init__(self, left: int = MOST_EFFORT) -> None:
        self.left = left
        self.readings: dict[int, Reading] = {}

    @classmethod
    def for_text(cls, characters: int, sizes: int) -> Effort:
        """What a text of this length may take."""
        return cls(min(LEAST_EFFORT + characters * sizes // 2, MOST_EFFORT))


class TooLong(Exception):
    """More that is worked one by one than a bound that no pattern for hands comes near."""
