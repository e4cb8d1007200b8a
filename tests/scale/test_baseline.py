"""The baseline: only what is new is told, and what is gone is said."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from conftest import Loopwright

ROWS = """pattern: Old Pier
terms: UK
part a: flat
start: ch 9
row 1: dc in 2nd ch from hook, dc in each ch across = 8 sts
row 2: ch 1, dc in each st across = 9 sts
row 3: ch 1, dc in each st across = 8 sts
"""


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A repository with a pattern that is wrong and one that is not."""
    (tmp_path / ".git").mkdir()
    (tmp_path / "old").mkdir()
    (tmp_path / "old" / "pier.crochet").write_text(ROWS)
    (tmp_path / "good.crochet").write_text(ROWS.replace("9 sts", "8 sts"))
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    return tmp_path


def test_only_new_messages_fail(loopwright: Loopwright, folder: Path) -> None:
    assert loopwright("check", ".").code == 1
    written = loopwright("check", ".", "--write-baseline")
    assert written.code == 0
    assert written.out == "loopwright-baseline.json: 1 message written down as known.\n"
    known = loopwright("check", ".")
    assert known.code == 0
    assert known.out == "2 patterns, 2 sizes, 6 rows, 48 stitches: no new error.\n"
    assert known.err == "1 message is known from loopwright-baseline.json and not shown.\n"
    # a second slip in the same file is new, wherever lines have moved to
    text = (folder / "old" / "pier.crochet").read_text()
    worse = text.replace("start:", "\n# a remark\nstart:") + "row 4: ch 1, 8 dx = 8 sts\n"
    (folder / "old" / "pier.crochet").write_text(worse)
    new = loopwright("check", ".")
    assert new.code == 1
    assert "unknown-stitch" in new.out
    assert "count-differs" not in new.out
    assert loopwright("check", ".", "--no-baseline").out.count("pier.crochet:") == 2


def test_the_same_slip_once_more_is_new(loopwright: Loopwright, folder: Path) -> None:
    loopwright("check", ".", "--write-baseline")
    twice = ROWS.replace("part a", "part b").split("\n", 2)[2]
    (folder / "old" / "pier.crochet").write_text(ROWS + twice)
    found = loopwright("check", ".")
    assert found.code == 1
    assert "b, row 2" in found.out
    assert "a, row 2" not in found.out


def test_what_matches_no_more_is_reported(loopwright: Loopwright, folder: Path) -> None:
    loopwright("check", ".", "--write-baseline")
    (folder / "old" / "pier.crochet").write_text(ROWS.replace("9 sts", "8 sts"))
    found = loopwright("check", ".")
    assert found.code == 0
    assert "matches no more" in found.err
    assert "old/pier.crochet: count-differs (a, row 2)" in found.err
    # a run that does not look at the file cannot tell
    assert loopwright("check", "good.crochet").err == ""
    (folder / "old" / "pier.crochet").unlink()
    assert "old/pier.crochet: count-differs (a, row 2)" in loopwright("check", "good.crochet").err
    loopwright("check", ".", "--write-baseline")
    assert loopwright("check", ".").err == ""


def test_what_is_not_looked_at_stays_known(loopwright: Loopwright, folder: Path) -> None:
    (folder / "wrong.crochet").write_text(ROWS)
    assert loopwright("check", ".", "--write-baseline").out.startswith(
        "loopwright-baseline.json: 2 "
    )
    again = loopwright("check", "good.crochet", "--write-baseline")
    assert again.out == (
        "loopwright-baseline.json: 2 messages written down as known, 2 of them of files not looked"
        " at this time.\n"
    )
    assert loopwright("check", ".").code == 0
    (folder / "wrong.crochet").write_text(ROWS.replace("9 sts", "8 sts"))
    again = loopwright("check", "wrong.crochet", "--write-baseline")
    assert "1 message written down as known, 1 of them" in again.out
    (folder / "old" / "pier.crochet").unlink()
    assert "0 messages" in loopwright("check", "good.crochet", "--write-baseline").out


def test_a_baseline_takes_no_other_file_s_place(loopwright: Loopwright, folder: Path) -> None:
    answer = loopwright("check", "--write-baseline", "old/pier.crochet", "good.crochet")
    assert (answer.code, answer.out) == (2, "")
    assert "put it first: check old/pier.crochet --write-baseline" in answer.err
    assert (folder / "old" / "pier.crochet").read_text() == ROWS
    alone = loopwright("check", "--write-baseline", "old/pier.crochet")
    assert (alone.code, alone.err) == (2, answer.err)
    (folder / "loopwright-baseline.json").write_text("damaged")
    assert loopwright("check", ".", "--write-baseline").code == 0
    (folder / "known.json").write_text('{"loopwright-baseline": 1, "mess')
    assert loopwright("check", ".", "--write-baseline", "known.json").code == 0


@pytest.mark.parametrize("more", [("-o", "x.json"), ("--format", "json"), ("-",)])
def test_a_baseline_is_of_files_and_no_report(
    loopwright: Loopwright, folder: Path, more: tuple[str, ...]
) -> None:
    answer = loopwright("check", "good.crochet", *more, "--write-baseline")
    assert (answer.code, answer.out) == (2, "")
    assert not (folder / "loopwright-baseline.json").exists()


def test_the_file_is_the_same_from_anywhere(
    loopwright: Loopwright, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    loopwright("check", ".", "--write-baseline")
    data = (folder / "loopwright-baseline.json").read_bytes()
    monkeypatch.chdir(folder / "old")
    assert loopwright("check", "pier.crochet").code == 0
    assert loopwright("check", "pier.crochet", "../good.crochet", "--write-baseline").code == 0
    assert (folder / "loopwright-baseline.json").read_bytes() == data
    assert json.loads(data)["messages"] == [
        {
            "file": "old/pier.crochet",
            "code": "count-differs",
            "part": "a",
            "row": "row 2",
            "line": "row 2: ch 1, dc in each st across = 9 sts",
            "times": 1,
        }
    ]


def test_a_baseline_can_lie_elsewhere(loopwright: Loopwright, folder: Path) -> None:
    assert loopwright("check", ".", "--write-baseline", "ci/known.json").code == 2
    (folder / "ci").mkdir()
    loopwright("check", ".", "--write-baseline", "ci/known.json")
    assert loopwright("check", ".").code == 1
    assert loopwright("check", ".", "--baseline", "ci/known.json").code == 0


@pytest.mark.parametrize(
    "data",
    [
        b"",
        b"{}",
        b"[]",
        b"\xff\xfe",
        b'{"loopwright-baseline": 2, "messages": []}',
        b'{"loopwright-baseline": 1, "messages": [{}]}',
        b'{"loopwright-baseline": 1, "messages": 3}',
        b'{"loopwright-baseline": 1, "messages": [{"file": 1, "code": "", "part": "", "row": "",'
        b' "line": "", "times": 1}]}',
        b"[" * 100_000,
    ],
)
def test_a_damaged_baseline_is_told_of(loopwright: Loopwright, folder: Path, data: bytes) -> None:
    (folder / "loopwright-baseline.json").write_bytes(data)
    answer = loopwright("check", ".")
    assert answer.code == 2
    assert "this is no baseline, or it is damaged" in answer.err
    assert loopwright("check", ".", "--no-baseline").code == 1


def test_a_baseline_that_is_not_there(loopwright: Loopwright, folder: Path) -> None:
    answer = loopwright("check", ".", "--baseline", "none.json")
    assert answer.code == 2
    assert "none.json: this baseline cannot be read" in answer.err
