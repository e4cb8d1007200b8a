"""Heads of children from birth to five years: the World Health Organization's own parameters.

    BOYS[6]   L 1, M 43.3393 cm, S 0.02817: half of all boys of 6 months are below 43.3 cm

Table C of the trade's tables, source who (WHO Child Growth Standards, head circumference for age).
L is 1 at every age, so it is kept once. Each row is an age in months, M in cm, and S. Between the
ages listed nothing is filled in.
"""

from __future__ import annotations

from fractions import Fraction

from loopwright.frozen import NamedTuple

SOURCE = "who"
POWER = Fraction(1)
"""L, at every age."""


class Lms(NamedTuple):
    """The three parameters of one age: the power L, the median M in cm, the variation S."""

    power: Fraction
    median: Fraction
    variation: Fraction


def _rows(text: str) -> dict[int, Lms]:
    rows = (line.split() for line in text.strip().splitlines())
    return {int(month): Lms(POWER, Fraction(m), Fraction(s)) for month, m, s in rows}


BOYS = _rows(
    """
    0 34.4618 0.03686
    1 37.2435 0.03135
    2 39.1349 0.02997
    3 40.5008 0.02918
    4 41.6401 0.02868
    5 42.5524 0.02837
    6 43.3393 0.02817
    9 45.0007 0.02792
    12 46.0637 0.02789
    15 46.809 0.02792
    18 47.3718 0.028
    24 48.2494 0.02821
    30 48.9347 0.02847
    36 49.4619 0.02871
    42 49.8737 0.02893
    48 50.2115 0.02912
    54 50.4931 0.0293
    60 50.7372 0.02945
    """
)
GIRLS = _rows(
    """
    0 33.8787 0.03496
    1 36.5163 0.03211
    2 38.258 0.03168
    3 39.521 0.0314
    4 40.5895 0.03119
    5 41.454 0.03102
    6 42.2079 0.03087
    9 43.8309 0.03053
    12 44.894 0.03027
    15 45.6582 0.03005
    18 46.2431 0.02987
    24 47.1799 0.02958
    30 47.9336 0.02933
    36 48.5106 0.02912
    42 48.9621 0.02894
    48 49.3321 0.02878
    54 49.647 0.02863
    60 49.9225 0.0285
    """
)

CHILDREN = {"boys": BOYS, "girls": GIRLS}


def at_z(one: Lms, z: float) -> float:
    """The head in cm that stands ``z`` deviations from the median: M (1 + L S z) ^ (1/L), or
    M exp(S z) where L is nought."""
    from math import exp

    power, median, variation = map(float, one)
    if power == 0:
        return median * exp(variation * z)
    return float(median * (1 + power * variation * z) ** (1 / power))


def z_of(percent: int) -> float:
    """How many deviations from the median a percentile stands."""
    from statistics import NormalDist

    return NormalDist().inv_cdf(percent / 100)


def head(one: Lms, percent: int) -> Fraction:
    """The head in mm at a percentile; the median is M itself."""
    if percent == 50:
        return one.median * 10
    return Fraction(f"{at_z(one, z_of(percent)) * 10:.3f}")
