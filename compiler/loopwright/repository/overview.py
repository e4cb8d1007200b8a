"""What ``overview`` makes of a repository: a page of all its patterns, and the sheets and charts
that it leads to.

    for pattern in made_of(paths): pattern.card, pattern.verdict, pattern.files
"""

from __future__ import annotations

import os
from collections.abc import Iterable, Iterator
from typing import NamedTuple

from loopwright.diagnostics.card import Card, Link
from loopwright.diagnostics.reports.plain import worked
from loopwright.diagnostics.verdict import Verdict
from loopwright.measured import Measured, YarnTaken, measured
from loopwright.pipeline import Result, check_text, overview
from loopwright.report import verdict
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
        job = desk.job(path)
        result = check_text(job.name, job.text, job.around)
        told = verdict(result, dict(job.settings.severities))
        files: list[tuple[str, str | bytes]] = []
        troubles: list[str] = []
        taken_from = None
        if result.checked is not None:
            folder = _folder(path, taken)
            stem = os.path.splitext(os.path.basename(path))[0] if path != "-" else "pattern"
            picture = beside(path, result.checked)
            files, troubles = made(result.checked, stem, result.source, picture=picture)
            files = [(f"{folder}/{at}", text) for at, text in files]
            taken_from = measured(result.checked)
        yield Made(_card(result, told, taken_from, files), told, files, troubles)


def page(title: str, summary: str, cards: Iterable[Card]) -> str:
    """The page itself."""
    return overview(title, summary, tuple(cards))


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


def _card(
    result: Result, told: Verdict, taken: Measured | None, files: list[tuple[str, str | bytes]]
) -> Card:
    pattern = result.pattern
    return Card(
        told.name,
        told.title,
        pattern.sizes if pattern else (),
        worked(told) if told.sizes else "",
        tuple((one.name, _values(one.values)) for one in pattern.counts) if pattern else (),
        tuple(_yarn(taken)) if taken else (),
        told.messages,
        tuple(_links(files, os.path.splitext(os.path.basename(told.name))[0])),
    )


def _values(values: tuple[int, ...]) -> str:
    first, *rest = values
    same = len(set(values)) == 1
    return f"{first}" if same else f"{first} ({', '.join(map(str, rest))})"


def _yarn(taken: Measured) -> Iterator[tuple[str, str]]:
    for name in dict.fromkeys(one.yarn for one in taken.yarn):
        sizes = [one for one in taken.yarn if one.yarn == name]
        if len(taken.sizes) == 1:
            yield name or "yarn", _amount(sizes[0])
        else:
            yield name or "yarn", "; ".join(f"{one.size} {_amount(one)}" for one in sizes)


def _amount(one: YarnTaken) -> str:
    amount, unit = (one.metres, "m") if one.metres else (one.grams, "g")
    if amount is None:
        return "not known"
    least, most = amount
    told = f"{least} {unit}" if least == most else f"{least} to {most} {unit}"
    if one.balls is None:
        return told
    return f"{told} ({one.balls} {'ball' if one.balls == 1 else 'balls'})"


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
