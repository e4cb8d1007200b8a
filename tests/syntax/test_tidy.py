"""The formatter: pairs written by hand, and what must hold of any text.

Whatever a file says, tidying it changes white space and nothing else, every line reads as before,
and a tidy file is left as it is.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from loopwright.lower import lower
from loopwright.syntax.lines import Line, read_lines
from loopwright.syntax.tidy import tidy
from loopwright.syntax.tree import Node

SPACING = [
    ("pattern:Limpet Coaster", "pattern: Limpet Coaster"),
    ("terms   :  UK  ", "terms: UK"),
    ("round 1 :6 sc in ring=6 sts", "round 1: 6 sc in ring = 6 sts"),
    ("row 2: ch 1 ,dc blo in each st across", "row 2: ch 1, dc blo in each st across"),
    ("count body:palm+1cm,at hand sts", "count body: palm + 1 cm, at hand sts"),
    ("count mesh: wrap*2,multiple of 4 plus 1", "count mesh: wrap * 2, multiple of 4 plus 1"),
    ("start: ch 12(14,16)", "start: ch 12 (14, 16)"),
    ("start: ch 12  ( 14 , 16 )", "start: ch 12 (14, 16)"),
    ("sizes:child( woman,man )", "sizes: child (woman, man)"),
    ("sizes: 3 to 6( 12y )", "sizes: 3 to 6 (12y)"),
    ("measure palm: 15(18,21)cm", "measure palm: 15 (18, 21) cm"),
    ('yarn slate:"DK  wool",50g=110m,weight 3', 'yarn slate: "DK wool", 50 g = 110 m, weight 3'),
    ('yarn slate: "a # b"', 'yarn slate: "a # b"'),
    ('picture:front.jpg"a mitten"', 'picture: front.jpg "a mitten"'),
    ("rows 2 - 9 as r: [{r-2} sc,sc inc] 6 times", "rows 2-9 as r: [{r - 2} sc, sc inc] 6 times"),
    ("rows 5,9  and 13:tr", "rows 5, 9 and 13: tr"),
    ("row 3( RS ):tr", "row 3 (RS): tr"),
    ("round 9(small,large only):tr", "round 9 (small, large only): tr"),
    ("rounds 13 - 17:as rounds 3 - 7", "rounds 13-17: as rounds 3-7"),
    ("repeat rows 2 - 5:4 more times", "repeat rows 2-5: 4 more times"),
    ("repeat last 2 rows:until 20cm", "repeat last 2 rows: until 20 cm"),
    ("round 2: [ 3 tr,fptr ] around", "round 2: [3 tr, fptr] around"),
    ("round 2: [dc,ch 2**3 tr] 6 times", "round 2: [dc, ch 2 ** 3 tr] 6 times"),
    ("row 1: ( 2 tr,ch 1,2 tr )in next st", "row 1: (2 tr, ch 1, 2 tr) in next st"),
    ("row 1: [tog (tr,fptr)] around", "row 1: [tog(tr, fptr)] around"),
    ("row 1: 2 tog( tr,fptr )", "row 1: 2 tog(tr, fptr)"),
    ("row 1: ch 4 as(tr,ch 1)", "row 1: ch 4 as (tr, ch 1)"),
    ("row 1: 3tr in next ch-2 sp,5-tr cluster", "row 1: 3 tr in next ch-2 sp, 5-tr cluster"),
    ("row 1: with slate+foam,2 tr", "row 1: with slate + foam, 2 tr"),
    ("round 1: {6*2^r}tr", "round 1: {6 * 2 ^ r} tr"),
    ("round 1: {2*( r+1 )-3}tr", "round 1: {2 * (r + 1) - 3} tr"),
    ("round 1: { - 2+r } tr", "round 1: {-2 + r} tr"),
    ("round 1: {r- -2} tr", "round 1: {r - -2} tr"),
    ("round 1: {long-edge-2} tr", "round 1: {long-edge - 2} tr"),
    ('row 1: tr=9 tr,8 ch-2 sps"a remark"', 'row 1: tr = 9 tr, 8 ch-2 sps "a remark"'),
    ("comes out at:54cm around,20cm high", "comes out at: 54 cm around, 20 cm high"),
    ("seam:last row to start,sl st blo", "seam: last row to start, sl st blo"),
    (
        "measure head:who  6 months( 48cm,adult woman )",
        "measure head: who 6 months (48 cm, adult woman)",
    ),
    ("allowance:12.5 %", "allowance: 12.5%"),
    (
        'kit:2balls slate,50( 60 )g foam price 3,"a  card",margin 10 %',
        'kit: 2 balls slate, 50 (60) g foam price 3, "a card", margin 10%',
    ),
    ("pace:18  to 25 sts a minute", "pace: 18 to 25 sts a minute"),
    ("part cuff:flat,make 2( 4 )", "part cuff: flat, make 2 (4)"),
]


@pytest.mark.parametrize(("before", "after"), SPACING)
def test_spacing(before: str, after: str) -> None:
    assert tidy(before) == after + "\n"


FREE_TEXT = [
    "note: Turn , then go on: {ribs} rows ( see above ) .",
    "about: 3-6 m,size {palm+1}",
    "finish: Use #4 yarn",
]


def test_free_text_is_kept_word_for_word() -> None:
    assert tidy("note:Turn , then  go on:\n  {ribs} rows ( see above ) .\n") == (
        "note: Turn , then go on: {ribs} rows ( see above ) .\n"
    )
    assert tidy("about:3-6 m,size  {palm+1}\n") == "about: 3-6 m,size {palm+1}\n"
    assert tidy("finish:Use   #4 yarn\n") == "finish: Use #4 yarn\n"


def test_a_line_that_is_not_understood_is_left_exactly_as_it_is() -> None:
    odd = "row 1:  tr ,,  dc  \n\n   and  so ( on\t\n"
    assert tidy("round 1:6 sc in ring\n" + odd + "row 2:tr\n") == (
        "round 1: 6 sc in ring\n" + odd + "row 2: tr\n"
    )
    assert tidy("Materials ,  hook\n") == "Materials ,  hook\n"
    assert tidy('yarn slate: "no  end\n') == 'yarn slate: "no  end\n'


def test_short_continued_lines_are_joined() -> None:
    assert tidy("row 1: ch 3,\n      2 tr,\n\tdc\n") == "row 1: ch 3, 2 tr, dc\n"
    assert tidy("row 1: ch 3\n\n  , 2 tr\n") == "row 1: ch 3, 2 tr\n"


def test_a_long_line_is_broken_after_outer_commas_first() -> None:
    # 43 columns to "sts,", 57 more to "around,": exactly 100
    before = (
        "next round: ch 2, opening thumb over 4 sts, [tr in each of next 3 tr, fptr around next "
        "fptr] around, join = {body - 4} sts, 1 ch-4 sp\n"
    )
    assert tidy(before) == (
        "next round: ch 2, opening thumb over 4 sts, [tr in each of next 3 tr, fptr around next "
        "fptr] around,\n    join = {body - 4} sts, 1 ch-4 sp\n"
    )
    assert tidy(before.replace("ch 2, opening", "ch 20, opening")) == (
        "next round: ch 20, opening thumb over 4 sts,\n"
        "    [tr in each of next 3 tr, fptr around next fptr] around, join = {body - 4} sts, "
        "1 ch-4 sp\n"
    )


def test_a_bracket_longer_than_a_line_is_broken_inside() -> None:
    inside = ", ".join(["tr in each of next 3 tr"] * 6)
    assert tidy(f"row 1: ch 2, [{inside}] around\n") == (
        "row 1: ch 2, [tr in each of next 3 tr, tr in each of next 3 tr, tr in each of next 3 tr,\n"
        "    tr in each of next 3 tr, tr in each of next 3 tr, tr in each of next 3 tr] around\n"
    )


def test_exactly_a_hundred_columns_stay_on_one_line() -> None:
    line = "row 1: " + "tr, " * 22 + "tr2tog"  # 7 + 88 + 6 = 101
    assert len(line) == 101
    assert tidy(line) == "row 1: " + "tr, " * 21 + "tr,\n    tr2tog\n"
    assert tidy(line[:-4]) == line[:-4] + "\n"


def test_sizes_are_not_parted_while_an_outer_comma_will_do() -> None:
    before = "row 1: " + "tr, " * 20 + "100 (200, 300) tr, dc\n"
    assert tidy(before) == "row 1: " + "tr, " * 19 + "tr,\n    100 (200, 300) tr, dc\n"


def test_a_string_is_never_broken() -> None:
    remark = '"' + "one, two " * 12 + 'end"'
    assert tidy(f"row 1: ch 1, 3 dc = 3 sts {remark}\n") == (
        f"row 1: ch 1, 3 dc = 3 sts\n    {remark}\n"
    )


def test_without_commas_a_long_start_is_broken_before_then() -> None:
    # 66 columns before the second `then`, 104 in all
    edges = "along row ends of leftside then along row ends of rightside"
    assert tidy(f"start: {edges} then along other row ends of leftside\n") == (
        f"start: {edges}\n    then along other row ends of leftside\n"
    )


def test_long_free_text_is_filled_and_its_braces_kept_whole() -> None:
    before = "note: " + "word " * 18 + "{a + b} end\n"  # 6 + 90 + 3 = 99 before the braces end
    assert tidy(before) == "note: " + ("word " * 18).strip() + "\n    {a + b} end\n"


def test_blank_lines() -> None:
    before = (
        "\n\n# a heading\n\n\n\npattern: Cowl\nterms: UK\n\n\nhook small: 4 mm\n"
        "part one: flat\nstart: ch 3\n\n\n\npart two: flat\nstart: ch 3\n"
        "# about three\n# more\npart three: flat\nstart: ch 3\n\n\n\n"
    )
    assert tidy(before) == (
        "# a heading\n\npattern: Cowl\nterms: UK\n\nhook small: 4 mm\n"
        "\npart one: flat\nstart: ch 3\n\npart two: flat\nstart: ch 3\n"
        "\n# about three\n# more\npart three: flat\nstart: ch 3\n"
    )


def test_a_comment_set_off_from_a_part_stays_set_off() -> None:
    assert tidy("row 1: tr\n# end\n\npart b: flat\n") == "row 1: tr\n# end\n\npart b: flat\n"


def test_nothing_at_all() -> None:
    assert tidy("") == ""
    assert tidy(" \n\t\n\n") == ""


def test_line_ends() -> None:
    assert tidy("pattern: Cowl\r\nterms:UK\r\r\n\r\nrow 1:  tr\r") == (
        "pattern: Cowl\nterms: UK\n\nrow 1: tr\n"
    )


COMMENTS = [
    # trailing, on its logical line
    ("row 1:tr # here \n", "row 1: tr  # here\n"),
    ("row 1: tr,\n  dc   # here\nrow 2: tr\n", "row 1: tr, dc  # here\nrow 2: tr\n"),
    # inside a continued line: nothing lost, nothing swallowed
    ("row 1: tr, # one\n dc,\n # two\n  tr\n", "row 1: tr,  # one\n    dc,\n    # two\n    tr\n"),
    ("row 1: [tr # one\n  ] around\n", "row 1: [tr  # one\n    ] around\n"),
    # lines of their own: at the margin or in the line, as written
    ("row 1: tr,\n# margin\n  dc\n", "row 1: tr,\n# margin\n    dc\n"),
    ("row 1: tr\n\n\n  # under\nrow 2: tr\n", "row 1: tr\n\n    # under\nrow 2: tr\n"),
    ("#margin  \nrow 1: tr\n", "#margin\nrow 1: tr\n"),
    # a comment is not counted among the columns, and is not filled
    (
        "row 1: ch 2, 3 tr  # " + "long " * 20 + "\n",
        "row 1: ch 2, 3 tr  # " + ("long " * 20).strip() + "\n",
    ),
    # in free text
    ("note:one # c\n two\n", "note: one  # c\n    two\n"),
    ("note:# c\n two #3 # d\n", "note:  # c\n    two #3  # d\n"),
    ("note: one\n  # c: d\n  two\n", "note: one\n    # c: d\n    two\n"),
    # no comment: no space before it, or within a string
    ("note: one#two\n", "note: one#two\n"),
    ("row 1: tr  # allow count-differs: known\n", "row 1: tr  # allow count-differs: known\n"),
]


@pytest.mark.parametrize(("before", "after"), COMMENTS)
def test_comments(before: str, after: str) -> None:
    assert tidy(before) == after


# ------------------------------------------------------------------ what holds of any text
UNDERSTOOD = [
    *(after for _, after in SPACING),
    *FREE_TEXT,
    "gauge hand: 17 sts and 9 rounds to 10 cm in tr, hook large, yarn slate, weighs 4.1 g",
    "stitch mussel: (3 tr, ch 1, 3 tr) in next st, height tr",
    "part hand: in rounds, yarn slate, hook large, gauge hand",
    "start: over next 12 sts of last round of hat",
    "stripes: 2 rows slate, 4 rows foam",
    "gather: last round",
    "row 4: dc in 2nd ch from hook, tr in 3rd ch of next ch-5 sp, fptr around each of next 2 sts",
    "row 5: skip 3 ch as tr, [tr] to last 3 sts, miss next ch-1 sp, leave the rest unworked",
    "round 6: move to next ch-2 sp, ch 3 as tr, " + "2 tr in each of next 2 sts, " * 5 + "join",
    "repeat round 3: until 5 (6, 7) cm = 38 (40, 42) sts",
]


def shape(tree: object) -> object:
    """A tree as rule names and words, with the white space in strings folded."""
    if isinstance(tree, Node):
        return tree.rule, [shape(child) for child in tree.children]
    return " ".join(str(tree).split())


def reading(line: Line) -> object:
    """All that a line says."""
    if line.misread:
        return line.text
    return line.label, shape(line.tree), line.content.split(), [one[:2] for one in line.allowed]


def readings(text: str) -> list[object]:
    ended = re.sub(r"\r+\n", "\n", text).replace("\r", "\n")
    return [reading(line) for line in read_lines(ended)]


def bare(text: str) -> str:
    return "".join(text.split())


def holds(text: str) -> str:
    """What must hold of any text; its tidy form."""
    after = tidy(text)
    assert bare(after) == bare(text)
    assert readings(after) == readings(text)
    assert tidy(after) == after
    assert not after or after[-1] == "\n" != after[0]
    return after


def words_of(line: str) -> list[str]:
    """The line cut wherever white space may stand."""
    (read,) = read_lines(line)
    assert read.misread is None, line
    if read.tree is None:
        return [read.label, ":", *read.content.split()]
    cuts, left = [], [read.tree]
    while left:
        one = left.pop()
        if isinstance(one, Node):
            left.extend(reversed(one.children))
        else:
            cuts.append(str(one))
    return cuts


WORDS = {line: words_of(line) for line in UNDERSTOOD}
white = st.sampled_from(["", "", " ", "  ", "\t", "\n  ", "\r\n ", "\n\n\t", "\f "])
wide = white.filter(bool)
note = st.text(st.characters(exclude_characters="\n\r"), max_size=8)
margin = st.sampled_from(["\n", "\n\n\n", "\r\n", "\n# note\n", "\n\n#7\n\n"])


@st.composite
def spaced(draw: st.DrawFn, commented: bool) -> tuple[str, str]:
    """A pattern of lines that are understood, with other white space between the same words."""
    lines = draw(st.lists(st.sampled_from(UNDERSTOOD), min_size=1, max_size=4))
    out = []
    for line in lines:
        free = line.startswith(("pattern", "terms", "note", "about", "finish"))
        left = line
        for n, word in enumerate(WORDS[line]):
            apart = left != left.lstrip()
            left = left.lstrip()[len(word) :]
            if n and (apart or not free):
                out.append(draw(wide if apart else white))
                if commented and out[-1] and not draw(st.integers(0, 5)):
                    out.append(" #" + "x" + draw(note) + "\n  ")
            out.append(word)
        out.append(draw(margin) if commented else "\n")
    return "".join(out), "".join(line + "\n" for line in lines)


@given(spaced(commented=False))
@settings(max_examples=150, deadline=None)
def test_the_same_words_have_one_layout(case: tuple[str, str]) -> None:
    before, written = case
    assert tidy(before) == tidy(written)
    assert holds(before)


@given(spaced(commented=True))
@settings(max_examples=150, deadline=None)
def test_comments_stay_and_swallow_nothing(case: tuple[str, str]) -> None:
    before, written = case
    holds(before)
    trees = [shape(line.tree) for line in read_lines(tidy(before))]
    assert trees == [shape(line.tree) for line in read_lines(written)]


bits = st.sampled_from([
    "row 1:", "note:", "part x: flat", "terms:", "tr", "ch-2 sp", "12", "(", ")", "[", "]", "{",
    "}", "r", "-", "+", "*", "^", "=", ",", ":", '"', "#", "# n", "#4", " ", "  ", "\n", "\n ",
    "\r", "\n\n", "\t", "\x0b", "\x1f", "\xa0", "\u2028", "\x85", "é", "around", "2nd",
])  # fmt: skip


@given(st.lists(bits, max_size=40).map("".join))
@settings(max_examples=400, deadline=None)
def test_any_text_of_our_words(text: str) -> None:
    holds(text.replace("\r", "\r\n"))
    holds(text)


@given(st.text(max_size=200))
@settings(max_examples=200, deadline=None)
def test_any_text(text: str) -> None:
    after = tidy(text)
    assert bare(after) == bare(text)
    assert tidy(after) == after


def test_sums_and_brackets_of_any_depth() -> None:
    long_sum = "row 1: {" + "+".join("r" * 1500) + "} tr"
    assert tidy(long_sum) == "row 1: {" + " + ".join("r" * 1500) + "} tr\n"
    deep = "row 1:" + "[" * 500 + "tr" + "]" * 500 + "\n"
    assert tidy(deep) == deep


WORKED = sorted((Path(__file__).parents[1] / "worked").glob("*.crochet"))


def test_there_are_published_patterns_to_try() -> None:
    assert len(WORKED) > 30


@pytest.mark.parametrize("path", WORKED, ids=lambda path: path.stem)
def test_published_patterns_mean_the_same(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    after = holds(text)
    assert lower(read_lines(after)).pattern == lower(read_lines(text)).pattern
    for row in after.splitlines():
        words = row.split("  #")[0]
        assert len(words) <= 100 or words.strip()[0] in '"#', row  # a string is never broken
