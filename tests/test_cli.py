"""The command line: every command, its exit codes, and what it prints where."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from conftest import Loopwright
from loopwright import __version__
from loopwright.cli import COMMANDS
from support import EXAMPLES, HOUSE, SHORE_HOUSE

GOOD = """pattern: Limpet Coaster
terms: US
sizes: small (large)

part disc: in a spiral
start: magic ring
round 1: 6 sc in ring = 6 sts
rounds 2-4 (large only): [sc inc] around

part strap: flat
start: ch 9
row 1: sc in 2nd ch from hook, sc in each ch across = 8 sts
"""
FAULTY = GOOD.replace("= 8 sts", "= 9 sts")
ADVISED = GOOD.replace("part strap", 'yarn foam: "cotton"\npart strap')
MITTENS = str(HOUSE / "examples" / "breakwater-mittens.crochet")
OTHERS = ["check", "compare", "overview", "measures", "tidy", "explain", "completion"]
ON_ONE_FILE = ["sheet", "chart", "build", "fits", "sizes", "kit"]
SCHEMA = json.loads((HOUSE / "docs" / "report.schema.json").read_text("utf-8"))


@pytest.fixture
def file(tmp_path: Path) -> Path:
    """A clean pattern in a folder of its own."""
    path = tmp_path / "limpet.crochet"
    path.write_text(GOOD, "utf-8")
    return path


def listed(folder: Path) -> list[str]:
    """Everything in a folder, so that nothing half written can hide."""
    return sorted(path.relative_to(folder).as_posix() for path in folder.rglob("*"))


# ------------------------------------------------------------------- check


def test_a_clean_pattern(loopwright: Loopwright, file: Path) -> None:
    answer = loopwright("check", str(file))
    # small: 6 + 8 stitches in 2 rows; large: 6 + 12 + 24 + 48 + 8 in 5.
    assert answer.out == "2 sizes, 7 rows, 112 stitches: every count comes out.\n"
    assert (answer.code, answer.err) == (0, "")


def test_a_pattern_with_a_fault(loopwright: Loopwright, file: Path) -> None:
    file.write_text(FAULTY, "utf-8")
    answer = loopwright("check", str(file))
    assert answer.code == 1
    assert answer.err == ""
    assert answer.out.startswith(f"{file}:12:53  count-differs\n")
    assert answer.out.endswith("2 sizes, 7 rows, 112 stitches: 1 error.\n")


def test_advice_alone_is_clean(loopwright: Loopwright, file: Path) -> None:
    file.write_text(ADVISED, "utf-8")
    answer = loopwright("check", str(file))
    assert answer.code == 0
    assert "yarn-unused (advice)" in answer.out
    assert answer.out.endswith("every count comes out. (1 of advice)\n")


def test_every_pattern_under_a_folder(loopwright: Loopwright, file: Path) -> None:
    inner = file.parent / "inner"
    inner.mkdir()
    (inner / "other.crochet").write_text(FAULTY, "utf-8")
    (inner / "notes.txt").write_text("not a pattern", "utf-8")
    (file.parent / ".kept").mkdir()
    (file.parent / ".kept" / "hidden.crochet").write_text("", "utf-8")
    answer = loopwright("check", str(file.parent), str(file), "--format", "json")
    told = json.loads(answer.out)
    paths = [str(inner / "other.crochet"), str(file)]
    assert [one["path"] for one in told["files"]] == paths
    assert answer.code == 1
    Draft202012Validator(SCHEMA).validate(told)


def test_standard_input(loopwright: Loopwright) -> None:
    answer = loopwright("check", "-", given=FAULTY.encode())
    assert answer.code == 1
    assert answer.out.startswith("standard input:12:53  count-differs\n")
    told = json.loads(loopwright("check", "-", "--format", "json", given=GOOD.encode()).out)
    assert told["files"][0]["path"] == "standard input"


def test_the_examples_are_clean(loopwright: Loopwright) -> None:
    answer = loopwright("check", str(HOUSE / "examples"))
    assert answer.code == 0
    assert answer.out.startswith(f"{len(EXAMPLES) + len(SHORE_HOUSE) + 1} patterns, ")
    assert answer.out.count("\n") == 1


def test_the_same_bytes_every_time(loopwright: Loopwright) -> None:
    worked = str(HOUSE / "tests" / "worked")
    for form in ("text", "json"):
        once = loopwright("check", worked, "--format", form)
        assert loopwright("check", worked, "--format", form).out == once.out


def test_safe_mends_are_made_and_shown(loopwright: Loopwright, file: Path) -> None:
    note = "note: Work the sc loosely.\n"
    file.write_text(GOOD + note, "utf-8")
    answer = loopwright("check", "--mend", str(file))
    assert answer.code == 0
    assert "-note: Work the sc loosely." in answer.out
    assert "+note: Work the {sc} loosely." in answer.out
    assert file.read_text("utf-8") == GOOD + "note: Work the {sc} loosely.\n"
    assert listed(file.parent) == ["limpet.crochet"]


def test_a_stated_count_is_never_mended(loopwright: Loopwright, file: Path) -> None:
    file.write_text(FAULTY, "utf-8")
    assert loopwright("check", "--mend", str(file)).code == 1
    assert file.read_text("utf-8") == FAULTY


# --------------------------------------------------------- sheet, chart, build


@pytest.mark.parametrize("form", ["text", "markdown", "html"])
def test_a_sheet_in_each_form_and_terms(loopwright: Loopwright, file: Path, form: str) -> None:
    as_written = loopwright("sheet", str(file), "--form", form)
    american = loopwright("sheet", str(file), "--form", form, "--terms", "US")
    british = loopwright("sheet", str(file), "--form", form, "--terms", "uk")
    assert [one.code for one in (as_written, american, british)] == [0, 0, 0]
    assert as_written.out == american.out != british.out
    assert "Limpet Coaster" in british.out


def test_a_sheet_into_a_file(loopwright: Loopwright, file: Path) -> None:
    out = file.parent / "sheet.txt"
    answer = loopwright("sheet", str(file), "-o", str(out))
    assert (answer.code, answer.out, answer.err) == (0, "", "")
    assert out.read_text("utf-8") == loopwright("sheet", str(file)).out
    assert listed(file.parent) == ["limpet.crochet", "sheet.txt"]


def test_a_chart_of_a_part_and_size(loopwright: Loopwright, file: Path) -> None:
    answer = loopwright("chart", str(file), "--part", "disc", "--size", "large", "--terms", "uk")
    assert answer.code == 0
    assert answer.err == ""
    assert answer.out.startswith("<")
    assert "<svg" in answer.out
    other = loopwright("chart", str(file))
    assert other.code == 0
    assert other.out != answer.out
    assert "strap" in other.err


@pytest.mark.parametrize("wrong", [("--part", "hood"), ("--size", "huge")])
def test_a_chart_of_what_is_not_there(
    loopwright: Loopwright, file: Path, wrong: tuple[str, str]
) -> None:
    answer = loopwright("chart", str(file), *wrong)
    assert (answer.code, answer.out) == (2, "")
    assert f"`{wrong[1]}`" in answer.err


def test_a_build_writes_sheets_in_both_terms_and_charts(loopwright: Loopwright, file: Path) -> None:
    out = file.parent / "out"
    answer = loopwright("build", str(file), "-o", str(out))
    assert answer.code == 0
    written = [line.strip() for line in answer.out.splitlines() if line.startswith("  ")]
    lies_there = {str(path) for path in out.rglob("*") if path.is_file()}
    # The list of what was made is no part of it.
    assert set(written) == lies_there - {str(out / "loopwright-made.json")}
    assert {Path(one).suffix for one in written} >= {".html", ".md", ".svg"}
    for word in ("uk", "us", "disc", "strap", "large"):
        assert any(word in Path(one).name for one in written), word


@pytest.mark.parametrize("command", ON_ONE_FILE)
def test_nothing_is_made_of_a_pattern_with_faults(
    loopwright: Loopwright, file: Path, command: str
) -> None:
    file.write_text(FAULTY, "utf-8")
    out = ["-o", str(file.parent / "out")] if command != "fits" else []
    answer = loopwright(command, str(file), *out)
    assert (answer.code, answer.out) == (1, "")
    assert "count-differs" in answer.err
    assert "1 error." in answer.err
    assert listed(file.parent) == ["limpet.crochet"]


# -------------------------------------------------------- fits, tidy, explain


@pytest.mark.parametrize("command", ["sizes", "kit", "measures"])
def test_tables_as_text_and_as_data(loopwright: Loopwright, command: str) -> None:
    file = [] if command == "measures" else [MITTENS]
    answer = loopwright(command, *file)
    assert (answer.code, answer.err) == (0, "")
    assert len(answer.out.splitlines()) > 3
    assert json.loads(loopwright(command, *file, "--format", "json").out)


def test_tables_into_files(loopwright: Loopwright, tmp_path: Path) -> None:
    assert loopwright("sizes", MITTENS, "-o", str(tmp_path / "drawn")).code == 0
    assert loopwright("kit", MITTENS, "--format", "csv", "-o", str(tmp_path / "kit.csv")).code == 0
    assert (tmp_path / "kit.csv").read_text("utf-8").count(",") > 3
    assert any(name.endswith(".svg") for name in listed(tmp_path / "drawn"))
    assert not any(name.endswith(".part") for name in listed(tmp_path))


def test_fits_tells_the_rule_of_each_count(loopwright: Loopwright) -> None:
    answer = loopwright("fits", MITTENS)
    assert answer.code == 0
    assert "body" in answer.out
    assert "multiple of 4" in answer.out


def test_tidy_checks_then_writes_then_is_content(loopwright: Loopwright, file: Path) -> None:
    file.write_text(GOOD.replace("part disc: in", "part disc :in"), "utf-8")
    before = file.read_bytes()
    answer = loopwright("tidy", "--check", str(file))
    assert (answer.code, answer.out) == (1, f"{file}: the layout would change\n")
    assert file.read_bytes() == before
    assert loopwright("tidy", str(file)).code == 0
    assert file.read_text("utf-8") == GOOD
    again = loopwright("tidy", "--check", str(file))
    assert (again.code, again.out) == (0, "")
    assert listed(file.parent) == ["limpet.crochet"]


def test_tidy_from_standard_input(loopwright: Loopwright) -> None:
    given = GOOD.replace("part disc: in", "part disc :in").encode()
    answer = loopwright("tidy", "-", given=given)
    assert (answer.code, answer.out) == (0, GOOD)


def test_explain(loopwright: Loopwright) -> None:
    assert loopwright("explain").out.count("\n  count-differs\n") == 1
    assert loopwright("explain", "count-differs").out.startswith("count-differs\n")
    answer = loopwright("explain", "count-difers")
    assert (answer.code, answer.out) == (2, "")
    assert "Did you mean `count-differs`?" in answer.err


# ------------------------------------------------------------------ arguments


def test_help_and_version(loopwright: Loopwright) -> None:
    assert loopwright("--version").out == f"loopwright {__version__}\n"
    helped = loopwright("--help")
    assert helped.code == 0
    assert set(COMMANDS) == {*ON_ONE_FILE, *OTHERS}
    for command in COMMANDS:
        assert f"\n    {command}" in helped.out
        assert loopwright(command, "--help").code == 0


WRONG = [
    [],
    ["knit"],
    ["check"],
    ["check", "x.crochet", "--format", "xml"],
    ["sheet"],
    ["sheet", "x.crochet", "--terms", "AU"],
    ["build", "x.crochet"],
    ["tidy"],
    ["kit", "x.crochet", "--bags", "0"],
    ["kit", "x.crochet", "--bags", "some"],
    ["kit", "x.crochet", "--margin", "-5"],
    ["measures", "tail"],
]


@pytest.mark.parametrize("arguments", WRONG, ids=lambda arguments: "-".join(arguments) or "none")
def test_wrong_arguments(loopwright: Loopwright, arguments: list[str]) -> None:
    answer = loopwright(*arguments)
    assert (answer.code, answer.out) == (2, "")
    assert "loopwright" in answer.err
