"""Every report holds what the verdicts hold, in a form that its readers accept, and the same bytes
each time."""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any
from urllib.parse import unquote

import pytest
from jsonschema import Draft4Validator, Draft202012Validator
from junitparser import Failure, JUnitXml
from markdown_it import MarkdownIt

from benchmarks.repositories import generate
from conftest import Loopwright
from loopwright.diagnostics import RULES
from loopwright.diagnostics.catalogue import described
from loopwright.diagnostics.reports import REPORTS, report
from loopwright.diagnostics.reports.github import annotation
from loopwright.diagnostics.reports.places import address
from loopwright.diagnostics.verdict import Message, Place, Verdict
from loopwright.repository.runner import How
from loopwright.repository.runner import verdicts as run_all
from repository.houses import HOUSE, PLAIN, STRIP, WRONG, write
from support import CASES, WORKED
from support import HOUSE as ROOT

SCHEMAS = Path(__file__).parent / "schemas"
SARIF = json.loads((SCHEMAS / "sarif-2.1.0-rtm.5.json").read_text("utf-8"))
OURS = json.loads((ROOT / "docs" / "report.schema.json").read_text("utf-8"))
ALL = [str(path) for path in (*CASES, *WORKED)]

# A name, a title, a size and a yarn that would break out of a report that trusted them.
HOSTILE_NAME = "100% sea,\n::error::x \"]]> <b>'&.crochet"
HOSTILE = (
    'pattern: ]]> </failure> ::error::x %0A " <script>\nterms: UK\nlicence: \x01\u202e\n'
    "part strip: flat\nstart: ch 11\nrow 1: ]]>::%0A</failure>\x1b[31m\x0b\n"
)


def verdicts(paths: list[str], detail: bool = False) -> Iterator[Verdict]:
    """The verdicts on some files, worked anew."""
    return iter(run_all(paths, How(detail, workers=1, cached=False)))


def made(paths: list[str], form: str) -> str:
    """A report on some files."""
    return "".join(report(form)(verdicts(paths, detail=form == "json"), False))


@pytest.fixture(scope="module")
def told() -> list[Verdict]:
    """The verdicts on all cases and worked patterns."""
    return list(verdicts(ALL))


def errors(told: list[Verdict]) -> int:
    return sum(one.severity == "error" for verdict in told for one in verdict.messages)


@pytest.mark.parametrize("form", REPORTS)
def test_the_same_bytes_every_time(form: str) -> None:
    assert made(ALL, form) == made(ALL, form)


@pytest.mark.parametrize("form", REPORTS)
def test_of_nothing(form: str) -> None:
    whole = made([], form)
    assert whole.endswith("\n")
    reader: dict[str, Callable[[str], object]] = {
        "json": json.loads,
        "sarif": json.loads,
        "junit": lambda text: JUnitXml.fromstring(text.encode()),
    }
    reader.get(form, str)(whole)


# ------------------------------------------------------------------ JSON
def test_json_keeps_our_schema(told: list[Verdict]) -> None:
    whole = json.loads(made(ALL, "json"))
    Draft202012Validator(OURS).validate(whole)
    assert [one["path"] for one in whole["files"]] == ALL
    assert whole["errors"] == errors(told)
    assert whole["advice"] == sum(len(one.messages) for one in told) - errors(told)
    assert made(ALL[:1], "json") == json.dumps(json.loads(made(ALL[:1], "json")), **JSON) + "\n"
    assert made([], "json") == json.dumps(json.loads(made([], "json")), **JSON) + "\n"


JSON: dict[str, Any] = {"ensure_ascii": False, "indent": 1}


# ------------------------------------------------------------------ SARIF
def sarif(paths: list[str]) -> dict[str, Any]:
    """The one run of a log that keeps the schema."""
    whole = json.loads(made(paths, "sarif"))
    Draft4Validator(SARIF).validate(whole)
    (run,) = whole["runs"]
    assert isinstance(run, dict)
    return run


def test_the_schema_is_that_of_the_standard() -> None:
    assert SARIF["title"].startswith("Static Analysis Results Format (SARIF) Version 2.1.0")
    assert not list(Draft4Validator(SARIF).iter_errors({"version": "2.1.0", "runs": []}))
    assert list(Draft4Validator(SARIF).iter_errors({"version": "2.2.0", "runs": []}))


def test_sarif_has_a_result_for_each_message(told: list[Verdict]) -> None:
    run = sarif(ALL)
    wanted = [
        (one.code, one.severity, address(one.place.file or verdict.name), lines(one.place))
        for verdict in told
        for one in verdict.messages
    ]
    found = []
    for result in run["results"]:
        (location,) = result["locations"]
        where = location["physicalLocation"]
        region = {key: value for key, value in where["region"].items() if key != "snippet"}
        at = Place(*region.values())
        assert list(region) == ["startLine", "startColumn", "endLine", "endColumn"]
        severity = {"error": "error", "note": "advice"}[result["level"]]
        assert run["tool"]["driver"]["rules"][result["ruleIndex"]]["id"] == result["ruleId"]
        found.append((result["ruleId"], severity, where["artifactLocation"]["uri"], lines(at)))
    assert found == wanted


def lines(one: Place) -> tuple[int, ...]:
    """A place without its file."""
    return one.line, one.column, one.end_line, one.end_column


def test_sarif_has_every_rule_with_its_words() -> None:
    rules = sarif([])["tool"]["driver"]["rules"]
    assert [one["id"] for one in rules] == list(RULES)
    for one in rules:
        assert one["shortDescription"]["text"].endswith(".")
        assert "pattern: " in one["help"]["text"]


def test_sarif_keeps_to_what_github_takes_of_a_rule() -> None:
    """As GitHub's page "SARIF support for code scanning" has it, under `reportingDescriptor` and in
    the table of the most that is taken: what must be there is, and nothing is longer."""
    rules = sarif([])["tool"]["driver"]["rules"]
    assert len(rules) <= 25_000
    for one in rules:
        assert one["id"]
        assert 0 < len(one["shortDescription"]["text"]) <= 1024
        assert 0 < len(one["fullDescription"]["text"]) <= 1024
        assert one["help"]["text"]
        assert one["help"]["markdown"].count("```text\n") == 2
        assert one["defaultConfiguration"]["level"] in ("note", "error")
        told = one["properties"]
        assert 0 < len(told["tags"]) <= 10
        assert told["precision"] in ("very-high", "high")
        assert told["problem.severity"] in ("error", "recommendation")


def test_the_help_of_a_rule_is_markdown_that_a_reader_reads() -> None:
    for one in sarif([])["tool"]["driver"]["rules"]:
        told = described(one["id"])
        tokens = MarkdownIt().parse(one["help"]["markdown"])
        shown = [each.content for each in tokens if each.type == "fence"]
        assert shown == [told.breaks, told.keeps]


def test_a_result_leads_to_the_places_that_matter_to_it() -> None:
    """By links of SARIF's own kind (3.11.6): text in brackets, and the number of a place."""
    linked = 0
    for result in sarif(ALL)["results"]:
        there = {one["id"]: one["message"]["text"] for one in result.get("relatedLocations", ())}
        found = re.findall(r"^\[((?:[^\]\\]|\\.)*)\]\((\d+)\)\.$", result["message"]["text"], re.M)
        assert {int(n): re.sub(r"\\(.)", r"\1", text) for text, n in found} == there
        linked += len(there)
    assert linked > 10


def test_sarif_fixes_are_the_edits() -> None:
    (path,) = (str(path) for path in CASES if path.stem == "count-differs-starting-chain")
    text = Path(path).read_text("utf-8").split("\n")
    checked = 0
    for result in sarif([path])["results"]:
        for fix in result.get("fixes", ()):
            (change,) = fix["artifactChanges"]
            for one in change["replacements"]:
                region = one["deletedRegion"]
                assert 1 <= region["startLine"] <= region["endLine"] <= len(text)
                checked += 1
    told = next(verdicts([path]))
    assert checked == sum(len(one.edits) for one in told.messages)


def test_a_fix_that_is_made_mends(tmp_path: Path) -> None:
    write(tmp_path, {"one.crochet": PLAIN + "note: Work the dc loosely.\n"})
    path = tmp_path / "one.crochet"
    (result,) = sarif([str(path)])["results"]
    (change,) = result["fixes"][0]["artifactChanges"]
    (one,) = change["replacements"]
    lines = path.read_text("utf-8").split("\n")
    region = one["deletedRegion"]
    row = lines[region["startLine"] - 1]
    new = row[: region["startColumn"] - 1] + one["insertedContent"]["text"]
    lines[region["startLine"] - 1] = new + row[region["endColumn"] - 1 :]
    assert lines[5] == "note: Work the {dc} loosely."


def test_a_result_keeps_its_fingerprint_when_lines_are_put_in(tmp_path: Path) -> None:
    write(tmp_path, {"one.crochet": WRONG + "row 2: ch 1, dc in each st across = 9 sts\n"})
    path = tmp_path / "one.crochet"

    def prints() -> list[str]:
        found = sarif([str(path)])["results"]
        return [one["partialFingerprints"]["messageAndLine/v1"] for one in found]

    before = prints()
    assert len(set(before)) == len(before) == 2
    path.write_text(
        path.read_text("utf-8").replace("part", "about: more\n\n# above\npart"), "utf-8"
    )
    assert prints() == before


@pytest.mark.parametrize(
    ("name", "wanted"),
    [
        ("patterns/a b.crochet", "patterns/a%20b.crochet"),
        ("./a/../b/%20#?.crochet", "b/%2520%23%3F.crochet"),
        ("../x.crochet", "../x.crochet"),
        ("/srv/x.crochet", "file:///srv/x.crochet"),
        ("C:\\house\\x y.crochet", "file:///C:/house/x%20y.crochet"),
        ("hats\\x.crochet", "hats/x.crochet"),
    ],
)
def test_addresses(name: str, wanted: str) -> None:
    assert address(name) == wanted


# ------------------------------------------------------------------ JUnit
def test_junit_has_a_failure_for_each_error(told: list[Verdict]) -> None:
    whole = JUnitXml.fromstring(made(ALL, "junit").encode())
    suites = list(whole)
    assert [one.name for one in suites] == [one.name for one in told]
    for suite, verdict in zip(suites, told, strict=True):
        cases = list(suite)
        failures = [one for case in cases for one in case.result if isinstance(one, Failure)]
        assert [one.type for one in failures] == [
            one.code for one in verdict.messages if one.severity == "error"
        ]
        assert (suite.tests, suite.failures) == (len(cases), verdict.errors)
        assert len(cases) == max(len(verdict.messages), 1)


# ------------------------------------------------------------------ annotations
def read(line: str) -> tuple[str, dict[str, str], str]:
    """A workflow command as GitHub's runner reads it: the command, its properties, its text."""
    found = re.fullmatch(r"::(\w+) (.*?)::(.*)", line)
    assert found, line
    properties = dict(one.split("=", 1) for one in found[2].split(","))
    return found[1], {key: unquoted(value) for key, value in properties.items()}, unquoted(found[3])


def unquoted(text: str) -> str:
    return unquote(text)  # what is quoted is quoted as in an address: %25, %0A, %3A


def test_github_has_an_annotation_for_each_message(told: list[Verdict]) -> None:
    lines = made(ALL, "github").split("\n")
    wanted = [(verdict, one) for verdict in told for one in verdict.messages]
    assert len(lines) == len(wanted) + 2
    for line, (verdict, one) in zip(lines, wanted, strict=False):
        command, properties, text = read(line)
        assert command == {"error": "error", "advice": "notice"}[one.severity]
        assert properties["file"] == (one.place.file or verdict.name)
        assert properties["line"] == str(one.place.line)
        assert one.text.split("`")[0] in text


def test_an_annotation_by_hand() -> None:
    one = Message(
        "x-y", "error", Place(7, 3, 7, 9), "", "50% of it, see: this", part="cuff", row="row 3"
    )
    assert annotation("a,b:c.crochet", one) == (
        "::error file=a%2Cb%3Ac.crochet,line=7,endLine=7,title=x-y%3A cuff%2C row 3,col=3,"
        "endColumn=8::50%25 of it, see: this\n"
    )


# ------------------------------------------------------------------ hostile text
@pytest.mark.parametrize("form", REPORTS)
def test_hostile_text_stays_text(tmp_path: Path, form: str) -> None:
    path = tmp_path / HOSTILE_NAME
    path.parent.mkdir(parents=True, exist_ok=True)
    path = tmp_path / HOSTILE_NAME.replace("/", "")
    path.write_text(HOSTILE, "utf-8")
    whole = made([str(path)], form)
    told = next(verdicts([str(path)]))
    assert told.messages
    assert "\x1b" not in whole
    if form == "json":
        (file,) = json.loads(whole)["files"]
        assert file["path"] == str(path)
    elif form == "sarif":
        (run,) = json.loads(whole)["runs"]
        Draft4Validator(SARIF).validate(json.loads(whole))
        assert len(run["results"]) == len(told.messages)
    elif form == "junit":
        (suite,) = JUnitXml.fromstring(whole.encode())
        assert suite.failures == told.errors
    elif form == "github":
        commands = [line for line in whole.split("\n") if line.startswith("::")]
        assert len(commands) == len(told.messages)
        assert {read(line)[1]["file"] for line in commands} == {str(path)}


# ------------------------------------------------------------------ on the command line
@pytest.mark.parametrize("form", REPORTS)
def test_a_report_into_a_file(loopwright: Loopwright, tmp_path: Path, form: str) -> None:
    write(tmp_path, {"in/one.crochet": PLAIN, "in/two.crochet": WRONG})
    out = tmp_path / "report"
    printed = loopwright("check", str(tmp_path / "in"), "--format", form)
    written = loopwright("check", str(tmp_path / "in"), "--format", form, "-o", str(out))
    assert (printed.code, written.code, written.out) == (1, 1, "")
    assert out.read_text("utf-8") == printed.out
    assert sorted(one.name for one in tmp_path.iterdir()) == ["in", "report"]


@pytest.mark.parametrize("form", [one for one in REPORTS if one != "text"])
def test_nothing_half_written(loopwright: Loopwright, tmp_path: Path, form: str) -> None:
    write(tmp_path, {"in/one.crochet": WRONG, "in/two/two.crochet": PLAIN})
    write(tmp_path, {"in/two/loopwright.toml": "no settings"})
    out = tmp_path / "report"
    out.write_text("as it was", "utf-8")
    answer = loopwright("check", str(tmp_path / "in"), "--format", form)
    assert (answer.code, answer.out) == (2, "")
    assert loopwright("check", str(tmp_path / "in"), "--format", form, "-o", str(out)).code == 2
    assert out.read_text("utf-8") == "as it was"
    assert sorted(one.name for one in tmp_path.iterdir()) == ["in", "report"]


def test_a_place_in_a_used_file_is_named(loopwright: Loopwright, tmp_path: Path) -> None:
    shared = HOUSE.replace("terms: US\n", "")
    write(tmp_path, {".git/HEAD": "", "shared/house.crochet": shared, "a/strip.crochet": STRIP})
    path = str(tmp_path / "a" / "strip.crochet")
    whole = json.loads(made([path], "json"))
    Draft202012Validator(OURS).validate(whole)
    (message,) = whole["files"][0]["messages"]
    (related,) = message["related"]
    assert related["file"] == str(tmp_path / "shared" / "house.crochet")
    (result,) = sarif([path])["results"]
    (location,) = result["relatedLocations"]
    uri = location["physicalLocation"]["artifactLocation"]["uri"]
    assert uri == f"file://{tmp_path}/shared/house.crochet"


# ------------------------------------------------------------------ as a house might have it
def test_every_report_of_a_house_validates(tmp_path: Path) -> None:
    wrong = generate(tmp_path, 60, seed=7)
    paths = [str(path) for path in sorted(tmp_path.rglob("*.crochet"))]
    assert len(paths) == 61  # and the file of the house
    log = sarif(paths)
    at_fault = {
        unquote(one["locations"][0]["physicalLocation"]["artifactLocation"]["uri"])
        for one in log["results"]
        if one["level"] == "error"
    }
    assert at_fault == {f"file://{tmp_path / name}" for name in wrong}
    whole = json.loads(made(paths, "json"))
    Draft202012Validator(OURS).validate(whole)
    assert len(whole["files"]) == 61
    suites = list(JUnitXml.fromstring(made(paths, "junit").encode()))
    assert {suite.name for suite in suites if suite.failures} == {
        str(tmp_path / name) for name in wrong
    }
    for form in REPORTS:
        assert made(paths, form) == made(paths, form)
