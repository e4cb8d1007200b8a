"""The language of a sheet: its catalogue of phrases, and the few facts of grammar they need.

    tongue("fr").plural("{n} row in all", "{n} rows in all", 3)    {n} rangs en tout

A phrase in the code is the British English of the sheet. ``languages/NAME.po`` holds what it is in
another language (``.mo`` is the same for machines), ``languages/NAME.toml`` the language's tag, its
ordinals, the gender of its nouns and how it writes numbers. A phrase that bends with the gender of
its noun stands in the catalogue once for each, with the gender as its context. A phrase without a
translation is printed in English with a mark before it. British English itself needs no catalogue
and loads none.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import lru_cache
from pkgutil import get_data
from typing import TYPE_CHECKING

from loopwright.frozen import Frozen, field
from loopwright.render.speaker import Noun as Noun
from loopwright.render.speaker import phrase as phrase
from loopwright.render.speaker import phrases as phrases

if TYPE_CHECKING:
    from gettext import NullTranslations

_HERE = "loopwright.render.prose"
UNTRANSLATED = "[en] "
"""Stands before a phrase that a catalogue has no translation of."""

_ORDINALS = {
    "": "{n}th", "1": "{n}st", "2": "{n}nd", "3": "{n}rd", "11": "{n}th", "12": "{n}th",
    "13": "{n}th",
}  # fmt: skip

_NUMBER = re.compile(r"\d+(?:,\d{3})*(?:\.\d+)?")
_DECIMAL = re.compile(r"\d\.\d")


class _AsWritten:
    """The catalogue of the language that the phrases are written in; it has what ``gettext`` has of
    others."""

    def gettext(self, message: str) -> str:
        return message

    def ngettext(self, msgid1: str, msgid2: str, n: int) -> str:
        return msgid1 if n == 1 else msgid2

    def pgettext(self, context: str, message: str) -> str:
        return message

    def npgettext(self, context: str, msgid1: str, msgid2: str, n: int) -> str:
        return msgid1 if n == 1 else msgid2


class Tongue(Frozen):
    """A language: its tag, its catalogue, how it writes ordinals, the gender of its nouns by the
    English noun, the letter of the terms it prints (``UK`` and ``US`` are English), and how it
    writes numbers where that is not as English does."""

    lang: str
    catalogue: NullTranslations | _AsWritten
    ordinals: Mapping[str, str] = field(default_factory=lambda: _ORDINALS)
    genders: Mapping[str, str] = field(default_factory=dict)
    english: bool = True
    numbers: Mapping[str, str] = field(default_factory=dict)

    def single(self, text: str, gender: str = "") -> str:
        """A phrase in this language; bent for ``gender`` where the catalogue does so."""
        if gender:
            found = self.catalogue.pgettext(gender, text)
            if found and found != text:
                return found
        return self.catalogue.gettext(text)

    def plural(self, one: str, several: str, n: int, gender: str = "") -> str:
        """A phrase about ``n`` of something."""
        if gender:
            found = self.catalogue.npgettext(gender, one, several, n)
            if found and found not in (one, several):
                return found
        return self.catalogue.ngettext(one, several, n)

    def figures(self, text: str) -> str:
        """Numbers as English writes them, ``1,590`` or ``12.5 (13, 14.5) cm``, in this language.
        Where one of several has decimals, all are parted by what cannot be a decimal's comma."""
        if not self.numbers:
            return text
        if _DECIMAL.search(text):
            text = text.replace(", ", self.numbers["between"])
        return _NUMBER.sub(self._figure, text)

    def _figure(self, found: re.Match[str]) -> str:
        whole, point, decimals = found[0].partition(".")
        grouped = whole.replace(",", self.numbers["thousands"])
        return f"{grouped}{self.numbers['decimal'] if point else ''}{decimals}"

    def ordinal(self, n: int) -> str:
        """``1st``, ``2nd``, ``13th``: by the longest ending of the number that is in the table,
        or by the number itself where it is there with a sign of equality before it."""
        digits = str(n)
        exact = self.ordinals.get(f"={digits}")
        endings = (digits[at:] for at in range(len(digits) + 1))
        found = exact or next(self.ordinals[end] for end in endings if end in self.ordinals)
        return found.format(n=n)


def tongue(name: str) -> Tongue:
    """The language ``name``: ``UK`` and ``US`` are the two Englishes, others are called after
    their file."""
    if name == "UK":
        return Tongue("en-GB", _AsWritten())
    return _read(name)


@lru_cache(maxsize=8)
def _read(name: str) -> Tongue:
    from loopwright.render.prose.catalogue import catalogue_of

    catalogue = catalogue_of(_data(f"{name}.mo"), "" if name == "US" else UNTRANSLATED)
    if name == "US":
        return Tongue("en-US", catalogue)
    import tomllib

    facts = tomllib.loads(_data(f"{name}.toml").decode("utf-8"))["language"]
    ordinals, genders, numbers = (facts[name] for name in ("ordinals", "genders", "numbers"))
    return Tongue(facts["tag"], catalogue, ordinals, genders, False, numbers)


def _data(name: str) -> bytes:
    found = get_data(_HERE, f"languages/{name}")
    assert found is not None
    return found
