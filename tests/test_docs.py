"""The documentation is true: every fenced example in it is run, every picture in it is what the
program draws, every link in it leads somewhere, and every construct of the notation is shown."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

import docs_blocks as docs
from docs_blocks import CODES, HOUSE, PAGES, PICTURES, REFERENCE, Block
from loopwright import fitting, pipeline, rendering
from loopwright.cli import COMMANDS
from loopwright.diagnostics import RULES
from loopwright.explaining import codes_page
from loopwright.lower import context, header, numbers
from loopwright.render.chart import choose
from loopwright.render.chart.grid import build as squares
from loopwright.repository import charts, files, jobs
from loopwright.syntax import lines
from loopwright.syntax import parser as syntax
from loopwright.syntax.lines import FREE_TEXT, START_RULES, read_lines
from loopwright.syntax.parser import automaton
from loopwright.syntax.tree import Node
from loopwright.work import effort, hand, repeats, stitching
from loopwright.work import part as part_worker
from support import run
from test_imports import ROOM_TABLE

BLOCKS = [block for page in PAGES for block in docs.blocks(page)]
KINDS = {"pattern", "rows", "message", "sheet", "sh", "output", "toml", "python", "text"}
KINDS |= {"python-output", "yaml"}
_LINK = re.compile(r"!?\[[^\]]*\]\(([^)\s]+)\)")


def of(*kinds: str) -> pytest.MarkDecorator:
    """Every example of these kinds, each a test of its own."""
    found = [block for block in BLOCKS if block.kind in kinds]
    return pytest.mark.parametrize("block", found, ids=lambda block: block.name)


def test_every_fence_says_what_stands_in_it() -> None:
    assert [block.name for block in BLOCKS if block.kind not in KINDS] == []


@of("pattern", "rows")
def test_patterns_and_rows_do_what_is_said_of_them(block: Block) -> None:
    result = pipeline.check_text("example", docs.whole(block), docs.around(block))
    told = [(one.code, one.text) for one in result.diagnostics]
    assert sorted(code for code, _ in told) == block.codes, told
    assert result.clean is ("error" not in block.words)


@of("pattern", "rows")
def test_what_is_clean_can_be_printed_and_drawn(block: Block) -> None:
    checked = pipeline.check_text("example", docs.whole(block), docs.around(block)).checked
    if checked is None:
        assert "error" in block.words or block.text.startswith("shared:")
        return
    for terms in ("UK", "US"):
        assert rendering.sheet(checked, terms, "text")
        for part in checked.pattern.parts:
            assert rendering.chart(checked, part.name, 0, terms).startswith("<svg")


@of("pattern", "message", "sheet", "output", "python-output")
def test_what_the_program_makes_is_what_it_makes_now(block: Block) -> None:
    made = docs.made(block)
    assert made is None or block.text == made


@of("sh")
def test_commands_run(block: Block, tmp_path: Path) -> None:
    if "run" not in block.words:
        return
    for one in docs.run_shell(block, tmp_path):
        assert one.code == one.wanted, f"{one.command}\n{one.out}"


@pytest.mark.parametrize("path", PICTURES, ids=lambda path: path.name)
def test_pictures_are_what_the_program_draws(path: Path) -> None:
    assert path.read_text("utf-8") == docs.picture(path)


def test_every_picture_has_its_example() -> None:
    folders = (HOUSE / "docs" / "pictures", HOUSE / "docs" / "gallery")
    assert sorted(PICTURES) == sorted(path for one in folders for path in one.iterdir())


def test_the_gallery_shows_every_picture_in_words_too() -> None:
    page = (HOUSE / "docs" / "gallery.md").read_text("utf-8")
    shown = re.findall(r"!\[([^\]]+)\]\(gallery/([\w-]+)\.svg\)", page)
    assert sorted(name for _, name in shown) == sorted(docs.GALLERY)
    assert all(len(words) > 30 for words, _ in shown)


def test_the_page_of_codes_is_made_from_the_rules() -> None:
    assert CODES.read_text("utf-8") == codes_page()


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.name)
def test_links_lead_somewhere(page: Path) -> None:
    text = re.sub(r"^```.*?^```$", "", page.read_text("utf-8"), flags=re.MULTILINE | re.DOTALL)
    for link in _LINK.findall(text):
        assert not link.startswith("http"), "the documentation needs no network"
        path, _, anchor = link.partition("#")
        target = page.parent / path if path else page
        assert target.exists(), link
        if anchor:
            assert anchor in _anchors(target), link


def _anchors(page: Path) -> set[str]:
    """What a link can go to within a page: its headings, as Markdown viewers name them."""
    headings = re.findall(r"^#+ (.+)$", page.read_text("utf-8"), flags=re.MULTILINE)
    kept = (re.sub(r"[^\w\- ]", "", heading.lower()) for heading in headings)
    return {heading.replace(" ", "-") for heading in kept}


# ------------------------------------------------------------------ the reference is complete


def _shown() -> list[Node]:
    """The trees of every line of every clean example of the reference."""
    found = [block for block in docs.blocks(REFERENCE) if block.kind in ("pattern", "rows")]
    texts = [docs.whole(block) for block in found if not block.codes]
    return [line.tree for text in texts for line in read_lines(text) if line.tree is not None]


def _rules(tree: Node) -> set[str]:
    return {tree.rule}.union(*(_rules(kid) for kid in tree.nodes()))


# What the grammar reads only so that a message can say what is wrong with it.
REFUSED = {"bare_times"}
# Rules that give way to what is in them.
INLINE = {"item", "kind", "braces", "expr", "product", "power", "atom"}


def test_the_reference_shows_every_construct_of_the_grammar() -> None:
    known = {rule.name for rule in automaton().tables.rules}
    wanted = {one for one in known if not one.startswith("_")} - REFUSED - INLINE
    shown: set[str] = set().union(*map(_rules, _shown()))
    assert sorted(wanted - shown - {"braces_only"}) == []


def test_the_reference_names_every_label() -> None:
    text = REFERENCE.read_text("utf-8")
    assert [one for one in (*FREE_TEXT, *START_RULES) if f"`{one}" not in text] == []


def test_the_page_of_codes_has_every_code() -> None:
    for code in RULES:
        assert f"### {code}\n" in CODES.read_text("utf-8")


# ------------------------------------------------------------------ what else is promised


def test_the_import_table_is_the_one_that_is_tested() -> None:
    text = (HOUSE / "DEVELOPERS.md").read_text("utf-8")
    table = text.split("## Who may import whom")[1].split("##")[0]
    for line in re.findall(r"^\| (`.+`) \| (.+) \|$", table, flags=re.MULTILINE):
        rooms, allowed = (set(re.findall(r"`(\w+)`", cell)) for cell in line)
        for room in rooms:
            wanted = ROOM_TABLE[room] - {"frozen", "__main__", room} - rooms
            if allowed:
                assert allowed == wanted, room
            elif "nothing" in line[1]:
                assert not wanted, room


LIMITS = [
    (f"{files.LARGEST // 1_000_000} MB", "one file"),
    (f"{lines.MOST_LINES:,}", "lines of a pattern"),
    (f"{lines.LONGEST_LINE:,} characters", "one line"),
    (f"{syntax.DEEPEST} deep", "brackets"),
    (f"{numbers.LONGEST} digits", "one number"),
    (f"{header.MOST_SIZES} |", "sizes"),
    (f"{repeats.MOST_DIFFERENT:,}", "rows of one line"),
    (f"{effort.MOST_EFFORT:,}", "items and repeats worked one by one"),
    (f"{jobs.MOST_USED} |", "files that a pattern uses"),
    (f"{stitching.DEEPEST} deep", "stitches of your own"),
    (f"{hand.MOST_SKIPPED} |", "stitches of one skip"),
    (f"{part_worker.MOST_DEEP} |", "rows further down"),
    (f"{choose.MOST_SYMBOLS:,} and {choose.MOST_IN_A_ROW}", "symbols of a chart"),
    (f"{squares.MOST_COLUMNS:,} |", "squares of one row of a chart"),
    (f"{charts.MOST_DOTS // 1_000_000} million", "dots of a PNG"),
    (f"{context.MOST_TRIES} |", "other readings tried"),
    (f"{fitting.MOST_COUNTS} |", "counts tried"),
]


@pytest.mark.parametrize(("value", "what"), LIMITS)
def test_the_limits_are_those_of_the_program(value: str, what: str) -> None:
    text = (HOUSE / "docs" / "limits.md").read_text("utf-8")
    (row,) = [row for row in text.splitlines() if row.startswith(f"| {what}")]
    assert f"| {value}" in row


def test_two_commands_set_everything_up() -> None:
    commands = [block.text for block in BLOCKS if block.words[:2] == ["sh", "setup"]]
    assert len(commands) == 2
    assert all(command.count("\n") == 1 for command in commands)
    job, tests = commands
    assert job.startswith("python3 -m venv .venv && .venv/bin/pip install -q . && ")
    assert tests.endswith("&& .venv/bin/python -m pytest\n")


def test_the_main_job_of_the_readme_does_what_it_says(tmp_path: Path) -> None:
    (job,) = [block.text for block in BLOCKS if block.words[:2] == ["sh", "setup"]][:1]
    asked = job.split("&&")[-1].split()
    assert asked[0] == ".venv/bin/loopwright"
    answer = run(*asked[1:-1], str(tmp_path / "out"))
    assert answer.code == 0
    assert "every count comes out" in answer.out
    assert (tmp_path / "out" / "breakwater-mittens-uk.html").exists()


def test_the_readme_shows_every_command() -> None:
    text = (HOUSE / "README.md").read_text("utf-8")
    for command in COMMANDS:
        assert f"| `loopwright {command} " in text
