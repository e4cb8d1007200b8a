"""How high the symbols of a row reach, once it is known where along the row they stand: a slanted
post reaches less high, chains span between their neighbours, joins and picots hang on stitches."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from itertools import accumulate, pairwise
from math import hypot, sqrt

from loopwright.render.chart.links import Ref
from loopwright.render.chart.spots import LONG, At, Layer, Plane, Spot, spot_at

CHAIN = 0.62  # the length of a chain along its run
JOIN_ASIDE = 0.46  # how far before the first stitch the join lies, clear of what is worked there
LEAST_RISE = 0.5  # how steeply a stitch rises at least, so that what leans is still told apart
SAMPLES = 8  # for each chain, where its length on the page is measured
SLOPE = 0.7  # how steeply the tops of a row may fall from one stitch to the next


def rise(layer: Layer, layers: Sequence[Layer], plane: Plane) -> None:
    """What follows from where the symbols of a row stand along it: a slanted post reaches less
    high, a ring is met straight below, chains span between their neighbours."""
    far: dict[tuple[Ref, ...], float] = {}
    for spot in layer.spots:
        if spot.thing and not spot.feet and spot.kind != "run":
            _stand(spot, layer)
        elif spot.kind in ("stem", "upright") and spot.feet:
            reach = [abs(foot.s - spot.s) * plane.metric(foot) for foot in spot.feet]
            lean = sqrt(max(0.55, 1 - (min(reach) / (2.2 * max(spot.height, 0.5))) ** 2))
            spot.v -= spot.height * (1 - lean)
            if max(reach) > 1.5 * spot.height and spot.thing:
                far[spot.thing.feet] = max(far.get(spot.thing.feet, 0.0), max(reach))
    for spot in layer.spots:
        if spot.kind == "stem" and spot.thing and spot.thing.feet in far:
            spot.v = max(spot.v, spot.feet[0].v + LEAST_RISE * far[spot.thing.feet])
    _ease(layer, plane)
    for i, spot in enumerate(layer.spots):
        if spot.kind == "run":
            span_chains(layer, i, layers, plane)
    for i, spot in enumerate(layer.spots):
        if spot.kind not in ("stem", "dot", "upright", "run"):
            hang(layer, i, plane)


def _ease(layer: Layer, plane: Plane) -> None:
    """Lengthen a short stitch beside a much taller one, so that rows do not drift apart where
    tall stitches stand on tall ones."""
    row = [spot for spot in layer.spots if spot.thing and spot.thing.place >= 0]
    row = [spot for spot in row if spot.kind in ("stem", "upright")]
    for order in (row, row[::-1]):
        for one, two in pairwise(order):
            if two.v < one.v:
                apart = abs(two.s - one.s) * plane.metric(At(one.s, one.v))
                two.v = max(two.v, one.v - SLOPE * apart)


def _stand(spot: Spot, layer: Layer) -> None:
    """The foot of what stands on nothing below: a ring, or a spiral's own first stitches."""
    deep = 1.2 if spot.thing and spot.thing.made.into == "deep" else 0.0
    spot.feet = [At(spot.s, spot.v - spot.height - deep)]
    own = layer.at.get(spot.thing.feet[0].place) if spot.thing and spot.thing.feet else None
    if own is not None and own is not spot:
        spot.feet = [At(own.s + layer.way * layer.round_length, own.v + 0.12)]
        spot.v = own.v + 0.12 + spot.height


def hang(layer: Layer, i: int, plane: Plane) -> None:
    """A join goes to the first stitch of its round, a picot to the top of the stitch before it."""
    spot = layer.spots[i]
    standing = [one for one in layer.spots if one.kind in ("stem", "upright", "dot")]
    if not standing:
        return
    if spot.kind != "join":
        before = [one for one in layer.spots[:i] if one.kind in ("stem", "upright", "dot")]
        host = before[-1] if before else standing[0]
        spot.s, spot.v, spot.feet = host.s, host.v + 0.1, [At(host.s, host.v)]
    elif plane.around is not None:
        first = standing[0]
        aside = JOIN_ASIDE / plane.metric(At(first.s, first.v))
        spot.s, spot.v = first.s - layer.way * aside, first.v + 0.06
        spot.feet = [At(spot.s, spot.v)]
    else:
        last = layer.spots[i - 1] if i else standing[-1]
        spot.s = last.s + layer.way * (last.half + 0.35)
        spot.v = last.path[-1].v if last.path else last.v
        spot.feet = [At(spot.s, spot.v)]


def span_chains(layer: Layer, i: int, layers: Sequence[Layer], plane: Plane) -> None:
    """The path of a run of chains from the symbol before it to the one after it: straight where
    there is room, in an arc where there is not, and over whatever it passes."""
    spot = layer.spots[i]
    one, two = _end(layer, i, -1, plane), _end(layer, i, 1, plane)
    chains = spot.thing.made.chains if spot.thing else 1
    steps = _steps(one, two, chains, plane) if chains >= LONG else []
    bent = bool(steps) and max(steps) > 1.01 * min(steps)
    metric = plane.metric(At(spot.s, (one.v + two.v) / 2))
    across = sum(steps) if bent else (two.s - one.s) * metric
    chord = hypot(across, two.v - one.v)
    spare = max(chains * CHAIN - chord, 0.0)
    sag = sqrt(3 * chord * spare / 8) if spare else 0.0
    over = [spot_at(ref, layers).v for ref in passed(layer, i)]
    if over:
        sag = max(sag, max(over) + 0.35 - (one.v + two.v) / 2)
    spot.path = _arc(one, two, sag, chains)
    if bent:
        _even_out(spot.path, steps)
    spot.s = (one.s + two.s) / 2
    spot.v = (one.v + two.v) / 2 + sag


def passed(layer: Layer, i: int) -> tuple[Ref, ...]:
    """The places that a run of chains passes over: those the next stitch had to jump; a long
    one at the end of a round passes over those that it did not come to."""
    for spot in layer.spots[i + 1 :]:
        if spot.kind == "run":
            return ()
        if spot.thing and spot.thing.feet:
            return tuple(ref for ref in spot.thing.jumped if ref.row >= 0)
    run = layer.spots[i].thing
    if run is None or run.made.chains < LONG or layer.linked is None or not joined(layer):
        return ()
    return tuple(ref for ref, _ in layer.linked.left)


def _end(layer: Layer, i: int, step: int, plane: Plane) -> At:
    """Where a run of chains begins (``step`` -1) or ends (1)."""
    spot = layer.spots[i]
    j = i + step
    while 0 <= j < len(layer.spots) and layer.spots[j].kind in ("join", "picot"):
        j += step
    away = layer.way * step
    cut = layer.gap and (i < layer.gap) != (j < layer.gap)
    if 0 <= j < len(layer.spots) and not cut:
        near = layer.spots[j]
        top = near.path[-1] if near.path and near.kind == "run" and step < 0 else At(near.s, near.v)
        return At(top.s - away * min(0.34, near.half) / plane.metric(top), top.v)
    ends = [one for one in layer.spots if one.kind in ("stem", "upright", "dot")]
    if plane.around is not None and ends:
        near = ends[0] if step > 0 else ends[-1]
        shift = away * plane.around
        free = 0.34 + (2 * JOIN_ASIDE - 0.34 if step > 0 and joined(layer) else 0.0)
        return At(near.s + shift - away * free / plane.metric(At(near.s, near.v)), near.v)
    level = (ends[0] if step < 0 else ends[-1]).v if ends else spot.v
    return At(spot.s + away * spot.half / plane.metric(At(spot.s, level)), level)


def joined(layer: Layer) -> bool:
    """Whether a round is closed with a slip stitch."""
    return any(spot.kind == "join" for spot in layer.spots)


def _arc(one: At, two: At, sag: float, chains: int) -> list[At]:
    """Points along a low arc, evenly spaced along ``s``."""
    out = []
    for k in range(chains + 1):
        part = k / chains
        bow = 4 * part * (1 - part) * sag
        out.append(At(one.s + (two.s - one.s) * part, one.v + (two.v - one.v) * part + bow))
    return out


def _steps(one: At, two: At, chains: int, plane: Plane) -> list[float]:
    """How long each small step of ``s`` from one point to another is on the page, in order."""
    level, count = (one.v + two.v) / 2, SAMPLES * chains
    step = (two.s - one.s) / count
    return [abs(step) * plane.metric(At(one.s + (k + 0.5) * step, level)) for k in range(count)]


def _even_out(path: list[At], steps: list[float]) -> None:
    """Space the points of a long path evenly on the page in place of along ``s``."""
    gone = list(accumulate(steps, initial=0.0))
    begin, step = path[0].s, (path[-1].s - path[0].s) / len(steps)
    for i in range(1, len(path) - 1):
        wanted = gone[-1] * i / (len(path) - 1)
        k = bisect_left(gone, wanted) - 1
        part = (wanted - gone[k]) / (gone[k + 1] - gone[k])
        path[i] = At(begin + (k + part) * step, path[i].v)
