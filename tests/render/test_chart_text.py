"""The chart in words, worked out by hand."""

from __future__ import annotations

import chart_fabrics as fabrics

from loopwright.ir.fabric import Made
from loopwright.ir.runs import Runs, runs_of
from loopwright.pipeline import check_text
from loopwright.render.chart import chart, text
from loopwright.render.chart.telling import sequence, tidy
from loopwright.render.speaker import English
from loopwright.render.speaker import told as put
from loopwright.trade.terms import UK, US

SC, DC = fabrics.SC, fabrics.DC


def told(made: Runs[Made]) -> str:
    return put(sequence(tidy(made)), English(US))


def test_a_square_in_words() -> None:
    lines = text(chart(fabrics.granny(), "piece", 0), "UK").split("\n")
    assert lines[:3] == [
        "Tideline Sample: chart of the piece",
        "Begin with a chain of 6, joined into a ring.",
        "Read from the centre outwards, anticlockwise.",
    ]
    assert lines[3] == "A place is a stitch or a chain space of the row below."
    assert lines[4] == (
        "Round 1, right side: ch 3 counted as tr in the ring, 2 tr in the ring, (ch 2, 3 tr in the "
        "ring) 3 times, ch 2, join; 12 stitches, 4 chain spaces."
    )
    assert lines[5] == (
        "Round 2, right side: slip stitch along past 3 places to the new first place, ch 3 counted "
        "as tr in the next space, 2 tr in the same space, ch 2, 3 tr in the same space, (ch 1, "
        "miss 3 places, (3 tr, ch 2, 3 tr) in one space) 3 times, ch 1, join; "
        "24 stitches, 8 chain spaces."
    )


def test_loops_posts_and_sides() -> None:
    lines = text(chart(fabrics.swatch(), "piece", 0), "US").split("\n")
    assert lines[3] == (
        "Row 1, right side: skip 1 chain, 12 sc (one in each of the next chains); 12 stitches."
    )
    assert lines[4] == (
        "Row 2, wrong side: ch 1 that does not count, 12 sc in the back loop; 12 stitches."
    )


def test_a_repeat_that_begins_before_its_bracket_is_counted_with_it() -> None:
    unit = ((fabrics.st(SC), 3), (fabrics.st(DC), 1))
    assert told(Runs((*unit, (Runs(unit), 5)))) == "(3 sc, dc) 6 times"


def test_the_last_of_a_run_joins_what_shares_its_place() -> None:
    made = runs_of([fabrics.st(SC)] * 3 + [fabrics.st(SC, 0)])
    assert told(made) == "2 sc, 2 sc in one stitch"


def test_what_comes_again_is_told_once() -> None:
    made = runs_of([fabrics.st(SC), fabrics.st(DC)] * 4)
    assert told(made) == "(sc, dc) 4 times"


def test_a_skip_and_what_follows_it() -> None:
    made = runs_of([fabrics.st(DC, 3), fabrics.st(DC), fabrics.ch(2), fabrics.st(SC, 2)])
    assert told(made) == "skip 2 places, 2 dc, ch 2, skip 1 place, sc"
    assert put(sequence(made), English(UK)).startswith("miss 2 places, 2 tr")


def test_a_decrease_names_its_places_only_where_they_are_not_the_next_stitches() -> None:
    two = Made("st", DC._replace(together=2), into="st", step=1, also=(1,))
    assert told(runs_of([two, two])) == "2 dc2tog"
    chains = two._replace(into="ch")
    assert told(runs_of([chains, chains])) == "2 dc2tog over chains"
    apart = two._replace(also=(2,))
    assert told(runs_of([apart])) == "dc2tog, the others 2 from the first"
    beside = two._replace(step=0)
    assert told(runs_of([fabrics.st(SC), beside])) == "sc, dc2tog, the first in the same stitch"


def test_a_yarn_is_told_of_every_stitch_where_a_row_has_several() -> None:
    slate, foam = fabrics.st(SC)._replace(yarn="slate"), fabrics.st(SC)._replace(yarn="foam")
    made = Runs(((Runs(((slate, 3), (foam, 1))), 5),))
    assert (
        put(sequence(tidy(made, yarns=True)), English(US))
        == "(3 sc with slate, sc with foam) 5 times"
    )
    assert told(made) == "20 sc"


def test_a_row_of_any_length_is_as_short_as_it_was_written() -> None:
    lines = text(chart(fabrics.wide(10**12), "piece", 0), "US").split("\n")
    row = next(line for line in lines if line.startswith("Row 2"))
    assert row == (
        "Row 2, wrong side: dc, (3 dc, fpdc) 1,000,000,000,000 times, dc; "
        "4,000,000,000,002 stitches."
    )


SOCK = """pattern: Gannet Sock
terms: UK
part leg: in rounds
start: ch 12, join into ring
round 1: ch 1, dc in each ch around, join = 12 sts
part heel: flat
start: over next 6 sts of last round of leg
rows 1-4: ch 1, dc in each st across = 6 sts
part foot: in rounds
start: along last row of heel then along row ends of heel then over last round of leg from 7th st
round 1: ch 1, dc in each st around, join = 16 sts
"""


def test_a_chart_begins_with_every_edge_of_its_start() -> None:
    checked = check_text("sock", SOCK).checked
    assert checked is not None
    begins = {
        part: next(
            line for line in text(chart(checked, part, 0), "UK").split("\n") if "Begin" in line
        )
        for part in ("heel", "foot")
    }
    assert begins == {
        "heel": "Begin with the last round of the leg: 6 places.",
        # The 6 stitches of the heel, its 4 rows, the 6 stitches of the leg that it left.
        "foot": "Begin with the last row of the heel, and then the row ends of the heel, "
        "and then the last round of the leg: 16 places.",
    }
