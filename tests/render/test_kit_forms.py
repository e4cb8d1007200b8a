"""The bill in its three forms, the measures that there are, and what of them stands on a sheet."""

from __future__ import annotations

import csv
import json
from fractions import Fraction
from pathlib import Path

import jsonschema
import pytest

from conftest import Loopwright
from loopwright.ir.checked import Checked
from loopwright.measure.yarn import needed
from loopwright.pipeline import check_text
from loopwright.render.kit.reckoned import money
from loopwright.rendering import kit, measures, sheet
from support import EXAMPLES, HOUSE, WORKED, text_of

# 10 sts and 10 rows weigh 10 g and a foundation is not in it: 90 stitches and 10 foundation
# stitches of 16.0 to 10.6 are 10.5 g in the small size, twice that in the large.
PATTERN = """pattern: Harbour Square
terms: UK
sizes: small (large)
allowance: 0%
yarn rock: "wool, plain", 50 g = 100 m, price 5 per ball
hook main: 4 mm
tension plain: 10 sts and 10 rows to 10 cm in dc, yarn rock, hook main, weighs 10 g
kit: 25 g rock, 2 (3) buttons price 0.40 each, hook main, margin 10%
pace: 5 to 10 sts a minute
part square: flat, yarn rock, hook main, gauge plain, make MANY
start: 10 (20) foundation dc
rows 1-9: dc in each st across = 10 (20) sts
"""


def checked(text: str = PATTERN, make: str = "") -> Checked:
    result = check_text("kit", text.replace(", make MANY", make))
    assert result.checked is not None, [one.text for one in result.diagnostics]
    return result.checked


SCHEMA = json.loads((HOUSE / "docs" / "kit.schema.json").read_text("utf-8"))


@pytest.mark.parametrize("path", [*EXAMPLES, *WORKED], ids=lambda path: path.stem)
def test_plain_data_keeps_its_schema(path: Path) -> None:
    result = check_text(path.name, text_of(path))
    if result.checked is not None:
        for bags in (0, 3):
            jsonschema.validate(json.loads(kit(result.checked, "json", bags)), SCHEMA)


def test_the_schema_is_a_schema_and_says_no() -> None:
    jsonschema.Draft202012Validator.check_schema(SCHEMA)
    told = json.loads(kit(checked(), "json", 2))
    jsonschema.validate(told, SCHEMA)
    for wrong in ({**told, "tide": "high"}, {**told, "items": [{}]}, {**told, "time": {}}):
        with pytest.raises(jsonschema.ValidationError):
            jsonschema.validate(wrong, SCHEMA)


TEXT = """Harbour Square: what it takes

rock: wool, plain, 50 g = 100 m a ball
  size    takes                       in the bag   left over
  small   11 g, 22 m / 23 yd, 1 ball   25 g         14 g
  large   22 g, 43 m / 46 yd, 1 ball   25 g         3 g

The yarn is reckoned from the swatch that was weighed: each stitch takes its
share of it, and other stitches and chains theirs by published rates. 0% is
added for tails and a swatch (the designer's figure). Balls are rounded up.

One bag for all sizes:
                      cost
  25 g   rock         2.50
  3      buttons      1.20
  1      hook 4 mm
         together     3.70
  Without a price, and not in the cost: hook 4 mm.
  A bag for one size only costs: small 3.30, large 3.70.

Working time:
  size    stitches and chains   time
  small   100                   10 min to 20 min
  large   200                   20 min to 40 min
At 5 to 10 sts a minute, without sewing up and weaving in.

For 20 bags, with 10% more yarn:
  550 g   rock        1,100 m / 1,210 yd, 11 balls   55.00
  60      buttons                                    24.00
  20      hook 4 mm
          together                                   79.00
"""


def words(text: str) -> list[list[str]]:
    return [line.split() for line in text.splitlines()]


def test_the_bill_as_text() -> None:
    # 10.51 g and 21.02 g of 25; 550 g are 20 x 25 and 10%, eleven balls
    assert words(kit(checked(), "text", 20)) == words(TEXT)


def test_columns_stand_under_one_another() -> None:
    lines = kit(checked(), "text", 20).splitlines()
    at = lines[3].index("takes")
    assert [line[at - 1 : at + 2] for line in lines[4:6]] == [" 11", " 22"]


def test_another_margin() -> None:
    assert "For 20 bags:" in kit(checked(), "text", 20, Fraction(0))
    assert "For 1 bag, with 7.5% more yarn:" in kit(checked(), "text", 1, Fraction("0.075"))


def test_the_bill_as_csv() -> None:
    rows = list(csv.DictReader(kit(checked(), "csv", 20).splitlines()))
    assert len(rows) == 3 * 4
    small = rows[0]
    assert (small["size"], small["what"], small["name"]) == ("small", "yarn", "rock")
    assert (small["needed_g"], small["needed_m"], small["needed_balls"]) == ("11", "22", "1")
    assert (small["in_bag"], small["unit"], small["cost"]) == ("25", "g", "2.50")
    assert (small["left_over"], small["left_over_unit"]) == ("15", "g")
    assert small["how"] == "weighed stated"
    order = {row["name"]: row for row in rows if row["size"] == "20 bags"}
    assert (order["rock"]["in_bag"], order["rock"]["needed_balls"]) == ("550", "11")
    assert (order["buttons"]["in_bag"], order["buttons"]["cost"]) == ("60", "24.00")
    every = {row["name"]: row for row in rows if row["size"] == "all sizes"}
    assert (every["buttons"]["in_bag"], every["buttons"]["unit"]) == ("3", "piece")


def test_cells_that_a_spreadsheet_would_work_out() -> None:
    text = PATTERN.replace("2 (3) buttons", '2 (3) "=1+1, boxed"')
    told = kit(checked(text), "csv")
    assert '"\'=1+1, boxed"' in told
    assert "'=1+1, boxed" in [row["name"] for row in csv.DictReader(told.splitlines())]


def test_the_bill_as_json() -> None:
    told = json.loads(kit(checked(), "json", 20))
    rock, buttons, hook = told["items"]
    assert rock["needed"]["small"]["grams"] == {"least": 11, "most": 11}
    assert rock["needed"]["small"]["how"] == ["weighed"]
    assert rock["needed"]["large"]["balls"] == 1
    assert (buttons["in_bag_by_size"], buttons["price"]) == ({"small": 2, "large": 3}, 0.4)
    assert (hook["name"], hook["price"]) == ("hook 4 mm", None)
    assert told["cost"] == {"total": 3.7, "without_price": ["hook 4 mm"]}
    assert told["time"]["minutes"]["small"] == {"stitches": 100, "least": 10, "most": 20}
    assert told["order"]["bags"] == 20
    assert told["order"]["items"][0]["balls"] == 11
    assert told["allowance"] == {"share": 0.0, "how": "stated"}
    assert "windchilde" in told["sources"]


def test_without_bags_nothing_is_ordered() -> None:
    assert json.loads(kit(checked(), "json"))["order"] is None
    assert "bags" not in kit(checked(), "text")


def test_a_pattern_with_neither_kit_nor_gauge() -> None:
    bare = "pattern: Cord\nterms: UK\npart cord: flat\nstart: ch 5\nrow 1: dc in each ch across\n"
    told = kit(checked(bare), "text", 3)
    assert told == (
        "Cord: what it takes\n\nNo part has a gauge, and without one nothing is known of its yarn."
        "\n\nThe bag: nothing is listed.\n\nFor 3 bags: nothing is in the bag.\n"
    )
    assert json.loads(kit(checked(bare), "json"))["items"] == []


@pytest.mark.parametrize(
    ("price", "text"), [("0", "0.00"), ("2.5", "2.50"), ("1234.565", "1,234.57"), ("0.004", "0.00")]
)
def test_money(price: str, text: str) -> None:
    assert money(Fraction(price)) == text


# ------------------------------------------------------------ the sheet


def page(terms: str = "UK", text: str = PATTERN, make: str = "") -> str:
    return " ".join(sheet(checked(text, make), terms, "text").split())


def test_the_sheet_says_the_yarn_of_each_size() -> None:
    told = page()
    assert "Yarn Small Large" in told
    assert "Rock 1 ball, 11 g, 22 m / 23 yd 1 ball, 22 g, 43 m / 46 yd" in told
    assert "from the swatch that was weighed" in told
    assert "the designer's figure" in told


def test_an_estimate_says_so_in_the_reader_s_words() -> None:
    text = PATTERN.replace(", weighs 10 g", "")
    assert "an estimate from the tension and published rates, which may be 20% off" in page(
        "UK", text
    )
    assert "an estimate from the gauge and published rates, which may be 20% off" in page(
        "US", text
    )


def test_the_sheet_says_what_is_in_the_kit() -> None:
    assert "In the kit ---------- rock: 25 g buttons: 2 (3) hook 4 mm: 1" in page()
    assert "In the kit" not in page("UK", PATTERN.replace("kit:", "# kit:"))


def test_the_sheet_says_the_time_where_a_pace_is_stated() -> None:
    assert "10 min to 20 min (20 min to 40 min) at 5 to 10 sts a minute" in page()
    assert "Working time" not in page("UK", PATTERN.replace("pace:", "# pace:"))


def test_the_sheet_says_how_many_are_made() -> None:
    assert "Square ------ Make 2. Worked flat in rows" in page(make=", make 2")
    assert "Make 2 (4). Worked" in page(make=", make 2 (4)")
    assert "Make" not in page(make=", make 1").split("Square ------")[1].split("Worked")[0]
    # twice 11 g, twice 22 g
    assert "Rock 1 ball, 22 g, 43 m / 46 yd 1 ball, 43 g" in page(make=", make 2")


def test_the_sheet_says_whose_measures_they_are() -> None:
    lines = PATTERN.splitlines()
    lines.insert(3, "measure head: who girls 6 months (adult woman)")
    at = next(at for at, line in enumerate(lines) if line.startswith("pace"))
    lines[at] = "count round: head, at plain sts"
    told = page("UK", "\n".join([*lines, "note: The head has {round} sts."]))
    assert "To fit head 42.2 cm / 16½ in 56 cm / 22 in" in told
    assert (
        "Head from WHO Child Growth Standards, head circumference for age: small (6 months, median "
        "of girls); from ANSUR II (2012, soldiers of 17 to 58 years): large (adult woman, median)."
    ) in told


# --------------------------------------------------------- the commands


def test_the_kit_of_the_example(loopwright: Loopwright) -> None:
    hat = str(HOUSE / "examples" / "foghorn-hat.crochet")
    answer = loopwright("kit", hat, "--bags", "24", "--margin", "5%")
    assert (answer.code, answer.err) == (0, "")
    assert "For 24 bags, with 5% more yarn:" in answer.out
    assert answer.out.count("short") == 0
    told = json.loads(loopwright("kit", hat, "--format", "json").out)
    assert told["sizes"] == ["baby", "toddler", "child", "woman", "man"]
    shale, mist = (one for one in told["items"] if one["what"] == "yarn")
    for size in told["sizes"]:
        # the two are held together all the way, so that the same length of each is taken
        assert shale["needed"][size]["metres"] == mist["needed"][size]["metres"]


@pytest.mark.parametrize(
    "wrong",
    [
        ("--bags", "0"),
        ("--bags", "x"),
        ("--margin", "ten"),
        ("--margin", "1e9"),
        ("--format", "pdf"),
    ],
)
def test_arguments_that_are_wrong(loopwright: Loopwright, wrong: tuple[str, str]) -> None:
    answer = loopwright("kit", "x.crochet", *wrong)
    assert (answer.code, answer.out) == (2, "")
    assert answer.err.startswith("loopwright kit: argument")


def test_a_pattern_with_faults_has_no_kit(loopwright: Loopwright) -> None:
    faulty = PATTERN.replace(", make MANY", "").replace("= 10 (20)", "= 11")
    answer = loopwright("kit", "-", given=faulty.encode())
    assert (answer.code, answer.out) == (1, "")
    assert "count-differs" in answer.err


def test_what_a_terminal_would_act_on_is_spelled_out(loopwright: Loopwright) -> None:
    odd = PATTERN.replace(", make MANY", "").replace("buttons", '"\x1b[31mbuttons"')
    assert "<U+001B>[31mbuttons" in loopwright("kit", "-", given=odd.encode()).out


def test_increases_spaced_anew_each_round_are_told_for_every_round() -> None:
    # round 2 is worked again and again, its 8 increases further apart each time
    made = check_text("hat", text_of(HOUSE / "examples" / "foghorn-hat.crochet")).checked
    assert made is not None
    told = " ".join(sheet(made, "UK", "text").split())
    assert (
        "Round 2: Ch 1, 1 htr in each st, increasing 8 evenly: 2 htr in each of next 8 sts, join. "
        "16 sts."
    ) in told
    # 16 to 24: every 2nd; 80 to 88, in the largest size only: every 10th
    assert "Round 3: [2 htr in next st, 1 htr in next st] 8 times." in told
    assert "Size man, round 11: [1 htr in each of next 4 sts, 2 htr in next st, 1 htr" in told


@pytest.mark.parametrize("path", [*EXAMPLES, *WORKED], ids=lambda path: path.stem)
def test_every_clean_pattern_has_a_bill(path: Path) -> None:
    made = check_text(path.name, text_of(path)).checked
    if made is None:
        assert path in WORKED
        return
    use = needed(made.pattern, made.fabrics)
    told = json.loads(kit(made, "json", 10))
    yarns = [one for one in told["items"] if one["what"] == "yarn"]
    assert len(yarns) == len({need.yarn for need in use.needs})
    assert set(told["sizes"]) == set(made.pattern.sizes)
    rows = list(csv.DictReader(kit(made, "csv", 10).splitlines()))
    assert len(rows) == len(told["items"]) * (len(told["sizes"]) + 2)
    assert kit(made, "text", 10) == kit(made, "text", 10)
    for need in use.needs:
        assert need.how
        for amount in (need.grams, need.metres):
            assert amount is None or 0 < amount.least <= amount.most


def test_the_kit_into_a_file(loopwright: Loopwright, tmp_path: Path) -> None:
    out = tmp_path / "kit.csv"
    text = PATTERN.replace(", make MANY", "").encode()
    assert loopwright("kit", "-", "--format", "csv", "-o", str(out), given=text).out == ""
    assert out.read_text("utf-8") == kit(checked(), "csv")


def test_the_measures_there_are(loopwright: Loopwright) -> None:
    answer = loopwright("measures", "head")
    assert (answer.code, answer.err) == (0, "")
    # who: 43.3393 and 42.2079 cm, half-way 42.8; ansur: 560 mm, 532 to 597
    assert "  who 6 months                42.8 cm" in answer.out
    assert "boys 43.3   girls 42.2" in answer.out
    assert "  adult woman                 56.0 cm   (53.2 to 59.7)" in answer.out
    assert "(source ansur)" in answer.out
    assert "foot" not in loopwright("measures", "hand").out.split("Write one")[0]
    assert "adult man ankle" in loopwright("measures").out


def test_every_measure_listed_can_be_written() -> None:
    for one in json.loads(measures("", "json")):
        text = f"measure some: {one['written']}\n"
        if one["part"] == "head" and one["written"].startswith("adult"):
            text = f"measure head: {one['written']}\n"
        result = check_text("listed", f"pattern: P\nterms: UK\n{text}")
        assert result.pattern is not None
        (measure,) = result.pattern.measures
        assert float(measure.lengths[0] / 10) == one["cm"]
