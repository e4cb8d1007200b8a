"""The picture that a pattern names: a file beside it, read with care, for who knows who wrote the
pattern. A sheet is made without a picture that cannot be had, and the designer is told why.

    found = beside("mittens.crochet", pattern)
    found.data      the picture, or nothing
    found.troubles  why there is nothing, as a sentence
"""

from __future__ import annotations

import os
import stat
from typing import TYPE_CHECKING

import loopwright
from loopwright.frozen import NamedTuple
from loopwright.repository.files import handed, why

if TYPE_CHECKING:
    from loopwright import Pattern

LARGEST = 8_000_000
"""Bytes of a picture; a telephone's photograph has three to six million."""
MOST_DOTS = 64_000_000
"""Dots of a picture; a telephone's photograph has at most about fifty million."""


class Beside(NamedTuple):
    """A picture: its bytes, the ending of its kind, where it lies, and what it is called beside
    its pattern; or why there is none."""

    data: bytes = b""
    ending: str = ""
    path: str = ""
    name: str = ""
    troubles: tuple[str, ...] = ()


NO_PICTURE = Beside()


class _Refused(Exception):
    """Why a picture is not shown."""


def beside(file: str, pattern: Pattern) -> Beside:
    """The picture that the pattern in ``file`` names, if it names one."""
    return lying_beside(file, pattern.picture) if pattern.picture else NO_PICTURE


def lying_beside(file: str, name: str) -> Beside:
    """The picture of that name beside the pattern in ``file``."""
    try:
        path = _path(file, name)
        data = _read(path)
        ending = _kind(data)
    except _Refused as refused:
        called = "standard input" if file == "-" else file
        said = f"{called}: the picture `{name}` is left out: {refused} Its words stand in for it."
        return Beside(troubles=(said,))
    return Beside(data, ending, os.path.join(os.path.dirname(file), name), name)


def link(found: Beside, out: str | None) -> str:
    """How a page that is written to ``out`` calls the picture; what is printed is taken to be put
    beside the pattern."""
    name = found.name
    if not found.data:
        return ""
    if out is not None:
        try:
            name = os.path.relpath(found.path, os.path.dirname(out) or os.curdir)
        except ValueError:  # another drive
            name = os.path.abspath(found.path)
    return quoted(name)


def quoted(path: str) -> str:
    """A path as an address."""
    from urllib.parse import quote

    return quote(path.replace(os.sep, "/").encode("utf-8", "surrogateescape"))


def _path(file: str, name: str) -> str:
    """Where the picture lies, every link followed."""
    if handed(file):
        raise _Refused("a pattern from standard input lies in no folder.")
    if "\\" in name:
        raise _Refused("write / between the names of folders.")
    if os.path.isabs(name) or os.path.splitdrive(name)[0] or ".." in name.split("/"):
        raise _Refused("it must lie in the folder of the pattern; copy it there.")
    folder = os.path.realpath(os.path.dirname(file) or os.curdir)
    path = os.path.realpath(os.path.join(folder, name))
    if os.path.commonpath([folder, path]) != folder:
        raise _Refused("it is a link that leads out of the folder of the pattern; copy it there.")
    return path


def _read(path: str) -> bytes:
    # Neither a link put there since nor a pipe that nobody writes to is followed or waited for.
    careful = getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_NONBLOCK", 0)
    try:
        number = os.open(path, os.O_RDONLY | getattr(os, "O_BINARY", 0) | careful)
        with open(number, "rb") as file:
            if not stat.S_ISREG(os.fstat(number).st_mode):
                raise _Refused("it is not a file.")
            data = file.read(LARGEST + 1)
    except FileNotFoundError:
        raise _Refused("there is no such file beside the pattern.") from None
    except IsADirectoryError:
        raise _Refused("it is a folder.") from None
    except (OSError, ValueError) as error:
        said = why(error) if isinstance(error, OSError) else str(error)
        raise _Refused(f"it cannot be read ({said}).") from None
    if len(data) > LARGEST:
        most = LARGEST // 1_000_000
        raise _Refused(f"it is larger than {most} MB; save it smaller (1600 dots wide are plenty).")
    return data


def _kind(data: bytes) -> str:
    """The ending of the kind of picture that the bytes are."""
    found = loopwright.pictured(data)
    if found is None:
        raise _Refused("it is no PNG, JPEG, WebP or GIF; save it as one of these.")
    kind, wide, high = found
    if wide * high > MOST_DOTS:
        raise _Refused(
            f"it has {wide:,} by {high:,} dots, and more than {MOST_DOTS // 1_000_000} million "
            "are not shown; save it smaller."
        )
    return "jpg" if kind == "jpeg" else kind
