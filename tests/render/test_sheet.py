"""The page around the prose: three forms of it, each sound as what it claims to be."""

from __future__ import annotations

import re
from html.parser import HTMLParser

import pytest

from loopwright import pipeline, rendering
from loopwright.ir.checked import Checked
from loopwright.ir.fabric import Fabric, WorkedPart
from loopwright.ir.runs import Runs
from loopwright.lower import lower
from loopwright.render.prose import Table
from loopwright.render.sheet import sheet
from loopwright.render.sheet.drawings import STEPS, drawing
from loopwright.render.sheet.keeping import bound
from loopwright.render.sheet.markdown import opening, plain
from loopwright.render.sheet.markdown import table as markdown_table
from loopwright.render.sheet.text import table
from loopwright.syntax.lines import read_lines

TEXT = """pattern: Limpet <Coaster> & *mat*
terms: UK
about: Made in {dc}; 1 < 2, a_b and `c`. A long line of words so that the text has to be wrapped
    at the margin.
designer: The harbour circle
sizes: small (large)
measure rim: 9 (12) cm
yarn rock: "cotton", 50 g = 85 m, weight 4
hook main: 5 mm
gauge disc: 16 sts and 18 rounds to 10 cm in dc, hook main
part disc: in a spiral, yarn rock, hook main, gauge disc
start: magic ring
round 1: 6 dc in ring = 6 sts "Pull the ring shut."
rounds 2-9 as r: [{r - 2} dc, dc inc ** dc] 6 times = {6 * r} sts
note: - Not a list
finish: Fasten off.
"""
SVG = """<?xml version="1.0" encoding="UTF-8"?>
<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-labelledby="t d" viewBox="0 0 9 9">
<title id="t">Disc</title><desc id="d">Nine rounds &amp; a ring.</desc>
<defs><path id="dc" d="M0 0h9"/></defs><use href="#dc"/></svg>"""
FORMS = ("html", "markdown", "text")


@pytest.fixture(scope="module")
def made() -> Checked:
    pattern = lower(read_lines(TEXT), len(TEXT)).pattern
    assert pattern is not None
    empty = Runs(())
    part = WorkedPart("disc", empty, False, True, (), (), empty, 0, empty, empty)
    return Checked(pattern, tuple(Fabric(size, (part,), (), 0, 0) for size in (0, 1)))


class Outline(HTMLParser):
    """Which elements stand open in which, and what is fetched."""

    VOID = ("meta", "img", "link", "br", "path", "use")

    def __init__(self) -> None:
        super().__init__()
        self.open: list[str] = []
        self.tags: list[str] = []
        self.headings: list[str] = []
        self.fetched: list[str] = []
        self.scopes: list[str | None] = []
        self.lang: str | None = None

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        facts = dict(attrs)
        self.tags.append(tag)
        if tag == "html":
            self.lang = facts.get("lang")
        if tag == "th":
            self.scopes.append(facts.get("scope"))
        self.fetched += [str(facts[name]) for name in ("src", "href") if name in facts]
        if tag not in self.VOID:
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        if tag not in self.VOID:
            assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        if self.open and self.open[-1] in ("h1", "h2"):
            self.headings.append(data)


@pytest.mark.parametrize("form", FORMS)
@pytest.mark.parametrize("terms", ["UK", "US"])
def test_every_form_is_clean_and_the_same_each_time(made: Checked, terms: str, form: str) -> None:
    page = sheet(made, terms, form, (("Disc", SVG),))
    assert page == sheet(made, terms, form, (("Disc", SVG),))
    assert page.endswith("\n")
    assert not page.endswith("\n\n")
    assert not re.search(r"[ \t]$", page, re.MULTILINE)
    assert "\n\n\n" not in page
    assert "\r" not in page


def test_html_is_one_sound_page(made: Checked) -> None:
    outline = Outline()
    outline.feed(sheet(made, "US", "html", (("Disc", SVG),)))
    assert outline.open == []
    assert outline.lang == "en-US"
    assert outline.headings[0] == "Limpet <Coaster> & *mat*"
    assert outline.tags.count("h1") == 1
    assert outline.headings[1:] == [
        "Sizes", "Materials", "Gauge", "Abbreviations", "Terms", "Disc", "Chart: Disc", "Finishing",
    ]  # fmt: skip
    assert set(outline.scopes) == {"col", "row"}
    assert outline.fetched == ["#c1-dc"]
    assert not {"script", "link", "iframe"} & set(outline.tags)


def test_html_escapes_the_designer_s_words(made: Checked) -> None:
    page = sheet(made, "UK", "html").replace("\u00a0", " ")
    assert "<h1>Limpet &lt;Coaster&gt; &amp; *mat*</h1>" in page
    assert "1 &lt; 2" in page
    assert 'lang="en-GB"' in page
    assert "Pull the ring shut." in page
    assert "<b>Round 2:</b> [2 dc in next st ** 1 dc in next st] 6 times" in page


def test_a_chart_keeps_its_title_and_description_and_has_names_of_its_own() -> None:
    one, two = drawing("A", SVG, 1), drawing("B", SVG, 2)
    assert one.svg.startswith("<svg")
    assert one.description == "Nine rounds & a ring."
    assert 'aria-labelledby="c1-t c1-d"' in one.svg
    assert '<title id="c1-t">Disc</title>' in one.svg
    assert 'href="#c2-dc"' in two.svg
    names = re.findall(r'id="([^"]+)"', one.svg + two.svg)
    assert len(names) == len(set(names)) == 6


def test_a_chart_that_cannot_be_shown_is_told_of(made: Checked) -> None:
    for form in ("markdown", "text"):
        page = sheet(made, "UK", form, (("Disc", SVG), ("Bare", "<svg></svg>")))
        assert "Chart: Disc" in page
        assert "Nine rounds & a ring." in page
        assert "The chart is in the web page of this pattern." in page
        assert "<svg" not in page


def test_a_picture_is_shown_only_from_within_the_page(made: Checked) -> None:
    gif = b"GIF89a\x02\x00\x01\x00"
    page = sheet(made, "UK", "html", picture=gif)
    assert 'src="data:image/gif;base64,R0lGODlhAgABAA==" width="2" height="1"' in page
    assert "img-src data:;" in page
    for other in (b"", b"//example.org/front.jpg", b"<svg xmlns='http://www.w3.org/2000/svg'/>"):
        page = sheet(made, "UK", "html", picture=other)
        assert "<img" not in page
        assert "img-src 'none';" in page


def test_text_is_78_wide(made: Checked) -> None:
    page = sheet(made, "UK", "text")
    assert max(len(line) for line in page.splitlines()) <= 78
    lines = page.splitlines()
    assert lines[0] == "Limpet <Coaster> & *mat*"
    assert lines[1] == "=" * 24
    assert "Made in dc; 1 < 2, a_b and `c`. A long line of words so that the text has to" in lines
    assert "Note: - Not a list" in lines
    assert "To fit rim   9 cm / 3½ in   12 cm / 4¾ in" in lines


def test_markdown_marks_print_as_they_are(made: Checked) -> None:
    page = sheet(made, "UK", "markdown")
    assert page.startswith("# Limpet \\<Coaster\\> & \\*mat\\*\n")
    assert "a\\_b and \\`c\\`" in page
    assert "*Note:* - Not a list" in page
    assert "**Round 2:** [2 dc in next st \\*\\* 1 dc in next st] 6 times" in page
    assert "| Measure | Small | Large |\n| --- | --- | --- |\n| To fit rim |" in page


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("# one", "\\# one"),
        ("- one", "\\- one"),
        ("2. one", "2\\. one"),
        ("[a](b)", "[a]\\(b)"),
        ("2.5 cm", "2.5 cm"),
        ("&amp; is", "&amp;amp; is"),
    ],
)
def test_markdown_beginnings(text: str, expected: str) -> None:
    assert opening(text) == expected


def test_markdown_within_a_line() -> None:
    assert plain("a | b < c") == "a \\| b \\< c"
    assert plain("[tr] 7 (8, 9) times") == "[tr] 7 (8, 9) times"


def contrast(one: str, two: str) -> float:
    """The contrast ratio of two colours, as WCAG 2 reckons it."""

    def light(colour: str) -> float:
        parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
        lit = [
            part / 12.92 if part <= 0.03928 else ((part + 0.055) / 1.055) ** 2.4 for part in parts
        ]
        return 0.2126 * lit[0] + 0.7152 * lit[1] + 0.0722 * lit[2]

    high, low = sorted((light(one), light(two)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def test_colours_can_be_read_in_light_dark_and_print(made: Checked) -> None:
    page = sheet(made, "UK", "html")
    themes = [
        dict(re.findall(r"--(\w+): (#[0-9a-f]{6});", block))
        for block in re.findall(r":root \{(.*?)\}", page, re.DOTALL)
    ]
    assert len(themes) == 3
    for theme in themes:
        for ink in ("ink", "quiet", "accent"):
            for ground in ("ground", "tint"):
                assert contrast(theme[ink], theme[ground]) >= 7, (ink, ground)
        assert contrast(theme["line"], theme["ground"]) >= 3


def test_a_drawing_is_not_shrunk_past_reading() -> None:
    # 0.85 of 1,000 units is 850, and 16 units a rem: 53.1 rem, of which the step below is 52.
    wide = drawing("Wide", '<svg viewBox="0 0 1000 300"></svg>')
    assert (wide.wide, wide.high, wide.least, wide.lying) == (1000, 300, 52, True)
    small = drawing("Small", '<svg viewBox="0 0 290 300"></svg>')
    assert (small.least, small.lying) == (0, False)


def test_every_step_of_a_drawing_s_width_is_in_the_styles(made: Checked) -> None:
    page = sheet(made, "UK", "html")
    for step in STEPS:
        assert f".least-{step} svg {{ min-width: {step}rem; }}" in page


@pytest.mark.parametrize(
    ("words", "kept"),
    [
        ("join. 28 (32, 36) sts.", ["28_(32,_36)_sts."]),
        ("24 tr, 8 ch-2 sps", ["8_ch-2_sps"]),
        ("[...] 7 (8, 9) times", ["7_(8,_9)_times"]),
        ("5½ (6¾, 7¾) in from its start", ["5½_(6¾,_7¾)_in"]),
        ("Ch 3, 1 dc in next st, 2 tr", ["Ch_3, 1_dc in next st, 2_tr"]),
        ("in 2nd ch from hook, rows 2-5", ["in 2nd ch from hook, rows 2-5"]),
        ("110 m / 120 yd a ball", ["110_m / 120_yd a ball"]),
        ("12,5 (13 ; 14,5) cm / 5 (5 ; 5¾) in", ["12,5_(13_;_14,5)_cm / 5_(5_;_5¾)_in"]),
    ],
)
def test_a_number_stays_with_its_sizes_and_its_unit(words: str, kept: list[str]) -> None:
    told = bound(words)
    assert told.replace("\u00a0", " ") == words
    for one in kept:
        assert one.replace("_", "\u00a0") in told


def test_a_table_in_markdown_has_its_caption() -> None:
    one = Table("Lengths | *all*", ("Length", "small"), (("wide", "1 cm"),))
    assert markdown_table(one).splitlines() == [
        "*Lengths \\| \\*all\\**", "", "| Length | small |", "| --- | --- |", "| wide | 1 cm |",
    ]  # fmt: skip


def test_a_table_of_the_text_has_its_caption_and_says_once_what_is_the_same() -> None:
    long = "a length that leaves no room for columns"
    rows = (("wide", long, long), ("high", "1", "2"), ("deep", "3", "none"))
    one = Table("Lengths", ("Length", "small", "large"), rows, ("", "1 (2)", ""))
    wanted = f"wide: {long}\nhigh: 1 (2)\ndeep:\n    small: 3\n    large: none"
    assert table(one) == f"Lengths\n\n{wanted}"
    assert table(Table("Lengths", ("Length", "small"), (("wide", "1 cm"),))).splitlines() == [
        "Lengths", "", "Length   small", "------   -----", "wide     1 cm",
    ]  # fmt: skip


NARROW = """pattern: Ebb Vest
terms: UK
sizes: a long name (another long name, a third long name, and the last of them)
measure bust: 100 (110, 120, 130) cm
hook main: 4 mm
yarn slate: "DK wool", 50 g = 100 m
gauge plain: 10 sts and 10 rows to 10 cm in dc, hook main, yarn slate, weighs 10 g
count wide: bust, at plain sts, multiple of 4 plus {plus}
part back: flat, yarn slate, hook main, gauge plain
start: ch {{wide + 1}}
row 1: dc in 2nd ch from hook, dc in each ch across = wide sts
"""


@pytest.mark.parametrize(
    ("plus", "ease"),
    [
        # 10 sts are 10 cm: 99 (111, 119, 131) sts, the nearest multiples of 4 with 3 more.
        (
            3,
            [
                "Back, ease for bust:",
                "    A long name: 1 cm of negative ease, 1%",
                "    Another long name: 1 cm of ease, 1%",
                "    A third long name: 1 cm of negative ease, 1%",
                "    And the last of them: 1 cm of ease, 1%",
            ],
        ),
        # 100 (108, 120, 128) or 100 (112, 120, 132) sts: a half goes up.
        (0, ["Back, ease for bust: 0 (2, 0, 2) cm of ease, 0 (2, 0, 2)%"]),
    ],
)
def test_sizes_that_find_no_room_for_columns_stand_in_the_trades_form(
    plus: int, ease: list[str]
) -> None:
    made = pipeline.check_text("vest", NARROW.format(plus=plus)).checked
    assert made is not None
    lines = rendering.sheet(made, "UK", "text").split("\n")
    assert "To fit bust: 100 (110, 120, 130) cm / 39¼ (43¼, 47¼, 51¼) in" in lines
    at = lines.index(ease[0])
    assert lines[at : at + len(ease)] == ease
    (yarn,) = [line for line in lines if line.startswith("Slate: ")]
    each = r"\d+ \(\d+, \d+, \d+\)"
    assert re.fullmatch(rf"Slate: 1 ball, {each} g, {each} m / {each} yd", yarn)


def test_ease_too_small_for_a_percentage_has_none() -> None:
    """A wrap 100 cm wide to a measure of 100.4 cm: 4 mm of 1004 are less than half of 1%."""
    text = """pattern: Ebb Shawl
terms: UK
measure hips: 100.4 cm
hook main: 4 mm
yarn slate: "DK wool"
gauge plain: 10 sts and 10 rows to 10 cm in dc, hook main, yarn slate
count wide: hips, at plain sts
part shawl: flat, yarn slate, hook main, gauge plain
start: ch {wide + 1}
row 1: dc in 2nd ch from hook, dc in each ch across = wide sts
"""
    made = pipeline.check_text("shawl", text).checked
    assert made is not None
    told = rendering.sheet(made, "UK", "text")
    assert "Shawl, ease for hips   0.5 cm of negative ease\n" in told
    assert "0%" not in told.split("Materials")[0]
