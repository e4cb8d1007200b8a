"""The editor's checklist (docs/checklist.md), point by point, on the sheet of every pattern.

The page names the test that holds each point; here the page is held to that, and what no other
test asks is asked of every clean pattern in both terms.
"""

from __future__ import annotations

import re
from itertools import pairwise
from pathlib import Path

import pytest

from loopwright.ir.checked import Checked
from loopwright.pipeline import check_text
from loopwright.render.prose import Document, Entries, Step, Steps, Table, prose
from loopwright.rendering import sheet
from support import EXAMPLES, HOUSE, TESTS, WORKED, text_of

PAGE = (HOUSE / "docs" / "checklist.md").read_text("utf-8")
TERMS = ("UK", "US")
# From table K_conventions of the trade's tables: what a technical editor checks.
EDITORS = (
    "abbreviations",
    "add up",
    "multiple",
    "agree",
    "yarn",
    "gauge",
    "numbers run on",
    "order",
    "spelling",
)


def clean() -> list[Path]:
    paths = (*EXAMPLES, *WORKED)
    return [path for path in paths if check_text(path.name, text_of(path)).checked is not None]


PATHS = clean()
by_path = pytest.mark.parametrize("path", PATHS, ids=lambda path: path.stem)
by_terms = pytest.mark.parametrize("terms", TERMS)


def checked(path: Path) -> Checked:
    made = check_text(path.name, text_of(path)).checked
    assert made is not None
    return made


def steps(document: Document, kind: str = "part") -> list[Step]:
    return [
        step
        for section in document.sections
        if section.kind == kind
        for block in section.blocks
        if isinstance(block, Steps)
        for step in block.steps
    ]


def told(step: Step) -> str:
    """What a step says in the program's own words."""
    return " ".join((step.label, step.text, step.count, *step.details))


def test_every_point_of_the_page_names_a_test_that_there_is() -> None:
    named = re.findall(r"`(tests/[\w/]+\.py)::(\w+)`", PAGE)
    assert len(named) > 20
    for file, name in named:
        assert re.search(rf"^def {name}\(", (HOUSE / file).read_text("utf-8"), re.M), (file, name)
    points = [line for line in PAGE.split("\n") if line.startswith("- ")]
    assert all("`tests/" in point or "Not tested" in point for point in _whole(points))


def _whole(points: list[str]) -> list[str]:
    """Each point with the lines that go on from it."""
    return [PAGE[PAGE.index(point) :].split("\n- ")[0].split("\n\n")[0] for point in points]


def test_the_page_has_every_check_of_a_technical_editor() -> None:
    assert [word for word in EDITORS if word not in PAGE.lower()] == []
    assert TESTS.name == "tests"


@by_terms
@by_path
def test_every_abbreviation_is_defined_and_none_is_idle(path: Path, terms: str) -> None:
    document = prose(checked(path), terms)
    listed = {
        name
        for section in document.sections
        if section.kind == "abbreviations"
        for block in section.blocks
        if isinstance(block, Entries)
        for name, _ in block.pairs
    }
    own = [
        text
        for section in document.sections
        if section.kind == "stitches"
        for block in section.blocks
        if isinstance(block, Entries)
        for _, text in block.pairs
    ]
    words = " ".join([*map(told, (*steps(document), *steps(document, "assembly"))), *own])
    stitch = r"(?:fp|bp)?(?:quadtr|trtr|dtr|htr|hdc|tr|dc|sc)(?:\d+tog)?"
    used = {one.lower() for one in re.findall(rf"(?<![\w-]){stitch}(?![\w-])", words, re.I)}
    assert used - {name.removeprefix("crab ") for name in listed} == set()
    for short in ("ch", "blo", "flo", "tog"):
        assert (re.search(rf"(?<!\w){short}(?!\w)", words, re.I) is not None) == (short in listed)
    lower = words.lower()
    gauge = " ".join(
        text
        for section in document.sections
        if section.kind == "gauge"
        for block in section.blocks
        if isinstance(block, Entries)
        for _, text in block.pairs
    )
    for name in listed - {"join", "magic ring", "foundation", "place", "RS", "WS"}:
        bare = name.replace("(s)", "")
        legs = re.match(r"(\d+)-(\w+) (\w+)", bare)
        if legs and bare not in lower:
            bare = f"{legs[3]}s of {legs[1]} {legs[2]}"
        # What a join is made with is said in its own entry, and a gauge names its stitch.
        assert bare in lower or bare == "sl st" or bare in gauge, name


@by_terms
@by_path
def test_a_repeat_says_how_often_in_all_or_how_often_more(path: Path, terms: str) -> None:
    for step in steps(prose(checked(path), terms)):
        text = step.text
        assert "rep from" not in text
        # A bracket is followed by how often, how far, or the comma of one inside another.
        for after in re.findall(r"\](?! \d| once| around| across| to )(.{0,12})", text):
            raise AssertionError((step.label, after))
        if text.startswith("Repeat"):
            assert re.search(r"another \d|once more|do not repeat|nothing to repeat|measures", text)


@by_terms
@by_path
def test_one_stitch_each_or_several_in_one_is_never_in_doubt(path: Path, terms: str) -> None:
    """`2 dc` stands alone only inside a group, which is in one place; else its place is said."""
    stitch = r"(?:fp|bp)?(?:htr|hdc|dtr|tr|dc|sc)"
    for step in steps(prose(checked(path), terms)):
        flat = re.sub(r"\([^()]*\)", "", step.text)
        for found in re.finditer(rf"(?<![\w-])\d+ {stitch}(?![\w-])([^,\[\]]*)", flat):
            assert re.search(r"\b(?:in|around|evenly|tog|over)\b", found[1]), found[0]


@by_terms
@by_path
def test_sizes_stand_in_the_same_order_everywhere(path: Path, terms: str) -> None:
    made = checked(path)
    sizes = made.pattern.sizes
    document = prose(made, terms)
    for section in document.sections:
        for block in section.blocks:
            if isinstance(block, Table) and section.kind in ("sizes", "materials"):
                heads = [one.lower() for one in block.head[1:]]
                assert heads == [one.lower() for one in sizes]
    for step in steps(document):
        most = len(sizes)
        if " only, " in step.label:
            most = len(re.split(r", | and ", step.label.split(" only, ")[0]))
        for more in re.findall(r"\d \((\d+(?:, \d+)*)\)", told(step)):
            assert len(more.split(", ")) == most - 1


@by_path
def test_row_numbers_run_on(path: Path) -> None:
    document = prose(checked(path), "UK")
    for section in document.sections:
        if section.kind != "part":
            continue
        labels = [
            step.label for block in section.blocks if isinstance(block, Steps)
            for step in block.steps
        ]  # fmt: skip
        numbers = [
            [int(n) for n in re.findall(r"\d+", label.split(", r")[-1])]
            for label in labels
            if re.search(r"(?:rows?|rounds?) \d", label, re.I)
        ]
        for before, after in pairwise(numbers):
            assert min(after) >= min(before)


@by_terms
@by_path
def test_every_row_of_stitches_ends_with_its_count(path: Path, terms: str) -> None:
    for step in steps(prose(checked(path), terms)):
        if re.match(r"(?:Size.* only, )?(?:Row|Round|Next|Setup)", step.label, re.I):
            assert step.count or counted_beneath(step), step.label


def counted_beneath(step: Step) -> bool:
    """Whether every row of several that are told together has its own line with its count."""
    first, last = re.findall(r"\d+", step.label.split(", r")[-1])
    lines = [re.fullmatch(r"R\w+ (\d+): .* = .*\. \d.*\.", line) for line in step.details]
    found = [int(line[1]) for line in lines if line]
    return found == list(range(int(first), int(last) + 1))


PLAIN = """pattern: Slate
terms: UK
sizes: small (large)
version: 2
licence: Free.
yarn slate: "wool", 50 g = 100 m, weight 3, colour "grey"
hook main: 4 mm
tension plain: 16 sts and 9 rounds to 10 cm in tr, hook main, yarn slate
part cloth: in rounds, yarn slate, hook main, tension plain
start: ch 20 (24), join into ring
round 1: ch 1, dc in each ch around, join = 20 (24) sts
round 2: ch 2, [miss 1 st, tr, tr in skipped st] around, join = 20 (24) sts
round 3: ch 2, opening slot over 2 sts, [tr] around, join = 18 (22) sts, 1 ch-2 sp
"""


@pytest.mark.parametrize(
    ("terms", "wanted", "foreign"),
    [
        ("UK", "miss missed tension colour licence", "skip skipped gauge color license sc hdc"),
        ("US", "skip skipped gauge color license", "miss missed tension colour licence htr"),
    ],
)
def test_spelling_goes_with_the_terms(terms: str, wanted: str, foreign: str) -> None:
    made = check_text("slate", PLAIN).checked
    assert made is not None
    text = sheet(made, terms, "text").lower()
    body = re.sub(r"(?s)\nterms\n-----\n.*?\n(?=cloth\n---)", "\n", text)
    words = set(re.findall(r"[a-z]+", body))
    assert set(wanted.split()) <= words
    assert not set(foreign.split()) & words


ORDER = """pattern: Whole
terms: UK
about: A thing to make.
skill: easy
designer: The harbour circle
version: 2
changes: Row 2 is new.
licence: Free.
notions: a button
caution: Not for the fire.
sizes: small (large)
measure wide: 10 (12) cm
yarn slate: "wool", 50 g = 100 m, weight 3
hook main: 4 mm
tension plain: 16 sts and 18 rows to 10 cm in dc, hook main, yarn slate
kit: 1 ball slate, 1 button
pace: 18 to 25 sts a minute
count across: wide, at plain sts
stitch pair: 2 dc in next st
note: Read it all first.
part cloth: flat, yarn slate, hook main, tension plain
start: ch {across + 1}
row 1: dc in 2nd ch from hook, dc in each ch across = across sts
row 2: ch 1, pair, [dc] to last 2 sts, dc2tog = across sts
seam: last row to start
finish: Weave in the ends.
"""


def test_contents_in_the_order_the_trade_expects() -> None:
    made = check_text("whole", ORDER).checked
    assert made is not None
    document = prose(made, "UK")
    assert [section.kind for section in document.sections] == [
        "sizes", "materials", "kit", "gauge", "abbreviations", "stitches", "terms",
        "notes", "part", "assembly", "finishing", "caution", "about",
    ]  # fmt: skip
    text = sheet(made, "UK", "text")
    heads = [
        "Whole\n=", "A thing to make.", "Designer:", "Skill level: easy", "Sizes\n-",
        "Finished size", "Materials\n-", "Notions: a button", "In the kit\n-", "Working time\n-",
        "Tension\n-", "Check your tension", "Abbreviations\n-", "Special stitches\n-", "Terms\n-",
        "Notes\n-", "Cloth\n-", "Assembly\n-", "Seam: Sew the last row", "Finishing\n-",
        "Caution\n-", "Not for the fire.", "About this pattern\n-", "Version: 2",
        "Changes: Row 2 is new.", "Licence: Free.",
    ]  # fmt: skip
    at = [text.index(head) for head in heads]
    assert at == sorted(at)
