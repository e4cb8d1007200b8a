"""Equal edges are written in one way, so that what is worked over and over is known again, however
wide it is and however many rows it has."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from loopwright.ir.fabric import Place
from loopwright.ir.runs import Builder, Runs
from loopwright.pipeline import check_text
from loopwright.work.settling import settled

PLACES = [Place("st"), Place("sp", None, 2), Place("ch")]
steady = settings(derandomize=True, deadline=None, database=None, max_examples=300)


@st.composite
def edges(draw: st.DrawFn, depth: int = 2) -> Runs[Place]:
    """An edge, with repeats in repeats."""
    out: Builder[Place] = Builder()
    for _ in range(draw(st.integers(1, 5))):
        if depth and draw(st.booleans()):
            out.repeat(draw(edges(depth - 1)), draw(st.integers(1, 4)))
        else:
            out.add(draw(st.sampled_from(PLACES)), draw(st.integers(1, 4)))
    return out.done()


@steady
@given(edges())
def test_an_edge_that_is_settled_is_the_same_edge(edge: Runs[Place]) -> None:
    assert list(settled(edge).expand()) == list(edge.expand())
    assert settled(edge).length == edge.length


def written(edge: Runs[Place], unit: int, before: int) -> Runs[Place]:
    """A periodic edge with so many places before its repeats, and the rest after them."""
    out: Builder[Place] = Builder()
    for place in edge.slice(0, before).expand():
        out.add(place)
    times = (edge.length - before) // unit - 1
    out.repeat(edge.slice(before, before + unit), times)
    for place in edge.slice(before + unit * times, edge.length).expand():
        out.add(place)
    return out.done()


@steady
@given(edges(depth=0), st.integers(6, 12), st.integers(0, 5), st.integers(0, 5))
def test_wherever_its_repeats_begin_it_is_settled_alike(
    unit: Runs[Place], times: int, one: int, two: int
) -> None:
    whole: Builder[Place] = Builder()
    whole.repeat(unit, times)
    edge = whole.done()
    ways = [written(edge, unit.length, before) for before in (one, two)]
    assert settled(ways[0]) == settled(ways[1])


WAVES = """pattern: Ebb Ripple
terms: US
yarn deep: "wool"
yarn foam: "wool"
part blanket: flat, yarn deep
stripes: 2 rows deep, 3 rows foam
start: ch {wide}
row 1: sc in 2nd ch from hook, sc in each ch across
row 2: ch 3 as dc, dc in same st, 4 dc, dc3tog, 4 dc,
    [3 dc in next st, 4 dc, dc3tog, 4 dc] to last st, 2 dc in last st
repeat row 2: {more} more times
"""


def test_wide_waves_are_worked_like_narrow_ones() -> None:
    """12 stitches a wave, and one; a chain more to turn. Each row makes as many as it takes."""
    for waves in (4, 4_000, 4_000_000_000):
        text = WAVES.replace("{wide}", str(12 * waves + 2)).replace("{more}", "1000003")
        result = check_text("waves", text)
        assert result.clean, [one.text for one in result.diagnostics]
        (fabric,) = result.fabrics
        assert fabric.rows == 1_000_005
        assert fabric.stitches == 1_000_005 * (12 * waves + 1)
