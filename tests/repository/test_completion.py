"""Completion for shells: the scripts know every command and option, and bash completes with one."""

from __future__ import annotations

import subprocess
from pathlib import Path

import pytest

from conftest import Loopwright
from loopwright.arguments import SHELLS
from loopwright.cli import COMMANDS
from support import run

OPTIONS = ("--format", "--changed", "--shard", "--skip-excluded", "--terms", "--bags")


@pytest.mark.parametrize("shell", SHELLS)
def test_a_script_knows_every_command_and_option(loopwright: Loopwright, shell: str) -> None:
    answer = loopwright("completion", shell)
    assert (answer.code, answer.err) == (0, "")
    for command in COMMANDS:
        assert command in answer.out
    for option in OPTIONS:
        bare = option if shell != "fish" else option.removeprefix("--")
        assert bare in answer.out
    assert loopwright("completion", shell).out == answer.out


def test_another_shell_is_refused(loopwright: Loopwright) -> None:
    answer = loopwright("completion", "abacus")
    assert (answer.code, answer.out) == (2, "")


def completions(script: Path, *words: str) -> set[str]:
    """What bash offers after these words, asked the way it asks."""
    line = " ".join(words)
    quoted = " ".join(f"'{word}'" for word in words)
    ask = (
        f". {script}; f=$(complete -p loopwright | sed 's/.*-F \\([^ ]*\\).*/\\1/');"
        f" COMP_WORDS=({quoted}); COMP_CWORD={len(words) - 1}; COMP_LINE='{line}';"
        f" COMP_POINT={len(line)}; $f loopwright '{words[-1]}' '{words[-2]}';"
        ' printf "%s\\n" "${COMPREPLY[@]}"'
    )
    done = subprocess.run(
        ["bash", "--norc", "-c", ask], capture_output=True, text=True, cwd=script.parent, check=True
    )
    return {one.strip() for one in done.stdout.split("\n") if one.strip()}


def test_bash_completes(tmp_path: Path) -> None:
    script = tmp_path / "loopwright.bash"
    script.write_text(run("completion", "bash").out, "utf-8")
    (tmp_path / "mittens.crochet").write_text("", "utf-8")
    assert completions(script, "loopwright", "ch") == {"check", "chart"}
    assert {"--changed", "--format"} <= completions(script, "loopwright", "check", "--")
    assert completions(script, "loopwright", "check", "--format", "s") == {"sarif"}
    assert "mittens.crochet" in completions(script, "loopwright", "sheet", "mit")
    assert "mittens.crochet" in completions(script, "loopwright", "compare", "mit")
    assert "--since" in completions(script, "loopwright", "compare", "--s")
    assert "--skip-excluded" in completions(script, "loopwright", "tidy", "--s")
