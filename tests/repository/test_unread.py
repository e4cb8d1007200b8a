"""Files that cannot be read, or must not be: the others are told of all the same, and what lies
outside of the repository stays untouched and untold."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from conftest import Loopwright
from repository.houses import HOUSE, PLAIN, STRIP, WRONG, committed, write


@pytest.fixture
def house(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A repository with a good pattern, a wrong one between two that are not text, and a link to
    nothing; the tests stand in it."""
    folder = write(tmp_path / "house", {"b.crochet": PLAIN, "c.crochet": WRONG})
    for name in ("a", "d"):
        (folder / f"{name}.crochet").write_bytes(PLAIN.replace("Swatch", "Mütze").encode("latin-1"))
    (folder / "e.crochet").symlink_to("nowhere.crochet")
    committed(folder)
    monkeypatch.chdir(folder)
    return folder


@pytest.mark.parametrize("form", ["text", "json", "sarif", "junit", "github"])
def test_what_cannot_be_read_stops_no_report(
    house: Path, loopwright: Loopwright, form: str
) -> None:
    answer = loopwright("check", ".", "--format", form)
    assert answer.code == 2
    assert "count-differs" in answer.out
    told = answer.err.splitlines()
    assert [one.partition(": ")[2].partition(":")[0] for one in told] == [
        f"./{name}.crochet" for name in "ade"
    ]
    assert all("not UTF-8" in one for one in told[:2])
    written = loopwright("check", ".", "--format", form, "-o", "report")
    assert (written.code, (house / "report").read_text("utf-8")) == (2, answer.out)


def test_one_file_alone_that_cannot_be_read(house: Path, loopwright: Loopwright) -> None:
    answer = loopwright("check", "a.crochet")
    assert (answer.code, answer.out) == (2, "")
    assert "not UTF-8" in answer.err


def test_all_that_can_be_read_is_mended_and_known(house: Path, loopwright: Loopwright) -> None:
    write(house, {"b.crochet": PLAIN.replace("row 1: dc", "row 1: Dc")})
    mended = loopwright("check", "--mend", ".")
    assert mended.code == 2
    assert (house / "b.crochet").read_text("utf-8") == PLAIN
    known = loopwright("check", ".", "--write-baseline")
    assert (known.code, "1 message written" in known.out) == (2, True)
    assert len(json.loads((house / "loopwright-baseline.json").read_text())["messages"]) == 1


def test_what_changed_and_cannot_be_read_is_told(house: Path, loopwright: Loopwright) -> None:
    (house / "a.crochet").write_bytes(b"pattern: \xff\n")
    answer = loopwright("check", ".", "--changed")
    assert answer.code == 2
    assert "a.crochet: line 1 is not UTF-8" in answer.err


# ------------------------------------------------------------------ links that lead out
SECRET = (
    "pattern: Not for you\nterms: UK\npart a: flat\nstart: ch 3\nrow 1: Dc in 2nd ch from hook\n"
)


@pytest.mark.parametrize("settings", [True, False])
def test_a_link_out_of_the_repository_is_not_followed(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, loopwright: Loopwright, settings: bool
) -> None:
    house = write(tmp_path / "house", {"good.crochet": PLAIN})
    if settings:
        write(house, {"loopwright.toml": 'paths = ["."]\n'})
    else:
        committed(house)
    secret = tmp_path / "secret.txt"
    secret.write_text(SECRET)
    (house / "leak.crochet").symlink_to("../secret.txt")
    monkeypatch.chdir(house)
    for options in ((".",), ("--mend", "."), (".", "--format", "json")):
        answer = loopwright("check", *options)
        assert answer.code == 2
        assert "Not for you" not in answer.out + answer.err
        assert "leak.crochet: this link leads out of the repository" in answer.err
    for command in ("check", "sheet", "fits", "tidy"):
        answer = loopwright(command, "leak.crochet")
        assert (answer.code, answer.out) == (2, "")
    assert loopwright("tidy", ".").code == 2
    shown = loopwright("overview", ".", "-o", "out")
    assert shown.code == 2
    assert "leak.crochet: this link leads out" in shown.err
    page = (house / "out" / "index.html").read_text("utf-8")
    assert "Tideline Swatch" in page
    assert "Not for you" not in page
    assert secret.read_text() == SECRET


def test_links_within_the_repository_and_to_it_are_followed(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, loopwright: Loopwright
) -> None:
    house = write(tmp_path / "house", {"good.crochet": PLAIN, "shared/house.crochet": HOUSE})
    write(house, {"strips/strip.crochet": STRIP})
    committed(house)
    (house / "again.crochet").symlink_to("good.crochet")
    (tmp_path / "way").symlink_to("house")
    monkeypatch.chdir(tmp_path)
    assert loopwright("check", "way").code == 0
    assert loopwright("check", "way/again.crochet", "way/strips/strip.crochet").code == 0
    # where nothing is a repository, a link is the maker's own
    (tmp_path / "mine.crochet").symlink_to("house/good.crochet")
    assert loopwright("check", "mine.crochet").code == 0


# ------------------------------------------------------------------ answers in the place of files
@pytest.mark.parametrize(
    "command",
    [
        ("check", "b.crochet", "-o", "c.crochet"),
        ("check", "b.crochet", "-o", "new.crochet"),
        ("sheet", "b.crochet", "-o", "b.crochet"),
        ("sheet", "b.txt", "-o", "b.txt"),
        ("check", "b.txt", "-o", "./b.txt"),
        ("chart", "b.crochet", "-o", "link.svg"),
        ("compare", "b.txt", "b.crochet", "-o", "b.txt"),
    ],
)
def test_no_answer_takes_the_place_of_a_pattern(
    house: Path, loopwright: Loopwright, command: tuple[str, ...]
) -> None:
    write(house, {"b.txt": PLAIN})
    (house / "link.svg").symlink_to("b.crochet")
    before = {path: path.read_bytes() for path in house.iterdir() if path.is_file()}
    answer = loopwright(*command)
    assert (answer.code, answer.out) == (2, "")
    assert "would be lost" in answer.err
    assert {path: path.read_bytes() for path in house.iterdir() if path.is_file()} == before


# ------------------------------------------------------------------ what the settings give
@pytest.mark.parametrize("what", ["missing", "folder", "latin-1"])
def test_a_file_that_the_settings_give_is_told_of_once(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, loopwright: Loopwright, what: str
) -> None:
    settings = '# of the house\nuse = ["shared/hous.crochet"]\n'
    write(tmp_path, {"loopwright.toml": settings, "a.crochet": PLAIN, "b.crochet": PLAIN})
    if what == "folder":
        (tmp_path / "shared" / "hous.crochet").mkdir(parents=True)
    elif what == "latin-1":
        (tmp_path / "shared").mkdir()
        (tmp_path / "shared" / "hous.crochet").write_bytes(b"\xff\n")
    monkeypatch.chdir(tmp_path)
    answer = loopwright("check", ".")
    assert answer.code == 2
    assert answer.err.count("hous.crochet") == 1
    assert answer.err.startswith('loopwright: loopwright.toml:2: `use` has "shared/hous.crochet"')


def test_a_gauge_that_cannot_be_known_is_not_lacking(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, loopwright: Loopwright
) -> None:
    write(tmp_path, {"loopwright.toml": "[house]\ngauge = true\n", "shared/x.crochet": HOUSE})
    write(tmp_path, {"strips/strip.crochet": STRIP})
    monkeypatch.chdir(tmp_path)
    answer = loopwright("check", "strips/strip.crochet")
    assert "cannot-use" in answer.out
    assert "no-gauge" not in answer.out
