"""What takes long to work out and never changes, kept in a cache folder of the user's own.

    write("grammar-1.bin", data)    read("grammar-1.bin") -> data

Never a shared folder: what is read there is believed. A missing, damaged or unwritable one only
costs time: whoever keeps something here can make it anew.
"""

from __future__ import annotations

import io
import os
from zlib import crc32


class NotKept(Exception):
    """There is no such thing in the folder, or nothing to be believed."""


def cache_folder() -> str | None:
    """The user's own cache folder for this program, or None where there is no home for one."""
    base = os.environ.get("XDG_CACHE_HOME") or os.environ.get("LOCALAPPDATA")
    if base and os.path.isabs(base):
        return os.path.join(base, "loopwright")
    home = os.path.expanduser("~")
    return os.path.join(home, ".cache", "loopwright") if os.path.isabs(home) else None


def read(name: str) -> bytes:
    """What was kept under a name, behind four bytes that tell whether it still is. Raises
    ``NotKept``."""
    folder = cache_folder()
    if folder is None:
        raise NotKept("there is no folder for it")
    path = os.path.join(folder, name)
    try:
        if not (_own(folder) and _own(path)):
            raise NotKept("somebody else may have written it")
        with io.FileIO(path) as file:
            data = file.readall()
    except OSError as error:
        raise NotKept(str(error)) from None
    if crc32(data[4:]).to_bytes(4, "big") != data[:4]:
        raise NotKept("it is damaged")
    return data[4:]


def write(name: str, data: bytes) -> None:
    """Keep something under a name, whole or not at all. Raises ``OSError``."""
    folder = cache_folder()
    if folder is None:
        return
    os.makedirs(folder, mode=0o700, exist_ok=True)
    if not _own(folder):
        return
    path = os.path.join(folder, name)
    part = f"{path}.{os.getpid()}.part"
    with io.FileIO(part, "w") as file:
        file.write(crc32(data).to_bytes(4, "big") + data)
    os.replace(part, path)


def mark_of(path: str) -> str:
    """A file as it is now, for the name of what was made of it. Raises ``OSError``."""
    info = os.stat(path)
    return f"{info.st_size:x}-{info.st_mtime_ns:x}"


def _own(path: str) -> bool:
    """Whether a file or folder is this user's and nobody else may write it."""
    if not hasattr(os, "getuid"):
        return True
    info = os.stat(path)
    return info.st_uid == os.getuid() and not info.st_mode & 0o022
