"""axe finds nothing in any example's page: the sheet, the question, and a row at the hook, in the
light and in the dark theme, on a desk and at 320 pixels."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page

from browser.conftest import Open
from support import EXAMPLES

EVERY = pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
THEMES = pytest.mark.parametrize(("scheme", "width"), [("light", 320), ("dark", 1100)])


def faults(page: Page) -> list[str]:
    """What axe has against a page as it stands, by all of its rules."""
    found = Axe().run(page).response["violations"]
    return [
        f"{one['id']}: {one['help']}: {node['html'][:160]}"
        for one in found
        for node in one["nodes"]
    ]


@EVERY
@THEMES
def test_axe_finds_nothing(
    path: Path, scheme: str, width: int, examples: Callable[[str], Path], visit: Open
) -> None:
    page = visit(examples(path.stem), width=width, color_scheme=scheme)
    assert faults(page) == []
    page.get_by_role("button", name="Work from it, row by row").click()
    assert faults(page) == []
    page.get_by_role("button", name="Begin").click()
    for _ in range(4):
        page.get_by_role("button", name="Done").click()
    page.get_by_text("Go to another row").click()
    page.get_by_text("Keys").click()
    assert faults(page) == []


def test_axe_would_find_something(visit: Open, tmp_path: Path) -> None:
    path = tmp_path / "bad.html"
    path.write_text("<title>x</title><p style='color:#aaa;background:#fff'>pale</p><img src=''>")
    told = " ".join(faults(visit(path)))
    assert "image-alt" in told
    assert "color-contrast" in told
