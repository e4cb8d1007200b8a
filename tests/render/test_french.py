"""A French sheet: its numbers, what everybody measures, and its word for a side."""

from __future__ import annotations

import re

import pytest

from loopwright.measure.dimensions import measures
from loopwright.pipeline import check_text
from loopwright.render.prose.voice import voice
from loopwright.render.schematic import schematic
from loopwright.render.speaker import told
from loopwright.rendering import sheet


@pytest.mark.parametrize(
    ("english", "french"),
    [
        ("4.5", "4,5"),
        ("1,590", "1~590"),
        ("28 (32, 36)", "28 (32, 36)"),
        ("12.5 (13, 14.5)", "12,5 (13~; 14,5)"),
        ("5½ (6¾, 7¾)", "5½ (6¾, 7¾)"),
        ("699 (1,590, 1,600.5)", "699 (1~590~; 1~600,5)"),
    ],
)
def test_french_numbers(english: str, french: str) -> None:
    """As the source named in fr.toml writes them; ~ stands for a space that does not break."""
    wanted = french.replace("~", "\u00a0")
    assert voice("UK", "fr").figures(f"{english} cm") == f"{wanted} cm"
    assert voice("UK").figures(english) == english
    # The words of a chart are found before it is known who reads them.
    if "½" not in english:
        assert told((english, " sts"), voice("UK", "fr")) == f"{wanted} sts"
        assert told((english, " sts"), voice("UK")) == f"{english} sts"


DECIMALS = """pattern: Slate
terms: UK
sizes: small (middle, large)
measure wide: 60.5 (80, 900) cm
yarn slate: "wool", 12.5 g = 25.5 m, weight 3
hook main: 4.5 mm
allowance: 7.5%
tension plain: 16.5 sts and 18.5 rows to 10 cm in dc, hook main, yarn slate, weighs 4.2 g
count across: wide, at plain sts
part cloth: flat, yarn slate, hook main, tension plain
comes out at: 60.5 (80, 901) cm wide
start: ch {across + 1}
row 1: dc in 2nd ch from hook, dc in each ch across = across sts
row 2: ch 1, [dc] across = across sts
repeat row 2: until 62.5 (82, 800) cm
note: It measures {wide}.
"""


@pytest.mark.parametrize("form", ["text", "markdown", "html"])
def test_no_form_of_a_french_sheet_writes_numbers_as_english_does(form: str) -> None:
    made = check_text("slate", DECIMALS).checked
    assert made is not None
    words = sheet(made, "UK", form, language="fr")
    if form == "html":
        words = re.sub(r"(?s)<(style|script)\b.*?</\1>|<[^>]*>", " ", words)
    words = re.sub(r"\s+", " ", words)
    assert re.findall(r"\d\.\d|\d,\d{3}", words) == []
    for wanted in (
        "4,5 mm",
        "16,5 m et 18,5 rangs",
        "12,5 g = 25,5 m",
        "On ajoute 7,5 % pour",
        "62,5 (82 ; 800) cm / 24½ (32¼ ; 315) in",
        "60,5 (80 ; 900) cm",
    ):
        assert wanted in words


def test_what_everybody_measures_has_its_french_name() -> None:
    text = """pattern: Slate
terms: UK
sizes: small (large)
measure head: who 6 months (adult woman)
measure brim_line: 10 (12) cm
hook main: 4 mm
yarn slate: "wool"
tension plain: 10 sts and 10 rounds to 10 cm in dc, hook main, yarn slate
count round: head, at plain sts
part band: in rounds, yarn slate, hook main, tension plain
start: ch round, join into ring
round 1: ch 1, dc in each ch around, join = round sts
"""
    made = check_text("slate", text).checked
    assert made is not None
    said = " ".join(sheet(made, "UK", "text", language="fr").split())
    assert "Pour tour de tête 42,8 cm" in said
    assert "Pour brim line 10 cm" in said
    assert "Band, aisance pour tour de tête" in said
    drawing = schematic(made, measures(made)[0], voice("UK", "fr"))
    assert "Pour tour de tête" in drawing


@pytest.mark.parametrize(("side", "listed"), [("", False), (" (RS)", True)])
def test_a_french_word_for_a_side_is_listed_where_it_is_short(side: str, listed: bool) -> None:
    """A border begins `L’endroit de l’ouvrage face à soi`, which is no abbreviation."""
    body = DECIMALS.replace("row 1:", f"row 1{side}:")
    body += "part edge: in rounds, yarn slate\nstart: all round cloth\n"
    body += "round 1: ch 1, 80 dc evenly, join\n"
    made = check_text("slate", body).checked
    assert made is not None
    told = sheet(made, "UK", "text", language="fr")
    assert "L’endroit de l’ouvrage" in told
    assert ("\nendroit\u00a0: côté endroit" in told) is listed


def test_a_french_drawing_writes_numbers_as_french_does() -> None:
    made = check_text("slate", DECIMALS).checked
    assert made is not None
    drawing = schematic(made, measures(made)[0], voice("UK", "fr"))
    shown = " ".join(re.findall(r"<text[^>]*>([^<]*)", drawing))
    assert re.search(r"\d,5 \(\d", shown)
    assert not re.search(r"\d\.\d", shown)
