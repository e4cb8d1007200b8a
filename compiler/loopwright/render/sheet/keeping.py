"""What stays on one line: a number with its other sizes, and with the word that it counts; chains
with how many they are.

bound("ch 2, 1 tr in next st. 28 (32, 36) sts.")
    the same with spaces that do not break in ch 2, in 1 tr and in 28 (32, 36) sts
"""

from __future__ import annotations

import re

_NUMBER = "[0-9½¼¾][0-9.,½¼¾\u00a0]*"
_SIZES = re.compile(rf"{_NUMBER} \([0-9½¼¾.,; \u00a0–-]{{1,24}}\)")
_UNIT = re.compile(
    r"(?<=\)) (?=(?:cm|mm|in|g|m|yd|sts?|times|balls?|(?:ch-[0-9]+ )?sps?)\b)"
    r"|(?<=\)) (?=(?:ml|fois|pelotes?)\b)"
    r"|(?<=\)) (?=\w+\.\Z)"
    r"|(?<=[0-9½¼¾]) (?=[^\W\d_])"
    r"|(?<=\b[Cc]h) (?=[0-9])"
)
FIRM = "\u00a0"
"""A space at which no line is broken."""


def bound(text: str, firm: str = FIRM) -> str:
    """The text with what belongs together kept together, by ``firm`` in place of a space."""
    text = _SIZES.sub(lambda found: found[0].replace(" ", firm), text)
    return _UNIT.sub(firm, text)
