"""Published patterns again, by facts that were collected apart from their keys: the arithmetic of
single rows (worked/rows.csv) and the errors known to be in print (worked/errata.csv)."""

from __future__ import annotations

import csv
import re
from functools import cache
from typing import Any

import pytest

from loopwright.pipeline import check_text
from support import TESTS, begins_at, file_report, text_of

WORKED = TESTS / "worked"


@cache
def facts(name: str) -> list[dict[str, str]]:
    """The rows of one of the tables; its first line is a remark."""
    with (WORKED / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(line for line in file if not line.startswith("#")))


def report(stem: str, *edits: tuple[int, str, str]) -> dict[str, Any]:
    """The report on a pattern, after (line, old, new) edits."""
    lines = text_of(WORKED / f"{stem}.crochet").split("\n")
    for line, old, new in edits:
        assert old in lines[line - 1]
        lines[line - 1] = lines[line - 1].replace(old, new)
    return file_report(check_text(stem, "\n".join(lines)))


def made(told: dict[str, Any], line: int) -> dict[str, int]:
    (row,) = (one for one in told["rows"] if one["line"] == line)
    counts: dict[str, int] = next(iter(row["made"].values()))
    return counts


def messages_on(told: dict[str, Any], line: int) -> list[str]:
    """What is said of the row that begins on a line."""
    text = text_of(WORKED / f"{told['path']}.crochet")
    return [one["text"] for one in told["messages"] if begins_at(text, one["line"]) == line]


@pytest.mark.parametrize("row", facts("rows.csv"), ids=lambda row: f"{row['file']}-{row['row']}")
def test_the_table_adds_up(row: dict[str, str]) -> None:
    groups = [re.fullmatch(r"(\d+)>(\d+)x(\d+)", one) for one in row["groups"].split()]
    parts = [tuple(map(int, one.groups())) for one in groups if one]
    assert len(parts) == len(groups)
    assert sum(eats * times for eats, _, times in parts) == int(row["eats"])
    assert sum(makes * times for _, makes, times in parts) == int(row["makes"])


# Where each row of the table stands in the pattern, and which counts its "makes" adds up.
# Rows "fixed" in the table are in CORRECTED below; those that count neither stitches nor chains
# as the notation does, and those whose size is not in the pattern, are not listed.
ROWS = {
    ("01-ball-30", "R5"): (10, "sts"),
    ("01-ball-30", "R11"): (12, "sts"),
    ("01-ball-30", "R13"): (14, "sts"),
    ("04-small-sphere-22", "R3"): (8, "sts"),
    ("04-small-sphere-22", "R5"): (10, "sts"),
    ("04-small-sphere-22", "R7"): (12, "sts"),
    ("07-links-hat", "R45"): (14, "sts"),
    ("07-links-hat", "R50"): (16, "sts"),
    ("07-links-hat", "R86"): (28, "sts"),
    ("07-links-hat", "adult R45"): (36, "sts"),
    ("09-sc-hat-rolled-brim", "R8"): (14, "sts"),
    ("09-sc-hat-rolled-brim", "R24"): (23, "sts"),
    ("11-bootie-18-26", "R1"): (6, "sts"),
    ("11-bootie-18-26", "R2"): (9, "sts"),
    ("11-bootie-18-26", "R5"): (13, "sts"),
    ("16-ripple-16", "Row1"): (9, "sts"),
    ("16-ripple-16", "Row2"): (13, "sts"),
    ("20-blue-hexagon", "R3"): (10, "sts"),
    ("20-blue-hexagon", "R4"): (11, "sts"),
    ("20-blue-hexagon", "R5"): (12, "sts ch"),
    ("22-hexagon-and-half", "R2"): (9, "sts ch"),
    ("27-big-circle-granny", "R6 dc"): (18, "sts"),
    ("27-big-circle-granny", "R7 tr"): (20, "tr"),
    ("33-lazy-cable-hat", "R3"): (9, "sts"),
    ("35-baby-chain-hat", "Row1 2nd ch"): (7, "sts"),
    ("35-baby-chain-hat", "Row2"): (8, "sts"),
    ("37-filet-dishcloths", "v2 r2"): (11, "sts ch"),
    ("37-filet-dishcloths", "v2 r4"): (16, "sts ch"),
    ("39-bobble-dishcloth-33", "Row3"): (9, "sts"),
    ("41-bobble-swatch-23", "Row8 printed"): (11, "sts"),
    ("47-pineapple-doily-64", "R5"): (10, "sts"),
    ("47-pineapple-doily-64", "R3"): (8, "sts"),
    ("54-openwork-33-uk", "Row1"): (8, "sts ch"),
    ("54-openwork-33-uk", "Row2"): (10, "sts"),
    ("56-iceberg-rib-hat", "R11 printed"): (9, "sts"),
    ("60-star-coaster-25", "R3"): (10, "sts"),
    ("62-star-doily-coaster", "R3 groups"): (10, "trio"),
    ("62-star-doily-coaster", "R4 groups"): (11, "trio"),
    ("62-star-doily-coaster", "R4 ch-2 sps"): (11, "ch-2 sp"),
    ("67-gusset-mitts", "R11-20"): (9, "sts"),
    ("72-earflap-hat-55", "R14"): (15, "sts"),
    ("72-earflap-hat-55", "R17"): (18, "sts"),
    ("80-beanie-5-sizes", "s4 R9"): (11, "sts"),
    ("80-beanie-5-sizes", "s8 R10"): (13, "sts"),
    ("80-beanie-5-sizes", "s10 R10"): (14, "sts"),
    ("85-bonnet-uk", "R5"): (13, "sts"),
    ("96-beeton-dahlia", "R3"): (8, "sts"),
    ("96-beeton-dahlia", "small R2"): (19, "sts"),
    ("101-dillmont-basics", "hexagon r2"): (15, "sts"),
    ("101-dillmont-basics", "hexagon r3"): (16, "sts"),
    ("102-hyperbolic", "R5"): (11, "sts"),
}


@pytest.mark.parametrize("row", ROWS, ids=lambda row: "-".join(row))
def test_a_row_makes_what_its_arithmetic_says(row: tuple[str, str]) -> None:
    (fact,) = (one for one in facts("rows.csv") if (one["file"][:-3], one["row"]) == row)
    line, names = ROWS[row]
    counts = made(report(row[0]), line)
    found = sum(counts[name] for name in names.split()) if " ch" in names else counts[names]
    assert found == int(fact["makes"])


# Errors in print with their correction: (pattern, line of the row, edits) and the stitches it makes
# once it is right. The figures are those of errata.csv and of the rows "fixed" in rows.csv.
CORRECTED = [
    ("07-links-hat", 14, [(14, ", 2 sc", ", 3 sc")], 66),
    ("07-links-hat", 24, [(24, "8 times", "7 times")], 30),
    ("09-sc-hat-rolled-brim", 25, [(25, "24-27", "25-28")], 60),
    ("11-bootie-18-26", 9, [(9, "ch 2, hdc in first st", "ch 2 as hdc, hdc in same st")], 26),
    ("27-big-circle-granny", 20, [(21, "12 tr", "16 tr")], 48),
    ("35-baby-chain-hat", 7, [(7, "2nd", "3rd")], 10),
    ("37b-filet-dishcloth-first", 7, [(7, "2nd", "3rd")], 28),
    ("41-bobble-swatch-23", 8, [(8, ", 5-dc bobble] 3 times,", "] 3 times, 5-dc bobble,")], 23),
    ("41-bobble-swatch-23", 11, [(11, ", 5 sc] 2 times", "] 3 times, 5 sc")], 23),
    ("56-iceberg-rib-hat", 9, [(9, "[sc,", "[2 sc,")], 21),
    ("56-iceberg-rib-hat", 10, [(10, "[sc,", "[2 sc,")], 14),
    ("56-iceberg-rib-hat", 12, [(12, "[sc,", "[2 sc,"), (12, "= 1 st", "= 10 sts")], 10),
    ("62-star-doily-coaster", 8, [(8, "ch-1 sps", "ch-2 sps")], 12),
    ("62-star-doily-coaster", 9, [(9, "ch-1 sps", "ch-2 sps")], 24),
    ("62-star-doily-coaster", 11, [(11, "12 ch-2", "8 ch-2")], 72),
]  # fmt: skip


@pytest.mark.parametrize("case", CORRECTED, ids=lambda case: f"{case[0]}-{case[1]}")
def test_a_corrected_row_is_clean(case: tuple[str, int, list[tuple[int, str, str]], int]) -> None:
    stem, line, edits, stitches = case
    corrected = report(stem, *edits)
    assert messages_on(report(stem), line)
    assert messages_on(corrected, line) == []
    assert made(corrected, line)["sts"] == stitches


def test_a_reader_s_wrong_report_is_not_followed() -> None:
    # errata.csv: of openwork-33-uk a reader said 44; the printed 33 is right.
    assert report("54-openwork-33-uk")["messages"] == []
