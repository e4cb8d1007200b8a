"""What `import loopwright` gives other programs: the names that docs/api.md promises, what they
take and what they hand back."""

from __future__ import annotations

import inspect
import json
import pickle
import re
import subprocess
import sys

import pytest

import loopwright
from loopwright import api
from support import EXAMPLES, HOUSE, run, text_of

MITTENS = text_of(HOUSE / "examples" / "breakwater-mittens.crochet")
WRONG = (
    "pattern: Tideline Swatch\nterms: UK\npart swatch: flat\nstart: ch 11\n"
    "row 1: dc in 2nd ch from hook, dc in each ch across = 11 sts\n"
)
SHARED = 'shared: House\nterms: UK\nyarn slate: "wool"\n'
USING = WRONG.replace("11 sts", "10 sts").replace("part", "use: house.crochet\npart")
USING = USING.replace("flat", "flat, yarn slate")
DOCUMENTED = (HOUSE / "docs" / "api.md").read_text("utf-8")


def test_a_verdict_says_what_the_command_says() -> None:
    verdict = loopwright.check(WRONG, name="swatch.crochet")
    assert not verdict.clean
    assert (verdict.errors, verdict.advice, verdict.title) == (1, 0, "Tideline Swatch")
    # One chain is the turning chain, so that ten are worked into.
    assert (verdict.sizes, verdict.rows, verdict.stitches) == (1, 1, 10)
    (message,) = verdict.messages
    assert (message.code, message.severity, message.row) == ("count-differs", "error", "row 1")
    assert message.place == loopwright.Place(5, 53, 5, 61)
    assert message.excerpt[52:60] == "= 11 sts"
    assert loopwright.check(WRONG, name="swatch.crochet") == verdict


def test_detail_is_what_the_report_has() -> None:
    verdict = loopwright.check(MITTENS, detail=True)
    printed = run("check", "-", "--format", "json", given=MITTENS.encode())
    (file,) = json.loads(printed.out)["files"]
    assert verdict.detail is not None
    assert json.loads(json.dumps(verdict.detail)) == {key: file[key] for key in verdict.detail}
    assert loopwright.check(MITTENS).detail is None


def test_settings_and_used_files_are_handed_in() -> None:
    assert [one.code for one in loopwright.check(USING).messages] == ["cannot-use"]
    assert loopwright.check(USING, used={"house.crochet": SHARED}).messages == ()
    rules = loopwright.Settings(house=loopwright.House(licence=True))
    asked = loopwright.check(USING, used={"house.crochet": SHARED}, settings=rules)
    assert [one.code for one in asked.messages] == ["no-licence"]


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_sheets_and_charts_are_those_of_the_command(path: object) -> None:
    name = str(path)
    text = text_of(path)  # type: ignore[arg-type]
    assert loopwright.sheet(text, terms="US") == run("sheet", name, "--terms", "us").out
    assert loopwright.chart(text).svg == run("chart", name).out


def test_a_chart_of_a_part_and_size() -> None:
    made = loopwright.chart(MITTENS, part="thumb", size="man", terms="US")
    assert (made.part, made.size) == ("thumb", "man")
    assert made.parts == ("cuff", "hand", "thumb")
    assert made.sizes == ("child", "woman", "man")
    assert made.svg.startswith("<svg")


def test_measures_are_those_of_the_command() -> None:
    measured = loopwright.measure(MITTENS)
    printed = json.loads(run("sizes", "-", "--format", "json", given=MITTENS.encode()).out)
    wanted = [
        (part["part"], one["words"], one["mm"])
        for part in printed["parts"]
        for one in part["dimensions"]
    ]
    assert [(one.part, one.what, dict(one.mm)) for one in measured.lengths] == wanted
    assert measured.sizes == ("child", "woman", "man")
    assert [one.size for one in measured.yarn] == ["child", "woman", "man"]
    for one in measured.yarn:
        assert one.metres is not None
        assert 0 < one.metres[0] <= one.metres[1]
    assert measured.without_gauge == ()


def test_a_length_by_hand() -> None:
    text = (
        "pattern: Ten\nterms: UK\ngauge g: 20 sts and 20 rows to 10 cm in dc\n"
        "part swatch: flat, gauge g\nstart: ch 11\n"
        "row 1: dc in 2nd ch from hook, dc in each ch across = 10 sts\n"
        "rows 2-8: ch 1, dc in each st across = 10 sts\n"
    )
    measured = loopwright.measure(text)
    # 10 stitches at 2 to the cm, 8 rows at 2 to the cm
    assert {one.what: one.mm["one size"] for one in measured.lengths} == {
        "wide": 50.0,
        "high": 40.0,
    }


@pytest.mark.parametrize("make", [loopwright.sheet, loopwright.chart, loopwright.measure])
def test_a_pattern_with_errors_is_refused(make: object) -> None:
    with pytest.raises(loopwright.PatternError, match=r"^pattern\.crochet:5:53: ") as caught:
        make(WRONG)  # type: ignore[operator]
    assert caught.value.verdict.errors == 1
    assert pickle.loads(pickle.dumps(caught.value)).verdict == caught.value.verdict
    with pytest.raises(loopwright.PatternError, match="holds none"):
        make(SHARED)  # type: ignore[operator]


@pytest.mark.parametrize(
    ("call", "told"),
    [
        (lambda: loopwright.sheet(MITTENS, terms="uk"), "there is no terms `uk`; there is UK, US"),
        (lambda: loopwright.sheet(MITTENS, form="pdf2"), "there is no form `pdf2`"),
        (lambda: loopwright.chart(MITTENS, part="sock"), "there is no part `sock`; there is cuff"),
        (lambda: loopwright.chart(MITTENS, size="huge"), "there is no size `huge`; there is child"),
    ],
)
def test_what_there_is_not_is_said(call: object, told: str) -> None:
    with pytest.raises(ValueError, match=told):
        call()  # type: ignore[operator]


# ------------------------------------------------------------------ what is promised
def test_every_name_is_documented_and_every_documented_name_is_there() -> None:
    promised = set(re.findall(r"^### `loopwright\.(\w+)", DOCUMENTED, flags=re.MULTILINE))
    assert promised | {"__version__"} == set(loopwright.__all__)
    assert set(api.__all__) == set(loopwright.__all__) - {"__version__"}
    for name in loopwright.__all__:
        assert getattr(loopwright, name) is not None
    with pytest.raises(AttributeError):
        loopwright.no_such_name  # noqa: B018


@pytest.mark.parametrize("name", ["check", "sheet", "chart", "measure"])
def test_what_a_function_takes_is_documented(name: str) -> None:
    section = DOCUMENTED.split(f"### `loopwright.{name}")[1].split("\n### ")[0]
    for parameter in inspect.signature(getattr(loopwright, name)).parameters:
        assert f"`{parameter}" in section, parameter


@pytest.mark.parametrize(
    "name",
    ["Verdict", "Message", "Place", "Remark", "Change", "Chart", "Measured", "Length", "YarnTaken"],
)
def test_the_fields_of_a_value_are_documented(name: str) -> None:
    section = DOCUMENTED.split(f"### `loopwright.{name}")[1].split("\n### ")[0]
    for field in getattr(loopwright, name).__match_args__:
        assert f"`{field}`" in section, field


def test_importing_the_package_alone_costs_little() -> None:
    ask = (
        "import loopwright, sys; print(len([m for m in sys.modules if m.startswith('loopwright')]))"
    )
    done = subprocess.run([sys.executable, "-c", ask], capture_output=True, text=True, check=True)
    assert done.stdout == "1\n"


@pytest.mark.parametrize(
    "first", ["loopwright.measure", "loopwright.measure.yarn", "loopwright.cli"]
)
def test_the_room_of_that_name_does_not_hide_the_function(first: str) -> None:
    ask = f"import {first}, loopwright; print(callable(loopwright.measure))"
    done = subprocess.run(
        [sys.executable, "-W", "error", "-c", ask], capture_output=True, text=True, check=True
    )
    assert done.stdout == "True\n"
