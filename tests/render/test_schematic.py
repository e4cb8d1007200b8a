"""Schematics: plain SVG, the right lengths at the right letters, the shape to scale."""

from __future__ import annotations

import re
from itertools import pairwise
from math import hypot
from pathlib import Path
from xml.etree import ElementTree

import pytest

from loopwright.pipeline import check_text
from loopwright.render.schematic.pen import BOTTOM, LEAST, TALLEST, TOP, WIDEST, WIDTH, fit
from loopwright.rendering import schematics
from support import EXAMPLES, text_of

SVG = "{http://www.w3.org/2000/svg}"
PLAIN = {"svg", "title", "desc", "rect", "text", "path", "ellipse", "circle"}


def drawn(text: str, terms: str = "UK") -> dict[str, ElementTree.Element]:
    """The schematic of each part, read as XML."""
    made = check_text("test", text).checked
    assert made is not None
    return {part: ElementTree.fromstring(svg) for part, svg in schematics(made, terms)}


def words(svg: ElementTree.Element) -> list[str]:
    return [one.text or "" for one in svg.iter(f"{SVG}text")]


def description(svg: ElementTree.Element) -> str:
    (found,) = svg.iter(f"{SVG}desc")
    return found.text or ""


def shape(svg: ElementTree.Element) -> list[tuple[float, float]]:
    """The points of the shape itself, which is the first filled path."""
    path = next(one.get("d", "") for one in svg.iter(f"{SVG}path") if one.get("fill") != "none")
    pairs = re.findall(r"[ML](-?[\d.]+) (-?[\d.]+)", path)
    return [(float(x), float(y)) for x, y in pairs]


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
@pytest.mark.parametrize("terms", ["UK", "US"])
def test_every_example_is_plain_svg_that_says_what_it_shows(path: Path, terms: str) -> None:
    for part, svg in drawn(text_of(path), terms).items():
        assert {one.tag.removeprefix(SVG) for one in svg.iter()} <= PLAIN
        assert not [
            name for one in svg.iter() for name in one.attrib if name in ("style", "class", "href")
        ]
        (title,) = svg.iter(f"{SVG}title")
        assert (title.text or "").lower().startswith(part)
        for letter in {text for text in words(svg) if re.fullmatch("[A-H]", text)}:
            assert f"{letter}, " in description(svg)
            # once at its line and once where it is explained
            assert words(svg).count(letter) == 2
        width, height = float(svg.get("width", "0")), float(svg.get("height", "0"))
        numbers = [float(one.get("y", "0")) for one in svg.iter(f"{SVG}text")]
        assert max(numbers) < height
        assert width == WIDTH


def test_the_same_bytes_every_time() -> None:
    for path in EXAMPLES:
        made = check_text("test", text_of(path)).checked
        assert made is not None
        assert schematics(made, "UK") == schematics(made, "UK")


def test_every_size_stands_at_its_letter() -> None:
    (path,) = (path for path in EXAMPLES if path.stem == "breakwater-mittens")
    found = drawn(text_of(path))
    # 28, 32 and 36 sts at 17 to 10 cm: 16.5, 18.8 and 21.2 cm, which are 6.5, 7.4 and 8.3 in
    assert "around at the start: 16.5 (19, 21) cm / 6½ (7½, 8¼) in" in words(found["hand"])
    # the cuff's 28, 34 and 40 rows at 20 to 10 cm
    assert "length: 14 (17, 20) cm / 5½ (6¾, 7¾) in" in words(found["cuff"])
    assert "Drawn in the size child." in words(found["cuff"])
    assert "For palm: 1 cm of negative ease, 7%." in words(found["cuff"])


def test_a_flat_piece_is_drawn_to_scale() -> None:
    text = "\n".join(
        (
            "pattern: Leaf", "terms: US", "gauge g: 10 sts and 10 rows to 10 cm in sc",
            "part leaf: flat, gauge g", "start: ch 11",
            "row 1: sc in 2nd ch from hook, sc in each ch across = 10 sts",
            "rows 2-11: ch 1, sc inc, sc in each st to last st, sc inc", "",
        )
    )  # fmt: skip
    points = shape(drawn(text, "US")["leaf"])
    # 10 cm wide at the foot, 30 at the top, 11 high, the first of them straight
    xs, ys = [x for x, _ in points], [y for _, y in points]
    scale = (max(ys) - min(ys)) / 110
    assert max(xs) - min(xs) == pytest.approx(300 * scale, abs=0.3)
    foot = [x for x, y in points if y == max(ys)]
    assert max(foot) - min(foot) == pytest.approx(100 * scale, abs=0.3)


def test_a_tube_is_drawn_to_scale() -> None:
    text = "\n".join(
        (
            "pattern: Tube", "terms: US", "gauge g: 20 sts and 20 rounds to 10 cm in sc",
            "part tube: in rounds, gauge g", "start: ch 60, join into ring",
            "round 1: ch 1, sc in each ch around, join",
            "rounds 2-30: ch 1, sc in each st around, join", "",
        )
    )  # fmt: skip
    points = shape(drawn(text, "US")["tube"])
    # 30 cm around are 9.55 cm across; 30 rounds are 15 cm high
    wide = max(x for x, _ in points) - min(x for x, _ in points)
    high = max(y for _, y in points) - min(y for _, y in points)
    assert wide / high == pytest.approx(95.49 / 150, rel=0.01)


def test_a_square_has_four_equal_sides() -> None:
    (path,) = (path for path in EXAMPLES if path.stem == "harbour-square")
    (svg,) = drawn(text_of(path)).values()
    points = shape(svg)
    sides = [hypot(b[0] - a[0], b[1] - a[1]) for a, b in pairwise([*points, points[0]])]
    assert len(points) == 4
    assert sides == pytest.approx([sides[0]] * 4, abs=0.2)
    assert any(word.startswith("each side: about ") for word in words(svg))


def test_what_is_not_in_the_drawing_is_said() -> None:
    text = "\n".join(
        (
            "pattern: Cloth", "terms: US", "gauge g: 20 sts to 10 cm in sc",
            "part cloth: flat, gauge g", "start: ch 21",
            "row 1: sc in 2nd ch from hook, sc in each ch across = 20 sts",
            "rows 2-20: ch 1, sc in each st across = 20 sts", "",
        )
    )  # fmt: skip
    (svg,) = drawn(text, "US").values()
    assert "Drawn as if a row were as high as a stitch is wide." in words(svg)
    assert "heights are not known" in description(svg)
    long = text.replace("20 sts to", "20 sts and 20 rows to").replace("2-20", "2-2000")
    (svg,) = drawn(long, "US").values()
    assert any(word.startswith("Not drawn to scale") for word in words(svg))


def test_a_ruffle_says_by_how_much() -> None:
    text = "\n".join(
        (
            "pattern: Frill", "terms: US", "gauge g: 21 sts and 22 rounds to 10 cm in sc",
            "part frill: in rounds, gauge g, frilled", "start: magic ring",
            "round 1: 6 sc in ring, join = 6 sts",
            "round 2: ch 1, [3 sc in next st] around, join = 18 sts", "",
        )
    )  # fmt: skip
    (svg,) = drawn(text, "US").values()
    # 18 stitches where 12 have room: half a turn more
    assert "The edge ruffles: 180° more than a full turn." in words(svg)


@pytest.mark.parametrize(
    ("wide", "high"), [(100, 100), (10, 10000), (10000, 10), (1, 1e30), (0, 5)]
)
def test_whatever_its_size_a_part_is_drawn_within_the_box(wide: float, high: float) -> None:
    scale = fit(wide, high)
    assert wide * scale.across <= WIDEST + 1e-6
    assert high * scale.up <= TALLEST + 1e-6
    if wide:
        assert wide * scale.across >= LEAST - 1e-6
    assert high * scale.up >= LEAST - 1e-6
    assert TALLEST == BOTTOM - TOP


def test_a_million_million_rows_are_drawn_like_ten() -> None:
    text = "\n".join(
        (
            "pattern: Endless", "terms: US", "gauge g: 20 sts and 20 rounds to 10 cm in sc",
            "part tube: in rounds, gauge g", "start: ch 60, join into ring",
            "round 1: ch 1, sc in each ch around, join",
            "round 2: ch 1, sc in each st around, join",
            "repeat round 2: 1000000000000 more times", "",
        )
    )  # fmt: skip
    (svg,) = drawn(text, "US").values()
    assert len(ElementTree.tostring(svg)) < 5000
