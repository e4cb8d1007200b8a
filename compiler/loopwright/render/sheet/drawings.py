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

LEAST = 0.85
"""Of its own size, in which its words are 11 pixels high: smaller, and few could read them."""

DOTS = 16.0
"""Units of a drawing to a ``rem``, in a browser as it comes."""

STEPS = (16, 20, 24, 28, 32, 36, 40, 52, 64, 80, 100, 125, 160, 200)
"""``rem``: the classes ``least-16`` and so on of the page's styles."""

WIDE = 700.0
"""Units of a drawing that fill the width of a printed page."""


class Drawing(NamedTuple):
    """A chart: its title, its SVG for the page, its description in plain words, and how wide and
    high it is in the SVG's units (nought where it does not say)."""

    title: str
    svg: str
    description: str
    wide: float = 0.0
    high: float = 0.0

    @property
    def least(self) -> int:
        """How wide it has to be at least to be read, in ``rem``, by the steps of the page's styles;
        nought where any width will do."""
        needed = LEAST * self.wide / DOTS
        return max((step for step in STEPS if step <= needed), default=0)

    @property
    def lying(self) -> bool:
        """Whether it wants a page that lies on its side."""
        return self.wide > 1.6 * self.high and self.wide > WIDE


def drawing(title: str, svg: str, number: int = 0) -> Drawing:
    """A chart as the page's number ``number``; nought where it does not share a page."""
    body = _PROLOG.sub("", svg, count=1).strip()
    for name in dict.fromkeys(_ID.findall(body)) if number else ():
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
    if "&" in text:
        from html import unescape

        text = unescape(text)
    return " ".join(text.split())
