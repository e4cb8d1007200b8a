"""What openings are called: ``the thumb opening``, but ``the buttonhole``."""

from __future__ import annotations

import re

from loopwright.render.prose.voice import Voice
from loopwright.render.prose.words import spoken

# Names that say themselves that they are of an opening.
_ALREADY = re.compile(r"(?:hole|opening|gap|slit|slot|mouth)s?\Z", re.IGNORECASE)


def opening_name(name: str, voice: Voice) -> str:
    """An opening by its name, with its article."""
    word = spoken(name)
    if _ALREADY.search(word):
        return voice.say("the {name}", name=word)
    return voice.say("the {name} opening", name=word)
