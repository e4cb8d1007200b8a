"""Many files: the same answer, in the same order, whatever the number of processes and whatever was
known before."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from benchmarks.repositories import generate
from conftest import Loopwright
from loopwright.repository import runner, workers
from loopwright.repository.files import CannotLook, find
from loopwright.repository.runner import How, verdicts
from support import HOUSE, run

FORMATS = ("text", "json", "sarif", "junit", "github")


@pytest.fixture(scope="module")
def repository(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Forty patterns, two of them wrong: enough for several processes."""
    folder = tmp_path_factory.mktemp("house")
    assert len(generate(folder, 40)) == 2
    return folder


@pytest.fixture(autouse=True)
def _own_cache(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))


def test_two_processes_say_what_one_says(repository: Path) -> None:
    paths = find([str(repository)])
    one = list(verdicts(paths, How(workers=1, cached=False)))
    assert [verdict.name for verdict in one] == paths
    for many in (2, 3):
        assert list(verdicts(paths, How(workers=many, cached=False))) == one
    assert list(verdicts(paths, How(workers=2))) == one  # written down
    assert list(verdicts(paths, How(workers=2))) == one  # read again
    assert list(verdicts(paths[::-1], How(workers=2))) == one[::-1]


@pytest.mark.parametrize("form", FORMATS)
def test_every_report_is_the_same_bytes(
    loopwright: Loopwright, repository: Path, form: str
) -> None:
    asked = ("check", str(repository), "--format", form)
    answers = [
        loopwright(*asked, "--workers", "1", "--no-cache"),
        loopwright(*asked, "--workers", "2", "--no-cache"),
        loopwright(*asked),
        loopwright(*asked),
    ]
    assert {answer.out for answer in answers} == {answers[0].out}
    assert {answer.code for answer in answers} == {1}
    assert answers[0].out


def test_few_files_start_no_process(repository: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def hired(many: int) -> None:
        raise AssertionError("a process was started")

    monkeypatch.setattr(workers, "hired", hired)
    few = find([str(repository)])[:5]
    assert len(list(verdicts(few, How(workers=2)))) == 5
    monkeypatch.setattr(runner, "PAYS", 1)
    with pytest.raises(AssertionError, match="started"):
        list(verdicts(few, How(workers=2)))


def test_no_more_is_held_than_is_needed(repository: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The first answers come while the last files are not yet read."""
    monkeypatch.setattr(runner, "PAYS", 2_000)
    monkeypatch.setattr(runner, "CHUNK", 2_000)
    monkeypatch.setattr(runner, "MOST_HELD", 6)
    read: list[str] = []
    paths = find([str(repository)])
    asked = runner.Desk.job
    monkeypatch.setattr(
        runner.Desk, "job", lambda desk, path: (read.append(path), asked(desk, path))[1]
    )
    answers = verdicts(paths, How(workers=2, cached=False))
    for at, verdict in enumerate(answers):
        assert verdict.name == paths[at]
        assert len(read) <= at + 2 + 6


def test_a_file_that_cannot_be_read_stops_the_run(repository: Path, tmp_path: Path) -> None:
    paths = [*find([str(repository)]), str(tmp_path / "gone.crochet")]
    with pytest.raises(CannotLook, match=r"gone\.crochet"):
        list(verdicts(paths, How(workers=2)))


def test_a_process_that_is_ended_is_told_of(
    repository: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    paths = find([str(repository)])
    line = verdicts(paths, How(workers=2, cached=False))
    next(line)
    children = _children(os.getpid())
    assert children
    for pid in children:
        os.kill(pid, signal.SIGKILL)
    with pytest.raises(CannotLook, match="--workers 1"):
        list(line)


def _children(of: int) -> list[int]:
    """The processes that check for this one: those that the server of processes made."""
    found = []
    for stat in Path("/proc").glob("[0-9]*/stat"):
        try:
            pid, rest = stat.read_text().split(" (", 1)
        except OSError:
            continue
        above = int(rest.rsplit(") ", 1)[1].split()[1])
        found.append((int(pid), above))
    servers = [pid for pid, above in found if above == of]
    return [pid for pid, above in found if above in servers]


@pytest.mark.parametrize("how", [signal.SIGINT, signal.SIGTERM, signal.SIGKILL])
def test_nothing_is_left_running(tmp_path: Path, how: signal.Signals) -> None:
    generate(tmp_path / "house", 400)
    env = {**os.environ, "XDG_CACHE_HOME": str(tmp_path / "cache")}
    command = [
        sys.executable,
        "-m",
        "loopwright",
        "check",
        str(tmp_path / "house"),
        "--workers",
        "2",
    ]
    begun = subprocess.Popen(
        command, cwd=HOUSE, env=env, stdout=subprocess.PIPE, stderr=subprocess.PIPE
    )
    _wait(lambda: len(_children(begun.pid)) >= 2)
    children = _children(begun.pid)
    begun.send_signal(how)
    _, err = begun.communicate(timeout=30)
    assert b"Traceback" not in err
    assert begun.returncode == (130 if how == signal.SIGINT else -how)
    _wait(lambda: not any(Path(f"/proc/{pid}/exe").exists() for pid in children))


def _wait(until: object) -> None:
    for _ in range(600):
        if until():  # type: ignore[operator]
            return
        time.sleep(0.05)
    raise AssertionError("waited in vain")


def test_workers_are_a_number(loopwright: Loopwright) -> None:
    for wrong in ("0", "-1", "two", "1e3", "99999999"):
        answer = loopwright("check", "x.crochet", "--workers", wrong)
        assert answer.code == 2
        assert "--workers" in answer.err


def test_nothing_of_a_terminal_gets_into_a_pipe(repository: Path) -> None:
    answer = run("check", str(repository), "--workers", "2")
    assert answer.code == 1
    assert answer.err == ""
    assert "\x1b" not in answer.out
