"""The drawing itself: plain SVG, the same every time, every symbol with where it comes from."""

from __future__ import annotations

import re
from xml.etree import ElementTree

import chart_fabrics as fabrics
import pytest

from loopwright.render.chart import chart, svg, text
from loopwright.source import Source

SVG = "{http://www.w3.org/2000/svg}"
NAMES = ["swatch", "coaster", "granny", "tube", "shells"]
ELEMENTS = {"svg", "title", "desc", "rect", "g", "path", "text", "tspan"}


@pytest.mark.parametrize("name", NAMES)
def test_it_is_plain_svg(name: str) -> None:
    picture = svg(chart(getattr(fabrics, name)(), "piece", 0), "UK")
    root = ElementTree.fromstring(picture)
    assert {element.tag.removeprefix(SVG) for element in root.iter()} <= ELEMENTS
    attributes = {key for element in root.iter() for key in element.attrib}
    assert not attributes & {"style", "class", "href", "onclick"}
    assert "url(" not in picture
    assert root.get("role") == "img"


@pytest.mark.parametrize("name", NAMES)
def test_it_carries_its_own_words(name: str) -> None:
    drawn = chart(getattr(fabrics, name)(), "piece", 0)
    root = ElementTree.fromstring(svg(drawn, "US"))
    assert root.findtext(f"{SVG}title") == drawn.title
    assert root.findtext(f"{SVG}desc") == text(drawn, "US")
    named = root.get("aria-labelledby", "").split()
    assert [root.find(f"{SVG}title").get("id"), root.find(f"{SVG}desc").get("id")] == named  # type: ignore[union-attr]


@pytest.mark.parametrize("name", NAMES)
def test_the_same_chart_gives_the_same_bytes(name: str) -> None:
    one = svg(chart(getattr(fabrics, name)(), "piece", 0), "UK")
    two = svg(chart(getattr(fabrics, name)(), "piece", 0), "UK")
    assert one == two
    assert not re.search(r"\d\.\d{3,}", one)
    for path in re.findall(r' d="([^"]*)"', one):
        assert re.fullmatch(r"[MLQAZ0-9. -]+", path)


def test_every_symbol_tells_where_it_comes_from() -> None:
    source = Source("sample.crochet", "a" * 9 + "\n" + "b" * 30)
    drawn = chart(fabrics.swatch(), "piece", 0)
    root = ElementTree.fromstring(svg(drawn, "UK", source))
    groups = [g for g in root.iter(f"{SVG}g") if g.get("data-stitch")]
    assert len(groups) == len(drawn.symbols)
    for group, symbol in zip(groups, drawn.symbols, strict=True):
        assert group.get("data-row") == str(symbol.number)
        assert group.get("data-stitch") == str(symbol.nth)
        assert group.get("data-line") == "1"  # every span of the sample begins in its first line
    # The turning chain has no number; the twelve stitches are numbered as they are made.
    third = [g for g in groups if g.get("data-row") == "3" and "dc" in g.get("data-name", "")]
    assert [g.get("data-stitch") for g in third] == [str(n) for n in range(1, 13)]


def key_of(name: str, terms: str) -> list[str]:
    """The words of the key, in order."""
    root = ElementTree.fromstring(svg(chart(getattr(fabrics, name)(), "piece", 0), terms))
    words = [element.text or "" for element in root.iter(f"{SVG}text")]
    return words[words.index("Key") + 1 :]


def test_the_key_names_what_is_used_and_nothing_else() -> None:
    assert key_of("coaster", "US") == ["magic ring", "sc: single crochet"]
    assert key_of("coaster", "UK") == ["magic ring", "dc: double crochet"]
    granny = key_of("granny", "UK")
    assert "tr: treble" in granny
    assert not any("magic" in entry or "half" in entry for entry in granny)


def test_front_and_back_are_explained_where_both_sides_are_worked() -> None:
    swatch = svg(chart(fabrics.swatch(), "piece", 0), "UK")
    assert "Front and back of loops are drawn as the right side shows" in swatch
    assert "Front and back" not in svg(chart(fabrics.tube(), "piece", 0), "UK")


def test_the_direction_of_reading_is_said() -> None:
    assert "Right-side rows are read from right to left." in text(
        chart(fabrics.swatch(), "piece", 0), "UK"
    )
    assert "anticlockwise" in text(chart(fabrics.coaster(), "piece", 0), "UK")
    assert "every round from right to left" in text(chart(fabrics.tube(), "piece", 0), "UK")
