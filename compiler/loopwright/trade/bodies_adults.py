"""Heads, hands and feet of grown people: ANSUR II, 4,082 men and 1,986 women measured in 2012.

    ADULTS["woman", "head"]   median 560 mm, and nine in ten between 532 and 597

Table C of the trade's tables, source ansur, computed there from the public data. They are soldiers
of 17 to 58 years, not everybody. Lengths are in mm; percentiles between those listed are not
filled in.
"""

from __future__ import annotations

from fractions import Fraction

from loopwright.frozen import NamedTuple

SOURCE = "ansur"
MEASURED = {"woman": 1986, "man": 4082}
PERCENTS = (1, 5, 25, 50, 75, 95, 99)


class Adults(NamedTuple):
    """One part of the body of grown women or men: mean, deviation, percentiles, all in mm."""

    who: str
    part: str
    mean: Fraction
    deviation: Fraction
    percentiles: dict[int, Fraction]


def _row(who: str, part: str, mean: str, deviation: str, percentiles: str) -> Adults:
    values = map(Fraction, percentiles.split())
    by_percent = dict(zip(PERCENTS, values, strict=True))
    return Adults(who, part, Fraction(mean), Fraction(deviation), by_percent)


_ROWS = (
    _row("man", "head", "574.37", "16.05", "538.0 548.0 563.0 574.0 585.0 601.0 614.2"),
    _row("man", "head breadth", "154.33", "5.53", "142.0 146.0 151.0 154.0 158.0 163.0 168.0"),
    _row("man", "head length", "199.5", "7.02", "182.0 188.0 195.0 200.0 204.0 211.0 215.0"),
    _row("man", "hand", "212.28", "10.24", "189.0 195.0 206.0 212.0 219.0 230.0 237.0"),
    _row("man", "hand length", "193.28", "9.95", "172.0 177.0 187.0 193.0 200.0 210.0 218.0"),
    _row("man", "wrist", "175.92", "8.96", "156.0 162.0 170.0 176.0 182.0 191.0 198.0"),
    _row("man", "foot length", "271.18", "13.1", "242.0 250.0 263.0 271.0 280.0 293.0 302.0"),
    _row("man", "foot around", "252.02", "12.94", "224.0 232.0 243.0 252.0 261.0 273.0 284.0"),
    _row("man", "ankle", "229.34", "14.65", "198.0 206.0 219.2 228.0 239.0 254.0 268.0"),
    _row("woman", "head", "561.12", "19.36", "521.0 532.0 548.0 560.0 573.0 597.0 611.0"),
    _row("woman", "head breadth", "147.77", "5.19", "136.0 140.0 144.0 147.0 151.0 156.0 160.0"),
    _row("woman", "head length", "189.82", "7.45", "171.8 178.0 185.0 190.0 195.0 202.0 208.0"),
    _row("woman", "hand", "186.55", "8.82", "167.0 173.0 180.0 187.0 192.0 202.0 207.0"),
    _row("woman", "hand length", "181.08", "10.06", "160.0 165.0 174.0 180.0 187.0 199.0 207.0"),
    _row("woman", "wrist", "154.79", "7.83", "138.0 142.2 150.0 154.0 160.0 168.0 174.0"),
    _row("woman", "foot length", "246.29", "12.44", "219.0 226.0 238.0 246.0 254.0 267.8 276.0"),
    _row("woman", "foot around", "228.11", "11.77", "203.0 209.0 220.0 227.0 236.0 248.0 257.0"),
    _row("woman", "ankle", "215.74", "14.89", "185.0 193.0 205.0 215.0 225.0 242.0 255.0"),
)

ADULTS: dict[tuple[str, str], Adults] = {(one.who, one.part): one for one in _ROWS}
