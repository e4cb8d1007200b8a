"""The examples: each is clean, in the one layout, and becomes sheets in every form and terms and a
chart of every part in every size; and the sheet says every count that the designer states."""

from __future__ import annotations

import re
from pathlib import Path
from xml.etree import ElementTree

import pytest

from loopwright import editing, pipeline, rendering
from loopwright.ir.checked import Checked
from loopwright.judged import around
from loopwright.repository.jobs import Desk
from support import EXAMPLES, HOUSE, SHORE_HOUSE, file_report, run, text_of

TERMS = ("UK", "US")
EVERY = [*EXAMPLES, *SHORE_HOUSE]
by_example = pytest.mark.parametrize("path", EVERY, ids=lambda path: path.stem)


def result_of(path: Path) -> pipeline.Result:
    """The example, checked with what it uses."""
    job = Desk().job(str(path))
    return pipeline.check_text(path.name, job.text, around(job.used, job.settings))


CHARTS = [
    pytest.param(path, part.name, size, id=f"{path.stem}-{part.name}-{name}")
    for path in EVERY
    for pattern in [result_of(path).pattern]
    if pattern is not None
    for part in pattern.parts
    for size, name in enumerate(pattern.sizes)
]


def checked_of(path: Path) -> Checked:
    """The example, checked; fails with what the checker says."""
    result = result_of(path)
    assert result.checked is not None, result.diagnostics
    return result.checked


def sheet_text(path: Path, terms: str) -> str:
    """The text sheet with its line breaks taken out."""
    return " ".join(rendering.sheet(checked_of(path), terms, "text").split())


def test_there_are_patterns_in_both_terms() -> None:
    assert {checked_of(path).pattern.terms for path in EVERY} == set(TERMS)


@by_example
def test_it_is_clean_without_a_word_of_advice(path: Path) -> None:
    assert result_of(path).diagnostics == ()


@by_example
def test_it_is_in_the_one_layout(path: Path) -> None:
    assert editing.tidy(text_of(path)) == text_of(path)


@by_example
def test_it_has_all_that_a_maker_needs(path: Path) -> None:
    pattern = checked_of(path).pattern
    assert pattern.title
    assert pattern.yarns
    assert all(yarn.grams and yarn.metres for yarn in pattern.yarns)
    assert pattern.hooks
    assert all(part.gauge and part.hook for part in pattern.parts)
    assert any(getattr(line, "finish", False) for part in pattern.parts for line in part.lines)


@by_example
def test_every_row_states_what_it_comes_to(path: Path) -> None:
    report = file_report(result_of(path))
    silent = [
        row["label"]
        for row in report["rows"]  # type: ignore[attr-defined]
        if row["stated"] is None and not row["label"].startswith("repeat")
    ]
    assert silent == []


@by_example
@pytest.mark.parametrize("form", ["text", "markdown", "html"])
@pytest.mark.parametrize("terms", TERMS)
def test_it_becomes_a_sheet(path: Path, terms: str, form: str) -> None:
    checked = checked_of(path)
    page = rendering.sheet(checked, terms, form)
    assert checked.pattern.title in page
    assert f"{terms} terms" in page
    assert rendering.sheet(checked, terms, form) == page


@by_example
@pytest.mark.parametrize("terms", TERMS)
def test_the_sheet_says_every_stated_count(path: Path, terms: str) -> None:
    result = result_of(path)
    page = sheet_text(path, terms)
    said = 0
    for row in file_report(result)["rows"]:  # type: ignore[attr-defined]
        stated = row["stated"] or {}
        for kind in dict.fromkeys(kind for counts in stated.values() for kind in counts):
            if terms != row_terms(result) and not re.fullmatch(r"sts|ch|(ch-\d+ )?sp", kind):
                continue  # a stitch, which these terms call by another name
            values = across([counts[kind] for counts in stated.values() if kind in counts])
            assert re.search(rf"{re.escape(values)} {re.escape(kind.removesuffix('s'))}s?\b", page)
            said += 1
    assert said


def row_terms(result: pipeline.Result) -> str:
    """The terms that the pattern is written in."""
    assert result.pattern is not None
    return result.pattern.terms


def across(values: list[int]) -> str:
    """Numbers of several sizes as the trade prints them: 28 (32, 36)."""
    if len(set(values)) == 1:
        return str(values[0])
    return f"{values[0]} ({', '.join(map(str, values[1:]))})"


@pytest.mark.parametrize(("path", "part", "size"), CHARTS)
def test_it_becomes_a_chart(path: Path, part: str, size: int) -> None:
    checked = checked_of(path)
    drawing = rendering.chart(checked, part, size, "UK")
    root = ElementTree.fromstring(drawing)
    assert root.tag.endswith("svg")
    title = root.find("{http://www.w3.org/2000/svg}title")
    assert title is not None
    assert checked.pattern.title in (title.text or "")
    assert rendering.chart(checked, part, size, "UK") == drawing


def test_the_house_on_the_shore_shares_its_yarn_and_stitch() -> None:
    assert {checked_of(path).pattern.terms for path in SHORE_HOUSE} == set(TERMS)
    for path in SHORE_HOUSE:
        assert "yarn slate:" not in text_of(path)
        assert "stitch mussel:" not in text_of(path)
        assert [one.name for one in checked_of(path).pattern.stitches] == ["mussel"]
        assert not pipeline.check_text(path.name, text_of(path)).clean
    # The shared file too, by the settings alone, from the folder that they stand in.
    answer = run("check", "--no-cache", at=HOUSE / "examples" / "shore-house")
    assert (answer.code, answer.err) == (0, "")
    assert answer.out.startswith(f"{len(SHORE_HOUSE) + 1} patterns, ")
