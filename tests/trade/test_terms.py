"""UK and US terms against table D, row by row where a row is about a word of these tables."""

from __future__ import annotations

import re

import pytest
from published_tables import NEUTRAL, sources, table

from loopwright.trade.stitches import BACK, BASICS, FRONT, Stitch
from loopwright.trade.terms import UK, US, Terms, abbreviation, full_name, other, stitch_of

ROWS = {row["us_abbr"].split(";")[0]: row for row in table("D_terms")}

NOT_ACCEPTED = {"sl st", "slst", "tc"}
"""Not words of the notation's terms: ``sl st`` is two words of the grammar itself; ``slst`` has no
other source than one list, and ``tc`` is a US treble in one place and a UK one in another (D)."""


def alternatives(text: str) -> list[str]:
    return [one.strip() for one in text.split(";")]


def names(text: str) -> set[str]:
    """Full names; the table leaves out the closing word "crochet" here and there."""
    bare = {one.split(": ")[-1] for one in alternatives(text)}
    return bare | {one + " crochet" for one in bare}


@pytest.mark.parametrize("us", NEUTRAL)
@pytest.mark.parametrize(("terms", "country"), [(US, "us"), (UK, "uk")])
def test_basic_stitches(us: str, terms: Terms, country: str) -> None:
    # funcrochet, woolandcrafts, cherryheart, spotlight, hooks68, dillmont
    row = ROWS[us]
    stitch = Stitch(NEUTRAL[us])
    accepted = alternatives(row[f"{country}_abbr"])
    assert abbreviation(stitch, terms) in accepted
    assert full_name(stitch, terms) in names(row[f"{country}_name"])
    for word in set(accepted) - NOT_ACCEPTED:
        assert stitch_of(word, terms) == stitch


STEPS = {"once": 1, "three times": 3, "four times": 4, "five times": 5}


@pytest.mark.parametrize("us", NEUTRAL)
def test_steps_and_wraps(us: str) -> None:
    # funcrochet, woolandcrafts: yarn overs before inserting; how often through the loops after
    row = ROWS[us]
    basic = BASICS[NEUTRAL[us]]
    assert basic.wraps == int(row["yarn_overs_before_insert"])
    said = [n for word, n in STEPS.items() if word in row["steps"]]
    assert basic.steps == (said[0] if said else len(re.findall("through", row["steps"])))


def test_post_stitches() -> None:
    # crochetmethat (US FPdc, BPdc), thelavenderchair (US FPtr); UK as spotlight: fp or bp and
    # the UK stitch
    for written, basic, post, uk in [
        ("FPdc", "long", FRONT, "fptr"),
        ("BPdc", "long", BACK, "bptr"),
        ("FPtr", "double long", FRONT, "fpdtr"),
    ]:
        row = ROWS[written]
        stitch = Stitch(basic, post)
        assert stitch_of(written.lower(), US) == stitch == stitch_of(uk, UK)
        assert abbreviation(stitch, US) == written.lower()
        assert abbreviation(stitch, UK) == uk
        assert full_name(stitch, US) in names(row["us_name"])
        assert BASICS[basic].wraps == int(row["yarn_overs_before_insert"])


@pytest.mark.parametrize("written", ["sc2tog", "dc2tog"])
def test_decreases(written: str) -> None:
    # groovy, bits2008
    row = ROWS[written]
    stitch = Stitch(NEUTRAL[written[:2]], together=2)
    assert stitch_of(row["us_abbr"], US) == stitch == stitch_of(row["uk_abbr"], UK)
    assert abbreviation(stitch, US) == row["us_abbr"]
    assert abbreviation(stitch, UK) == row["uk_abbr"]
    assert full_name(stitch, US) == row["us_name"]
    assert full_name(stitch, UK) == row["uk_name"]


def test_the_same_letters_are_other_stitches_in_the_other_country() -> None:
    # bits2008: dc2tog is two different stitches
    assert stitch_of("dc2tog", US) != stitch_of("dc2tog", UK)
    # textilefusion, grannyheart: htr is ambiguous on US pages, so US terms do not have it
    assert stitch_of("htr", US) is None
    # funcrochet: sc is a US word
    assert stitch_of("sc", UK) is None
    assert other(UK) is US
    assert other(US) is UK


def test_skip_and_gauge() -> None:
    # beeton, primavera, spotlight: miss; funcrochet and primavera: gauge, tension
    assert (US.skip, UK.skip) == (ROWS["sk"]["us_name"], ROWS["sk"]["uk_name"])
    assert (US.gauge, UK.gauge) == (ROWS["gauge"]["us_abbr"], ROWS["gauge"]["uk_abbr"])


def test_crab_stitch() -> None:
    # stitchwhisper, docest: worked from left to right
    crab = Stitch("plain", crab=True)
    row = ROWS["crab st"]
    assert row["us_name"] in full_name(crab, US)
    assert row["uk_abbr"] in full_name(crab, UK)


def test_the_sources_have_addresses() -> None:
    named = "funcrochet woolandcrafts cherryheart spotlight hooks68 crochetmethat thelavenderchair"
    assert set(named.split()) <= sources()
