"""House styles: two that ship, and one of your own."""

from __future__ import annotations

from pathlib import Path

import pytest

from loopwright.asked import CannotAnswer
from loopwright.ir.checked import Checked
from loopwright.pipeline import check_text
from loopwright.render.prose import BadStyle, Steps, prose, shipped, style_of
from loopwright.render.prose.style import SHIPPED, Style
from loopwright.rendering import house_style, sheet
from support import ROOMS, run

TEXT = """pattern: Cove Mat
terms: UK
part mat: in rounds
start: magic ring
round 1: ch 1, 6 dc in ring, join = 6 sts
round 2: ch 1, [dc inc] around, join = 12 sts
rounds 3-4: ch 1, [fptr, dc] around, join = 12 sts
"""


@pytest.fixture(scope="module")
def made() -> Checked:
    checked = check_text("cove", TEXT).checked
    assert checked is not None
    return checked


def steps(made: Checked, style: Style) -> list[tuple[str, str, str]]:
    return [
        (step.label, step.text, step.count)
        for section in prose(made, "UK", style=style).sections
        for block in section.blocks
        if isinstance(block, Steps)
        for step in block.steps
    ]


def test_the_two_that_ship() -> None:
    assert sorted(path.stem for path in (ROOMS / "render/prose/styles").glob("*.toml")) == sorted(
        SHIPPED
    )
    assert shipped("plain") == Style()
    assert shipped("compact") == Style("[{count}]", "short", bold_counts=True, reminders=False)


def test_counts_and_the_word_for_a_round(made: Checked) -> None:
    assert steps(made, shipped("plain"))[1] == ("Round 1", "Ch 1, 6 dc in ring, join.", "6 sts.")
    compact = steps(made, shipped("compact"))
    assert compact[1] == ("Rnd 1", "Ch 1, 6 dc in ring, join.", "[6 sts]")
    assert compact[3][0] == "Rnds 3-4"


def test_a_style_of_your_own(made: Checked) -> None:
    own = style_of('counts = "– {count}"\nspell_first = true\n')
    told = steps(made, own)
    assert told[1] == (
        "Round 1",
        "Ch (chain) 1, 6 dc (double crochet) in ring, join.",
        "– 6 sts",
    )
    # Each is spelled out once only.
    assert told[2][1] == "Ch 1, 2 dc in each of next 6 sts (stitches), join."
    assert "1 fptr (front post treble) around next st" in told[3][1]


def test_bold_counts_where_a_form_can(made: Checked) -> None:
    bold = house_style("compact")
    page = sheet(made, "UK", "html", style=bold).replace("\u00a0", " ")
    assert '<span class="count"><b>[6 sts]</b></span>' in page
    assert "**[6 sts]**" in sheet(made, "UK", "markdown", style=bold)
    assert "[6 sts]" in sheet(made, "UK", "text", style=bold)
    plain = house_style("plain")
    assert "**6 sts" not in sheet(made, "UK", "markdown", style=plain)


def test_reminders_can_be_left_out(made: Checked) -> None:
    with_them = sheet(made, "UK", "text")
    assert "join in the first st after it" in " ".join(with_them.split())
    assert "push the post stitch aside" in " ".join(with_them.split())
    without = sheet(made, "UK", "text", style=style_of("reminders = false"))
    assert "push the post stitch aside" not in " ".join(without.split())
    assert "does not count as a stitch" in " ".join(without.split())


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("counts = ", "not TOML"),
        ('colour = "red"', "a style has no `colour`"),
        ("counts = 3", "`counts` is text"),
        ('bold_counts = "yes"', "`bold_counts` is true or false"),
        ("bold_counts = 1", "`bold_counts` is true or false"),
        ('counts = "none"', "`counts` is one line with `{count}` in it once"),
        ('counts = "{count}{count}"', "`{count}` in it once"),
        ('counts = "{count}\\n"', "is one line"),
        ('rounds = "Runde"', "`rounds` is long or short"),
        ("[" * 5000, "not TOML"),
    ],
)
def test_a_style_that_cannot_be_followed(text: str, found: str) -> None:
    with pytest.raises(BadStyle) as error:
        style_of(text)
    assert found in str(error.value)
    with pytest.raises(CannotAnswer):
        house_style("own.toml", text)


def test_hostile_style_comes_out_literal(made: Checked) -> None:
    own = style_of('counts = "<script>{count} {0} {{x}} %s"')
    page = sheet(made, "UK", "html", style=own)
    assert page.count("<script>") == sheet(made, "UK", "html").count("<script>")
    assert "&lt;script&gt;6\u00a0sts {0} {{x}} %s" in page


def test_the_command_line(tmp_path: Path) -> None:
    pattern = tmp_path / "cove.crochet"
    pattern.write_text(TEXT, encoding="utf-8")
    own = tmp_path / "house.toml"
    own.write_text('rounds = "short"\n', encoding="utf-8")
    assert "Rnd 1: Ch 1" in run("sheet", str(pattern), "--style", str(own)).out
    assert "Tour 1\u00a0: 1 ml" in run("sheet", str(pattern), "--language", "fr").out
    for option, value, told in (
        ("--style", "fancy", "there is no style `fancy`; there is plain, compact."),
        ("--style", str(tmp_path / "none.toml"), "cannot be read"),
        ("--language", "../fr", "there is no language `../fr`; there is en, fr."),
        ("--size", "huge", "there is no size `huge`; there is one size."),
    ):
        done = run("sheet", str(pattern), option, value)
        assert done.code == 2
        assert told in done.err
    both = run("sheet", str(pattern), "--language", "fr", "--terms", "uk")
    assert (both.code, "has terms of its own" in both.err) == (2, True)
    own.write_text("rounds = 4\n", encoding="utf-8")
    done = run("build", str(pattern), "-o", str(tmp_path / "out"), "--style", str(own))
    assert (done.code, "`rounds` is text" in done.err) == (2, True)
    assert not (tmp_path / "out").exists()
