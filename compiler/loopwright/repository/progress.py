"""Progress of a long run, on a terminal only: how many files of how many, and how long still.

It goes to standard error, and only where both outputs are a terminal: nothing of it ever gets into
a pipe or a file. Rich draws it, and is imported when a run turns out to be long.
"""

from __future__ import annotations

import os
import sys
import time
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING, TypeVar

if TYPE_CHECKING:
    from rich.progress import Progress as Bar
    from rich.progress import TaskID

One = TypeVar("One")

PATIENCE = 1.0
"""Seconds that a run may take before anything is shown."""


def on_terminal() -> bool:
    """Whether somebody watches."""
    outputs = (sys.stdout, sys.stderr)
    watched = all(one is not None and one.isatty() for one in outputs)
    return watched and os.environ.get("TERM") != "dumb"


class Progress:
    """Shows how far a run has come: ``of(things, many)`` passes them on and counts them."""

    def __init__(self, watched: bool) -> None:
        self.watched = watched
        self.bar: Bar | None = None
        self.task: TaskID | None = None

    def of(self, things: Iterable[One], many: int) -> Iterator[One]:
        """The same things."""
        if not self.watched:
            yield from things
            return
        begun = time.monotonic()
        try:
            for done, thing in enumerate(things, 1):
                if self.bar is None and time.monotonic() - begun > PATIENCE and done < many:
                    self._show(many)
                if self.bar is not None and self.task is not None:
                    self.bar.update(self.task, completed=done)
                yield thing
        finally:
            self._hide()

    @contextmanager
    def aside(self) -> Iterator[None]:
        """Out of the way while something is printed."""
        if self.bar is not None:
            self.bar.stop()
        try:
            yield
        finally:
            if self.bar is not None:
                self.bar.start()

    def _show(self, many: int) -> None:
        from rich.console import Console
        from rich.progress import BarColumn, MofNCompleteColumn, TextColumn, TimeRemainingColumn
        from rich.progress import Progress as Bar

        self.bar = Bar(
            TextColumn("checking"),
            BarColumn(),
            MofNCompleteColumn(),
            TextColumn("files, still"),
            TimeRemainingColumn(),
            console=Console(file=sys.stderr),
            transient=True,
            redirect_stdout=False,
            redirect_stderr=False,
        )
        self.task = self.bar.add_task("", total=many)
        self.bar.start()

    def _hide(self) -> None:
        if self.bar is not None:
            self.bar.stop()
            self.bar = None
