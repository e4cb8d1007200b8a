"""``compare --since``: the old edition out of git, with the files that it used and the settings
that held then, whatever stands in the folder now; and an old edition that lacks a file."""

from __future__ import annotations

import json
import os
import subprocess
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from conftest import Loopwright
from repository.houses import HOUSE, committed, git, write
from support import HOUSE as ROOT
from support import run

SCHEMA = json.loads((ROOT / "docs/changes.schema.json").read_text("utf-8"))
BAND = """pattern: Tideline Band
terms: UK
use: ../shared/house.crochet
part band: flat, yarn slate, gauge rib
start: ch 15
row 1: dc in 2nd ch from hook, dc in each ch across = 14 sts
row 2: ch 1, dc in each st across = 14 sts
"""
LONGER = BAND.replace("row 2: ch 1", "rows 2-3: ch 1")
SETTINGS = 'use = ["shared/house.crochet"]\n'


@pytest.fixture
def house(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A repository of one commit, in which we are."""
    files = {"shared/house.crochet": HOUSE, "bands/band.crochet": BAND}
    committed(write(tmp_path / "house", files))
    monkeypatch.chdir(tmp_path / "house")
    return tmp_path / "house"


def told(loopwright: Loopwright, *arguments: str) -> dict[str, object]:
    """What is compared, as data."""
    answer = loopwright("compare", "--format", "json", *arguments)
    assert answer.code == 0, answer
    found: dict[str, object] = json.loads(answer.out)
    Draft202012Validator(SCHEMA).validate(found)
    return found


def test_nothing_changed(loopwright: Loopwright, house: Path) -> None:
    answer = loopwright("compare", "--since", "HEAD", "bands/band.crochet")
    assert (answer.code, answer.err) == (0, "")
    assert answer.out == "Tideline Band\nNothing changed for a maker.\n"


def test_what_is_not_committed_is_the_new_edition(loopwright: Loopwright, house: Path) -> None:
    """One row more; no yarn, hook or gauge is new."""
    write(house, {"bands/band.crochet": LONGER})
    found = told(loopwright, "--since", "HEAD", "bands/band.crochet")
    assert (found["old_faults"], found["old_missing"]) == (0, [])
    assert isinstance(found["rows"], list)
    assert [one["line"] for one in found["rows"]] == ["rows 2-3"]
    assert isinstance(found["facts"], list)
    assert {one["what"] for one in found["facts"]} <= {"finished", "amount"}


def test_what_is_used_is_as_it_was_then(loopwright: Loopwright, house: Path) -> None:
    """50 g had 110 m, and have 120 m now: the pattern's own text is the same."""
    write(house, {"shared/house.crochet": HOUSE.replace("110 m", "120 m")})
    found = told(loopwright, "--since", "HEAD", "bands/band.crochet")
    assert isinstance(found["facts"], list)
    yarn = next(one for one in found["facts"] if one["what"] == "yarn")
    assert "110 m" in yarn["was"]
    assert "120 m" in yarn["now"]
    committed(house)
    assert told(loopwright, "--since", "HEAD", "bands/band.crochet")["same"] is True
    again = told(loopwright, "--since", "HEAD~1", "bands/band.crochet")
    assert again["facts"] == found["facts"]


def test_a_used_file_that_is_there_no_more(loopwright: Loopwright, house: Path) -> None:
    bare = HOUSE.replace("shared: The shore house\nterms: US\n", "").replace("sc,", "dc,")
    own = "".join(line + "\n" for line in bare.splitlines() if not line.startswith("stitch"))
    write(house, {"bands/band.crochet": BAND.replace("use: ../shared/house.crochet\n", own)})
    (house / "shared/house.crochet").unlink()
    found = told(loopwright, "--since", "HEAD", "bands/band.crochet")
    assert (found["same"], found["old_missing"]) == (True, [])


def test_the_settings_of_then(loopwright: Loopwright, house: Path) -> None:
    """Then the settings gave every pattern the house's file; now the pattern says so."""
    write(house, {"loopwright.toml": SETTINGS})
    write(house, {"bands/band.crochet": BAND.replace("use: ../shared/house.crochet\n", "")})
    committed(house)
    write(house, {"bands/band.crochet": BAND})
    (house / "loopwright.toml").unlink()
    assert told(loopwright, "--since", "HEAD", "bands/band.crochet")["same"] is True
    # Settings that only now stand there play no part then, and what the house asks none at all.
    write(house, {"loopwright.toml": "[house]\nlicence = true\n"})
    assert told(loopwright, "--since", "HEAD", "bands/band.crochet")["old_faults"] == 0


def test_settings_that_were_wrong_then(loopwright: Loopwright, house: Path) -> None:
    write(house, {"loopwright.toml": "uses = []\n"})
    committed(house)
    (house / "loopwright.toml").unlink()
    answer = loopwright("compare", "--since", "HEAD", "bands/band.crochet")
    assert answer.code == 2
    assert "as git has it at HEAD: loopwright.toml:1: `uses` is not a setting" in answer.err


@pytest.mark.parametrize("at", [".", "bands", ".."])
def test_from_any_folder(house: Path, at: str) -> None:
    write(house, {"bands/band.crochet": LONGER})
    where = (house / at).resolve()
    path = os.path.relpath(house / "bands/band.crochet", where)
    answer = run("compare", "--since", "HEAD", path, at=where)
    assert answer.code == 0, answer
    assert "uses" not in answer.out + answer.err
    assert "yarn" not in answer.out.split("Sizes and materials")[0]


def test_by_way_of_a_link(loopwright: Loopwright, house: Path) -> None:
    (house / "shared/real.crochet").write_bytes((house / "shared/house.crochet").read_bytes())
    (house / "shared/house.crochet").unlink()
    (house / "shared/house.crochet").symlink_to("real.crochet")
    committed(house)
    write(house, {"bands/band.crochet": LONGER})
    (house / "other").symlink_to("bands")
    assert told(loopwright, "--since", "HEAD", "other/band.crochet")["old_missing"] == []
    # A link that leads out of the repository is followed nowhere.
    (house / "shared/house.crochet").unlink()
    (house.parent / "outside.crochet").write_text(HOUSE, "utf-8")
    (house / "shared/house.crochet").symlink_to("../../outside.crochet")
    committed(house)
    write(house, {"bands/band.crochet": BAND.replace("use: ../shared/house", "use: house")})
    write(house, {"bands/house.crochet": HOUSE})
    assert told(loopwright, "--since", "HEAD", "bands/band.crochet")["old_missing"] == [
        "../shared/house.crochet"
    ]


def test_a_file_that_had_another_name(loopwright: Loopwright, house: Path) -> None:
    git(house, "mv", "bands/band.crochet", "shared/head-band.crochet")
    write(house, {"shared/head-band.crochet": LONGER.replace("../shared/", "")})
    answer = loopwright("compare", "--since", "HEAD", "shared/head-band.crochet")
    assert answer.code == 0
    assert "at HEAD this file was called bands/band.crochet.\n" in answer.err
    assert "rows 2-3" in answer.out.lower()
    assert "Not to be posted" not in answer.out
    committed(house)
    answer = loopwright("compare", "--since", "HEAD~1", "shared/head-band.crochet")
    assert "at HEAD~1 this file was called bands/band.crochet.\n" in answer.err


def test_a_file_that_was_not_there(loopwright: Loopwright, house: Path) -> None:
    write(house, {"bands/new.crochet": BAND})
    answer = loopwright("compare", "--since", "HEAD", "bands/new.crochet")
    assert (answer.code, answer.out) == (2, "")
    assert "bands/new.crochet: at HEAD git has no such file." in answer.err


@pytest.mark.parametrize("revision", ["nothing", "", "-x", "HEAD:bands", "a b"])
def test_no_such_revision(loopwright: Loopwright, house: Path, revision: str) -> None:
    answer = loopwright("compare", f"--since={revision}", "bands/band.crochet")
    assert (answer.code, answer.out) == (2, "")
    assert f"git knows no revision `{revision}` here." in answer.err


def test_a_copy_that_has_only_the_last_commit(house: Path, tmp_path: Path) -> None:
    write(house, {"bands/band.crochet": LONGER})
    committed(house)
    first = git(house, "rev-parse", "HEAD~1").strip()
    git(tmp_path, "clone", "-q", "--depth", "1", house.as_uri(), "shallow")
    answer = run("compare", "--since", first, "bands/band.crochet", at=tmp_path / "shallow")
    assert answer.code == 2
    assert "`git fetch --unshallow` brings the others" in answer.err


def test_without_a_repository(
    loopwright: Loopwright, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    write(tmp_path, {"band.crochet": BAND.replace("../shared/", ""), "house.crochet": HOUSE})
    monkeypatch.chdir(tmp_path)
    answer = loopwright("compare", "--since", "HEAD", "band.crochet")
    assert (answer.code, answer.out) == (2, "")
    assert "band.crochet: --since asks git, and git keeps no repository here." in answer.err


def test_without_git(house: Path, tmp_path: Path) -> None:
    answer = run("compare", "--since", "HEAD", "bands/band.crochet", at=house, PATH=str(tmp_path))
    assert (answer.code, answer.out) == (2, "")
    assert "--since asks git, and git is not installed" in answer.err


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["bands/band.crochet"], "give two files, OLD and NEW; or one, and --since REV"),
        (["--since", "HEAD", "a.crochet", "b.crochet"], "here are 2: give one"),
        (["a.crochet", "b.crochet", "c.crochet"], "give two files"),
    ],
)
def test_how_many_files(
    loopwright: Loopwright, house: Path, arguments: list[str], said: str
) -> None:
    answer = loopwright("compare", *arguments)
    assert (answer.code, answer.out) == (2, "")
    assert said in answer.err


def test_standard_input_has_no_past(loopwright: Loopwright, house: Path) -> None:
    given = BAND.replace("../", "").encode()
    answer = loopwright("compare", "--since", "HEAD", "-", given=given)
    assert answer.code == 2
    assert "--since needs a file that git keeps" in answer.err


def test_git_is_left_as_it_was(loopwright: Loopwright, house: Path) -> None:
    write(house, {"bands/band.crochet": LONGER})
    before = git(house, "status", "--porcelain=v2", "--branch")
    loopwright("compare", "--since", "HEAD", "bands/band.crochet")
    assert git(house, "status", "--porcelain=v2", "--branch") == before


# ------------------------------------------------------------------ what an old edition lacks


@pytest.mark.parametrize(
    ("form", "first"),
    [
        ("text", "Not to be posted: the old edition uses ../shared/house.crochet, which was not"),
        ("markdown", "**Not to be posted: the old edition uses ../shared/house.crochet, which was"),
    ],
)
def test_a_notice_that_cannot_be_trusted_says_so_first(
    loopwright: Loopwright, house: Path, form: str, first: str
) -> None:
    old = house.parent / "elsewhere/old.crochet"
    write(house.parent, {"elsewhere/old.crochet": BAND})
    write(house, {"bands/band.crochet": LONGER})
    answer = loopwright("compare", str(old), "bands/band.crochet", "--format", form)
    assert answer.code == 0
    assert answer.out.startswith(first)
    assert f"{old}: the old edition uses ../shared/house.crochet, which was not found" in answer.err
    french = loopwright(
        "compare", str(old), "bands/band.crochet", "--format", form, "--language", "fr"
    )
    assert french.out.lstrip("*").startswith("À ne pas publier\u00a0: l’ancienne édition utilise")
    assert told(loopwright, str(old), "bands/band.crochet")["old_missing"] == [
        "../shared/house.crochet"
    ]


def test_an_old_edition_from_a_pipe_belongs_to_the_folder_that_we_are_in(house: Path) -> None:
    write(house, {"bands/band.crochet": LONGER})
    line = "loopwright compare <(git show HEAD:bands/band.crochet) band.crochet"
    done = subprocess.run(
        ["bash", "-c", line],
        cwd=house / "bands",
        env={**os.environ, "PATH": _path()},
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )
    assert (done.returncode, done.stderr) == (0, "")
    assert "Not to be posted" not in done.stdout
    assert "slate: new" not in done.stdout


def _path() -> str:
    import sys

    return f"{Path(sys.executable).parent}{os.pathsep}{os.environ['PATH']}"
