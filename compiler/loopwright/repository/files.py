"""Reading and writing: every way in which a file can fail gets a sentence, and a file is written
whole or not at all."""

from __future__ import annotations

import os
import sys
from typing import TYPE_CHECKING

from loopwright.frozen import NamedTuple

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
    """The pattern files at or under each path, in order, each once, by whatever ways it is reached;
    ``-`` is standard input."""
    found: dict[str, str] = {}
    known: dict[str, str] = {}
    for path in paths:
        if handed(path) or os.path.isfile(path):
            found.setdefault(_itself(path, known), path)
        elif os.path.isdir(path):
            under = _under(path)
            if not under:
                raise CannotLook(f"{path}: there is no {ENDING} file in this folder.")
            for one in under:
                found.setdefault(_itself(one, known), one)
        else:
            _refuse(path)
    return list(found.values())


def _itself(path: str, known: dict[str, str]) -> str:
    """What a file is known by, whatever way leads to its folder. A link to a file counts by its own
    name: what it uses goes from where it lies."""
    if handed(path):
        return path
    folder, name = os.path.split(path)
    if folder not in known:
        known[folder] = os.path.realpath(folder or os.curdir)
    return os.path.join(known[folder], name)


def handed(path: str) -> bool:
    """Whether a path is no file in a folder but what was handed to this process: ``-``, or a stream
    by its number, as a shell writes ``<(...)``."""
    return path == "-" or _number(path) is not None


def _number(path: str) -> int | None:
    """The number of a stream that is given as a path."""
    for before in ("/dev/fd/", "/proc/self/fd/"):
        number = path.removeprefix(before)
        if number != path and number.isdecimal() and number.isascii() and len(number) < 7:
            return int(number)
    return 0 if path == "/dev/stdin" else None


def _refuse(path: str) -> None:
    """Raise ``CannotLook`` for what is neither a file nor a folder."""
    refuse_pipe(path)
    there = os.path.exists(path)
    what = "this is no file and no folder" if there else "there is no such file or folder"
    raise CannotLook(f"{_shown(path)}: {what}.")


def refuse_pipe(path: str) -> None:
    """Raise ``CannotRead`` for a pipe: who opens one waits until somebody writes into it."""
    import stat

    try:
        if not stat.S_ISFIFO(os.stat(path).st_mode):
            return
    except (OSError, ValueError):
        return  # opening it says why
    raise CannotRead(
        f"{path}: this is a pipe, and no file. Give - in its place, and the text on standard input,"
        f" as in `loopwright check - < {path}`."
    )


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
            number = _number(path)
            if number is None:
                refuse_pipe(path)
            # A stream is read where it stands: to open it by its path may mean to wait for ever.
            with open(path if number is None else os.dup(number), "rb") as file:
                data = file.read(LARGEST + 1)
    except OSError as error:
        raise CannotRead(f"{path}: this file cannot be read ({why(error)}).") from None
    return decoded(path, data)


def decoded(path: str, data: bytes) -> str:
    """The text that the bytes of a file are. Raises ``CannotRead``."""
    if len(data) > LARGEST:
        raise CannotRead(
            f"{path}: this file is larger than {LARGEST // 1_000_000} MB, the most that is read."
        )
    try:
        return data.decode("utf-8").removeprefix("\ufeff")
    except UnicodeDecodeError as error:
        line = len((data[: error.start] + b".").splitlines())
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


def write(path: str, text: str | bytes, *, if_changed: bool = False) -> bool:
    """Write a file whole, or leave it as it was; text as UTF-8. With ``if_changed`` a file that has
    these bytes already is not touched, so that it keeps its date. Whether it was written. Raises
    ``CannotLook``."""
    if if_changed and _has(path, as_bytes(text)):
        return False
    write_pieces(path, (text,))
    return True


def as_bytes(text: str | bytes) -> bytes:
    """What is written of a text. A file's name in it need not be text."""
    return text if isinstance(text, bytes) else text.encode("utf-8", "backslashreplace")


def _has(path: str, data: bytes) -> bool:
    """Whether a plain file has these bytes."""
    try:
        if not os.path.isfile(path) or os.path.getsize(path) != len(data):
            return False
        with open(path, "rb") as file:
            return file.read(len(data) + 1) == data
    except OSError:
        return False


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
            file.write(as_bytes(one))


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


class Wrote(NamedTuple):
    """What became of files: those that were written, and those that had these bytes already."""

    written: list[str]
    unchanged: list[str]


def write_all(folder: str, files: Iterable[tuple[str, str | bytes]]) -> Wrote:
    """Write files, as (path, text or bytes), into a folder, where they have changed. Raises
    ``CannotLook``."""
    make_folder(folder)
    wrote = Wrote([], [])
    for path, data in files:
        whole = os.path.join(folder, path)
        make_folder(os.path.dirname(whole))
        (wrote.written if write(whole, data, if_changed=True) else wrote.unchanged).append(whole)
    return wrote


def listing(wrote: Wrote, gone: Iterable[str] = ()) -> str:
    """The list of what became of files, for the reader."""
    kinds = {"Written": wrote.written, "Unchanged": wrote.unchanged, "Taken away": [*gone]}
    return "".join(
        f"{kind}:\n" + "".join(f"  {path}\n" for path in paths)
        for kind, paths in kinds.items()
        if paths
    )


def _shown(path: str) -> str:
    return path or "the empty name"


def why(error: OSError) -> str:
    """What the system has against it, for a sentence."""
    return (error.strerror or str(error)).lower()
