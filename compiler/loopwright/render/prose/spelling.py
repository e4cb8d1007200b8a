"""Abbreviations spelled out where the instructions first use them, for a house that wants it.

Row 1: 1 dc (double crochet) in 2nd ch (chain) from hook, 1 dc in each ch across.
"""

from __future__ import annotations

import re
from dataclasses import replace

from loopwright.render.prose.document import Entries, Section, Step, Steps

# What a name in the list of abbreviations has in brackets or after a comma is no part of it.
_BARE = re.compile(r"\(.*?\)")


def spelled_out(sections: tuple[Section, ...], short: Entries) -> tuple[Section, ...]:
    """The instructions with each abbreviation's meaning after its first use."""
    left = {
        _BARE.sub("", name).strip(): _BARE.sub("", meaning).split(", ")[0].strip()
        for name, meaning in short.pairs
        if len(meaning) < 60
    }
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
    words = "|".join(re.escape(name) for name in sorted(left, key=len, reverse=True))
    pattern = re.compile(rf"(?<![\w-])({words})(s?)(?![\w-]| \[UK\])", re.IGNORECASE)

    def spell(match: re.Match[str]) -> str:
        name = next(one for one in (match[1], match[1].lower()) if one in left or one.islower())
        meaning = left.pop(name, "")
        return f"{match[0]} ({meaning})" if meaning else match[0]

    return replace(step, text=pattern.sub(spell, step.text))
