"""Standard measures in words: whose body, of what age, and how long that is.

    standard("head", "who 6 months")                           428 mm
    standard("head", "who girls 2 years at 97th percentile")   498 mm
    standard("head", "adult woman")                            560 mm
    standard("foot", "adult man")                              271 mm, the length of the foot
    standard("head", "trade toddler"), standard("head", "hat size M")

The tables are in ``bodies_who``, ``bodies_adults`` and ``bodies_trade``. Lengths go to the nearest
mm, which is as fine as a tape is read. Where boys and girls are not told apart, the length is
half-way between theirs. A phrase that means nothing is answered with the phrases there are.
"""

from __future__ import annotations

import re
from fractions import Fraction

from loopwright.frozen import NamedTuple
from loopwright.trade.bodies_adults import ADULTS, PERCENTS
from loopwright.trade.bodies_trade import GROUPS, HAT_SIZES
from loopwright.trade.bodies_who import BOYS, CHILDREN, head

PARTS = {
    "head": ("head", "head breadth", "head length"),
    "hand": ("hand", "hand length", "wrist"),
    "foot": ("foot length", "foot around", "ankle"),
}
"""The parts of the body, in the groups in which they are listed."""

EVERY_PART = tuple(part for parts in PARTS.values() for part in parts)
ALSO = {"palm": "hand", "foot": "foot length", "head around": "head", "hand around": "hand"}
"""Other words for a part. A hand is measured around the palm, a foot along its length."""

TITLES = {
    "who": "WHO Child Growth Standards, head circumference for age",
    "ansur": "ANSUR II (2012, soldiers of 17 to 58 years)",
    "trade": "the trade's hat charts",
}
"""The sources as they are named to a reader."""

_PERCENT = re.compile(r" at (\d+)(?:st|nd|rd|th)(?: percentile)?$")
_AGE = re.compile(r"(\d+) (months?|years?)$")
_SEXES = {"boy": "boys", "boys": "boys", "girl": "girls", "girls": "girls"}


class Standard(NamedTuple):
    """A length from a table: in mm, of which part of the body, the title of its source in
    ``TITLES``, and what it is of: ``6 months, half-way between boys and girls``."""

    mm: Fraction
    part: str
    source: str
    of: str


class NoStandard(Exception):
    """A phrase that no table has: what is said of it, and which phrases there are."""

    def __init__(self, text: str, known: str) -> None:
        super().__init__(text)
        self.text = text
        self.known = known


def standard(name: str, phrase: str) -> Standard:
    """What a phrase means for a measure of this name. Raises ``NoStandard``."""
    words = " ".join(phrase.split())
    match = _PERCENT.search(words)
    percent = int(match[1]) if match else 50
    bare = words[: match.start()] if match else words
    whose, part = _part(name, bare)
    kind, _, rest = whose.partition(" ")
    if kind == "adult":
        return _adult(rest, part, percent)
    if kind in ("who", "trade", "hat"):
        if part not in ("", "head"):
            raise NoStandard(
                f"`{bare}` is a head, and this measure is of the {part}.",
                "Only `adult woman` and `adult man` have hands and feet.",
            )
        if kind == "who":
            return _child(rest, percent)
        if match is None:
            return _group(rest) if kind == "trade" else _hat_size(rest)
        raise NoStandard(
            f"`{bare}` has no percentiles.", "Leave the percentile out, or take another source."
        )
    raise NoStandard(
        f"There is no `{bare}` among the standard measures.",
        "There is `who 6 months` (and other ages), `adult woman`, `adult man`, `trade child` (and "
        "other groups) and `hat size M` (and other letters). `loopwright measures` lists them.",
    )


def _part(name: str, phrase: str) -> tuple[str, str]:
    """The phrase without the part of the body at its end, and the part: that one, or else the one
    that the measure is named after, or ``""``."""
    for words in sorted((*EVERY_PART, *ALSO), key=len, reverse=True):
        if phrase.endswith(f" {words}"):
            return phrase.removesuffix(f" {words}"), ALSO.get(words, words)
    spoken = name.replace("-", " ").replace("_", " ")
    part = ALSO.get(spoken, spoken)
    return phrase, part if part in EVERY_PART else ""


def _child(rest: str, percent: int) -> Standard:
    words = rest.split()
    sexes = [_SEXES[word] for word in words if word in _SEXES]
    age = " ".join(word for word in words if word not in _SEXES)
    month = _months(age)
    if month is None or month not in BOYS or len(sexes) > 1:
        raise NoStandard(
            f"There is no `who {rest}` among the standard measures.",
            f"The ages from the WHO are newborn, {_listed([m for m in BOYS if 0 < m < 24])} months "
            f"and {_listed([m for m in BOYS if m >= 24])} months (24 months may be called 2 "
            "years); boys or girls may be named before the age.",
        )
    if not 1 <= percent <= 99:
        raise NoStandard(
            f"There is no percentile {percent} of heads.", "Name one from the 1st to the 99th."
        )
    of = sexes or list(CHILDREN)
    mm = sum(head(CHILDREN[sex][month], percent) for sex in of) / len(of)
    which = "median" if percent == 50 else f"{ordinal(percent)} percentile"
    told = f"{which} of {sexes[0]}" if sexes else f"half-way between the {which}s of boys and girls"
    return Standard(_whole(Fraction(mm)), "head", "who", f"{age_text(month)}, {told}")


def _months(age: str) -> int | None:
    if age == "newborn":
        return 0
    match = _AGE.match(age)
    if match is None or len(match[1]) > 3:
        return None
    return int(match[1]) * (12 if match[2].startswith("year") else 1)


def age_text(month: int) -> str:
    """An age as it is written: ``newborn``, ``1 month``, ``24 months``."""
    return "newborn" if month == 0 else f"{month} month{'s' if month > 1 else ''}"


def _adult(who: str, part: str, percent: int) -> Standard:
    if who not in ("woman", "man"):
        raise NoStandard(
            f"There is no `{f'adult {who}'.strip()}` among the standard measures.",
            "There is `adult woman` and `adult man`.",
        )
    if not part:
        raise NoStandard(
            f"`adult {who}` does not say which part of the body this measures.",
            f"Name the measure after it, or write it out: `adult {who} wrist`. There is "
            f"{_listed(EVERY_PART)}.",
        )
    found = ADULTS[who, part]
    if percent not in found.percentiles:
        raise NoStandard(
            f"There is no {ordinal(percent)} percentile of grown people here.",
            f"There is the {_listed([ordinal(one) for one in PERCENTS])}.",
        )
    which = "median" if percent == 50 else f"{ordinal(percent)} percentile"
    return Standard(_whole(found.percentiles[percent]), part, "ansur", f"adult {who}, {which}")


def _group(name: str) -> Standard:
    group = GROUPS.get(name)
    if group is None:
        raise NoStandard(
            f"There is no `{f'trade {name}'.strip()}` among the standard measures.",
            f"From the trade there is {_listed(list(GROUPS))}.",
        )
    told = f"{name}, the middle of {float(group.least):g} to {float(group.most):g} in"
    return Standard(_whole(group.middle), "head", "trade", told)


def _hat_size(rest: str) -> Standard:
    letter = rest.removeprefix("size").strip()
    size = HAT_SIZES.get(letter) if rest.startswith("size ") else None
    if size is None:
        raise NoStandard(
            f"There is no `{f'hat {rest}'.strip()}` among the standard measures.",
            f"There is {_listed([f'hat size {one}' for one in HAT_SIZES])}.",
        )
    return Standard(Fraction(size.cm * 10), "head", "trade", f"hat size {letter}")


def ordinal(n: int) -> str:
    """``1st``, ``5th``, ``97th``."""
    if n % 100 in (11, 12, 13):
        return f"{n}th"
    return f"{n}{({1: 'st', 2: 'nd', 3: 'rd'}).get(n % 10, 'th')}"


def _whole(mm: Fraction) -> Fraction:
    """The nearest whole mm; halves go up."""
    return Fraction((2 * mm.numerator + mm.denominator) // (2 * mm.denominator))


def _listed(words: list[str] | list[int] | tuple[str, ...]) -> str:
    shown = [str(word) for word in words]
    return f"{', '.join(shown[:-1])} and {shown[-1]}"
