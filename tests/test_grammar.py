"""The grammar has no ambiguity, and its cache is a help that can be missing, damaged or shut."""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path

import pytest
from lark import Lark
from lark.exceptions import GrammarError
from loopwright.grammar import GRAMMAR

from loopwright.syntax import parser
from loopwright.syntax.lines import read_lines
from support import HOUSE, run

TEXT = Path(GRAMMAR).read_text("utf-8")


def test_no_line_can_be_read_in_two_ways() -> None:
    parser.build(TEXT, strict=True)


def test_strict_would_say_so() -> None:
    two_ways = TEXT.replace('"turn"  ', '"turn" ("," "turn")?  ')
    assert two_ways != TEXT
    with pytest.raises(GrammarError, match=r"Shift/Reduce conflict"):
        parser.build(two_ways, strict=True)


def test_the_grammar_in_the_package_is_the_one_in_the_repository() -> None:
    assert (HOUSE / "grammar" / "pattern.lark").read_text("utf-8") == TEXT


# ------------------------------------------------------------------ the cache


@pytest.fixture
def cache(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A cache folder of the test's own, which does not exist yet."""
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    return tmp_path / "loopwright"


ROW = "round 2: ch 2, [3 tr, fptr] around, join = {body / 2} sts"
TREE = repr(parser.build(TEXT).parse(ROW, start="row_line"))


def whole(found: Lark) -> bool:
    """Whether this parser reads a row as one that was built anew does."""
    return repr(found.parse(ROW, start="row_line")) == TREE


def never(*_: object, **__: object) -> None:
    """Stands for Lark where the cache should do."""
    raise AssertionError("the grammar was built again")


def test_the_tables_are_kept_and_found_again(cache: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    first = parser.load()
    (kept,) = cache.iterdir()
    assert cache.stat().st_mode & 0o077 == 0
    assert kept.stat().st_mode & 0o022 == 0
    monkeypatch.setattr(parser, "build", never)
    assert whole(first)
    assert whole(parser.load())


def flipped(data: bytes) -> bytes:
    """One bit in the middle is another."""
    at = len(data) // 2
    return data[:at] + bytes([data[at] ^ 1]) + data[at + 1 :]


DAMAGES: dict[str, Callable[[bytes], bytes]] = {
    "empty": lambda _: b"",
    "one byte": lambda _: b"\x00",
    "rubbish": lambda _: b"rubbish " * 1000,
    "cut short": lambda data: data[:-1],
    "longer": lambda data: data + b"\x00",
    "a bit flipped": flipped,
    "a pickle": lambda _: b"\x80\x04N.",
}


@pytest.mark.parametrize("damage", DAMAGES)
def test_a_damaged_cache_is_made_anew(
    cache: Path, monkeypatch: pytest.MonkeyPatch, damage: str
) -> None:
    parser.load()
    (kept,) = cache.iterdir()
    kept.write_bytes(DAMAGES[damage](kept.read_bytes()))
    again = parser.load()
    assert whole(again)
    monkeypatch.setattr(parser, "build", never)
    assert whole(parser.load())


def test_what_others_may_write_is_not_trusted(cache: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    parser.load()
    (kept,) = cache.iterdir()
    kept.chmod(0o666)
    builds = []
    build = parser.build
    monkeypatch.setattr(parser, "build", lambda text: builds.append(text) or build(text))
    assert whole(parser.load())
    cache.chmod(0o777)
    assert whole(parser.load())
    assert len(builds) == 2


def test_a_cache_that_cannot_be_is_done_without(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "file").write_text("")
    (tmp_path / "folder" / "loopwright").mkdir(parents=True)
    for base in (tmp_path / "file", Path("/dev/null"), Path("/proc/nowhere")):
        monkeypatch.setenv("XDG_CACHE_HOME", str(base))
        assert whole(parser.load())
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "folder"))
    monkeypatch.setattr(parser, "_write", _full)
    assert whole(parser.load())
    assert list((tmp_path / "folder" / "loopwright").iterdir()) == []


def _full(*_: object) -> None:
    raise OSError(28, "No space left on device")


def test_a_folder_where_the_file_should_be(cache: Path) -> None:
    parser.load()
    (kept,) = cache.iterdir()
    kept.unlink()
    kept.mkdir()
    assert whole(parser.load())


def test_where_the_cache_is(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", "/somewhere")
    assert parser.cache_folder() == "/somewhere/loopwright"
    monkeypatch.setenv("XDG_CACHE_HOME", "not/absolute")
    monkeypatch.setenv("HOME", "/home/maker")
    assert parser.cache_folder() == "/home/maker/.cache/loopwright"
    monkeypatch.setattr(os.path, "expanduser", lambda path: path)
    assert parser.cache_folder() is None


def test_a_command_without_a_cache_says_nothing_of_it() -> None:
    answer = run("check", "examples", XDG_CACHE_HOME="/dev/null")
    assert (answer.code, answer.err) == (0, "")


def test_the_same_line_is_parsed_once(monkeypatch: pytest.MonkeyPatch) -> None:
    seen: list[str] = []
    real = parser._parse

    def noted(start: str, text: str) -> object:
        seen.append(text)
        return real(start, text)

    monkeypatch.setattr(parser, "_parse", noted)
    monkeypatch.setattr(parser, "_trees", {})
    row = "row 1: dc in 2nd ch from hook, dc in each ch across"
    for text in (f"{row}\n{row}\n", f"terms: UK\n\n{row}\n", f"{row} = 4 sts\n{row}"):
        read_lines(text)
    assert seen == [row, f"{row} = 4 sts"]


def test_what_is_kept_does_not_grow_without_end(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(parser, "MOST_KEPT", 10)
    monkeypatch.setattr(parser, "_trees", {})
    read_lines("".join(f"row {n}: dc\n" for n in range(1000)))
    assert len(parser._trees) <= 10
