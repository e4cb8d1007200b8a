"""A picture that somebody took: what kind its first bytes say it is, and how many dots it has.

    measured(data)  ->  Extent("png", 900, 600)
    address(data)   ->  "data:image/png;base64,..."

Only kinds that are nothing but dots: a drawing in SVG could hold a script. The layouts are those of
the published formats (PNG: ISO/IEC 15948; JPEG: ITU-T T.81; GIF89a; WebP: RFC 9649). The dots are
counted because a small file can promise a picture that no memory holds.
"""

from __future__ import annotations

from base64 import b64encode

from loopwright.frozen import NamedTuple

_PNG = b"\x89PNG\r\n\x1a\n"
_NOT_FRAMES = (0xC4, 0xC8, 0xCC)
"""Segments numbered like a JPEG's frames that are none: tables, and one that is kept free."""
_ALONE = (0x01, *range(0xD0, 0xD9))
"""Markers of a JPEG without a length after them."""


class Extent(NamedTuple):
    """The kind of a picture, ``png``, ``jpeg``, ``gif`` or ``webp``, and its dots."""

    kind: str
    wide: int
    high: int


def measured(data: bytes) -> Extent | None:
    """What a picture is; None where it is none of the kinds, or is broken off before it says."""
    if data.startswith(_PNG) and data[12:16] == b"IHDR":
        found = "png", _big(data[16:20]), _big(data[20:24])
    elif data.startswith((b"GIF87a", b"GIF89a")):
        found = "gif", _little(data[6:8]), _little(data[8:10])
    elif data.startswith(b"\xff\xd8\xff"):
        found = "jpeg", *_jpeg(data)
    elif data.startswith(b"RIFF") and data[8:12] == b"WEBP":
        found = "webp", *_webp(data)
    else:
        return None
    return Extent(*found) if found[1] and found[2] else None


def _big(data: bytes) -> int:
    return int.from_bytes(data, "big")


def _little(data: bytes) -> int:
    return int.from_bytes(data, "little")


def _jpeg(data: bytes) -> tuple[int, int]:
    """Each segment says how long it is; the first frame says how large the picture is."""
    at = 2
    while at + 9 <= len(data) and data[at] == 0xFF:
        mark = data[at + 1]
        if 0xC0 <= mark <= 0xCF and mark not in _NOT_FRAMES:
            return _big(data[at + 7 : at + 9]), _big(data[at + 5 : at + 7])
        if mark == 0xFF:  # a filling byte
            at += 1
        elif mark in _ALONE:
            at += 2
        else:
            at += 2 + _big(data[at + 2 : at + 4])
    return 0, 0


def _webp(data: bytes) -> tuple[int, int]:
    first = data[12:16]
    if first == b"VP8X" and len(data) >= 30:
        return 1 + _little(data[24:27]), 1 + _little(data[27:30])
    if first == b"VP8L" and len(data) >= 25 and data[20] == 0x2F:
        bits = _little(data[21:25])
        return 1 + (bits & 0x3FFF), 1 + (bits >> 14 & 0x3FFF)
    if first == b"VP8 " and data[23:26] == b"\x9d\x01\x2a":
        return _little(data[26:28]) & 0x3FFF, _little(data[28:30]) & 0x3FFF
    return 0, 0


def address(data: bytes) -> str:
    """The picture as an address that holds it; empty where it is no picture."""
    found = measured(data)
    return f"data:image/{found.kind};base64,{b64encode(data).decode()}" if found else ""
