"""How the code is kept: lint, layout, types, and sizes that can be read at a sitting."""

from __future__ import annotations

import ast
import subprocess
import sys
from pathlib import Path

import pytest

from support import HOUSE, ROOMS, TESTS

PYTHON = sorted([*ROOMS.rglob("*.py"), *TESTS.rglob("*.py"), *(HOUSE / "grammar").glob("*.py")])
COMPILER = [path for path in PYTHON if path.is_relative_to(ROOMS)]
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


@pytest.mark.parametrize("path", PYTHON, ids=lambda path: path.relative_to(HOUSE).as_posix())
def test_a_file_can_be_read_at_a_sitting(path: Path) -> None:
    lines = path.read_text("utf-8").splitlines()
    assert len(lines) <= LONGEST_FILE


@pytest.mark.parametrize("path", COMPILER, ids=lambda path: path.relative_to(ROOMS).as_posix())
def test_a_function_can_be_seen_whole(path: Path) -> None:
    long = {
        node.name: body
        for node in ast.walk(ast.parse(path.read_text("utf-8")))
        if isinstance(node, ast.FunctionDef) and (body := _length(node)) > LONGEST_FUNCTION
    }
    assert long == {}


def _length(function: ast.FunctionDef) -> int:
    """The lines of a function without those of its docstring."""
    end = function.end_lineno or function.lineno
    told = function.body[0] if ast.get_docstring(function) else None
    docs = (told.end_lineno or told.lineno) - told.lineno + 1 if told else 0
    return end - function.lineno + 1 - docs


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
