"""The words of both editions, and how a change is called."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from loopwright.changes.values import (
    ADDED,
    COUNT,
    REMOVED,
    RENUMBERED,
    TIMES,
    WORK,
    Changes,
    FactChange,
    LineChange,
    Place,
)

Texts = Mapping[Place, tuple[str, ...]]


class Told(NamedTuple):
    """What each line says in the old edition and in the new one, and in whose terms."""

    old: Texts
    new: Texts
    terms: str


HEADINGS = {
    WORK: "Worked differently",
    COUNT: "The number at the end",
    TIMES: "Worked more or fewer times",
    ADDED: "New",
    REMOVED: "Taken out",
    RENUMBERED: "Under another number",
}
FACTS = {
    "size": "size",
    "part": "part",
    "yarn": "yarn",
    "hook": "hook",
    "gauge": "gauge",
    "measure": "measure",
    "amount": "yarn needed",
    "finished": "finished size",
}


def was(change: LineChange, told: Told) -> str:
    """What the old edition says there; empty where it has nothing."""
    return " ".join(told.old.get(change.old, ())) if change.old is not None else ""


def now(change: LineChange, told: Told) -> str:
    """What the new edition says there; empty where it has nothing."""
    return " ".join(told.new.get(change.new, ())) if change.new is not None else ""


def heading(change: LineChange) -> str:
    """The part and the row: ``Hand, round 3``."""
    part = change.part.replace("-", " ").replace("_", " ")
    return f"{part[:1].upper()}{part[1:]}, {change.label}"


def in_sizes(change: LineChange, found: Changes) -> str:
    """The sizes in which it changed; empty where those are all of them."""
    return _sizes(change.sizes, found)


def _sizes(sizes: tuple[str, ...], found: Changes) -> str:
    if not sizes or sizes == found.every:
        return ""
    return f"size{'' if len(sizes) == 1 else 's'} {', '.join(sizes)}"


def counts(change: LineChange) -> list[str]:
    """``woman: 31 sts before, now 32``, where the number changed."""
    said: dict[str, list[str]] = {}
    for one in change.counts:
        for word, pair in (("sts", one.stitches), ("rows", one.rows)):
            if None not in pair and pair[0] != pair[1]:
                said.setdefault(f"{pair[0]} {word} before, now {pair[1]}", []).append(one.size)
    every = [one.size for one in change.counts]
    return [
        text if sizes == every else f"{', '.join(sizes)}: {text}" for text, sizes in said.items()
    ]


def fact_name(fact: FactChange, found: Changes) -> str:
    """``Yarn needed, slate, size man``."""
    word = FACTS[fact.what]
    parts = [word[:1].upper() + word[1:], fact.name, _sizes(fact.sizes, found)]
    return ", ".join(part for part in parts if part)


def fact_text(fact: FactChange) -> str:
    """What it was and what it is."""
    if not fact.was:
        return f"new: {fact.now}"
    if not fact.now:
        return f"taken out: {fact.was}"
    return f"{fact.now} (before: {fact.was})"


def is_wording(change: LineChange) -> bool:
    """Whether nothing is worked differently."""
    return change.kind not in HEADINGS
