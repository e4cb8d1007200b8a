"""The surface of rounds against geometry: spheres, flat discs, tubes, cones and hyperbolic planes.

Source keys are those of the trade's tables: F (flat circles), G (heights of rows), M (mathematical
models).
"""

from __future__ import annotations

import tomllib
from math import cos, degrees, hypot, pi, sin

import pytest
from measuring import measured, pattern, profile

from loopwright.measure.shape import Profile
from support import TESTS, WORKED, text_of

SQUARE = "20 sts and 20 rounds to 10 cm in sc"  # a stitch is as high as it is wide: 5 mm
# 2 pi is 44/7 to four hundredths of one per cent: 21 sts and 22 rounds make a round as high as
# 21/22 of a stitch, and 2 pi times that is 6 stitches.
SIX = "21 sts and 22 rounds to 10 cm in sc"


def rounds(counts: list[int]) -> list[str]:
    """Joined rounds of so many sc."""
    lines = ["start: magic ring", f"round 1: {counts[0]} sc in ring, join = {counts[0]} sts"]
    for number, n in enumerate(counts[1:], 2):
        lines.append(f"round {number}: ch 1, {n} sc evenly, join = {n} sts")
    return lines


def off_the_sphere(found: Profile, radius: float) -> float:
    """How far the rings are off a sphere that touches the first, as a share of its radius."""
    return max(abs(hypot(ring.radius, ring.height - radius) - radius) for ring in found.rings) / (
        radius
    )


def test_a_published_sphere_is_a_sphere() -> None:
    # worked 04: 6, 12, 16, 20, 22, 22, 20, 16, 12 stitches. The widest is 22: a radius of 22 / 2 pi
    # = 3.5 stitches, and round n of a sphere is 22 sin(n / 3.5): 6.2, 11.9, 16.6, 20.0, 21.8 ...
    (path,) = (path for path in WORKED if path.stem == "04-small-sphere-22")
    text = text_of(path).replace("part ball: in rounds", f"gauge g: {SQUARE}\npart ball: in rounds")
    text = text.replace("in rounds, shaped", "in rounds, gauge g, shaped")
    found = profile(text)
    assert len(found.rings) == 10
    radius = 22 * 5 / (2 * pi)
    assert found.widest.radius == pytest.approx(radius)
    assert off_the_sphere(found, radius) < 0.07


def test_a_generated_sphere_is_a_sphere() -> None:
    # Rounds 5 mm high on a sphere of 100 mm: round n lies at an angle of n / 20 from the pole and
    # is 2 pi 100 sin(n / 20) mm around, 40 pi sin(n / 20) stitches, to the nearest whole stitch.
    counts = [round(40 * pi * sin(n / 20)) for n in range(1, 62)]
    found = profile(pattern(SQUARE, "in rounds, shaped", *rounds(counts)))
    assert off_the_sphere(found, 100) < 0.03
    for at, ring in enumerate(found.rings):
        assert ring.radius == pytest.approx(100 * sin(at / 20), abs=0.5)
        assert ring.height == pytest.approx(100 * (1 - cos(at / 20)), abs=4)
    # from pole to pole but for 62.8 - 61 = 1.8 rounds
    assert found.height == pytest.approx(200, abs=4)


def grown(gauge: str, stitch: str, each: int, manner: str = "in rounds") -> str:
    """Nine rounds that begin with so many stitches and grow by as many."""
    repeat = f"[{{r - 2}} {stitch}, {stitch} inc] {each} times"
    return pattern(
        gauge,
        manner,
        "start: magic ring",
        f"round 1: {each} {stitch} in ring, join = {each} sts",
        f"rounds 2-9 as r: {repeat}, join = {{{each} * r}} sts",
    )


@pytest.mark.parametrize(
    ("gauge", "stitch", "each"),
    [
        (SIX, "sc", 6),
        # magicformula has 8 hdc and 12 dc where it has 6 sc: rounds 8/6 and 12/6 as high, which
        # are 16.5 and 11 rounds to 10 cm where sc has 22
        ("21 sts and 16.5 rounds to 10 cm in hdc", "hdc", 8),
        ("21 sts and 11 rounds to 10 cm in dc", "dc", 12),
        # and at one and the same gauge, dc being twice as high as sc (G: ambassador, picotedge)
        (SIX, "dc", 12),
    ],
)
def test_published_flat_circles_are_flat(gauge: str, stitch: str, each: int) -> None:
    part = measured(grown(gauge, stitch, each))
    assert part.form is not None
    assert part.form.kind == "disc"
    found = part.form.profile
    assert found is not None
    last = found.rings[-1]
    # the edge is as far from the middle as the fabric is long, and no higher
    assert last.radius == pytest.approx(last.slant, rel=0.001)
    assert found.height < 0.04 * last.slant
    assert degrees(found.excess) < 1
    # nine rounds of `each` stitches more: 9 each / 2.1 cm around, and that over pi across
    assert last.around == pytest.approx(9 * each * 100 / 21)


def test_eight_half_doubles_lie_flat_at_their_published_height_too() -> None:
    # G (ambassador): hdc is 3/2 of sc, so that 9 hdc are flat where 6 sc are. 8 are 8/9 of that:
    # F has 8 to 12 (elephants), one and a half times; the root of it, 1.22, is allowed either way.
    assert measured(grown(SIX, "hdc", 8)).form.kind == "disc"  # type: ignore[union-attr]
    assert measured(grown(SIX, "hdc", 7)).form.kind == "surface"  # type: ignore[union-attr]


def test_a_cone() -> None:
    # 3 stitches a round where 6 are flat: half as far out as along the fabric, so it rises by the
    # root of 1 - 1/4 of it. Nine rounds of 100/22 mm are 40.9 mm along, 35.4 mm high.
    found = profile(grown(SIX, "sc", 3, "in rounds, shaped"))
    last = found.rings[-1]
    assert last.slant == pytest.approx(900 / 22)
    assert last.radius == pytest.approx(last.slant / 2, rel=0.001)
    assert found.height == pytest.approx(last.slant * (3 / 4) ** 0.5, rel=0.001)


def test_a_tube() -> None:
    # 44 stitches of 10/2.1 mm around, 22 rounds of 10/2.2 mm: 209.5 mm around, 100 mm high
    text = pattern(
        SIX,
        "in rounds",
        "start: ch 44, join into ring",
        "round 1: ch 1, sc in each ch around, join = 44 sts",
        "rounds 2-22: ch 1, sc in each st around, join = 44 sts",
    )
    found = profile(text)
    assert found.height == pytest.approx(100)
    assert {round(ring.radius * 2 * pi, 4) for ring in found.rings} == {209.5238}
    assert found.excess == 0


def test_a_ruffle_has_the_angle_that_it_has_too_much() -> None:
    # 6 flat, then three times as many: round 2 is 18 stitches at 2 rounds, which hold 12.
    # 18 / 12 of a full turn: half a turn, 180 degrees, too much.
    text = pattern(
        SIX,
        "in rounds, frilled",
        "start: magic ring",
        "round 1: 6 sc in ring, join = 6 sts",
        "round 2: ch 1, [3 sc in next st] around, join = 18 sts",
    )
    found = profile(text)
    assert found.height == pytest.approx(0, abs=0.5)
    assert found.rings[-1].radius == pytest.approx(2 * 100 / 22)
    assert degrees(found.rings[-1].excess) == pytest.approx(180, abs=0.5)
    assert measured(text).excess == round(degrees(found.excess))


def test_hyperbolic_work_grows_exponentially() -> None:
    with (TESTS / "trade" / "data" / "M_mathematical.toml").open("rb") as file:
        model = tomllib.load(file)["hyperbolic"]
    counts = model["pseudosphere_N1"]  # hyptimary: 6, 12, 24, 48, 96
    assert counts == [6 * 2**n for n in range(5)]
    lines = ["start: magic ring", "round 1: 6 sc in ring = 6 sts"]
    lines += [f"round {n}: [sc inc] around = {counts[n - 1]} sts" for n in range(2, 6)]
    found = profile(pattern(SIX, "in a spiral, frilled", *lines))
    rings = found.rings[1:]
    assert [ring.around for ring in rings] == pytest.approx([n * 100 / 21 for n in counts])
    # as far along the fabric again, twice as long again: 2 to the power of the rounds
    assert [ring.slant for ring in rings] == pytest.approx([n * 100 / 22 for n in range(1, 6)])
    excess = [degrees(ring.excess) for ring in rings]
    # round n lies on a disc of n rounds, which hold 6 n: 2^(n-1) / n turns, one of them flat
    wanted = [360 * (2 ** (n - 1) / n - 1) for n in range(1, 6)]
    assert excess == pytest.approx(wanted, abs=1)


def test_a_ratio_of_five_to_four() -> None:
    # hyp54: 20 chains, then two in every fourth stitch: 25, then 31 (25 = 6 x 4 + 1)
    text = pattern(
        SIX,
        "in a spiral, frilled",
        "start: ch 20, join into ring",
        "round 1: [3 sc, sc inc] around = 25 sts",
        "round 2: [3 sc, sc inc] 6 times, sc = 31 sts",
    )
    rings = profile(text).rings
    assert [ring.around for ring in rings[1:]] == pytest.approx([2500 / 21, 3100 / 21])


def test_a_million_million_rounds_cost_no_more_than_one() -> None:
    text = pattern(
        SIX,
        "in rounds",
        "start: ch 44, join into ring",
        "round 1: ch 1, sc in each ch around, join = 44 sts",
        "round 2: ch 1, sc in each st around, join = 44 sts",
        "repeat round 2: 1000000000000 more times",
    )
    found = profile(text)
    assert len(found.rings) < 10
    assert found.height == pytest.approx((10**12 + 2) * 100 / 22)


def test_rounds_by_turns_wide_and_narrow_are_carried_on() -> None:
    # 44 and 40 stitches by turns: each round moves in or out by 4 x 100/21 / 2 pi = 3.03 mm and is
    # 4.545 mm along the fabric, so that it rises by 3.39 mm; the first round of all stands upright.
    text = pattern(
        SIX,
        "in rounds",
        "start: ch 44, join into ring",
        "round 1: ch 1, sc in each ch around, join = 44 sts",
        "round 2: ch 1, [9 sc, sc dec] 4 times, join = 40 sts",
        "round 3: ch 1, [9 sc, sc inc] 4 times, join = 44 sts",
        "repeat rounds 2-3: 1000000000 more times",
    )
    rise = ((100 / 22) ** 2 - (400 / 21 / (2 * pi)) ** 2) ** 0.5
    found = profile(text)
    assert found.height == pytest.approx(100 / 22 + 2 * (10**9 + 1) * rise)
    assert len(found.rings) < 20


def test_a_tube_after_a_ruffle_goes_on_flat_until_it_has_room() -> None:
    # 6 stitches, then 60: a radius of 60 x 100/21 / 2 pi = 45.47 mm. It goes on flat at 100/22 =
    # 4.545 mm a round, and has room for 60 after 10 rounds in all; the other 91 stand up.
    text = pattern(
        SIX,
        "in rounds, frilled",
        "start: magic ring",
        "round 1: 6 sc in ring, join = 6 sts",
        "round 2: ch 1, [10 sc in next st] around, join = 60 sts",
        "round 3: ch 1, sc in each st around, join = 60 sts",
        "repeat round 3: 98 more times",
    )
    form = measured(text).form
    assert form is not None
    assert form.profile is not None
    assert form.profile.widest.radius == pytest.approx(6000 / 21 / (2 * pi))
    assert form.profile.height == pytest.approx(91 * 100 / 22, rel=0.01)
    assert form.profile.rings[-1].slant == pytest.approx(101 * 100 / 22)
    assert form.profile.rings[-1].excess == 0


def test_a_hat_that_grows_fast_is_no_ruffled_disc() -> None:
    # 12 dc a round, where 9.8 lie flat (14 sts and 9 rounds to 4 in), and then a tube of 60
    text = pattern(
        "14 sts and 9 rounds to 4 in in dc",
        "in rounds, shaped",
        "start: magic ring",
        "round 1: ch 2, 12 dc in ring, join = 12 sts",
        "rounds 2-5 as r: ch 2, [{r - 2} dc, dc inc] 12 times, join = {12 * r} sts",
        "rounds 6-15: ch 2, dc in each st around, join = 60 sts",
    )
    form = measured(text).form
    assert form is not None
    assert form.kind == "surface"
    assert measured(text).dimensions[0].where == "last"


def test_lace_in_the_round_is_not_said_to_stand() -> None:
    # Rounds of 40 sts, and of 20 sc with 20 chain spaces between them: how wide a round of meshes
    # lies is a guess, so nothing is told of how it stands aslant. 8 rounds of mesh and 9 of sc.
    text = pattern(
        SIX,
        "in rounds",
        "start: ch 40, join into ring",
        "round 1: ch 1, sc in each ch around, join = 40 sts",
        "round 2: ch 1, [sc, ch 3, skip 1 st] around, join = 20 sts, 20 ch-3 sps",
        "round 3: ch 1, [sc in next st, sc in next ch-3 sp] around, join = 40 sts",
        "repeat rounds 2-3: 7 more times",
    )
    found = measured(text)
    told = [(one.where, one.words) for one in found.dimensions if one.where in ("high", "standing")]
    assert told == [("high", "height, on the fabric")]
