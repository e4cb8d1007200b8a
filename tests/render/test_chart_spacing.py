"""Spacing: symbols as near as may be to where they would stand, and never too close."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as some

from loopwright.render.chart.spacing import spread, spread_closed, spread_round

LENGTH = some.floats(-50, 50)


def test_wishes_that_leave_room_are_granted() -> None:
    assert spread([0.0, 2.0, 5.0], [1.0] * 3, [1.0, 1.0]) == [0.0, 2.0, 5.0]


def test_two_that_want_the_same_place_share_the_way() -> None:
    # Each gives way by half of the distance, which is the least sum of squares.
    assert spread([3.0, 3.0], [1.0, 1.0], [1.0]) == [2.5, 3.5]


def test_an_increase_pushes_its_neighbours_aside() -> None:
    # Three stitches in the place at 0 between neighbours at -1 and 1: five stitches, a step apart.
    assert spread([-1.0, 0.0, 0.0, 0.0, 1.0], [1.0] * 5, [1.0] * 4) == [-2.0, -1.0, 0.0, 1.0, 2.0]


@given(some.lists(some.tuples(LENGTH, some.floats(0.1, 2)), min_size=1, max_size=30))
def test_gaps_are_always_kept(pairs: list[tuple[float, float]]) -> None:
    wishes = [wish for wish, _ in pairs]
    gaps = [gap for _, gap in pairs[1:]]
    found = spread(wishes, [1.0] * len(wishes), gaps)
    for i, gap in enumerate(gaps):
        assert found[i + 1] - found[i] >= gap - 1e-9


@given(some.lists(LENGTH, min_size=2, max_size=12), some.integers(0, 11), some.floats(-0.5, 0.5))
def test_no_small_step_is_better(wishes: list[float], which: int, step: float) -> None:
    # The answer is the least of a convex sum: moving any one symbol, and whatever it pushes,
    # must not come nearer to the wishes.
    gaps = [1.0] * (len(wishes) - 1)
    found = spread(wishes, [1.0] * len(wishes), gaps)
    other = list(found)
    which %= len(other)
    other[which] += step
    for i in range(which + 1, len(other)):
        other[i] = max(other[i], other[i - 1] + 1.0)
    for i in range(which - 1, -1, -1):
        other[i] = min(other[i], other[i + 1] - 1.0)

    def cost(places: list[float]) -> float:
        return sum((a - b) ** 2 for a, b in zip(places, wishes, strict=True))

    assert cost(found) <= cost(other) + 1e-6


@given(some.lists(some.floats(0, 20), min_size=2, max_size=12))
def test_a_round_leaves_room_at_its_join(wishes: list[float]) -> None:
    gaps = [1.0] * (len(wishes) - 1)
    found = spread_round(sorted(wishes), [1.0] * len(wishes), gaps, 1.5, 14.0)
    assert found[0] + 14.0 - found[-1] >= 1.5 - 1e-9
    assert all(b - a >= 1.0 - 1e-9 for a, b in pairwise(found))


def test_a_round_that_fits_is_left_as_it_would_stand() -> None:
    assert spread_round([0.0, 3.0], [1.0, 1.0], [1.0], 1.0, 10.0) == pytest.approx([0.0, 3.0])


def test_what_gives_way_at_a_join_does_so_beside_it() -> None:
    # 9.9 wide where 9 is free: the first and the last give 0.45 each, and nothing else moves.
    found = spread_closed([0.0, 3.0, 6.0, 9.9], [1.0] * 4, [1.0] * 3, 1.0, 10.0)
    assert found == pytest.approx([0.45, 3.0, 6.0, 9.45])


@given(some.lists(some.floats(0, 20), min_size=2, max_size=12))
def test_a_closed_round_is_no_further_from_its_wishes_than_any_other_that_fits(
    wishes: list[float],
) -> None:
    wishes, gaps = sorted(wishes), [1.0] * (len(wishes) - 1)
    weights = [1.0] * len(wishes)
    found = spread_closed(wishes, weights, gaps, 1.5, 14.0)
    other = spread_round(wishes, weights, gaps, 1.5, 14.0)
    assert found[0] + 14.0 - found[-1] >= 1.5 - 1e-6
    assert all(b - a >= 1.0 - 1e-9 for a, b in pairwise(found))

    def cost(places: list[float]) -> float:
        return sum((a - b) ** 2 for a, b in zip(places, wishes, strict=True))

    assert cost(found) <= cost(other) + 1e-6
