"""Copies of the published tables, read for the tests; each row has its source keys in it."""

from __future__ import annotations

import csv
import tomllib
from pathlib import Path

DATA = Path(__file__).with_name("data")

NEUTRAL = {
    "sl st": "slip",
    "sc": "plain",
    "hdc": "half",
    "dc": "long",
    "tr": "double long",
    "dtr": "triple long",
    "trtr": "quadruple long",
}
"""US abbreviations by wraps and steps (table D): 0 0, 0 1, 1 1, 1 2, 2 3, 3 4, 4 5."""


def table(name: str) -> list[dict[str, str]]:
    """The rows of a table, without the remarks above them."""
    text = (DATA / f"{name}.csv").read_text(encoding="utf-8")
    return list(csv.DictReader(line for line in text.splitlines() if line[:1] != "#"))


def sources() -> set[str]:
    """The keys that have an address."""
    with (DATA / "SOURCES.toml").open("rb") as file:
        return set(tomllib.load(file))


def keys(row: dict[str, str]) -> tuple[str, ...]:
    """The source keys of a row, without remarks in brackets."""
    return tuple(row["source"].split("(")[0].split())
