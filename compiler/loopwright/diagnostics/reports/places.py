"""How other programs are told of a file and of a code."""

from __future__ import annotations

from posixpath import normpath

from loopwright.diagnostics.model import ADVICE


def address(name: str) -> str:
    """A file as a URI reference: relative where its name is, with `/` between folders."""
    from urllib.parse import quote

    path = name.replace("\\", "/") if name[1:2] == ":" or "\\" in name else name
    shown = quote(normpath(path), safe="/", errors="surrogateescape")
    if path[1:2] == ":":
        return f"file:///{path[:1]}:{quote(normpath(path)[2:], safe='/')}"
    return f"file://{shown}" if path.startswith("/") else shown


def heading(code: str, severity: str, part: str, row: str) -> str:
    """A message in a few words: ``count-differs (advice): cuff, row 3``."""
    kind = " (advice)" if severity == ADVICE else ""
    where = ", ".join(one for one in (part, row) if one)
    return f"{code}{kind}: {where}" if where else f"{code}{kind}"
