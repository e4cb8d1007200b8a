"""Progress is shown to somebody who watches and waits, and to nobody else."""

from __future__ import annotations

import io
import sys

import pytest

from loopwright.repository import progress
from loopwright.repository.progress import Progress, on_terminal


class Terminal(io.StringIO):
    """What is written to a terminal."""

    def isatty(self) -> bool:
        return True


def watched(monkeypatch: pytest.MonkeyPatch) -> Terminal:
    """A terminal in place of both outputs, watched by somebody without patience. To be called in
    the test itself: what pytest catches is put in place anew before it."""
    seen = Terminal()
    monkeypatch.setattr(sys, "stdout", seen)
    monkeypatch.setattr(sys, "stderr", seen)
    monkeypatch.setattr(progress, "PATIENCE", -1.0)
    monkeypatch.setenv("TERM", "xterm")
    monkeypatch.setenv("NO_COLOR", "1")
    return seen


def test_a_long_run_says_how_far_it_is(monkeypatch: pytest.MonkeyPatch) -> None:
    terminal = watched(monkeypatch)
    assert on_terminal()
    bar = Progress(True)
    out = []
    for one in bar.of(iter(range(30)), 30):
        out.append(one)
        with bar.aside():
            terminal.write("a message\n")
    assert out == list(range(30))
    assert "30/30 files" in terminal.getvalue()
    assert terminal.getvalue().count("a message\n") == 30
    assert bar.bar is None


def test_a_short_run_says_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    terminal = watched(monkeypatch)
    monkeypatch.setattr(progress, "PATIENCE", 60.0)
    assert list(Progress(True).of(iter(range(30)), 30)) == list(range(30))
    assert terminal.getvalue() == ""


def test_nothing_is_shown_where_nobody_watches(monkeypatch: pytest.MonkeyPatch) -> None:
    terminal = watched(monkeypatch)
    assert list(Progress(False).of(iter(range(30)), 30)) == list(range(30))
    assert terminal.getvalue() == ""


@pytest.mark.parametrize("which", ["stdout", "stderr"])
def test_a_pipe_is_no_terminal(monkeypatch: pytest.MonkeyPatch, which: str) -> None:
    watched(monkeypatch)
    monkeypatch.setattr(sys, which, io.StringIO())
    assert not on_terminal()
    monkeypatch.setattr(sys, which, None)
    assert not on_terminal()


def test_a_terminal_that_cannot_is_left_alone(monkeypatch: pytest.MonkeyPatch) -> None:
    watched(monkeypatch)
    assert on_terminal()
    monkeypatch.setenv("TERM", "dumb")
    assert not on_terminal()
