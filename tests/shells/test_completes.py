"""Completion in the shells themselves: the script is put where the documentation says, and a line
begun at the keyboard is completed. They come from the system, as the browser does."""

from __future__ import annotations

import os
import pty
import select
import shutil
import subprocess
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from support import run

PATIENCE = 30.0
"""Seconds that a shell may take to answer."""

BEGUN = [
    ("loopwright che", "loopwright check"),
    ("loopwright check --skip", "loopwright check --skip-excluded"),
    ("loopwright check --format sa", "loopwright check --format sarif"),
    ("loopwright chart --kind gr", "loopwright chart --kind grid"),
    ("loopwright completion fi", "loopwright completion fish"),
    ("loopwright sheet mit", "loopwright sheet mittens.crochet"),
    ("loopwright build mittens.crochet -o ou", "loopwright build mittens.crochet -o out/"),
    ("loopwright no-such-command --f", "loopwright no-such-command --f"),
]
begun = pytest.mark.parametrize(("line", "wanted"), BEGUN, ids=[line for line, _ in BEGUN])

# What zsh is told before a key is pressed: no file of the user's is read, and ^X writes down the
# line as it stands.
ZSH = """\
PROMPT='> '
fpath=({folder} $fpath)
autoload -U compinit
compinit -u -D
written() {{ print -rn -- "$BUFFER" > {folder}/line }}
zle -N written
bindkey '^X' written
print ready
"""


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A folder with a pattern and a folder in it."""
    (tmp_path / "mittens.crochet").write_text("", "utf-8")
    (tmp_path / "out").mkdir()
    return tmp_path


@begun
def test_fish_completes(folder: Path, line: str, wanted: str) -> None:
    script = folder / "loopwright.fish"
    script.write_text(run("completion", "fish").out, "utf-8")
    ask = f"source {script}; complete -C '{line}'"
    done = subprocess.run(
        [_shell("fish"), "--no-config", "-c", ask],
        capture_output=True,
        text=True,
        cwd=folder,
        timeout=PATIENCE,
        check=True,
    )
    offered = {one.partition("\t")[0] for one in done.stdout.splitlines()}
    before, _, last = line.rpartition(" ")
    assert offered == ({wanted.removeprefix(f"{before} ")} if wanted != line else set()), last


@begun
def test_zsh_completes(folder: Path, line: str, wanted: str) -> None:
    (folder / "_loopwright").write_text(run("completion", "zsh").out, "utf-8")
    keyboard = _Keyboard([_shell("zsh"), "-f", "-i"], folder)
    try:
        (folder / "begin").write_text(ZSH.format(folder=folder), "utf-8")
        keyboard.press(". ./begin\n", lambda: b"ready" in keyboard.seen)
        keyboard.press(f"{line}\t\x18", lambda: _size(folder / "line") > 0)
        # A word that is finished has a blank after it, where the next may begin.
        assert (folder / "line").read_text("utf-8").rstrip(" ") == wanted
    finally:
        keyboard.leave()


def _size(path: Path) -> int:
    return path.stat().st_size if path.exists() else 0


def _shell(name: str) -> str:
    found = shutil.which(name)
    assert found, f"{name} is not installed: apt-get install {name}"
    return found


class _Keyboard:
    """A shell at a terminal of its own, and what it has shown."""

    def __init__(self, command: list[str], folder: Path) -> None:
        self.seen = b""
        self.process, self.terminal = pty.fork()
        if self.process == 0:
            os.chdir(folder)
            os.execve(command[0], command, {"TERM": "dumb", "PATH": os.environ["PATH"]})

    def press(self, keys: str, answered: Callable[[], bool]) -> None:
        """Press keys, and wait until there is an answer to them."""
        os.write(self.terminal, keys.encode())
        ends = time.monotonic() + PATIENCE
        for shown in self._shown(ends):
            self.seen += shown
            if answered():
                return
        pytest.fail(f"no answer to {keys!r}; it shows {self.seen!r}")

    def _shown(self, ends: float) -> Iterator[bytes]:
        while time.monotonic() < ends:
            ready, _, _ = select.select([self.terminal], [], [], 0.05)
            yield os.read(self.terminal, 4096) if ready else b""

    def leave(self) -> None:
        """Let the shell end."""
        os.close(self.terminal)
        os.waitpid(self.process, 0)
