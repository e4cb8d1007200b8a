"""What a length is called: of a piece that lies flat, of a border, of a thing that fits nobody."""

from __future__ import annotations

import pytest

from loopwright.ir.checked import Checked
from loopwright.measure.dimensions import measures
from loopwright.pipeline import check_text
from loopwright.render.schematic import schematic
from loopwright.rendering import sheet

HEAD = """pattern: Slate
terms: UK
yarn slate: "wool", 50 g = 100 m
hook main: 4 mm
gauge plain: 10 sts and 10 rows to 10 cm in dc, hook main, yarn slate
"""
# 10 sts and 10 rows are 10 cm each way.
PIECE = """part piece: flat, yarn slate, hook main, gauge plain
start: ch {chains}
row 1: dc in 2nd ch from hook, dc in each ch across
row 2: ch 1, [dc] across
repeat row 2: until {rows} rows
"""


def checked(text: str) -> Checked:
    made = check_text("slate", text).checked
    assert made is not None
    return made


def lengths(text: str, part: int = 0) -> dict[str, float]:
    found = measures(checked(text))[part]
    return {one.words: float((one.lengths[0] or 0) / 10) for one in found.dimensions}


@pytest.mark.parametrize(
    ("sts", "rows", "wanted"),
    [
        (20, 150, {"width": 20, "length": 150}),  # a scarf whose rows run across it
        (150, 20, {"length": 150, "width": 20}),  # the same whose rows run along it
        (20, 20, {"width": 20, "length": 20}),
        (30, 22, {"width": 30, "height": 22}),  # it may as well hang
        (60, 20, {"length": 60, "width": 20}),
        (59, 20, {"width": 59, "height": 20}),
    ],
)
def test_the_longer_way_of_a_flat_piece_is_its_length(
    sts: int, rows: int, wanted: dict[str, float]
) -> None:
    assert lengths(HEAD + PIECE.format(chains=sts + 1, rows=rows)) == wanted


def test_every_size_has_to_be_longer_than_wide() -> None:
    text = HEAD.replace("yarn slate:", "sizes: small (large)\nyarn slate:", 1)
    assert "height" in lengths(text + PIECE.format(chains="21 (61)", rows="40 (40)"))
    assert "length" in lengths(text + PIECE.format(chains="21 (61)", rows="40 (80)"))


def test_a_border_is_wide_and_a_tube_is_high() -> None:
    border = """part edge: in rounds, yarn slate, hook main, gauge plain
start: all round piece
round 1: ch 1, 80 dc evenly, join = 80 sts
round 2: ch 1, [dc] around, join = 80 sts
"""
    tube = """part piece: in rounds, yarn slate, hook main, gauge plain
start: ch 40, join into ring
rounds 1-20: ch 1, [dc] around, join = 40 sts
"""
    text = HEAD + PIECE.format(chains=21, rows=20)
    assert lengths(text + border, 1) == {"around": 80, "width": 2}
    assert lengths(HEAD + tube) == {"around": 40, "height": 20}


BLANKET = """measure {name}: 72 cm
count sts: {name}, at plain sts, multiple of 10
part blanket: flat, yarn slate, hook main, gauge plain
start: ch {{sts + 1}}
row 1: dc in 2nd ch from hook, dc in each ch across = sts sts
row 2: ch 1, [dc] across = sts sts
repeat row 2: until 90 rows
"""


@pytest.mark.parametrize("name", ["width", "blanket_width"])
def test_a_thing_that_fits_nobody_has_no_ease(name: str) -> None:
    made = checked(HEAD + BLANKET.format(name=name))
    text = sheet(made, "UK", "text")
    assert "Planned width   72 cm / 28¼ in" in text
    assert "Blanket, width    70 cm / 27½ in" in text
    assert "To fit" not in text
    assert "ease" not in text
    assert "Largeur prévue" in sheet(made, "UK", "text", language="fr")
    assert "ease" not in schematic(made, measures(made)[0], "UK")


@pytest.mark.parametrize("name", ["hips", "foot_length"])
def test_what_is_of_a_body_is_fitted(name: str) -> None:
    made = checked(HEAD + BLANKET.format(name=name))
    text = sheet(made, "UK", "text")
    assert f"To fit {name.replace('_', ' ')}" in text
    assert "2 cm of negative ease, 3%" in text
    assert "2 cm of negative ease, 3%" in schematic(made, measures(made)[0], "UK")


FAN = """part piece: flat, yarn slate, hook main, gauge plain
start: {start}
row 1: {first} = 3 sts
row 2: ch 1, [dc inc] across = 6 sts
row 3: ch 1, [dc, dc inc] across = 9 sts
row 4: ch 1, [2 dc, dc inc] across = 12 sts
"""


@pytest.mark.parametrize(
    ("start", "first"),
    [
        ("magic ring", "ch 1, 3 dc in ring"),
        ("ch 4, join into ring", "ch 1, 3 dc in ring"),
        ("ch 2", "3 dc in 2nd ch from hook"),
    ],
)
def test_rows_about_a_middle_have_no_width(start: str, first: str) -> None:
    """12 stitches bend about the middle, 4 rows from it: how wide that lies hangs on the bend."""
    text = HEAD + FAN.format(start=start, first=first)
    assert lengths(text) == {"along the last row": 12, "from the middle to the last row": 4}
    (part,) = measures(checked(text))
    assert part.form is None  # so that no outline is drawn as if its rows were straight


def test_rows_on_a_short_chain_have_one() -> None:
    text = HEAD + FAN.format(start="ch 4", first="dc in 2nd ch from hook, 2 dc")
    found = lengths(text)
    assert (found["width at the start"], found["width at the end"]) == (3, 12)
