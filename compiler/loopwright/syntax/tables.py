"""The parser's tables: of what Lark makes of grammar/pattern.lark, what reading a line takes.

    load()               the tables, from the cache folder or made and put there
    build(text)          the tables of a grammar, made by Lark (LALR)

To make them takes a third of a second, and to import Lark a fifth of a check; so they are kept in a
cache folder of the user's own, in Python's own short form of plain values, and Lark is only asked
where there are none. ``automaton`` runs them.
"""

from __future__ import annotations

import io
import marshal
import re
import sys
from collections.abc import Collection
from contextlib import suppress
from typing import TYPE_CHECKING, Any
from zlib import crc32

from loopwright import kept
from loopwright.frozen import NamedTuple
from loopwright.grammar import GRAMMAR

if TYPE_CHECKING:
    from lark import Lark
    from lark.lexer import TerminalDef

# fmt: off
STARTS = [
    "sizes_line", "picture_line", "use_line", "measure_line", "yarn_line", "hook_line",
    "gauge_line", "count_line", "stitch_line", "allowance_line", "kit_line", "pace_line",
    "part_line", "start_line", "stripes_line", "comes_line", "seam_line", "gather_line",
    "row_line", "repeat_line", "braces_only",
]
# fmt: on

LAYOUT = 3
"""The number of what is kept in the cache; raise it when the tables change."""


class Rule(NamedTuple):
    """What becomes of the values of a rule when it is complete: ``size`` of them are taken.

    ``name`` is that of the node they make, ``origin`` the symbol that the automaton goes on with.
    ``opened`` tells of each value whether what it holds takes its place, or is None where none
    is; ``inlined`` values are such themselves. One that ``gives_way`` makes no node of a single
    value.
    """

    name: str
    origin: str
    size: int
    opened: tuple[bool, ...] | None
    inlined: bool
    gives_way: bool


class Tables(NamedTuple):
    """The automaton, its rules, and its words.

    A row of ``states`` says what to do when a word of a kind comes, or a rule is complete: go to a
    state (0 and above), or take the values of rule ``~number`` (below). ``patterns`` are the kinds
    of words with their expressions, in the order in which they are tried; those in ``ignored`` are
    passed over. ``written`` are the words and signs that have one form only, and ``own`` says of
    a kind with many forms which of them are words of the notation's own.
    """

    starts: dict[str, int]
    ends: dict[str, int]
    states: list[dict[str, int]]
    rules: list[Rule]
    patterns: list[tuple[str, str]]
    ignored: frozenset[str]
    written: dict[str, str]
    own: dict[str, dict[str, str]]


def lark_of(grammar: str, **options: Any) -> Lark:
    """Lark's own parser of a grammar; ``strict=True`` raises on any ambiguity in it."""
    from lark import Lark

    return Lark(
        grammar,
        parser="lalr",
        start=STARTS,
        keep_all_tokens=True,
        maybe_placeholders=False,
        **options,
    )


def build(grammar: str) -> Tables:
    """The tables of a grammar's text."""
    from lark.grammar import Rule as LarkRule
    from lark.lexer import TerminalDef

    lark = lark_of(grammar, lexer="basic")
    told, memo = lark.memo_serialize([TerminalDef, LarkRule])
    table = told["parser"]["parser"]
    rules = {one["@"]: number for number, one in enumerate(told["rules"])}
    tokens = {int(at): str(name) for at, name in table["tokens"].items()}
    numbers = {state: number for number, state in enumerate(table["states"])}
    shared: dict[tuple[tuple[str, int], ...], dict[str, int]] = {}
    states = []
    for row in table["states"].values():
        actions = {
            tokens[token]: ~rules[to["@"]] if reduces else numbers[to]
            for token, (reduces, to) in row.items()
        }
        states.append(shared.setdefault(tuple(sorted(actions.items())), actions))
    terminals = _in_order(lark.terminals)
    return Tables(
        {start: numbers[state] for start, state in table["start_states"].items()},
        {start: numbers[state] for start, state in table["end_states"].items()},
        states,
        [_rule(memo[one["@"]]) for one in told["rules"]],
        [(one.name, one.pattern.to_regexp()) for one in terminals],
        frozenset(told["parser"]["lexer_conf"]["ignore"]),
        {one.name: one.pattern.value for one in terminals if one.pattern.type == "str"},
        _own(terminals),
    )


def _rule(told: dict[str, Any]) -> Rule:
    """A rule as Lark tells it: a name with `_` before it takes no part in the tree."""
    origin, options = told["origin"]["name"], told["options"]
    opened = tuple(
        one["__type__"] == "NonTerminal" and one["name"].startswith("_")
        for one in told["expansion"]
    )
    assert opened, f"{origin} could be nothing, and stand nowhere"
    return Rule(
        sys.intern(told["alias"] or origin),
        sys.intern(origin),
        len(opened),
        opened if any(opened) else None,
        origin.startswith("_"),
        options["expand1"] and not told["alias"],
    )


def _in_order(terminals: Collection[TerminalDef]) -> list[TerminalDef]:
    """The kinds of words in the order in which Lark tries them."""
    return sorted(
        terminals,
        key=lambda one: (
            -one.priority,
            -one.pattern.max_width,
            -len(one.pattern.value),
            one.name,
        ),
    )


def _own(terminals: list[TerminalDef]) -> dict[str, dict[str, str]]:
    """The notation's words among the forms of each kind that has many."""
    literals = [one for one in terminals if one.pattern.type == "str"]
    found = {}
    for many in terminals:
        if many.pattern.type == "re":
            form = re.compile(many.pattern.to_regexp())
            words = {
                one.pattern.value: one.name
                for one in literals
                if one.priority == many.priority and form.fullmatch(one.pattern.value)
            }
            if words:
                found[many.name] = words
    return found


# ------------------------------------------------------------------ the cache
def load() -> Tables:
    """The tables from the cache, or made and put there."""
    with io.FileIO(GRAMMAR) as file:
        grammar = file.readall()
    if kept.cache_folder() is None:
        return build(grammar.decode())
    starts = " ".join(STARTS).encode()
    mark = f"{LAYOUT}-{crc32(grammar + starts):08x}-{sys.implementation.cache_tag}"
    name = f"grammar-{mark}.bin"
    try:
        return _read(name)
    except Exception:
        pass  # whatever is wrong with a cache is mended by making it anew
    tables = build(grammar.decode())
    with suppress(OSError):
        _write(name, tables)
    return tables


def _read(name: str) -> Tables:
    """The tables as they were kept."""
    plain = Tables._make(marshal.loads(kept.read(name)))
    return plain._replace(rules=[Rule._make(one) for one in plain.rules])


def _write(name: str, tables: Tables) -> None:
    plain = tables._replace(rules=[tuple(one) for one in tables.rules])  # type: ignore[misc]
    kept.write(name, marshal.dumps(tuple(plain)))
