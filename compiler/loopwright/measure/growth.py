"""Growth: whether rounds that grow from a middle lie flat, cup or ruffle.

A flat disc gets 2 pi times the height of a round longer every round; a flat motif with k corners
2 k tan(pi / k) times, which is 8 for a square. What the rounds really grow by, over that, is the
``ratio``: below 1 they cup, above 1 they ruffle.

How far from 1 fabric still lies flat is read off the stitches a round that makers publish as flat
(table F of the trade's tables, ``trade.flat``): for one and the same stitch the most is up to one
and a half times the least, so that half of that spread is allowed on either side.
"""

from __future__ import annotations

from math import pi, sqrt, tan

from loopwright.frozen import Frozen
from loopwright.ir.fabric import Made, WorkedPart
from loopwright.ir.items import OtherSide
from loopwright.ir.pattern import Part, Row
from loopwright.ir.runs import Runs
from loopwright.measure.values import PartSize, RowSize, Stretch
from loopwright.trade.flat import BAND

LONGEST_LOOKED_THROUGH = 2000
"""Stitches of a round that is looked through for corners; a motif has fewer."""

SHORTEST_START = 4
"""Chains that are a middle and not an edge, where a part begins with a few (common practice)."""

BORDER = 1
"""Rounds that do not grow and still belong to a flat piece: its border."""

CORNER = 3
"""Stitches in one place that make a corner: two only make the round longer."""

MOST_CORNERS = 8

ENDS = 4 / 3
"""How many times as much as a disc an oval may grow: its two ends are published with 8 US sc a
round between them where a disc has 6, and the straight sides take that up (common practice)."""

TALL = BAND["long"]
"""The band for stitches that too few sources have (double long and taller)."""


def allowed(stitch: str) -> float:
    """How many times too long or too short rounds of a stitch may grow and still lie flat: the
    root of the most over the least that is published for it."""
    least, most = BAND[stitch] if stitch in ("plain", "half", "long") else TALL
    return sqrt(most / least)


class Growth(Frozen):
    """The growing rounds of a part from its middle on. ``rounds`` is how many grow, ``ratio`` how
    much over what a flat one would, ``corners`` how many corners they have (nought for a disc).
    ``after`` is how many rounds follow that do not grow; ``stitch`` what most rounds are of.
    ``each`` is how many stitches a round a flat one would grow by; ``oval`` whether they go about
    both sides of a chain."""

    rounds: int
    ratio: float
    corners: int
    after: int
    stitch: str
    each: float
    rows: tuple[RowSize, ...]
    oval: bool = False

    @property
    def most(self) -> float:
        """How many times as much as a flat one they may grow and still lie flat."""
        return allowed(self.stitch) * (ENDS if self.oval else 1.0)

    @property
    def ruffles(self) -> bool:
        """Whether they grow by more than lies flat."""
        return self.ratio > self.most

    @property
    def cups(self) -> bool:
        """Whether they grow by less than lies flat."""
        return self.ratio < 1 / allowed(self.stitch)


def starts_in_a_middle(part: Part, worked: WorkedPart) -> bool:
    """Whether the first round goes round a point: a ring, or a chain or two."""
    if part.start.what == "magic ring":
        return True
    if part.start.what != "chain" or part.start.then:
        return False
    first = next((row for rows, times in worked.rows if times for row in rows), None)
    return first is not None and (first.on_ring or worked.start.length <= SHORTEST_START)


def fans_out(part: Part, worked: WorkedPart) -> bool:
    """Whether rows go to and fro about a middle, as of a shawl or a fan: they bend about it, and
    are as long as the bend."""
    first = next((row for rows, times in worked.rows if times for row in rows), None)
    if first is None or first.is_round or part.manner != "flat":
        return False
    if part.start.what == "magic ring" or part.start.ring:
        return True
    stitches = {one: n for one, n in first.made.tally().items() if one.what in ("st", "as")}
    # All in one place: none moves on but the first of them.
    moves = sum(n for one, n in stitches.items() if one.step or one.also)
    return moves == 1 and sum(stitches.values()) >= CORNER


def both_sides(part: Part) -> bool:
    """Whether the first round goes along a chain and back on its other side."""
    if part.start.what != "chain" or part.start.ring or part.start.then:
        return False
    first = next((line for line in part.lines if isinstance(line, Row)), None)
    if first is None or not first.is_round:
        return False
    return any(isinstance(item, OtherSide) for item in first.items)


def growth(part: Part, worked: WorkedPart, size: PartSize) -> Growth | None:
    """How a part grows; None where it does not begin in a middle or about a chain, its heights are
    not known, or fewer than two rounds grow. Two rounds on end that do not grow end it."""
    middle = starts_in_a_middle(part, worked)
    if size.high is None or not size.within_reason or not (middle or both_sides(part)):
        return None
    rows, after = growing(size.stretches)
    if len(rows) < 2:
        return None
    corners = corners_of(worked, len(rows))
    out = float(sum(row.high or 0 for row in rows[1:]))
    if not out:
        return None
    longer = float(rows[-1].long - rows[0].long)
    flat = flat_growth(corners)
    names = [row.stitch for row in rows]
    stitch = max(names, key=names.count)
    width = float(rows[-1].long) / rows[-1].stitches
    each = flat * out / (len(rows) - 1) / width
    ratio = longer / (flat * out)
    return Growth(len(rows), ratio, corners, after, stitch, each, rows, not middle)


def first_rows(stretches: tuple[Stretch, ...]) -> list[RowSize]:
    """The rounds one by one, without those of an edging."""
    # A round that is worked again and again does not grow: three of them tell as much as all.
    rounds = [row for rows, times in stretches for _ in range(min(times, 3)) for row in rows]
    return [row for row in rounds if not row.edging]


def flat_growth(corners: int) -> float:
    """How much longer a flat round is than the one before, for each mm it is high."""
    return 2 * corners * tan(pi / corners) if corners else 2 * pi


def growing(stretches: tuple[Stretch, ...]) -> tuple[tuple[RowSize, ...], int]:
    """The growing rounds, with single ones between that do not grow, and how many follow them up
    to an edging."""
    rounds = first_rows(stretches)
    last = 0
    for at, row in enumerate(rounds):
        if row.long > rounds[last].long:
            last = at
        elif row.long < rounds[last].long or at > last + 1:
            break
    return tuple(rounds[: last + 1]), len(rounds) - last - 1


def corners_of(worked: WorkedPart, rounds: int) -> int:
    """How many corners a motif has: places that take more stitches than any others of the round,
    as many in every round after the first. Nought where there are none."""
    found: set[int] = set()
    seen = 0
    for rows, _ in worked.rows:
        for row in rows:
            seen += 1
            if seen == 1 or seen > rounds:
                continue
            if row.made.length > LONGEST_LOOKED_THROUGH:
                return 0
            found.add(_corners(row.made))
    if len(found) != 1:
        return 0
    corners = found.pop()
    return corners if 3 <= corners <= MOST_CORNERS else 0


def _corners(made: Runs[Made]) -> int:
    """How many places take more stitches than any others, and enough to make a corner."""
    places: dict[int, int] = {}
    at = -1
    loop = False
    for one in made.expand():
        at += one.step
        if one.what in ("st", "as", "skip as"):
            # A chain between two stitches of one place spreads them as a third would.
            places[at] = places.get(at, 0) + 1 + (loop and not one.step)
            loop = False
        elif one.what == "ch":
            loop = at in places
        at += max(one.also, default=0)
    most = max(places.values(), default=0)
    return list(places.values()).count(most) if most >= CORNER else 0
