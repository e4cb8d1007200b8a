"""Keeping neighbours apart: where each symbol would like to stand, and where there is room.

Each symbol has a wish (over what it is worked into) and each pair of neighbours a least distance.
The answer is the one nearest to the wishes, in least squares, that keeps every distance. A stack
of posts over posts therefore stays a straight line, and an increase pushes its neighbours aside
no further than it must.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import accumulate

HALVINGS = 40
FURTHEST = 1e6


def spread(wishes: Sequence[float], weights: Sequence[float], gaps: Sequence[float]) -> list[float]:
    """Positions in rising order; ``gaps[i]`` is the least distance from ``i`` to ``i + 1``.

    Less the gaps before it, each position must only be no smaller than the one before: that is
    isotonic regression, solved by pooling neighbours that are out of order.
    """
    before = _sums(gaps, len(wishes))
    less = [wish - used for wish, used in zip(wishes, before, strict=True)]
    if sorted(less) != less:
        less = _pooled(less, weights)
    return [mean + used for mean, used in zip(less, before, strict=True)]


def _pooled(wishes: Sequence[float], weights: Sequence[float]) -> list[float]:
    """The wishes with neighbours that are out of order brought to their mean."""
    means: list[float] = []
    totals: list[float] = []
    counts: list[int] = []
    for wish, weight in zip(wishes, weights, strict=True):
        mean, total, count = wish, weight, 1
        while means and means[-1] > mean:
            last = totals.pop()
            mean = (mean * total + means.pop() * last) / (total + last)
            total += last
            count += counts.pop()
        means.append(mean)
        totals.append(total)
        counts.append(count)
    return [mean for mean, count in zip(means, counts, strict=True) for _ in range(count)]


def spread_round(
    wishes: Sequence[float],
    weights: Sequence[float],
    gaps: Sequence[float],
    closing: float,
    around: float,
) -> list[float]:
    """The same on a circle of length ``around``: from the last on to the first there must be
    ``closing``. Where the nearest answer is too wide, it is mixed with the evenly spaced one, and
    no more of that than needed; both keep the gaps, so every mixture does."""
    near = spread(wishes, weights, gaps)
    room = around - closing
    width = near[-1] - near[0]
    if width <= room + 1e-9:
        return near
    even = _even(near, gaps, min(room, _total(gaps, room)))
    narrow = even[-1] - even[0]
    if width <= narrow:
        return even
    part = (width - room) / (width - narrow)
    return [a + (b - a) * part for a, b in zip(near, even, strict=True)]


def spread_closed(
    wishes: Sequence[float],
    weights: Sequence[float],
    gaps: Sequence[float],
    closing: float,
    around: float,
) -> list[float]:
    """The same, with what must give way doing so near the join only: the answer nearest to the
    wishes whose first and last are ``closing`` apart. Both are drawn inwards, as far as needed,
    and what is in their way moves with them."""
    near = spread(wishes, weights, gaps)
    room = around - closing
    if near[-1] - near[0] <= room + 1e-9 or sum(gaps) > room:
        return spread_round(wishes, weights, gaps, closing, around)
    low, high = 0.0, 1.0
    while _width(found := _drawn_in(wishes, weights, gaps, high)) > room and high < FURTHEST:
        low, high = high, high * 2
    for _ in range(HALVINGS):
        pull = (low + high) / 2
        found = _drawn_in(wishes, weights, gaps, pull)
        low, high = (pull, high) if _width(found) > room else (low, pull)
    return _drawn_in(wishes, weights, gaps, high)


def _drawn_in(
    wishes: Sequence[float],
    weights: Sequence[float],
    gaps: Sequence[float],
    pull: float,
) -> list[float]:
    drawn = list(wishes)
    drawn[0] += pull / weights[0]
    drawn[-1] -= pull / weights[-1]
    return spread(drawn, weights, gaps)


def _width(found: Sequence[float]) -> float:
    return found[-1] - found[0]


def _total(gaps: Sequence[float], room: float) -> float:
    """The width of the evenly spaced answer: midway between what is needed and what there is."""
    needed = sum(gaps)
    return needed if needed >= room else (needed + room) / 2


def _even(near: Sequence[float], gaps: Sequence[float], width: float) -> list[float]:
    """All gaps in proportion, ``width`` from first to last, about the middle of ``near``."""
    needed = sum(gaps)
    scale = width / needed if needed else 0.0
    start = (near[0] + near[-1] - needed * scale) / 2
    return [start + used * scale for used in _sums(gaps, len(near))]


def _sums(gaps: Sequence[float], count: int) -> list[float]:
    """The gaps added up before each of ``count`` positions."""
    return list(accumulate(gaps[: count - 1], initial=0.0))
