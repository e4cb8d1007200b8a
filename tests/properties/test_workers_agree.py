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

from loopwright.lower import lower
from loopwright.syntax import read_lines
from naive import work_pattern
from properties.agree import disagreements
from properties.features import FRAMES, Dice, framed_as
from properties.strategies import patterns

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
few = settings(steady, max_examples=max(EXAMPLES // 8, 1))


@steady
@given(patterns())
def test_made_up_patterns(text: str) -> None:
    """Rows, rounds, repeats in repeats, spaces, posts, and now and then a slip of the pen."""
    assert disagreements(text) == [], text


@pytest.mark.parametrize("frame", FRAMES, ids=lambda frame: frame.__name__)
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


@steady
@given(patterns(faulty=False))
def test_naive_worker_meets_the_arithmetic(text: str) -> None:
    """What the patterns were made up to come to is what the naive worker makes, with no fault."""
    lowered = lower(read_lines(text), len(text))
    assert lowered.pattern is not None
    assert lowered.whole, [one.text for one in lowered.diagnostics]
    assert work_pattern(lowered.pattern, 0).faults == [], text
