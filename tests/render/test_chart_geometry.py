"""Every chart of every example and worked pattern, and of patterns made up at random, measured.

What is measured is the ink itself (``chart_shapes``). ``SHARED`` is how much of its ink a symbol
may share with another: a stitch begins on the top of another, stitches out of one place share
their foot, and cables cross; but nothing lies on anything. A made-up row may take in and give out
more than any cloth could, so that there only most symbols must keep to it.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path

import pytest
import shapely
from chart_geometry import STITCHES, row_of, rows_drawn, turning
from chart_shapes import ink, overlaps
from hypothesis import HealthCheck, Phase, given, settings
from shapely import STRtree
from shapely.geometry import MultiPoint, Point

from loopwright.pipeline import check_text
from loopwright.render.chart import Chart, Symbol, chart
from properties.strategies import patterns

HOUSE = Path(__file__).parents[2]
SHARED = 0.2
MADE_UP = 0.25  # in made-up patterns, for 99 symbols of 100
OWN = ("chain of this row",)
NEAR = 8.0  # half a stitch: how far from the ink of its place a symbol may start
FOLDERS = (HOUSE / "examples", HOUSE / "tests/worked")
WORKED = [path for folder in FOLDERS for path in sorted(folder.glob("*.crochet"))]


def charts(text: str, **more: bool) -> list[Chart]:
    checked = check_text("sample", text).checked
    if checked is None:
        return []
    return [chart(checked, part.name, 0, **more) for part in checked.pattern.parts]


drawn_from = {path: charts(path.read_text("utf-8")) for path in WORKED}
PATHS = [path for path in WORKED if drawn_from[path]]
each = pytest.mark.parametrize("path", PATHS, ids=lambda path: path.stem)


def stitches(drawn: Chart) -> Iterator[Symbol]:
    for symbol in drawn.symbols:
        if symbol.row and symbol.feet and symbol.look.shape in STITCHES:
            yield symbol


@each
def test_no_two_symbols_overlap(path: Path) -> None:
    for drawn in drawn_from[path]:
        for share, one, two in overlaps(drawn):
            assert share <= SHARED, (drawn.title, one.number, one.nth, two.number, two.nth)


@each
def test_every_symbol_starts_at_its_place_and_ends_at_its_top(path: Path) -> None:
    for drawn in drawn_from[path]:
        assert_planted(drawn)


def assert_planted(drawn: Chart) -> None:
    """Every foot of every stitch is on the ink of a row drawn before it (or of the chain of its own
    row), and the lines of the symbol lead from there to its top."""
    lower = drawn.symbols
    shapes = [ink(symbol) for symbol in lower]
    tree = STRtree(shapes)
    for symbol in stitches(drawn):
        own = ink(symbol)
        assert own.distance(Point(symbol.top)) <= 2.5, (drawn.title, symbol)
        if " into the ring" in str(symbol.words[0]) and drawn.manner == "flat rounds":
            continue  # the ring is drawn once, in the middle of a row that is spread out
        for foot in symbol.feet:
            assert own.distance(Point(foot)) <= 2.5, (drawn.title, symbol)
            near = tree.query(Point(foot), predicate="dwithin", distance=NEAR)
            places = [lower[i] for i in near]
            assert any(one.row < symbol.row or one.words == OWN for one in places), (
                drawn.title,
                symbol,
            )


@each
def test_nothing_leaves_the_page(path: Path) -> None:
    for drawn in drawn_from[path]:
        assert_on_page(drawn)


def assert_on_page(drawn: Chart) -> None:
    page = shapely.box(0, 0, drawn.width, drawn.height)
    for symbol in drawn.symbols:
        assert page.contains(ink(symbol)), (drawn.title, symbol)
    for mark in drawn.marks:
        assert page.contains(Point(mark.at))


@each
def test_rows_are_in_order(path: Path) -> None:
    for drawn in drawn_from[path]:
        assert_in_order(drawn)


def assert_in_order(drawn: Chart) -> None:
    """Along a row the stitches follow one another in the direction of reading; and row stands on
    row: each next one is further up, or further out."""
    for row in range(1, rows_drawn(drawn) + 1):
        tops = [symbol.top for symbol in row_of(drawn, row)]
        if drawn.manner in ("rows", "flat rounds"):
            across = [top.x for top in tops]
            assert across in (sorted(across), sorted(across, reverse=True)), (drawn.title, row)
        if drawn.manner in ("rounds", "half circle"):
            ways = [turning(a, b, middle(drawn)) > 0 for a, b in pairwise(tops)]
            # Between two zigzag lines a round goes on once from one of them to the other.
            across = min(ways.count(True), ways.count(False))
            assert across <= max(len(drawn.breaks) - 1, 0), (drawn.title, row)
    levels = [level(drawn, row) for row in range(1, rows_drawn(drawn) + 1)]
    told = [one for one in levels if one is not None]
    assert told == sorted(told), drawn.title


def middle(drawn: Chart) -> Point:
    """The middle of rounds: where the first of them begins."""
    feet = [foot for symbol in drawn.symbols if symbol.row == 1 for foot in symbol.feet]
    ring = [s.top for s in drawn.symbols if s.look.shape in ("magic ring", "chain ring")]
    if ring:
        return ring[0]
    return type(feet[0])(sum(f.x for f in feet) / len(feet), sum(f.y for f in feet) / len(feet))


def level(drawn: Chart, row: int) -> float | None:
    """How far up or out the stitches of a row end, on average."""
    tops = [symbol.top for symbol in row_of(drawn, row)]
    if not tops:
        return None
    if drawn.manner in ("rows", "flat rounds"):
        return sum(-top.y for top in tops) / len(tops)
    if drawn.manner in ("rounds", "half circle"):
        at = middle(drawn)
        return sum(((t.x - at.x) ** 2 + (t.y - at.y) ** 2) ** 0.5 for t in tops) / len(tops)
    return None


def outline(name: str, part: str) -> shapely.Geometry:
    """The hull of all that is drawn of a part."""
    path = next(path for path in PATHS if path.stem == name)
    drawn = next(one for one in drawn_from[path] if one.part == part)
    return MultiPoint([symbol.top for symbol in drawn.symbols]).convex_hull


def test_squares_are_square_and_hexagons_hexagonal_and_discs_round() -> None:
    # A square fills 2 / pi of the circle around it, a hexagon 3 sqrt(3) / 2 pi, a disc all of it.
    fills = {"harbour-square": 0.637, "24-granny-uk": 0.637, "22-hexagon-and-half": 0.827}
    for name, part, fill in (
        ("harbour-square", "square", fills["harbour-square"]),
        ("24-granny-uk", "square", fills["24-granny-uk"]),
        ("22-hexagon-and-half", "full", fills["22-hexagon-and-half"]),
        ("limpet-coaster", "disc", 1.0),
        ("foghorn-hat", "hat", 1.0),
    ):
        shape = outline(name, part)
        circle = shapely.minimum_bounding_circle(shape)
        assert shape.area / circle.area == pytest.approx(fill, abs=0.07), name


def test_ripples_lie_in_waves_and_shells_do_not() -> None:
    ripple = by_name("ebb-ripple", "blanket")
    top = row_of(ripple, rows_drawn(ripple))
    closed = [s.top.y for s in top if s.look.shape == "together"]
    opened = [
        s.top.y
        for one, s, two in zip(top, top[1:], top[2:], strict=False)
        if one.feet == s.feet == two.feet
    ]
    # y runs down: where three stitches come out of one, the row is more than a stitch higher.
    assert min(closed) - max(opened) > 16
    scarf = by_name("limpet-scarf", "scarf")
    start = {s.top.y for s in scarf.symbols if s.row == 0 and s.look.shape == "chain"}
    assert len(start) == 1


def test_edge_stitches_stay_with_a_row_that_takes_in() -> None:
    back = by_name("50-raglan-pullover-uk", "back")
    for row in range(1, rows_drawn(back) + 1):
        across = sorted(symbol.top.x for symbol in row_of(back, row))
        # 16 to a stitch: none stands further off than three stitches taken in as one leave room.
        assert max(b - a for a, b in pairwise(across)) < 3 * 16


def test_brackets_say_how_often_in_every_size() -> None:
    # Less 4 cm for the stretch, 44 (50, 56) cm at 14 stitches to 10 cm are 61.6 (70, 78.4); the
    # nearest multiples of 8 are 64 (72, 80), in repeats of 8 stitches.
    hat = by_name("lantern-hat", "hat")
    said = [bracket.text for bracket in hat.brackets]
    assert "8 sts, work 8 (9, 10) times" in said
    # 70 (110, 180) cm at 13 stitches to 10 cm are 91 (143, 234); the nearest multiples of 12 plus
    # 1 are 97 (145, 229). Less 13 at the edges, that is 84 (132, 216): 12 for each repeat.
    ripple = by_name("ebb-ripple", "blanket")
    assert "12 sts, work 7 (11, 18) times" in [bracket.text for bracket in ripple.brackets]


def by_name(name: str, part: str) -> Chart:
    """The chart of a part of an example or worked pattern."""
    path = next(path for path in PATHS if path.stem == name)
    return next(one for one in drawn_from[path] if one.part == part)


def test_the_bracket_says_how_much_of_the_start_a_repeat_goes_over() -> None:
    # Three stitches of the start to a repeat: one worked and two passed, under a ch-3 space that
    # takes three, with the stitch between two spaces passed.
    text = """pattern: Gull Cowl
terms: UK
part cowl: in rounds
start: ch 78, join into ring
round 1: ch 3 as tr, tr in each ch around, join = 78 sts
round 2: ch 1, [dc, ch 3, miss 2 sts] around, join = 26 sts
round 3: ch 3, [3 tr in next ch-3 sp] around, join = 78 sts
"""
    (drawn,) = charts(text)
    assert [one.text for one in drawn.brackets] == ["3 sts, work 26 times"]


def test_a_border_goes_around_its_piece() -> None:
    path = next(path for path in PATHS if path.stem == "pebble-cloth")
    edge = next(one for one in drawn_from[path] if one.part == "edge")
    base = MultiPoint([s.top for s in edge.symbols if s.row == 0]).convex_hull
    first = [Point(symbol.top) for symbol in row_of(edge, 1)]
    assert len(first) == 132
    assert not any(base.contains(point) for point in first)
    # 31 stitches of the last row and the chain, 35 row ends at each side; 29 and 2 x 3 along the
    # top and the bottom, and 31 along each side: 4 of every 5 sides' stitches lie straight above.
    sides = shapely.box(*base.bounds)
    assert sides.area / base.area == pytest.approx(1.0, abs=0.03)


made_up = settings(
    max_examples=40,
    derandomize=True,
    deadline=None,
    phases=(Phase.generate,),
    database=None,
    suppress_health_check=list(HealthCheck),
)


@made_up
@given(patterns(faulty=False))
def test_made_up_patterns_are_drawn_in_order_and_on_the_page(text: str) -> None:
    for drawn in charts(text):
        assert_on_page(drawn)
        shared = [share for share, _, _ in overlaps(drawn)]
        over = sum(share > MADE_UP for share in shared)
        assert over <= 2 + len(drawn.symbols) // 50, text


@made_up
@given(patterns(faulty=False))
def test_made_up_patterns_have_their_stitches(text: str) -> None:
    checked = check_text("sample", text).checked
    if checked is None:
        return
    for part in checked.fabrics[0].parts:
        drawn = chart(checked, part.name, 0, whole=True)
        rows = [row for these, times in part.rows for _ in range(times) for row in these]
        for index, row in enumerate(rows, start=1):
            made = sum(
                n
                for one, n in row.made.tally().items()
                if one.what == "st" and one.stitch and one.stitch.basic != "slip"
            )
            assert len(row_of(drawn, index)) == made, text


@pytest.mark.parametrize("size", range(3))
def test_a_crown_taken_in_at_the_same_places_is_no_ripple(size: int) -> None:
    """Only 6 of the cabled hat's 21 rounds are taken in, so its starting chain lies level."""
    checked = check_text("hat", (HOUSE / "examples" / "hawser-hat.crochet").read_text()).checked
    assert checked is not None
    drawn = chart(checked, "hat", size)
    start = {one.top.y for one in drawn.symbols if one.row == 0 and one.look.shape == "chain"}
    assert len(start) == 1
