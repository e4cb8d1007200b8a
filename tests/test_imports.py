"""The house's import table, read from the imports themselves: an arrow that is not in it fails.

Functions are read too, so that an import put off till it is needed counts like any other.
"""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

from support import HOUSE, ROOMS

# The table of the rooms: what each may import of ours. The values that `work` makes are kept in
# `ir`, so that no room between it and pipeline imports `work` itself.
TRADE = {"source", "trade", "diagnostics"}
MAY = {
    "frozen": set(),
    "source": set(),
    "trade": set(),
    "diagnostics": {"source"},
    "syntax": {"source", "diagnostics", "grammar"},
    "ir": {"source", "trade"},
    "lower": {"syntax", "ir"} | TRADE,
    "work": {"ir"} | TRADE,
    "checks": {"ir"} | TRADE,
    "measure": {"ir"} | TRADE,
    "changes": {"ir", "measure"} | TRADE,
    "render": {"ir", "measure", "changes"} | TRADE,
    "grammar": set(),
}
ROOM_TABLE = dict(MAY)
PIPELINE = ("pipeline", "report", "fits", "measured")
for _name in set(MAY) - {"frozen", "grammar"}:
    ROOM_TABLE[_name] = MAY[_name] | {"frozen"}
for _name in PIPELINE:
    ROOM_TABLE[_name] = set(MAY) | set(PIPELINE)
COMMAND_LINE = ("cli", "arguments", "saying", "checking", "making")
for _name in ("repository", "api", *COMMAND_LINE, "__main__"):
    ROOM_TABLE[_name] = {*PIPELINE, "repository", "api", *COMMAND_LINE} | MAY["syntax"] - {
        "grammar"
    }
    ROOM_TABLE[_name].add("frozen")
ROOM_TABLE[""] = {"api"}  # the package itself gives other programs what api.py has

# Of a room that others may look into only by its values, the one module that holds them.
ONLY_VALUES = {("repository", "ir"): "loopwright.ir.checked"}
OUTSIDE = {"syntax": {"lark"}, "measure": {"pint"}, "render": {"jinja2", "typst"}}

# fmt: off
WORLD = {
    "asyncio", "fileinput", "ftplib", "glob", "http", "httpx", "io", "logging", "mmap",
    "multiprocessing", "os", "pathlib", "requests", "select", "shelve", "shutil", "socket",
    "sqlite3", "ssl", "subprocess", "tempfile", "threading", "urllib", "webbrowser",
}
# fmt: on
IN_MEMORY = {"StringIO", "BytesIO"}
CALLS = {"open", "input", "print", "exec", "eval", "breakpoint"}
SHUT_IN = ("syntax", "ir", "lower", "work", "checks", "measure", "changes", "render", "pipeline")
# The grammar is read from its file, and what is built of it kept in a folder of the user's own.
OPENINGS = {"syntax/parser.py": {"os", "io", "pathlib"}}

MODULES = sorted([*ROOMS.rglob("*.py"), HOUSE / "grammar" / "__init__.py"])
by_module = pytest.mark.parametrize("path", MODULES, ids=lambda path: name_of(path))


def name_of(path: Path) -> str:
    """A module's full name: `loopwright.work.row`."""
    if path.is_relative_to(ROOMS):
        parts = path.relative_to(ROOMS).with_suffix("").parts
    else:
        parts = path.relative_to(HOUSE).with_suffix("").parts
    return ".".join(("loopwright", *(part for part in parts if part != "__init__")))


def room_of(module: str) -> str:
    """The room a module belongs to; nothing for the package itself."""
    return module.split(".")[1] if "." in module else ""


NAMES = {name_of(path) for path in MODULES}


def imports(path: Path) -> Iterator[str]:
    """The full name of every module that a module imports, wherever in it."""
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.Import):
            yield from (one.name for one in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}: imports are written with their full name"
            base = node.module or ""
            if base == "io" and {one.name for one in node.names} <= IN_MEMORY:
                continue
            for one in node.names:
                whole = f"{base}.{one.name}"
                yield whole if whole in NAMES else base


def ours(path: Path) -> set[str]:
    """What a module imports of ours, the package itself left out."""
    return {one for one in imports(path) if one.startswith("loopwright.")}


@by_module
def test_every_module_belongs_to_a_room(path: Path) -> None:
    room = room_of(name_of(path))
    assert room in ROOM_TABLE or name_of(path) == "loopwright"


@by_module
def test_no_arrow_that_is_not_in_the_table(path: Path) -> None:
    room = room_of(name_of(path))
    wrong = {one for one in ours(path) if not _allowed(room, one)}
    assert not wrong


def _allowed(room: str, module: str) -> bool:
    other = room_of(module)
    if other == room:
        return True
    return other in ROOM_TABLE.get(room, set()) or ONLY_VALUES.get((room, other)) == module


@by_module
def test_one_renderer_never_another(path: Path) -> None:
    inside = name_of(path).split(".")
    if inside[1:2] != ["render"]:
        return
    mine = inside[2] if len(inside) > 2 else ""
    theirs = {one.split(".")[2] for one in ours(path) if one.startswith("loopwright.render.")}
    others = theirs - {mine}
    # A sheet is the page around the prose; it is the only one that stands on another.
    assert others <= ({"prose"} if mine == "sheet" else set())


@by_module
def test_what_comes_from_outside_comes_into_its_own_room(path: Path) -> None:
    heavy = {"lark", "pint", "jinja2", "typst"}
    used = {one.split(".")[0] for one in imports(path)} & heavy
    assert used <= OUTSIDE.get(room_of(name_of(path)), set())


@by_module
def test_no_files_and_no_network_between_syntax_and_pipeline(path: Path) -> None:
    if room_of(name_of(path)) not in SHUT_IN:
        return
    opened = OPENINGS.get(path.relative_to(ROOMS).as_posix(), set())
    used = {one.split(".")[0] for one in imports(path)} & WORLD
    assert used <= opened
    called = {
        node.func.id
        for node in ast.walk(ast.parse(path.read_text("utf-8")))
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name)
    }
    assert not called & CALLS


@by_module
def test_every_module_says_what_it_is_for(path: Path) -> None:
    assert ast.get_docstring(ast.parse(path.read_text("utf-8")))
