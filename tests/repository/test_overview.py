"""The page of a whole repository: what it says, where it leads, and that whatever a pattern says
stays text on it."""

from __future__ import annotations

import re
from html.parser import HTMLParser
from itertools import pairwise
from pathlib import Path
from urllib.parse import unquote

import pytest

from conftest import Loopwright
from repository.houses import HOUSE, PLAIN, STRIP, WRONG, write
from support import EXAMPLES
from support import HOUSE as ROOT

HOSTILE = (
    "pattern: <script>alert(1)</script> & \"'<b>\nterms: UK\ncount a: 10\n"
    "part strip: flat\nstart: ch {a + 1}\nrow 1: dc in 2nd ch from hook, dc in each ch across"
    " = 9 sts  # <img src=x onerror=alert(2)>\n"
)
VOID = {"meta", "br", "link", "img", "hr", "input"}


class Page(HTMLParser):
    """A page read strictly: every element that is opened is closed in its place."""

    def __init__(self, text: str) -> None:
        super().__init__(convert_charrefs=True)
        self.open: list[str] = []
        self.found: list[tuple[str, dict[str, str]]] = []
        self.text: dict[str, list[str]] = {}
        self.feed(text)
        self.close()
        assert self.open == []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.found.append((tag, {name: value or "" for name, value in attrs}))
        if tag not in VOID:
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        for tag in self.open[-1:]:
            self.text.setdefault(tag, []).append(data)

    def all(self, tag: str) -> list[dict[str, str]]:
        """The attributes of every element of a kind."""
        return [attributes for name, attributes in self.found if name == tag]


@pytest.fixture
def built(loopwright: Loopwright, tmp_path: Path) -> tuple[Path, Page]:
    """The page of a repository in which something is wrong, and something hostile."""
    files = {
        "in/.git/HEAD": "",
        "in/shared/house.crochet": HOUSE,
        "in/strips/strip.crochet": STRIP,
        "in/wrong.crochet": WRONG,
        'in/"><script>alert(3)<.crochet': HOSTILE,
        "in/a#b?c%20:d.crochet": PLAIN,
    }
    write(tmp_path, files)
    answer = loopwright("overview", str(tmp_path / "in"), "-o", str(tmp_path / "out"))
    assert answer.code == 1
    assert answer.out.startswith("5 patterns, ")
    page = tmp_path / "out" / "index.html"
    return page, Page(page.read_text("utf-8"))


def test_every_pattern_stands_on_it(built: tuple[Path, Page]) -> None:
    _, page = built
    titles = page.text["bdi"]
    for title in ("The shore house", "Mussel Strip", "Tideline Swatch"):
        assert title in titles
    assert "slate: " in "".join(page.text["dd"])
    assert any("1 error" in text for text in page.text["a"])
    assert "a 10" in page.text["dd"]


def test_a_shared_file_is_no_pattern_of_one_size(built: tuple[Path, Page]) -> None:
    path, _ = built
    articles = re.findall(r"<article.*?</article>", path.read_text("utf-8"), re.DOTALL)
    (shared,) = (one for one in articles if "The shore house" in one)
    assert "shared; nothing is wrong" in shared
    assert "comes out" not in shared
    assert "one size" not in shared


def test_what_is_to_be_put_right_stands_first(built: tuple[Path, Page]) -> None:
    path, _ = built
    head = path.read_text("utf-8").split("<h2>Patterns</h2>")[0]
    assert re.findall(r'<li><a href="#(pattern-\d+)">(.*?)</a></li>', head) == [
        ("pattern-1", "&lt;script&gt;alert(1)&lt;/script&gt; &amp; &#34;&#39;&lt;b&gt;"),
        ("pattern-5", "Tideline Swatch (%s)" % (path.parents[1] / "in/wrong.crochet")),
    ]


def test_links_lead_to_what_was_written(built: tuple[Path, Page]) -> None:
    path, page = built
    links = [one["href"] for one in page.all("a")]
    assert len(links) > 6
    ids = {attributes["id"] for _, attributes in page.found if "id" in attributes}
    for link in links:
        if link.startswith("#"):
            assert link[1:] in ids
        else:
            assert ":" not in link.split("/")[0]
            assert "?" not in link
            assert (path.parent / unquote(link)).is_file(), link


def test_nothing_of_a_pattern_is_markup(built: tuple[Path, Page]) -> None:
    path, page = built
    text = path.read_text("utf-8")
    kinds = {tag for tag, _ in page.found}
    assert not kinds & {"script", "img", "b", "iframe", "object"}
    assert not [name for _, attributes in page.found for name in attributes if name[:2] == "on"]
    assert "<script>alert(1)</script> & \"'<b>" in "".join(page.text["bdi"])
    assert "default-src 'none'" in text
    assert not re.search(r"(?:src|href)=\"(?:https?:|//|javascript:)", text)


def test_it_can_be_read_in_other_ways_than_by_looking(built: tuple[Path, Page]) -> None:
    _, page = built
    assert page.all("html") == [{"lang": "en-GB"}]
    assert len(page.all("title")) == len(page.all("h1")) == len(page.all("main")) == 1
    levels = [int(tag[1]) for tag, _ in page.found if re.fullmatch(r"h[1-6]", tag)]
    assert all(after - before <= 1 for before, after in pairwise(levels))
    assert len(page.all("article")) == 5
    assert all("aria-labelledby" in one for one in page.all("article"))
    ids = [attributes["id"] for _, attributes in page.found if "id" in attributes]
    assert len(ids) == len(set(ids))
    named = [one["aria-labelledby"] for _, one in page.found if "aria-labelledby" in one]
    assert set(named) <= set(ids)
    # What scrolls can be reached by the keyboard, and a sign never stands without its word.
    assert all("tabindex" in one for one in page.all("pre"))
    marks = [one for tag, one in page.found if tag == "span" and "aria-hidden" in one]
    assert len(marks) == len(page.all("article"))


def test_links_are_told_apart(built: tuple[Path, Page]) -> None:
    path, _ = built
    text = path.read_text("utf-8")
    links = re.findall(r'<a href="([^"]*)">(.*?)</a>', text)
    named: dict[str, str] = {}
    for link, words in links:
        assert named.setdefault(words, link) == link


def test_two_of_one_title_are_told_apart_by_their_files(
    loopwright: Loopwright, tmp_path: Path
) -> None:
    write(tmp_path, {"in/one.crochet": WRONG, "in/two.crochet": PLAIN, "in/three.crochet": WRONG})
    assert loopwright("overview", str(tmp_path / "in"), "-o", str(tmp_path / "out")).code == 1
    path = tmp_path / "out" / "index.html"
    test_links_are_told_apart((path, Page(path.read_text("utf-8"))))
    assert f"Tideline Swatch ({tmp_path}/in/one.crochet)" in "".join(
        Page(path.read_text("utf-8")).text["bdi"]
    )


def test_the_same_patterns_give_the_same_bytes(loopwright: Loopwright, tmp_path: Path) -> None:
    for out in ("one", "two"):
        examples = str(ROOT / "examples")
        assert loopwright("overview", examples, "-o", str(tmp_path / out)).code == 0
    one, two = (
        {path.relative_to(tmp_path / out): path.read_bytes() for path in files}
        for out, files in ((out, _files(tmp_path / out)) for out in ("one", "two"))
    )
    assert one == two
    assert len(one) > 5 * len(EXAMPLES)


def _files(folder: Path) -> list[Path]:
    return [path for path in sorted(folder.rglob("*")) if path.is_file()]


def test_two_patterns_of_one_name_do_not_meet(loopwright: Loopwright, tmp_path: Path) -> None:
    write(tmp_path, {"a/one.crochet": PLAIN, "A/One.crochet": PLAIN, "b/../a.crochet": PLAIN})
    assert loopwright("overview", str(tmp_path), "-o", str(tmp_path / "out")).code == 0
    sheets = [path for path in _files(tmp_path / "out") if path.name.lower().endswith("-uk.html")]
    assert len({str(path).lower() for path in sheets}) == 3


def test_nothing_to_show(loopwright: Loopwright, tmp_path: Path) -> None:
    write(tmp_path, {"loopwright.toml": 'exclude = ["*"]\n', "one.crochet": PLAIN})
    assert loopwright("overview", str(tmp_path), "-o", str(tmp_path / "out")).code == 2
    assert not (tmp_path / "out").exists()
