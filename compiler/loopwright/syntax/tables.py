"""The tables by which a line is parsed: Lark makes them from grammar/pattern.lark.

That takes a fifth of a second, and to import Lark alone takes longer than to check a pattern, so
the tables are kept as plain data in a cache folder of the user's own, and Lark is asked only when
the grammar is new. A missing, damaged or unwritable cache costs time and nothing else.
"""

from __future__ import annotations

import io
import marshal
import os
import re
import sys
from contextlib import suppress
from typing import TYPE_CHECKING, Any, NamedTuple
from zlib import crc32

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

LAYOUT = 1
"""The number of this layout of the cache; another layout, another number."""


Rule = tuple[str, int, str, bool, tuple[int, ...]]
"""A rule of the grammar, as (rule, size, label, single, inlined): the last ``size`` parts become a
node ``label``, and the parser goes on as after a ``rule``. One that is ``single`` makes no node of
an only child. The parts at ``inlined`` put their children in their own place; a rule that is
inlined itself has no label."""


class Tables(NamedTuple):
    """What the parser goes by.

    ``actions`` tell by state, for a terminal or a rule, the state to go to, or, below nought, that
    rule number ``~n`` is complete before it. ``starts`` and ``ends`` are the states before and
    after each start rule. ``patterns`` are all terminals as regular expressions, first come first
    served; ``literals`` those of them that are written in one way only, ``words`` those of these
    that look like a ``NAME``, by what is written; ``ignored`` may stand between words.
    """

    actions: list[dict[str, int]]
    starts: dict[str, int]
    ends: dict[str, int]
    rules: list[Rule]
    patterns: dict[str, str]
    literals: dict[str, str]
    words: dict[str, str]
    ignored: tuple[str, ...]


def build(grammar: str, *, strict: bool = False) -> Lark:
    """Lark's own parser for the grammar's text; ``strict`` raises on any ambiguity in it."""
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


def tables_of(parser: Any) -> Tables:
    """The tables of one of Lark's parsers."""
    table = parser.parser.parser._parse_table
    terminals = parser.parser.lexer.root_lexer.terminals
    literals = {one.name: one.pattern.value for one in terminals if one.pattern.type == "str"}
    name = re.compile(parser.get_terminal("NAME").pattern.to_regexp())
    return Tables(
        _actions(parser.rules, table.states),
        dict(table.start_states),
        dict(table.end_states),
        [_rule(rule) for rule in parser.rules],
        {one.name: one.pattern.to_regexp() for one in terminals},
        literals,
        {text: kind for kind, text in literals.items() if name.fullmatch(text)},
        tuple(parser.ignore_tokens),
    )


def _actions(rules: list[Any], states: dict[int, Any]) -> list[dict[str, int]]:
    numbers = {rule: ~number for number, rule in enumerate(rules)}
    return [
        {str(symbol): numbers.get(to, to) for symbol, (_, to) in states[state].items()}
        for state in range(len(states))
    ]


def _rule(rule: Any) -> Rule:
    name = str(rule.origin.name)
    label = "" if name.startswith("_") else str(rule.alias or name)
    parts = enumerate(rule.expansion)
    inlined = tuple(at for at, part in parts if not part.is_term and part.name.startswith("_"))
    single = bool(rule.options.expand1 and not rule.alias)
    return name, len(rule.expansion), label, single, inlined


# ------------------------------------------------------------------ the cache
def load() -> Tables:
    """The tables of grammar/pattern.lark, from the cache where they are in it."""
    with io.FileIO(GRAMMAR) as file:
        grammar = file.readall()
    folder = cache_folder()
    if folder is None:
        return tables_of(build(grammar.decode()))
    python = ".".join(map(str, sys.version_info[:2]))
    kept = os.path.join(folder, f"grammar-{LAYOUT}-{crc32(grammar):08x}-py{python}.bin")
    try:
        return _read(folder, kept)
    except (OSError, ValueError, EOFError, TypeError):
        pass  # whatever is wrong with a cache is mended by building anew
    tables = tables_of(build(grammar.decode()))
    with suppress(OSError):
        _write(folder, kept, tables)
    return tables


def cache_folder() -> str | None:
    """The user's own cache folder for this program, or None where there is no home for one."""
    base = os.environ.get("XDG_CACHE_HOME") or os.environ.get("LOCALAPPDATA")
    if base and os.path.isabs(base):
        return os.path.join(base, "loopwright")
    home = os.path.expanduser("~")
    return os.path.join(home, ".cache", "loopwright") if os.path.isabs(home) else None


def _own(path: str) -> bool:
    """Whether a file or folder is this user's and nobody else may write it."""
    if not hasattr(os, "getuid"):
        return True
    info = os.stat(path)
    return info.st_uid == os.getuid() and not info.st_mode & 0o022


def _read(folder: str, kept: str) -> Tables:
    """Read the tables. Raises where they are missing, damaged or another's."""
    if not (_own(folder) and _own(kept)):
        raise ValueError("another user may have written this")
    with io.FileIO(kept) as file:
        data = file.readall()
    mark, data = data[:4], data[4:]
    if mark != crc32(data).to_bytes(4, "big"):
        raise ValueError("this is damaged")
    return Tables(*marshal.loads(data))


def _write(folder: str, kept: str, tables: Tables) -> None:
    os.makedirs(folder, mode=0o700, exist_ok=True)
    if not _own(folder):
        return
    data = marshal.dumps(tuple(tables))
    part = f"{kept}.{os.getpid()}.part"
    with io.FileIO(part, "w") as file:
        file.write(crc32(data).to_bytes(4, "big") + data)
    os.replace(part, kept)
