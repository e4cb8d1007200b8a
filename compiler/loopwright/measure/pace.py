"""Working time: how long a size takes at the pace that the designer states.

    2,124 stitches at 18 to 25 a minute    1 h 25 min to 2 h

Stitches and chains are counted; turning chains and joins are part of any pace. Sewing up, weaving
in and stopping to count are not in it, and without a stated pace there is no figure at all.
"""

from __future__ import annotations

from fractions import Fraction

from loopwright.frozen import NamedTuple
from loopwright.ir.fabric import Fabric
from loopwright.ir.pattern import Pattern
from loopwright.measure.tally import JOIN, TURNING, tally


class Time(NamedTuple):
    """How long one size takes, in minutes, for so many stitches and chains."""

    size: int
    stitches: int
    least: Fraction
    most: Fraction


def working_time(pattern: Pattern, fabrics: tuple[Fabric, ...]) -> tuple[Time, ...]:
    """The working time of every size; none where no pace is stated."""
    pace = pattern.pace
    if pace is None:
        return ()
    out = []
    for fabric in fabrics:
        n = stitches(pattern, fabric)
        out.append(Time(fabric.size, n, n / pace.fast, n / pace.slow))
    return tuple(out)


def stitches(pattern: Pattern, fabric: Fabric) -> int:
    """The stitches and chains of everything that is made in one size."""
    total = 0
    for part in pattern.parts:
        times = part.make[fabric.size] if part.make else 1
        made = tally(pattern, part, fabric)
        total += times * sum(n for thing, n in made.items() if thing.kind not in (TURNING, JOIN))
    return total


def time_text(time: Time) -> str:
    """``1 h 25 min to 2 h``, as ``minutes`` rounds it."""
    least, most = minutes(time)
    if least == most or not least:
        return f"up to {_hours(most)}" if not least else f"about {_hours(most)}"
    return f"{_hours(least)} to {_hours(most)}"


def minutes(time: Time) -> tuple[int, int]:
    """From how many minutes to how many: to the next 5 below ten hours, then to the next hour.
    The least goes down and the most goes up, for no pace is kept more exactly than that."""
    step = 5 if time.most < 600 else 60
    return int(time.least // step) * step, -int(-time.most // step) * step


def _hours(minutes: int) -> str:
    hours, rest = divmod(minutes, 60)
    parts = [f"{hours:,} h"] * (hours > 0) + [f"{rest} min"] * (rest > 0 or not hours)
    return " ".join(parts)
