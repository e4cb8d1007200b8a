"""The chart of squares: its squares by hand, what has none, and what is drawn of it."""

from __future__ import annotations

import re
from itertools import chain
from xml.etree import ElementTree

import pytest

from loopwright.ir.checked import Checked
from loopwright.pipeline import check_text
from loopwright.render.chart.grid import Grid, grid, refusal, svg, text
from loopwright.render.chart.grid.repeats import period
from loopwright.source import Source
from support import EXAMPLES, text_of

SVG = "{http://www.w3.org/2000/svg}"
SAIL = next(path for path in EXAMPLES if path.stem == "sail-filet")

# Two rows of it are turned, so that a wrong-side row has its letters the other way round.
BEACON = """pattern: Beacon Mat
terms: UK
yarn slate: "wool", colour "dark grey"
yarn foam: "wool"
part mat: flat, yarn slate
start: ch 8
row 1: dc in 2nd ch from hook, dc in each ch across = 7 sts
row 2: ch 1, 2 dc, with foam, dc, with slate, 4 dc = 7 sts
row 3: ch 1, with foam, 3 dc, with slate, 4 dc = 7 sts
row 4: ch 1, dc in each st across = 7 sts
"""

SOLID = """pattern: Weir Net
terms: US
part net: flat
start: ch 12
row 1: skip 3 ch as dc, 9 dc = 10 sts
rows 2-4: ch 3 as dc, 9 dc = 10 sts
"""
GROWING = """pattern: Weir Net
terms: US
yarn slate: "wool"
yarn foam: "wool"
part net: flat, yarn slate
start: ch 9
row 1: sc in 2nd ch from hook, 7 sc = 8 sts
row 2: ch 1, 3 sc, with foam, sc inc, with slate, 4 sc = 9 sts
"""


def checked(text: str) -> Checked:
    result = check_text("example", text)
    assert result.checked is not None, result.diagnostics
    return result.checked


def picture(made: Grid | None, signs: str = ".#ox+") -> list[str]:
    """The squares as they lie on the page, the top row first."""
    assert made is not None
    width = max(line.right + len(line.squares) for line in made.lines)
    rows = []
    for line in made.lines:
        left = "".join(signs[square.kind] for square in line.leftwards)[::-1]
        rows.append((left + " " * line.right).rjust(width))
    return rows[::-1]


def test_filet_by_its_squares() -> None:
    # As the pattern says: a sail that grows by a square at each side and is taken in again.
    assert picture(grid(checked(text_of(SAIL)), "mat", 0)) == [
        "...........",
        ".....#.....",
        "....###....",
        "...#####...",
        "..#######..",
        ".#########.",
        "..#######..",
        "...#####...",
        "....###....",
        ".....#.....",
        "...........",
    ]


def test_filet_in_words() -> None:
    made = grid(checked(text_of(SAIL)), "mat", 0)
    assert made is not None
    lines = text(made, "US").split("\n")
    assert "open square: ch 2, 1 dc" in lines
    assert "filled square: 3 dc (double crochet)" in lines
    # 11 squares of 3 and the bar before the first.
    assert "1 dc stands before the first square of a row; 11 squares are 34 stitches wide." in lines
    assert lines[-5] == "Row 7, right side: 2 open, 7 filled, 2 open."
    assert lines[-10] == "Row 2, wrong side: 5 open, 1 filled, 5 open."


SHORT = """pattern: Weir Net
terms: US
part net: flat
start: ch 15
row 1: skip 3 ch as dc, 12 dc = 13 sts
row 2: ch 3 as dc, 3 dc, ch 2, skip 2 sts, 7 dc = 11 dc, 1 ch-2 sp
row 3: ch 3 as dc, 3 dc, ch 2, skip 2 sts, dc, leave the rest unworked = 5 dc, 1 ch-2 sp
row 4: ch 3 as dc, 2 dc in next ch-2 sp, dc, leave the rest unworked = 4 sts
"""


def test_rows_grow_shorter_where_they_do() -> None:
    # Row 2 goes left to right: filled, open, filled, filled. Row 3 begins over its right end and
    # leaves the two squares at the left; row 4 goes back from there and leaves one at the right.
    assert picture(grid(checked(SHORT), "net", 0)) == [
        "  # ",
        "  .#",
        "#.##",
        "####",
    ]


def test_colourwork_by_its_squares() -> None:
    made = grid(checked(BEACON), "mat", 0)
    # Row 2 is worked from left to right; row 3 from right to left.
    assert picture(made) == [
        ".......",
        "....###",
        "..#....",
        ".......",
    ]
    assert made is not None
    assert made.yarns == (("A", "slate", "wool, dark grey"), ("B", "foam", "wool"))
    lines = text(made, "UK").split("\n")
    assert "Row 2, wrong side: 2 slate, 1 foam, 4 slate." in lines
    assert "Row 3, right side: 3 foam, 4 slate." in lines
    assert "Each square is 1 dc (double crochet)." in lines


BAND = """pattern: Signal Band
terms: US
sizes: child (woman)
yarn slate: "wool"
yarn foam: "wool"
part band: in rounds, yarn slate
start: ch 40 (48), join into ring
round 1: ch 1, sc in each ch around, join
round 2: ch 1, [with foam, 3 sc, with slate, 5 sc] around, join
round 3: ch 1, [2 sc, with foam, sc, with slate, 5 sc] around, join
repeat round 2: 5 more times
"""


def test_columns_that_come_again_are_drawn_twice() -> None:
    made = grid(checked(BAND), "band", 0)
    assert made is not None
    assert made.again is not None
    assert (made.again.unit, made.again.times) == (8, (5, 6))
    assert picture(made)[-3:] == [".....#.......#..", ".....###.....###", "................"]
    words = text(made, "US")
    assert "Squares 1 to 8 are worked 5 (6) times in all, drawn twice." in words
    assert "Round 2, right side: (3 foam, 5 slate) 5 times." in words
    assert "Round 1, right side: 40 slate." in words
    assert "8 sts: work 5 (6) times in all" in svg(made, "US")


def test_rows_that_come_again_are_bracketed() -> None:
    made = grid(checked(BAND), "band", 1)
    assert made is not None
    # Round 2 is worked once, then 5 times more as rounds 4 to 8, of which two are drawn.
    assert [line.number for line in made.lines] == [1, 2, 3, 4, 5]
    assert [(one.rows, one.times) for one in made.over] == [(1, 5)]
    assert "this round: work" in svg(made, "US")
    assert "Rounds 4 to 8 are one round worked 5 times, drawn 2 times." in text(made, "US")


def test_a_whole_grid_leaves_nothing_out() -> None:
    made = grid(checked(BAND), "band", 1, whole=True)
    assert made is not None
    assert made.again is None
    assert made.over == ()
    assert (made.columns, len(made.lines)) == (48, 8)


def test_some_rows_alone() -> None:
    made = grid(checked(BAND), "band", 0, rows=(2, 7))
    assert made is not None
    assert [line.number for line in made.lines] == [2, 3, 4, 5, 6, 7]
    assert made.title.endswith(", rounds 2 to 7")
    assert grid(checked(text_of(SAIL)), "mat", 0, rows=(12, 14)) is None


PLAIN = [
    ("no colour within a row", BEACON.replace("with foam, ", "")),
    ("an increase", GROWING),
    ("no open square", SOLID),
]


@pytest.mark.parametrize("source", [one for _, one in PLAIN], ids=[name for name, _ in PLAIN])
def test_what_is_no_grid_is_said_to_be_none(source: str) -> None:
    found = checked(source)
    part = found.pattern.parts[0].name
    assert grid(found, part, 0) is None
    assert f"the part {part} has no chart of squares" in refusal(found, part, 0)


def test_filet_of_two_rows_is_refused_with_the_reason() -> None:
    """A row of open squares, and one with a filled square among them."""
    head = text_of(SAIL).split("part mat")[0]
    two = head + (
        "part mat: flat, yarn flax, hook main, gauge net\nstart: ch 17\n"
        "row 1: miss 5 ch as (tr, ch 2), miss 2 ch, tr, [ch 2, miss 2 ch, tr] 3 times\n"
        "row 2: ch 5 as (tr, ch 2), tr, window, plug, window\n"
    )
    found = checked(two)
    assert grid(found, "mat", 0) is None
    assert "on at least 3 rows one over the other" in refusal(found, "mat", 0)
    three = two + "row 3: ch 5 as (tr, ch 2), tr, block, 2 window\n"
    assert refusal(checked(three), "mat", 0) == ""


def test_only_filet_and_colourwork_of_the_examples_have_one() -> None:
    found = [
        (path.stem, part.name)
        for path in EXAMPLES
        for made in [checked(text_of(path))]
        for part in made.pattern.parts
        if grid(made, part.name, 0) is not None
    ]
    assert found == [("sail-filet", "mat"), ("signal-band", "band")]


def test_a_pattern_of_any_size_is_answered() -> None:
    wide = BAND.replace("ch 40 (48)", f"ch {8 * 10**11} (48)")
    assert grid(checked(wide), "band", 0) is None
    tall = BAND.replace("5 more times", f"{10**11} more times")
    made = grid(checked(tall), "band", 0)
    assert made is not None
    assert len(made.lines) < 10


# ------------------------------------------------------------------------------ the drawing


def drawn(
    made: Grid | None, terms: str = "UK", source: Source | None = None
) -> ElementTree.Element:
    assert made is not None
    return ElementTree.fromstring(svg(made, terms, source))


def test_numbers_stand_where_rows_begin_and_tens_are_bold() -> None:
    root = drawn(grid(checked(text_of(SAIL)), "mat", 0))
    figures = {
        (one.text, one.get("text-anchor")): (float(one.get("x", "")), one.get("font-weight"))
        for one in root.iter(f"{SVG}text")
        if (one.text or "").isdecimal()
    }
    squares = [one for one in root.iter(f"{SVG}g") if one.get("data-stitch")]
    side = [float(one.get("x", "")) for square in squares for one in square]
    # Right-side rows have their number at the right of all squares, the others at the left.
    assert figures["3", "start"][0] > max(side)
    assert figures["4", "end"][0] < min(side)
    assert figures["10", "end"][1] == "bold"
    assert figures["10", "middle"][1] == "bold"
    assert figures["9", "start"][1] is None


def test_every_square_says_where_it_comes_from_and_what_it_is() -> None:
    source = Source("beacon.crochet", BEACON)
    made = grid(checked(BEACON), "mat", 0)
    root = drawn(made, source=source)
    rows = [one for one in root.iter(f"{SVG}g") if one.get("data-row")]
    assert [one.get("data-row") for one in rows] == ["1", "2", "3", "4"]
    second = [one for one in rows[1] if one.get("data-name") == "foam"]
    # The third stitch of row 2, which is line 8 of the file.
    assert [(one.get("data-stitch"), one.get("data-line")) for one in second] == [("3", "8")]
    begin, end = (int(one) for one in second[0].get("data-span", "").split("-"))
    assert BEACON[begin:end] == "dc"


def test_a_yarn_is_told_without_colour() -> None:
    root = drawn(grid(checked(BEACON), "mat", 0))
    signs = {
        name: {
            child.tag
            for one in root.iter(f"{SVG}g")
            if one.get("data-name") == name
            for child in one
        }
        for name in ("slate", "foam")
    }
    assert signs == {"slate": {f"{SVG}rect"}, "foam": {f"{SVG}rect", f"{SVG}circle"}}


@pytest.mark.parametrize("source", [BEACON, BAND, SHORT, text_of(SAIL)])
@pytest.mark.parametrize("terms", ["UK", "US"])
def test_it_is_plain_svg_and_the_same_each_time(source: str, terms: str) -> None:
    found = checked(source)
    made = grid(found, found.pattern.parts[0].name, 0)
    assert made is not None
    one = svg(made, terms)
    assert one == svg(made, terms)
    root = ElementTree.fromstring(one)
    assert not {key for item in root.iter() for key in item.attrib} & {"style", "class", "href"}
    assert root.findtext(f"{SVG}desc") == text(made, terms)
    assert not re.search(r"\d\.\d{3,}", one)
    assert "Key" in [item.text for item in root.iter(f"{SVG}text")]


def test_the_key_has_only_what_is_used() -> None:
    made = grid(checked(text_of(SAIL)), "mat", 0, rows=(1, 1))
    assert made is not None
    words = [item.text or "" for item in drawn(made, "US").iter(f"{SVG}text")]
    assert "open square: ch 2, 1 dc" in words
    assert not any(word.startswith("filled square") for word in words)


# ---------------------------------------------------------------------------- blind reading


def read(words: str) -> list[list[str]]:
    """The squares of every row from its words alone, one by one in the order worked."""
    rows = []
    for line in words.split("\n"):
        if found := re.fullmatch(r"(?:Row|Round) [\d,]+, (?:right|wrong) side: (.+)\.", line):
            rows.append(list(_squares(found[1])))
    return rows


def _squares(words: str) -> list[str]:
    out: list[str] = []
    while words:
        if again := re.match(
            r"\(((?:[^()]|\([^()]*\) [\d,]+ times)*)\) ([\d,]+) times(?:, )?", words
        ):
            out += _squares(again[1]) * int(again[2].replace(",", ""))
        else:
            again = re.match(r"([\d,]+) ([^,()]+)(?:, )?", words)
            assert again, words
            out += [again[2]] * int(again[1].replace(",", ""))
        words = words[again.end() :]
    return out


def test_squares_read_blind_are_the_stitches_of_the_fabric() -> None:
    for source in (BEACON, BAND, *(text_of(path) for path in EXAMPLES)):
        found = checked(source)
        for size, fabric in enumerate(found.fabrics):
            for part in fabric.parts:
                made = grid(found, part.name, size, whole=True)
                if made is None or made.kind != "colour":
                    continue
                rows = chain.from_iterable(list(rows) * times for rows, times in part.rows)
                dyed = [
                    [one.yarn for one in row.made.expand() if one.what in ("st", "as")]
                    for row in rows
                ]
                assert read(text(made, "UK")) == dyed


def test_filet_read_blind_has_the_stitches_of_the_fabric() -> None:
    found = checked(text_of(SAIL))
    made = grid(found, "mat", 0)
    assert made is not None
    counted = [
        (sum(1 for place in row.edge.expand() if place.what == "st"), row.edge.length)
        for stretch, times in found.fabrics[0].parts[0].rows
        for row in list(stretch) * times
    ]
    rows = [
        (1 + sum(3 if one == "filled" else 1 for one in row), row.count("open"))
        for row in read(text(made, "UK"))
    ]
    assert [(stitches, stitches + spaces) for stitches, spaces in rows] == counted


@pytest.mark.parametrize(
    ("columns", "unit"), [("", 0), ("a", 0), ("aaaa", 1), ("abab", 2), ("ababa", 0), ("aabaab", 3)]
)
def test_the_least_length_that_comes_again(columns: str, unit: int) -> None:
    assert period(columns) == unit
