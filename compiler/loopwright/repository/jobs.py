"""What checking one file takes: its text, the texts of what it uses, and its settings, read.

    Desk().job("patterns/mittens.crochet") -> Job(name, text, used, settings)

This is the only place that reads what a check is made from; ``judge`` makes the verdict of it, in
this process or in another.
"""

from __future__ import annotations

import os
from collections.abc import Mapping
from typing import TYPE_CHECKING

import loopwright
from loopwright import NotRead, Settings, Verdict
from loopwright.frozen import Frozen, replace
from loopwright.repository.files import CannotLook, CannotRead, handed, read
from loopwright.repository.finding import Finder, Repository

if TYPE_CHECKING:
    from loopwright import Pattern

MOST_USED = 64
"""Files that a pattern uses, and that those use."""

STANDARD_INPUT = "standard input"

Texts = Mapping[str, str | NotRead]
"""Texts of files by their paths from the folder of the pattern that uses them."""


class Job(Frozen):
    """What ``loopwright.check`` takes."""

    name: str
    text: str
    used: Texts
    settings: Settings

    def for_making(self) -> Job:
        """The same where something is to be made of the pattern: nothing is asked of it but that
        it comes out."""
        return replace(self, settings=Settings(use=self.settings.use))

    def read(self) -> Pattern:
        """The pattern, worked."""
        return loopwright.read(self.text, name=self.name, used=self.used, settings=self.settings)

    def mended(self) -> str:
        """The text with every change made that cannot alter what is meant."""
        return loopwright.mend(self.text, name=self.name, used=self.used, settings=self.settings)


def judge(job: Job, *, detail: bool = False) -> Verdict:
    """The verdict on one file."""
    return loopwright.check(
        job.text, name=job.name, used=job.used, settings=job.settings, detail=detail
    )


class Desk:
    """Reads what checks take; no settings and no file that patterns use is read twice."""

    def __init__(self) -> None:
        self.finder = Finder()
        self._texts: dict[str, str | NotRead] = {}
        self._used: dict[tuple[str, str], tuple[str, ...]] = {}

    def repository(self, path: str) -> Repository:
        """The repository that a file belongs to; what was handed to us, the one that we are in."""
        return self.finder.of(os.getcwd() if handed(path) else os.path.dirname(path) or ".")

    def job(self, path: str) -> Job:
        """All that checking a file takes; ``-`` is standard input. Raises ``CannotLook``."""
        repository = self.repository(path)
        stays_inside(path, repository)
        text = self.text(path)
        here = os.getcwd() if handed(path) else os.path.dirname(os.path.abspath(path))
        settings = repository.settings(here)
        own = "" if handed(path) else os.path.basename(path)
        used = self._gather(here, own, loopwright.uses(text, settings=settings), repository.root)
        for key, written in zip(settings.use, repository.said.use, strict=False):
            _can_be_used(used.get(key), written, repository)
        return Job(STANDARD_INPUT if path == "-" else path, text, used, settings)

    # Where they are read from, another desk may say otherwise.

    def text(self, path: str) -> str:
        """The text of a pattern. Raises ``CannotLook``."""
        return read(path)

    def whole(self, path: str) -> str:
        """Where a file that is used lies, every link followed."""
        return os.path.realpath(path)

    def used_text(self, whole: str) -> str | NotRead:
        """The text of a file that is used, or why there is none."""
        return _text(whole)

    def _gather(self, folder: str, own: str, keys: tuple[str, ...], root: str) -> Texts:
        """The texts of all files that a file uses, and that those use."""
        used: dict[str, str | NotRead] = {}
        todo = list(keys)
        for key in todo:
            if key == own or key in used:
                continue
            if len(used) == MOST_USED:
                used[key] = NotRead(f"a pattern can use {MOST_USED} files, and this is one more")
                break
            used[key], more = self._read(os.path.join(folder, key), key, root)
            todo += more
        return used

    def _read(self, path: str, key: str, root: str) -> tuple[str | NotRead, tuple[str, ...]]:
        """A file that is used, and by which paths from the same folder it uses others in turn."""
        whole = self.whole(path)
        if not _inside(whole, os.path.realpath(root)):
            return NotRead("it lies outside the repository", "Keep a copy of it inside."), ()
        if whole not in self._texts:
            self._texts[whole] = self.used_text(whole)
        text = self._texts[whole]
        if not isinstance(text, str):
            return text, ()
        if (whole, key) not in self._used:
            self._used[whole, key] = loopwright.uses(text, at=key)
        return text, self._used[whole, key]


def _can_be_used(found: str | NotRead | None, written: str, repository: Repository) -> None:
    """Raise ``CannotLook`` where the settings give every pattern a file that cannot be read: that
    is said of them, once."""
    if isinstance(found, NotRead):
        raise CannotLook(
            f'{repository.said.use_at}: `use` has "{written}", and {found.why}.'
            " Paths go on from the folder of this file."
        )


def stays_inside(path: str, repository: Repository) -> None:
    """Raise ``CannotRead`` where a link leads out of a repository: what others wrote into it must
    not make us tell, or change, what lies elsewhere on this computer."""
    if handed(path) or not repository.bounded:
        return
    if not _inside(os.path.realpath(path), os.path.realpath(repository.root)):
        raise CannotRead(
            f"{path}: this link leads out of the repository, and is not followed."
            " Keep a copy of the file inside."
        )


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
