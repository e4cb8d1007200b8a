"""Rows that are alike but for a number and their counts: told together, read back one by one."""

from __future__ import annotations

import pytest

from loopwright.pipeline import check_text
from loopwright.render.prose import Steps, prose
from loopwright.render.prose.document import Step
from loopwright.render.prose.style import shipped
from loopwright.render.sheet import sheet
from reader.pages import read
from reader.rows import worked

CROWN = """pattern: Skerry Tam
terms: UK
sizes: small (large)
count wedges: 6 (8)
part crown: in rounds
start: magic ring
round 1: ch 1, wedges dc in ring, join = wedges sts
round 2: ch 1, [dc inc] around, join = {2 * wedges} sts
rounds 3-LAST as r: ch 1, [{r - 2} dc, dc inc] wedges times, join = {r * wedges} sts
"""
SHAWL = """pattern: Strand Shawl
terms: UK
part shawl: flat
start: ch 4
row 1: dc in 2nd ch from hook, dc in each ch across = 3 sts
rows 2-LAST: ch 1, dc inc, dc in each st to last st, dc inc
"""


def steps(text: str, last: int, style: str = "plain") -> list[Step]:
    """The steps of the first part, the start left out."""
    made = check_text("like", text.replace("LAST", str(last))).checked
    assert made is not None
    (part,) = (
        one for one in prose(made, "UK", style=shipped(style)).sections if one.kind == "part"
    )
    told = [one for block in part.blocks if isinstance(block, Steps) for one in block.steps]
    return told[1:]


def test_many_rounds_that_grow_by_one_number_are_told_once() -> None:
    """Round r works r - 2 stitches before each increase and comes to r wedges: six or eight."""
    told = steps(CROWN, 14)
    assert [one.label for one in told] == ["Round 1", "Round 2", "Round 3", "Rounds 4-14"]
    assert told[-1].text == (
        "Ch 1, [1 dc in each of next n sts, 2 dc in next st] 6 (8) times, join (n as below)."
    )
    assert told[-1].count == ""
    assert told[-1].details == tuple(
        f"Round {r}: n = {r - 2}. {6 * r} ({8 * r}) sts." for r in range(4, 15)
    )


def test_a_few_are_told_one_by_one() -> None:
    told = steps(CROWN, 10)
    assert [one.label for one in told] == [f"Round {r}" for r in range(1, 11)]
    assert told[-1].text.startswith("Ch 1, [1 dc in each of next 8 sts, 2 dc in next st]")
    assert told[-1].count == "60 (80) sts."


def test_rows_whose_words_are_the_same_are_told_with_their_counts() -> None:
    """Each row makes two more than the one below, and row 1 is 3."""
    told = steps(SHAWL, 6)
    assert [one.label for one in told] == ["Row 1", "Rows 2-6"]
    assert told[-1].details == ()
    assert told[-1].count == (
        "Row 2: 5 sts; row 3: 7 sts; row 4: 9 sts; row 5: 11 sts; row 6: 13 sts."
    )
    assert told[-1].text.count("2 dc in") == 2


def test_counts_beneath_are_as_the_house_has_them() -> None:
    """The compact style sets counts in square brackets and calls rounds rnds."""
    assert steps(CROWN, 14, "compact")[-1].details[0] == "Rnd 4: n = 2. [24 (32) sts]"


@pytest.mark.parametrize(
    ("text", "last", "counts"),
    [
        (CROWN, 14, [[6 * r for r in range(1, 15)], [8 * r for r in range(1, 15)]]),
        (SHAWL, 9, [[1 + 2 * r for r in range(1, 10)]]),
    ],
    ids=["crown", "shawl"],
)
def test_they_are_read_back_one_by_one(text: str, last: int, counts: list[list[int]]) -> None:
    made = check_text("like", text.replace("LAST", str(last))).checked
    assert made is not None
    for terms in ("UK", "US"):
        page = read(sheet(made, terms, "text"))
        for size, wanted in enumerate(counts):
            (part,) = worked(page, size).values()
            assert part.rows == wanted
            assert [int(told.split()[0]) for told, _ in part.printed] == wanted


def test_two_numbers_have_two_letters_and_three_are_told_one_by_one() -> None:
    """A treble moves along rows of forty: as many before it more as after it fewer."""
    moved = "pattern: Skerry Steps\nterms: UK\npart band: flat\nstart: ch 41\n"
    moved += "row 1: dc in 2nd ch from hook, dc in each ch across = 40 sts\n"
    step = "rows 2-LAST as r: ch 1, {r} dc, tr, {37 - 2 * r} dc, tr, {r + 1} dc = 40 sts\n"
    assert steps(moved + step, 14)[-1].label == "Row 14"
    step = "rows 2-LAST as r: ch 1, {r} dc, tr, {39 - r} dc = 40 sts\n"
    told = steps(moved + step, 14)[-1]
    assert told.text.startswith(
        "Ch 1, 1 dc in each of next n sts, 1 tr in next st, 1 dc in each of"
    )
    assert told.text.endswith("next m sts (n and m as below).")
    assert told.details[0] == "Row 2: n = 2, m = 37. 40 sts."
