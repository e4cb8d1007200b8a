"""What to print of a character that no font has: its number, so that nothing is lost in silence.

    missing("... the text `"編"` could not be displayed with font ...")  ->  {"編"}
    spelled("data.json", data, {"編"})  ->  the words with <U+7DE8>

The typesetter names every text that it has no glyph for, and refuses the sheet; the characters are
then spelled out, as the program's messages do, and the sheet is set again.
"""

from __future__ import annotations

import re

_TEXT = re.compile(r'the text `"((?:[^"\\]|\\.)*)"` could not be displayed', re.DOTALL)
_ESCAPE = re.compile(r"\\(?:u\{([0-9a-fA-F]+)\}|(.))", re.DOTALL)
_PLAIN = {"n": "\n", "r": "\r", "t": "\t", "0": "\0"}


def missing(complaint: str) -> frozenset[str]:
    """The characters outside ASCII letters and signs that a complaint names."""
    found = {
        char for match in _TEXT.finditer(complaint) for char in _ESCAPE.sub(_read, match.group(1))
    }
    return frozenset(char for char in found if not " " <= char <= "~")


def _read(match: re.Match[str]) -> str:
    if match.group(1):
        return chr(int(match.group(1), 16))
    return _PLAIN.get(match.group(2), match.group(2))


def spelled(name: str, data: bytes, lacking: frozenset[str]) -> bytes:
    """A file of the sheet with such characters spelled out; a picture stays as it is."""
    if not name.endswith((".json", ".svg")):
        return data
    signs = ("&lt;", "&gt;") if name.endswith(".svg") else ("<", ">")
    table = {ord(char): f"{signs[0]}U+{ord(char):04X}{signs[1]}" for char in lacking}
    return data.decode().translate(table).encode()
