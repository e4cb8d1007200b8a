"""Yarn: how much of each a size takes, in metres, grams and balls.

    slate, size woman    83 g, 182 m, 2 balls    from the swatch that was weighed
    foam, size woman     110 to 170 m            an estimate

Where the designer weighed a square of gauge (or measured its yarn), a stitch takes its share of
that square, and other stitches and chains take theirs by published rates (``trade.yarn_use``).
Otherwise the gauge and those rates give an estimate, with its spread. Strands held together count
for each yarn. The allowance for tails and a swatch is added, and balls are rounded up from the most
that may be taken. A part without a gauge has no figures, and is named.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction

from loopwright.frozen import Frozen, NamedTuple
from loopwright.ir.fabric import Fabric
from loopwright.ir.pattern import Gauge, Part, Pattern, Yarn
from loopwright.measure.tally import CHAIN, FOUNDATION, TURNING, Tally, Thing, tally
from loopwright.trade.yarn_use import (
    ALLOWANCE,
    OF_CHAIN,
    SPREAD,
    of_foundation,
    of_height,
    of_stitch,
)

WEIGHED, USED, ESTIMATE = "weighed", "used", "estimate"
MM_IN_METRE = 1000


class Between(NamedTuple):
    """An amount that is somewhere from the least to the most; the two are the same where it was
    measured."""

    least: Fraction
    most: Fraction

    def times(self, factor: Fraction | int) -> Between:
        """So many times as much."""
        return Between(self.least * factor, self.most * factor)

    def plus(self, other: Between) -> Between:
        """Both together."""
        return Between(self.least + other.least, self.most + other.most)


NONE = Between(Fraction(0), Fraction(0))


class Need(Frozen):
    """What one size takes of a yarn, the allowance included. ``yarn`` is empty where the pattern
    names none. What is not known is None; ``how`` tells how it was got, each way once:
    ``weighed``, ``used`` (both a swatch) or ``estimate``."""

    yarn: str
    size: int
    metres: Between | None
    grams: Between | None
    balls: int | None
    how: tuple[str, ...]


class YarnUse(Frozen):
    """What every size takes of every yarn, yarn by yarn. ``stated`` where the designer says the
    allowance; ``without`` are the parts that have no gauge and are not in it."""

    needs: tuple[Need, ...]
    allowance: Fraction
    stated: bool
    without: tuple[str, ...]

    @property
    def how(self) -> tuple[str, ...]:
        """All the ways in which the figures were got."""
        return tuple(dict.fromkeys(how for need in self.needs for how in need.how))


class _Share(NamedTuple):
    """What a part takes of a yarn: in metres or in grams, and in metres by estimate."""

    metres: Between | None
    grams: Between | None
    estimate: Between
    how: str


def needed(pattern: Pattern, fabrics: tuple[Fabric, ...]) -> YarnUse:
    """The yarn that each size of a pattern takes, from its fabrics in the order of the sizes."""
    gauges = {gauge.name: gauge for gauge in pattern.gauges}
    yarns = {yarn.name: yarn for yarn in pattern.yarns}
    allowance = ALLOWANCE if pattern.allowance is None else pattern.allowance
    shares: dict[str, dict[int, list[_Share]]] = {name: {} for name in yarns}
    for fabric in fabrics:
        for part in pattern.parts:
            if part.gauge:
                took = _part(pattern, part, fabric, gauges[part.gauge], yarns)
                for name, share in took:
                    shares.setdefault(name, {}).setdefault(fabric.size, []).append(share)
    needs = tuple(
        _need(name, yarns.get(name), size, found, 1 + allowance)
        for name, sizes in shares.items()
        for size, found in sizes.items()
    )
    without = tuple(part.name for part in pattern.parts if not part.gauge)
    return YarnUse(needs, allowance, pattern.allowance is not None, without)


def _part(
    pattern: Pattern, part: Part, fabric: Fabric, gauge: Gauge, yarns: Mapping[str, Yarn]
) -> Iterator[tuple[str, _Share]]:
    """What all makings of a part take, by yarn."""
    times = part.make[fabric.size] if part.make else 1
    own = part.yarns or gauge.yarns or (tuple(yarns) if len(yarns) == 1 else ("",))
    widths = _widths(tally(pattern, part, fabric))
    for strands, n in widths.items():
        for name in strands.split("+") if strands else own:
            yield name, _share(gauge, own, yarns, n * times)


def _widths(made: Tally) -> dict[str, Fraction]:
    """The yarn of what was made, in widths of a stitch, by the strands it is made in."""
    out: dict[str, Fraction] = {}
    for thing, n in made.items():
        out[thing.yarn] = out.get(thing.yarn, Fraction(0)) + _width(thing) * n
    return out


def _width(thing: Thing) -> Fraction:
    if thing.kind in (CHAIN, TURNING):
        return OF_CHAIN
    assert thing.stitch is not None
    return of_foundation(thing.stitch) if thing.kind == FOUNDATION else of_stitch(thing.stitch)


def _share(
    gauge: Gauge, own: tuple[str, ...], yarns: Mapping[str, Yarn], widths: Fraction
) -> _Share:
    """What so many widths of yarn are at a gauge."""
    estimate = _estimate(gauge, widths)
    if gauge.rows is None:
        return _Share(estimate, None, estimate, ESTIMATE)
    part = widths / (gauge.stitches * gauge.rows * of_stitch(gauge.stitch))
    if gauge.uses is not None:
        return _Share(_exactly(gauge.uses * part), None, estimate, USED)
    if gauge.weighs is not None:
        strands = gauge.yarns or own
        weight = _grams_a_metre(strands, yarns)
        if weight is not None:
            return _Share(_exactly(gauge.weighs / weight * part), None, estimate, WEIGHED)
        if len(strands) == 1:
            return _Share(None, _exactly(gauge.weighs * part), estimate, WEIGHED)
    return _Share(estimate, None, estimate, ESTIMATE)


def _estimate(gauge: Gauge, widths: Fraction) -> Between:
    """What so many widths of yarn are by published measurements, in metres: from how high a row of
    the gauge is, which tells the yarn of a square; without rows, from how wide a stitch is."""
    if gauge.rows:
        mm = gauge.over / gauge.rows * of_height(gauge.stitch) / of_stitch(gauge.stitch)
    else:
        mm = gauge.over / gauge.stitches
    metres = widths * mm / MM_IN_METRE
    return Between(metres * (1 - SPREAD), metres * (1 + SPREAD))


def _exactly(amount: Fraction) -> Between:
    return Between(amount, amount)


def _grams_a_metre(strands: tuple[str, ...], yarns: Mapping[str, Yarn]) -> Fraction | None:
    """What a metre of all the strands together weighs, where every ball says so."""
    total = Fraction(0)
    for name in strands:
        yarn = yarns.get(name)
        if yarn is None or yarn.grams is None or not yarn.metres:
            return None
        total += yarn.grams / yarn.metres
    return total


def _need(name: str, yarn: Yarn | None, size: int, shares: list[_Share], factor: Fraction) -> Need:
    """A yarn's shares put together, in every unit that its ball lets it be told in."""
    how = tuple(dict.fromkeys(share.how for share in shares))
    if yarn is None or not yarn.grams or not yarn.metres:
        if all(share.grams is not None for share in shares):
            grams = _sum(share.grams or NONE for share in shares)
            return Need(name, size, None, grams.times(factor), None, how)
        # Grams and metres do not add up without knowing the ball: the grams are estimated too.
        metres = _sum(share.metres or share.estimate for share in shares)
        how = tuple(dict.fromkeys(ESTIMATE if one == WEIGHED else one for one in how))
        return Need(name, size, metres.times(factor), None, None, how)
    per_gram = yarn.metres / yarn.grams
    metres = _sum(share.metres or (share.grams or NONE).times(per_gram) for share in shares)
    metres = metres.times(factor)
    balls = -((-metres.most / yarn.metres) // 1)
    return Need(name, size, metres, metres.times(1 / per_gram), int(balls), how)


def _sum(amounts: Iterator[Between]) -> Between:
    total = NONE
    for one in amounts:
        total = total.plus(one)
    return total
