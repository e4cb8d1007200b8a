"""Finished sizes, worked out by hand from the stitches and the gauge."""

from __future__ import annotations

from fractions import Fraction

import pytest
from measuring import measured

from loopwright.ir.checked import Checked
from loopwright.ir.fabric import Fabric, Made, WorkedPart, WorkedRow
from loopwright.ir.numbers import Given
from loopwright.ir.pattern import Gauge, Part, Pattern, Start
from loopwright.ir.runs import Runs, run, runs_of
from loopwright.measure import Extent, finished, length_text
from loopwright.measure.lengths import both
from loopwright.trade.stitches import PLAIN, SLIP, Stitch
from support import EXAMPLES

INCH = Fraction(254, 10)
ST = Made("st", PLAIN, into="st", step=1)


def row(made: Runs[Made], *, is_round: bool = False) -> WorkedRow:
    return WorkedRow(0, "row", 0, is_round, made, Runs(()), Runs(()), (), True, False)


def worked(name: str, *rows: tuple[tuple[WorkedRow, ...], int]) -> WorkedPart:
    return WorkedPart(name, Runs(()), True, False, rows, (), Runs(()), 0, Runs(()), Runs(()))


def gauge(stitches: int, rows: int | None, over: Fraction | int, unit: str) -> Gauge:
    rows_each = None if rows is None else Fraction(rows)
    return Gauge("main", Fraction(stitches), rows_each, Fraction(over), unit, PLAIN)


def part(name: str, manner: str, start: str = "chain", at: str = "main") -> Part:
    return Part(name, manner, Start(start, Given(1)), (), gauge=at)


def checked(at: Gauge, parts: list[Part], *fabrics: list[WorkedPart]) -> Checked:
    names = tuple(f"size {n}" for n in range(len(fabrics)))
    pattern = Pattern("Cowl", "US", names, (), (), (), (), (at,), (), (), tuple(parts))
    made = tuple(Fabric(n, tuple(one), (), 0, 0) for n, one in enumerate(fabrics))
    return Checked(pattern, made)


def test_five_stitches_to_three_inches() -> None:
    # 31 / 5 * 3 = 18.6 in; 8 rows at 4 rows to 3 in = 6 in
    cloth = worked("cloth", ((row(run(ST, 31)),), 8))
    (size,) = finished(checked(gauge(5, 4, 3 * INCH, "in"), [part("cloth", "flat")], [cloth]))
    long = Fraction(186, 10) * INCH
    assert size.wide == Extent(long, long, long)
    assert size.around is None
    assert size.high == 6 * INCH
    assert (size.part, size.size, size.gauge, size.unit) == ("cloth", 0, "main", "in")
    assert length_text(size.wide.widest, size.unit) == "18½ in"


def test_sixteen_stitches_to_ten_centimetres() -> None:
    # 64 / 16 * 10 = 40 cm around; 18 rounds at 18 to 10 cm = 10 cm
    hat = worked("hat", ((row(run(ST, 64), is_round=True),), 18))
    (size,) = finished(checked(gauge(16, 18, 100, "cm"), [part("hat", "rounds")], [hat]))
    assert size.wide is None
    assert size.around == Extent(Fraction(400), Fraction(400), Fraction(400))
    assert size.high == 100
    assert length_text(size.around.widest, "cm") == "40 cm"


def test_first_widest_and_last_row_of_a_shape() -> None:
    # 4, then 12, then 6 stitches at 2 to the cm: 2, 6 and 3 cm
    shape = worked("leaf", ((row(run(ST, 4)), row(run(ST, 12))), 1), ((row(run(ST, 6)),), 1))
    (size,) = finished(checked(gauge(2, None, 10, "cm"), [part("leaf", "flat")], [shape]))
    assert size.wide == Extent(Fraction(20), Fraction(60), Fraction(30))
    assert size.high is None


def test_every_size_of_every_part_with_a_gauge_part_by_part() -> None:
    at = gauge(1, 1, 10, "cm")
    parts = [part("back", "flat"), part("cord", "flat", at=""), part("cuff", "spiral")]

    def fabric(stitches: int) -> list[WorkedPart]:
        return [
            worked("back", ((row(run(ST, stitches)),), 2)),
            worked("cord", ((row(run(ST, stitches)),), 2)),
            worked("cuff", ((row(run(ST, stitches + 1), is_round=True),), 3)),
        ]

    sizes = finished(checked(at, parts, fabric(5), fabric(7)))
    assert [(one.part, one.size) for one in sizes] == [
        ("back", 0),
        ("back", 1),
        ("cuff", 0),
        ("cuff", 1),
    ]
    # 5, 7 stitches wide and 6, 8 around, 1 cm each; 2 rows and 3 rounds high
    assert [one.wide and one.wide.last for one in sizes] == [50, 70, None, None]
    assert [one.around and one.around.last for one in sizes] == [None, None, 60, 80]
    assert [one.high for one in sizes] == [20, 20, 30, 30]


def test_rows_and_rounds_of_one_part() -> None:
    both = worked("bib", ((row(run(ST, 10)),), 4), ((row(run(ST, 28), is_round=True),), 1))
    (size,) = finished(checked(gauge(1, 1, 10, "cm"), [part("bib", "flat")], [both]))
    assert size.wide == Extent(Fraction(100), Fraction(100), Fraction(100))
    assert size.around == Extent(Fraction(280), Fraction(280), Fraction(280))
    assert size.high == 50


def test_what_makes_a_row_wide() -> None:
    # ch 3 as a stitch, 2 stitches, ch 2 over a space, a decrease, an opening of 4 chains:
    # 1 + 2 + 2 + 1 + 4 = 10; the turning chain, the slip stitch, the picot and the join are none
    long = Stitch("long")
    made = runs_of(
        [
            Made("turn", chains=1),
            Made("as", long, chains=3),
            Made("st", long),
            Made("st", long),
            Made("ch", chains=2),
            Made("picot", chains=3),
            Made("st", long._replace(together=2), also=(1,)),
            Made("open", chains=4, opening="thumb"),
            Made("st", SLIP),
            Made("join"),
        ]
    )
    part_made = worked("hand", ((row(made, is_round=True),), 1))
    (size,) = finished(checked(gauge(1, 1, 10, "cm"), [part("hand", "rounds")], [part_made]))
    assert size.around == Extent(Fraction(100), Fraction(100), Fraction(100))
    assert size.openwork


def test_a_row_of_slip_stitches_is_as_wide_as_its_slip_stitches() -> None:
    edge = worked("edge", ((row(run(Made("st", SLIP), 9)),), 1))
    (size,) = finished(checked(gauge(1, 1, 10, "cm"), [part("edge", "flat")], [edge]))
    assert size.wide is not None
    assert size.wide.last == 90
    assert not size.openwork


def test_foundation_stitches_are_a_row_and_a_starting_chain_is_none() -> None:
    band = worked("band", ((row(run(ST, 5)),), 3))
    at = gauge(1, 2, 10, "cm")
    (chain,) = finished(checked(at, [part("band", "flat")], [band]))
    (founded,) = finished(checked(at, [part("band", "flat", "foundation")], [band]))
    assert (chain.high, founded.high) == (15, 20)


def test_a_part_without_rows_has_no_size() -> None:
    at = gauge(1, 1, 10, "cm")
    assert finished(checked(at, [part("tie", "flat")], [worked("tie")])) == ()


def test_cost_follows_what_is_written() -> None:
    # a million million rows of a million million times (3 stitches, 1 stitch)
    many = 10**12
    made: Runs[Made] = Runs(((Runs(((ST, 3), (ST._replace(step=2), 1))), many),))
    blanket = worked("blanket", ((row(made),), many))
    (size,) = finished(checked(gauge(4, 4, 100, "cm"), [part("blanket", "flat")], [blanket]))
    assert size.wide is not None
    assert size.wide.widest == 100 * many
    assert size.high == 25 * many


@pytest.mark.parametrize(
    ("mm", "unit", "text"),
    [
        ("400", "cm", "40 cm"),
        ("402", "cm", "40 cm"),  # 40.2
        ("402.5", "cm", "40.5 cm"),  # 40.25, half-way: up
        ("404", "mm", "40.5 cm"),  # 40.4
        ("2.4", "cm", "0 cm"),
        ("0", "in", "0 in"),
        ("472.44", "in", "18½ in"),  # 18.6
        ("254", "inches", "10 in"),
        ("12.7", "in", "½ in"),
        ("19.05", "inch", "¾ in"),
        ("400", "in", "15¾ in"),  # 15.748
        ("28.575", "in", "1¼ in"),  # 1.125, half-way: up
        ("25400000000000", "in", "1000000000000 in"),
    ],
)
def test_lengths(mm: str, unit: str, text: str) -> None:
    assert length_text(Fraction(mm), unit) == text


def test_a_ball_is_measured_from_end_to_end() -> None:
    # how high it stands is a matter of its filling; 17 rounds at 24 to 10 cm are 7.1 cm
    (path,) = (one for one in EXAMPLES if one.stem == "float-ball")
    found = {one.where: one for one in measured(path.read_text("utf-8")).dimensions}
    assert "standing" not in found
    (over,) = found["over"].lengths
    assert over is not None
    assert round(float(over), 1) == 70.8


def test_equal_lengths_are_equal_in_both_measures() -> None:
    """178 and 182 mm are 18 cm both, and 18 cm are 7.09 in: 7 in for both, though 182 mm alone
    would be 7¼. So in inches: 182 mm are 7¼ in, which are 18.4 cm."""
    assert both([Fraction(178), Fraction(182)], "cm") == "18 cm / 7 in"
    assert both([Fraction(182)], "in") == "7¼ in / 18.5 cm"
