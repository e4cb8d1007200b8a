"""Amounts of yarn in words, rounded to what they can bear, and how they were got.

    metres_text(Between(182.3, 182.3))    183 m / 200 yd
    metres_text(Between(110.2, 167.9))    110 to 170 m / 120 to 190 yd
    grams_text(Between(18.2, 18.2))       19 g

What comes from a swatch is good to three figures and goes up to the next of them; an estimate is
good to two, and goes down for the least and up for the most.
"""

from __future__ import annotations

from fractions import Fraction

from loopwright.measure.yarn import ESTIMATE, USED, WEIGHED, Between, YarnUse
from loopwright.trade.yarn_use import SPREAD

YARD = Fraction(9144, 10000)
MEASURED_FIGURES, ESTIMATE_FIGURES = 3, 2


def rounded(amount: Between) -> tuple[int, int]:
    """An amount in whole units, from the least to the most."""
    if amount.least == amount.most:
        one = figures(amount.most, MEASURED_FIGURES, up=True)
        return one, one
    return (
        figures(amount.least, ESTIMATE_FIGURES, up=False),
        figures(amount.most, ESTIMATE_FIGURES, up=True),
    )


def figures(value: Fraction, digits: int, *, up: bool) -> int:
    """A value of nought or more to so many figures, never finer than whole units."""
    whole = value.numerator // value.denominator
    step: int = 10 ** max(len(str(whole)) - digits, 0)
    steps = value / step
    low = steps.numerator // steps.denominator
    return (low + 1 if up and steps != low else low) * step


def metres_text(metres: Between) -> str:
    """Metres and yards."""
    yards = metres.times(1 / YARD)
    return f"{between_text(metres)} m / {between_text(yards)} yd"


def grams_text(grams: Between) -> str:
    """Grams."""
    return f"{between_text(grams)} g"


def between_text(amount: Between) -> str:
    """``183``, or ``110 to 170``."""
    least, most = rounded(amount)
    return f"{most:,}" if least == most else f"{least:,} to {most:,}"


def plain(value: Fraction) -> str:
    """A number as it is written: ``2``, ``1.5``, ``1,200``."""
    whole, rest = divmod(value, 1)
    if not rest:
        return f"{whole:,}"
    return f"{whole:,}.{round(rest * 100):02d}".rstrip("0").rstrip(".")


def balls_text(n: int) -> str:
    """``1 ball``, ``2 balls``."""
    return f"{n:,} ball{'' if n == 1 else 's'}"


def per_size(amounts: tuple[Fraction, ...], word: str) -> str:
    """``1 ball``, ``2 (2, 3) balls``."""
    shown = [plain(amount) for amount in amounts]
    if len(set(shown)) == 1:
        return f"{shown[0]} {word}{'' if shown[0] == '1' else 's'}"
    return f"{shown[0]} ({', '.join(shown[1:])}) {word}s"


def left_text(left: Between, unit: str) -> str:
    """What is left over: ``26 g``, ``between 20 g short and 30 g``, ``40 m short``."""
    if left.least >= 0:
        return f"{between_text(_down(left))} {unit}"
    short = Between(max(-left.most, Fraction(0)), -left.least)
    if left.most <= 0:
        return f"{between_text(short)} {unit} short"
    most = figures(left.most, ESTIMATE_FIGURES, up=False)
    under = figures(-left.least, ESTIMATE_FIGURES, up=True)
    return f"from {under:,} {unit} short to {most:,} {unit}"


def _down(left: Between) -> Between:
    """What is left is rounded as what was taken is, the other way round."""
    if left.least != left.most:
        return left
    one = Fraction(figures(left.most, MEASURED_FIGURES, up=False))
    return Between(one, one)


def percent_text(share: Fraction) -> str:
    """``10%``, ``12.5%``."""
    return f"{float(share * 100):g}%"


_HOW = {
    WEIGHED: (
        "The yarn is reckoned from the swatch that was weighed: each stitch takes its share of it, "
        "and other stitches and chains theirs by published rates."
    ),
    USED: (
        "The yarn is reckoned from the yarn that was measured in a swatch: each stitch takes its "
        "share of it, and other stitches and chains theirs by published rates."
    ),
}


def how_text(use: YarnUse, gauge: str = "gauge") -> str:
    """How the figures were got, in sentences; ``gauge`` is the reader's word for it."""
    if not use.needs:
        return f"No part has a {gauge}, and without one nothing is known of its yarn."
    out = [_HOW[how] for how in (WEIGHED, USED) if how in use.how]
    if ESTIMATE in use.how:
        some = "Where no swatch was weighed, the" if out else "No swatch was weighed: the"
        out.append(
            f"{some} yarn is an estimate from the {gauge} and published rates, which may be "
            f"{percent_text(SPREAD)} off either way."
        )
    whose = "the designer's figure" if use.stated else "common practice"
    out.append(f"{percent_text(use.allowance)} is added for tails and a swatch ({whose}).")
    if any(need.balls is not None for need in use.needs):
        out.append("Balls are rounded up.")
    if use.without:
        out.append(f"Not in it, for want of a {gauge}: {', '.join(map(spoken, use.without))}.")
    return " ".join(out)


def spoken(name: str) -> str:
    """A name of the notation as it is read out: ``left-cuff`` is ``left cuff``."""
    return name.replace("_", " ").replace("-", " ")
