"""Prose: every kind of line in words. What is expected is written out by hand.

Patterns are lowered from the notation; what the work would have found (how often a bracket was
worked, what stitches went into) is put in by hand, so that these tests stand on the prose alone.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction
from typing import get_args

import pytest

from loopwright.ir.checked import Checked
from loopwright.ir.fabric import Fabric, LineResult, Made, WorkedPart, WorkedRow
from loopwright.ir.items import ANY_STITCH, Item
from loopwright.ir.pattern import Pattern
from loopwright.ir.runs import Runs, runs_of
from loopwright.lower import lower
from loopwright.pipeline import check_text
from loopwright.render.prose import Document, Entries, Paragraph, Section, Step, Steps, prose
from loopwright.render.prose.items import SAY
from loopwright.render.prose.lengths import both, quarters
from loopwright.render.prose.texts import per_size
from loopwright.render.prose.voice import voice
from loopwright.render.prose.words import across, many, plain
from loopwright.source import Span
from loopwright.syntax.lines import read_lines

Times = Mapping[str, tuple[int, ...]]


def lowered(text: str) -> Pattern:
    made = lower(read_lines(text), len(text))
    assert made.pattern is not None, made.diagnostics
    assert made.whole, made.diagnostics
    return made.pattern


def checked(
    text: str,
    times: Times | None = None,
    into: Mapping[str, str] | None = None,
    lines: Mapping[int, tuple[tuple[int, int, int], ...]] | None = None,
    spreads: Mapping[str, tuple[Runs[int], ...]] | None = None,
    turning: bool = False,
) -> Checked:
    """A pattern of one part with what the work would have found.

    ``times``, ``into`` and ``spreads`` are keyed by the text of the item; ``lines`` gives for a
    line (rows worked, rows after it, stitches) in each size.
    """
    pattern = lowered(text)
    fabrics = []
    for size in range(len(pattern.sizes)):
        spans = [at(text, words) for words in (into or {})]
        made = [Made("st", into=what, item=n) for n, what in enumerate((into or {}).values())]
        if turning:
            made.append(Made("turn", chains=1, item=len(spans)))
            spans.append(Span(0, 0))
        row = WorkedRow(
            0, "row 1", 1, False, runs_of(made), Runs(()), Runs(()), (), False, False,
            spans=tuple(spans),
            repeats=tuple((at(text, words), found[size]) for words, found in (times or {}).items()),
            spreads=tuple((at(text, words), runs[size]) for words, runs in (spreads or {}).items()),
        )  # fmt: skip
        results = tuple(
            LineResult(line, "", ((ANY_STITCH, found[size][2]),), None, *found[size][:2])
            for line, found in (lines or {}).items()
        )
        parts = tuple(_part(part.name, row, results) for part in pattern.parts)
        fabrics.append(Fabric(size, parts, (), 0, 0))
    return Checked(pattern, tuple(fabrics))


def _part(name: str, row: WorkedRow, results: tuple[LineResult, ...]) -> WorkedPart:
    empty = Runs(())
    return WorkedPart(
        name, empty, False, False, (((row,), 1),), results, empty, 1, empty, empty
    )  # fmt: skip


def at(text: str, words: str) -> Span:
    start = text.index(words)
    return Span(start, start + len(words))


def steps_of(document: Document) -> list[Step]:
    return [
        step
        for section in document.sections
        for block in section.blocks
        if isinstance(block, Steps)
        for step in block.steps
    ]


def paragraphs(document: Document) -> list[str]:
    return [
        block.text
        for section in document.sections
        for block in section.blocks
        if isinstance(block, Paragraph)
    ]


def section_of(document: Document, kind: str) -> Section:
    return next(section for section in document.sections if section.kind == kind)


def entries(document: Document, heading: str) -> dict[str, str]:
    for section in document.sections:
        if section.heading == heading:
            return {
                name: text
                for block in section.blocks
                if isinstance(block, Entries)
                for name, text in block.pairs
            }
    return {}


HEAD = "pattern: Groyne Cloth\nterms: UK\n"
PART = "part cloth: flat\nstart: ch 21\n"


def told(row: str, terms: str = "UK", head: str = HEAD, **found: object) -> str:
    """The text of the last row of a part."""
    text = f"{head}{PART}{row}\n"
    steps = steps_of(prose(checked(text, **found), terms))  # type: ignore[arg-type]
    return steps[-1].text


def test_words() -> None:
    assert across(["28", "32", "36"]) == "28 (32, 36)"
    assert across(["4", "4", "4"]) == "4"
    assert voice("UK").listing(["a", "b", "c"]) == "a, b and c"
    assert [voice("UK").tongue.ordinal(n) for n in (1, 2, 3, 4, 11, 12, 13, 21, 102)] == [
        "1st", "2nd", "3rd", "4th", "11th", "12th", "13th", "21st", "102nd",
    ]  # fmt: skip
    assert [many(word) for word in ("fan", "bunch", "berry")] == ["fans", "bunches", "berries"]


def test_lengths_in_both_measures() -> None:
    # 50 mm are 1.97 in, 60 are 2.36, 70 are 2.76: to the quarter 2, 2 1/4, 2 3/4.
    assert both([Fraction(50), Fraction(60), Fraction(70)], "cm") == ("5 (6, 7) cm / 2 (2¼, 2¾) in")
    # 20 in are 50.8 cm: to the half centimetre 51.
    assert both([Fraction(508)], "in") == "20 in / 51 cm"
    assert quarters(Fraction(127, 10)) == "½"
    assert plain(Fraction(9, 2)) == "4.5"
    assert plain(Fraction(1, 3)) == "0.33"


def test_values_of_free_text_share_their_unit() -> None:
    assert per_size(("15 cm", "18 cm", "21 cm")) == "15 (18, 21) cm"
    assert per_size(("15 cm", "15 cm")) == "15 cm"
    assert per_size(("28", "32", "36")) == "28 (32, 36)"


@pytest.mark.parametrize(
    ("row", "expected"),
    [
        ("tr", "1 tr in next st."),
        ("5 tr", "1 tr in each of next 5 sts."),
        ("2 tr in next st", "2 tr in next st."),
        ("2 tr in each of next 4 sts", "2 tr in each of next 4 sts."),
        ("tr in each st across", "1 tr in each st across."),
        ("dc in each st to next ch-2 sp", "1 dc in each st to next ch-2 sp."),
        ("tr in each tr", "1 tr in each tr."),
        ("tr in each st to last 3 sts", "1 tr in each st to last 3 sts."),
        ("3 tr in same st", "3 tr in same st."),
        ("tr in first st, tr in last st", "1 tr in first st, 1 tr in last st."),
        ("12 dc in ring", "12 dc in ring."),
        ("2 dc in next row end", "2 dc in next row end."),
        ("2 dc in each of next 7 row ends", "2 dc in each of next 7 row ends."),
        ("3 tr in next ch-2 sp", "3 tr in next ch-2 sp."),
        ("3 tr in next gap", "3 tr in next gap."),
        ("dc in 2nd ch from hook", "1 dc in 2nd ch from hook."),
        ("miss 3 ch as tr", "Miss first 3 ch (count as 1 tr)."),
        ("miss 4 ch as (tr, ch 1)", "Miss first 4 ch (count as 1 tr and 1 ch)."),
        ("tr in top of ch-3", "1 tr in top of ch-3."),
        ("tr in 3rd ch of next ch-5 sp", "1 tr in 3rd ch of next ch-5 sp."),
        ("tr in base of first ch-5", "1 tr in base of first ch-5."),
        ("fptr around next fptr", "1 fptr around next fptr."),
        ("fptr around each of next 2 sts", "1 fptr around each of next 2 sts."),
        ("fptr", "1 fptr around next st."),
        ("3 bptr", "1 bptr around each of next 3 sts."),
        ("miss 1 st, tr, tr in skipped st", "Miss next st, 1 tr in next st, 1 tr in missed st."),
        ("fptr around 3rd skipped st", "1 fptr around 3rd missed st."),
        ("2 fptr around 2 skipped sts", "1 fptr around each of 2 missed sts."),
        ("tr in next skipped st of row 2", "1 tr in next missed st of row 2."),
        ("dc in next st 2 rows below", "1 dc in next st 2 rows below."),
        ("tr in next ch-6 sp of row 1", "1 tr in next ch-6 sp of row 1."),
        ("4 htr blo", "1 htr blo in each of next 4 sts."),
        ("dc flo in each st across", "1 dc flo in each st across."),
        ("2 htr third loop", "1 htr in third loop of each of next 2 sts."),
        ("tr2tog", "Tr2tog over next 2 sts."),
        ("2 dc3tog", "[dc3tog over next 3 sts] 2 times."),
        ("tog(fptr, tr)", "Fptr and tr tog over next 2 sts."),
        ("dc inc", "2 dc in next st."),
        ("6 dc inc", "2 dc in each of next 6 sts."),
        ("dc dec", "Dc2tog over next 2 sts."),
        ("3 dc dec", "[dc2tog over next 2 sts] 3 times."),
        ("(2 tr, ch 1, 2 tr) in next st", "(2 tr, ch 1, 2 tr) in next st."),
        ("(dc, ch 1) in first st as tr", "(1 dc, ch 1) in first st (counts as 1 tr)."),
        ("[dc, 2 tr] 4 times", "[1 dc in next st, 1 tr in each of next 2 sts] 4 times."),
        ("[dc, ch 2 ** 3 tr] 6 times", "[1 dc in next st, ch 2 ** 1 tr in each of next 3 sts] "
         "6 times, ending last repeat at **."),
        ("ch 3 as tr", "Ch 3 (counts as 1 tr)."),
        ("ch 4 as (tr, ch 1)", "Ch 4 (counts as 1 tr and 1 ch)."),
        ("miss 2 sts", "Miss next 2 sts."),
        ("miss next ch-1 sp", "Miss next ch-1 sp."),
        ("5-tr bobble", "5-tr bobble in next st."),
        ("3-htr puff in next ch-1 sp", "3-htr puff in next ch-1 sp."),
        ("2 5-tr popcorn in next sp", "2 popcorns of 5 tr in next sp."),
        ("ch-3 picot", "Ch-3 picot."),
        ("4 crab dc", "1 crab dc in each of next 4 sts."),
        ("join", "Join."),
        ("join with tr", "Join with 1 tr (this closes the last sp)."),
        ("tr, turn", "1 tr in next st, turn."),
        ("tr, do not turn", "1 tr in next st, do not turn."),
        ("move to next ch-2 sp", "Sl st along to next ch-2 sp."),
        ("move to 5th st", "Sl st along to 5th st from here."),
        ("leave 4 unworked", "Leave next 4 sts unworked."),
        ("leave the rest unworked", "Leave the rest unworked."),
        ("dc in each of 4 unworked sts", "1 dc in each of 4 sts left unworked."),
        ("opening thumb over 4 sts", "Ch 4, miss next 4 sts for the thumb opening."),
        ("opening thumb over 4 sts with ch 6", "Ch 6, miss next 4 sts for the thumb opening."),
        ("tr, mark tip", "1 tr in next st, place marker tip in the st just made."),
        ("tr in marked tip", "1 tr in st with marker tip."),
        ("tr, other side", "1 tr in next st, go on along the other side of the starting ch."),
    ],
)  # fmt: skip
def test_items(row: str, expected: str) -> None:
    assert told(f"row 1: {row}") == expected


def test_every_kind_of_item_can_be_said() -> None:
    assert set(get_args(Item)) == set(SAY)


def test_the_reader_s_terms() -> None:
    row = "row 1: miss 2 sts, tr2tog, [htr] 3 times, dtr in skipped st"
    assert told(row, "UK") == (
        "Miss next 2 sts, tr2tog over next 2 sts, 1 htr in each of next 3 sts, 1 dtr in missed st."
    )
    assert told(row, "US") == (
        "Skip next 2 sts, dc2tog over next 2 sts, 1 hdc in each of next 3 sts, 1 tr in skipped st."
    )


def test_a_bracket_is_told_with_how_often_it_was_worked() -> None:
    head = HEAD + "sizes: child (woman, man)\n"
    bracket = "[tr in each of next 3 tr, fptr around next fptr] around"
    assert told(f"round 3: ch 2, {bracket}, join", head=head, times={bracket: (7, 8, 9)}) == (
        "Ch 2, [1 tr in each of next 3 tr, 1 fptr around next fptr] 7 (8, 9) times, join."
    )


def test_a_bracket_without_one_number_keeps_its_word() -> None:
    text = HEAD + "part cap: in rounds\nstart: magic ring\nround 1: 6 dc in ring, join\n"
    text += "rounds 2-3: [dc inc, dc] around, join\n"
    made = checked(text, times={"[dc inc, dc] around": (3,)})
    part = made.fabrics[0].parts[0]
    row = part.rows[0][0][0]
    again = replace(row, repeats=((row.repeats[0][0], 4),))
    fabric = replace(made.fabrics[0], parts=(replace(part, rows=(((row, again), 1),)),))
    document = prose(Checked(made.pattern, (fabric,)), "UK")
    assert steps_of(document)[-1].text == ("[2 dc in next st, 1 dc in next st] around, join.")


def test_a_row_worked_again_with_other_numbers_keeps_the_word() -> None:
    text = HEAD + "part leaf: flat\nstart: ch 21\nrow 1: dc in each ch across\n"
    text += "row 2: tr2tog, [tr] to last 2 sts, tr2tog\nrepeat row 2: 1 more time\n"
    result = check_text("leaf", text)
    assert result.checked is not None
    steps = steps_of(prose(result.checked, "UK"))
    # 21 sts: 1 + 17 + 1 = 19, then 1 + 15 + 1 = 17.
    assert steps[2].text == (
        "Tr2tog over next 2 sts, 1 tr in each st to last 2 sts, tr2tog over next 2 sts."
    )
    assert steps[2].count == "19 sts."
    assert steps[3].text == "Repeat row 2 once more: 3 rows in all."
    assert steps[3].count == "17 sts."


def test_a_range_that_grows_is_told_row_by_row() -> None:
    text = HEAD + "part leaf: flat\nstart: ch 5\nrow 1: dc in each ch across\n"
    text += "rows 2-4: dc, [dc inc] to last st, dc\n"
    result = check_text("leaf", text)
    assert result.checked is not None
    steps = steps_of(prose(result.checked, "UK"))[2:]
    # 5 sts: 1 + 3 doubled + 1 = 8; 1 + 6 doubled + 1 = 14; 1 + 12 doubled + 1 = 26.
    assert [(step.label, step.text, step.count) for step in steps] == [
        (f"Row {row}", f"1 dc in next st, 2 dc in each of next {times} sts, 1 dc in next st.", made)
        for row, times, made in ((2, 3, "8 sts."), (3, 6, "14 sts."), (4, 12, "26 sts."))
    ]


def test_a_bracket_of_one_stitch_needs_no_bracket() -> None:
    assert told("row 2: dc, [tr] to last st, dc", times={"[tr] to last st": (18,)}) == (
        "1 dc in next st, 1 tr in each of next 18 sts, 1 dc in next st."
    )
    assert told("row 2: [dc inc] across", times={"[dc inc] across": (6,)}) == (
        "2 dc in each of next 6 sts."
    )


def test_what_stitches_went_into_is_named() -> None:
    row = "row 1: dc in 2nd ch from hook, 19 dc"
    assert told(row, into={"19 dc": "ch"}) == (
        "1 dc in 2nd ch from hook, 1 dc in each of next 19 ch."
    )
    assert told("row 1: 19 dc", into={"19 dc": "end"}) == "1 dc in each of next 19 row ends."
    assert told("row 1: tr2tog", into={"tr2tog": "ch"}) == "Tr2tog over next 2 ch."


def test_places_of_several_kinds_are_named_by_what_they_share() -> None:
    text = f"{HEAD}{PART}row 1: 8 tr\n"
    made = checked(text, into={"8 tr": "st"})
    part = made.fabrics[0].parts[0]
    row = part.rows[0][0][0]

    def with_also(kind: str) -> str:
        both = replace(row, made=runs_of([*row.made.expand(), Made("st", into=kind)]))
        fabric = replace(made.fabrics[0], parts=(replace(part, rows=(((both,), 1),)),))
        return steps_of(prose(Checked(made.pattern, (fabric,)), "UK"))[-1].text

    assert with_also("ch") == "1 tr in each of next 8 sts or ch."
    assert with_also("end") == "1 tr in each of next 8 places."


def test_numbers_per_size_and_nought() -> None:
    head = HEAD + "sizes: small (large)\ncount edge: 10 (12)\n"
    assert told("row 2: edge tr, 0 dc, {edge - 9} tr", head=head) == (
        "1 tr in each of next 10 (12) sts, 1 tr in each of next 1 (3) sts."
    )
    assert told("row 2: 3 (3) tr, 0 (1) dc", head=head.replace("count", "# count")) == (
        "1 tr in each of next 3 sts, 1 dc in each of next 0 (1) sts (not in size small)."
    )


def test_evenly_is_spelled_out_once_where_sizes_agree() -> None:
    # 6 in 4 row ends: 2, 1, 2, 1.
    spread: Runs[int] = Runs(((runs_of([2, 1]), 2),))
    words = "6 dc evenly"
    found = told(f"row 1: {words}", into={words: "end"}, spreads={words: (spread,)})
    assert found == (
        "6 dc evenly over the whole edge: [2 dc in next row end, 1 dc in next row end] 2 times."
    )


def test_evenly_is_set_out_for_each_size_where_they_differ() -> None:
    text = f"{HEAD}sizes: small (large)\n{PART}row 2: inc 2 dc evenly\n"
    small: Runs[int] = Runs(((Runs(((1, 4), (2, 1))), 2),))
    large: Runs[int] = Runs(((1, 6), (2, 1), (1, 5), (2, 1)))
    step = steps_of(prose(checked(text, spreads={"inc 2 dc evenly": (small, large)}), "UK"))[-1]
    assert step.text == "1 dc in each st, increasing 2 evenly (spaced as below)."
    assert step.details == (
        "Small: [1 dc in each of next 4 sts, 2 dc in next st] 2 times.",
        "Large: 1 dc in each of next 6 sts, 2 dc in next st, 1 dc in each of next 5 sts, "
        "2 dc in next st.",
    )


def test_evenly_is_told_for_every_row_that_is_repeated() -> None:
    """Worked out by hand: 4 into 4 is two in each; 4 more into 8 is one pair in every two; 4 more
    into 12 one in every three. The small size stops at 12."""
    text = f"""{HEAD}sizes: small (large)
part disc: in rounds, shaped
start: magic ring
round 1: ch 1, 4 dc in ring, join = 4 sts
round 2: ch 1, inc 4 dc evenly, join = 8 sts
repeat round 2: until 12 (16) sts
"""
    result = check_text("disc", text)
    assert result.checked is not None
    steps = steps_of(prose(result.checked, "UK"))
    assert steps[2].text == (
        "Ch 1, 1 dc in each st, increasing 4 evenly: 2 dc in each of next 4 sts, join."
    )
    (third, fourth) = steps[3].details
    assert third.startswith("Round 3: ")
    assert fourth.startswith("Size large, round 4: ")
    # However it begins: 4 times 3 places of which one takes two.
    for told_, places in ((third, 2), (fourth, 3)):
        inside = re.search(r"\[(.*)\] 4 times\.", told_)
        assert inside is not None
        assert inside[1].count("2 dc in next st") == 1
        singles = re.findall(r"1 dc in (?:next|each of next (\d+)) sts?", inside[1])
        assert sum(int(n or 1) for n in singles) == places - 1


def test_the_manner_of_a_part() -> None:
    def first(manner: str, row: str = "round 1: dc") -> str:
        text = f"{HEAD}part cap: {manner}\nstart: ch 9\n{row}\n"
        return paragraphs(prose(checked(text), "UK"))[-1]

    assert first("flat", "row 1: dc") == "Worked flat in rows; turn at the end of each row."
    assert first("in rounds") == "Worked in joined rounds, without turning."
    assert first("in turned rounds") == "Worked in joined rounds, turned at the end of each round."
    assert first("in a spiral").startswith("Worked in a spiral, without joining; keep a marker in")
    assert first("in rounds", "row 1: dc").endswith("; turn at the end of each row.")


@pytest.mark.parametrize(("chains", "said"), [("20 (30)", True), ("6 (30)", False)])
def test_a_long_chain_is_not_to_be_twisted(chains: str, said: bool) -> None:
    text = "pattern: Buoy\nterms: UK\nsizes: small (large)\npart band: in rounds\n"
    text += f"start: ch {chains}, join into ring\nround 1: ch 1, dc in each ch around, join\n"
    made = check_text("buoy", text).checked
    assert made is not None
    (intro,) = (one for one in paragraphs(prose(made, "UK")) if one.startswith("Worked in joined"))
    assert intro.endswith("Take care not to twist the chain when you join it.") == said


def test_reminders_stand_at_the_head_of_the_part_that_needs_them() -> None:
    text = """pattern: Reminders
terms: UK
part flat: flat
start: ch 11
row 1: dc in 2nd ch from hook, dc in each ch across
row 2: ch 3 as tr, 9 tr
row 3: ch 1, dc in each st across
part posts: in rounds
start: ch 10, join into ring
round 1: ch 2, tr in each ch around, join
round 2: ch 2, fptr in each st around, join
"""
    made = check_text("reminders", text).checked
    assert made is not None
    rows, posts = (
        section.blocks[0] for section in prose(made, "UK").sections if section.kind == "part"
    )
    assert isinstance(rows, Paragraph)
    assert isinstance(posts, Paragraph)
    assert "its top is the last st of the next row: work into it" in rows.text
    assert "work nothing into it" in rows.text
    assert "post stitch" not in rows.text
    assert "join in the first st after it" in posts.text
    assert "push the post stitch aside" in posts.text
    # A post stitch goes around, whatever word the designer wrote.
    assert steps_of(prose(made, "UK"))[-1].text == "Ch 2, 1 fptr around each st around, join."


def test_an_opening_says_what_it_is_worked_around() -> None:
    text = f"""{HEAD}part bag: flat
start: ch 11
row 1: dc in 2nd ch from hook, dc in each ch across
seam: last row to start, 3 sts, opening buttonhole over 4, 3 sts
part edge: in rounds
start: around buttonhole
round 1: ch 1, [dc] around, join
"""
    made = check_text("bag", text).checked
    assert made is not None
    said = [step.text for step in steps_of(prose(made, "UK")) if step.label in ("Seam", "Start")]
    assert said[1:] == [
        "Sew the last row to the starting edge: join 3 sts, leave 4 sts open for the buttonhole, "
        "join 3 sts.",
        "Join the yarn and work around the buttonhole left in the seam.",
    ]


def test_a_range_that_works_as_another_row_gives_its_last_count() -> None:
    text = f"""{HEAD}part leaf: flat
start: ch 5
row 1: dc in each ch across
row 2: ch 1, dc inc, [dc] across
rows 3-6: as row 2
"""
    made = check_text("leaf", text).checked
    assert made is not None
    last = steps_of(prose(made, "UK"))[-1]
    assert (last.label, last.text, last.count) == (
        "Rows 3-6", "Work as row 2.", "10 sts at the end of row 6.",
    )  # fmt: skip


def test_decreases_spread_evenly() -> None:
    # 10 sts, 2 decreases: 8 stitches, of which the 2nd and 6th take two.
    spread: Runs[int] = Runs(((Runs(((1, 1), (2, 1), (1, 2))), 2),))
    assert told("row 1: dec 2 tr evenly", "US", spreads={"dec 2 tr evenly": (spread,)}) == (
        "1 dc in each st, decreasing 2 evenly: [1 dc in next st, dc2tog over next 2 sts, "
        "1 dc in each of next 2 sts] 2 times."
    )


def test_labels_and_sizes_only() -> None:
    text = f"""{HEAD}sizes: small (medium, large)
{PART}setup row (RS): dc in each ch across
rows 2-5: 3 dc = 20 sts
rows 7, 9 and 11 (WS): dc
row 6 (large only): [dc] 4 times = 4 sts
row 8 (small, large only): 2 (3, 4) dc = 2 (3, 4) sts
next row: as rows 2-3
"""
    steps = steps_of(prose(checked(text), "UK"))[1:]
    assert [step.label for step in steps] == [
        "Setup row (RS)",
        "Rows 2-5",
        "Rows 7, 9 and 11 (WS)",
        "Size large only, row 6",
        "Sizes small and large only, row 8",
        "Next row",
    ]
    assert steps[3].count == "4 sts."
    assert steps[4].text == "1 dc in each of next 2 (4) sts."
    assert steps[4].count == "2 (4) sts."
    assert steps[5].text == "Work as rows 2-3."


def test_rows_that_use_their_number_are_told_one_by_one() -> None:
    text = HEAD + "part disc: in a spiral\nstart: magic ring\nround 1: 6 dc in ring = 6 sts\n"
    text += "rounds 2-4 as r: [{r - 2} dc, dc inc] 6 times = {6 * r} sts\n"
    steps = steps_of(prose(checked(text), "UK"))[2:]
    assert [(step.label, step.text, step.count) for step in steps] == [
        ("Round 2", "2 dc in each of next 6 sts.", "12 sts."),
        ("Round 3", "[1 dc in next st, 2 dc in next st] 6 times.", "18 sts."),
        ("Round 4", "[1 dc in each of next 2 sts, 2 dc in next st] 6 times.", "24 sts."),
    ]


def test_a_long_range_gives_the_arithmetic() -> None:
    text = HEAD + "part disc: in a spiral\nstart: magic ring\nround 1: 6 dc in ring = 6 sts\n"
    text += "rounds 2-90 as r: [{r - 2} dc, dc inc] 6 times = {6 * r} sts\n"
    step = steps_of(prose(checked(text), "UK"))[-1]
    assert step.label == "Rounds 2-90"
    assert step.text == (
        "[1 dc in each of next (r − 2) sts, 2 dc in next st] 6 times. "
        "Here r is the number of the round."
    )
    assert step.count == "(6 × r) sts."


def test_stated_counts_with_sizes_and_kinds() -> None:
    text = f"""{HEAD}sizes: small (large)
stitch mussel: (3 tr, ch 1, 3 tr) in next st, height tr
{PART}row 1: 3 mussel = 3 mussels, 1 dc, 2 (3) ch-2 sps, 12 ch
row 2: dc = 41 sts counting ch
row 3: dc = 13 tr not counting turning ch
row 4: dc = 64 sts (large)
row 5: dc = 8 bobbles, 1 st
"""
    steps = steps_of(prose(checked(text), "US"))[1:]
    assert [step.count for step in steps] == [
        "3 mussels, 1 sc, 2 (3) ch-2 sps, 12 ch.",
        "41 sts, counting the ch.",
        "13 dc, not counting the turning ch.",
        "64 sts (large).",
        "8 bobbles, 1 st.",
    ]


def test_a_row_without_a_stated_count_prints_what_was_made() -> None:
    text = f"{HEAD}sizes: small (large)\n{PART}row 1: dc in each ch across\n"
    made = checked(text, lines={0: ((1, 1, 20), (1, 1, 24))})
    counted = []
    for fabric, stitches in zip(made.fabrics, (20, 24), strict=True):
        part = fabric.parts[0]
        row = replace(part.rows[0][0][0], counts=((ANY_STITCH, stitches),))
        counted.append(replace(fabric, parts=(replace(part, rows=(((row,), 1),)),)))
    document = prose(Checked(made.pattern, tuple(counted)), "UK")
    assert steps_of(document)[-1].count == "20 (24) sts."


REPEATS = """pattern: Tideline Cowl
terms: UK
sizes: small (medium, large)
part cowl: in rounds
start: ch 60, join into ring
round 1: dc in each ch around, join = 60 sts
round 2: tr in each st around, join = 60 sts
"""


@pytest.mark.parametrize(
    ("line", "results", "expected"),
    [
        (
            "repeat round 2: 2 (3, 4) more times",
            ((2, 4, 60), (3, 5, 60), (4, 6, 60)),
            "Repeat round 2 another 2 (3, 4) times: 4 (5, 6) rounds in all.",
        ),
        (
            "repeat last 2 rounds: 0 (1, 2) more times",
            ((0, 2, 60), (2, 4, 60), (4, 6, 60)),
            "Repeat the last 2 rounds another 0 (1, 2) times: 2 (4, 6) rounds in all. "
            "Size small: do not repeat.",
        ),
        (
            "repeat last round: 1 more time",
            ((1, 3, 60), (1, 3, 60), (1, 3, 60)),
            "Repeat the last round once more: 3 rounds in all.",
        ),
        (
            "repeat rounds 1-2: until 5 (6, 7) cm",
            ((4, 6, 60), (6, 8, 60), (8, 10, 60)),
            "Repeat rounds 1-2 until the cowl measures 5 (6, 7) cm / 2 (2¼, 2¾) in from its "
            "start (another 2 (3, 4) times, 6 (8, 10) rounds in all at the tension given).",
        ),
        (
            "repeat round 2: until 5 cm",
            ((0, 2, 60), (0, 2, 60), (0, 2, 60)),
            "Repeat round 2 until the cowl measures 5 cm / 2 in from its start.",
        ),
        (
            "repeat round 2: until 14 (16, 18) rounds",
            ((12, 14, 60), (14, 16, 60), (16, 18, 60)),
            "Repeat round 2 until there are 14 (16, 18) rounds in all (another 12 (14, 16) times).",
        ),
        (
            "repeat rounds 1-2: until 7 rounds",
            ((5, 7, 60), (5, 7, 60), (5, 7, 60)),
            "Repeat rounds 1-2 until there are 7 rounds in all (another 5 rounds).",
        ),
        (
            "repeat round 2: until 15 sts",
            ((9, 11, 15), (9, 11, 15), (9, 11, 15)),
            "Repeat round 2 until there are 15 sts (another 9 times, 11 rounds in all).",
        ),
    ],
)
def test_repeat_lines(line: str, results: tuple[tuple[int, int, int], ...], expected: str) -> None:
    document = prose(checked(f"{REPEATS}{line}\n", lines={2: results}), "UK")
    step = steps_of(document)[-1]
    assert step.text == expected
    assert step.count == f"{results[0][2]} sts."


def test_a_join_into_a_chain_that_is_a_stitch_and_a_space_says_which() -> None:
    """Of ch 4 as a treble and a chain the first three are the treble, as trade usage has it for
    `ch 4 (counts as tr, ch 1)`: its top is the third, and the fourth is the space."""
    text = HEAD + "part mesh: in rounds\nstart: ch 8, join into ring\n"
    text += "round 1: ch 4 as (tr, ch 1), [tr in ring, ch 1] 7 times, join = 8 tr, 8 ch-1 sps\n"
    text += "round 2: ch 3 as tr, tr in next ch-1 sp, [tr, tr in next ch-1 sp] 7 times, join\n"
    checked = check_text("mesh", text).checked
    assert checked is not None
    uk = [step.text for step in steps_of(prose(checked, "UK"))]
    assert uk[1].endswith("7 times, join with sl st in 3rd ch of ch-4.")
    assert uk[2].endswith("7 times, join.")


def test_the_top_of_a_chain_that_is_a_stitch_and_a_space_is_called_by_its_number() -> None:
    text = HEAD + "part mesh: flat\nstart: ch 12\n"
    text += "row 1: tr in 4th ch from hook, tr in each ch across = 9 tr\n"
    text += "row 2: ch {n} as {what}, skip 1 st, tr in next tr, [ch 1, skip 1 st, tr] to last 2 sts"
    text += ", ch 1, skip 1 st, tr in last st\n"
    text += "row 3: ch 3 as tr, tr in next ch-1 sp, [tr, tr in next ch-1 sp] 3 times, "
    text += "tr in top of ch-4\n"
    filled = text.replace("{n}", "4").replace("{what}", "(tr, ch 1)")
    checked = check_text("mesh", filled).checked
    assert checked is not None
    assert steps_of(prose(checked, "UK"))[3].text.endswith("1 tr in 3rd ch of ch-4.")
