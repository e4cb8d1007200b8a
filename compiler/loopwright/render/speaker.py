"""In whose words a renderer speaks: what it asks of the voice that it is handed.

The voice itself (language, terms, house style) is made in ``render.prose``. A renderer that stands
beside the prose is handed one, so that its phrases come from the same catalogues:

    speaker.say("{n} times", n=...)

What is found long before it is known in whose words it will be told is kept as ``said("...")``: a
string in British English that remembers its phrase, and becomes the reader's with ``told``.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Protocol

from loopwright.trade.stitches import Stitch
from loopwright.trade.terms import TERMS, UK, Terms, abbreviation


def phrase(text: str) -> str:
    """A phrase of a table: told to the catalogue here, looked up where it is printed."""
    return text


def phrases(one: str, several: str) -> tuple[str, str]:
    """The same of a phrase about one of something and about several."""
    return one, several


class Noun(str):
    """A word with the gender that its language gives it, in that language's own letters."""

    gender: str

    def __new__(cls, text: str, gender: str = "") -> Noun:
        made = super().__new__(cls, text)
        made.gender = gender
        return made


class Speaker(Protocol):
    """The words of one reader."""

    @property
    def terms(self) -> Terms:
        """The stitches' names."""

    @property
    def lang(self) -> str:
        """The language tag: ``en-GB``."""

    def say(self, text: str, /, **values: object) -> str:
        """A phrase in the reader's language, filled in."""

    def many(self, one: str, several: str, n: int, /, **values: object) -> str:
        """The same of a phrase about ``n`` of something."""

    def noun(self, one: str, several: str, n: int, /, **values: object) -> Noun:
        """A noun, with its gender."""

    def row_word(self, is_round: bool, n: int = 1) -> Noun:
        """``row`` or ``round``."""

    def listing(self, parts: Sequence[str]) -> str:
        """``a``, ``a and b``, ``a, b and c``."""

    def stitch(self, stitch: Stitch) -> Noun:
        """A stitch's abbreviation."""

    def ordinal(self, n: int) -> str:
        """``1st``, ``22nd``."""

    def figures(self, text: str) -> str:
        """Numbers as English writes them, ``1,590`` or ``12.5 (13, 14.5) cm``, in the reader's
        language."""


class English:
    """English without a catalogue: British, but for the words that the terms have otherwise."""

    lang = "en"

    def __init__(self, terms: Terms) -> None:
        self.terms = terms
        words = {UK.skip: terms.skip, UK.gauge: terms.gauge, **terms.spelling}
        others = {old: new for old, new in words.items() if old != new}
        self._words = others | {old.capitalize(): new.capitalize() for old, new in others.items()}
        self._found = re.compile(rf"\b({'|'.join(self._words)})\b") if others else None

    def say(self, text: str, /, **values: object) -> str:
        """A phrase, filled in."""
        if self._found is not None:
            text = self._found.sub(lambda found: self._words[found[0]], text)
        return text.format(**values)

    def many(self, one: str, several: str, n: int, /, **values: object) -> str:
        """The same of a phrase about ``n`` of something."""
        return self.say(one if n == 1 else several, **values)

    def noun(self, one: str, several: str, n: int, /, **values: object) -> Noun:
        """A noun, which has no gender."""
        return Noun(self.many(one, several, n, **values))

    def row_word(self, is_round: bool, n: int = 1) -> Noun:
        """``row`` or ``round``."""
        return self.noun("round", "rounds", n) if is_round else self.noun("row", "rows", n)

    def listing(self, parts: Sequence[str]) -> str:
        """``a``, ``a and b``, ``a, b and c``."""
        return " and ".join(one for one in (", ".join(parts[:-1]), *parts[-1:]) if one)

    def stitch(self, stitch: Stitch) -> Noun:
        """A stitch's abbreviation."""
        return Noun(abbreviation(stitch, self.terms))

    def ordinal(self, n: int) -> str:
        """``1st``, ``22nd``."""
        ending = {1: "st", 2: "nd", 3: "rd"}.get(n % 10, "th")
        return f"{n:,}{'th' if n % 100 in (11, 12, 13) else ending}"

    def figures(self, text: str) -> str:
        """Numbers as they are."""
        return text


def speaker_of(who: Speaker | str) -> Speaker:
    """A speaker, or the English of ``UK`` or ``US`` terms."""
    return English(TERMS[who]) if isinstance(who, str) else who


MEASURED = (
    *("head", "neck", "bust", "chest", "waist", "hip", "hips"),
    *("hand", "palm", "wrist", "foot", "ankle"),
)
"""What is measured of a body, by its usual name; the prose has its phrases."""


def measure_word(name: str, speaker: Speaker) -> str:
    """A measure as it is called: in the reader's words what everybody measures, and what only the
    designer calls so as it is written."""
    called = name.replace("_", " ").replace("-", " ")
    return speaker.say(called) if called in MEASURED else called


class Nth(int):
    """A number in its place, told as the reader's language writes it."""


class Said(str):
    """A phrase with what fills it in, told later; as it stands it is British English."""

    phrase: tuple[str, str, int, bool]
    values: dict[str, object]

    def filled(self, n: int, values: dict[str, object]) -> Said:
        """The same phrase about ``n``, with other values."""
        one, several, _, noun = self.phrase
        return _said(one, several, n, noun, values)


def said(text: str, /, **values: object) -> Said:
    """A phrase: it bends with the first noun among its values."""
    return _said(text, "", 1, False, values)


def said_many(one: str, several: str, n: int, /, **values: object) -> Said:
    """A phrase about ``n`` of something."""
    return _said(one, several, n, False, values)


def said_noun(one: str, several: str = "", n: int = 1, /, **values: object) -> Said:
    """A noun."""
    return _said(one, several or one, n, True, values)


def _said(one: str, several: str, n: int, noun: bool, values: dict[str, object]) -> Said:
    plain = {name: told(value, _BRITISH) for name, value in values.items()}
    made = Said((several if several and n != 1 else one).format(**plain))
    made.phrase = (one, several, n, noun)
    made.values = values
    return made


def told(piece: object, speaker: Speaker) -> str:
    """What is said, in the words of a reader: a phrase, a stitch, several one after another,
    numbers as the reader writes them, or anything else as it is."""
    if isinstance(piece, Said):
        one, several, n, noun = piece.phrase
        values = {name: told(value, speaker) for name, value in piece.values.items()}
        if noun:
            return speaker.noun(one, several, n, **values)
        if several:
            return speaker.many(one, several, n, **values)
        return speaker.say(one, **values)
    if isinstance(piece, Stitch):
        return speaker.stitch(piece)
    if isinstance(piece, Nth):
        return speaker.ordinal(piece)
    if type(piece) is tuple:
        return "".join([told(one, speaker) for one in piece])
    text = piece if isinstance(piece, str) else str(piece)
    return speaker.figures(text) if _FIGURES.fullmatch(text) else text


_FIGURES = re.compile(r"[\d., ()]+")
_BRITISH: Speaker = English(UK)
