"""Settings: found upwards, read strictly, and holding for the files below them."""

from __future__ import annotations

import pickle
import re
import tomllib
from pathlib import Path

import pytest

from conftest import Loopwright
from loopwright import Settings
from loopwright.checks.house import House
from loopwright.repository.files import CannotLook
from loopwright.repository.finding import Finder
from loopwright.repository.settings import read_settings
from repository.houses import HOUSE, PLAIN, STRIP, WRONG, write
from support import HOUSE as ROOT


@pytest.mark.parametrize(
    "ours",
    [
        "[tool.loopwright]\nuse = 1\n",
        "[ tool . 'loopwright' ]\nuse = 1\n",
        '["tool"."loopwright"]\nuse = 1\n',
        "[tool]\nloopwright = {use = 1}\n",
        " [ 'tool' ]\nloopwright.use = 1\n",
        "tool.loopwright.use = 1\n",
        "tool = {loopwright = {use = 1}}\n",
    ],
)
def test_a_table_is_found_however_it_is_written(
    loopwright: Loopwright, tmp_path: Path, ours: str
) -> None:
    write(tmp_path, {"pyproject.toml": ours, "one.crochet": PLAIN})
    answer = loopwright("check", str(tmp_path))
    assert answer.code == 2
    assert "`use` is a list of texts" in answer.err


def test_the_nearest_settings_hold(tmp_path: Path) -> None:
    write(
        tmp_path,
        {
            ".git/HEAD": "",
            "loopwright.toml": '[house]\nterms = "UK"\n',
            "a/b/one.crochet": PLAIN,
            "c/pyproject.toml": '[tool.loopwright.severities]\nyarn-unused = "off"\n',
            "c/d/two.crochet": PLAIN,
            "e/pyproject.toml": '[project]\nname = "loopwright-patterns"\n',
        },
    )
    finder = Finder()
    upper, lower = finder.of(str(tmp_path / "a" / "b")), finder.of(str(tmp_path / "c" / "d"))
    assert upper.settings(str(tmp_path / "a" / "b")).house == House(terms="UK")
    assert lower.settings(str(tmp_path / "c" / "d")).severities == (("yarn-unused", "off"),)
    assert lower.settings(str(tmp_path / "c" / "d")).house == House()
    # A pyproject.toml without a table of ours says nothing.
    assert finder.of(str(tmp_path / "e")).said == upper.said
    assert {upper.root, lower.root} == {str(tmp_path)}


def test_the_search_ends_where_git_keeps_the_files(tmp_path: Path) -> None:
    write(tmp_path, {"loopwright.toml": '[house]\nterms = "UK"\n', "inner/.git/HEAD": ""})
    found = Finder().of(str(tmp_path / "inner"))
    assert found.said.house == House()
    assert found.root == str(tmp_path / "inner")


def test_without_git_the_root_is_the_folder_of_the_settings(tmp_path: Path) -> None:
    write(tmp_path, {"loopwright.toml": "", "a/b/one.crochet": PLAIN})
    assert Finder().of(str(tmp_path / "a" / "b")).root == str(tmp_path)


WRONG_SETTINGS = {
    "misspelt": ('pathes = ["a"]\n', ":1: `pathes` is not a setting. Did you mean `paths`?"),
    "unlike any": ("x1 = 1\n", "There is `paths`, `exclude`, `use`, `severities`, `house`."),
    "house": (
        "\n[house]\ngague = true\n",
        ":3: `house.gague` is not a setting. Did you mean `gauge`",
    ),
    "code": (
        '[severities]\ncount-difers = "off"\n',
        ":2: there is no code `count-difers`. Did you",
    ),
    "weight": (
        '[severities]\ncount-differs = "loud"\n',
        ':2: `count-differs` is "error", "advice"',
    ),
    "terms": ('[house]\nterms = "French"\n', '`house.terms` is "UK" or "US", not "French".'),
    "not a flag": ('[house]\ngauge = "yes"\n', '`house.gauge` is true or false, not "yes".'),
    "not a list": ('paths = "patterns"\n', '`paths` is a list of texts, as in `paths = ["..."]`.'),
    "not a table": ("house = 3\n", "`house` is a table: write `[house]`"),
    "outside": ('paths = ["../x"]\n', '`paths` has "../x"; a path goes on from the folder'),
    "absolute": ('use = ["/etc/passwd"]\n', '`use` has "/etc/passwd"; a path goes on'),
    "not TOML": ("paths = [\n", "this is not TOML: "),
    "not text": (b"\xff\xfe", "this file is not UTF-8 text."),
    "exclude": ("exclude = [3]\n", "`exclude` is a list of texts"),
}


@pytest.mark.parametrize("name", WRONG_SETTINGS)
def test_what_is_not_a_setting_is_said(loopwright: Loopwright, tmp_path: Path, name: str) -> None:
    text, wanted = WRONG_SETTINGS[name]
    write(tmp_path, {"one.crochet": PLAIN})
    (tmp_path / "loopwright.toml").write_bytes(text if isinstance(text, bytes) else text.encode())
    answer = loopwright("check", str(tmp_path / "one.crochet"))
    assert (answer.code, answer.out) == (2, "")
    assert "loopwright.toml" in answer.err
    assert wanted in answer.err


def test_a_line_in_a_pyproject_is_named(tmp_path: Path) -> None:
    text = '[project]\nname = "paths"\n\n[tool.loopwright]\npahts = []\n'
    write(tmp_path, {"pyproject.toml": text})
    with pytest.raises(CannotLook, match=r"pyproject\.toml:5: `pahts` is not a setting"):
        Finder().of(str(tmp_path))


def test_two_files_of_settings_in_one_folder(tmp_path: Path) -> None:
    write(tmp_path, {"pyproject.toml": "[tool.loopwright]\n", "loopwright.toml": ""})
    with pytest.raises(CannotLook, match="Keep one of the two"):
        Finder().of(str(tmp_path))


def test_settings_can_be_sent_and_told_apart() -> None:
    one = Settings((("yarn-unused", "off"),), House(terms="UK"), ("../shared/house.crochet",))
    assert pickle.loads(pickle.dumps(one)) == one
    others = [
        Settings(),
        Settings(one.severities),
        Settings(house=one.house),
        Settings(use=one.use),
    ]
    prints = {repr(each) for each in (one, *others)}
    assert len(prints) == 5
    assert repr(one) == repr(pickle.loads(pickle.dumps(one)))


def test_severities_weigh_messages(loopwright: Loopwright, tmp_path: Path) -> None:
    text = PLAIN.replace("part", 'yarn foam: "cotton"\npart')
    write(tmp_path, {"one.crochet": text, "two.crochet": WRONG})
    path = str(tmp_path)
    assert loopwright("check", path).out.endswith("1 error. (1 of advice)\n")
    settings = '[severities]\nyarn-unused = "error"\ncount-differs = "advice"\n'
    write(tmp_path, {"loopwright.toml": settings})
    answer = loopwright("check", path)
    assert "yarn-unused\n" in answer.out
    assert "count-differs (advice)\n" in answer.out
    assert answer.out.endswith("1 error. (1 of advice)\n")
    write(tmp_path, {"loopwright.toml": '[severities]\nyarn-unused = "off"\ncount-differs="off"\n'})
    answer = loopwright("check", path)
    assert (answer.code, answer.out.count("\n")) == (0, 1)
    # What is left out is still no pattern that comes out.
    assert loopwright("sheet", str(tmp_path / "two.crochet")).code == 1


def test_the_rules_of_a_house(loopwright: Loopwright, tmp_path: Path) -> None:
    rules = '[house]\nterms = "US"\nstated-counts = true\ngauge = true\nlicence = true\n'
    text = PLAIN.replace(" = 10 sts", "")
    write(tmp_path, {"one.crochet": text, "loopwright.toml": rules})
    out = loopwright("check", str(tmp_path)).out
    for code in ("terms-not-ours", "no-stated-count", "no-gauge", "no-licence"):
        assert out.count(f"  {code}\n") == 1
    assert out.endswith(": 4 errors.\n")


def test_a_sheet_is_made_without_the_rules_of_a_house(
    loopwright: Loopwright, tmp_path: Path
) -> None:
    rules = '[house]\nterms = "US"\nlicence = true\n'
    write(tmp_path, {"one.crochet": PLAIN, "loopwright.toml": rules})
    assert loopwright("check", str(tmp_path)).code == 1
    made = loopwright("sheet", str(tmp_path / "one.crochet"), "--terms", "us")
    assert made.code == 0
    assert "US terms" in made.out


def test_paths_and_exclusions(
    loopwright: Loopwright, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    settings = 'paths = ["patterns", "hats"]\nexclude = ["drafts", "old-*.crochet", "/hats/x"]\n'
    files = ["patterns/a", "patterns/drafts/b", "patterns/old-c", "hats/d", "hats/x/e", "other/f"]
    write(tmp_path, {f"{one}.crochet": PLAIN for one in files} | {"loopwright.toml": settings})
    monkeypatch.chdir(tmp_path)

    def checked(*arguments: str) -> list[str]:
        out = loopwright("check", *arguments, "--format", "junit").out
        return [line.split('"')[1] for line in out.splitlines() if "<testsuite " in line]

    assert checked() == ["patterns/a.crochet", "hats/d.crochet"]
    assert checked(".") == ["./hats/d.crochet", "./other/f.crochet", "./patterns/a.crochet"]
    # A file that is named is looked at, unless it is said otherwise.
    assert checked("patterns/old-c.crochet") == ["patterns/old-c.crochet"]
    assert checked("patterns/old-c.crochet", "--skip-excluded") == []
    monkeypatch.chdir(tmp_path / "other")
    assert checked() == ["../patterns/a.crochet", "../hats/d.crochet"]


def test_no_path_and_no_settings(
    loopwright: Loopwright, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(write(tmp_path, {".git/HEAD": ""}))
    answer = loopwright("check")
    assert (answer.code, answer.out) == (2, "")
    assert "name a pattern or a folder" in answer.err


def test_what_every_pattern_uses(loopwright: Loopwright, tmp_path: Path) -> None:
    strip = STRIP.replace("use: ../shared/house.crochet\n", "")
    write(
        tmp_path,
        {
            "loopwright.toml": 'use = ["shared/house.crochet"]\n',
            "shared/house.crochet": HOUSE,
            "hats/strip.crochet": strip,
        },
    )
    assert loopwright("check", str(tmp_path)).code == 0
    write(tmp_path, {"loopwright.toml": 'use = ["shared/hose.crochet"]\n'})
    answer = loopwright("check", str(tmp_path / "hats"))
    assert (answer.code, answer.out) == (2, "")
    assert '`use` has "shared/hose.crochet", and there is no such file.' in answer.err


def test_the_settings_that_are_documented_are_taken() -> None:
    text = (ROOT / "docs" / "repository.md").read_text("utf-8")
    (shown,) = re.findall(r"^```toml\n(.*?)^```$", text, flags=re.MULTILINE | re.DOTALL)
    said = read_settings("shown", shown, tomllib.loads(shown))
    assert said.house == House("UK", stated_counts=True, gauge=True, licence=True)
    assert said.paths == ("patterns", "shared")
    assert said.severities == (("untranslated-term", "off"), ("yarn-unused", "error"))
