"""What the command line says, and where: answers on standard output, all else on standard error."""

from __future__ import annotations

import sys

from loopwright.repository.files import CannotLook

CLEAN, FAULTS, CANNOT = 0, 1, 2
"""The exit codes: all is well, a pattern has faults, the program could not look."""


def put(text: str | bytes) -> None:
    """To standard output, as UTF-8 whatever the terminal says, in one piece."""
    out = sys.stdout
    if out is None:
        raise CannotLook("the output cannot be written (it is closed).")
    if hasattr(out, "buffer"):
        out.flush()
        # A file's name need not be text.
        data = text if isinstance(text, bytes) else text.encode("utf-8", "backslashreplace")
        out.buffer.write(data)
        out.buffer.flush()
    elif isinstance(text, str):
        out.write(text)


def say(text: str) -> None:
    from loopwright import visible

    lines = "\n".join(visible(line) for line in text.split("\n"))
    print(lines.encode("ascii", "backslashreplace").decode(), file=sys.stderr)


def coloured() -> bool:
    import os

    out = sys.stdout
    return (
        out is not None
        and out.isatty()
        and "NO_COLOR" not in os.environ
        and os.environ.get("TERM") != "dumb"
    )


def drop_output() -> None:
    """Let what could not be written be forgotten, so that it is not tried again at the end."""
    import os

    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
