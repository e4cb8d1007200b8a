"""The sheet in words, past its rows: starts, seams, texts, materials, whole examples."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from test_prose import HEAD, PART, checked, entries, lowered, paragraphs, section_of, steps_of, told

from loopwright.ir.runs import Runs
from loopwright.pipeline import check_text
from loopwright.render.prose import Entries, Paragraph, Steps, Table, prose
from loopwright.render.prose.cautions import caution
from loopwright.render.prose.voice import voice


def test_starts_seams_and_edges() -> None:
    text = """pattern: Harbour Bag
terms: UK
part base: flat
start: ch 4, join into ring
row 1: 12 dc in ring
seam: last row to start, sl st blo
part side: in rounds
start: along row ends of base
round 1: dc
seam: last round to row ends of base, 3 sts, opening latch over 5, 22 sts
gather: last round
part strap: flat
start: 30 foundation dc then over next 12 sts of last round of side from 25th st then ch 6
row 1: opening slot over 2 sts
part lining: in rounds
start: through last round of side and start of base
round 1: dc
part trim: in rounds
start: around slot
round 1: dc
part border: in rounds
start: all round base
round 1: dc
part flap: flat
start: unworked of base
row 1: dc
"""
    steps = steps_of(prose(checked(text), "UK"))
    assert [step.text for step in steps if step.label in ("Start", "Seam", "Gather")] == [
        "Ch 4, join into a ring with sl st.",
        "Join the last row to the starting edge with sl st blo, stitch for stitch.",
        "With the right side facing, work along the row ends of the base.",
        "Sew the last round to the row ends of the base: join 3 sts, leave 5 sts open for "
        "the latch opening, join 22 sts.",
        "Break the yarn with a long end, thread it through the sts of the last round and draw "
        "it up tight.",
        "30 foundation dc; then work along the next 12 sts of the last round of the side, from "
        "its 25th st on; then ch 6.",
        "Hold the last round of the side and the starting edge of the base together and work "
        "through both, stitch for stitch.",
        "Join the yarn and work around the slot (first its missed sts, then the other side of its "
        "ch).",
        "With the right side facing, work around all four edges of the base (the last row, the row "
        "ends, the start, the other row ends).",
        "Work along the sts left unworked of the base.",
    ]


@pytest.mark.parametrize(
    ("manner", "row", "edge", "said"),
    [
        ("flat", "row 1 (RS)", "row ends", "With the right side facing, work along the row ends of "
         "the band, from its first row to its last."),
        ("flat", "row 1 (WS)", "other row ends", "With the wrong side facing, work along the "
         "other row ends of the band, from its last row to its first."),
        ("in rounds", "round 1", "start", "With the right side facing, work along the starting "
         "edge of the band."),
        ("flat", "row 1", "row ends", "Work along the row ends of the band, from its first row to "
         "its last."),
        ("in turned rounds", "round 1", "start", "Work along the starting edge of the band."),
        ("flat", "row 1 (RS)", "last row", "Work along the last row of the band."),
    ],
)  # fmt: skip
def test_a_start_says_which_side_faces_and_from_where_to_where(
    manner: str, row: str, edge: str, said: str
) -> None:
    """Row ends are counted from the first row, as `in next row end` meets them; the side is what
    the row says, and right in rounds that are not turned. What is not known is not said."""
    text = "pattern: Groyne Band\nterms: UK\npart band: flat\nstart: ch 9\n"
    text += (
        "row 1: dc in 2nd ch from hook, dc in each ch across\nrow 2: ch 1, dc in each st across\n"
    )
    text += f"part edging: {manner}\nstart: along {edge} of band\n{row}: ch 1, dc\n"
    steps = steps_of(prose(checked(text), "UK"))
    assert [step.text for step in steps if step.label == "Start"][1] == said


def test_each_of_several_edges_says_from_where_to_where() -> None:
    """Down one side, along the bottom and up the other."""
    text = "pattern: Groyne Band\nterms: UK\npart band: flat\nstart: ch 9\n"
    text += (
        "row 1: dc in 2nd ch from hook, dc in each ch across\nrow 2: ch 1, dc in each st across\n"
    )
    text += (
        "part edging: flat\nstart: along other row ends of band then along start of band "
        "then along row ends of band\nrow 1: ch 1, dc in each st across\n"
    )
    steps = steps_of(prose(checked(text), "UK"))
    assert [step.text for step in steps if step.label == "Start"][1] == (
        "Work along the other row ends of the band, from its last row to its first; then work "
        "along the starting edge of the band; then work along the row ends of the band, from its "
        "first row to its last."
    )


def test_an_edge_joined_to_itself_is_folded() -> None:
    text = """pattern: Sandpiper Heel
terms: UK
part heel: in rounds
start: magic ring
round 1: 8 dc in ring
seam: last round to last round, sl st
seam: last round to last round
"""
    steps = steps_of(prose(checked(text), "UK"))
    assert [step.text for step in steps if step.label == "Seam"] == [
        "Fold the last round in half and join its two halves with sl st, stitch for stitch.",
        "Fold the last round in half and sew its two halves together, stitch for stitch.",
    ]


def test_the_uncounted_chain_is_said_once_a_part() -> None:
    text = f"{HEAD}{PART}row 1: dc in each ch across\nrow 2: ch 1, dc in each st across\n"
    with_it = paragraphs(prose(checked(text, turning=True), "UK"))
    assert any("The turning chain does not count as a stitch." in one for one in with_it)
    without = paragraphs(prose(checked(text), "UK"))
    assert not any("does not count" in one for one in without)


def test_texts_notes_and_remarks() -> None:
    text = """pattern: Tideline Cowl
terms: UK
sizes: small (large)
licence: CC BY-SA 4.0
designer: The harbour circle
measure height: 20 (22) cm
about: Worn {height} high, in {tr} and with 2 colours.
count wrap: 60 (66)
part cowl: in rounds
start: ch wrap, join into ring
round 1: dc in each ch around, join = wrap sts "Mark the first {dc} of {wrap}."
note: Every round has {wrap} {tr}.
finish: Weave in the ends.
"""
    document = prose(checked(text), "US")
    assert document.lead[0] == Paragraph("Worn 20 (22) cm high, in dc and with 2 colours.", "lead")
    assert document.lead[1] == Entries((("Designer", "The harbour circle"),))
    assert document.sections[-1].blocks == (Entries((("License", "CC BY-SA 4.0"),)),)
    assert steps_of(document)[-1].remark == "Mark the first sc of 60 (66)."
    assert "Every round has 60 (66) dc." in paragraphs(document)
    assert document.sections[-2].heading == "Finishing"
    assert document.lang == "en-US"
    assert "This pattern is in US terms." in paragraphs(document)
    assert any("The designer wrote it in UK terms" in one for one in paragraphs(document))


def test_both_terms_and_abbreviations_of_what_is_used_only() -> None:
    text = f"{HEAD}{PART}row 1: dc in 2nd ch from hook, 3 tr blo, fptr, 5-tr popcorn, ch-3 picot\n"
    document = prose(checked(text), "UK")
    terms = section_of(document, "terms").blocks[-1]
    assert isinstance(terms, Table)
    assert terms.head == ("UK terms (here)", "US terms")
    assert terms.rows == (
        ("dc (double crochet)", "sc (single crochet)"),
        ("tr (treble)", "dc (double crochet)"),
    )
    found = entries(document, "Abbreviations")
    assert list(found) == [
        "ch", "st(s)", "blo", "dc", "tr", "5-tr popcorn", "fptr", "ch-3 picot",
    ]  # fmt: skip
    assert found["tr"] == "treble"
    assert found["fptr"].startswith("front post treble,")
    capital = f"{HEAD}{PART}row 1: ch 1, dc\n"
    assert "ch" in entries(prose(checked(capital), "UK"), "Abbreviations")
    american = section_of(prose(checked(text), "US"), "terms").blocks
    table = american[-1]
    assert isinstance(table, Table)
    assert table.rows[1] == ("dc (double crochet)", "tr (treble)")


def test_own_stitches() -> None:
    text = f"""{HEAD}stitch mussel: (3 tr, ch 1, 3 tr) in next st, height tr
stitch cross: miss 1 st, tr, tr in skipped st
{PART}row 1: 5 mussel, mussel in next ch-1 sp, 2 cross
"""
    document = prose(checked(text), "US")
    assert entries(document, "Special stitches") == {
        "Mussel": "(3 dc, ch 1, 3 dc) in next st; or in the place that the instructions name",
        "Cross": "skip next st, 1 dc in next st, 1 dc in skipped st",
    }
    assert steps_of(document)[-1].text == "5 mussels, 1 mussel in next ch-1 sp, 2 crosses."


YARNS = """pattern: Breakwater Scarf
terms: UK
yarn {main}: "DK wool"
yarn {other}: "DK wool"
hook four: 4 mm
gauge plain: 17 sts and 9 rows to 10 cm in tr, hook four, yarn {main}
part scarf: flat, yarn {main}, gauge plain
start: ch 13
{stripes}row 1: dc in 2nd ch from hook, 5 dc, with {other}, 6 dc
"""


@pytest.mark.parametrize(
    ("main", "other", "heads", "use", "change"),
    [
        ("slate", "foam", ["Yarn slate", "Yarn foam"], "Yarn: slate and foam.", "foam"),
        (
            "main", "contrast", ["Main yarn", "Contrast yarn"],
            "Use the main yarn and the contrast yarn.", "the contrast yarn",
        ),
        ("a", "b", ["Yarn A", "Yarn B"], "Use yarn A and yarn B.", "yarn B"),
    ],
)  # fmt: skip
def test_yarns_are_called_what_a_sentence_can_call_them(
    main: str, other: str, heads: list[str], use: str, change: str
) -> None:
    """ "Yarn: main." is no sentence; and a part names every yarn that it uses."""
    text = YARNS.format(main=main, other=other, stripes="")
    document = prose(checked(text), "UK")
    assert list(entries(document, "Materials"))[:2] == heads
    (part,) = (one for one in document.sections if one.kind == "part")
    intro = part.blocks[0]
    assert isinstance(intro, Paragraph)
    assert use in intro.text
    steps = next(one for one in part.blocks if isinstance(one, Steps)).steps
    assert f"change to {change}, " in steps[1].text
    called = heads[0].lower() if len(main) > 1 else "yarn A"
    called = {"yarn slate": "slate", "main yarn": "the main yarn"}.get(called, called)
    assert entries(document, "Tension")["Plain"].endswith(f"hook and {called}")


def test_what_is_true_of_the_whole_part_stands_before_its_start() -> None:
    more = "stripes: 2 rows slate, 1 row foam\ncomes out at: 20 cm wide\n"
    document = prose(checked(YARNS.format(main="slate", other="foam", stripes=more)), "UK")
    (part,) = (one for one in document.sections if one.kind == "part")
    told = [getattr(one, "text", "steps").split(":")[0] for one in part.blocks[1:]]
    assert told == ["Stripes", "steps"]


def test_materials() -> None:
    text = """pattern: Breakwater Mittens
terms: UK
sizes: child (woman, man)
measure palm: 15 (18, 21) cm
yarn slate: "DK wool", 50 g = 110 m, weight 3, colour "Slate"
hook main: 4 (4.5, 5) mm
hook odd: 3 mm
gauge hand: 17 sts and 9 rounds to 10 cm in tr blo, hook main, yarn slate
part cuff: flat, yarn slate, hook odd, gauge hand
start: ch 13
stripes: 2 rows slate, 4 rows slate
comes out at: 15 (18, 21) cm around, 20 cm high
row 1: dc in 2nd ch from hook
"""
    document = prose(checked(text), "US")
    # Table B has no US size for 3 mm.
    assert entries(document, "Materials") == {
        "Yarn slate": "DK wool, color Slate, 50 g = 110 m / 120 yd a ball, yarn weight 3 (Light)",
        "Main hook": "4 (4.5, 5) mm / US G/6 (7, H/8) / old UK 8 (7, 6)",
        "Odd hook": "3 mm",
        "Notions": "a yarn needle",
    }
    assert entries(document, "Gauge") == {
        "Hand": "17 sts and 9 rounds to 10 cm / 4 in, worked in dc through the back loop only, "
        "with the 4 (4.5, 5) mm hook and slate"
    }
    sizes = next(section for section in document.sections if section.heading == "Sizes")
    table = sizes.blocks[-1]
    assert isinstance(table, Table)
    assert table.head == ("Measure", "Child", "Woman", "Man")
    assert table.rows == (
        ("To fit palm", "15 cm / 6 in", "18 cm / 7 in", "21 cm / 8¼ in"),
        ("Finished cuff, around", "15 cm / 6 in", "18 cm / 7 in", "21 cm / 8¼ in"),
        ("Finished cuff, height", "20 cm / 7¾ in", "20 cm / 7¾ in", "20 cm / 7¾ in"),
    )
    said = paragraphs(document)
    assert "Stripes: 2 rows slate, 4 rows slate. Repeat these stripes throughout." in said
    assert any(one.endswith("Yarn: slate. Hook: 3 mm.") for one in said)


@pytest.mark.parametrize(
    ("lines", "cords", "small"),
    [
        ("about: For a newborn.\nsizes: small (large)", False, False),
        ("about: For a newborn. Fasten with a button.", False, True),
        ("sizes: 3 m (6 m)\nnote: Thread a cord through.", True, False),
        ("about: For grown hands, with a cord and a pompom.", False, False),
        ("sizes: child (woman, man)\nnote: Sew on the pom-pom and the ties.", True, True),
        ("about: For a baby.\nkit: 3 wooden buttons", False, True),
        ("about: For a toddler.\nkit: 1 pompom, 2 m cord", True, True),
        ("about: For grown heads.\nkit: 3 wooden buttons, 1 drawstring", False, False),
        ("measure head: who 6 months\nkit: 2 toggles", False, True),
        ("measure head: adult woman\nkit: 2 toggles", False, False),
        ("sizes: 2 years (4 years)\nfinish: Make a tassel.", False, True),
        ("about: A small bear.\nnotions: 2 safety eyes of 8 mm, fiberfill", False, True),
        ("about: A doll with a ribbon in her hair.", True, False),
        ("about: A toy whale.", False, False),
        ("about: Not a toy. Sew on a button.", False, False),
    ],
)
def test_cautions(lines: str, cords: bool, small: bool) -> None:
    said = caution(lowered(f"{HEAD}{lines}\n{PART}row 1: dc in each ch across\n"), voice("UK"))
    assert ("strangle" in said) == cords
    assert ("choke" in said) == small
    assert bool(said) == (cords or small)
    assert ("safety rules for children's things where you live" in said) == bool(said)


@pytest.mark.parametrize(("notions", "eyes"), [("2 safety eyes", True), ("black floss", False)])
def test_eyes_that_are_put_in_are_not_for_the_youngest(notions: str, *, eyes: bool) -> None:
    toy = f"about: A toy bear with a bell.\nnotions: {notions}\n"
    text = f"{HEAD}{toy}{PART}row 1: dc in each ch across\n"
    assert ("under three years" in caution(lowered(text), voice("UK"))) == eyes


def test_a_bead_in_a_child_s_part_is_not_found_inside_another_word() -> None:
    text = f"{HEAD}about: A kidney-coloured bathtub\n{PART}row 1: dc\nnote: buttonless"
    assert caution(lowered(text), voice("UK")) == ""


def test_nothing_is_left_between_commas() -> None:
    text = told("row 2: 0 tr, dc, [tr, 0 dc] 0 times, dc")
    assert text == "1 dc in next st, 1 dc in next st."
    assert not re.search(r", ,|, \.", text)


def test_runs_of_a_spread_are_plain_numbers() -> None:
    # 3 over 5 places with none in two of them, as the work writes it down.
    spread: Runs[int] = Runs(((1, 1), (0, 1), (1, 1), (0, 1), (1, 1)))
    assert told("row 1: 3 dc evenly", spreads={"3 dc evenly": (spread,)}) == (
        "3 dc evenly over the whole edge: 1 dc in next st, miss next st, 1 dc in next st, "
        "miss next st, 1 dc in next st."
    )


EXAMPLES = Path(__file__).parents[2] / "examples"


def test_the_mittens() -> None:
    """Worked out by hand: 28, 32, 36 sts are 7, 8, 9 ribs of 4; the cuff has 28, 34, 40 rows, of
    which 2 are written; at 9 rounds to 10 cm 5, 6, 7 cm are 4.5, 5.4, 6.3 rounds."""
    text = (EXAMPLES / "breakwater-mittens.crochet").read_text(encoding="utf-8")
    made = check_text("breakwater-mittens", text).checked
    assert made is not None
    steps = {step.text: step for step in steps_of(prose(made, "US"))}
    bracket = "[1 dc in each of next 3 dc, 1 fpdc around next fpdc]"
    assert steps[f"Ch 2, {bracket} 7 (8, 9) times, join."].count == "28 (32, 36) sts."
    assert (
        "Repeat row 2 until there are 28 (34, 40) rows in all (another 26 (32, 38) times)." in steps
    )
    opening = (
        "Ch 2 (does not count as a st), ch 4, skip next 4 sts for the thumb opening, "
        f"{bracket} 6 (7, 8) times, join with sl st in 1st ch of ch-4."
    )
    assert steps[opening].count == "24 (28, 32) sts, 1 ch-4 sp."
    assert steps["Ch 2, [dc and fpdc tog over next 2 sts] 7 (8, 9) times, join."].count == (
        "7 (8, 9) sts."
    )
    assert "Ch 2, [dc2tog over next 2 sts] 4 times, join." in steps


@pytest.mark.parametrize("name", sorted(path.name for path in EXAMPLES.glob("*.crochet")))
def test_every_example_can_be_told_in_both_terms(name: str) -> None:
    made = check_text(name, (EXAMPLES / name).read_text(encoding="utf-8")).checked
    assert made is not None
    for terms in ("UK", "US"):
        steps = steps_of(prose(made, terms))
        told = " ".join(step.text for step in steps)
        assert not re.search(r", ,|, \.|\[\]|\(\)|  ", told)
        assert all(step.text for step in steps)


def test_rows_worked_like_others_say_how_many_times() -> None:
    text = """pattern: Net
terms: UK
part net: flat
start: ch 13
row 1: dc in 2nd ch from hook, dc in each ch across = 12 sts
row 2: ch 1, dc in each st across = 12 sts
row 3: ch 2, tr in each st across = 12 sts
rows 4-5: as rows 2-3
rows 6-9: as rows 2-3
rows 10-15: as rows 2-3
row 16: as row 3
"""
    steps = steps_of(prose(checked(text), "UK"))[4:]
    assert [step.text for step in steps] == [
        "Work as rows 2-3.", "Work as rows 2-3, twice.", "Work as rows 2-3, 3 times.",
        "Work as row 3.",
    ]  # fmt: skip


def test_chains_at_the_start_that_are_a_loop_are_told_from_turning_chains() -> None:
    text = """pattern: Net
terms: UK
part net: flat
start: ch 14
row 1: dc in 2nd ch from hook, dc in each ch across = 13 sts
row 2: ch 1, dc in each st across = 13 sts
row 3: ch 5, skip 2 sts, dc, [ch 2, skip 2 sts, dc] across = 4 dc
row 4: ch 1, [2 dc in next ch-2 sp] 3 times, 3 dc in next ch-5 sp = 9 sts
"""
    made = check_text("net", text).checked
    assert made is not None
    steps = steps_of(prose(made, "UK"))[1:]
    told = "The ch 5 at the start is a loop, not a turning chain: it stands on the first st."
    assert [told in step.text for step in steps] == [False, False, True, False]
