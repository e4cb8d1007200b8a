"""A wedge of rounds among the other layouts: what it stands on, and where it is cut open.

While it is laid out a wedge is a cone, round whose top its rounds go as others go round a ring.
To be drawn it is cut from the top down and laid flat. Rounds that all begin at one place are cut
there; those that turn are cut where their repeats were left out, so that what is worked towards
the beginning and what is worked away from it lie on either side; those that begin ever further on
are cut where the first of them begins.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import pi
from typing import Protocol

from loopwright.frozen import replace
from loopwright.render.chart.links import Ref
from loopwright.render.chart.spots import At, Layer, Spot, spot_at
from loopwright.render.chart.wedge import Wedge

BEFORE = 0.02  # how far before its first stitch, in radians, the first round is cut
STRAYS = 0.6  # how much of a wedge its rounds may lie further on than the first of them


class Page(Protocol):
    """What is asked of the page: its wedge, and once around that in ``s``."""

    wedge: Wedge | None
    around: float | None


def under_wedge(layers: Sequence[Layer], around: float, wedge: Wedge) -> list[Layer]:
    """What is whole as a wedge stands on it: once around that it goes as far as the wedge does. Of
    rounds that turn, what lies past the gap is brought to the other side of it."""
    gone = 2 * pi - around
    last = layers[-1]
    middle = abs(spot_at(Ref(len(layers) - 1, wedge.low), layers).s) + gone / 2
    out = []
    for layer in layers:
        one = layer
        if wedge.gaps:
            far = middle if layer.way == last.way else 2 * pi - middle
            past = [spot.s * layer.way > far for spot in layer.spots]
            one = _moved(layer, [-layer.way * gone * is_past for is_past in past])
        out.append(replace(one, round_length=around))
    return out


def cut_open(layers: Sequence[Layer], page: Page) -> tuple[list[Layer], bool]:
    """The rounds as they lie when the wedge is cut, and whether they wind past the place where the
    first of them begins."""
    wedge, around = page.wedge, page.around
    if wedge is None or around is None:
        return list(layers), False
    if wedge.gaps:
        return list(_opened(layers, wedge, around)), False
    if not strayed(layers, page):
        return list(layers), False
    return _wound(layers, wedge, around), True


def _opened(layers: Sequence[Layer], wedge: Wedge, around: float) -> list[Layer]:
    """Rounds that turn, with what comes after their gap on the other side of their beginning."""
    out = [*layers[: wedge.first + 1]]
    for layer, gap in zip(layers[wedge.first + 1 :], wedge.gaps, strict=False):
        after = [i >= gap and spot.kind != "join" for i, spot in enumerate(layer.spots)]
        out.append(_moved(layer, [-layer.way * around * is_after for is_after in after]))
    return out


def _wound(layers: Sequence[Layer], wedge: Wedge, around: float) -> list[Layer]:
    """Rounds that begin ever further on, with what has come once around back where it began:
    chains where they lie past that, stitches with what they stand on."""
    begin = min(spot.s for spot in layers[wedge.first + 1].spots) - BEFORE
    turns: dict[tuple[int, int], int] = {}
    out = [*layers[: wedge.first + 1]]
    for index, layer in enumerate(layers[wedge.first + 1 :], start=wedge.first + 1):
        own: list[int] = []
        for spot in layer.spots:
            feet = spot.thing.feet if spot.thing else ()
            if feet:
                own.append(turns.get(feet[0][:2], 0) + feet[0].turn * (index > wedge.first + 1))
            else:
                own.append(int((spot.s - begin) // around))
            if spot.thing and spot.thing.place >= 0:
                turns[index, spot.thing.place] = own[-1]
        out.append(_moved(layer, [-around * turn for turn in own]))
    return out


def _moved(layer: Layer, along: Sequence[float]) -> Layer:
    """A round with each spot so far further along."""
    moved = [_shifted(*one) if one[1] else one[0] for one in zip(layer.spots, along, strict=True)]
    now = {id(old): new for old, new in zip(layer.spots, moved, strict=True)}
    at = {place: now[id(spot)] for place, spot in layer.at.items()}
    return replace(layer, spots=moved, at=at)


def _shifted(spot: Spot, along: float) -> Spot:
    """A spot, with its feet and its path, further along."""
    return replace(
        spot,
        s=spot.s + along,
        feet=[At(foot.s + along, foot.v) for foot in spot.feet],
        path=[At(at.s + along, at.v) for at in spot.path],
    )


def strayed(layers: Sequence[Layer], page: Page) -> bool:
    """Whether the rounds of a wedge lie so far on from where the first of them does that they are
    no wedge any more."""
    if page.wedge is None or page.around is None:
        return False
    rounds = [layer.spots for layer in layers[page.wedge.first + 1 :] if layer.spots]
    middles = [(min(s.s for s in spots) + max(s.s for s in spots)) / 2 for spots in rounds]
    return any(abs(s - middles[0]) > STRAYS * page.around for s in middles)
