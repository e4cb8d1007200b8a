"""The standard measures there are, with how each is written and where it is from.

measures("head", "text")
measures("", "json")          head, hand and foot
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from loopwright.frozen import NamedTuple
from loopwright.trade.bodies import PARTS, TITLES, age_text, standard
from loopwright.trade.bodies_adults import ADULTS, MEASURED
from loopwright.trade.bodies_trade import GROUPS, HAT_SIZES
from loopwright.trade.bodies_who import BOYS

GROUPS_OF_PARTS = tuple(PARTS)


class Listed(NamedTuple):
    """One measure: the part of the body, how it is written, its length in mm and, where the source
    has them, those of the 5th and 95th percentile; the source's title and its keys."""

    part: str
    written: str
    mm: Fraction
    low: Fraction | None
    high: Fraction | None
    source: str
    keys: tuple[str, ...]


def measures(group: str, form: str) -> str:
    """The measures of ``head``, ``hand``, ``foot``, or of all three, as ``text`` or ``json``."""
    groups = (group,) if group else GROUPS_OF_PARTS
    found = [one for name in groups for one in listed(name)]
    return _json(found) if form == "json" else _text(found)


def listed(group: str) -> Iterator[Listed]:
    """Every measure of a group of parts, source by source."""
    if group == "head":
        yield from _children()
    for part in PARTS[group]:
        for who in MEASURED:
            found = ADULTS[who, part].percentiles
            written = f"adult {who}" if part == "head" else f"adult {who} {part}"
            low, high = found[5], found[95]
            yield Listed(part, written, found[50], low, high, TITLES["ansur"], ("ansur",))
    if group == "head":
        yield from _of_the_trade()


def _children() -> Iterator[Listed]:
    for month in BOYS:
        for sex in ("", "boys ", "girls "):
            written = f"who {sex}{age_text(month)}"
            low, mm, high = (
                standard("head", f"{written} at {n}th percentile").mm for n in (5, 50, 95)
            )
            yield Listed("head", written, mm, low, high, TITLES["who"], ("who",))


def _of_the_trade() -> Iterator[Listed]:
    for group in GROUPS.values():
        mm = standard("head", f"trade {group.name}").mm
        low, high = group.least * Fraction(127, 5), group.most * Fraction(127, 5)
        title = f"{TITLES['trade']}, the middle and the range"
        yield Listed("head", f"trade {group.name}", mm, low, high, title, group.sources)
    for size in HAT_SIZES.values():
        title = f"{TITLES['trade']}, letters of hat sizes"
        written = f"hat size {size.letter}"
        yield Listed("head", written, Fraction(size.cm * 10), None, None, title, size.sources)


def _text(found: list[Listed]) -> str:
    out: list[str] = []
    heading = ("", "")
    by_sex = {one.written: one for one in found}
    for one in found:
        if (one.part, one.source) != heading:
            heading = (one.part, one.source)
            out += ["", f"{one.part}, from {one.source}", f"  (source {_keys(found, heading)})"]
        if not one.written.startswith(("who boys ", "who girls ")):
            line = f"  {one.written:<26}{_cm(one.mm):>6} cm{_range(one)}{_sexes(one, by_sex)}"
            out.append(line.rstrip())
    return "\n".join([*out[1:], "", _NOTES])


_NOTES = """\
Write one after `measure NAME:`, as in `measure head: who 6 months (48 cm, adult woman)`. In
brackets stand the 5th and the 95th percentile, or the range. A percentile is written `who 6 months
at 97th percentile` (any from the 1st to the 99th) or `adult woman at 5th percentile` (1st, 5th,
25th, 50th, 75th, 95th, 99th). `who 6 months` is half-way between boys and girls; `who girls 6
months` is the girls'. Lengths go to the nearest mm.
"""


def _keys(found: list[Listed], heading: tuple[str, str]) -> str:
    keys = (key for one in found if (one.part, one.source) == heading for key in one.keys)
    return ", ".join(dict.fromkeys(keys))


def _sexes(one: Listed, known: dict[str, Listed]) -> str:
    """What the same age has for boys and for girls."""
    kind, _, age = one.written.partition(" ")
    found = [(sex, known.get(f"{kind} {sex} {age}")) for sex in ("boys", "girls")]
    return "".join(f"   {sex} {_cm(row.mm)}" for sex, row in found if row is not None)


def _cm(mm: Fraction) -> str:
    return f"{float(mm / 10):.1f}"


def _range(one: Listed) -> str:
    if one.low is None or one.high is None:
        return ""
    return f"   ({_cm(one.low)} to {_cm(one.high)})"


def _json(found: list[Listed]) -> str:
    import json

    rows = [
        {
            "part": one.part,
            "written": one.written,
            "cm": float(one.mm / 10),
            "low_cm": round(float(one.low / 10), 1) if one.low is not None else None,
            "high_cm": round(float(one.high / 10), 1) if one.high is not None else None,
            "source": one.source,
            "keys": list(one.keys),
        }
        for one in found
    ]
    return json.dumps(rows, ensure_ascii=False, indent=1) + "\n"
