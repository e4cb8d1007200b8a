"""Reading and writing: every way in which a file can fail gets a sentence, and a file is written
whole or not at all."""

from __future__ import annotations

import os
import sys
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

ENDING = ".crochet"
LARGEST = 1_000_000
"""Bytes in one pattern file; a book of five hundred pages of rows is smaller."""


class CannotLook(Exception):
    """A file that cannot be read or written; the text says why."""


class CannotRead(CannotLook):
    """A pattern that cannot be read, which says nothing against others beside it."""


def find(paths: list[str]) -> list[str]:
    """The pattern files at or under each path, in order, each once; ``-`` is standard input."""
    found: dict[str, None] = {}
    for path in paths:
        if path == "-" or os.path.isfile(path):
            found[path] = None
        elif os.path.isdir(path):
            under = _under(path)
            if not under:
                raise CannotLook(f"{path}: there is no {ENDING} file in this folder.")
            found.update(dict.fromkeys(under))
        else:
            raise CannotLook(f"{_shown(path)}: there is no such file or folder.")
    return list(found)


def _under(folder: str) -> list[str]:
    out: list[str] = []
    for at, folders, files in os.walk(folder, onerror=_cannot_list):
        folders[:] = sorted(one for one in folders if not one.startswith("."))
        out.extend(os.path.join(at, one) for one in sorted(files) if one.endswith(ENDING))
    return sorted(out)


def _cannot_list(error: OSError) -> None:
    raise CannotLook(f"{error.filename}: this folder cannot be read ({why(error)}).")


def read(path: str) -> str:
    """A pattern's text. Raises ``CannotRead``."""
    try:
        if path == "-":
            if sys.stdin is None:
                raise CannotRead("standard input cannot be read (it is closed).")
            data = sys.stdin.buffer.read(LARGEST + 1)
        else:
            with open(path, "rb") as file:
                data = file.read(LARGEST + 1)
    except OSError as error:
        raise CannotRead(f"{path}: this file cannot be read ({why(error)}).") from None
    if len(data) > LARGEST:
        raise CannotRead(
            f"{path}: this file is larger than {LARGEST // 1_000_000} MB, the most that is read."
        )
    try:
        return data.decode("utf-8").removeprefix("\ufeff")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        raise CannotRead(
            f"{path}: line {line} is not UTF-8 text. Save the file as UTF-8 in your editor."
        ) from None


def answer_to(path: str, pieces: Iterable[str | bytes], asked: Iterable[str] = ()) -> None:
    """Write an answer to the file that was named for it, whole or not at all; never in the place
    of a pattern, or of a file that was ``asked`` about. Raises ``CannotLook``."""
    target = os.path.realpath(path)
    if target.endswith(ENDING) or path.endswith(ENDING):
        why_not = "this is the name of a pattern"
    elif target in map(os.path.realpath, asked):
        why_not = "this is the file that is asked about"
    else:
        write_pieces(path, pieces)
        return
    raise CannotLook(f"{path}: {why_not}, which would be lost. Give another name after -o.")


def write(path: str, text: str | bytes) -> None:
    """Write a file whole, or leave it as it was; text as UTF-8. Raises ``CannotLook``."""
    write_pieces(path, (text,))


def in_one_piece(pieces: Iterable[str]) -> Iterator[str]:
    """The same text, none of it before the last of it is there; it waits on disc, not in memory."""
    from tempfile import TemporaryFile

    with TemporaryFile("w+", encoding="utf-8", newline="", errors="surrogateescape") as file:
        file.writelines(pieces)
        file.seek(0)
        while piece := file.read(1 << 20):
            yield piece


def write_pieces(path: str, pieces: Iterable[str | bytes]) -> None:
    """Write a file whole, or leave it as it was, from pieces that are made on the way; text as
    UTF-8. Raises ``CannotLook``."""
    # A link stays a link: what it leads to is written.
    target = os.path.realpath(path)
    try:
        if not path or os.path.isdir(target):
            raise IsADirectoryError(None, "it is a folder")
        if os.path.exists(target) and not os.path.isfile(target):
            _put(target, pieces)  # a pipe or a device cannot be replaced
        else:
            _replace(target, pieces)
    except OSError as error:
        raise CannotLook(f"{_shown(path)}: this file cannot be written ({why(error)}).") from None


def _put(target: str, pieces: Iterable[str | bytes]) -> None:
    with open(target, "wb") as file:
        for one in pieces:
            # A file's name need not be text.
            file.write(one if isinstance(one, bytes) else one.encode("utf-8", "backslashreplace"))


def _replace(target: str, pieces: Iterable[str | bytes]) -> None:
    folder, name = os.path.split(target)
    part = os.path.join(folder, f".{name}.{os.getpid()}.part")
    _clear_up(folder, name)
    try:
        _put(part, pieces)
        if os.path.exists(target):
            os.chmod(part, os.stat(target).st_mode & 0o7777)
        os.replace(part, target)
    finally:
        if os.path.exists(part):
            os.unlink(part)


def _clear_up(folder: str, name: str) -> None:
    """Take away what a run that was killed left half-written beside a file."""
    from contextlib import suppress

    begins, ends = f".{name}.", ".part"
    with suppress(OSError):
        for one in os.listdir(folder):
            pid = one[len(begins) : -len(ends)]
            if one == f"{begins}{pid}{ends}" and pid.isdecimal() and not _running(int(pid)):
                with suppress(OSError):
                    os.unlink(os.path.join(folder, one))


def _running(pid: int) -> bool:
    if os.name != "posix":
        return True  # there is no asking without a signal
    try:
        os.kill(pid, 0)
    except ProcessLookupError:
        return False
    except OSError:
        return True
    return True


def make_folder(path: str) -> None:
    """Make a folder and those above it. Raises ``CannotLook``."""
    try:
        os.makedirs(path, exist_ok=True)
    except OSError as error:
        raise CannotLook(f"{path}: this folder cannot be made ({why(error)}).") from None


def write_all(folder: str, files: Iterable[tuple[str, str | bytes]]) -> str:
    """Write files, as (path, text or bytes), into a folder; the list of them for the reader.
    Raises ``CannotLook``."""
    make_folder(folder)
    written = []
    for path, data in files:
        written.append(os.path.join(folder, path))
        make_folder(os.path.dirname(written[-1]))
        write(written[-1], data)
    return "Written:\n" + "".join(f"  {path}\n" for path in written)


def _shown(path: str) -> str:
    return path or "the empty name"


def why(error: OSError) -> str:
    """What the system has against it, for a sentence."""
    return (error.strerror or str(error)).lower()
