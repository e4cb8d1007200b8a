"""What the sheet says is what was checked: a reader that knows only the sheet's own words works it,
row by row, in every size and in both terms, and comes to the fabric's counts.

And the sheets in the two terms differ in the terms' words and in spelling, and in nothing else.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from loopwright import pipeline, rendering
from loopwright.ir.checked import Checked
from loopwright.ir.items import ANY_STITCH
from loopwright.ir.pattern import Note, Pattern
from reader import read, worked
from reader.items import Unread
from support import EXAMPLES, WORKED, text_of

TERMS = pytest.mark.parametrize("terms", ["UK", "US"])
EVERY = pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)


def checked_of(path: Path) -> Checked:
    found = pipeline.check_text(path.name, text_of(path)).checked
    assert found is not None
    return found


def counts(checked: Checked, size: int, part: int) -> list[int]:
    """The stitches of every row, as the fabric has them."""
    return [
        dict(row.counts).get(ANY_STITCH, 0)
        for rows, times in checked.fabrics[size].parts[part].rows
        for _ in range(times)
        for row in rows
    ]


@EVERY
@TERMS
def test_the_words_alone_come_to_what_was_checked(path: Path, terms: str) -> None:
    checked = checked_of(path)
    sheet = read(rendering.sheet(checked, terms, "text"))
    assert len(sheet.parts) == len(checked.pattern.parts)
    assert len(sheet.sizes) == len(checked.pattern.sizes)
    for size in range(len(sheet.sizes)):
        told = worked(sheet, size)
        for index, part in enumerate(sheet.parts):
            assert told[part.name].rows == counts(checked, size, index)


@EVERY
@TERMS
def test_the_printed_counts_are_those_of_the_words(path: Path, terms: str) -> None:
    sheet = read(rendering.sheet(checked_of(path), terms, "text"))
    seen = 0
    for size in range(len(sheet.sizes)):
        for part in worked(sheet, size).values():
            for printed, made in part.printed:
                for n, name in re.findall(r"(\d+) ([^,]+?)(?: at the end of .*)?(?:,|$)", printed):
                    single = re.sub(r"s$", "", name) if name not in made else name
                    assert made[single] == int(n), printed
                    seen += 1
    assert seen > 5


# What the reader does not know, and says so: it is never taken for read.
UNREAD = {
    "20-blue-hexagon": "**",
    "42-c2c-striped": "there is no ch left",
    "96-beeton-dahlia": "3rd ch of next ch-5 sp",
}


@pytest.mark.parametrize("path", WORKED, ids=lambda path: path.stem)
def test_worked_patterns_too_where_the_reader_knows_the_words(path: Path) -> None:
    result = pipeline.check_text(path.name, text_of(path))
    if result.checked is None:
        assert not result.clean
        return
    sheet = read(rendering.sheet(result.checked, "UK", "text"))
    for size in range(len(sheet.sizes)):
        if path.stem in UNREAD:
            with pytest.raises(Unread, match=re.escape(UNREAD[path.stem])):
                worked(sheet, size)
            continue
        told = worked(sheet, size)
        for index, part in enumerate(sheet.parts):
            assert told[part.name].rows == counts(result.checked, size, index)


# From UK to US, as the sources of the trade's tables have them; longer ones first.
STITCHES = {"dc": "sc", "htr": "hdc", "tr": "dc", "dtr": "tr", "trtr": "dtr", "quadtr": "trtr"}
NAMES = {
    "triple treble": "double treble crochet",
    "double treble": "treble crochet",
    "half treble": "half double crochet",
    "double crochet": "single crochet",
    "treble": "double crochet",
}
WORDS = {
    "miss": "skip",
    "missed": "skipped",
    "missing": "skipping",
    "tension": "gauge",
    "colour": "color",
    "colours": "colors",
    "centre": "center",
    "grey": "gray",
    "licence": "license",
    "metre": "meter",
    "metres": "meters",
}
ABBREVIATION = re.compile(r"(?<![\w-])(\d+-)?(fp|bp)?(quadtr|trtr|dtr|htr|tr|dc)(\d+tog)?(?![\w-])")
WROTE = re.compile(r"\n\nThe designer wrote it in U[KS] terms;[^\n]*")


def american(text: str) -> str:
    """A line of a UK sheet in US words and spelling, by these tables alone."""
    text = ABBREVIATION.sub(
        lambda one: f"{one[1] or ''}{one[2] or ''}{STITCHES[one[3]]}{one[4] or ''}", text
    )
    names = "|".join(NAMES)
    text = re.sub(rf"\b({names})\b", lambda one: NAMES[one[1]], text)
    both = WORDS | {one.capitalize(): two.capitalize() for one, two in WORDS.items()}
    return re.sub(rf"\b({'|'.join(both)})\b", lambda one: both[one[1]], text)


def section(page: str, heading: str) -> tuple[str, list[str]]:
    """A page without one of its sections, and the lines of that section."""
    before, _, rest = page.partition(f"## {heading}\n")
    own, sign, after = rest.partition("\n## ")
    return f"{before}{sign}{after}", own.strip().split("\n")


def designers_words(pattern: Pattern) -> list[str]:
    """What the designer wrote between the braces of every free text."""
    texts = [text for label, text in pattern.texts if label != "skill"]
    texts += [note.text for note in pattern.notes]
    for part in pattern.parts:
        texts += [line.text for line in part.lines if isinstance(line, Note)]
    pieces = [one.strip() for text in texts for one in text.pieces if isinstance(one, str)]
    return [one for one in pieces if len(one) > 1]


@EVERY
def test_the_two_sheets_differ_in_the_terms_words_and_in_nothing_else(path: Path) -> None:
    checked = checked_of(path)
    pages = {terms: rendering.sheet(checked, terms, "markdown") for terms in ("UK", "US")}
    other = "US" if checked.pattern.terms == "UK" else "UK"
    assert not WROTE.search(pages[checked.pattern.terms])
    pages[other] = WROTE.sub("", pages[other])
    for own in designers_words(checked.pattern):
        # Words of the designer's own are printed as they were written.
        assert all(own in page for page in pages.values())
        pages = {terms: page.replace(own, "...") for terms, page in pages.items()}
    uk, uk_terms = section(pages["UK"], "Terms")
    us, us_terms = section(pages["US"], "Terms")
    uk, uk_words = section(uk, "Abbreviations")
    us, us_words = section(us, "Abbreviations")
    assert american(uk) == us
    # The list of abbreviations is in an order of its own, and what it explains is the same.
    assert sorted(american(one) for one in uk_words) == sorted(us_words)
    assert uk_terms[0].replace("UK", "US") == us_terms[0]
    rows = [[cell.strip() for cell in line.split("|")[1:3]] for line in uk_terms[6:]]
    theirs = [[cell.strip() for cell in line.split("|")[1:3]] for line in us_terms[6:]]
    assert sorted(map(tuple, theirs)) == sorted((two, one) for one, two in rows)
    assert rows


def test_a_word_too_many_would_be_found() -> None:
    """The tables translate whole words and nothing within them."""
    assert american("Miss next tr, 5-tr bobble, fptr2tog, dtr; trim the centre.") == (
        "Skip next dc, 5-dc bobble, fpdc2tog, tr; trim the center."
    )
