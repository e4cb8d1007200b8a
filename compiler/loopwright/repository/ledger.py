"""The list of what was made in a folder, so that what is not made any more can be taken away, and
that two patterns do not write over each other.

    with held(folder):                        # one run at a time
        ledger = Ledger(folder)               # reads the list that lies there
        ledger.refuse(of, paths)              # what is another pattern's is not written over
        ledger.put(entry)                     # what was made of it, and what with
        ledger.settle()                       # takes away what nothing makes now; writes the list
        ledger.gone, ledger.troubles          # what was taken away, and what was left and why

Only what the list names is ever taken away, and only while it lies in the folder, is no link, and
has the bytes that were written. Where the list cannot be understood nothing is.
"""

from __future__ import annotations

import json
import os
from collections.abc import Iterable, Iterator
from contextlib import contextmanager, suppress
from hashlib import blake2b
from typing import Any

from loopwright.frozen import NamedTuple
from loopwright.repository.files import (
    CannotLook,
    as_bytes,
    handed,
    listing,
    make_folder,
    refuse_pipe,
    why,
    write,
    write_all,
)

LIST = "loopwright-made.json"
JOURNAL = "loopwright-made.part"
"""What a run that has not come to its end is about to write, a line for each pattern."""
EDITION = 1
LARGEST = 500_000_000
"""Bytes of a list that is read: a million patterns take less."""
PATIENCE = 60.0
"""Seconds to wait for another run that is writing into the folder."""
STANDARD_INPUT = "-"
LEFT = "left"
"""By what is on the list that nothing makes now and that could not be taken away."""


_NO_LINK = getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_NONBLOCK", 0)


class Entry(NamedTuple):
    """What was made of one thing. ``of`` is the pattern's path from the folder (``-``: standard
    input; empty: the page of all); ``by`` what was asked; ``files`` the digest of each file by its
    path in the folder."""

    of: str
    by: str
    files: dict[str, str]


def digest(data: bytes) -> str:
    """What the bytes of a file are known again by."""
    return blake2b(data, digest_size=16).hexdigest()


def from_folder(path: str, folder: str) -> str:
    """A pattern's path from a folder, every link of the folders followed."""
    if handed(path):
        return STANDARD_INPUT
    at, name = os.path.split(path)
    whole = os.path.join(os.path.realpath(at or os.curdir), name)
    try:
        return os.path.relpath(whole, os.path.realpath(folder)).replace(os.sep, "/")
    except ValueError:  # another drive
        return whole.replace(os.sep, "/")


@contextmanager
def held(folder: str) -> Iterator[None]:
    """Keep other runs from writing into a folder meanwhile. Raises ``CannotLook`` where one does
    so for longer than it should."""
    try:
        import fcntl
    except ImportError:  # Windows: its folders cannot be held
        yield
        return
    import time

    handle = os.open(folder, os.O_RDONLY)
    try:
        until = time.monotonic() + PATIENCE
        while True:
            try:
                fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
                break
            except BlockingIOError:
                if time.monotonic() > until:
                    raise CannotLook(
                        f"{folder}: another run has been writing into this folder for a minute."
                    ) from None
                time.sleep(0.02)
            except OSError:  # a file system that holds nothing
                break
        yield
    finally:
        os.close(handle)


def put(
    folder: str, pattern: str, by: str, files: list[tuple[str, str | bytes]]
) -> tuple[str, list[str]]:
    """Write what was made of a pattern into a folder, and take away what was made of it in the same
    way before and is not made now; the list for the reader, and what was left and why. Raises
    ``CannotLook``."""
    make_folder(folder)
    with held(folder):
        ledger = Ledger(folder)
        of = from_folder(pattern, folder)
        ledger.refuse(of, [path for path, _ in files])
        wrote = write_all(folder, files)
        ledger.put(Entry(of, by, marks(files)))
        ledger.settle()
    return listing(wrote, ledger.gone), ledger.troubles


def marks(files: Iterable[tuple[str, str | bytes]]) -> dict[str, str]:
    """The digests of files by their paths."""
    return {path: digest(as_bytes(data)) for path, data in files}


def begin(folder: str, entry: Entry) -> None:
    """Note what is about to be written, so that the next run knows of it if this one is killed.
    Raises ``CannotLook``."""
    path = os.path.join(folder, JOURNAL)
    try:
        handle = os.open(path, os.O_WRONLY | os.O_APPEND | os.O_CREAT | _NO_LINK, 0o666)
        with open(handle, "ab") as file:
            file.write(json.dumps(entry._asdict()).encode() + b"\n")
    except OSError as error:
        raise CannotLook(f"{path}: this file cannot be written ({why(error)}).") from None


def left_of(folder: str, pattern: str) -> list[str]:
    """What there is to say of files that were made of a pattern of which none can be made now."""
    of = from_folder(pattern, folder)
    many = sum(len(one.files) for one in Ledger(folder).entries.values() if one.of == of)
    if not many:
        return []
    files, are = ("1 file that was", "is") if many == 1 else (f"{many} files that were", "are")
    return [f"{folder}: {files} made of this pattern as it stood before {are} left there."]


class Ledger:
    """The list of a folder."""

    def __init__(self, folder: str) -> None:
        self.folder = folder
        self.path = os.path.join(folder, LIST)
        self.gone: list[str] = []
        self.troubles: list[str] = []
        self._old: dict[str, str] = {}
        self.entries: dict[tuple[str, str], Entry] = {}
        for entry in self._read():
            self.entries[entry.of, entry.by] = entry
            self._old |= entry.files

    def refuse(self, pattern: str, paths: Iterable[str]) -> None:
        """Raise ``CannotLook`` where a file is made of another pattern that is still there."""
        wanted = {path.lower(): path for path in paths}
        for entry in self.entries.values():
            if entry.of in (pattern, "", STANDARD_INPUT):
                continue
            met = next((one for one in entry.files if one.lower() in wanted), None)
            other = os.path.normpath(os.path.join(self.folder, entry.of))
            if met is not None and os.path.lexists(other):
                raise CannotLook(
                    f"{os.path.join(self.folder, met)}: this file was made of {other} and would be"
                    " written over. Patterns of one name need a folder each: give another one"
                    " with -o."
                )

    # ------------------------------------------------------------------ what is made now

    def put(self, entry: Entry) -> None:
        """Put an entry in the place of the one of the same pattern. Whatever else has a claim on
        its files has been called otherwise since, and has none any more."""
        self.entries[entry.of, entry.by] = entry
        for key, other in list(self.entries.items()):
            if other.of == entry.of or other.files.keys().isdisjoint(entry.files):
                continue
            rest = {path: mark for path, mark in other.files.items() if path not in entry.files}
            if other.of in ("", STANDARD_INPUT):
                self.entries[key] = other._replace(files=rest)
            else:
                del self.entries[key]

    def add(self, entries: Iterable[Entry]) -> None:
        """Write down what was made by a run that did not come to its end, beside what was made
        before: what is to be taken away is not known yet."""
        for entry in entries:
            before = self.entries.get((entry.of, entry.by), entry)
            self.entries[entry.of, entry.by] = entry._replace(files=before.files | entry.files)
        self.settle()

    def put_all(self, by: str, entries: Iterable[Entry]) -> None:
        """Put entries in the place of all that were made by the same."""
        self.entries = {key: one for key, one in self.entries.items() if one.by != by}
        self.entries |= {(one.of, one.by): one for one in entries}

    def settle(self) -> None:
        """Take away what the list named and names no more, and write it anew. Raises
        ``CannotLook``."""
        self.entries.pop(("", LEFT), None)
        now = {path.lower() for entry in self.entries.values() for path in entry.files}
        left = {}
        for path, mark in sorted(self._old.items()):
            if path.lower() not in now and not self._take_away(path, mark):
                left[path] = mark
        if left:
            self.entries["", LEFT] = Entry("", LEFT, left)
        write(self.path, self._text(), if_changed=True)

    def _take_away(self, path: str, mark: str) -> bool:
        """Take a file away; whether it is gone."""
        state = _state(self.folder, path, mark)
        whole = os.path.join(self.folder, path)
        if not state:
            try:
                os.unlink(whole)
            except OSError as error:
                state = f"cannot be taken away ({why(error)})"
            else:
                self.gone.append(whole)
                self._empty(os.path.dirname(path))
        if state and state != GONE:
            self.troubles.append(
                f"{whole}: this file was made before and is not made now, but {state}, so it is"
                " left. Take it away yourself."
            )
            return False
        return True

    def _empty(self, folder: str) -> None:
        """Take away a folder within ours, and those around it, where they are empty."""
        with suppress(OSError):
            while folder:
                os.rmdir(os.path.join(self.folder, folder))
                folder = os.path.dirname(folder)

    # ------------------------------------------------------------------ what was broken off

    def take_up(self) -> None:
        """Count what a run has written that was killed as made before."""
        for entry in self._begun():
            for path, mark in entry.files.items():
                if intact(self.folder, {path: mark}):
                    self._old[path] = mark

    def _begun(self) -> Iterator[Entry]:
        with suppress(OSError), open(os.path.join(self.folder, JOURNAL), "rb") as file:
            for line in file:
                # The last one may be half-written; nothing was made of it yet.
                with suppress(ValueError, TypeError, KeyError, AttributeError, RecursionError):
                    yield _entry(json.loads(line))

    def done(self) -> None:
        """Forget what was begun: the list has it."""
        with suppress(OSError):
            os.unlink(os.path.join(self.folder, JOURNAL))

    # ------------------------------------------------------------------ the file

    def _read(self) -> list[Entry]:
        refuse_pipe(self.path)
        try:
            with open(self.path, "rb") as file:
                data = file.read(LARGEST + 1)
        except FileNotFoundError:
            return []
        except OSError as error:
            return self._damaged(f"cannot be read ({why(error)})")
        try:
            if len(data) > LARGEST:
                raise ValueError
            plain = json.loads(data)
            if plain["loopwright-made"] != EDITION:
                raise ValueError
            return [_entry(one) for one in plain["made"]]
        except (ValueError, TypeError, KeyError, AttributeError, RecursionError):
            return self._damaged("is damaged, or from another version of this program")

    def _damaged(self, how: str) -> list[Entry]:
        self.troubles.append(
            f"{self.path}: this list of what was made here {how}, so nothing is taken away. It is"
            " written anew; look yourself for what is made no more, or empty the folder and ask"
            " again."
        )
        return []

    def _text(self) -> str:
        """The list, a line for each entry, so that what changes in it can be read."""
        entries = [one for one in self.entries.values() if one.files]
        lines = [
            json.dumps({**one._asdict(), "files": dict(sorted(one.files.items()))})
            for one in sorted(entries, key=lambda one: (one.of, one.by))
        ]
        inner = ",\n".join(lines)
        return f'{{"loopwright-made": {EDITION}, "made": [\n{inner}\n]}}\n'


GONE = "it is gone"


def intact(folder: str, files: dict[str, str]) -> bool:
    """Whether files lie in a folder as they were written."""
    return all(_ours(path) and not _state(folder, path, mark) for path, mark in files.items())


def _state(folder: str, path: str, mark: str) -> str:
    """What has become of a file that was made; nothing where it is as it was."""
    whole = os.path.join(os.path.realpath(folder), *path.split("/"))
    if not os.path.lexists(whole):
        return GONE
    if os.path.realpath(whole) != whole:
        return "a link stands in its place"
    if not os.path.isfile(whole):
        return "it is no file"
    try:
        with open(whole, "rb") as file:
            same = digest(file.read()) == mark
    except OSError as error:
        return f"it cannot be read ({why(error)})"
    return "" if same else "it was changed since"


def _entry(plain: Any) -> Entry:
    """An entry out of the list. Raises ``ValueError`` for anything that we would not write."""
    entry = Entry(*(plain[name] for name in Entry._fields))
    files = entry.files
    if not isinstance(files, dict) or not all(isinstance(one, str) for one in entry[:2]):
        raise ValueError
    if not all(_ours(path) and isinstance(mark, str) for path, mark in files.items()):
        raise ValueError
    return entry


def _ours(path: object) -> bool:
    """Whether a path is one that lies within the folder, written as we write it."""
    if not isinstance(path, str) or "\\" in path or "\0" in path or ":" in path[:2]:
        return False
    return all(word not in ("", ".", "..") for word in path.split("/"))
