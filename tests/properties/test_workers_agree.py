"""The worker of the compiler, which works in runs, and the naive one, which makes every stitch,
must say the same of every pattern: counts, rows, the place of each stitch, and the first fault.

``LOOPWRIGHT_EXAMPLES`` sets how many patterns are made up for each property; with
``LOOPWRIGHT_SHRINK`` set, a pattern that fails is made as short as can be (which takes minutes).
The same patterns are made up every time, so that a failure comes again.
"""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import HealthCheck, Phase, given, settings

import docs_blocks as docs
from loopwright.diagnostics import ERROR
from loopwright.lower import lower
from loopwright.syntax import read_lines
from naive import work_pattern
from properties.agree import disagreements
from properties.features import FRAMES, Dice, framed_as
from properties.rarer import RARER
from properties.strategies import patterns
from support import CASES, text_of
from support import EXAMPLES as SHOWN

EXAMPLES = int(os.environ.get("LOOPWRIGHT_EXAMPLES", "400"))
SHRINK = (Phase.shrink,) if os.environ.get("LOOPWRIGHT_SHRINK") else ()
WORKED = sorted((Path(__file__).parent.parent / "worked").glob("*.crochet"))

steady = settings(
    max_examples=EXAMPLES,
    derandomize=True,
    deadline=None,
    phases=(Phase.explicit, Phase.generate, *SHRINK),
    database=None,
    suppress_health_check=list(HealthCheck),
)


def can_be_worked(text: str) -> bool:
    """Whether all lines of a pattern are understood, and it is not one of the very long ones."""
    lowered = lower(read_lines(text), len(text))
    wrong = any(one.severity == ERROR for one in lowered.diagnostics)
    return lowered.pattern is not None and not wrong and "000" not in text


few = settings(steady, max_examples=max(EXAMPLES // 8, 1))


@steady
@given(patterns())
def test_made_up_patterns(text: str) -> None:
    """Rows, rounds, repeats in repeats, spaces, posts, and now and then a slip of the pen."""
    assert disagreements(text) == [], text


@pytest.mark.parametrize("frame", FRAMES + RARER, ids=lambda frame: frame.__name__)
def test_less_common_things(frame: Callable[[Dice], str]) -> None:
    """Openings, edges, gaps, markers, sizes and the like, with numbers that may not come out."""

    @few
    @given(framed_as(frame))
    def agree(text: str) -> None:
        assert disagreements(text) == [], text

    agree()


@pytest.mark.parametrize("path", WORKED, ids=lambda path: path.stem)
def test_published_patterns(path: Path) -> None:
    """Every published pattern, right or wrong as printed."""
    assert disagreements(path.read_text(encoding="utf-8")) == []


EXPLAINED = {
    block.name: docs.whole(block)
    for page in docs.PAGES
    for block in docs.blocks(page)
    if block.kind in ("pattern", "rows")
}
WRITTEN = {path.stem: text_of(path) for path in (*CASES, *SHOWN)} | EXPLAINED
READ = {name: text for name, text in WRITTEN.items() if can_be_worked(text)}


def test_most_of_what_is_written_can_be_worked() -> None:
    """What is left out is what cannot be read, and so cannot be worked either."""
    assert len(READ) > len(WRITTEN) * 2 / 3


@pytest.mark.parametrize("name", READ)
def test_examples_and_cases(name: str) -> None:
    """Every example of the documentation, and every case, right or wrong."""
    assert disagreements(READ[name]) == []


@steady
@given(patterns(faulty=False))
def test_naive_worker_meets_the_arithmetic(text: str) -> None:
    """What the patterns were made up to come to is what the naive worker makes, with no fault."""
    lowered = lower(read_lines(text), len(text))
    assert lowered.pattern is not None
    assert lowered.whole, [one.text for one in lowered.diagnostics]
    assert work_pattern(lowered.pattern, 0).faults == [], text
