"""The house's import table, read from the imports themselves: an arrow that is not in it fails.

Functions are read too, so that an import put off till it is needed counts like any other.
"""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

import loopwright
from loopwright.cli import COMMANDS
from support import HOUSE, ROOMS

# The table of the rooms: what each may import of ours. The values that `work` makes are kept in
# `ir`, so that no room between it and pipeline imports `work` itself.
TRADE = {"source", "trade", "diagnostics"}
MAY = {
    "asked": set(),
    "frozen": set(),
    "kept": set(),
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
PIPELINE = ("pipeline", "fitting", "judged", "measured", "bagged", "editions")
PIPELINE += ("editing", "rendering", "cards", "explaining")
API = ("api", "answers", "pattern")
for _name in set(MAY) - {"frozen", "grammar", "asked", "kept"}:
    ROOM_TABLE[_name] = MAY[_name] | {"frozen"}
for _name in ("syntax", "measure"):
    ROOM_TABLE[_name] |= {"kept"}
for _name in PIPELINE:
    ROOM_TABLE[_name] = set(MAY) | set(PIPELINE)
for _name in API:
    ROOM_TABLE[_name] = set(MAY) | set(PIPELINE) | set(API)
# What the command line is made of. Of the rest it has what the package promises to every program.
COMMAND_LINE = ("repository", "cli", "arguments", "plain", "usage", "saying", "checking", "making")
COMMAND_LINE += ("__main__",)
for _name in COMMAND_LINE:
    ROOM_TABLE[_name] = {*COMMAND_LINE, "frozen"}
ROOM_TABLE[""] = {*MAY, *PIPELINE, *API}  # the package itself, which tells types where they are

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
SHUT_IN = {"syntax", "ir", "lower", "work", "checks", "measure", "changes", "render"}
SHUT_IN |= {*PIPELINE, *API}
# The grammar is read from its file. What is built of it is kept, through a module of its own, in a
# folder of the user's.
OPENINGS = {"syntax/tables.py": {"io"}}

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
    return other == room or other in ROOM_TABLE.get(room, set())


OF_THE_COMMAND_LINE = [path for path in MODULES if room_of(name_of(path)) in COMMAND_LINE]


def asked_of_the_package(path: Path) -> Iterator[str]:
    """Every name that a module takes from the package itself: by ``from loopwright import NAME``,
    or by ``loopwright.NAME`` after ``import loopwright``."""
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.ImportFrom) and node.module == "loopwright":
            yield from (one.name for one in node.names if f"loopwright.{one.name}" not in NAMES)
        elif isinstance(node, ast.Attribute) and isinstance(node.value, ast.Name):
            if node.value.id == "loopwright":
                yield node.attr
        elif isinstance(node, ast.Import):
            assert not any(one.asname and one.name[:10] == "loopwright" for one in node.names)


@pytest.mark.parametrize("path", OF_THE_COMMAND_LINE, ids=lambda path: name_of(path))
def test_the_command_line_uses_nothing_but_what_is_promised(path: Path) -> None:
    taken = set(asked_of_the_package(path)) - {"__file__"}
    assert taken <= set(loopwright.__all__)


def test_what_the_command_line_takes_is_seen() -> None:
    taken = {name for path in OF_THE_COMMAND_LINE for name in asked_of_the_package(path)}
    assert {"check", "read", "report", "Verdict", "uses", "overview", "__file__"} <= taken


@pytest.mark.parametrize("path", OF_THE_COMMAND_LINE, ids=lambda path: name_of(path))
def test_the_command_line_imports_nothing_by_a_name_made_up(path: Path) -> None:
    calls = {
        node.func.id if isinstance(node.func, ast.Name) else getattr(node.func, "attr", "")
        for node in ast.walk(ast.parse(path.read_text("utf-8")))
        if isinstance(node, ast.Call)
    }
    made_up = calls & {"import_module", "__import__", "exec", "eval"}
    if name_of(path) == "loopwright.cli":  # the modules of its commands, by the table of them
        assert set(COMMANDS.values()) <= set(COMMAND_LINE)
        made_up -= {"import_module"}
    assert not made_up


def test_the_package_imports_nothing_before_it_is_asked() -> None:
    tree = ast.parse((ROOMS / "__init__.py").read_text("utf-8"))
    top = [one for one in tree.body if isinstance(one, ast.Import | ast.ImportFrom)]
    said = {getattr(one, "module", None) or one.names[0].name for one in top}
    assert not [one for one in said if one.startswith("loopwright")]


@by_module
def test_one_renderer_never_another(path: Path) -> None:
    inside = name_of(path).split(".")
    if inside[1:2] != ["render"]:
        return
    mine = inside[2] if len(inside) > 2 else ""
    theirs = {one.split(".")[2] for one in ours(path) if one.startswith("loopwright.render.")}
    others = theirs - {mine}
    # A sheet is the page around the prose; it is the only one that stands on another. In whose
    # words a renderer speaks, and how text stands in markup, is no renderer, and asks none.
    shared = {"speaker", "markup"}
    assert others <= (shared | {"prose"} if mine == "sheet" else shared)


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
