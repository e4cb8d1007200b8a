"""Rounds, from the centre outwards, anticlockwise as the right side shows them.

``s`` is an angle and ``v`` a distance from the centre. A spiral rises as it goes; a motif whose
only increases are at its corners is drawn with corners; flat rows that begin in one place are laid
out as a half circle.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, pi, sin, sqrt, tan

from loopwright.render.chart.heights import rise
from loopwright.render.chart.layout_wedge import under_wedge
from loopwright.render.chart.links import Linked
from loopwright.render.chart.spots import OUTERMOST, At, Layer, Spot, layer_of
from loopwright.render.chart.strips import STANDING, free_beyond_first, place, settle
from loopwright.render.chart.values import STEP, Point
from loopwright.render.chart.wedge import Wedge

TOP = pi / 2  # rounds begin at the top
SMALLEST = 0.45  # the radius, in stitches, of a ring that is drawn tight


class Disc:
    """The page of rounds: a step of ``s`` is a radian, longer the further out. With ``corners``,
    circles become polygons of so many sides, one corner at ``first``. With a ``wedge`` once around
    is as much of the circle as is drawn, in the middle of the page's top. Rounds that do not all go
    the same way lie on either side of where they begin."""

    around: float | None = 2 * pi
    most: float | None = 2 * pi
    widest: float | None = None
    even = 0.8
    begin = TOP

    def __init__(
        self, corners: int = 0, first: float = 0.0, wedge: Wedge | None = None, share: float = 0.0
    ) -> None:
        self.corners = corners
        self.first = first
        self.wedge = wedge
        if wedge is not None:
            self.around = self.most = 2 * pi * (share or wedge.share)
            self.begin = TOP if corners or wedge.gaps else TOP - pi * wedge.share

    def centre(self) -> Disc:
        """The page of the rounds in the middle, which are drawn whole."""
        return Disc(self.corners, self.first, self.wedge, 1.0) if self.wedge else self

    def metric(self, at: At) -> float:
        return max(at.v, SMALLEST)

    def lack(self, needed: float, level: float) -> float:
        assert self.most is not None
        return needed / self.most - max(level, SMALLEST)

    def page(self, at: At) -> Point:
        angle = at.s + self.begin
        if not self.corners:
            return Point(cos(angle) * at.v * STEP, -sin(angle) * at.v * STEP)
        side = 2 * pi / self.corners
        turn, part = divmod(at.s - self.first, side)
        start = _upright(self.first + self.begin, side) + turn * side
        reach = at.v * STEP * _spare(self.corners) / cos(side / 2)
        x = cos(start) * (1 - part / side) + cos(start + side) * part / side
        y = sin(start) * (1 - part / side) + sin(start + side) * part / side
        return Point(x * reach, -y * reach)

    def snap(self, layer: Layer) -> None:
        """Bring a round's corners to the corners of the page, and what is between along."""
        found = sorted(corner_spots(layer))
        around = self.around or 2 * pi
        if not self.corners or len(found) != round(self.corners * around / (2 * pi)):
            return
        side = 2 * pi / self.corners
        first = self.first + round((found[0] - self.first) / side) * side
        ends = [*found, found[0] + around]
        for spot in layer.spots:
            turn, s = divmod(spot.s - found[0], around)
            j = max(j for j in range(len(found)) if s + found[0] >= ends[j] - 1e-9)
            part = (s + found[0] - ends[j]) / (ends[j + 1] - ends[j])
            spot.s = first + (j + part) * side + turn * around


class HalfDisc(Disc):
    """The page of flat rows that begin in one place: from the right over the top to the left."""

    around = None
    most = pi
    begin = 0.0


def _spare(corners: int) -> float:
    """How much nearer the middle of a side is than the circle was: midway between a polygon that
    holds the circle and one that is as long around."""
    return sqrt(pi / corners / tan(pi / corners))


def _upright(angle: float, side: float) -> float:
    """The nearest angle for a corner at which a side lies level at the bottom."""
    level = -pi / 2 + side / 2
    return level + round((angle - level) / side) * side


def centre(radius: float, places: int, way: int) -> Layer:
    """The beginning of the rounds: a ring of this radius, with its chains as places if it has
    any."""
    count = max(places, 1)
    spots = [Spot("place", s=way * 2 * pi * i / count, v=radius) for i in range(count)]
    for spot in spots:
        spot.feet = [At(spot.s, radius)]
    return Layer(spots, way, dict(enumerate(spots)), round_length=2 * pi)


def lay(
    start: Layer, rows: Sequence[Linked], disc: Disc, gathered: bool, spiral: bool
) -> list[Layer]:
    """Place all rounds from the centre outwards. ``gathered`` where the first goes into one place
    (a ring): its stitches then stand straight out from the centre. What the first of a wedge
    stands on is whole: once around that it goes as far as the wedge does."""
    layers = [start]
    below = layers
    page = disc.centre()
    for index, linked in enumerate(rows):
        layer = layer_of(linked)
        if disc.corners and index == len(rows) - 1:
            layer.free = OUTERMOST
        free_beyond_first(layer)
        if disc.wedge is not None and index == disc.wedge.first:
            page, below = disc, under_wedge(layers, disc.around or 2 * pi, disc.wedge)
        place(layer, below, page)
        if index == 0 and gathered:
            _straighten(layer, layers, page)
        if index == 0 and spiral:
            _wind(layer)
        layers.append(layer)
        if below is not layers:
            below.append(layer)
    return layers


def _straighten(layer: Layer, layers: list[Layer], disc: Disc) -> None:
    """Let the first round, whatever it is worked into, stand evenly around the ring."""
    radius = layers[0].spots[0].v
    row = [spot for spot in layer.spots if spot.kind in STANDING]
    if layer.way < 0:
        row.reverse()
    if row:
        settle(layer, row, [None] * len(row), disc)
    for spot in layer.spots:
        if spot.kind not in ("run", "join"):
            spot.feet = [At(spot.s, radius)] if spot.kind != "picot" else []
            spot.v = max(spot.v, radius + spot.height)
    rise(layer, layers, disc)


def _wind(layer: Layer) -> None:
    """The first round of a spiral rises by one stitch on the way round; later ones follow."""
    standing = [spot for spot in layer.spots if spot.kind in ("stem", "upright", "dot")]
    for i, spot in enumerate(standing):
        climb = spot.height * i / len(standing)
        spot.v += climb
        spot.feet = [At(foot.s, foot.v + climb * 0.3) for foot in spot.feet]


def crowded(layers: Sequence[Layer]) -> float:
    """How full the emptiest round is: its symbols' room as a share of its length."""
    shares = []
    for layer in layers[1:]:
        level = max((spot.v for spot in layer.spots), default=1.0)
        shares.append(room(layer) / (2 * pi * max(level, SMALLEST)))
    return min(shares, default=1.0)


def room(layer: Layer) -> float:
    """How long a round would be with its symbols side by side; of a wedge, the whole round."""
    needed = sum(spot.half * 2 for spot in layer.spots if spot.kind in STANDING)
    return needed * 2 * pi / (layer.round_length or 2 * pi)


def corners_of(layers: Sequence[Layer]) -> tuple[int, float]:
    """How many corners a motif has, and the angle of one: 0 where it has none.

    The last three rounds are looked at, or all there are: at least two of them, the last among
    them, must have the same number of corners, three to eight, evenly spaced."""
    last = layers[1:][-3:]
    around = last[-1].round_length or 2 * pi if last else 2 * pi
    last = [layer for layer in last if layer.round_length in (0.0, around)]
    found = [corner_spots(layer) for layer in last]
    drawn = len(found[-1]) if found else 0
    count = round(drawn * 2 * pi / around)
    if not 3 <= count <= 8 or sum(len(one) == drawn for one in found) < 2:
        return 0, 0.0
    angles = sorted(found[-1])
    spaces = [b - a for a, b in zip(angles, [*angles[1:], angles[0] + around], strict=True)]
    even = max(spaces) - min(spaces) < 0.35 * (2 * pi / count)
    return (count, angles[0]) if even else (0, 0.0)


def corner_spots(layer: Layer) -> list[float]:
    """The angles of a round's corners: places that take stitches on both sides of a chain; in a
    round without such, places that take three stitches or more. None where a round increases
    anywhere else."""
    groups = _groups(layer)
    split = [group for group in groups if any(spot.kind == "run" for spot in group)]
    several = [group for group in groups if len(group) > 1 and group not in split]
    if split:
        into_stitches = [group for group in several if _into(group[0]) != "sp"]
        return [] if into_stitches else [_middle(group) for group in split]
    if any(len(group) == 2 for group in several):
        return []
    return [_middle(group) for group in several]


def _middle(group: list[Spot]) -> float:
    """The angle of a corner: that of its chains, or of the middle of its stitches."""
    chains = [spot.s for spot in group if spot.kind == "run"]
    return chains[len(chains) // 2] if chains else (group[0].s + group[-1].s) / 2


def _into(spot: Spot) -> str:
    return spot.thing.made.into if spot.thing else ""


def _groups(layer: Layer) -> list[list[Spot]]:
    """The stitches of a round by the place they share, with the chains between them."""
    out: list[list[Spot]] = []
    chains: list[Spot] = []
    for spot in layer.spots:
        if spot.kind == "run":
            chains.append(spot)
        elif spot.kind in ("stem", "upright") and spot.thing and spot.thing.feet:
            last = out[-1][0].thing if out else None
            if last and last.feet == spot.thing.feet:
                out[-1] += [*chains, spot]
            else:
                out.append([spot])
            chains = []
    return out
