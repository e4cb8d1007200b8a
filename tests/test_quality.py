"""How the code is kept: lint, layout, types, and sizes that can be read at a sitting."""

from __future__ import annotations

import ast
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

from support import HOUSE, ROOMS

COMPILER = sorted(ROOMS.rglob("*.py"))
LONGEST_FILE = 400
LONGEST_FUNCTION = 40


def tool(*command: str) -> str:
    """What a tool complains of; nothing where it is content."""
    done = subprocess.run(
        [sys.executable, "-m", *command],
        cwd=HOUSE,
        capture_output=True,
        text=True,
        timeout=300,
        check=False,
    )
    return done.stdout + done.stderr if done.returncode else ""


def test_lint() -> None:
    assert tool("ruff", "check", "--no-cache", ".") == ""


def test_layout() -> None:
    assert tool("ruff", "format", "--no-cache", "--check", ".") == ""


def test_types() -> None:
    assert tool("mypy", "--no-error-summary") == ""


@pytest.mark.parametrize("path", COMPILER, ids=lambda path: path.relative_to(ROOMS).as_posix())
def test_a_file_can_be_read_at_a_sitting(path: Path) -> None:
    text = path.read_text("utf-8")
    told = sum(_told(node) for node in ast.walk(ast.parse(text)))
    assert len(text.splitlines()) - told <= LONGEST_FILE


@pytest.mark.parametrize("path", COMPILER, ids=lambda path: path.relative_to(ROOMS).as_posix())
def test_a_function_can_be_seen_whole(path: Path) -> None:
    long = {
        node.name: body
        for node in ast.walk(ast.parse(path.read_text("utf-8")))
        if isinstance(node, ast.FunctionDef) and node.name != "__init__"
        if (body := _length(node)) > LONGEST_FUNCTION
    }
    assert long == {}


def _told(node: ast.AST) -> int:
    """The lines of a docstring: it may be as long as it has something to say."""
    if not isinstance(node, ast.FunctionDef | ast.ClassDef | ast.Module):
        return 0
    if ast.get_docstring(node) is None:
        return 0
    first = node.body[0]
    return (first.end_lineno or first.lineno) - first.lineno + 1


def _length(function: ast.FunctionDef) -> int:
    end = function.end_lineno or function.lineno
    return end - function.lineno + 1 - _told(function)


def test_every_test_is_run_but_those_that_need_more_than_python() -> None:
    told = tomllib.loads((HOUSE / "pyproject.toml").read_text("utf-8"))
    asked = told["tool"]["pytest"]["ini_options"]["testpaths"]
    run = {path for one in asked for path in _tests_of(one)}
    left = {path for path in (HOUSE / "tests").rglob("test_*.py") if path not in run}
    assert {path.parent.name for path in left} == {"browser", "shells"}
    for room in ("browser", "shells"):
        assert f"-m pytest tests/{room}" in (HOUSE / ".ci" / "run").read_text("utf-8")


def _tests_of(asked: str) -> list[Path]:
    folders = sorted(HOUSE.glob(asked))
    assert folders, f"{asked}: there is nothing of that name"
    return [
        path for one in folders for path in ([one] if one.is_file() else one.rglob("test_*.py"))
    ]


def test_ci_runs_the_command_of_the_readme() -> None:
    lines = [line for line in _readme() if "-m pytest" in line]
    assert len(lines) == 1
    script = (HOUSE / ".ci" / "run").read_text("utf-8")
    assert "grep -F -- '-m pytest' README.md" in script
    assert (HOUSE / ".ci" / "run").stat().st_mode & 0o111
    assert "pip install" in lines[0]
    assert "[test]" in lines[0]


def _readme() -> list[str]:
    return (HOUSE / "README.md").read_text("utf-8").splitlines()
