"""Abbreviations spelled out where the instructions first use them, for a house that wants it.

Row 1: 1 dc (double crochet) in 2nd ch (chain) from hook, 1 dc in each ch across.
"""

from __future__ import annotations

import re
from collections.abc import Mapping

from loopwright.frozen import replace
from loopwright.render.prose.document import Section, Step, Steps

_ENDING = re.compile(r"\((e?s)\)\Z")
"""``stitch(es)`` stands for one and for several."""


def spelled_out(sections: tuple[Section, ...], short: Mapping[str, str]) -> tuple[Section, ...]:
    """The instructions with each abbreviation's meaning (by the abbreviation) after its first
    use."""
    left = dict(short)
    out = []
    for section in sections:
        blocks = []
        for block in section.blocks:
            if isinstance(block, Steps):
                block = Steps(tuple(_step(step, left) for step in block.steps))
            blocks.append(block)
        out.append(replace(section, blocks=tuple(blocks)))
    return tuple(out)


def _step(step: Step, left: dict[str, str]) -> Step:
    """One step; what it spells out is taken from what is ``left``."""
    if not left:
        return step
    # The first word of a row has a capital.
    known = {key: name for name in left for key in (name, name[:1].upper() + name[1:])}
    words = "|".join(re.escape(key) for key in sorted(known, key=len, reverse=True))

    def spell(match: re.Match[str]) -> str:
        meaning = left.pop(known[match[1]], "")
        if not meaning:
            return match[0]
        ending = r"\1" if match[2] else ""
        return f"{match[0]} ({_ENDING.sub(ending, meaning)})"

    text = re.sub(rf"(?<![\w-])({words})(s?)(?![\w-])", spell, step.text)
    return replace(step, text=text)
