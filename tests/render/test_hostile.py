"""Whatever a designer writes in a free text comes out as it was written, in every form of the
sheet, and makes nothing: no element, no link, no script, no markup."""

from __future__ import annotations

import unicodedata
from collections import Counter
from functools import lru_cache
from io import BytesIO

import pytest
from hostile import (
    FIELDS,
    WORDS,
    close,
    hashed,
    hostile,
    read_html,
    read_markdown,
    read_pdf,
    read_svg,
    read_text,
)
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from pypdf import PdfReader

from loopwright import pipeline, rendering
from loopwright.ir.checked import Checked

BRACES = ("title", "yarn", "colour", "alt", "pompom")
"""The fields in which braces are only braces; elsewhere they hold a number or a stitch."""

DRAWN = ("title",)
"""What a chart says of the free texts."""


def said(words: str, fields: tuple[str, ...] = FIELDS) -> dict[str, str]:
    """Each field's own text, told apart by its ends, as the pattern can hold it."""
    texts = {field: f"{field}+ {hashed(words)} +{field}" for field in fields}
    for field in ("yarn", "colour", "alt", "pompom", "remark"):
        if field in texts:
            texts[field] = texts[field].replace('"', "'")
    return texts


@lru_cache(maxsize=64)
def _checked(text: str) -> Checked:
    result = pipeline.check_text("hostile", text)
    assert result.checked is not None, [one.text for one in result.diagnostics]
    return result.checked


def checked(texts: dict[str, str]) -> Checked:
    return _checked(hostile(**texts))


def shown(text: str) -> str:
    """The text on one line, without the marks that keep its direction to itself."""
    return " ".join(text.translate({0x2068: None, 0x2069: None}).split())


def plain() -> Checked:
    return checked({})


@pytest.fixture(params=sorted(WORDS))
def texts(request: pytest.FixtureRequest) -> dict[str, str]:
    """Every field with one of the hostile words, as far as it may have braces."""
    words = WORDS[request.param]
    return said(words, BRACES if "{" in words else FIELDS)


@pytest.mark.parametrize("terms", ["UK", "US"])
def test_html_says_every_word_and_is_made_of_nothing_else(
    texts: dict[str, str], terms: str
) -> None:
    made = checked(texts)
    page, marks = read_html(rendering.sheet(made, terms, "html", rendering.charts(made, terms)))
    for field, text in texts.items():
        assert expected(text) in shown(page), field
    charts = rendering.charts(plain(), terms)
    assert marks == read_html(rendering.sheet(plain(), terms, "html", charts))[1]


def test_markdown_says_every_word_and_makes_nothing_of_it(texts: dict[str, str]) -> None:
    page, marks = read_markdown(rendering.sheet(checked(texts), "UK", "markdown"))
    for field, text in texts.items():
        assert expected(text) in shown(page), field
    assert marks == read_markdown(rendering.sheet(plain(), "UK", "markdown"))[1]


def test_text_says_every_word(texts: dict[str, str]) -> None:
    page = shown(read_text(rendering.sheet(checked(texts), "UK", "text")))
    for field, text in texts.items():
        assert expected(text) in page, field


def test_charts_and_schematics_say_the_title_and_are_made_of_nothing_else(
    texts: dict[str, str],
) -> None:
    made = checked(texts)
    for drawn in (rendering.charts, rendering.schematics):
        for (_, one), (_, other) in zip(drawn(made, "UK"), drawn(plain(), "UK"), strict=True):
            words, marks = read_svg(one)
            assert marks == read_svg(other)[1]
            if drawn is rendering.charts:
                assert expected(texts["title"]) in shown(words)


def test_pdf_says_every_word_and_has_the_same_structure(texts: dict[str, str]) -> None:
    made = checked(texts)
    data = rendering.pdf(made, "UK", "a4", rendering.charts(made, "UK"))
    page = read_pdf(data)
    for field, text in texts.items():
        if any(unicodedata.bidirectional(char) in ("R", "AL") for char in text):
            # What runs from the right is read back in another order.
            lacking = Counter(close(text)) - Counter(page)
            assert not lacking, field
        else:
            assert close(expected(text)) in page, field
    other = rendering.pdf(plain(), "UK", "a4", rendering.charts(plain(), "UK"))
    assert outline(data) == outline(other)
    for one in PdfReader(BytesIO(data)).pages:
        assert "/Annots" not in one
        assert "/AA" not in one


def expected(text: str) -> str:
    """The words of a field as they are printed: signs that would close what they did not open are
    spelled out."""
    if "\u2069" not in text:
        return shown(text)
    return " ".join(text.replace("\u2069", "<U+2069>").split())


def outline(data: bytes) -> Counter[str]:
    """How many elements of each kind the structure has, but for those that only hold words."""
    found: Counter[str] = Counter()
    todo = [PdfReader(BytesIO(data)).trailer["/Root"]["/StructTreeRoot"]]
    while todo:
        one = todo.pop().get_object()
        if isinstance(one, list):
            todo += one
        elif hasattr(one, "get"):
            found[str(one.get("/S"))] += 1
            if "/K" in one:
                todo.append(one["/K"])
    return Counter({kind: n for kind, n in found.items() if kind not in ("/Span", "None")})


@pytest.mark.parametrize("field", sorted(set(FIELDS) - set(BRACES)))
def test_braces_that_say_nothing_are_told_of(field: str) -> None:
    result = pipeline.check_text("hostile", hostile(**{field: WORDS["template"]}))
    assert result.checked is None
    assert {one.code for one in result.diagnostics} <= {"not-understood", "unknown-name"}


def test_what_no_page_holds_is_spelled_out() -> None:
    made = checked(dict.fromkeys(FIELDS, "a \x07 b \x1b[31m c \ufffe d"))
    for form in ("html", "markdown", "text"):
        page = rendering.sheet(made, "UK", form)
        assert not [char for char in page if char < " " and char != "\n"]
    words = "a <U+0007> b <U+001B>[31m c <U+FFFE> d"
    assert words in read_html(rendering.sheet(made, "UK", "html"))[0]
    assert words in read_text(rendering.sheet(made, "UK", "text"))
    read_svg(rendering.chart(made, "disc", 0, "UK"))
    assert close(words) in read_pdf(rendering.pdf(made, "UK", "a4"))


def test_a_pdf_spells_out_what_its_fonts_do_not_have() -> None:
    made = checked(dict.fromkeys(FIELDS, "yarn \u7de8\u307f \U0001f9f6 end"))
    data = rendering.pdf(made, "UK", "a4", rendering.charts(made, "UK"))
    page = read_pdf(data)
    # Title, about, designer, version, licence, yarn, its colour, the picture, the pompom, three
    # notes and a remark; the title once more in the foot of every page and in the chart.
    assert page.count("yarn<U+7DE8><U+307F><U+1F9F6>end") >= len(FIELDS)
    assert "\u7de8" not in page


def test_words_from_the_right_keep_their_direction_to_themselves() -> None:
    made = checked({"yarn": "\u202e wool", "remark": "\u05e6\u05de\u05e8", "title": "Sole \u2067"})
    page = rendering.sheet(made, "UK", "text")
    assert "\u2068\u202e wool\u2069, colour plain words, 50 g = 85 m" in " ".join(page.split())
    assert "\u2068\u05e6\u05de\u05e8\u2069" in page
    assert page.startswith("\u2068Sole \u2067\u2069\u2069\n")


# What a page keeps as it is: no control characters, nothing that turns the direction, no braces,
# and no quotation mark or hash, which end a text or begin a comment.
KEPT = st.characters(
    exclude_categories=["Cc", "Cs", "Cn", "Co", "Zs", "Zl", "Zp", "Cf"],
    exclude_characters='"#{}',
).filter(lambda char: unicodedata.bidirectional(char) not in ("R", "AL", "AN"))
ANY = st.text(
    st.one_of(KEPT, st.sampled_from(" \\*_`<>&[]()|~!$@:;./-+=")), min_size=1, max_size=60
)
SIGNS = st.text(st.sampled_from("aeiou 0123456789\\*_`<>&[]()|~!$@:;./-+='^%,?£é½–"), min_size=1)
often = settings(max_examples=60, deadline=None, suppress_health_check=list(HealthCheck))


@often
@given(ANY, st.sampled_from(FIELDS))
def test_any_words_in_any_field(words: str, field: str) -> None:
    texts = said(words, (field,))
    made = checked(texts)
    page, marks = read_html(rendering.sheet(made, "UK", "html"))
    assert shown(texts[field]) in page
    assert marks == read_html(rendering.sheet(plain(), "UK", "html"))[1]
    page, marks = read_markdown(rendering.sheet(made, "US", "markdown"))
    assert shown(texts[field]) in page
    assert marks == read_markdown(rendering.sheet(plain(), "US", "markdown"))[1]
    assert shown(texts[field]) in read_text(rendering.sheet(made, "UK", "text"))
    words, _ = read_svg(rendering.chart(made, "disc", 0, "UK"))
    assert field not in DRAWN or shown(texts[field]) in words


@settings(often, max_examples=25)
@given(SIGNS, st.sampled_from(FIELDS))
def test_any_signs_on_paper(words: str, field: str) -> None:
    texts = said(words, (field,))
    assert close(texts[field]) in read_pdf(rendering.pdf(checked(texts), "UK", "letter"))


@settings(often, max_examples=200)
@given(st.text(st.characters(exclude_categories=["Cs"], exclude_characters="\n\r"), max_size=40))
def test_nothing_at_all_makes_a_page_fall_over(words: str) -> None:
    result = pipeline.check_text("hostile", hostile(title=f"x {words}", note=f"x {words}"))
    if result.checked is not None:
        read_svg(rendering.chart(result.checked, "disc", 0, "UK"))
        for form in ("html", "markdown", "text"):
            page = rendering.sheet(result.checked, "UK", form)
            assert not [char for char in page if char < " " and char != "\n"]
