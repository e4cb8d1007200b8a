"""Free text in the designer's words, with the values and stitches in its braces filled in."""

from __future__ import annotations

import re
from collections.abc import Sequence

from loopwright.ir.pattern import Text
from loopwright.render.prose.voice import Voice
from loopwright.render.prose.words import across, tidy
from loopwright.trade.stitches import Stitch

_WITH_UNIT = re.compile(r"(\S+) (\S+)\Z")


def per_size(values: Sequence[str]) -> str:
    """What prints in each size, a unit only once: ``15 (18, 21) cm``."""
    matches = [_WITH_UNIT.match(value) for value in values]
    units = {match.group(2) for match in matches if match}
    if len(units) == 1 and all(matches):
        return f"{across([match.group(1) for match in matches if match])} {units.pop()}"
    return across(values)


def free_text(text: Text, voice: Voice) -> str:
    """The text on one line; stitches in the reader's terms, nothing else translated."""
    out: list[str] = []
    for piece in text.pieces:
        if isinstance(piece, Stitch):
            out.append(voice.stitch(piece))
        elif isinstance(piece, str):
            out.append(piece)
        else:
            out.append(voice.figures(per_size(piece)))
    return tidy("".join(out))
