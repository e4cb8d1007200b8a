"""The page of a repository in a real browser: axe finds nothing, in either theme and at any width,
and nothing runs out sideways, down to 320 pixels."""

from __future__ import annotations

from itertools import product
from pathlib import Path
from urllib.parse import unquote

import pytest

import loopwright
from browser.conftest import Open
from browser.test_accessible import faults
from repository.houses import HOUSE, PLAIN, STRIP, WRONG, write
from support import HOUSE as ROOT
from support import run

LOOKS = pytest.mark.parametrize(
    ("scheme", "width"), list(product(("light", "dark"), (320, 360, 800, 1200))), ids=str
)
ADVICE = PLAIN.replace("part", 'yarn foam: "wool"\npart')
LONG = WRONG.replace("Swatch", "Breakwaterharbourlighthousekeeper" * 3)


@pytest.fixture(scope="module")
def pages(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    """The page of a repository with all that can stand on one, and of one with nothing."""
    folder = tmp_path_factory.mktemp("house")
    files = {
        "in/.git/HEAD": "",
        "in/shared/house.crochet": HOUSE,
        "in/strips/strip.crochet": STRIP,
        "in/wrong.crochet": WRONG,
        "in/advice.crochet": ADVICE,
        f"in/{'a-long-name-' * 8}.crochet": LONG,
    }
    write(folder, files)
    for path in (ROOT / "examples").glob("*-mittens.crochet"):
        (folder / "in" / path.name).write_bytes(path.read_bytes())
    answer = run("overview", str(folder / "in"), "-o", str(folder / "page"))
    assert answer.code == 1, answer
    none = folder / "none.html"
    none.write_text(loopwright.overview([], summary="Nothing yet."), "utf-8")
    return {"in": folder / "page/index.html", "none": none}


@LOOKS
@pytest.mark.parametrize("which", ["in", "none"])
def test_axe_finds_nothing(
    which: str, scheme: str, width: int, pages: dict[str, Path], visit: Open
) -> None:
    page = visit(pages[which], width=width, color_scheme=scheme)
    assert faults(page) == []
    assert page.evaluate("document.documentElement.scrollWidth") == width


@pytest.mark.parametrize("width", [320, 360, 800, 1200])
def test_every_link_lies_on_the_screen_and_every_sheet_on_a_line(
    width: int, pages: dict[str, Path], visit: Open
) -> None:
    page = visit(pages["in"], width=width)
    boxes = page.evaluate(
        "[...document.links].filter(a => !a.hash).map(a => {"
        " const box = a.getBoundingClientRect();"
        " return [a.textContent, box.left, box.right, a.getClientRects().length, box.height]; })"
    )
    sheets = [box for box in boxes if box[0].startswith("Sheet, ")]
    assert len(sheets) >= 6
    assert all(left >= 0 and right <= width for _, left, right, _, _ in boxes)
    assert {lines for _, _, _, lines, _ in sheets} == {1}
    # A line and its padding, and what a finger needs (WCAG 2.2, 2.5.8: 24 pixels).
    assert all(24 <= height < 40 for *_, height in sheets)


def test_no_pattern_takes_more_height_than_it_has_to_say(
    pages: dict[str, Path], visit: Open
) -> None:
    """What stands beside each other is about as high: there are no columns of nothing."""
    page = visit(pages["in"], width=1200)
    tall = page.evaluate(
        "[...document.querySelectorAll('article')].map(a => {"
        " const inner = [...a.children].map(d => [...d.children].reduce("
        "  (high, one) => high + one.getBoundingClientRect().height, 0));"
        " return a.getBoundingClientRect().height - Math.max(...inner); })"
    )
    assert max(tall) < 80


def test_the_themes_differ(pages: dict[str, Path], visit: Open) -> None:
    ground = "getComputedStyle(document.body).backgroundColor"
    light, dark = (
        visit(pages["in"], color_scheme=one).evaluate(ground) for one in ("light", "dark")
    )
    assert light != dark


def test_a_message_is_reached_from_the_table_by_keyboard(
    pages: dict[str, Path], visit: Open
) -> None:
    page = visit(pages["in"])
    link = page.get_by_role("link", name="1 error").first
    link.focus()
    page.keyboard.press("Enter")
    at = unquote(page.evaluate("location.hash"))[1:]
    box = page.evaluate("id => document.getElementById(id).getBoundingClientRect().top", at)
    assert -1 < box < 844  # a part of a pixel may be cut off
    page.get_by_role("link", name="Sheet, UK terms").first.click()
    assert page.get_by_role("heading", level=1).is_visible()
