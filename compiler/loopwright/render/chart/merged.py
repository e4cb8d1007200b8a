"""Words of several sizes told as one: those that differ in numbers only, each with the others.

merged(("6 sts, work 8 times", "6 sts, work 9 times"), (0, 1))  ->  "6 sts, work 8 (9) times"
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import cast

from loopwright.render.chart.values import Words
from loopwright.render.speaker import Said
from loopwright.trade.stitches import Stitch

_NUMBER = re.compile(r"(\d+(?:,\d{3})*(?: \(\d[\d, ]*\))?)")


def merged(texts: Sequence[str], sizes: Sequence[int]) -> str | None:
    """One text for several that differ in numbers only: each number with those of the others, in
    the order of these sizes. A number that is given for every size is first that of its own."""
    phrases = [one for one in texts if isinstance(one, Said)]
    if phrases:
        return _said(phrases, sizes) if len(phrases) == len(texts) else None
    split = [_NUMBER.split(text) for text in texts]
    if len({tuple(one[::2]) for one in split}) > 1:
        return None
    out = []
    for i, pieces in enumerate(zip(*split, strict=True)):
        own = [_own(piece, size) for piece, size in zip(pieces, sizes, strict=True)]
        different = i % 2 and len(set(own)) > 1
        out.append(f"{own[0]} ({', '.join(own[1:])})" if different else own[0])
    return "".join(out)


def _said(every: Sequence[Said], sizes: Sequence[int]) -> Said | None:
    """The same of phrases: the same phrase, with what fills it in merged."""
    first = every[0]
    if len({(*one.phrase[:2], one.phrase[3], tuple(one.values)) for one in every}) > 1:
        return None
    values: dict[str, object] = {}
    for name in first.values:
        merged = _value([one.values[name] for one in every], sizes)
        if merged is None:
            return None
        values[name] = merged
    return first.filled(max(one.phrase[2] for one in every), values)


def _value(every: Sequence[object], sizes: Sequence[int]) -> object | None:
    if all(isinstance(one, tuple) for one in every):
        return merged_words(cast("Sequence[Words]", every), sizes)
    if all(isinstance(one, Stitch) for one in every):
        return every[0] if len(set(every)) == 1 else None
    if (
        all(isinstance(one, Said) or not isinstance(one, str) for one in every)
        and len(set(map(str, every))) == 1
    ):
        return every[0]
    return merged([one if isinstance(one, str) else str(one) for one in every], sizes)


def _own(number: str, size: int) -> str:
    """Of a number that is given for every size that of one of them."""
    each = re.findall(r"\d+(?:,\d{3})*", number) if "(" in number else []
    return each[size] if size < len(each) else number


def merged_words(every: Sequence[Words], sizes: Sequence[int]) -> Words | None:
    """The same of words with stitches in them."""
    if len(set(map(len, every))) > 1:
        return None
    out: list[str | Stitch] = []
    for pieces in zip(*every, strict=True):
        told = [piece for piece in pieces if isinstance(piece, str)]
        one: str | Stitch | None = pieces[0] if len(set(pieces)) == 1 else None
        if len(told) == len(pieces):
            one = merged(told, sizes)
        if one is None:
            return None
        out.append(one)
    return tuple(out)
