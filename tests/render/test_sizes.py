"""`loopwright sizes`: the table, the plain data and its schema, the drawings."""

from __future__ import annotations

import json
from pathlib import Path

import jsonschema
import pytest

from conftest import Loopwright
from support import EXAMPLES, HOUSE, WORKED, text_of

SCHEMA = json.loads((HOUSE / "docs" / "sizes.schema.json").read_text("utf-8"))
MITTENS = HOUSE / "examples" / "breakwater-mittens.crochet"


@pytest.mark.parametrize("path", [*EXAMPLES, *WORKED], ids=lambda path: path.stem)
def test_plain_data_keeps_its_schema(path: Path, loopwright: Loopwright) -> None:
    answer = loopwright("sizes", str(path), "--format", "json")
    if answer.code == 0:
        told = json.loads(answer.out)
        jsonschema.validate(told, SCHEMA)
        named = [part["part"] for part in told["parts"]] + told["without_gauge"]
        assert len(named) == text_of(path).count("\npart ")
    else:
        assert answer.code == 1
        assert answer.out == ""


def test_the_schema_is_a_schema_and_says_no() -> None:
    jsonschema.Draft202012Validator.check_schema(SCHEMA)
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate({"title": "Hat", "sizes": [], "parts": []}, SCHEMA)


def test_plain_data_of_a_mitten(loopwright: Loopwright) -> None:
    told = json.loads(loopwright("sizes", str(MITTENS), "--format", "json").out)
    assert told["sizes"] == ["child", "woman", "man"]
    cuff = told["parts"][0]
    assert (cuff["part"], cuff["gauge"], cuff["unit"]) == ("cuff", "rib", "cm")
    child = cuff["sizes"][0]
    # 12 sts at 19 to 10 cm; 28 rows at 20 to 10 cm, for a palm of 15 cm
    assert child["wide_mm"] == {"first": 63.16, "widest": 63.16, "last": 63.16}
    assert child["high_mm"] == 140
    assert child["ease"] == [
        {
            "measure": "palm",
            "share": 1,
            "along": "high",
            "wanted_mm": 150,
            "found_mm": 140,
            "more_mm": -10,
            "percent": -7,
        }
    ]
    assert sum(len(one["rows"]) * one["times"] for one in child["rows"]) == 28
    assert {row["high_mm"] for one in child["rows"] for row in one["rows"]} == {5}


def test_the_table(loopwright: Loopwright) -> None:
    lines = loopwright("sizes", str(MITTENS)).out.split("\n")
    assert lines[0] == "Breakwater Mittens: finished sizes"
    assert "cuff (tension rib: 19 sts and 20 rows to 10 cm)" in lines
    table = [line.split("  ") for line in lines]
    rows = {tuple(cell.strip() for cell in row if cell.strip()) for row in table}
    assert ("child", "woman", "man") in rows
    assert ("length", "14 cm / 5½ in", "17 cm / 6¾ in", "20 cm / 7¾ in") in rows
    assert ("to fit palm", "15 cm / 6 in", "18 cm / 7 in", "21 cm / 8¼ in") in rows
    # 16.5 for 15, 18.8 for 18, 21.2 for 21 cm
    assert ("ease for palm", "1.5 cm of ease, 10%", "1 cm of ease, 5%", "no ease") in rows
    assert (
        "  Widths are reckoned from the stitches of the tension rib, heights from its rows."
        in lines
    )


def test_the_words_of_the_other_country(loopwright: Loopwright) -> None:
    out = loopwright("sizes", str(MITTENS), "--terms", "us").out
    assert "(gauge rib: 19 sts" in out
    assert "tension" not in out


def test_every_row(loopwright: Loopwright) -> None:
    path = HOUSE / "examples" / "limpet-coaster.crochet"
    out = loopwright("sizes", str(path), "--rows").out
    # 6 r stitches at 16 to 10 cm, rounds of 100/18 mm
    for number, long in ((1, "4 cm"), (4, "15 cm"), (9, "34 cm")):
        assert f"round {number}: {long} around, 5.6 mm high" in out


def test_many_sizes_come_in_several_tables(loopwright: Loopwright) -> None:
    text = "\n".join(
        (
            "pattern: Nine", "terms: UK", "sizes: a (b, c, d, e, f, g, h, i)",
            "gauge g: 20 sts and 20 rows to 10 cm in dc", "part p: flat, gauge g",
            "start: ch 21 (31, 41, 51, 61, 71, 81, 91, 101)",
            "row 1: dc in 2nd ch from hook, dc in each ch across", "",
        )
    )  # fmt: skip
    out = loopwright("sizes", "-", given=text.encode()).out
    assert max(map(len, out.split("\n"))) <= 100
    for cm in range(10, 51, 5):
        assert f" {cm} cm / " in out


def test_parts_without_gauge_are_named(loopwright: Loopwright) -> None:
    text = "\n".join(
        (
            "pattern: Bare", "terms: UK", "part cord: flat", "start: ch 21",
            "row 1: dc in 2nd ch from hook, dc in each ch across", "",
        )
    )  # fmt: skip
    out = loopwright("sizes", "-", given=text.encode()).out
    assert "Without a tension nothing is known of the size of cord." in out


def test_drawings_go_into_a_folder(loopwright: Loopwright, tmp_path: Path) -> None:
    answer = loopwright("sizes", str(MITTENS), "-o", str(tmp_path / "out"))
    assert answer.code == 0
    names = sorted(one.name for one in (tmp_path / "out").iterdir())
    names.remove("loopwright-made.json")
    assert names == [f"breakwater-mittens-{part}.svg" for part in ("cuff", "hand", "thumb")]
    assert all(name in answer.err for name in names)
    assert (tmp_path / "out" / names[0]).read_text("utf-8").startswith("<svg ")


def test_a_pattern_with_errors_has_no_sizes(loopwright: Loopwright) -> None:
    answer = loopwright("sizes", "-", given=b"pattern: No\nterms: UK\n")
    assert (answer.code, answer.out) == (1, "")
    assert "missing-line" in answer.err


def test_the_sheet_has_the_same_figures(loopwright: Loopwright) -> None:
    page = loopwright("sheet", str(MITTENS), "--form", "html").out.replace(
        "\N{NO-BREAK SPACE}", " "
    )
    assert "<td>16.5 cm / 6½ in</td><td>19 cm / 7½ in</td><td>21 cm / 8¼ in</td>" in page
    assert page.count(": finished size</title>") == 3  # a schematic of every part
    text = loopwright("sheet", str(MITTENS)).out
    assert "Finished sizes are reckoned from the tension" in text
    assert "<svg" not in text
