"""The grammar has no ambiguity, and its cache is a help that can be missing, damaged or shut."""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from lark.exceptions import GrammarError
from loopwright.grammar import GRAMMAR

from loopwright.kept import cache_folder
from loopwright.syntax import parser, tables
from loopwright.syntax.automaton import Automaton
from loopwright.syntax.lines import read_lines
from loopwright.syntax.tree import Node
from support import HOUSE, run

TEXT = Path(GRAMMAR).read_text("utf-8")
BUILT = tables.build(TEXT)


def test_no_line_can_be_read_in_two_ways() -> None:
    tables.lark_of(TEXT, strict=True)


def test_strict_would_say_so() -> None:
    two_ways = TEXT.replace('"turn"  ', '"turn" ("," "turn")?  ')
    assert two_ways != TEXT
    with pytest.raises(GrammarError, match="Shift/Reduce conflict"):
        tables.lark_of(two_ways, strict=True)


def test_the_grammar_in_the_package_is_the_one_in_the_repository() -> None:
    assert (HOUSE / "grammar" / "pattern.lark").read_text("utf-8") == TEXT


def shape(part: Any) -> tuple[Any, ...]:
    """A tree with its words and their places, for comparing."""
    if isinstance(part, Node):
        return part.rule, part.start, part.end, *map(shape, part.children)
    return part.type, str(part), part.start_pos, part.end_pos


# ------------------------------------------------------------------ the cache


@pytest.fixture
def cache(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A cache folder of the test's own, which does not exist yet."""
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    return tmp_path / "loopwright"


ROW = "round 2: ch 2, [3 tr, fptr] around, join = {body / 2} sts"


def whole(found: tables.Tables) -> bool:
    """Whether these are the grammar's tables, and a row can be read by them. Lark numbers states
    as it pleases, so that those built anew are others."""
    rows = [shape(Automaton(one).read("row_line", ROW)) for one in (found, BUILT)]
    return found[4:] == BUILT[4:] and rows[0] == rows[1]


def never(*_: object, **__: object) -> None:
    """Stands for Lark where the cache should do."""
    raise AssertionError("the grammar was built again")


def test_the_tables_are_kept_and_found_again(cache: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    assert whole(tables.load())
    (kept,) = cache.iterdir()
    assert cache.stat().st_mode & 0o077 == 0
    assert kept.stat().st_mode & 0o022 == 0
    monkeypatch.setattr(tables, "build", never)
    assert whole(tables.load())


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
    "None": lambda _: b"N",
}


@pytest.mark.parametrize("damage", DAMAGES)
def test_a_damaged_cache_is_made_anew(
    cache: Path, monkeypatch: pytest.MonkeyPatch, damage: str
) -> None:
    tables.load()
    (kept,) = cache.iterdir()
    kept.write_bytes(DAMAGES[damage](kept.read_bytes()))
    assert whole(tables.load())
    monkeypatch.setattr(tables, "build", never)
    assert whole(tables.load())


def test_what_others_may_write_is_not_trusted(cache: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    tables.load()
    (kept,) = cache.iterdir()
    kept.chmod(0o666)
    builds = []
    build = tables.build
    monkeypatch.setattr(tables, "build", lambda text: builds.append(text) or build(text))
    assert whole(tables.load())
    cache.chmod(0o777)
    assert whole(tables.load())
    assert len(builds) == 2


def test_a_cache_that_cannot_be_is_done_without(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "file").write_text("")
    (tmp_path / "folder" / "loopwright").mkdir(parents=True)
    for base in (tmp_path / "file", Path("/dev/null"), Path("/proc/nowhere")):
        monkeypatch.setenv("XDG_CACHE_HOME", str(base))
        assert whole(tables.load())
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "folder"))
    monkeypatch.setattr(tables, "_write", _full)
    assert whole(tables.load())
    assert list((tmp_path / "folder" / "loopwright").iterdir()) == []


def _full(*_: object) -> None:
    raise OSError(28, "No space left on device")


def test_a_folder_where_the_file_should_be(cache: Path) -> None:
    tables.load()
    (kept,) = cache.iterdir()
    kept.unlink()
    kept.mkdir()
    assert whole(tables.load())


def test_where_the_cache_is(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", "/somewhere")
    assert cache_folder() == "/somewhere/loopwright"
    monkeypatch.setenv("XDG_CACHE_HOME", "not/absolute")
    monkeypatch.setenv("HOME", "/home/maker")
    assert cache_folder() == "/home/maker/.cache/loopwright"
    monkeypatch.setattr(os.path, "expanduser", lambda path: path)
    assert cache_folder() is None


def test_a_command_without_a_cache_says_nothing_of_it() -> None:
    answer = run("check", "examples", XDG_CACHE_HOME="/dev/null")
    assert (answer.code, answer.err) == (0, "")


def test_the_same_line_is_parsed_once() -> None:
    parser.forget()
    row = "row 1: dc in 2nd ch from hook, dc in each ch across"
    for text in (f"{row}\n{row}\n", f"terms: UK\n\n{row}\n", f"{row} = 4 sts\n{row}"):
        read_lines(text)
    told = parser.parse.cache_info()
    assert (told.misses, told.hits) == (2, 3)


def test_what_is_kept_does_not_grow_without_end() -> None:
    parser.forget()
    read_lines("".join(f"row {n}: dc\n" for n in range(parser.MOST_KEPT + 1000)))
    assert parser.parse.cache_info().currsize == parser.MOST_KEPT
    parser.forget()
