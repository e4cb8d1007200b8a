"""What a check holds when it is over: nothing that only a search for rings would find, because in a
run of thousands of files there is hardly ever one."""

from __future__ import annotations

import gc
from collections.abc import Iterator

import pytest

from benchmarks.repositories import text_of
from loopwright.pipeline import check_text
from support import CASES
from support import text_of as case


@pytest.fixture
def rings() -> Iterator[list[object]]:
    """What only a search finds, of all that is let go meanwhile."""
    gc.collect()
    gc.disable()
    gc.set_debug(gc.DEBUG_SAVEALL)
    try:
        yield gc.garbage
    finally:
        gc.set_debug(0)
        gc.garbage.clear()
        gc.enable()


def test_a_check_leaves_no_rings(rings: list[object]) -> None:
    texts = [case(path) for path in CASES] + [text_of(1, number) for number in range(40)]
    for text in texts:
        check_text("x", text)
    gc.collect()
    ours = {type(one).__name__ for one in rings if type(one).__module__.startswith("loopwright")}
    assert ours == set()
    assert not any(type(one).__name__ in ("frame", "traceback") for one in rings)
