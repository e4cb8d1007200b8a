"""Which stitch goes into which: the edge laid beside the row that left it."""

from __future__ import annotations

from dataclasses import replace

import chart_fabrics as fabrics

from loopwright.ir.fabric import Made, Place, WorkedRow
from loopwright.ir.runs import runs_of
from loopwright.render.chart.links import Ref, edge_of, link, start_edge

SC, DC, HDC = fabrics.SC, fabrics.DC, fabrics.HDC
KINDS = [SC, DC, HDC, SC]


def row(made: list[Made], below: list[Place], *, turned: bool, is_round: bool) -> WorkedRow:
    return WorkedRow(
        0,
        "row",
        1,
        is_round,
        runs_of(made),
        runs_of(below),
        runs_of(fabrics.left_by(made)),
        (),
        turned,
        False,
        spans=fabrics.SPANS,
    )


def feet(worked: WorkedRow, before: list[tuple[Ref, Place]]) -> list[tuple[int, int]]:
    """The place and the turn of each thing's first foot."""
    linked = link(worked, 2, 2, before, [])
    return [(t.feet[0].place, t.feet[0].turn) for t in linked.things if t.feet]


def below_four() -> list[tuple[Ref, Place]]:
    """A row of four stitches in four chains, as an edge in the order made."""
    first = row(
        [fabrics.st(kind, 1, "ch") for kind in KINDS],
        [Place("ch")] * 4,
        turned=False,
        is_round=False,
    )
    return edge_of(link(first, 1, 1, start_edge([Place("ch")] * 4), []), 1)


def places(order: list[int]) -> list[Place]:
    return [Place("st", KINDS[i]) for i in order]


FOUR = [fabrics.st(SC)] * 4


def test_flat_rows_meet_the_edge_from_its_end() -> None:
    worked = row(FOUR, places([3, 2, 1, 0]), turned=True, is_round=False)
    assert feet(worked, below_four()) == [(3, 0), (2, 0), (1, 0), (0, 0)]


def test_rounds_meet_the_edge_from_its_beginning() -> None:
    worked = row(FOUR, places([0, 1, 2, 3]), turned=False, is_round=True)
    assert feet(worked, below_four()) == [(0, 0), (1, 0), (2, 0), (3, 0)]


def test_a_turned_round_begins_in_the_first_and_goes_back() -> None:
    worked = row(FOUR, places([0, 3, 2, 1]), turned=True, is_round=True)
    assert feet(worked, below_four()) == [(0, 0), (3, -1), (2, -1), (1, -1)]


def test_a_round_that_moves_on_meets_what_it_passed_last() -> None:
    worked = replace(row(FOUR, places([1, 2, 3, 0]), turned=False, is_round=True), shift=1)
    assert feet(worked, below_four()) == [(1, 0), (2, 0), (3, 0), (0, 1)]
    assert [ref.place for ref in link(worked, 2, 2, below_four(), []).moved] == [0]


def test_a_turned_round_that_moves_on_meets_what_it_passed_once_further_back() -> None:
    # It would meet first, last, last but one, second; it passes the first two of these.
    worked = replace(row(FOUR, places([2, 1, 0, 3]), turned=True, is_round=True), shift=2)
    assert feet(worked, below_four()) == [(2, -1), (1, -1), (0, -1), (3, -2)]
    assert [ref.place for ref in link(worked, 2, 2, below_four(), []).moved] == [0, 3]


def test_stitches_in_one_place_and_decreases() -> None:
    made = [
        fabrics.st(SC),
        fabrics.st(SC, 0),
        Made("st", SC._replace(together=2), into="st", step=1, also=(1,)),
        fabrics.st(SC),
    ]
    linked = link(
        row(made, places([0, 1, 2, 3]), turned=False, is_round=True), 2, 2, below_four(), []
    )
    feet_of = [[ref.place for ref in thing.feet] for thing in linked.things]
    assert feet_of == [[0], [0], [1, 2], [3]]


def test_what_is_jumped_is_known() -> None:
    made = [fabrics.st(SC), fabrics.ch(2), fabrics.st(SC, 3)]
    linked = link(
        row(made, places([0, 1, 2, 3]), turned=False, is_round=True), 2, 2, below_four(), []
    )
    assert [ref.place for ref in linked.things[2].jumped] == [1, 2]
    assert [thing.place for thing in linked.things] == [0, 1, 2]


def test_a_spiral_goes_on_with_what_was_left() -> None:
    # Three of four worked; the next round begins with the one that is left.
    first = link(
        row([fabrics.st(SC)] * 3, places([0, 1, 2, 3]), turned=False, is_round=True),
        2,
        2,
        below_four(),
        [],
    )
    assert [ref for ref, _ in first.left] == [Ref(1, 3)]
    onward = row([fabrics.st(SC)] * 4, [Place("st", SC)] * 4, turned=False, is_round=True)
    linked = link(onward, 3, 3, edge_of(first, 2), first.left)
    first_feet = [thing.feet[0] for thing in linked.things]
    assert first_feet == [Ref(1, 3), Ref(2, 0), Ref(2, 1), Ref(2, 2)]
