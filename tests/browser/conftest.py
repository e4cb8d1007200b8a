"""A real browser for the page: Chromium as the system has it, driven by playwright.

These tests need more than Python packages, so they stand apart from the others: `.ci/run` installs
what is missing and runs them after the rest. Without a browser they fail; none is left out.
"""

from __future__ import annotations

import shutil
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, Playwright, sync_playwright

from loopwright import read
from loopwright.repository.build import made

# No sandbox: in a container it cannot be had, and nothing foreign is ever opened here.
FLAGS = ["--no-sandbox", "--disable-gpu"]

Open = Callable[..., Page]


def page_of(text: str, folder: Path, name: str = "page") -> Path:
    """The page that `build` makes of a pattern's text, in the terms that it is written in."""
    pattern = read(text, name=name)
    assert pattern.comes_out, name
    files = dict(made(pattern, name)[0])
    path = folder / f"{name}.html"
    path.write_text(files[f"{name}-{pattern.terms.lower()}.html"], encoding="utf-8")
    return path


@pytest.fixture(scope="session")
def playwright() -> Iterator[Playwright]:
    with sync_playwright() as started:
        yield started


@pytest.fixture(scope="session")
def chromium_path() -> str:
    """Where Chromium is; a machine without one fails here."""
    found = shutil.which("chromium") or shutil.which("chromium-browser")
    assert found, "There is no Chromium: apt-get install chromium"
    return found


@pytest.fixture(scope="session")
def browser(playwright: Playwright, chromium_path: str) -> Iterator[Browser]:
    started = playwright.chromium.launch(executable_path=chromium_path, args=FLAGS)
    yield started
    started.close()


@pytest.fixture
def visit(browser: Browser) -> Iterator[Open]:
    """Open a page as a new visitor, who fails on anything that the page complains of."""
    contexts: list[BrowserContext] = []
    complaints: list[str] = []

    def visitor(path: Path, width: int = 390, height: int = 844, **options: object) -> Page:
        size = {"width": width, "height": height}
        contexts.append(browser.new_context(viewport=size, **options))
        page = contexts[-1].new_page()
        page.on("console", lambda told: complaints.append(told.text))
        page.on("pageerror", lambda error: complaints.append(str(error)))
        page.goto(path.as_uri())
        return page

    yield visitor
    for context in contexts:
        context.close()
    assert complaints == []


@pytest.fixture(scope="session")
def examples(tmp_path_factory: pytest.TempPathFactory) -> Callable[[str], Path]:
    """The page of an example, by its name; made once."""
    folder = tmp_path_factory.mktemp("pages")
    home = Path(__file__).parents[2] / "examples"

    def example(name: str) -> Path:
        path = folder / f"{name}.html"
        if not path.exists():
            page_of((home / f"{name}.crochet").read_text(encoding="utf-8"), folder, name)
        return path

    return example
