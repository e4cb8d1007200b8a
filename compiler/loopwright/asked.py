"""What may be asked for, and the sentence where there is no such thing.

one_of("huge", ("child", "woman"), "size")    there is no size `huge`; there is child, woman.
"""

from __future__ import annotations

from collections.abc import Sequence


class CannotAnswer(ValueError):
    """What was asked for cannot be given; the text says why, to whoever asked."""


def one_of(named: str, known: Sequence[str], what: str) -> str:
    """What is named, which is one of those that are known; an empty one stands for what is usual
    and is not told. Raises ``CannotAnswer``."""
    if named not in known:
        there = ", ".join(one for one in known if one)
        raise CannotAnswer(f"there is no {what} `{named}`; there is {there}.")
    return named
