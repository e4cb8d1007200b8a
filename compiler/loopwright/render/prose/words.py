"""Small change of writing: plurals, capitals, numbers, one value for each size.

across(["28", "32", "36"])  ->  28 (32, 36)
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from fractions import Fraction


def across(values: Sequence[str]) -> str:
    """One value where all sizes agree, else ``first (second, third)``."""
    if not values:
        return ""
    if all(value == values[0] for value in values):
        return values[0]
    return f"{values[0]} ({', '.join(values[1:])})"


def many(word: str) -> str:
    """The plural of a designer's own English noun: ``shells``, ``berries``, ``bunches``."""
    if re.search(r"(?:s|x|z|ch|sh)\Z", word):
        return word + "es"
    if re.search(r"[^aeiou]y\Z", word):
        return word[:-1] + "ies"
    return word + "s"


def capital(text: str) -> str:
    """The text with a capital, where it begins with a letter."""
    return text[:1].upper() + text[1:]


def sentence(text: str) -> str:
    """The text with a capital and a full stop; empty where there is none."""
    text = text.strip()
    if not text:
        return ""
    return capital(text) + ("" if text[-1] in ".!?" else ".")


def tidy(text: str) -> str:
    """Free text on one line, its white space closed up."""
    return " ".join(text.split())


def spoken(name: str) -> str:
    """A name of the notation as it is read out: ``left-cuff`` is ``left cuff``."""
    return name.replace("_", " ").replace("-", " ")


def plain(value: Fraction | int, places: int = 2) -> str:
    """A number without needless noughts: ``4``, ``4.5``."""
    exact = Fraction(value)
    if exact.denominator == 1:
        return str(exact.numerator)
    scaled = exact * 10**places
    nearest = (2 * scaled.numerator + scaled.denominator) // (2 * scaled.denominator)
    whole, rest = divmod(abs(nearest), 10**places)
    sign = "-" if nearest < 0 else ""
    return f"{sign}{whole}.{rest:0{places}d}".rstrip("0").rstrip(".")
