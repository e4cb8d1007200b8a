"""In whose words the sheet speaks: the reader's terms, and which stitches it has named so far.

The country is a table and nothing else; no sentence asks whether it is UK or US.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from loopwright.trade.stitches import Stitch
from loopwright.trade.terms import TERMS, Terms, abbreviation

# The language tag of our own words, and the past tense of the word for passing over a stitch.
# Common practice without a source.
LANGUAGES = {"UK": "en-GB", "US": "en-US"}
PASSED = {"miss": "missed", "skip": "skipped"}
PASSING = {"miss": "missing", "skip": "skipping"}
# Words of our own sentences that `trade.terms` leaves out, as the UK and the US spell them.
SPELLED = {"UK": {}, "US": {"licence": "license", "metre": "meter"}}


@dataclass(frozen=True, slots=True)
class Voice:
    """The words of one sheet. ``used`` holds every stitch that it has named, in order."""

    terms: Terms
    used: dict[Stitch, None] = field(default_factory=dict)

    @property
    def lang(self) -> str:
        """The language tag: ``en-GB`` or ``en-US``."""
        return LANGUAGES[self.terms.name]

    @property
    def skipped(self) -> str:
        """``missed`` or ``skipped``."""
        return PASSED[self.terms.skip]

    @property
    def skipping(self) -> str:
        """``missing`` or ``skipping``."""
        return PASSING[self.terms.skip]

    def stitch(self, stitch: Stitch) -> str:
        """The stitch's abbreviation; it goes into the sheet's list of abbreviations."""
        if stitch.unlike:
            first = stitch._replace(unlike=(), together=1)
            return " and ".join(self.stitch(one) for one in (first, *stitch.unlike)) + " tog"
        self.used.setdefault(stitch)
        return abbreviation(stitch, self.terms)

    def bare(self, stitch: Stitch) -> str:
        """The abbreviation of what a cluster or a decrease is made of."""
        return self.stitch(stitch._replace(many="", legs=1, together=1, unlike=()))

    def ours(self, text: str) -> str:
        """Our own words in the reader's spelling. Never for the designer's."""
        for words in (self.terms.spelling, SPELLED[self.terms.name]):
            for theirs, here in words.items():
                text = re.sub(rf"\b{theirs}", here, text)
                text = re.sub(rf"\b{theirs.capitalize()}", here.capitalize(), text)
        return text


def voice(terms: str) -> Voice:
    """The words of ``UK`` or ``US`` readers."""
    return Voice(TERMS[terms])
