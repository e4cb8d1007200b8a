"""What git answers. It is asked nothing that changes anything.

ask("patterns", "rev-parse", "--show-toplevel", option="--changed") -> "/home/.../house\\n"
"""

from __future__ import annotations

import os

from loopwright.repository.files import CannotLook

LONGEST_WAIT = 60
"""Seconds that git may take to answer."""


def ask(folder: str, *arguments: str, option: str, may_fail: bool = False) -> str:
    """What git answers to a question about a folder, asked for the sake of an ``option``; nothing
    where it ``may_fail`` and does. Raises ``CannotLook``."""
    code, out, said = answered(folder, *arguments, option=option)
    if code and may_fail:
        return ""
    if code:
        raise CannotLook(f"{option} asks git, which says: {_first_line(said)}")
    return os.fsdecode(out)


def answered(
    folder: str, *arguments: str, option: str, given: bytes = b""
) -> tuple[int, bytes, bytes]:
    """The exit code of git, what it answered and what it complained of. Raises ``CannotLook`` where
    it is not there."""
    import subprocess

    try:
        done = subprocess.run(
            ["git", "-C", folder, "-c", "core.quotePath=false", *arguments],
            input=given,
            capture_output=True,
            timeout=LONGEST_WAIT,
            check=False,
        )
    except FileNotFoundError:
        raise CannotLook(f"{option} asks git, and git is not installed.") from None
    except subprocess.TimeoutExpired:
        raise CannotLook(f"{option} asks git, and git did not answer in time.") from None
    return done.returncode, done.stdout, done.stderr


def _first_line(said: bytes) -> str:
    lines = os.fsdecode(said).strip().split("\n")
    return lines[0].removeprefix("fatal: ") or "nothing"
