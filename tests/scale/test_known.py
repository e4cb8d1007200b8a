"""Rows that are known: whatever was worked before, what is found is the same."""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path

import pytest

from benchmarks.repositories import text_of as generated
from loopwright.pipeline import Result, check_text
from loopwright.work import Effort, known, row, work
from support import CASES, EXAMPLES, WORKED, text_of

PATTERNS = [*EXAMPLES, *WORKED, *CASES]


def seen(result: Result) -> tuple[object, ...]:
    """All that there is to see of a result."""
    return result.pattern, result.fabrics, result.diagnostics, result.checked


@pytest.fixture
def from_nothing(monkeypatch: pytest.MonkeyPatch) -> pytest.MonkeyPatch:
    """Nothing is known but what the test makes known."""
    known.forget()
    return monkeypatch


def worked_anew(text: str, monkeypatch: pytest.MonkeyPatch) -> tuple[object, ...]:
    """What is found when every row is worked, though it were the same row again."""
    with monkeypatch.context() as alone:
        alone.setattr(known, "recall", lambda key, reading, meeting: None)
        return seen(check_text("x", text))


@pytest.mark.parametrize("path", PATTERNS, ids=lambda path: path.stem)
def test_what_is_known_is_what_is_found(path: Path, from_nothing: pytest.MonkeyPatch) -> None:
    text = text_of(path)
    anew = worked_anew(text, from_nothing)
    known.forget()
    assert seen(check_text("x", text)) == anew
    assert seen(check_text("x", text)) == anew
    # and where everything stands elsewhere in the text
    moved = text.replace("\n", "\n# moved\n\n", 1)
    assert seen(check_text("x", moved)) == worked_anew(moved, from_nothing)


def test_patterns_know_nothing_of_each_other(from_nothing: pytest.MonkeyPatch) -> None:
    texts = [generated(2, number) for number in range(60)]
    anew = [worked_anew(text, from_nothing) for text in texts]
    known.forget()
    assert [seen(check_text("x", text)) for text in texts] == anew
    assert [seen(check_text("x", text)) for text in reversed(texts)] == anew[::-1]


def test_rows_are_known_again(from_nothing: pytest.MonkeyPatch) -> None:
    """Two sleeves, and the same in another pattern in other words and sizes: worked once."""
    sleeve = (
        "flat\nstart: ch 9\nrow 1: dc in 2nd ch from hook, 7 dc\nrow 2: ch 1, [dc, htr] across\n"
    )
    one = f"pattern: x\nterms: UK\npart a: {sleeve}part b: {sleeve}"
    us = one.replace("dc", "sc").replace("htr", "hdc").replace("UK", "US\nsizes: s (l)")
    asked = []
    worked = row._worked
    from_nothing.setattr(
        row, "_worked", lambda *args: (asked.append(args[0].label), worked(*args))[1]
    )
    assert check_text("one", one).clean
    assert asked == ["row 1", "row 2"]
    assert check_text("two", us).clean
    assert asked == ["row 1", "row 2"]
    other = check_text("three", one.replace("htr", "tr"))
    assert other.clean
    assert asked == ["row 1", "row 2", "row 2"]


def test_a_number_that_differs_makes_another_row(from_nothing: pytest.MonkeyPatch) -> None:
    text = "pattern: x\nterms: UK\nsizes: s (l)\npart a: flat\nstart: ch 21\n"
    text += "row 1: dc in 2nd ch from hook, 19 dc\nrow 2: ch 1, 5 (6) dc, leave the rest unworked\n"
    small, large = check_text("x", text).fabrics
    assert small.parts[0].last.length == 5
    assert large.parts[0].last.length == 6


def test_no_more_is_kept_than_there_is_room_for(from_nothing: pytest.MonkeyPatch) -> None:
    small = lru_cache(20)(known._cell.__wrapped__)
    from_nothing.setattr(known, "_cell", small)
    texts = [generated(3, number) for number in range(12)]
    found = [seen(check_text("x", text)) for text in texts]
    assert small.cache_info().hits > 20
    assert small.cache_info().currsize == 20
    assert found == [worked_anew(text, from_nothing) for text in texts]
    known.forget()


def test_what_is_known_takes_as_much_effort(from_nothing: pytest.MonkeyPatch) -> None:
    """A pattern that is too long is too long the second time as well."""
    grown = "".join(f"row {n}: ch 1, dc inc, dc in each st across\n" for n in range(2, 40))
    text = "pattern: x\nterms: UK\npart a: flat\nstart: ch 3\n"
    text += f"row 1: dc in 2nd ch from hook, dc\n{grown}"
    efforts = []
    for _ in range(2):
        pattern = check_text("x", text).pattern
        assert pattern is not None
        effort = Effort(10_000)
        work(pattern, 0, effort)
        efforts.append(effort.left)
    assert efforts[0] == efforts[1] < 10_000
    short = Effort(30)
    fabric = work(pattern, 0, short)
    assert [fact.kind for fact in fabric.facts] == ["not-in-this-edition"]
