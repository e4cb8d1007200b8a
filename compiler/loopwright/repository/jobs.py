"""What checking one file takes: its text, the texts of what it uses, and its settings, read.

    Desk().job("patterns/mittens.crochet") -> Job(name, text, used, settings)

This is the only place that reads what a check is made from; ``judge`` makes the verdict of it, in
this process or in another.
"""

from __future__ import annotations

import os

from loopwright.frozen import frozen
from loopwright.pipeline import Around, uses
from loopwright.repository.files import CannotLook, read
from loopwright.repository.finding import Finder, Repository
from loopwright.repository.settings import Settings
from loopwright.repository.verdict import Verdict, around, check_one
from loopwright.source import NotRead, Texts, beside

MOST_USED = 64
"""Files that a pattern uses, and that those use."""

STANDARD_INPUT = "standard input"


@frozen
class Job:
    """What ``check_one`` takes."""

    name: str
    text: str
    used: Texts
    settings: Settings

    @property
    def around(self) -> Around:
        """What the text is checked with."""
        return around(self.used, self.settings)


def judge(job: Job, *, detail: bool = False) -> Verdict:
    """The verdict on one file."""
    return check_one(job.name, job.text, job.used, job.settings, detail=detail)


class Desk:
    """Reads what checks take; no settings and no file that patterns use is read twice."""

    def __init__(self) -> None:
        self.finder = Finder()
        self._used: dict[str, tuple[str | NotRead, tuple[str, ...]]] = {}

    def repository(self, path: str) -> Repository:
        """The repository that a file (or ``-``) belongs to."""
        return self.finder.of(os.getcwd() if path == "-" else os.path.dirname(path) or ".")

    def job(self, path: str) -> Job:
        """All that checking a file takes; ``-`` is standard input. Raises ``CannotLook``."""
        text = read(path)
        repository = self.repository(path)
        here = os.getcwd() if path == "-" else os.path.dirname(os.path.abspath(path))
        settings = repository.settings(here)
        own = "" if path == "-" else os.path.basename(path)
        used = self._gather(here, own, (*settings.use, *uses(text)), repository.root)
        return Job(STANDARD_INPUT if path == "-" else path, text, used, settings)

    def _gather(self, folder: str, own: str, written: tuple[str, ...], root: str) -> Texts:
        """The texts of all files that a file uses, and that those use."""
        used: dict[str, str | NotRead] = {}
        todo = [beside(own, one) for one in written]
        for key in todo:
            if key is None or key == own or key in used:
                continue
            if len(used) == MOST_USED:
                used[key] = NotRead(f"a pattern can use {MOST_USED} files, and this is one more")
                break
            used[key], more = self._read(os.path.join(folder, key), root)
            todo += [beside(key, one) for one in more]
        return used

    def _read(self, path: str, root: str) -> tuple[str | NotRead, tuple[str, ...]]:
        """A file that is used, and what it uses in turn."""
        whole = os.path.realpath(path)
        if not _inside(whole, os.path.realpath(root)):
            return NotRead("it lies outside the repository", "Keep a copy of it inside."), ()
        if whole not in self._used:
            text = _text(whole)
            self._used[whole] = text, uses(text) if isinstance(text, str) else ()
        return self._used[whole]


def _inside(path: str, folder: str) -> bool:
    return os.path.commonpath((path, folder)) == folder


def _text(path: str) -> str | NotRead:
    if os.path.isdir(path):
        return NotRead("it is a folder")
    if not os.path.isfile(path):
        there = os.path.exists(path)
        return NotRead("it is not a plain file" if there else "there is no such file")
    try:
        return read(path)
    except CannotLook as error:
        return NotRead(str(error).removeprefix(f"{path}: ").rstrip("."))
