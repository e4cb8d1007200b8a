"""The package as others get it: built as an sdist, a wheel from that, installed where nothing else
is; and an editable install. Both read the one grammar that the repository has."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import tomllib
import zipfile
from pathlib import Path

import pytest

from support import HOUSE, ROOMS

LEFT_OUT = shutil.ignore_patterns(
    ".*", "tests", "build", "dist", "out", "*.egg-info", "__pycache__", "*.pyc"
)


@pytest.fixture
def copy(tmp_path: Path) -> Path:
    """The repository as it would be checked out, so that building leaves no traces in it."""
    return Path(shutil.copytree(HOUSE, tmp_path / "copy", ignore=LEFT_OUT))


def run(*command: str | Path, at: Path) -> str:
    """Run a command in a folder, with nothing of this test's environment; what it printed."""
    ours = ("PYTHON", "PIP_REQUIRE", "VIRTUAL_ENV")
    env = {key: value for key, value in os.environ.items() if not key.startswith(ours)}
    done = subprocess.run(
        [str(one) for one in command],
        cwd=at,
        env=env,
        capture_output=True,
        text=True,
        timeout=300,
        check=False,
    )
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout


def environment(folder: Path, *install: str) -> Path:
    """A fresh environment with something installed; its folder of commands."""
    run(sys.executable, "-m", "venv", folder, at=folder.parent)
    commands = folder / ("Scripts" if os.name == "nt" else "bin")
    run(commands / "python", "-m", "pip", "install", "-q", *install, at=folder.parent)
    return commands


def works(commands: Path, examples: Path, elsewhere: Path) -> None:
    """Every command that needs something from the package, from a folder far from it."""
    elsewhere.mkdir()
    loopwright = commands / "loopwright"
    assert "every count comes out." in run(loopwright, "check", examples, at=elsewhere)
    mittens = examples / "breakwater-mittens.crochet"
    for form in ("text", "markdown", "html"):
        told = run(loopwright, "sheet", mittens, "--form", form, "--terms", "us", at=elsewhere)
        assert "Breakwater Mittens" in told
    assert "<svg" in run(loopwright, "chart", mittens, at=elsewhere)
    french = run(loopwright, "sheet", mittens, "--language", "fr", at=elsewhere)
    assert "Mercerie: une aiguille à laine" in french
    assert "Rnd 1" in run(loopwright, "sheet", mittens, "--style", "compact", at=elsewhere)
    run(loopwright, "build", mittens, "-o", "out", at=elsewhere)
    assert list((elsewhere / "out").glob("*.html"))
    assert "count-differs" in run(loopwright, "explain", at=elsewhere)
    project = tomllib.loads((HOUSE / "pyproject.toml").read_text("utf-8"))["project"]
    version = run(loopwright, "--version", at=elsewhere)
    assert version == f"loopwright {project['version']}\n"


def grammar_of(commands: Path, elsewhere: Path) -> Path:
    """Where the installed package has its grammar."""
    ask = "import loopwright.grammar as g; print(g.GRAMMAR)"
    return Path(run(commands / "python", "-c", ask, at=elsewhere).strip())


def test_a_wheel_by_way_of_an_sdist(copy: Path, tmp_path: Path) -> None:
    run(sys.executable, "-m", "build", "-o", tmp_path / "dist", copy, at=tmp_path)
    (sdist,) = (tmp_path / "dist").glob("*.tar.gz")
    (wheel,) = (tmp_path / "dist").glob("*.whl")
    assert sdist.stat().st_size > 0
    files = {name for name in zipfile.ZipFile(wheel).namelist() if ".dist-info/" not in name}
    assert files == expected_in_a_wheel()
    commands = environment(tmp_path / "env", str(wheel))
    works(commands, HOUSE / "examples", tmp_path / "elsewhere")
    grammar = grammar_of(commands, tmp_path)
    assert grammar.is_relative_to(tmp_path / "env")
    assert grammar.read_bytes() == (HOUSE / "grammar" / "pattern.lark").read_bytes()


def expected_in_a_wheel() -> set[str]:
    """Every module, template and grammar of the repository, and no more."""
    endings = {".py", ".j2", ".css", ".typed", ".toml", ".po", ".mo", ".js"}
    modules = {
        f"loopwright/{path.relative_to(ROOMS).as_posix()}"
        for path in ROOMS.rglob("*")
        if path.suffix in endings
    }
    grammar = {
        f"loopwright/grammar/{path.name}"
        for path in (HOUSE / "grammar").iterdir()
        if path.suffix in {".py", ".lark", ".md"}
    }
    assert "loopwright/grammar/pattern.lark" in grammar
    return modules | grammar


def test_an_editable_install(copy: Path, tmp_path: Path) -> None:
    commands = environment(tmp_path / "env", "-e", str(copy))
    works(commands, copy / "examples", tmp_path / "elsewhere")
    assert grammar_of(commands, tmp_path) == copy / "grammar" / "pattern.lark"
    # What is changed in the checkout is changed for the command.
    init = copy / "compiler" / "loopwright" / "__init__.py"
    text = init.read_text("utf-8")
    changed = text.replace('__version__ = "', '__version__ = "9.')
    assert changed != text
    init.write_text(changed, "utf-8")
    assert run(commands / "loopwright", "--version", at=tmp_path).startswith("loopwright 9.")
