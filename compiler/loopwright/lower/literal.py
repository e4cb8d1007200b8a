"""The designer's own words, made so that they stand in any page as they are written.

    literal("wool")          wool
    literal("צמר")           the same between U+2068 and U+2069, which keep its direction to itself
    literal("bell \\x07")    bell <U+0007>

Words that run from right to left, or signs that turn the direction, would else turn what the sheet
says around them: a count, a yarn's length. What no page may hold (a control character, half a
surrogate pair) is spelled out as in the program's messages.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Sequence

from loopwright.trade.stitches import Stitch

Piece = str | tuple[str, ...] | Stitch

_TURNING = frozenset(("R", "AL", "AN", "RLE", "RLO", "LRE", "LRO", "RLI", "LRI", "FSI"))
_OPEN, _CLOSE = "\u2068", "\u2069"
_OPENERS = frozenset("\u2066\u2067\u2068")
_NOWHERE = ("Cc", "Cs")


def literal(text: str) -> str:
    """The text for a page; see above. White space stays as it is."""
    return "".join(one for one in literals([text]) if isinstance(one, str))


def literals(pieces: Sequence[Piece]) -> list[Piece]:
    """The same for words with values between them, which share a direction."""
    whole = "".join(one for one in pieces if isinstance(one, str))
    if whole.isascii() and whole.isprintable():
        return list(pieces)
    turning = any(unicodedata.bidirectional(char) in _TURNING for char in whole)
    out: list[Piece] = [_balanced(one) if isinstance(one, str) else one for one in pieces]
    return [_OPEN, *out, _CLOSE] if turning else out


def _nowhere(char: str) -> bool:
    if char.isspace() and char not in "\x1c\x1d\x1e\x1f\x85":
        return False
    return unicodedata.category(char) in _NOWHERE or ord(char) & 0xFFFE == 0xFFFE


def _spelled(char: str) -> str:
    return f"<U+{ord(char):04X}>"


def _balanced(text: str) -> str:
    """Every isolate that is opened is closed, and none that is not; nothing that no page holds."""
    out = []
    deep = 0
    for char in text:
        if char in _OPENERS:
            deep += 1
        elif char == _CLOSE and deep:
            deep -= 1
        elif char == _CLOSE or _nowhere(char):
            char = _spelled(char)
        out.append(char)
    return "".join(out) + _CLOSE * deep
