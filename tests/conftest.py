"""Fixtures that several tests share."""

from __future__ import annotations

import gc
import io
import sys
from collections.abc import Callable, Iterator

import pytest

from loopwright.cli import main
from support import Outcome

Loopwright = Callable[..., Outcome]


@pytest.fixture
def loopwright(
    capfdbinary: pytest.CaptureFixture[bytes], monkeypatch: pytest.MonkeyPatch
) -> Iterator[Loopwright]:
    """The command line, run in this process: what it answered, and never with a traceback or
    with anything that only a terminal understands."""

    def command(*arguments: str, given: bytes = b"") -> Outcome:
        monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(given)))
        capfdbinary.readouterr()
        code = main(list(arguments))
        out, err = capfdbinary.readouterr()
        answer = Outcome(code, out.decode("utf-8"), err.decode("utf-8"))
        assert "Traceback" not in answer.out + answer.err
        assert "\x1b" not in answer.out + answer.err
        return answer

    yield command
    gc.enable()
