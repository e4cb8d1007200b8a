"""What an editor found on reading every sheet to its last line: a maker must not have to guess."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest

from loopwright.ir.checked import Checked
from loopwright.measure.dimensions import measures
from loopwright.measure.yarn import Between
from loopwright.pipeline import check_text
from loopwright.render.prose.needs import _between
from loopwright.render.prose.voice import voice
from loopwright.render.schematic import schematic
from loopwright.render.sizes import sizes
from loopwright.rendering import sheet
from support import EXAMPLES, text_of

HEAD = """pattern: Breakwater Cap
terms: UK
yarn slate: "wool", 50 g = 100 m
yarn foam: "wool", 50 g = 100 m
hook main: 4 mm
"""


def checked(text: str) -> Checked:
    result = check_text("editor", text)
    assert result.checked is not None, [one.text for one in result.diagnostics]
    return result.checked


def page(body: str, terms: str = "UK", head: str = HEAD) -> str:
    """The sheet on one line."""
    return " ".join(sheet(checked(head + body), terms, "text").split())


RING = "part cap: in rounds, yarn slate, hook main\nstart: ch 12, join into ring\n"


@pytest.mark.parametrize(
    ("round_", "join"),
    [
        # Past the uncounted chain stands a loop: a join into the first st would leave it out.
        ("ch 2, opening thumb over 4 sts, 8 tr, join", "join with sl st in 1st ch of ch-4."),
        ("[ch 3, miss 1 st, dc] around, join", "join with sl st in 1st ch of ch-3."),
        ("ch 4 as (tr, ch 1), miss 1 st, [tr, ch 1, miss 1 st] around, join", "3rd ch of ch-4."),
        ("ch 3 as tr, 11 tr, join", "11 sts, join."),
        ("ch 2, 12 tr, join", "12 sts, join."),
    ],
)
def test_a_round_that_begins_with_a_loop_is_joined_into_it(round_: str, join: str) -> None:
    told = page(f"{RING}round 1: ch 1, dc in each ch around, join\nround 2: {round_}\n")
    assert join in re.search(r"Round 2: (.*?\.) \d", told)[1]  # type: ignore[index]


@pytest.mark.parametrize(("terms", "missed"), [("UK", "missed"), ("US", "skipped")])
def test_a_join_into_chains_missed_at_the_hook_says_which(terms: str, missed: str) -> None:
    """Of 4 chains from the hook on the first is the space, and the top of the stitch the second."""
    told = page(
        "part cap: in rounds, yarn slate, hook main\nstart: ch 5\n"
        "round 1: miss 4 ch as (tr, ch 1), (tr, ch 1) in next ch, join\n",
        terms,
    )
    assert f"join with sl st in 2nd {missed} ch from hook." in told


def test_yarn_is_joined_for_an_opening() -> None:
    thumb = "part thumb: in rounds, yarn slate, hook main\nstart: around thumb\n"
    told = page(
        f"{RING}round 1: ch 1, opening thumb over 4 sts with ch 4, dc in each ch around, join\n"
        f"{thumb}round 1: ch 1, [dc] around, join\n"
    )
    assert "Start: Join the yarn and work around the thumb opening (first its missed" in told


def test_how_to_change_yarn_is_said_once_where_yarn_is_changed() -> None:
    rows = (
        "row 1: dc in 2nd ch from hook, dc in each ch across\nrow 2: ch 1, dc in each st across\n"
    )
    flat = (
        "part cap: flat, yarn slate, hook main\nstart: ch 9\n"
        f"stripes: 1 row slate, 1 row foam\n{rows}"
    )
    said = "To change yarn, draw the last loop of the st before through in the new yarn."
    assert page(flat).count(said) == 1
    assert "To change yarn" not in page(flat.replace("1 row foam", "1 row slate"))
    at_join = page(f"{RING}round 1: ch 1, [dc, with foam, dc, with slate] around, join\n")
    assert "the last loop of the st before, or of the join, through in the new" in at_join


def test_the_top_of_a_chain_that_is_a_stitch_and_a_space_is_told() -> None:
    told = page(
        "part net: flat, yarn slate, hook main\nstart: ch 14\n"
        "row 1: miss 5 ch as (tr, ch 2), miss 2 ch, tr, [ch 2, miss 2 ch, tr] 2 times\n"
        "row 2: ch 5 as (tr, ch 2), [tr, ch 2] 2 times, tr in top of ch-5\n"
    )
    assert "Miss first 5 ch (count as 1 tr and 2 ch), miss next 2 ch" in told
    assert (
        "its top is the last st of the next row: work into it. The top of ch-5 is its 3rd" in told
    )


def test_a_row_worked_backwards_says_which_way() -> None:
    told = page(f"{RING}round 1: ch 1, [crab dc] around, join\n")
    assert (
        "crab dc: reverse double crochet (crab stitch), worked backwards, from left to right (with "
        "the hook in the left hand, from right to left)" in told
    )


def test_rounds_spread_otherwise_each_time_say_so() -> None:
    told = page(
        "part cap: in rounds, yarn slate, hook main\nstart: magic ring\nround 1: ch 1, 6 dc in "
        "ring, join\nround 2: ch 1, inc 6 dc evenly, join\nrepeat round 2: until 24 sts\n"
    )
    assert "(another 2 times, 4 rounds in all). Space the stitches as below. 24 sts. Round 3:" in (
        told
    )


def test_no_increases_are_not_told_as_none() -> None:
    told = page(
        f"{RING}round 1: ch 1, dc in each ch around, join\nround 2: ch 1, inc 0 dc evenly, join\n"
    )
    assert "Round 2: Ch 1, 1 dc in each of next 12 sts, join. 12 sts." in told


@pytest.mark.parametrize(
    ("sizes", "said"),
    [
        ("small (large)", "with the other in brackets; one number alone is for both."),
        ("small (middle, large)", "with the other sizes in brackets in the same order; one number"),
    ],
)
def test_two_sizes_have_one_other(sizes: str, said: str) -> None:
    head = HEAD.replace("terms: UK\n", f"terms: UK\nsizes: {sizes}\n")
    assert said in page(f"{RING}round 1: ch 1, [dc] around, join\n", head=head)


def test_less_than_a_gram_is_no_nought() -> None:
    assert _between(Between(Fraction(1, 3), Fraction(3, 2)), voice("UK")) == "up to 2"


def test_what_is_drawn_shut_has_no_size_there() -> None:
    gauge = "gauge plain: 10 sts and 10 rounds to 10 cm in dc, hook main\n"
    ring = RING.replace("hook main\n", "hook main, gauge plain\n")
    rounds = "round 1: ch 1, dc in each ch around, join\nround 2: ch 1, [dc dec] around, join\n"
    assert "Cap, around at the end" in page(f"{gauge}{ring}{rounds}")
    shut = page(f"{gauge}{ring}{rounds}gather: last round\n")
    assert "Cap, around at the start" in shut
    assert "around at the end" not in shut


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_no_line_of_plain_text_parts_a_number_from_its_unit_or_its_sizes(path: object) -> None:
    told = sheet(checked(text_of(path)), "UK", "text")  # type: ignore[arg-type]
    assert not re.findall(r"[\d½¼¾)]\n +(?:cm|mm|in|g|m|yd|sts?|times|balls?)\b.*", told)
    assert not re.findall(r".*\d\n +\(\d[\d, ]*\) .*", told)
    assert not re.findall(r".*\(\d+,\n +\d.*", told)


@pytest.mark.parametrize(
    ("round_", "begins"),
    [
        (
            "ch 2, opening thumb over 4 sts, 8 tr, join",
            "Ch 2 (does not count as a st), ch 4, miss next 4 sts",
        ),
        ("ch 1, [ch 3, miss 1 st, dc] around, join", "Ch 1 (does not count as a st), [ch 3, miss"),
        ("ch 3 as tr, ch 2, miss 1 st, 10 tr, join", "Ch 3 (counts as 1 tr), ch 2, miss next st"),
        ("ch 2, 12 tr, join", "Ch 2, 1 tr in each of next 12 sts"),
    ],
)
def test_of_two_chains_one_after_the_other_each_is_known(round_: str, begins: str) -> None:
    told = page(f"{RING}round 1: ch 1, dc in each ch around, join\nround 2: {round_}\n")
    assert f"Round 2: {begins}" in told


# 36 sts at 20 to 10 cm are 18 cm, 6 sts 3 cm; 8 rounds at 20 to 10 cm are 4 cm.
BALL = """gauge firm: 20 sts and 20 rounds to 10 cm in dc, hook main, yarn slate
part ball: in a spiral, yarn slate, hook main, gauge firm, shaped
start: magic ring
{stated}
round 1: 6 dc in ring = 6 sts
rounds 2-6 as r: [{{r - 2}} dc, dc inc] 6 times = {{6 * r}} sts
round 7: [dc2tog] around = 18 sts
round 8: [tr3tog] around = 6 sts
{last}
"""


@pytest.mark.parametrize(
    ("stated", "told"),
    [
        ("comes out at: 18 cm around", ["Ball, around at the widest"]),
        ("comes out at: 180 mm around", ["Ball, around at the widest"]),
        ("comes out at: 17 cm around", ["Finished ball, around", "Ball, around at the widest"]),
    ],
)
def test_a_size_is_stated_once(stated: str, told: list[str]) -> None:
    text = sheet(
        checked(HEAD + BALL.format(stated=stated, last="gather: last round")), "UK", "text"
    )
    lines = [
        line.partition("  ")[0] for line in text.split("\n") if "around" in line and " cm" in line
    ]
    assert lines == told
    assert "comes out at" not in text


def test_a_size_that_no_gauge_tells_is_stated_once() -> None:
    body = BALL.format(stated="comes out at: 18 cm around", last="")
    told = page(body.split("\n", 1)[1].replace(", gauge firm", ""))
    assert told.count("18 cm") == 1
    assert "Finished ball, around 18 cm" in told


@pytest.mark.parametrize("last", ["gather: last round", ""])
def test_what_is_drawn_shut_is_not_so_wide_anywhere(last: str) -> None:
    made = checked(HEAD + BALL.format(stated="", last=last))
    (part,) = measures(made)
    for told in (sheet(made, "UK", "text"), schematic(made, part, "UK"), sizes(made, "UK", "text")):
        assert ("around at the end" in told) is (not last)


@pytest.mark.parametrize(
    ("first", "said"),
    [
        (
            "tr in 4th ch from hook",
            "1 tr in 4th ch from hook (the 3 missed ch do not count as a st),",
        ),
        (
            "tr in 5th ch from hook",
            "1 tr in 5th ch from hook (the 4 missed ch do not count as a st),",
        ),
        (
            "htr in 3rd ch from hook",
            "1 htr in 3rd ch from hook (the 2 missed ch do not count as a st),",
        ),
        ("tr in 3rd ch from hook", "1 tr in 3rd ch from hook,"),
        ("htr in 2nd ch from hook", "1 htr in 2nd ch from hook,"),
        ("dc in 3rd ch from hook", "1 dc in 3rd ch from hook,"),
        ("skip 3 ch as tr, tr in next ch", "Miss first 3 ch (count as 1 tr), 1 tr in"),
    ],
)
def test_chains_missed_at_the_hook_that_look_like_a_stitch(first: str, said: str) -> None:
    told = sheet(
        checked(
            "pattern: Piece\nterms: UK\npart piece: flat\nstart: ch 12\n"
            f"row 1: {first}, tr in each ch across\n"
        ),
        "UK",
        "text",
    )
    assert said in " ".join(told.split())


def test_a_chain_that_is_worked_into_is_not_forbidden() -> None:
    corner = (
        "pattern: Cloth\nterms: UK\npart cloth: flat\nstart: ch 6\n"
        "row 1: tr in 4th ch from hook, tr in each of next 2 ch = 3 tr\n"
        "row 2: ch 6, tr in 4th ch from hook, tr in each of next 2 ch, sl st in next ch-3 sp,\n"
        "    ch 3, 3 tr in same sp\n"
    )
    assert "work nothing into it" not in sheet(checked(corner), "UK", "text")


@pytest.mark.parametrize(
    ("yarns", "said"),
    [
        ("coal + coal", "Yarn: 2 strands of coal held together."),
        ("coal + silt", "Yarn: coal and silt held together."),
        ("coal + coal + silt", "Yarn: 2 strands of coal and silt held together."),
        ("coal", "Yarn: coal."),
    ],
)
def test_a_yarn_that_is_held_double_is_one_yarn(yarns: str, said: str) -> None:
    balls = "".join(f'yarn {name}: "DK wool"\n' for name in ("coal", "silt") if name in yarns)
    part = RING.replace("yarn slate", f"yarn {yarns}")
    told = page(f"{balls}{part}round 1: ch 1, dc in each ch around, join\n")
    assert said in told


def test_foundation_stitches_are_a_row_that_no_number_counts() -> None:
    # One row of foundation stitches, round 1, and round 1 three times again: 5 rounds.
    told = page(
        "part band: in rounds\nstart: 20 foundation htr\n"
        "round 1: ch 1, [htr] around, join = 20 sts\nrepeat round 1: until 5 rounds\n"
    )
    assert "Start: 20 foundation htr, join into a ring with sl st." in told
    assert "until there are 5 rounds in all with the foundation (another 3 times)" in told
    flat = page(
        "part band: flat\nstart: 20 foundation htr\n"
        "row 1: ch 1, htr in each st across = 20 sts\nrepeat row 1: 3 more times\n"
    )
    assert "Start: 20 foundation htr. Row 1" in flat
    assert "another 3 times: 5 rows in all with the foundation" in flat
