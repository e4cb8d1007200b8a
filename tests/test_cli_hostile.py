"""The command line where things go wrong: files that are not there, are not text, or cannot be
written; closed pipes and full disks. A sentence and exit code 2 each time, never a traceback, and
nothing half written."""

from __future__ import annotations

import builtins
import json
import os
import pty
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from conftest import Loopwright
from support import HOUSE, run
from test_cli import FAULTY, GOOD, file, listed

__all__ = ["file"]


def check(loopwright: Loopwright, folder: Path, data: bytes) -> tuple[int, str]:
    """What `check` answers about a file with these bytes."""
    path = folder / "x.crochet"
    path.write_bytes(data)
    answer = loopwright("check", str(path))
    return answer.code, answer.out + answer.err


BROKEN = {
    "not UTF-8": (b"pattern: x\nterms: UK\nnote: \xff\xfe\n", "line 3 is not UTF-8 text"),
    "cut in a character": (b"pattern: Ebb \xc3", "line 1 is not UTF-8 text"),
    "UTF-16": ("\ufeff" + GOOD).encode("utf-16-le"),
    "too large": (b"#" * 1_000_001, "1 MB"),
}


@pytest.mark.parametrize("name", BROKEN)
def test_what_is_not_text_is_not_looked_at(
    loopwright: Loopwright, tmp_path: Path, name: str
) -> None:
    given = BROKEN[name]
    data, said = given if isinstance(given, tuple) else (given, "is not UTF-8 text")
    code, told = check(loopwright, tmp_path, data)
    assert code == 2
    assert said in told


ODD = {
    "empty": (b"", 1),
    "white space": (b" \t \n\n", 1),
    "comments": (b"# nothing\n#\n", 1),
    "null bytes": (b"pattern: x\x00y\nterms: UK\n\x00\x00\n", 1),
    "byte order mark": (b"\xef\xbb\xbf" + GOOD.encode(), 0),
    "CRLF": (GOOD.replace("\n", "\r\n").encode(), 0),
    "CR alone": (GOOD.replace("\n", "\r").encode(), 0),
    "no final newline": (GOOD.rstrip("\n").encode(), 0),
    "tabs": (GOOD.replace(": ", ":\t").encode(), 0),
    "bidirectional controls": (GOOD.replace("6 sc in", "6 \u202esc\u202c in").encode(), 1),
    "escape codes": (GOOD.replace("Coaster", "\x1b[31mCoaster").encode(), 0),
}


@pytest.mark.parametrize("name", ODD)
def test_odd_text_is_looked_at(loopwright: Loopwright, tmp_path: Path, name: str) -> None:
    data, wanted = ODD[name]
    code, told = check(loopwright, tmp_path, data)
    assert code == wanted, told
    assert all(char.isprintable() or char == "\n" for char in told)


@pytest.mark.parametrize("name", [name for name in ODD if ODD[name][1] == 0])
def test_odd_text_is_tidied_and_keeps_its_meaning(
    loopwright: Loopwright, tmp_path: Path, name: str
) -> None:
    path = tmp_path / "x.crochet"
    path.write_bytes(ODD[name][0])
    assert loopwright("tidy", str(path)).code == 0
    assert loopwright("tidy", "--check", str(path)).code == 0
    assert loopwright("check", str(path)).out.startswith("2 sizes, 7 rows, 112 stitches:")


COMMANDS = ["check", "sheet", "chart", "fits", "sizes", "kit", "tidy"]


@pytest.mark.parametrize("command", [*COMMANDS, "build"])
@pytest.mark.parametrize("name", ["missing.crochet", "", "limpet.crochet/inner", "a\x1b[31mb"])
def test_a_file_that_is_not_there(
    loopwright: Loopwright, file: Path, command: str, name: str
) -> None:
    out = ["-o", str(file.parent / "out")] if command == "build" else []
    answer = loopwright(command, str(file.parent / name) if name else "", *out)
    assert (answer.code, answer.out) == (2, "")
    assert answer.err.startswith("loopwright: ")
    assert answer.err.count("\n") == 1
    assert listed(file.parent) == ["limpet.crochet"]


@pytest.mark.parametrize("command", ["sheet", "chart", "fits", "sizes", "kit"])
def test_a_folder_where_a_file_should_be(loopwright: Loopwright, file: Path, command: str) -> None:
    answer = loopwright(command, str(file.parent))
    assert (answer.code, answer.out) == (2, "")
    assert "cannot be read" in answer.err


@pytest.mark.parametrize("command", ["check", "tidy"])
def test_a_folder_without_patterns(loopwright: Loopwright, tmp_path: Path, command: str) -> None:
    answer = loopwright(command, str(tmp_path))
    assert (answer.code, answer.out) == (2, "")
    assert "no .crochet file" in answer.err


@pytest.mark.parametrize("command", COMMANDS)
def test_a_file_that_may_not_be_read(
    loopwright: Loopwright, file: Path, command: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    real = builtins.open

    def refuse(path: Any, *rest: Any, **more: Any) -> Any:
        if str(path) == str(file):
            raise PermissionError(13, "Permission denied")
        return real(path, *rest, **more)

    monkeypatch.setattr(builtins, "open", refuse)
    answer = loopwright(command, str(file))
    assert (answer.code, answer.out) == (2, "")
    assert answer.err == f"loopwright: {file}: this file cannot be read (permission denied).\n"


def test_one_bad_path_among_good_ones_says_nothing_of_the_others(
    loopwright: Loopwright, file: Path
) -> None:
    for form in ("text", "json"):
        answer = loopwright("check", str(file), str(file) + "x", "--format", form)
        assert (answer.code, answer.out) == (2, "")


@pytest.mark.parametrize("out", ["", ".", "/", "missing/folder/sheet.txt", "limpet.crochet/x"])
@pytest.mark.parametrize("command", ["sheet", "chart", "kit"])
def test_an_output_that_cannot_be_written(
    loopwright: Loopwright, file: Path, monkeypatch: pytest.MonkeyPatch, command: str, out: str
) -> None:
    monkeypatch.chdir(file.parent)
    answer = loopwright(command, "limpet.crochet", "-o", out)
    assert (answer.code, answer.out) == (2, "")
    assert "cannot be" in answer.err
    assert listed(file.parent) == ["limpet.crochet"]


def test_a_build_into_a_file(loopwright: Loopwright, file: Path) -> None:
    answer = loopwright("build", str(file), "-o", str(file))
    assert (answer.code, answer.out) == (2, "")
    assert "cannot be made" in answer.err
    assert file.read_text("utf-8") == GOOD


@pytest.mark.parametrize("command", ["tidy", "check --mend", "sheet -o"])
def test_a_write_that_fails_leaves_the_file_as_it_was(
    loopwright: Loopwright, file: Path, monkeypatch: pytest.MonkeyPatch, command: str
) -> None:
    text = GOOD.replace("part disc: in", "part disc :in") + "note: Keep the sc loose.\n"
    file.write_text(text, "utf-8")

    def full(*_: Any) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "replace", full)
    page = file.parent / "page.txt"
    page.write_text("as it was", "utf-8")
    more = [str(page)] if command == "sheet -o" else []
    answer = loopwright(*command.split(), *more, str(file))
    assert answer.code == 2
    assert "no space left on device" in answer.err
    assert (file.read_text("utf-8"), page.read_text("utf-8")) == (text, "as it was")
    assert listed(file.parent) == ["limpet.crochet", "page.txt"]


def test_a_link_stays_a_link(loopwright: Loopwright, file: Path) -> None:
    link, real = file.parent / "link.txt", file.parent / "real.txt"
    link.symlink_to(real)
    assert loopwright("sheet", str(file), "-o", str(link)).code == 0
    assert link.is_symlink()
    assert real.read_text("utf-8").startswith("Limpet Coaster")


def test_a_pipe_is_written_into_and_not_replaced(loopwright: Loopwright, file: Path) -> None:
    pipe = file.parent / "pipe"
    os.mkfifo(pipe)
    reader = os.open(pipe, os.O_RDONLY | os.O_NONBLOCK)
    assert loopwright("sheet", str(file), "-o", str(pipe)).code == 0
    assert os.read(reader, 14) == b"Limpet Coaster"
    os.close(reader)
    assert pipe.is_fifo()


def test_a_name_that_is_not_text(tmp_path: Path) -> None:
    path = os.fsencode(tmp_path) + b"/lim\xffpet.crochet"
    with open(path, "wb") as out:
        out.write(FAULTY.encode())
    for form in ("text", "json"):
        answer = run("check", str(tmp_path), "--format", form)
        assert answer.code == 1
        assert "Traceback" not in answer.err
        assert "pet.crochet" in answer.out
    assert json.loads(answer.out)["errors"] == 1


# ------------------------------------------------------- pipes and terminals


def shell(line: str) -> subprocess.CompletedProcess[bytes]:
    """A shell line in which `loopwright` is this one."""
    line = line.replace("loopwright", f"{sys.executable} -m loopwright")
    return subprocess.run(
        ["sh", "-c", line], capture_output=True, cwd=HOUSE, timeout=60, check=False
    )


@pytest.mark.parametrize(
    "line",
    [
        "loopwright check examples --format json >/dev/full",
        "loopwright explain >/dev/full",
        "loopwright --help >/dev/full",
        "loopwright check examples >&-",
        "loopwright check - <&-",
        "loopwright check - 2>&- </dev/null",
        "(loopwright check examples --format json; echo $? >&2) | true",
        "(loopwright explain; echo $? >&2) | true",
    ],
)
def test_streams_that_fail(line: str) -> None:
    done = shell(line)
    said = (done.stdout + done.stderr).decode("utf-8")
    assert "Traceback" not in said
    assert "Error" not in said
    assert "Exception" not in said


def test_the_answer_to_a_full_disk_is_a_sentence() -> None:
    done = shell("loopwright check examples >/dev/full")
    assert done.returncode == 2
    assert done.stderr.startswith(b"loopwright: ")
    assert b"no space left on device" in done.stderr


def on_a_terminal(file: Path, **environment: str) -> bytes:
    """What `check` prints where its output is a terminal."""
    ours, theirs = pty.openpty()
    env = {**os.environ, "TERM": "xterm", **environment}
    command = [sys.executable, "-m", "loopwright", "check", str(file)]
    with subprocess.Popen(command, stdout=theirs, stderr=theirs, env=env, cwd=HOUSE) as process:
        os.close(theirs)
        told = b""
        try:
            while chunk := os.read(ours, 4096):
                told += chunk
        except OSError:
            pass  # on this side, the end of a terminal is an error
        os.close(ours)
        assert process.wait(30) == 1
    return told


def test_colour_on_a_terminal_only(file: Path) -> None:
    file.write_text(FAULTY, "utf-8")
    assert b"\x1b[" in on_a_terminal(file)
    assert b"\x1b[" not in on_a_terminal(file, NO_COLOR="1")
    assert b"\x1b[" not in on_a_terminal(file, TERM="dumb")
    assert "\x1b[" not in run("check", str(file), TERM="xterm").out


def test_the_output_does_not_hang_on_the_locale(file: Path) -> None:
    file.write_text(FAULTY.replace("Coaster", "Cöaster").replace("= 9", '= 9 sts "ö" = 9'), "utf-8")
    plain = run("check", str(file), LC_ALL="C", PYTHONUTF8="0")
    assert plain.code == 1
    assert plain.out == run("check", str(file), LC_ALL="C.UTF-8").out
