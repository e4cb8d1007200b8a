"""The page of a repository in a real browser: axe finds nothing, in either theme and at either
width, and nothing runs out sideways at 320 pixels."""

from __future__ import annotations

from itertools import product
from pathlib import Path
from urllib.parse import unquote

import pytest

from browser.conftest import Open
from browser.test_accessible import faults
from repository.houses import HOUSE, PLAIN, STRIP, WRONG, write
from support import HOUSE as ROOT
from support import run

LOOKS = pytest.mark.parametrize(
    ("scheme", "width"), list(product(("light", "dark"), (320, 1100))), ids=str
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
        "none/loopwright.toml": 'exclude = ["*"]\n',
        "none/one.crochet": PLAIN,
    }
    write(folder, files)
    for path in (ROOT / "examples").glob("*-mittens.crochet"):
        (folder / "in" / path.name).write_bytes(path.read_bytes())
    made = {}
    for name, code in (("in", 1), ("none", 0)):
        out = folder / f"{name}-page"
        answer = run("overview", str(folder / name), "-o", str(out))
        assert answer.code == code, answer
        made[name] = out / "index.html"
    return made


@LOOKS
@pytest.mark.parametrize("which", ["in", "none"])
def test_axe_finds_nothing(
    which: str, scheme: str, width: int, pages: dict[str, Path], visit: Open
) -> None:
    page = visit(pages[which], width=width, color_scheme=scheme)
    assert faults(page) == []
    assert page.evaluate("document.documentElement.scrollWidth") == width


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
