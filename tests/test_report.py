"""The report that `check --format json` prints, held against its published schema, and against
what a reader of it relies on beyond its shape."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from loopwright.diagnostics import RULES
from loopwright.pipeline import check_text
from support import CASES, EXAMPLES, HOUSE, WORKED, text_of, whole_report

SCHEMA = json.loads((HOUSE / "docs" / "report.schema.json").read_text("utf-8"))
STRICT = Draft202012Validator(SCHEMA)
by_pattern = pytest.mark.parametrize(
    "path", [*EXAMPLES, *WORKED, *CASES], ids=lambda path: path.stem
)
NO_PATTERN = ["", "\n", "pattern:", "terms: UK", "row 1: dc", "\x00", "pattern: x\nterms: UK\n"]


def report(name: str, text: str) -> dict[str, Any]:
    """A report as it comes out of JSON again."""
    told: dict[str, Any] = json.loads(json.dumps(whole_report([check_text(name, text)])))
    return told


def objects(schema: Any) -> list[dict[str, Any]]:
    """Every object that a schema describes with properties of its own."""
    if isinstance(schema, list):
        return [one for kid in schema for one in objects(kid)]
    if not isinstance(schema, dict):
        return []
    inside = [one for kid in schema.values() for one in objects(kid)]
    return [schema, *inside] if isinstance(schema.get("properties"), dict) else inside


def test_the_schema_is_one_and_leaves_nothing_open() -> None:
    Draft202012Validator.check_schema(SCHEMA)
    assert len(objects(SCHEMA)) == 6
    for one in objects(SCHEMA):
        assert one["additionalProperties"] is False
        # A place is in the pattern's own file, unless it says otherwise.
        assert one["required"] == [name for name in one["properties"] if name != "file"]


@by_pattern
def test_a_report_keeps_the_schema(path: Path) -> None:
    STRICT.validate(report(path.name, text_of(path)))


@pytest.mark.parametrize("text", NO_PATTERN)
def test_a_report_on_hardly_anything_keeps_the_schema(text: str) -> None:
    told = report("x", text)
    STRICT.validate(told)
    assert not told["clean"]


@by_pattern
def test_the_sums_agree_with_the_messages(path: Path) -> None:
    told = report(path.name, text_of(path))
    (file,) = told["files"]
    kinds = [one["severity"] for one in file["messages"]]
    assert (told["errors"], told["advice"]) == (kinds.count("error"), kinds.count("advice"))
    assert told["clean"] == file["clean"] == (told["errors"] == 0)
    for one in file["messages"]:
        assert one["severity"] in ("advice", RULES[one["code"]].severity)


@by_pattern
def test_every_place_is_in_the_file_and_in_order(path: Path) -> None:
    text = text_of(path)
    lines = text.split("\n")
    (file,) = report(path.name, text)["files"]
    edits = [edit for one in file["messages"] for edit in one["edits"]]
    for one in file["messages"] + edits:
        start, end = (one["line"], one["column"]), (one["end_line"], one["end_column"])
        assert start <= end
        for line, column in (start, end):
            assert column <= len(lines[line - 1]) + 1
    places = [(one["line"], one["column"]) for one in file["messages"]]
    assert places == sorted(places)
    rows = [row["line"] for row in file["rows"]]
    assert rows == sorted(rows)


@by_pattern
def test_every_size_is_one_of_the_pattern_s(path: Path) -> None:
    (file,) = report(path.name, text_of(path))["files"]
    sizes = set(file["sizes"])
    for row in file["rows"]:
        assert set(row["worked"]) == set(row["made"]) <= sizes
        assert set(row["stated"] or {}) <= sizes
    for one in file["messages"]:
        assert set(one["sizes"]) <= sizes
    for values in file["counts"].values():
        assert set(values) == sizes


# Worked out by hand: 16 cm at 17 stitches to 10 cm are 27.2, and the nearest multiple of 4 is 28;
# the opening's round has 4 stitches fewer and one space of 4 chains.
def test_the_mittens_are_reported_as_the_notation_promises() -> None:
    (mittens,) = (path for path in EXAMPLES if path.stem == "breakwater-mittens")
    (file,) = report(mittens.name, text_of(mittens))["files"]
    assert file["title"] == "Breakwater Mittens"
    assert file["sizes"] == ["child", "woman", "man"]
    assert file["counts"]["body"] == {"child": 28, "woman": 32, "man": 36}
    (opening,) = (row for row in file["rows"] if "ch-4 sp" in row["made"]["child"])
    assert opening["made"]["child"]["sts"] == 24
    assert opening["made"]["child"]["ch-4 sp"] == 1
    assert opening["stated"]["man"] == {"sts": 32, "ch-4 sp": 1}
    assert opening["worked"] == {"child": 1, "woman": 1, "man": 1}
