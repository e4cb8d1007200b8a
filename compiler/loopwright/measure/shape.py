"""Shape: the surface that the rounds of a part lie on, turned about its axis.

Every round is a ring; its length fixes how far it stands from the axis, its height how far it is
from the ring before, measured on the fabric. From one ring to the next

    out by r, with a height of h      the fabric rises by the root of h2 - r2
    out by h                          it lies flat: 2 pi h longer every round
    straight up                       a tube: as long as the round before
    out by more than h                a ring that long has no room there: the fabric goes on flat
                                      and ruffles, with an angle of more than a full turn about it

Rounds worked over and over are carried on in one step: the cost is that of what is written. The
angles and roots make this the one place where lengths are not kept exact.
"""

from __future__ import annotations

from math import pi, sqrt

from loopwright.frozen import Frozen
from loopwright.measure.values import PartSize, RowSize

TURN = 2 * pi


class Ring(Frozen):
    """A ring of the surface: its distance from the axis, how high it stands on it, how far it is
    from the beginning along the fabric, how long its round is (all in mm), and how much more than
    a full turn the fabric about the axis takes up there, in radians (nought unless it ruffles)."""

    radius: float
    height: float
    slant: float
    around: float
    excess: float


class Profile(Frozen):
    """The rings of a part in order, the first being where it begins. Of rounds worked over and
    over the first few stand for all, and the last."""

    rings: tuple[Ring, ...]

    @property
    def widest(self) -> Ring:
        """The ring furthest from the axis."""
        return max(self.rings, key=lambda ring: ring.radius)

    @property
    def height(self) -> float:
        """How high it stands along the axis."""
        heights = [ring.height for ring in self.rings]
        return max(heights) - min(heights)

    @property
    def excess(self) -> float:
        """The largest angle over a full turn."""
        return max(ring.excess for ring in self.rings)


def profile(size: PartSize, hole: float | None) -> Profile | None:
    """The surface of a part's rounds; None where it has none, or their height is not known.

    ``hole`` is the radius in mm that the first round starts from, nought for one drawn shut, None
    where the part begins as a tube.
    """
    if size.high is None:
        return None
    stretches = [
        (tuple(row for row in rows if row.is_round), times) for rows, times in size.stretches
    ]
    stretches = [(rows, times) for rows, times in stretches if rows]
    if not stretches:
        return None
    first = _radius(stretches[0][0][0])
    turning = _Turning(first if hole is None else _closed(stretches[0][0][0], hole))
    for rows, times in stretches:
        turning.stretch(rows, times)
    return Profile(tuple(turning.rings))


def _radius(row: RowSize) -> float:
    return float(row.long) / TURN


def _closed(row: RowSize, hole: float) -> float:
    """A ring of chains is drawn as narrow as the first round makes it."""
    return min(hole, max(_radius(row) - float(row.high or 0), 0.0))


class _Turning:
    """The surface as far as it has come."""

    def __init__(self, radius: float) -> None:
        self.rings = [Ring(radius, 0.0, 0.0, TURN * radius, 0.0)]

    def stretch(self, rows: tuple[RowSize, ...], times: int) -> None:
        """Rounds worked over and over."""
        high = sum(float(row.high or 0) for row in rows)
        while times:
            before = self.rings[-1]
            flat = self._once(rows)
            times -= 1
            after = self.rings[-1]
            if after.radius == before.radius:
                self._carry(before, after, times)
                return
            if flat and times > 1:
                # All of them ruffle: the fabric goes on flat until it has room for the shortest.
                room = min(_radius(row) for row in rows) - after.radius
                skipped = min(int(room / high) - 1, times - 1)
                if skipped > 0:
                    times -= skipped
                    self._put(after.radius + high * skipped, after.height, high * skipped, after)

    def _once(self, rows: tuple[RowSize, ...]) -> bool:
        """The rounds once; whether every one of them ruffled."""
        ruffled = [self._round(row) for row in rows]
        return all(ruffled)

    def _round(self, row: RowSize) -> bool:
        last = self.rings[-1]
        high = float(row.high or 0)
        radius = _radius(row)
        out = radius - last.radius
        rise = sqrt(high * high - out * out) if abs(out) < high else 0.0
        kept = min(radius, last.radius + high)
        around = float(row.long)
        excess = around / kept - TURN if kept and out > high else 0.0
        self.rings.append(
            Ring(kept, last.height + rise, last.slant + high, around, max(excess, 0.0))
        )
        return out > high

    def _carry(self, before: Ring, after: Ring, times: int) -> None:
        """The same rise again and again."""
        if times:
            rise, slant = after.height - before.height, after.slant - before.slant
            self._put(after.radius, after.height + rise * times, slant * times, after)

    def _put(self, radius: float, height: float, slant: float, like: Ring) -> None:
        excess = max(like.around / radius - TURN, 0.0) if radius and like.excess else 0.0
        self.rings.append(Ring(radius, height, like.slant + slant, like.around, excess))
