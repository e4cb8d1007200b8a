"""What the overview of a repository says of one pattern, in words."""

from __future__ import annotations

from loopwright.diagnostics.verdict import Message
from loopwright.frozen import Frozen


class Link(Frozen):
    """A file made of a pattern: what it is, and its address from the page."""

    text: str
    address: str


class Card(Frozen):
    """What the page says of one pattern. ``sizes`` are names, ``counts`` and ``yarn`` are (name,
    words), ``worked`` says how much was worked."""

    file: str
    title: str
    sizes: tuple[str, ...]
    worked: str
    counts: tuple[tuple[str, str], ...]
    yarn: tuple[tuple[str, str], ...]
    messages: tuple[Message, ...]
    links: tuple[Link, ...]
