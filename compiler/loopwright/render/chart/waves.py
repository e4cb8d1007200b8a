"""Ripples: rows that always give out and take in at the same places lie in waves.

Where every row leans the same way over the same columns, the cloth does not lean: the rows go up
to where they give out and down to where they take in, and the posts stand square on them. What is
found here is how high each column lies, which the page then adds to every symbol in it.
"""

from __future__ import annotations

from bisect import bisect_right
from collections import Counter
from collections.abc import Sequence
from itertools import groupby, pairwise
from math import sqrt

from loopwright.frozen import Frozen
from loopwright.render.chart.spots import Layer

LEAST_ROWS = 3
LEAST_SHARE = 0.5  # of all rows: a crown that is taken in at the same places is no ripple
LEAST_LEAN = 0.25  # stitches, over all columns
ALIKE = 0.6  # the share of the leaning that must be the same in all rows
STEEPEST = 0.7
BEYOND = 1.5  # columns at either end that go on as those beside them do
TURNS = 3  # how often a wave goes up or down, at least


class Wave(Frozen):
    """How high each column lies: straight lines from point to point, level beyond them."""

    s: tuple[float, ...] = ()
    up: tuple[float, ...] = ()

    def at(self, s: float) -> float:
        """How high the column at ``s`` lies."""
        if not self.s:
            return 0.0
        i = bisect_right(self.s, s)
        if i == 0:
            return self.up[0]
        if i == len(self.s):
            return self.up[-1]
        part = (s - self.s[i - 1]) / (self.s[i] - self.s[i - 1])
        return self.up[i - 1] + (self.up[i] - self.up[i - 1]) * part


STILL = Wave()


def wave_of(layers: Sequence[Layer]) -> Wave:
    """The wave that rows lie in, or none."""
    rows = [leans for leans in map(_leans, layers[1:]) if _size(leans) > LEAST_LEAN]
    if len(rows) < max(LEAST_ROWS, LEAST_SHARE * (len(layers) - 1)):
        return STILL
    columns: dict[int, list[float]] = {}
    for leans in rows:
        for s, lean in leans:
            columns.setdefault(round(s), []).append(lean)
    means = {s: sum(found) / len(found) for s, found in sorted(columns.items())}
    same = sum(means[s] ** 2 * len(found) for s, found in columns.items())
    all_ = sum(lean**2 for found in columns.values() for lean in found)
    runs = _runs(means)
    if same < ALIKE * all_ or len(runs) < TURNS:
        return STILL
    return _summed(runs, _height(layers))


def _leans(layer: Layer) -> list[tuple[float, float]]:
    """Where each stitch of a row stands that has one place to itself, and how far it leans."""
    places = Counter(spot.thing.feet for spot in layer.spots if spot.thing)
    return [
        (spot.s, spot.s - spot.feet[0].s)
        for spot in layer.spots
        if spot.kind == "stem"
        and len(spot.feet) == 1
        and spot.thing
        and spot.thing.made.into in ("st", "ch")
        and places[spot.thing.feet] == 1
    ]


def _size(leans: list[tuple[float, float]]) -> float:
    return sqrt(sum(lean**2 for _, lean in leans) / len(leans)) if leans else 0.0


def _runs(means: dict[int, float]) -> list[tuple[float, float, float]]:
    """Columns that lean the same way: from where to where, and how far."""
    out: list[tuple[float, float, float]] = []
    signed = [(s, lean) for s, lean in means.items() if abs(lean) > LEAST_LEAN / 2]
    for _, group in groupby(signed, key=lambda one: one[1] > 0):
        found = list(group)
        out.append((found[0][0], found[-1][0], sum(lean for _, lean in found) / len(found)))
    return [run for run in out if run[1] - run[0] >= 1]


def _height(layers: Sequence[Layer]) -> float:
    heights = [
        spot.v - foot.v for layer in layers[1:] for spot in layer.spots for foot in spot.feet[:1]
    ]
    return max(sum(heights) / len(heights), 0.5) if heights else 1.0


def _summed(runs: list[tuple[float, float, float]], height: float) -> Wave:
    """The wave from how far its columns lean."""
    ends = [(one[1] + two[0]) / 2 for one, two in pairwise(runs)]
    points = [runs[0][0] - BEYOND, *ends, runs[-1][1] + BEYOND]
    up = [0.0]
    for (_, _, lean), first, last in zip(runs, points, points[1:], strict=False):
        up.append(up[-1] - _slope(lean, height) * (last - first))
    return Wave(tuple(points), tuple(up))


def _slope(lean: float, height: float) -> float:
    """How steeply a row falls so that posts which lean so far stand square on it."""
    square = height**2 - 4 * lean**2
    slope = (height - sqrt(square)) / (2 * lean) if square > 0 else STEEPEST * (lean > 0 or -1)
    return max(-STEEPEST, min(slope, STEEPEST))
