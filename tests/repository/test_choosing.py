"""Which files are checked: what changed with what it touches, and one share of many."""

from __future__ import annotations

from pathlib import Path

import pytest

from conftest import Loopwright
from loopwright.repository.choosing import Choice, chosen
from loopwright.repository.files import CannotLook
from repository.houses import HOUSE, PLAIN, STRIP, committed, git, write

FILES = {
    "shared/deep.crochet": 'shared: Deep\nterms: UK\nyarn foam: "cotton"\n',
    "shared/house.crochet": f"{HOUSE}use: deep.crochet\n",
    "strips/strip.crochet": STRIP,
    "plain/one.crochet": PLAIN,
    "plain/two.crochet": PLAIN,
}


@pytest.fixture
def house(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A repository that git keeps, with everything committed; the tests stand in it."""
    folder = write(tmp_path / "a house", FILES)
    committed(folder)
    monkeypatch.chdir(folder)
    return folder


def changed(revision: str = "HEAD", *paths: str) -> list[str]:
    found = chosen(list(paths), Choice(changed=revision))
    return [one.removeprefix("./") for one in found]


def test_nothing_changed(house: Path, loopwright: Loopwright) -> None:
    assert changed() == []
    answer = loopwright("check", "--changed")
    assert (answer.code, answer.out) == (0, "There is no pattern to check.\n")


def test_what_changed_and_what_is_new(house: Path) -> None:
    write(house, {"plain/one.crochet": PLAIN + "# more\n", "new/three.crochet": PLAIN})
    assert changed() == ["new/three.crochet", "plain/one.crochet"]
    git(house, "add", "-A")
    assert changed() == ["new/three.crochet", "plain/one.crochet"]
    assert changed("HEAD", "plain") == ["plain/one.crochet"]


def test_what_uses_what_changed_and_what_uses_that(house: Path) -> None:
    write(house, {"shared/deep.crochet": FILES["shared/deep.crochet"] + "# more\n"})
    assert changed() == ["shared/deep.crochet", "shared/house.crochet", "strips/strip.crochet"]


def test_what_uses_a_file_that_is_gone(house: Path) -> None:
    (house / "shared" / "deep.crochet").unlink()
    assert changed() == ["shared/house.crochet", "strips/strip.crochet"]
    (house / "shared" / "house.crochet").unlink()
    assert changed() == ["strips/strip.crochet"]


def test_all_that_settings_hold_for(house: Path) -> None:
    write(house, {"plain/loopwright.toml": '[house]\nterms = "UK"\n'})
    assert changed() == ["plain/one.crochet", "plain/two.crochet"]
    committed(house)
    assert changed() == []
    (house / "plain" / "loopwright.toml").unlink()
    assert changed() == ["plain/one.crochet", "plain/two.crochet"]


def test_since_the_branch_began(house: Path) -> None:
    git(house, "checkout", "-q", "-b", "tide")
    write(house, {"plain/one.crochet": PLAIN + "# on the branch\n"})
    committed(house)
    git(house, "checkout", "-q", "main")
    write(house, {"plain/two.crochet": PLAIN + "# meanwhile\n"})
    committed(house)
    git(house, "checkout", "-q", "tide")
    assert changed("main") == ["plain/one.crochet"]


def test_from_a_folder_within(house: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    write(house, {"plain/one.crochet": PLAIN + "# more\n"})
    monkeypatch.chdir(house / "plain")
    assert changed("HEAD", ".") == ["one.crochet"]
    assert changed() == ["../plain/one.crochet"]


@pytest.mark.parametrize("revision", ["no-such-thing", "--output=x", "-h", "HEAD^9", ""])
def test_a_revision_that_is_none(house: Path, loopwright: Loopwright, revision: str) -> None:
    answer = loopwright("check", ".", f"--changed={revision}")
    assert (answer.code, answer.out) == (2, "")
    named = f"git knows no revision `{revision}` here." if revision else "names no revision"
    assert named in answer.err
    assert sorted(one.name for one in house.iterdir()) == [".git", "plain", "shared", "strips"]


def test_a_path_taken_for_a_revision(house: Path, loopwright: Loopwright) -> None:
    answer = loopwright("check", "--changed", "plain")
    assert (answer.code, answer.out) == (2, "")
    assert "write `--changed=HEAD plain`" in answer.err


def test_before_the_first_commit_everything_is_new(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = write(tmp_path, FILES)
    git(folder, "init", "-q", "-b", "main")
    monkeypatch.chdir(folder)
    assert changed() == sorted(FILES)
    with pytest.raises(CannotLook, match="no revision `main`"):
        changed("main")


# ------------------------------------------------------------------ what the next commit changes
def staged(*paths: str) -> list[str]:
    return [one.removeprefix("./") for one in chosen(list(paths), Choice(staged=True))]


def test_what_is_staged_and_what_uses_it(house: Path) -> None:
    write(house, {"shared/house.crochet": f"{HOUSE}use: deep.crochet\n# more\n"})
    write(house, {"plain/one.crochet": PLAIN + "# more\n"})
    write(house, {"new/draft.crochet": STRIP})
    git(house, "add", "shared")
    assert staged() == ["shared/house.crochet", "strips/strip.crochet"]
    git(house, "add", "new")
    assert staged() == ["new/draft.crochet", "shared/house.crochet", "strips/strip.crochet"]
    assert staged("strips") == ["strips/strip.crochet"]


def test_what_uses_a_file_that_the_next_commit_takes_away(house: Path) -> None:
    git(house, "rm", "-q", "shared/house.crochet")
    assert staged() == ["strips/strip.crochet"]


def test_where_nothing_is_staged_all_that_git_knows(house: Path) -> None:
    write(house, {"new/draft.crochet": PLAIN, "plain/one.crochet": PLAIN + "# more\n"})
    assert staged() == sorted(FILES)
    write(house, {"words.txt": "about the shore"})
    git(house, "add", "words.txt")
    assert staged() == []


# ------------------------------------------------------------------ nothing to choose from
def test_settings_that_leave_everything_out(house: Path, loopwright: Loopwright) -> None:
    write(house, {"loopwright.toml": 'paths = ["plain"]\nexclude = ["plain"]\n'})
    answer = loopwright("check")
    assert (answer.code, answer.out) == (2, "")
    assert "the settings leave out everything" in answer.err
    assert loopwright("check", "plain").code == 2
    assert loopwright("check", "plain/one.crochet").code == 0
    assert loopwright("check", "--skip-excluded", "plain/one.crochet").code == 0


def test_where_git_keeps_nothing(tmp_path: Path, loopwright: Loopwright) -> None:
    write(tmp_path, {"one.crochet": PLAIN})
    answer = loopwright("check", str(tmp_path), "--changed")
    assert (answer.code, answer.out) == (2, "")
    assert "not a git repository" in answer.err


def test_where_there_is_no_git(
    house: Path, loopwright: Loopwright, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("PATH", str(house))
    answer = loopwright("check", ".", "--changed")
    assert (answer.code, answer.out) == (2, "")
    assert "git is not installed" in answer.err


# ------------------------------------------------------------------ shares
MANY = {f"hats/{n:03}.crochet": PLAIN for n in range(200)}


def shares(of: int) -> list[list[str]]:
    return [chosen(["."], Choice(shard=(share, of))) for share in range(1, of + 1)]


@pytest.mark.parametrize("of", [1, 2, 3, 8])
def test_every_file_is_in_one_share(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, of: int
) -> None:
    monkeypatch.chdir(write(tmp_path, MANY | {".git/HEAD": ""}))
    found = shares(of)
    assert sorted(one for share in found for one in share) == sorted(f"./{one}" for one in MANY)
    # Within four standard deviations of a fair split.
    spread = 4 * (200 / of * (1 - 1 / of)) ** 0.5
    assert all(abs(len(share) - 200 / of) <= spread for share in found)


def test_a_file_put_in_moves_no_other(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(write(tmp_path, MANY | {".git/HEAD": ""}))
    before = shares(8)
    write(tmp_path, {"a first one.crochet": PLAIN, "hats/100-and-a-half.crochet": PLAIN})
    new = {"./a first one.crochet", "./hats/100-and-a-half.crochet"}
    assert [[one for one in share if one not in new] for share in shares(8)] == before


def test_a_share_does_not_go_by_where_one_stands(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(write(tmp_path / "here", MANY | {".git/HEAD": ""}))
    there = [[one.removeprefix("./hats/") for one in share] for share in shares(4)]
    monkeypatch.chdir(write(tmp_path / "elsewhere", MANY | {".git/HEAD": ""}) / "hats")
    assert [[one.removeprefix("./") for one in share] for share in shares(4)] == there


@pytest.mark.parametrize(
    "share", ["0/8", "9/8", "3", "/", "a/b", "-1/8", "3/8/9", "1/0", "99999999/2"]
)
def test_a_share_that_is_none(loopwright: Loopwright, share: str) -> None:
    answer = loopwright("check", ".", f"--shard={share}")
    assert (answer.code, answer.out) == (2, "")
    assert "share" in answer.err
