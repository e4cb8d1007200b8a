"""What a pattern may come from besides a plain file, and how files may be called: pipes, streams
that a shell hands over, names that begin with a dash, one file by several ways, lines that end in
a CR alone."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

import loopwright as api
from conftest import Loopwright
from repository.houses import HOUSE, STRIP, WRONG, write
from repository.houses import PLAIN as UNTIDY
from support import run

PLAIN = UNTIDY.replace("\npart", "\n\npart")
"""As `tidy` lays it out."""
ON_ONE_FILE = ["sheet", "chart", "build", "fits", "sizes", "kit"]
ON_MANY = ["check", "tidy", "overview"]
WIDE = PLAIN.replace("ch 11", "ch {wide + 1}").replace("part", "count wide: 10\npart")


def out_of(command: str, folder: Path) -> list[str]:
    """Where a command must be told to write."""
    return ["-o", str(folder / "out")] if command in ("build", "overview") else []


# ------------------------------------------------------------------ pipes


@pytest.mark.parametrize("command", [*ON_ONE_FILE, *ON_MANY, "compare"])
def test_a_pipe_that_nobody_writes_to_is_named_and_not_waited_for(
    tmp_path: Path, command: str
) -> None:
    pipe = tmp_path / "p.crochet"
    os.mkfifo(pipe)
    paths = [str(pipe)] * (2 if command == "compare" else 1)
    # In a process of its own, which is ended when it hangs.
    answer = run(command, *paths, *out_of(command, tmp_path))
    assert (answer.code, answer.out) == (2, "")
    assert "p.crochet: this is a pipe, and no file. Give - in its place" in answer.err
    assert "there is no such file" not in answer.err


def test_a_pipe_among_other_files(tmp_path: Path) -> None:
    write(tmp_path, {"in/a.crochet": PLAIN})
    os.mkfifo(tmp_path / "in/b.crochet")
    os.mkfifo(tmp_path / "loopwright.toml")
    assert "this is a pipe" in run("check", str(tmp_path / "in")).err
    (tmp_path / "in/b.crochet").unlink()
    assert "loopwright.toml: this is a pipe" in run("check", str(tmp_path / "in")).err


def test_what_is_neither_file_nor_folder(loopwright: Loopwright) -> None:
    for command in ("check", "tidy"):
        answer = loopwright(command, os.devnull)
        assert (answer.code, answer.out) == (2, "")
        assert "this is no file and no folder" in answer.err


def shell(line: str, at: Path) -> subprocess.CompletedProcess[str]:
    """A line of bash, with the command at hand."""
    path = f"{Path(sys.executable).parent}{os.pathsep}{os.environ['PATH']}"
    return subprocess.run(
        ["bash", "-c", line],
        cwd=at,
        env={**os.environ, "PATH": path},
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )


def test_what_a_shell_hands_over_is_read(tmp_path: Path) -> None:
    write(tmp_path, {"a.crochet": PLAIN, "wide.crochet": WIDE})
    counts = "1 size, 1 row, 10 stitches: every count comes out.\n"
    assert shell("loopwright check <(cat a.crochet)", tmp_path).stdout == counts
    assert shell("loopwright check /dev/stdin < a.crochet", tmp_path).stdout == counts
    assert shell("cat a.crochet | loopwright check /dev/stdin", tmp_path).stdout == counts
    tidied = shell("loopwright tidy <(sed 's/: /:  /' a.crochet)", tmp_path)
    assert tidied.stdout == PLAIN
    built = shell("loopwright build <(cat a.crochet) -o out", tmp_path)
    assert built.returncode == 0
    assert (tmp_path / "out/pattern-uk.html").is_file()
    assert "wide" in shell("loopwright fits <(cat wide.crochet)", tmp_path).stdout
    both = shell("loopwright check <(cat a.crochet) <(cat a.crochet)", tmp_path)
    assert both.stdout.startswith("2 patterns, ")
    mended = shell("loopwright check --mend <(cat a.crochet)", tmp_path)
    assert mended.returncode == 2
    assert "--mend changes files, and /dev/fd/" in mended.stderr
    closed = shell("loopwright check /dev/fd/77", tmp_path)
    assert closed.returncode == 2
    assert "/dev/fd/77: this file cannot be read" in closed.stderr


def test_what_is_handed_over_belongs_to_the_folder_that_we_are_in(tmp_path: Path) -> None:
    write(tmp_path, {".git/HEAD": "", "shared/house.crochet": HOUSE, "strips/s.crochet": STRIP})
    (tmp_path / "loopwright.toml").write_text("[house]\nlicence = true\n", "utf-8")
    told = shell("loopwright check <(cat s.crochet)", tmp_path / "strips")
    assert "uses" not in told.stdout
    assert "licence" in told.stdout


# ------------------------------------------------------------------ names


@pytest.mark.parametrize("command", [*ON_ONE_FILE, *ON_MANY, "compare"])
def test_a_name_that_begins_with_a_dash(
    loopwright: Loopwright, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, command: str
) -> None:
    monkeypatch.chdir(tmp_path)
    name = "-x.crochet"
    write(tmp_path, {name: PLAIN})
    names = [name] * (2 if command == "compare" else 1)
    answer = loopwright(command, *out_of(command, Path()), "--", *names)
    assert answer.code == 0, answer
    assert (tmp_path / name).read_text("utf-8") == PLAIN
    if command == "build":
        assert (tmp_path / "out/-x-uk.html").is_file()
    if command == "check":
        assert answer.out == "1 size, 1 row, 10 stitches: every count comes out.\n"
        assert loopwright("check", "--skip-excluded", "--", name, name).out == answer.out


def test_a_name_that_begins_with_a_dash_is_tidied_and_mended(
    loopwright: Loopwright, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    path = tmp_path / "-x.crochet"
    path.write_text(PLAIN.replace("dc in each ch across", "dc  in each ch across"), "utf-8")
    assert loopwright("tidy", "--check", "--", "-x.crochet").code == 1
    assert loopwright("tidy", "--", "-x.crochet").code == 0
    assert path.read_text("utf-8") == PLAIN
    path.write_text(PLAIN.replace(" = 10 sts", " (10 sts)"), "utf-8")
    assert loopwright("check", "--mend", "--", "-x.crochet").code == 0
    assert path.read_text("utf-8") == PLAIN


def test_each_file_once_by_whatever_way(
    loopwright: Loopwright, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    write(tmp_path, {"a/mat.crochet": PLAIN, "a/hat.crochet": PLAIN, "b/mat.crochet": PLAIN})
    (tmp_path / "c").symlink_to("a")
    monkeypatch.chdir(tmp_path)
    paths = ["a/mat.crochet", "a", "./a/mat.crochet", "a/../a", "c", str(tmp_path / "a"), "b"]
    answer = loopwright("check", "--format", "json", *paths)
    files = [one["path"] for one in json.loads(answer.out)["files"]]
    assert files == ["a/mat.crochet", "a/hat.crochet", "b/mat.crochet"]


# ------------------------------------------------------------------ tidy and the settings


def test_tidy_leaves_what_the_settings_leave_out(
    loopwright: Loopwright, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    loose = PLAIN.replace("terms: UK", "terms:  UK")
    files = {"drafts/a.crochet": loose, "b.crochet": loose, "drafts/c.crochet": loose}
    write(tmp_path, {"loopwright.toml": 'exclude = ["drafts"]\n', **files})
    monkeypatch.chdir(tmp_path)

    def text(name: str) -> str:
        return (tmp_path / name).read_text("utf-8")

    named = ("drafts/a.crochet", "b.crochet")
    assert loopwright("tidy", "--check", "--skip-excluded", "drafts/a.crochet").code == 0
    assert loopwright("tidy", "--skip-excluded", *named).code == 0
    assert (text("drafts/a.crochet"), text("b.crochet")) == (loose, PLAIN)
    assert loopwright("tidy", ".").out == ""
    assert loopwright("tidy", *named).code == 0  # a file that is named is meant
    assert (text("drafts/a.crochet"), text("drafts/c.crochet")) == (PLAIN, loose)


# ------------------------------------------------------------------ line ends


def test_a_cr_alone_ends_a_line_as_any_other(loopwright: Loopwright, tmp_path: Path) -> None:
    path = tmp_path / "x.crochet"
    path.write_bytes(WRONG.replace("\n", "\r").encode())
    answer = loopwright("check", str(path))
    assert answer.code == 1
    # Line 5, where the stated count stands, is `row 1: ... = 11 sts`.
    column = WRONG.split("\n")[4].index("= 11 sts") + 1
    assert f"x.crochet:5:{column}  count-differs\n" in answer.out
    assert "     5 | row 1: dc in 2nd ch from hook, dc in each ch across = 11 sts\n" in answer.out


def test_tidy_keeps_the_lines_of_such_a_file(loopwright: Loopwright, tmp_path: Path) -> None:
    text = "# by hand\n" + PLAIN.replace("terms:", "terms: ")
    path = tmp_path / "x.crochet"
    path.write_bytes(text.replace("\n", "\r").encode())
    assert loopwright("tidy", str(path)).code == 0
    assert path.read_bytes().decode() == "# by hand\n" + PLAIN


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r", "\r\r\n"])
def test_whatever_ends_the_lines_says_the_same(end: str) -> None:
    assert api.check(WRONG.replace("\n", end)) == api.check(WRONG)
    assert api.tidy(WRONG.replace("\n", end)) == api.tidy(WRONG)
    used = {"../shared/house.crochet": HOUSE.replace("\n", end)}
    strip = STRIP.replace("\n", end)
    assert api.uses(strip) == ("../shared/house.crochet",)
    assert api.check(strip, name="strips/s.crochet", used=used).clean


def test_lines_that_end_in_several_ways_are_counted_one_by_one() -> None:
    lines = WRONG.split("\n")
    text = "\r".join(lines[:2]) + "\r\n" + "\r".join(lines[2:4]) + "\n" + "\r".join(lines[4:])
    assert api.check(text) == api.check(WRONG)


def test_mending_keeps_how_the_lines_end() -> None:
    written = PLAIN.replace(" = 10 sts", " (10 sts)").replace("\n", "\r")
    assert api.mend(written) == PLAIN.replace("\n", "\r")
    assert api.mend(PLAIN.replace("\n", "\r")) == PLAIN.replace("\n", "\r")


def test_a_megabyte_of_line_ends_takes_no_time() -> None:
    for text in ("\r" * 900_000, "\r" * 900_000 + "\n"):
        assert not api.check(text).clean


def test_a_byte_that_is_no_text_is_on_the_line_where_it_is(
    loopwright: Loopwright, tmp_path: Path
) -> None:
    path = tmp_path / "x.crochet"
    path.write_bytes(b"pattern: x\rterms: UK\rnote: \xff\r")
    assert "line 3 is not UTF-8 text" in loopwright("check", str(path)).err


# ------------------------------------------------------------------ one size


@pytest.mark.parametrize("form", ["sarif", "github"])
def test_one_size_is_no_sizes(loopwright: Loopwright, tmp_path: Path, form: str) -> None:
    sized = PLAIN.replace("terms: UK\n", "terms: UK\nsizes: small (large)\n")
    one = sized.replace("= 10 sts", "= 10 (11) sts")
    both = sized.replace("= 10 sts", "= 11 (12) sts")
    for text, said in ((one, "In size large: "), (both, "In sizes small, large: ")):
        path = write(tmp_path, {"x.crochet": text}) / "x.crochet"
        assert said in loopwright("check", "--format", form, str(path)).out
