"""The parser: Lark (LALR, contextual lexer) over grammar/pattern.lark, one logical line at a time.

Building the tables takes a fifth of a second, so they are kept in a cache folder of the user's
own (never a shared one: the cache is a pickle). A missing, damaged or unwritable cache only costs
time. The same line is never parsed twice in a process.
"""

from __future__ import annotations

import os
import sys
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from loopwright import __version__
from loopwright.grammar import GRAMMAR
from loopwright.syntax.tree import Node

if TYPE_CHECKING:
    from lark import Lark

# fmt: off
STARTS = [
    "sizes_line", "picture_line", "measure_line", "yarn_line", "hook_line", "gauge_line",
    "count_line", "stitch_line", "part_line", "start_line", "stripes_line", "comes_line",
    "seam_line", "gather_line", "row_line", "repeat_line", "braces_only",
]
# fmt: on

MOST_KEPT = 50_000
"""Lines whose trees are kept; past it the store starts afresh."""

DEEPEST = 40
"""Brackets within brackets; a pattern that a maker can follow stays far below."""


class Misread(NamedTuple):
    """Where a line stopped making sense: the offending stretch and what could stand there."""

    start: int
    end: int
    found: str
    expected: frozenset[str]
    reason: str = ""


_parser: Lark | None = None
_trees: dict[tuple[str, str], Node | Misread] = {}


def cache_folder() -> Path | None:
    """The user's own cache folder for this program, or None where there is no home for one."""
    base = os.environ.get("XDG_CACHE_HOME") or os.environ.get("LOCALAPPDATA")
    if base and os.path.isabs(base):
        return Path(base) / "loopwright"
    home = os.path.expanduser("~")
    return Path(home) / ".cache" / "loopwright" if os.path.isabs(home) else None


def build(grammar: str, *, strict: bool = False) -> Lark:
    """Build the parser from the grammar's text; ``strict`` raises on any ambiguity in it."""
    from lark import Lark

    return Lark(
        grammar,
        parser="lalr",
        lexer="contextual",
        start=STARTS,
        keep_all_tokens=True,
        maybe_placeholders=False,
        tree_class=Node,
        strict=strict,
    )


def _own(path: Path) -> bool:
    """Whether a file or folder is this user's and nobody else may write it."""
    if not hasattr(os, "getuid"):
        return True
    info = path.stat()
    return info.st_uid == os.getuid() and not info.st_mode & 0o022


def load() -> Lark:
    """The parser from the cache, or built and put there."""
    import lark

    grammar = Path(GRAMMAR).read_text(encoding="utf-8")
    folder = cache_folder()
    if folder is None:
        return build(grammar)
    from zlib import crc32

    mark = crc32(grammar.encode())
    python = ".".join(map(str, sys.version_info[:3]))
    kept = folder / f"grammar-{__version__}-{mark:08x}-lark{lark.__version__}-py{python}.bin"
    try:
        if _own(folder) and _own(kept):
            return _from_cache(lark.Lark, kept.read_bytes())
    except Exception:
        pass  # whatever is wrong with a cache is mended by building anew
    parser = build(grammar)
    try:
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        if _own(folder):
            out = BytesIO()
            parser.save(out)
            part = kept.with_suffix(f".{os.getpid()}.part")
            data = out.getvalue()
            part.write_bytes(crc32(data).to_bytes(4, "big") + data)
            os.replace(part, kept)
    except Exception:
        pass
    return parser


def _from_cache(lark: type[Lark], data: bytes) -> Lark:
    """The parser as it was saved, behind four bytes that tell whether it still is."""
    import pickle
    from zlib import crc32

    if crc32(data[4:]).to_bytes(4, "big") != data[:4]:
        raise ValueError("the cache is damaged")
    kept = pickle.loads(data[4:])
    made = lark.__new__(lark)
    return made._load({"data": kept["data"], "memo": kept["memo"]}, tree_class=Node)


def parser() -> Lark:
    """The parser, loaded once in a process."""
    global _parser
    if _parser is None:
        _parser = load()
    return _parser


def literal(terminal: str) -> str:
    """How a word or sign of the grammar is written; empty for one that has many forms."""
    try:
        pattern = parser().get_terminal(terminal).pattern
    except KeyError:
        return ""
    return str(pattern.value) if pattern.type == "str" else ""


def parse(start: str, text: str) -> Node | Misread:
    """Parse one logical line with the start rule of its label."""
    key = (start, text)
    tree = _trees.get(key)
    if tree is None:
        tree = _parse(start, text)
        if len(_trees) >= MOST_KEPT:
            _trees.clear()
        _trees[key] = tree
    return tree


def _parse(start: str, text: str) -> Node | Misread:
    from lark import UnexpectedCharacters, UnexpectedEOF, UnexpectedToken

    deep = _too_deep(text)
    if deep is not None:
        return deep
    try:
        tree = parser().parse(text, start=start)
    except UnexpectedToken as error:
        token = error.token
        expected = frozenset(error.accepts or error.expected)
        if token.type == "$END":
            end = len(text.rstrip())
            return Misread(end, end, "", expected)
        return Misread(token.start_pos or 0, token.end_pos or 0, str(token), expected)
    except UnexpectedCharacters as error:
        at = error.pos_in_stream
        end = at + 1
        while end < len(text) and (text[end].isalnum() or text[end] == "_"):
            end += 1
        return Misread(at, end, text[at:end], frozenset(error.allowed or ()))
    except UnexpectedEOF as error:
        end = len(text.rstrip())
        return Misread(end, end, "", frozenset(error.expected))
    assert isinstance(tree, Node)
    return tree


def _too_deep(text: str) -> Misread | None:
    depth = 0
    for at, char in enumerate(text):
        if char in "([{":
            depth += 1
            if depth > DEEPEST:
                return Misread(at, at + 1, char, frozenset(), "deep")
        elif char in ")]}":
            depth -= 1
    return None
