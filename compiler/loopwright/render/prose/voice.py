"""In whose words the sheet speaks: the language, the reader's terms, the house style, and which
stitches the sheet has named so far.

The country is a table and nothing else; no sentence asks whether it is UK or US.
"""

from __future__ import annotations

from collections.abc import Sequence

from loopwright.frozen import Frozen, field
from loopwright.render.prose.style import Style
from loopwright.render.prose.tongue import Noun, Tongue, tongue
from loopwright.trade.languages import terms_of
from loopwright.trade.stitches import Stitch
from loopwright.trade.terms import TERMS, Terms, abbreviation

ENGLISH = "en"


class Voice(Frozen):
    """The words of one sheet. ``used`` holds every stitch that it has named, in order; ``met`` the
    other things that it has to explain: ``join``, ``magic ring``, ``foundation`` (each with nought)
    and ``picot`` with its chains."""

    terms: Terms
    tongue: Tongue
    style: Style = field(default_factory=Style)
    used: dict[Stitch, None] = field(default_factory=dict)
    met: set[tuple[str, int]] = field(default_factory=set)

    @property
    def lang(self) -> str:
        """The language tag: ``en-GB`` or ``en-US``."""
        return self.tongue.lang

    def say(self, text: str, /, **values: object) -> str:
        """A phrase in the reader's language, filled in; it bends with the first noun among its
        values."""
        return self.tongue.single(text, _gender(values)).format(**values)

    def many(self, one: str, several: str, n: int, /, **values: object) -> str:
        """The same of a phrase about ``n`` of something."""
        return self.tongue.plural(one, several, n, _gender(values)).format(**values)

    def noun(self, one: str, several: str, n: int, /, **values: object) -> Noun:
        """A noun, with its gender."""
        word = self.tongue.plural(one, several, n).format(**values)
        return Noun(word, self.tongue.genders.get(one, ""))

    def listing(self, parts: Sequence[str]) -> str:
        """``a``, ``a and b``, ``a, b and c``."""
        if len(parts) < 2:
            return "".join(parts)
        return self.say("{several} and {last}", several=", ".join(parts[:-1]), last=parts[-1])

    def row_word(self, is_round: bool, n: int = 1) -> Noun:
        """``row`` or ``round``, as the house style has it."""
        if not is_round:
            return self.noun("row", "rows", n)
        if self.style.rounds == "short":
            return self.noun("rnd", "rnds", n)
        return self.noun("round", "rounds", n)

    def stitch(self, stitch: Stitch) -> Noun:
        """The stitch's abbreviation; it goes into the sheet's list of abbreviations."""
        gender = self.tongue.genders.get("stitch", "")
        if stitch.unlike:
            first = stitch._replace(unlike=(), together=1)
            names = self.listing([self.stitch(one) for one in (first, *stitch.unlike)])
            return Noun(self.say("{stitches} tog", stitches=names), gender)
        self.used.setdefault(stitch)
        return Noun(abbreviation(stitch, self.terms), gender)

    def ordinal(self, n: int) -> str:
        """``1st``, ``22nd``."""
        return self.tongue.ordinal(n)

    def figures(self, text: str) -> str:
        """Numbers as English writes them, ``12.5 (13, 14.5)``, in the reader's language."""
        return self.tongue.figures(text)

    def bare(self, stitch: Stitch) -> Noun:
        """The abbreviation of what a cluster or a decrease is made of."""
        return self.stitch(stitch._replace(many="", legs=1, together=1, unlike=()))


def _gender(values: dict[str, object]) -> str:
    for value in values.values():
        if isinstance(value, Noun) and value.gender:
            return value.gender
    return ""


def voice(terms: str, language: str = ENGLISH, style: Style | None = None) -> Voice:
    """The words of ``UK`` or ``US`` readers, or of another language's with terms of its own."""
    if language == ENGLISH:
        return Voice(TERMS[terms], tongue(terms), style or Style())
    return Voice(terms_of(language), tongue(language), style or Style())
