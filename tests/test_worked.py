"""Published patterns: the verdict and the counts of each must be the ones worked out by hand.

Beside each pattern in worked/ lies its key, made by hand and without a compiler. A key names
errors only, never advice. What is known of single rows apart from the keys is in
test_worked_facts.py.
"""

from __future__ import annotations

import json
import re
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from loopwright.pipeline import Result, check_text
from support import TESTS, WORKED, begins_at, file_report, text_of

KEYS = {path: json.loads(path.with_suffix(".json").read_text("utf-8")) for path in WORKED}
by_pattern = pytest.mark.parametrize("path", WORKED, ids=lambda path: path.stem)


@cache
def checked(path: Path) -> Result:
    return check_text(path.name, text_of(path))


@cache
def report(path: Path) -> dict[str, Any]:
    return file_report(checked(path))


def test_there_are_as_many_keys_as_patterns() -> None:
    assert len(WORKED) == len(list((TESTS / "worked").glob("*.json"))) == 37


@by_pattern
def test_the_source_is_named(path: Path) -> None:
    first = text_of(path).split("\n")[0]
    assert re.match(r"# published source: (https?://\S+|.+, Project Gutenberg \d+; )", first)


@by_pattern
def test_the_verdict(path: Path) -> None:
    assert checked(path).clean == (KEYS[path]["expect"] == "clean")


@by_pattern
def test_the_faults(path: Path) -> None:
    wanted = sorted((one["line"], one["size"] or "") for one in KEYS[path]["faults"])
    errors = [one for one in report(path)["messages"] if one["severity"] == "error"]
    found = sorted((_line(path, one), size) for one in errors for size in one["sizes"] or [""])
    assert found == wanted, [one["text"] for one in errors]
    for fault in KEYS[path]["faults"]:
        (code,) = {one["code"] for one in errors if _line(path, one) == fault["line"]}
        assert code in [fault["code"], *fault["also_acceptable"]]


def _line(path: Path, message: dict[str, Any]) -> int:
    return begins_at(text_of(path), message["line"])


@by_pattern
def test_what_each_row_makes(path: Path) -> None:
    rows = {row["line"]: row for row in report(path)["rows"]}
    for key in KEYS[path]["rows"]:
        made = rows[key["line"]]["made"]
        assert made, key
        for size in [key["size"]] if key["size"] else made:
            for name, n in key["makes"].items():
                assert count(made[size], name) == n, (key, made)


def count(made: dict[str, int], name: str) -> int:
    """A count by the name that a key has for it: `ch-2 sps` and `trios` are `ch-2 sp` and `trio`
    in a report."""
    one = name if name == "sts" else name.removesuffix("s")
    return made.get(one, 0)
