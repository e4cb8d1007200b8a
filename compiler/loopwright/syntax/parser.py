"""The parser: Lark (LALR, contextual lexer) over grammar/pattern.lark, one logical line at a time.

Building the tables takes a fifth of a second, so they are kept, as a pickle, in a cache folder of
the user's own. The same line is never parsed twice in a process.
"""

from __future__ import annotations

import io
import sys
from contextlib import suppress
from functools import lru_cache
from typing import TYPE_CHECKING, NamedTuple
from zlib import crc32

from loopwright import kept
from loopwright.grammar import GRAMMAR
from loopwright.syntax.tree import Node

if TYPE_CHECKING:
    from lark import Lark

# fmt: off
STARTS = [
    "sizes_line", "picture_line", "use_line", "measure_line", "yarn_line", "hook_line",
    "gauge_line", "count_line", "stitch_line", "allowance_line", "kit_line", "pace_line",
    "part_line", "start_line", "stripes_line", "comes_line", "seam_line", "gather_line",
    "row_line", "repeat_line", "braces_only",
]
# fmt: on

LAYOUT = 2
"""The number of what is kept in the cache; raise it when nodes or the lexer change."""

MOST_KEPT = 8_000
"""Lines whose trees are kept; past it the one goes that was not asked for longest."""

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


def build(grammar: str, *, strict: bool = False) -> Lark:
    """Build the parser from the grammar's text; ``strict`` raises on any ambiguity in it."""
    from lark import Lark

    from loopwright.syntax.lexer import LazyContextualLexer

    return Lark(
        grammar,
        parser="lalr",
        lexer="contextual",
        start=STARTS,
        keep_all_tokens=True,
        maybe_placeholders=False,
        tree_class=Node,
        strict=strict,
        # Whether the words of each state are unambiguous, Lark finds out in its own lexer.
        _plugins={} if strict else {"ContextualLexer": LazyContextualLexer},
    )


# ------------------------------------------------------------------ the cache
def load() -> Lark:
    """The parser from the cache, or built and put there."""
    with io.FileIO(GRAMMAR) as file:
        grammar = file.readall()
    if kept.cache_folder() is None:
        return build(grammar.decode())
    import lark

    python = ".".join(map(str, sys.version_info[:3]))
    starts = " ".join(STARTS).encode()
    mark = f"{LAYOUT}-{crc32(grammar + starts):08x}-lark{lark.__version__}-py{python}"
    name = f"grammar-{mark}.bin"
    try:
        return _read(name)
    except Exception:
        pass  # whatever is wrong with a cache is mended by building anew
    parser = build(grammar.decode())
    with suppress(OSError):
        _write(name, parser)
    return parser


def _read(name: str) -> Lark:
    """The parser as it was kept."""
    import pickle

    return pickle.loads(kept.read(name))  # type: ignore[no-any-return]


def _write(name: str, parser: Lark) -> None:
    """Keep the parser as it is, before it has read anything: five times as fast to load again as
    what Lark saves, from which it would work everything out anew."""
    import copyreg
    import pickle
    from copy import copy
    from importlib import import_module
    from types import ModuleType

    from lark.parsers.lalr_analysis import Action

    parser = copy(parser)
    for made_from in ("grammar", "source_grammar", "_parse_tree_builder"):
        setattr(parser, made_from, None)
    data = io.BytesIO()
    pickler = pickle.Pickler(data, protocol=5)
    pickler.dispatch_table = {
        **copyreg.dispatch_table,
        ModuleType: lambda module: (import_module, (module.__name__,)),
        Action: lambda action: action.name,  # Lark asks which of its two actions it is by `is`
    }
    pickler.dump(parser)
    kept.write(name, data.getvalue())


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


@lru_cache(MOST_KEPT)
def parse(start: str, text: str) -> Node | Misread:
    """Parse one logical line with the start rule of its label."""
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
        at = error.pos_in_stream or 0
        end = at + 1
        while end < len(text) and (text[end].isalnum() or text[end] == "_"):
            end += 1
        return Misread(at, end, text[at:end], frozenset(error.allowed or ()))
    except UnexpectedEOF as error:
        end = len(text.rstrip())
        return Misread(end, end, "", frozenset(error.expected))
    assert isinstance(tree, Node)
    return tree


def forget() -> None:
    """Forget the trees of all lines."""
    parse.cache_clear()


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
