"""Random slips in every pattern there is: never a traceback, never work without end, and every
message can be printed. How many is told by LOOPWRIGHT_MUTATIONS; the same each time."""

from __future__ import annotations

import json
import os
import signal
from collections.abc import Iterator
from contextlib import contextmanager
from random import Random
from time import process_time

import pytest

from fuzz.mutate import mutated
from loopwright import editing, pipeline, rendering
from loopwright.diagnostics import RULES
from loopwright.diagnostics.text import message
from support import CASES, EXAMPLES, WORKED, text_of, whole_report

HOW_MANY = int(os.environ.get("LOOPWRIGHT_MUTATIONS", "2000"))
TEXTS = [text_of(path) for path in [*EXAMPLES, *EXAMPLES, *WORKED, *CASES]]
LONGEST = 10.0
"""Processor seconds after which work has no end. No measurement: a busy machine is several times
slower than a quiet one, on which each of these takes less than one."""

GIVEN_UP = 120
CHUNK = 100


@contextmanager
def in_time(text: str, longest: float = LONGEST) -> Iterator[None]:
    """Fail where the work takes longer than it may, and stop it where it has no end."""

    def give_up(*_: object) -> None:
        raise AssertionError(f"no end after {GIVEN_UP} seconds:\n{text}")

    signal.signal(signal.SIGALRM, give_up)
    signal.alarm(GIVEN_UP)
    begun = process_time()
    try:
        yield
    finally:
        signal.alarm(0)
    assert process_time() - begun < longest, f"{process_time() - begun:.2f} seconds:\n{text}"


def pattern(n: int) -> str:
    """The damaged pattern of a number: the same whenever it is asked for."""
    rng = Random(n)
    return mutated(rng, rng.choice(TEXTS))


def answered(text: str) -> pipeline.Result:
    """Check a text and print all there is to say of it, holding that to what is promised."""
    result = pipeline.check_text("damaged", text)
    for one in result.diagnostics:
        assert 0 <= one.span.start <= one.span.end <= len(text)
        assert one.severity in ("advice", RULES[one.code].severity)
        shown = message(result.source, one)
        assert all(char.isprintable() or char == "\n" for char in shown)
    json.dumps(whole_report([result]))
    assert (result.checked is not None) <= result.clean
    return result


@pytest.mark.parametrize("chunk", range((HOW_MANY + CHUNK - 1) // CHUNK))
def test_a_damaged_pattern_is_answered(chunk: int) -> None:
    for n in range(chunk * CHUNK, min((chunk + 1) * CHUNK, HOW_MANY)):
        text = pattern(n)
        try:
            with in_time(text):
                answered(text)
        except Exception as error:
            error.add_note(f"mutation {n}:\n{text}")
            raise


@pytest.mark.parametrize("chunk", range((HOW_MANY + 999) // 1000))
def test_a_damaged_pattern_is_tidied(chunk: int) -> None:
    for n in range(chunk * 1000, min((chunk + 1) * 1000, HOW_MANY), 10):
        text = pattern(n)
        tidy = editing.tidy(text)
        assert editing.tidy(tidy) == tidy, f"mutation {n}:\n{text}"


@pytest.mark.parametrize("chunk", range((HOW_MANY + 999) // 1000))
def test_what_is_still_clean_is_printed_and_drawn(chunk: int) -> None:
    for n in range(chunk * 1000, min((chunk + 1) * 1000, HOW_MANY), 5):
        text = pattern(n)
        checked = pipeline.check_text("damaged", text).checked
        if checked is None:
            continue
        try:
            for form in ("text", "markdown", "html"):
                assert rendering.sheet(checked, "UK", form) != rendering.sheet(checked, "US", form)
            for part in checked.pattern.parts:
                assert rendering.chart(checked, part.name, 0, "UK").startswith("<svg")
                if not rendering.no_grid(checked, part.name, 0):
                    squares = rendering.chart(checked, part.name, 0, "US", kind="grid")
                    assert squares.startswith("<svg")
        except Exception as error:
            error.add_note(f"mutation {n}:\n{text}")
            raise
