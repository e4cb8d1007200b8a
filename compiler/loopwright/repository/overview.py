"""What ``overview`` makes of a repository: a page of all its patterns, and the sheets and charts
that it leads to.

    for pattern in made_of(paths): pattern.card, pattern.verdict, pattern.files
"""

from __future__ import annotations

import os
from collections.abc import Iterable, Iterator
from typing import NamedTuple

from loopwright import Card, Link, Verdict
from loopwright.repository.beside import beside
from loopwright.repository.build import made
from loopwright.repository.jobs import Desk

SHEETS = {"-uk.html": "Sheet, UK terms", "-us.html": "Sheet, US terms"}


class Made(NamedTuple):
    """One pattern: what the page says of it, the files that are made of it as (path, text), and
    why its picture is not in them, where it is not."""

    card: Card
    verdict: Verdict
    files: list[tuple[str, str | bytes]]
    troubles: list[str]


def made_of(paths: Iterable[str]) -> Iterator[Made]:
    """What is made of each pattern, one after another. Raises ``CannotLook``."""
    desk = Desk()
    taken: set[str] = set()
    for path in paths:
        pattern = desk.job(path).read()
        files: list[tuple[str, str | bytes]] = []
        troubles: list[str] = []
        if pattern.comes_out:
            folder = _folder(path, taken)
            stem = os.path.splitext(os.path.basename(path))[0] if path != "-" else "pattern"
            files, troubles = made(pattern, stem, picture=beside(path, pattern))
            files = [(f"{folder}/{at}", text) for at, text in files]
        links = _links(files, os.path.splitext(os.path.basename(pattern.name))[0])
        yield Made(pattern.card(links), pattern.verdict, files, troubles)


def _folder(path: str, taken: set[str]) -> str:
    """A folder of a pattern's own, called after its path; below the page whatever that path is."""
    whole = os.path.splitext(os.path.relpath(path))[0] if path != "-" else "pattern"
    words = [word for word in whole.replace(os.sep, "/").split("/") if word not in ("", ".", "..")]
    name = first = "/".join(("patterns", *words))
    n = 1
    while name.lower() in taken:
        n += 1
        name = f"{first}-{n}"
    taken.add(name.lower())
    return name


def _links(files: list[tuple[str, str | bytes]], stem: str) -> Iterator[Link]:
    for path, _ in files:
        sheet = next((text for ending, text in SHEETS.items() if path.endswith(ending)), None)
        if sheet is not None:
            yield Link(sheet, _address(path))
        elif path.endswith(".svg"):
            name = os.path.splitext(os.path.basename(path))[0].removeprefix(f"{stem}-")
            yield Link(f"Chart, {name.replace('-', ' ')}", _address(path))


def _address(path: str) -> str:
    """A path as a link: a `:` or a `%` in it would be read as part of an address."""
    from urllib.parse import quote

    return quote(path, safe="/", errors="surrogateescape")
