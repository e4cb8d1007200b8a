"""What `import loopwright` gives other programs: the names that docs/api.md promises, what they
take and what they hand back; and that the command line answers with the same."""

from __future__ import annotations

import inspect
import json
import pickle
import re
import subprocess
import sys
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path

import pytest

import loopwright
from loopwright.cli import COMMANDS
from support import EXAMPLES, HOUSE, SHORE_HOUSE, run, text_of

MITTENS_FILE = HOUSE / "examples" / "breakwater-mittens.crochet"
MITTENS = text_of(MITTENS_FILE)
PICTURE = MITTENS_FILE.with_suffix(".png").read_bytes()
BAND = HOUSE / "examples" / "signal-band.crochet"
WRONG = (
    "pattern: Tideline Swatch\nterms: UK\npart swatch: flat\nstart: ch 11\n"
    "row 1: dc in 2nd ch from hook, dc in each ch across = 11 sts\n"
)
RIGHT = WRONG.replace("11 sts", "10 sts")
SHARED = 'shared: House\nterms: UK\nyarn slate: "wool"\n'
USING = WRONG.replace("11 sts", "10 sts").replace("part", "use: house.crochet\npart")
USING = USING.replace("flat", "flat, yarn slate")
DOCUMENTED = (HOUSE / "docs" / "api.md").read_text("utf-8")
FUNCTIONS = [name for name in loopwright.__all__ if inspect.isfunction(getattr(loopwright, name))]
PARTS_OF_A_PATTERN = [
    name for name, _ in inspect.getmembers(loopwright.Pattern) if not name.startswith("_")
]

by_example = pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)


def mittens() -> loopwright.Pattern:
    """The mittens, read."""
    return loopwright.read(MITTENS, name=str(MITTENS_FILE))


# ------------------------------------------------------------------ what is told of a text
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
    assert loopwright.read(WRONG, name="swatch.crochet").verdict == verdict


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
    weighed = loopwright.Settings(severities=(("no-licence", "off"),), house=rules.house)
    told = loopwright.read(USING, used={"house.crochet": SHARED}, settings=weighed).verdict
    assert told.messages == ()
    # Why a text is not there is said in the words that are handed in.
    missing = loopwright.NotRead("the tide took it", "Write it again.")
    (told,) = loopwright.check(USING, used={"house.crochet": missing}).messages
    assert "the tide took it" in told.text
    assert told.hints == ("Write it again.",)


def test_what_a_text_uses_is_told_as_it_is_to_be_handed_in() -> None:
    assert loopwright.uses(USING) == ("house.crochet",)
    assert loopwright.uses(RIGHT) == ()
    # From the folder of the pattern, whatever file it is written in.
    assert loopwright.uses(USING, at="../shared/a.crochet") == ("../shared/house.crochet",)
    given = loopwright.Settings(use=("../shared/all.crochet",))
    assert loopwright.uses(USING, settings=given) == ("../shared/all.crochet", "house.crochet")
    # A path that leads nowhere is the check's to complain of.
    assert loopwright.uses(USING.replace("house.crochet", '"/etc/house.crochet"')) == ()


def test_mending_and_tidying_a_text() -> None:
    written = RIGHT.replace("= 10 sts", "(10 sts)")
    assert loopwright.mend(written) == RIGHT
    untidy = RIGHT.replace("row 1:", "row  1 :")
    assert loopwright.tidy(untidy) == loopwright.tidy(RIGHT)


# ------------------------------------------------------------------ a pattern that was read
def test_what_a_pattern_is() -> None:
    read = mittens()
    assert (read.title, read.terms) == ("Breakwater Mittens", "UK")
    assert read.sizes == ("child", "woman", "man")
    assert read.parts == ("cuff", "hand", "thumb")
    assert read.text == MITTENS
    assert read.comes_out
    assert read.picture == "breakwater-mittens.png"
    # 14, 17 and 20 cm at 20 rows to 10 cm, even; 16, 19 and 22 cm at 17 stitches, by fours
    assert dict(read.counts) == {"ribs": (28, 34, 40), "body": (28, 32, 36)}
    shared = loopwright.read(SHARED)
    assert shared.verdict.clean
    assert not shared.comes_out
    nothing = loopwright.read("row 1\n")
    assert (nothing.terms, nothing.sizes, nothing.parts, nothing.picture) == ("", (), (), "")
    assert not nothing.comes_out
    assert loopwright.read(RIGHT).picture == ""


def test_one_size_speaks_of_no_other() -> None:
    woman = mittens().only("woman")
    assert woman.sizes == ("woman",)
    assert woman.verdict == mittens().verdict
    assert list(woman.counts.items()) == [(k, (v[1],)) for k, v in mittens().counts.items()]
    for made in (woman.sheet(), woman.finished_sizes(), woman.kit()):
        assert "child" not in made
    drawn, among = woman.chart(), mittens().chart(size="woman")
    assert (drawn.size, drawn.sizes, among.sizes) == ("woman", ("woman",), mittens().sizes)
    assert drawn.svg.count("<path") == among.svg.count("<path") > 20
    assert [one.title for one in woman.charts()] == ["cuff", "hand", "thumb"]
    assert {one.size for one in woman.measure().yarn} == {"woman"}


def test_a_chart_of_a_part_and_size() -> None:
    made = loopwright.chart(MITTENS, part="thumb", size="man", terms="US")
    assert (made.part, made.size) == ("thumb", "man")
    assert made.parts == ("cuff", "hand", "thumb")
    assert made.sizes == ("child", "woman", "man")
    assert made.svg.startswith("<svg")
    assert made.text == ""
    told = mittens().chart(part="thumb", size="man", terms="US", form="text")
    assert (told.svg, told.kind) == ("", "symbols")
    assert "thumb" in told.text


def test_a_chart_of_some_rows_and_of_squares() -> None:
    band = loopwright.read(text_of(BAND))
    assert band.chart_kinds() == ("symbols", "grid")
    assert mittens().chart_kinds(part="thumb", size="man") == ("symbols",)
    squares = band.chart()
    assert squares.kind == "grid"
    assert [one.title for one in band.charts()] == [
        "band, in all sizes",
        "band, in all sizes, in squares",
    ]
    some = band.chart(rows=(1, 2), form="text").text
    assert some != band.chart(form="text").text
    assert some.count("\n") < band.chart(form="text").text.count("\n")


@pytest.mark.parametrize(
    ("settings", "told"),
    [
        (loopwright.Settings((("nope", "error"),)), "there is no code `nope`"),
        (loopwright.Settings((("count-differs", "eror"),)), "there is no severity `eror`"),
        (loopwright.Settings(use="house.crochet"), "`use` is a tuple of paths"),
        (loopwright.Settings(house=loopwright.House(terms="EU")), "there is no terms `EU`"),
    ],
)
def test_settings_that_are_none(settings: loopwright.Settings, told: str) -> None:
    for ask in (loopwright.check, loopwright.read, loopwright.sheet):
        with pytest.raises(loopwright.CannotAnswer, match=told):
            ask(RIGHT, settings=settings)


def test_the_names_that_are_promised_are_those_that_are_listed() -> None:
    assert dir(loopwright) == sorted(loopwright.__all__)


def test_a_pattern_can_be_sent_to_another_process() -> None:
    sent = pickle.loads(pickle.dumps(mittens()))
    assert sent == mittens()
    assert sent != loopwright.read(MITTENS)
    assert sent.sheet(terms="US") == mittens().sheet(terms="US")
    assert sent.chart().svg == mittens().chart().svg
    with pytest.raises(AttributeError):
        sent.name = "other"


# ------------------------------------------------------------------ what cannot be had
@pytest.mark.parametrize("make", [loopwright.sheet, loopwright.chart, loopwright.measure])
def test_a_pattern_with_errors_is_refused(make: object) -> None:
    with pytest.raises(loopwright.PatternError, match=r"^pattern\.crochet:5:53: ") as caught:
        make(WRONG)  # type: ignore[operator]
    assert caught.value.verdict.errors == 1
    assert pickle.loads(pickle.dumps(caught.value)).verdict == caught.value.verdict
    with pytest.raises(loopwright.PatternError, match="holds none"):
        make(SHARED)  # type: ignore[operator]


MAKING = [
    "sheet",
    "pdf",
    "chart",
    "chart_kinds",
    "charts",
    "schematics",
    "measure",
    "finished_sizes",
    "kit",
]


@pytest.mark.parametrize("name", MAKING)
def test_nothing_is_made_of_a_pattern_with_errors(name: str) -> None:
    for text in (WRONG, SHARED):
        with pytest.raises(loopwright.PatternError):
            getattr(loopwright.read(text), name)()


def test_one_size_of_a_pattern_with_errors_is_refused() -> None:
    with pytest.raises(loopwright.PatternError):
        loopwright.read(WRONG).only("one size")
    assert loopwright.read(WRONG).card().messages == loopwright.check(WRONG).messages


def _asked() -> Iterator[tuple[str, object, str]]:
    read, there = mittens(), "there is no {} `{}`; there is {}"
    yield (
        "terms",
        lambda: loopwright.sheet(MITTENS, terms="uk"),
        there.format("terms", "uk", "UK, US"),
    )
    yield "form", lambda: loopwright.sheet(MITTENS, form="pdf2"), "there is no form `pdf2`"
    yield (
        "part",
        lambda: loopwright.chart(MITTENS, part="sock"),
        there.format("part", "sock", "cuff"),
    )
    yield (
        "size",
        lambda: loopwright.chart(MITTENS, size="huge"),
        there.format("size", "huge", "child"),
    )
    yield "kind", lambda: loopwright.chart(MITTENS, kind="bars"), "there is no kind `bars`"
    yield "squares", lambda: loopwright.chart(MITTENS, kind="grid"), "squares"
    yield "only", lambda: read.only("huge"), there.format("size", "huge", "child")
    yield "rows", lambda: read.chart(rows=(1, 900)), "the part cuff has rows 1 to "
    yield "backwards", lambda: read.chart(rows=(3, 2)), "not 3 to 2"
    yield "words", lambda: read.chart(form="png"), "there is no form `png`; there is svg, text"
    yield "paper", lambda: read.pdf(paper="a0"), "there is no paper `a0`; there is a4, letter"
    yield "language", lambda: read.sheet(language="xx"), "there is no language `xx`; there is en"
    yield "style", lambda: loopwright.house_style("loud"), "there is no style `loud`"
    yield "own style", lambda: loopwright.house_style("a", "loud = true"), "a style has no `loud`"
    yield "sizes", lambda: read.finished_sizes(form="csv"), "there is no form `csv`"
    yield "kit", lambda: read.kit(form="html"), "there is no form `html`"
    yield "bags", lambda: read.kit(bags=-1), "there are no -1 bags"
    yield "margin", lambda: read.kit(margin=Fraction(-1)), "not less than nothing"
    yield "notice", lambda: loopwright.compare(read, read, form="pdf"), "there is no form `pdf`"
    yield "group", lambda: loopwright.standard_measures("tail"), "there is no group of measures"
    yield "report", lambda: loopwright.report([], "xml"), "there is no form of report `xml`"
    yield "detail", lambda: "".join(loopwright.report([read.verdict], "json")), "with its detail"
    yield "code", lambda: loopwright.describe("count-difers"), "Did you mean `count-differs`"
    yield "explained", lambda: loopwright.explain(""), "there is no code ``"


@pytest.mark.parametrize(("call", "told"), [pytest.param(*one[1:], id=one[0]) for one in _asked()])
def test_what_there_is_not_is_said(call: object, told: str) -> None:
    with pytest.raises(loopwright.CannotAnswer, match=re.escape(told)):
        call()  # type: ignore[operator]


def test_editions_that_cannot_be_compared() -> None:
    right = loopwright.read(RIGHT)
    with pytest.raises(loopwright.PatternError):
        loopwright.compare(right, loopwright.read(WRONG))
    with pytest.raises(loopwright.CannotAnswer, match="cannot be understood"):
        loopwright.compare(loopwright.read("row 1\n"), right)
    assert loopwright.compare(loopwright.read(WRONG), right)


# ------------------------------------------------------------------ the commands say the same
@by_example
def test_sheets_and_charts_are_those_of_the_command(path: Path) -> None:
    name, text = str(path), text_of(path)
    assert loopwright.sheet(text, terms="US") == run("sheet", name, "--terms", "us").out
    assert loopwright.chart(text).svg == run("chart", name).out


def _same(path: Path, *arguments: str) -> str:
    """What a command prints of a file."""
    command, *rest = arguments
    told = run(command, str(path), *rest)
    assert told.code == 0, told
    return told.out


THREE = [MITTENS_FILE, BAND, HOUSE / "examples" / "ebb-ripple.crochet"]
by_some = pytest.mark.parametrize("path", THREE, ids=lambda path: path.stem)


def _read(path: Path) -> loopwright.Pattern:
    return loopwright.read(text_of(path), name=str(path))


def _picture(read: loopwright.Pattern) -> bytes:
    """The picture that a pattern names."""
    return PICTURE if read.picture else b""


@by_some
def test_the_sheet_is_that_of_the_command(path: Path) -> None:
    read = _read(path)
    size = read.sizes[-1]
    charts = read.charts(terms="US")
    page = read.sheet(terms="US", form="html", charts=charts, picture=_picture(read))
    assert page == _same(path, "sheet", "--terms", "us", "--form", "html")
    alone = read.only(size)
    how = {"style": loopwright.house_style("compact"), "picture": _picture(read)}
    assert alone.sheet(form="markdown", link=read.picture, **how) == _same(
        path, "sheet", "--form", "markdown", "--size", size, "--style", "compact"
    )
    assert read.sheet(language="fr") == _same(path, "sheet", "--language", "fr")


def test_the_pdf_is_that_of_the_command(tmp_path: Path) -> None:
    out = tmp_path / "mittens.pdf"
    _same(MITTENS_FILE, "sheet", "--form", "pdf", "--paper", "letter", "-o", str(out))
    assert loopwright.can_print()
    made = mittens().pdf(paper="letter", charts=mittens().charts(), picture=PICTURE)
    assert made == out.read_bytes()
    assert made != mittens().pdf(paper="letter", charts=mittens().charts())


@by_some
def test_the_chart_is_that_of_the_command(path: Path) -> None:
    read = _read(path)
    part, size = read.parts[-1], read.sizes[-1]
    for kind in read.chart_kinds(part=part, size=size):
        made = read.chart(part=part, size=size, kind=kind, form="text", rows=(1, 2), whole=True)
        asked = ["--part", part, "--size", size, "--kind", kind, "--form", "text"]
        assert made.text == _same(path, "chart", *asked, "--rows", "1-2", "--whole")


@by_some
def test_sizes_kit_and_fits_are_those_of_the_command(path: Path, tmp_path: Path) -> None:
    read = _read(path)
    drawn = _same(path, "sizes", "--rows", "--terms", "us", "-o", str(tmp_path))
    assert read.finished_sizes(terms="US", rows=True) == drawn
    written = {one.read_text("utf-8") for one in tmp_path.glob("*.svg")}
    assert written == {one.svg for one in read.schematics(terms="US")}
    made = read.kit(form="csv", bags=12, margin=Fraction(1, 8))
    assert made == _same(path, "kit", "--format", "csv", "--bags", "12", "--margin", "12.5")
    told = "\n".join(one.text for one in read.fits())
    assert (told or "This pattern has no counts.\n") == _same(path, "fits")


def test_fits_of_standard_input_are_those_of_the_file() -> None:
    told = "\n".join(one.text for one in mittens().fits())
    assert run("fits", "-", given=MITTENS.encode()).out == told != ""


def test_which_counts_come_out_as_values() -> None:
    ribs, body = mittens().fits()
    # Two rows of the cuff are written before those that are repeated until there are enough.
    assert (ribs.name, ribs.values, ribs.written) == ("ribs", (28, 34, 40), (2, 0))
    assert (ribs.needed, ribs.works[0], ribs.works[-1]) == ((1, 0), 2, 76)
    assert (body.name, body.needed, body.tried) == ("body", (4, 0), ((1, 72),))
    assert body.works == tuple(range(4, 73, 4))
    assert body.by_size == ()


@by_some
def test_what_build_writes_is_what_is_made(path: Path, tmp_path: Path) -> None:
    read = _read(path)
    assert run("build", str(path), "-o", str(tmp_path)).code == 0
    made_here = tmp_path / "loopwright-made.json"
    written = {one.read_bytes() for one in tmp_path.rglob("*.*") if one != made_here}
    picture = _picture(read)
    made = [picture] if picture else []
    how = {"picture": picture, "link": f"pictures/{read.picture}" if picture else ""}
    for terms in ("UK", "US"):
        charts = read.charts(terms=terms)
        made.append(read.sheet(terms=terms, form="html", charts=charts, **how).encode())
        made.append(read.sheet(terms=terms, form="markdown", **how).encode())
    for part in read.parts:
        for size in read.sizes:
            for kind in read.chart_kinds(part=part, size=size):
                made.append(read.chart(part=part, size=size, kind=kind).svg.encode())
    assert written == set(made)


def test_what_changed_is_what_the_command_says(tmp_path: Path) -> None:
    old = tmp_path / "old.crochet"
    old.write_text(WRONG.replace("ch 11", "ch 9"), "utf-8")
    new = tmp_path / "new.crochet"
    new.write_text(RIGHT, "utf-8")
    for form in ("text", "markdown", "json"):
        printed = run("compare", str(old), str(new), "--terms", "us", "--format", form)
        assert printed.code == 0
        assert loopwright.compare(_read(old), _read(new), terms="US", form=form) == printed.out


def test_reports_are_those_of_the_command(tmp_path: Path) -> None:
    (tmp_path / "right.crochet").write_text(RIGHT, "utf-8")
    (tmp_path / "wrong.crochet").write_text(WRONG, "utf-8")
    texts = {"right.crochet": RIGHT, "wrong.crochet": WRONG}
    for form in loopwright.REPORTS:
        detail = form in loopwright.NEEDING_DETAIL
        found = [loopwright.check(text, name=name, detail=detail) for name, text in texts.items()]
        printed = run("check", "right.crochet", "wrong.crochet", "--format", form, at=tmp_path)
        assert "".join(loopwright.report(found, form)) == printed.out
        assert printed.code == 1
    assert loopwright.summary(found) in run("check", ".", at=tmp_path).out
    (message,) = found[1].messages
    assert loopwright.written("wrong.crochet", message) in run("check", ".", at=tmp_path).out
    # Nothing can be made of it, for that reason.
    refused = run("sheet", "wrong.crochet", at=tmp_path).err
    assert refused == f"{loopwright.written('wrong.crochet', message)}\n\n" + (
        loopwright.summary([found[1]]) + "\n"
    )


def test_the_page_of_a_repository_is_that_of_the_command(tmp_path: Path) -> None:
    (tmp_path / "wrong.crochet").write_text(WRONG, "utf-8")
    run("overview", "wrong.crochet", "-o", "out", "--title", "Shore", at=tmp_path)
    read = loopwright.read(WRONG, name="wrong.crochet")
    page = loopwright.overview(
        [read.card()], title="Shore", summary=loopwright.summary([read.verdict])
    )
    assert (tmp_path / "out" / "index.html").read_text("utf-8") == page
    link = loopwright.Link("The notes", "notes.html")
    assert 'href="notes.html"' in loopwright.overview([read.card([link])])


def test_what_is_told_of_the_trade_and_the_codes_is_that_of_the_command(tmp_path: Path) -> None:
    assert loopwright.standard_measures("hand") == run("measures", "hand").out
    told = run("measures", "--format", "json").out
    assert loopwright.standard_measures(form="json") == told
    assert loopwright.explain() == run("explain").out
    assert loopwright.explain("count-differs") == run("explain", "count-differs").out
    found = loopwright.describe("count-differs")
    assert found.code == "count-differs"
    assert loopwright.check(found.keeps).clean
    assert "count-differs" in loopwright.codes()
    file = tmp_path / "a.crochet"
    file.write_text(RIGHT.replace("row 1:", "row  1 :").replace("= 10 sts", "(10 sts)"), "utf-8")
    mended = loopwright.mend(text_of(file))
    run("check", "--mend", str(file))
    assert text_of(file) == mended
    run("tidy", str(file))
    assert text_of(file) == loopwright.tidy(mended) != mended


def test_files_that_a_pattern_uses_are_handed_in_by_the_command_too() -> None:
    (path,) = [one for one in SHORE_HOUSE if "use:" in text_of(one)][:1]
    text = text_of(path)
    used = {one: text_of(path.parent / one) for one in loopwright.uses(text)}
    assert used
    assert loopwright.sheet(text, used=used) == run("sheet", str(path)).out


# ------------------------------------------------------------------ what is promised
def test_every_name_is_documented_and_every_documented_name_is_there() -> None:
    promised = re.findall(r"^### `loopwright\.(\w+)", DOCUMENTED, flags=re.MULTILINE)
    assert sorted([*promised, "__version__"]) == sorted(loopwright.__all__)
    for name in loopwright.__all__:
        assert getattr(loopwright, name) is not None
    with pytest.raises(AttributeError):
        loopwright.no_such_name  # noqa: B018


def test_every_name_of_a_pattern_is_documented_and_there() -> None:
    promised = re.findall(r"^#### `Pattern\.(\w+)", DOCUMENTED, flags=re.MULTILINE)
    fields = [one for one in loopwright.Pattern.__match_args__ if not one.startswith("_")]
    assert sorted([*promised, *fields]) == sorted(PARTS_OF_A_PATTERN)


def _section(heading: str) -> str:
    """What stands under a heading, the heading with it."""
    (found,) = re.findall(rf"^#+ `{re.escape(heading)}\b.*?(?=^#|\Z)", DOCUMENTED, re.M | re.S)
    return str(found)


@pytest.mark.parametrize("name", FUNCTIONS)
def test_what_a_function_takes_is_documented(name: str) -> None:
    _takes(_section(f"loopwright.{name}"), getattr(loopwright, name))


@pytest.mark.parametrize(
    "name", [one for one in PARTS_OF_A_PATTERN if callable(getattr(loopwright.Pattern, one))]
)
def test_what_a_pattern_is_asked_with_is_documented(name: str) -> None:
    function = getattr(loopwright.Pattern, name)
    _takes(_section(f"Pattern.{name}"), function, said=_section("loopwright.Pattern"))


def _takes(section: str, function: object, said: str = "") -> None:
    """Its arguments stand in its heading, in order and no others, and each is told of there, or was
    said for all."""
    taken = inspect.signature(function).parameters  # type: ignore[arg-type]
    names = [one for one in taken if one != "self"]
    heading, _, told = section.partition("\n")
    (listed,) = re.findall(r"\((.*)\)", heading)
    assert [one for one in listed.split(", ") if one not in ("*", "")] == names
    only_named = {one for one in names if taken[one].kind is inspect.Parameter.KEYWORD_ONLY}
    assert set(listed.partition("*")[2].split(", ")) - {""} == only_named
    for one in names:
        assert f"`{one}`" in told + said, one
    assert function.__doc__


VALUES = [
    name
    for name in loopwright.__all__
    if hasattr(getattr(loopwright, name), "__match_args__") and name != "Style"
]


def test_values_are_found() -> None:
    assert {"Verdict", "Message", "Chart", "Drawing", "Described", "NotRead"} < set(VALUES)


@pytest.mark.parametrize("name", VALUES)
def test_the_fields_of_a_value_are_documented(name: str) -> None:
    section = _section(f"loopwright.{name}")
    for field in getattr(loopwright, name).__match_args__:
        assert field.startswith("_") or f"`{field}`" in section, field


def test_every_command_says_what_it_asks() -> None:
    table = DOCUMENTED.split("## What the command line uses")[1].split("\n## ")[0]
    rows = dict(re.findall(r"^\| `(\w+)` \| (.+) \|$", table, flags=re.MULTILINE))
    assert list(rows) == list(COMMANDS)
    promised = set(loopwright.__all__) | {f"Pattern.{one}" for one in PARTS_OF_A_PATTERN}
    for row in rows.values():
        assert set(re.findall(r"`([\w.]+)`", row)) <= promised | {"build", "--mend"}


def test_importing_the_package_alone_costs_little() -> None:
    ask = (
        "import loopwright, sys; print(len([m for m in sys.modules if m.startswith('loopwright')]))"
    )
    done = subprocess.run([sys.executable, "-c", ask], capture_output=True, text=True, check=True)
    assert done.stdout == "1\n"


def _imported(*arguments: str) -> set[str]:
    """What of ours a command imports."""
    ask = (
        "import contextlib, io, sys; from loopwright.cli import main\n"
        f"with contextlib.redirect_stdout(io.StringIO()): main({list(arguments)})\n"
        "print(*(m for m in sys.modules if m.startswith('loopwright')))"
    )
    done = subprocess.run([sys.executable, "-c", ask], capture_output=True, text=True, check=True)
    return set(done.stdout.split())


def test_a_command_imports_what_it_asks_for() -> None:
    check = _imported("check", str(HOUSE / "examples" / "limpet-coaster.crochet"))
    assert {"loopwright.api", "loopwright.pipeline", "loopwright.judged"} <= check
    unasked = (
        "render",
        "rendering",
        "pattern",
        "asked",
        "fitting",
        "editing",
        "explaining",
        "cards",
    )
    assert not {f"loopwright.{one}" for one in unasked} & check
    for arguments in (["--help"], ["--version"], ["completion", "bash"]):
        assert not {"loopwright.api", "loopwright.pipeline"} & _imported(*arguments)


@pytest.mark.parametrize(
    "first", ["loopwright.measure", "loopwright.measure.yarn", "loopwright.cli"]
)
def test_the_room_of_that_name_does_not_hide_the_function(first: str) -> None:
    ask = f"import {first}, loopwright; print(callable(loopwright.measure))"
    done = subprocess.run(
        [sys.executable, "-W", "error", "-c", ask], capture_output=True, text=True, check=True
    )
    assert done.stdout == "True\n"


def test_no_room_has_the_name_of_what_is_promised() -> None:
    rooms = {one.stem for one in (HOUSE / "compiler" / "loopwright").iterdir()}
    assert rooms & set(loopwright.__all__) == {"measure"}  # for which the package sees to it
