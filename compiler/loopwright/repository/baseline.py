"""The baseline: the messages of the day on which a repository took the program on, so that only new
ones are told.

    known = read_baseline("loopwright-baseline.json")
    for verdict in known.without(verdicts): ...   # what is known is left out of each
    known.hidden, known.gone                      # how many were, and entries that match no more

A message is known again by its file, its code, the part and row, and the text of its line, so that
lines put in above it change nothing. Where a line earns a message more often than it did, the rest
are new.
"""

from __future__ import annotations

import json
import os
from collections import Counter
from collections.abc import Iterable, Iterator
from contextlib import suppress
from typing import Any

from loopwright import Message, Verdict
from loopwright.frozen import NamedTuple, replace
from loopwright.repository.files import CannotLook, refuse_pipe, why, write_pieces
from loopwright.repository.finding import BASELINE

EDITION = 1
FIRST = b'{"loopwright-baseline"'
"""What every baseline begins with."""
LARGEST = 200_000_000
"""Bytes of a baseline that is read: a million messages take less."""


class Entry(NamedTuple):
    """What a message is known again by; ``file`` is its path from the folder of the baseline."""

    file: str
    code: str
    part: str
    row: str
    line: str


class Baseline:
    """Messages that are known, each with how often; what is met is ticked off."""

    def __init__(self, path: str, entries: Counter[Entry]) -> None:
        self.path = path
        self.folder = os.path.dirname(os.path.abspath(path))
        self.left = entries
        self.files: set[str] = set()
        self.hidden = 0

    def without(self, verdicts: Iterable[Verdict]) -> Iterator[Verdict]:
        """The verdicts without the messages that are known."""
        named = {entry.file for entry in self.left}
        for verdict in verdicts:
            file = near(verdict.name, self.folder)
            if file not in named:
                yield verdict
                continue
            self.files.add(file)
            kept = tuple([one for one in verdict.messages if not self._known(file, one)])
            without = replace(verdict, messages=kept)
            yield replace(without, known=verdict.errors - without.errors)

    def _known(self, file: str, message: Message) -> bool:
        entry = entry_of(file, message)
        if self.left[entry] < 1:
            return False
        self.left[entry] -= 1
        self.hidden += 1
        return True

    def gone(self) -> list[tuple[Entry, int]]:
        """Entries that no longer match: of files that were checked, or that are there no more."""
        return [
            (entry, n)
            for entry, n in sorted(self.left.items())
            if n > 0 and (entry.file in self.files or not self._there(entry.file))
        ]

    def told(self) -> str:
        """What there is to say of it after a run; nothing where it played no part."""
        lines = []
        if self.hidden:
            messages = "1 message is" if self.hidden == 1 else f"{self.hidden:,} messages are"
            lines.append(f"{messages} known from {self.path} and not shown.")
        gone = self.gone()
        if gone:
            lines.append(f"{self.path}: what matches no more (--write-baseline leaves it out):")
        for entry, times in gone:
            where = ", ".join(one for one in (entry.part, entry.row) if one)
            often = f", {times} times" if times > 1 else ""
            lines.append(f"  {entry.file}: {entry.code}{f' ({where})' if where else ''}{often}")
        return "\n".join(lines)

    def _there(self, file: str) -> bool:
        return os.path.isfile(os.path.join(self.folder, file))


def read_baseline(path: str) -> Baseline:
    """The baseline in a file. Raises ``CannotLook``."""
    refuse_pipe(path)
    try:
        with open(path, "rb") as file:
            data = file.read(LARGEST + 1)
    except OSError as error:
        raise CannotLook(f"{path}: this baseline cannot be read ({why(error)}).") from None
    try:
        if len(data) > LARGEST:
            raise ValueError
        return Baseline(path, _entries(json.loads(data)))
    except (ValueError, TypeError, KeyError, RecursionError):
        raise CannotLook(
            f"{path}: this is no baseline, or it is damaged. Write it anew with --write-baseline."
        ) from None


def _entries(plain: Any) -> Counter[Entry]:
    if plain["loopwright-baseline"] != EDITION:
        raise ValueError
    entries: Counter[Entry] = Counter()
    for one in plain["messages"]:
        entry = Entry(*(one[name] for name in Entry._fields))
        times = one["times"]
        if not all(isinstance(field, str) for field in entry) or type(times) is not int:
            raise ValueError
        entries[entry] += times
    return entries


class Written(NamedTuple):
    """How many messages a baseline holds now, and how many of those are of files that were not
    looked at this time."""

    messages: int
    kept: int


def write_baseline(path: str, verdicts: Iterable[Verdict]) -> Written:
    """Write the messages of verdicts as a baseline. What it held of files that are still there and
    were not looked at, it goes on holding. Raises ``CannotLook``."""
    before = _before(path)
    folder = os.path.dirname(os.path.abspath(path))
    entries: Counter[Entry] = Counter()
    seen = set()
    for verdict in verdicts:
        file = near(verdict.name, folder)
        seen.add(file)
        entries.update(entry_of(file, one) for one in verdict.messages)
    kept = 0
    for entry, times in before.items():
        if entry.file not in seen and os.path.isfile(os.path.join(folder, entry.file)):
            entries[entry] += times
            kept += times
    write_pieces(path, _pieces(entries))
    return Written(entries.total(), kept)


def _before(path: str) -> Counter[Entry]:
    """What the baseline held that is written anew. Raises ``CannotLook`` where another file is
    there, which would be lost."""
    if not os.path.lexists(path):
        return Counter()
    try:
        return read_baseline(path).left
    except CannotLook:
        with suppress(OSError), open(path, "rb") as file:
            if os.path.basename(path) == BASELINE or file.read(len(FIRST)) in (FIRST, b""):
                return Counter()  # damaged, and written anew for that
        raise no_baseline(path) from None


def no_baseline(path: str) -> CannotLook:
    """What there is to say where a baseline would take the place of another file."""
    return CannotLook(
        f"{path}: this file is there already, and is no baseline. To write down what is known"
        f" of it alone, put it first: check {path} --write-baseline"
    )


def _pieces(entries: Counter[Entry]) -> Iterator[str]:
    """The file, a line for each entry, so that what changes in it can be read."""
    yield f'{FIRST.decode()}: {EDITION}, "messages": ['
    for at, (entry, times) in enumerate(sorted(entries.items())):
        yield "\n" if not at else ",\n"
        yield json.dumps({**entry._asdict(), "times": times}, ensure_ascii=False)
    yield "\n]}\n"


def entry_of(file: str, message: Message) -> Entry:
    """What a message of a file is known again by."""
    line = " ".join(message.excerpt.split())
    return Entry(file, message.code, message.part, message.row, line)


def near(name: str, folder: str) -> str:
    """A file's path from a folder, the same on every system."""
    try:
        return os.path.relpath(name, folder).replace(os.sep, "/")
    except ValueError:  # on another drive
        return name.replace(os.sep, "/")
