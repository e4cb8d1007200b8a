"""What lies in a folder after ``overview`` and ``build``: what the patterns make now, nothing that
they made before, and whatever else was there."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from conftest import Loopwright
from repository.houses import HOUSE, PLAIN, STRIP, WRONG, write
from support import HOUSE as ROOT

LIST = "loopwright-made.json"
OTHER = PLAIN.replace("Tideline Swatch", "Spray Swatch")
SIZED = PLAIN.replace("terms: UK\n", "terms: UK\nsizes: small (large)\n")
PICTURED = PLAIN.replace("terms: UK\n", 'terms: UK\npicture: wave.png "A wave."\n')
PNG = (
    "89504e470d0a1a0a0000000d4948445200000001000000010806000000"
    "1f15c4890000000d49444154789c6360606060000000050001a5f645400000000049454e44ae426082"
)


@pytest.fixture(autouse=True)
def cache(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A cache of the test's own."""
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))


@pytest.fixture
def house(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder that we are in, with two patterns."""
    write(tmp_path / "in", {"a.crochet": PLAIN, "b.crochet": OTHER})
    monkeypatch.chdir(tmp_path / "in")
    return tmp_path / "in"


def files(folder: Path) -> dict[str, bytes]:
    """Every file under a folder."""
    found = (path for path in sorted(folder.rglob("*")) if path.is_file())
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in found}


def dates(folder: Path) -> dict[str, tuple[int, int]]:
    """When each file was written, and which one it is."""
    return {
        name: ((folder / name).stat().st_mtime_ns, (folder / name).stat().st_ino)
        for name in files(folder)
    }


def listed(folder: Path) -> set[str]:
    plain = json.loads((folder / LIST).read_bytes())
    return {path for one in plain["made"] for path in one["files"]}


# ------------------------------------------------------------------ overview


def test_the_list_names_what_was_made(loopwright: Loopwright, house: Path) -> None:
    assert loopwright("overview", ".", "-o", "out").code == 0
    found = files(house / "out")
    assert listed(house / "out") == set(found) - {LIST}
    assert "patterns/a/a-uk.html" in found
    raw = found[LIST].decode()
    of = [json.loads(line.rstrip(","))["of"] for line in raw.splitlines()[1:-1]]
    assert of == ["", "../a.crochet", "../b.crochet"]


@pytest.mark.parametrize("how", ["error", "gone", "excluded"])
def test_what_does_not_come_out_now_is_for_sale_no_more(
    loopwright: Loopwright, house: Path, how: str
) -> None:
    loopwright("overview", ".", "-o", "out")
    before = files(house / "out")
    if how == "error":
        (house / "a.crochet").write_text(WRONG, "utf-8")
    elif how == "gone":
        (house / "a.crochet").unlink()
    else:
        (house / "loopwright.toml").write_text('exclude = ["a.crochet"]\n', "utf-8")
    answer = loopwright("overview", ".", "-o", "out")
    assert answer.code == (1 if how == "error" else 0)
    after = files(house / "out")
    assert {name for name in before if name not in after} == {
        name for name in before if name.startswith("patterns/a/")
    }
    assert not (house / "out/patterns/a").exists()
    assert listed(house / "out") == set(after) - {LIST}
    assert "Taken away:\n" in answer.out
    assert f"  {os.path.join('out', 'patterns/a/a-uk.html')}\n" in answer.out


def test_a_part_that_is_called_otherwise_leaves_no_chart(
    loopwright: Loopwright, house: Path
) -> None:
    loopwright("overview", ".", "-o", "out")
    (house / "a.crochet").write_text(PLAIN.replace("part swatch", "part sample"), "utf-8")
    loopwright("overview", ".", "-o", "out")
    charts = [path.name for path in (house / "out/patterns/a/charts").iterdir()]
    assert charts == ["a-sample.svg"]


def test_nothing_that_it_did_not_make_is_taken_away(loopwright: Loopwright, house: Path) -> None:
    loopwright("overview", ".", "-o", "out")
    loopwright("build", "b.crochet", "-o", "out")
    write(house / "out", {"patterns/a/notes.txt": "ours", "robots.txt": "ours", "a.html": "ours"})
    (house / "a.crochet").unlink()
    (house / "b.crochet").unlink()
    (house / "c.crochet").write_text(PLAIN, "utf-8")
    loopwright("overview", ".", "-o", "out")
    after = files(house / "out")
    assert {"patterns/a/notes.txt", "robots.txt", "a.html", "b-uk.html"} <= set(after)
    assert not [name for name in after if name.startswith(("patterns/a/a-", "patterns/b/"))]


def test_what_was_changed_since_is_left_and_said_each_time(
    loopwright: Loopwright, house: Path
) -> None:
    loopwright("overview", ".", "-o", "out")
    page = house / "out/patterns/a/a-uk.html"
    page.write_text("by hand", "utf-8")
    (house / "a.crochet").unlink()
    for _ in range(2):
        answer = loopwright("overview", ".", "-o", "out")
        assert answer.code == 1
        assert "a-uk.html: this file was made before and is not made now" in answer.err
        assert page.read_text("utf-8") == "by hand"
    page.unlink()
    assert loopwright("overview", ".", "-o", "out").code == 0


def test_a_link_is_not_followed(loopwright: Loopwright, house: Path) -> None:
    loopwright("overview", ".", "-o", "out")
    away = house / "away"
    (house / "out/patterns/a").rename(away)
    (house / "out/patterns/a").symlink_to(away)
    sheet = house / "out/patterns/b/b-uk.html"
    kept = house / "kept.html"
    sheet.rename(kept)
    sheet.symlink_to(kept)
    (house / "a.crochet").unlink()
    (house / "b.crochet").unlink()
    (house / "c.crochet").write_text(PLAIN, "utf-8")
    before = files(away)
    answer = loopwright("overview", "c.crochet", "-o", "out")
    assert answer.code == 1
    assert answer.err.count("a link stands in its place") == len(before) + 1
    assert files(away) == before
    assert kept.exists()
    assert sheet.is_symlink()


OUTSIDE = {"of": "../a.crochet", "by": "overview", "files": {"../victim.html": "0" * 32}}


@pytest.mark.parametrize(
    "damage",
    [
        lambda text: text[: len(text) // 2],
        lambda text: "",
        lambda text: text.replace('"loopwright-made": 1', '"loopwright-made": 2'),
        lambda text: "<<<<<<< ours\n" + text,
        lambda text: json.dumps({"loopwright-made": 1, "made": [OUTSIDE]}),
        lambda text: json.dumps({"loopwright-made": 1, "made": [{**OUTSIDE, "files": 3}]}),
        lambda text: text.replace("patterns/a/a-uk.html", "/etc/a-uk.html"),
        lambda text: text.replace("patterns/a/a-uk.html", "patterns/./a-uk.html"),
        lambda text: text.replace("patterns/a/a-uk.html", "patterns\\\\a-uk.html"),
    ],
)
def test_with_a_damaged_list_nothing_is_taken_away(
    loopwright: Loopwright, house: Path, damage: Callable[[str], str]
) -> None:
    loopwright("overview", ".", "-o", "out")
    (house / "victim.html").write_text("ours", "utf-8")
    path = house / "out" / LIST
    was = path.read_text("utf-8")
    assert damage(was) != was
    path.write_text(damage(was), "utf-8")
    before = set(files(house / "out"))
    (house / "a.crochet").unlink()
    answer = loopwright("overview", ".", "-o", "out")
    assert answer.code == 1
    assert "so nothing is taken away" in answer.err
    assert "Taken away" not in answer.out
    assert set(files(house / "out")) == before
    assert (house / "victim.html").exists()
    # The list is whole again.
    assert loopwright("overview", ".", "-o", "out").code == 0


def test_a_run_that_breaks_off_takes_nothing_away_and_owns_what_it_wrote(
    loopwright: Loopwright, house: Path
) -> None:
    loopwright("overview", ".", "-o", "out")
    before = set(files(house / "out"))
    write(house, {"a.crochet": PLAIN.replace("part swatch", "part sample")})
    write(house, {"c/c.crochet": PLAIN, "c/loopwright.toml": "no settings"})
    (house / "b.crochet").unlink()
    assert loopwright("overview", "a.crochet", "c/c.crochet", "-o", "out").code == 2
    after = set(files(house / "out"))
    assert after - before == {"patterns/a/charts/a-sample.svg"}
    assert not before - after
    assert listed(house / "out") == after - {LIST}


KILLED = """
import os, sys
from loopwright.repository import overview
real, done = overview.write_all, []

def write_all(folder, files):
    wrote = real(folder, files if len(done) else files[:2])
    done.append(1)
    os._exit(9)  # as if it were killed

overview.write_all = write_all
from loopwright.cli import main
main(["overview", ".", "-o", "out"])
"""


def test_what_a_killed_run_wrote_is_taken_away_too(loopwright: Loopwright, house: Path) -> None:
    """It is killed in the middle of the first pattern, whose part has another name by the next."""
    loopwright("overview", ".", "-o", "out")
    write(house, {"a0.crochet": PLAIN.replace("part swatch", "part sample")})
    (house / "a0.crochet").rename(house / "0.crochet")
    assert subprocess.run([sys.executable, "-c", KILLED], check=False).returncode == 9
    assert (house / "out/patterns/0/0-uk.html").is_file()
    assert not (house / "out/patterns/0/0-us.html").exists()
    # Whatever else is built there meanwhile leaves it alone, and it is ours still.
    loopwright("build", "b.crochet", "-o", "out")
    assert (house / "out/patterns/0/0-uk.html").is_file()
    (house / "0.crochet").unlink()
    answer = loopwright("overview", ".", "-o", "out")
    assert answer.code == 0
    assert "Taken away:\n  out/patterns/0/0-uk.html\n  out/patterns/0/0-uk.md\n" in answer.out
    assert listed(house / "out") == set(files(house / "out")) - {LIST}


def test_what_is_begun_and_half_said_harms_nothing(loopwright: Loopwright, house: Path) -> None:
    loopwright("overview", ".", "-o", "out")
    (house / "victim.html").write_text("ours", "utf-8")
    before = files(house / "out")
    for text in ('{"of": "a", "by', "[]\n3\n\0\n", json.dumps(OUTSIDE) + "\n"):
        (house / "out/loopwright-made.part").write_text(text, "utf-8")
        assert loopwright("overview", ".", "-o", "out").code == 0
        assert files(house / "out") == before
    assert (house / "victim.html").exists()


# ------------------------------------------------------------------ what has not changed


def test_what_has_not_changed_is_not_written_again(loopwright: Loopwright, house: Path) -> None:
    first = loopwright("overview", ".", "-o", "out")
    assert "Written:\n" in first.out
    before = dates(house / "out")
    for more in ((), ("--no-cache",)):
        again = loopwright("overview", ".", "-o", "out", *more)
        assert "0 written" in again.out
        assert "Unchanged:\n  out/index.html\n" in again.out.replace(os.sep, "/")
        assert dates(house / "out") == before
    (house / "a.crochet").write_text(PLAIN.replace("Tideline", "Ebb"), "utf-8")
    loopwright("overview", ".", "-o", "out")
    moved = {name for name, when in dates(house / "out").items() if before[name] != when}
    assert moved >= {"index.html", "patterns/a/a-uk.html", LIST}
    assert not [name for name in moved if name.startswith("patterns/b/")]


def test_a_file_that_was_lost_or_changed_is_made_again(loopwright: Loopwright, house: Path) -> None:
    loopwright("overview", ".", "-o", "out")
    before = files(house / "out")
    (house / "out/patterns/a/a-uk.html").unlink()
    (house / "out/patterns/b/b-us.html").write_text("by hand", "utf-8")
    (house / "out/index.html").unlink()
    assert "2 written" in loopwright("overview", ".", "-o", "out").out
    assert files(house / "out") == before


def test_a_second_run_says_the_same(loopwright: Loopwright, house: Path) -> None:
    """With all that can stand on the page: sizes, counts, yarn, advice, errors, used files."""
    advised = SIZED.replace("part", 'yarn foam: "wool"\ncount wide: 10 (10)\npart')
    write(house, {"advice.crochet": advised, "wrong.crochet": WRONG, ".git/HEAD": ""})
    write(house, {"shared/house.crochet": HOUSE, "strips/strip.crochet": STRIP})
    first = loopwright("overview", ".", "-o", "out")
    before = files(house / "out")
    again = loopwright("overview", ".", "-o", "out")
    assert (again.code, again.out.split("\n")[0]) == (first.code, first.out.split("\n")[0])
    assert "0 written" in again.out
    assert files(house / "out") == before


CHANGES: dict[str, Callable[[Path], object]] = {
    "text": lambda at: (at / "strips/strip.crochet").write_text(STRIP + "# more\n", "utf-8"),
    "used": lambda at: (at / "shared/house.crochet").write_text(
        HOUSE.replace("110 m", "120 m"), "utf-8"
    ),
    "settings": lambda at: (at / "loopwright.toml").write_text(
        '[severities]\nyarn-unused = "off"\n', "utf-8"
    ),
}


@pytest.mark.parametrize("what", CHANGES)
def test_whatever_a_page_is_made_from_counts(
    loopwright: Loopwright, house: Path, what: str
) -> None:
    """The next run gives what a run into an empty folder, with nothing known, gives."""
    write(house, {".git/HEAD": "", "shared/house.crochet": HOUSE, "strips/strip.crochet": STRIP})
    loopwright("overview", ".", "-o", "../out")
    CHANGES[what](house)
    loopwright("overview", ".", "-o", "../out")
    loopwright("overview", ".", "-o", "../new", "--no-cache")
    assert files(house.parent / "out") == files(house.parent / "new")


def test_another_picture_makes_another_page(loopwright: Loopwright, house: Path) -> None:
    write(house, {"a.crochet": PICTURED})
    picture = house / "wave.png"
    picture.write_bytes(bytes.fromhex(PNG))
    assert loopwright("overview", ".", "-o", "out").code == 0
    assert "0 written" in loopwright("overview", ".", "-o", "out").out
    picture.write_bytes(bytes.fromhex(PNG) + b"\0")
    assert "0 written" not in loopwright("overview", ".", "-o", "out").out
    copies = list((house / "out/patterns/a/pictures").iterdir())
    assert [one.read_bytes() for one in copies] == [picture.read_bytes()]
    picture.unlink()
    answer = loopwright("overview", ".", "-o", "out")
    assert answer.code == 1
    assert "there is no such file beside the pattern" in answer.err
    assert not (house / "out/patterns/a/pictures").exists()
    # What is lacking is said each time.
    assert loopwright("overview", ".", "-o", "out").code == 1


# ------------------------------------------------------------------ build


def test_a_build_takes_away_what_it_made_before(loopwright: Loopwright, house: Path) -> None:
    write(house, {"a.crochet": SIZED})
    loopwright("build", "a.crochet", "-o", "out")
    loopwright("build", "b.crochet", "-o", "out")
    loopwright("build", "a.crochet", "--size", "small", "-o", "out")
    write(house, {"a.crochet": PLAIN})
    answer = loopwright("build", "a.crochet", "-o", "out")
    gone = answer.out.split("Taken away:\n")[1].split()
    assert gone == [f"out/charts/a-swatch-{size}.svg" for size in ("large", "small")]
    names = set(files(house / "out"))
    assert {"a-uk.html", "a-small-uk.html", "b-uk.html", "charts/a-swatch.svg"} <= names
    assert listed(house / "out") == names - {LIST}


def test_a_build_again_touches_nothing(loopwright: Loopwright, house: Path) -> None:
    loopwright("build", "a.crochet", "-o", "out")
    before = dates(house / "out")
    answer = loopwright("build", "a.crochet", "-o", "out")
    assert "Written" not in answer.out
    assert "Unchanged:\n" in answer.out
    assert dates(house / "out") == before


def test_a_build_that_cannot_be_made_says_what_is_left(loopwright: Loopwright, house: Path) -> None:
    loopwright("build", "a.crochet", "-o", "out")
    before = files(house / "out")
    (house / "a.crochet").write_text(WRONG, "utf-8")
    answer = loopwright("build", "a.crochet", "-o", "out")
    assert answer.code == 1
    assert "out: 5 files that were made of this pattern as it stood before are left" in answer.err
    assert files(house / "out") == before
    assert "left there" not in loopwright("build", "a.crochet", "-o", "new").err


@pytest.mark.parametrize("command", ["build", "sizes"])
def test_patterns_of_one_name_do_not_meet_in_one_folder(
    loopwright: Loopwright, house: Path, command: str
) -> None:
    gauge = "hook main: 4 mm\ntension even: 20 sts and 20 rows to 10 cm in dc, hook main\n"
    told = PLAIN.replace("part swatch: flat", f"{gauge}part swatch: flat, hook main, tension even")
    write(house, {"one/mat.crochet": told, "two/mat.crochet": told.replace("Tideline", "Ebb")})
    assert loopwright(command, "one/mat.crochet", "-o", "out").code == 0
    before = files(house / "out")
    answer = loopwright(command, "two/mat.crochet", "-o", "out")
    assert answer.code == 2
    assert "was made of one/mat.crochet and would be written over" in answer.err
    assert files(house / "out") == before
    # The same pattern by another way is no other pattern; nor is one that was moved.
    assert loopwright(command, "./two/../one/mat.crochet", "-o", "out").code == 0
    (house / "one/mat.crochet").rename(house / "two/mat.crochet")
    assert loopwright(command, "two/mat.crochet", "-o", "out").code == 0
    assert files(house / "out").keys() == before.keys()
    of = {one["of"] for one in json.loads((house / "out" / LIST).read_bytes())["made"]}
    assert of == {"../two/mat.crochet"}


def test_builds_side_by_side_all_stand_in_the_list(house: Path) -> None:
    names = [f"p{n}" for n in range(6)]
    write(house, {f"{name}.crochet": PLAIN for name in names})
    command = [sys.executable, "-m", "loopwright", "build"]
    runs = [
        subprocess.Popen([*command, f"{name}.crochet", "-o", "out"], stdout=subprocess.DEVNULL)
        for name in names
    ]
    assert [one.wait(60) for one in runs] == [0] * len(names)
    assert listed(house / "out") == set(files(house / "out")) - {LIST}
    assert {f"{name}-uk.html" for name in names} <= listed(house / "out")


def test_a_pattern_from_standard_input(loopwright: Loopwright, house: Path) -> None:
    for text in (PLAIN, OTHER):
        assert loopwright("build", "-", "-o", "out", given=text.encode()).code == 0
    write(house, {"pattern.crochet": PLAIN})
    assert loopwright("build", "pattern.crochet", "-o", "out").code == 0
    assert listed(house / "out") == set(files(house / "out")) - {LIST}


def test_the_same_patterns_give_the_same_list(loopwright: Loopwright, house: Path) -> None:
    write(house, {"c.crochet": SIZED})
    for out in ("../one", "../two"):
        for name in ("c", "a") if out == "../one" else ("a", "c"):
            loopwright("build", f"{name}.crochet", "-o", out)
        loopwright("overview", ".", "-o", out)
    assert files(house.parent / "one") == files(house.parent / "two")


def test_the_shore_house(loopwright: Loopwright, tmp_path: Path) -> None:
    shore = str(ROOT / "examples/shore-house")
    assert loopwright("overview", shore, "-o", str(tmp_path / "out")).code == 0
    assert listed(tmp_path / "out") == set(files(tmp_path / "out")) - {LIST}
