"""A chart that has been drawn, made ready to stand in a page.

The drawing keeps its title and description for those who cannot see it. Names inside it (``id``)
are made its own, so that two charts in one page do not answer for each other.
"""

from __future__ import annotations

import re
from typing import NamedTuple

_PROLOG = re.compile(r"\A\s*(?:<\?xml[^>]*\?>\s*)?(?:<!DOCTYPE[^>]*>\s*)?", re.IGNORECASE)
_ID = re.compile(r'\bid="([^"]+)"')
_VIEW = re.compile(r'viewBox="[-0-9.]+ [-0-9.]+ ([0-9.]+) ([0-9.]+)"')
_DESC = re.compile(r"<desc[^>]*>(.*?)</desc>", re.DOTALL)


class Drawing(NamedTuple):
    """A chart: its title, its SVG for the page, its description in plain words, and how wide and
    high it is in the SVG's units (nought where it does not say)."""

    title: str
    svg: str
    description: str
    wide: float = 0.0
    high: float = 0.0


def drawing(title: str, svg: str, number: int) -> Drawing:
    """A chart as the page's number ``number``."""
    body = _PROLOG.sub("", svg, count=1).strip()
    for name in dict.fromkeys(_ID.findall(body)):
        own = f"c{number}-{name}"
        body = body.replace(f'id="{name}"', f'id="{own}"')
        body = body.replace(f'"#{name}"', f'"#{own}"').replace(f"url(#{name})", f"url(#{own})")
        body = _labelled(body, name, own)
    found = _DESC.search(body)
    wide, high = _extent(body)
    return Drawing(title, body, _unescaped(found.group(1)) if found else "", wide, high)


def _extent(body: str) -> tuple[float, float]:
    found = _VIEW.search(body)
    return (float(found.group(1)), float(found.group(2))) if found else (0.0, 0.0)


def _labelled(body: str, name: str, own: str) -> str:
    """Names in ``aria-labelledby`` and ``aria-describedby``, which list several."""

    def mend(match: re.Match[str]) -> str:
        names = [own if one == name else one for one in match.group(2).split()]
        return f'{match.group(1)}="{" ".join(names)}"'

    return re.sub(r'(aria-(?:labelledby|describedby))="([^"]*)"', mend, body)


def _unescaped(text: str) -> str:
    from html import unescape

    return " ".join(unescape(text).split())
