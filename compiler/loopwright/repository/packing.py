"""Verdicts as bytes and back: plain JSON, so that reading what somebody may have changed can run
nothing, and what is not a verdict is refused.

    unpacked(packed(verdict)) == verdict
"""

from __future__ import annotations

import json
from typing import Any

from loopwright import Change, Message, Place, Remark, Verdict


class NotAVerdict(Exception):
    """Bytes that are no verdict."""


def packed(verdict: Verdict) -> bytes:
    """A verdict as bytes; the name of its file is left out."""
    plain = [
        verdict.title,
        verdict.sizes,
        verdict.rows,
        verdict.stitches,
        [_plain(one) for one in verdict.messages],
        verdict.detail,
    ]
    return json.dumps(plain, ensure_ascii=False, separators=(",", ":")).encode(
        "utf-8", "surrogatepass"
    )


def unpacked(data: bytes) -> Verdict:
    """The verdict that bytes hold. Raises ``NotAVerdict``."""
    try:
        title, sizes, rows, stitches, messages, detail = json.loads(data)
        return Verdict("", title, sizes, rows, stitches, tuple(map(_message, messages)), detail)
    except (ValueError, TypeError, RecursionError) as error:
        raise NotAVerdict from error


def _plain(value: Any) -> Any:
    """A frozen value as the list of its fields, one inside another."""
    if isinstance(value, tuple):
        return [_plain(one) for one in value]
    fields = getattr(value, "__match_args__", None)
    return value if fields is None else [_plain(getattr(value, name)) for name in fields]


def _message(plain: list[Any]) -> Message:
    code, severity, place, excerpt, text, hints, part, row, sizes, related, edits = plain
    return Message(
        code,
        severity,
        Place(*place),
        excerpt,
        text,
        tuple(hints),
        part,
        row,
        tuple(sizes),
        tuple(Remark(Place(*where), said) for where, said in related),
        tuple(Change(Place(*where), put, safe) for where, put, safe in edits),
    )
