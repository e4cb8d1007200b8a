"""The catalogues: every phrase of the sheet is in them, and each language stands on its files."""

from __future__ import annotations

import re
import subprocess
import sys
import tomllib
from gettext import NullTranslations
from pathlib import Path
from string import Formatter
from xml.etree import ElementTree

import pytest
from babel.messages.pofile import read_po

import catalogues
from loopwright.measure.dimensions import measures
from loopwright.pipeline import check_text
from loopwright.render.chart import chart as lay_out
from loopwright.render.chart import grid as squares
from loopwright.render.chart import rows_only, svg
from loopwright.render.prose import Entries, prose
from loopwright.render.prose.finished import LENGTHS
from loopwright.render.prose.tongue import UNTRANSLATED, Noun, Tongue, tongue
from loopwright.render.prose.voice import Voice, voice
from loopwright.render.schematic import schematic
from loopwright.rendering import chart, languages, sheet
from loopwright.trade.languages import terms_of
from loopwright.trade.stitches import BASICS, Stitch
from loopwright.trade.terms import (
    FULL_SHAPES,
    SHORT_SHAPES,
    TERMS,
    UNSOURCED,
    abbreviation,
    full_name,
)
from support import EXAMPLES, ROOMS, WORKED, text_of

PHRASES = catalogues.phrases()
OTHERS = [name for name in languages() if name != "en"]
by_language = pytest.mark.parametrize("name", OTHERS)
# The words that differ: table D of the trade's tables (miss, tension), and the spellings.
AMERICAN = {
    "missed": "skipped",
    "miss": "skip",
    "tension": "gauge",
    "Tension": "Gauge",
    "Licence": "License",
    "licence": "license",
    "colour": "color",
    "centre": "center",
    "anticlockwise": "counterclockwise",
}


def american(text: str) -> str:
    return re.sub(r"\w+", lambda found: AMERICAN.get(found[0], found[0]), text)


def strings(one: object) -> tuple[str, ...]:
    return (one,) if isinstance(one, str) else tuple(one)  # type: ignore[arg-type]


def test_there_are_phrases_and_languages() -> None:
    assert len(PHRASES) > 300
    assert "fr" in OTHERS
    assert {path.stem for path in catalogues.LANGUAGES.glob("*.po")} == {"US", *OTHERS}


@pytest.mark.parametrize("name", catalogues.names())
def test_what_machines_read_is_what_is_written(name: str) -> None:
    kept = catalogues.entries((catalogues.LANGUAGES / f"{name}.mo").read_bytes())
    assert kept == catalogues.entries(catalogues.compiled(name))
    assert kept


def test_the_american_catalogue_changes_the_words_of_the_table_and_nothing_else() -> None:
    have = {one.id: strings(one.string) for one in catalogues.catalogue("US") if one.id}
    assert have == {
        one: tuple(american(part) for part in strings(one))
        for one in PHRASES
        if any(american(part) != part for part in strings(one))
    }


@by_language
def test_a_catalogue_has_every_phrase_and_no_other(name: str) -> None:
    have = catalogues.ids(name)
    assert have >= PHRASES
    assert have - PHRASES <= {one[0] for one in PHRASES if isinstance(one, tuple)}


@by_language
def test_what_is_not_translated_says_why(name: str) -> None:
    for one in catalogues.untranslated(name):
        assert any("No source" in comment for comment in one.auto_comments), one.id
    assert len(catalogues.untranslated(name)) < 20


def blanks(text: str) -> set[str]:
    return {field for _, field, _, _ in Formatter().parse(text) if field}


@by_language
def test_a_translation_fills_in_what_the_phrase_does(name: str) -> None:
    for one in catalogues.catalogue(name):
        ids = [blanks(text) for text in strings(one.id)] if one.id else []
        for told in strings(one.string) if ids else ():
            if told:
                assert set.intersection(*ids) <= blanks(told) <= set.union(*ids), one.id


@by_language
def test_terms_have_a_source_or_say_that_they_have_none(name: str) -> None:
    words = tomllib.loads((ROOMS / "trade" / "words" / f"{name}.toml").read_text("utf-8"))
    for table, all_of in (("stitches", set(BASICS)), ("shapes", set(SHORT_SHAPES))):
        sourced, without = words[table], words["no_source"][table]
        assert set(sourced) | set(without) == all_of
        assert not set(sourced) & set(without)
        for one in sourced.values():
            assert one["short"]
            assert one["full"]
            assert set(one["source"].split()) <= set(words["sources"])
    assert set(SHORT_SHAPES) == set(FULL_SHAPES)


def test_french_stitches() -> None:
    """From the sources named in the file: cachalabibi and blogahistoires."""
    french = terms_of("fr")
    told = {name: abbreviation(Stitch(name), french) for name in BASICS}
    assert told == {
        "slip": "mc",
        "plain": "ms",
        "half": "demi-br",
        "long": "br",
        "double long": "dbr",
        "triple long": f"trtr {UNSOURCED}",
        "quadruple long": f"quadtr {UNSOURCED}",
    }
    assert abbreviation(Stitch("plain", together=2), french) == "2 ms ens"
    assert full_name(Stitch("half"), french) == "demi-bride"
    # No source names a French post stitch: the whole of its UK name is printed.
    assert abbreviation(Stitch("long", "front"), french) == f"fptr {UNSOURCED}"
    assert full_name(Stitch("long", "front"), french) == (f"front post treble {UNSOURCED}")


@pytest.mark.parametrize("name", catalogues.names())
def test_no_phrase_stands_in_a_catalogue_twice(name: str) -> None:
    text = (catalogues.LANGUAGES / f"{name}.po").read_text("utf-8")
    found = [
        tuple(line for line in entry.splitlines() if line.startswith(("msgctxt", "msgid ")))
        for entry in text.split("\n\n")
    ]
    assert [one for one in found if one and found.count(one) > 1] == []


def test_french_keeps_its_high_signs_with_their_words() -> None:
    """No line begins with a colon: the space before `: ; ? !` and within guillemets is firm."""
    told = [
        text
        for one in catalogues.catalogue("fr")
        if one.id
        for text in ([one.string] if isinstance(one.string, str) else one.string)
    ]
    assert len(told) > 700
    assert [text for text in told if re.search(r" [:;?!»]|« ", text)] == []


def test_french_bends_with_the_noun() -> None:
    speaker = voice("UK", "fr")
    assert speaker.say("next {place}", place=speaker.noun("st", "sts", 1)) == "la m suivante"
    assert speaker.say("next {place}", place=speaker.noun("row end", "row ends", 1)) == (
        "le bout de rang suivant"
    )
    sp = speaker.noun("ch-{chains} sp", "ch-{chains} sps", 1, chains=2)
    assert speaker.say("in next {place}", place=sp) == "dans l’arceau de 2 ml suivant"
    assert speaker.say("next {place}", place=Noun("motif")) == "le motif suivant"
    assert [tongue("fr").ordinal(n) for n in (1, 2, 21)] == ["1re", "2e", "21e"]


def test_an_untranslated_phrase_is_marked() -> None:
    assert tongue("fr").single("No such phrase.") == f"{UNTRANSLATED}No such phrase."
    assert tongue("fr").plural("one", "many", 2) == f"{UNTRANSLATED}many"
    assert tongue("US").single("No such phrase.") == "No such phrase."


FRENCH = """pattern: Crique
terms: UK
sizes: small (large)
part cloth: in rounds
start: magic ring
round 1: ch 3 as tr, 11 tr in ring, join = 12 tr
round 2: ch 1, [dc, ch 2, miss 1 st] 6 times, join = 6 dc, 6 ch-2 sps
round 3: move to next ch-2 sp, ch 1, [3 dc in next ch-2 sp] around, join = 18 sts
round 4 (large only): ch 1, [dc2tog, dc] around, join = 12 sts
"""


def test_a_sheet_in_french() -> None:
    """Translated by hand."""
    made = check_text("crique", FRENCH).checked
    assert made is not None
    lines = " ".join(sheet(made, "UK", "text", language="fr").split())
    for told in (
        "Début : Faire un cercle magique.",
        "Tour 1 : 3 ml (compte pour 1 br), 11 br dans le cercle, fermer le tour. 12 br.",
        "Tour 2 : 1 ml, [1 ms dans la m suivante, 2 ml, sauter la m suivante] 6 fois, fermer le "
        "tour. 6 ms, 6 arceaux de 2 ml.",
        "Tour 3 : Avancer en mc jusqu’à l’arceau de 2 ml suivant, 1 ml, [3 ms dans l’arceau de 2 "
        "ml suivant] 6 fois, fermer le tour. 18 m.",
        "Taille large seulement, tour 4 : 1 ml, [2 ms ens sur les 2 m suivantes, 1 ms dans la m "
        "suivante] 6 fois, fermer le tour. 12 m.",
        "Ce modèle est en termes français.",
    ):
        assert told in lines


def test_a_chart_in_french() -> None:
    """Translated by hand: a round of 6 chain spaces, then 3 stitches into each of them."""
    made = check_text("crique", FRENCH).checked
    assert made is not None
    told = chart(made, "cloth", 0, "UK", form="text", language="fr")
    assert told.replace("\u00a0", " ").splitlines() == [
        "Crique : grille de la pièce cloth, taille small",
        "Commencer par un cercle magique.",
        "Se lit du centre vers l’extérieur, dans le sens inverse des aiguilles d’une montre.",
        "Un emplacement est une maille ou un arceau du rang du dessous.",
        "Tour 1, côté endroit de l’ouvrage : 3 ml comptées pour br dans le cercle, 11 br dans le "
        "cercle, fermer le tour ; 12 mailles.",
        "Tour 2, côté endroit de l’ouvrage : 1 ml (à ne pas compter), ms, 2 ml, (sauter 1 "
        "emplacement, ms, 2 ml) 5 fois, fermer le tour ; 6 mailles, 6 arceaux.",
        "Tour 3, côté endroit de l’ouvrage : avancer en mailles coulées de 1 emplacement jusqu’au "
        "nouveau début, 1 ml (à ne pas compter), 3 ms dans un même arceau, (sauter 1 "
        "emplacement, 3 ms dans un même arceau) 5 fois, fermer le tour ; 18 mailles.",
    ]
    words = drawn_words(chart(made, "cloth", 0, "UK", language="fr"))
    for told in ("Légende", "ml : maille en l’air", "ms : maille serrée", "cercle magique"):
        assert told in words


class Marked(NullTranslations):
    """A language in which every phrase has brackets around it."""

    def gettext(self, message: str) -> str:
        return f"⟦{message}⟧"

    def ngettext(self, msgid1: str, msgid2: str, n: int) -> str:
        return f"⟦{msgid1 if n == 1 else msgid2}⟧"

    def pgettext(self, context: str, message: str) -> str:
        return ""

    def npgettext(self, context: str, msgid1: str, msgid2: str, n: int) -> str:
        return ""


def drawn_words(svg: str) -> str:
    """All that a drawing says, on one line."""
    root = ElementTree.fromstring(svg)
    told = [one.text or "" for one in root.iter() if not one.tag.endswith(("}g", "}path"))]
    return " ".join(" ".join(told).split())


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_a_drawing_says_nothing_that_is_not_in_the_catalogue(path: Path) -> None:
    made = check_text(path.name, text_of(path)).checked
    if made is None:
        return
    speaker = Voice(TERMS["UK"], Tongue("xx", Marked()))
    drawn = [schematic(made, one, speaker) for one in measures(made)]
    for part in made.pattern.parts:
        whole = lay_out(made, part.name, 0)
        drawn += [svg(whole, speaker), rows_only(whole, speaker)]
        drawn += [squares.svg(one, speaker) for one in [squares.grid(made, part.name, 0)] if one]
    own = {word for yarn in made.pattern.yarns for word in re.findall(
        r"\w+", f"{yarn.name} {yarn.description} {yarn.colour}")}  # fmt: skip
    for one in drawn:
        words, before = drawn_words(one) if one else "", ""
        while words != before:
            before, words = words, re.sub(r"⟦[^⟦⟧]*⟧", "", words)
        assert set(re.findall(r"[a-zé]{2,}", words)) <= own, words


(NOTICE,) = (one for one in PHRASES if isinstance(one, str) and one.startswith("[UK] after a"))
HOSTILE = "{n} {0} {place.__class__} %(n)s %s {{x}} \\u202e \u202edc\u202c <b>"


@pytest.mark.parametrize("language", ["en", *OTHERS])
def test_what_the_designer_writes_is_never_taken_for_a_blank(language: str) -> None:
    """Names and descriptions are filled into phrases, and come out as they went in; signs that
    turn the direction of reading turn nothing outside them."""
    kept = f"\u2068{HOSTILE}\u2069"
    text = FRENCH.replace("pattern: Crique", f"pattern: {HOSTILE}").replace(
        "sizes: small (large)\n",
        f'sizes: small (large)\nyarn rock: "{HOSTILE}", colour "{HOSTILE}"\n'
        f'kit: "{HOSTILE}"\npicture: a.jpg "{HOSTILE}"\n',
    )
    made = check_text("crique", text.replace("in rounds\n", "in rounds, yarn rock\n")).checked
    assert made is not None
    told = prose(made, "UK", language=language)
    assert told.title == kept
    words = [
        part
        for section in told.sections
        for block in section.blocks
        if isinstance(block, Entries)
        for pair in block.pairs
        for part in pair
    ]
    assert sum(kept in one for one in words) >= 3
    assert sheet(made, "UK", "html", language=language).count("{place.__class__}") >= 4


@by_language
@pytest.mark.parametrize("path", [*EXAMPLES, *WORKED], ids=lambda path: path.stem)
def test_every_pattern_can_be_told(path: object, name: str) -> None:
    made = check_text(path.name, text_of(path)).checked  # type: ignore[attr-defined, arg-type]
    if made is not None:
        assert prose(made, "UK", language=name).lang == name
        told = " ".join(sheet(made, "UK", "text", language=name).split())
        notice = " ".join(tongue(name).single(NOTICE).split())
        assert notice in told
        marked = told.replace(notice, "").split(UNTRANSLATED)[1:]
        empty = [text for one in catalogues.untranslated(name) for text in strings(one.id)]
        for after in marked:
            assert any(re.match(pattern_of(text), after) for text in empty), after[:60]


def pattern_of(text: str) -> str:
    """What a phrase looks like with its blanks filled in."""
    return re.sub(r"\\\{\w+\\\}", ".+?", re.escape(text))


@pytest.mark.parametrize("path", [*EXAMPLES, *WORKED], ids=lambda path: path.stem)
def test_every_length_of_a_part_has_a_phrase(path: object) -> None:
    made = check_text(path.name, text_of(path)).checked  # type: ignore[attr-defined, arg-type]
    for part in measures(made) if made is not None else ():
        assert {one.words for one in part.dimensions} <= set(LENGTHS) <= PHRASES


def test_british_english_reads_no_catalogue_and_a_check_none_at_all() -> None:
    """What takes a start is loaded only when a sheet in another language is made."""
    code = (
        "import sys; from loopwright.pipeline import check_text; "
        "from loopwright.rendering import sheet; "
        "made = check_text('x', sys.stdin.read()).checked; "
        "early = {'gettext', 'tomllib'} & set(sys.modules); "
        "print(sorted(early)); sheet(made, 'UK', 'text'); print('tomllib' in sys.modules); "
        "sheet(made, 'UK', 'text', language='fr'); print('tomllib' in sys.modules, "
        "'babel' in sys.modules)"
    )
    done = subprocess.run(
        [sys.executable, "-c", code], input=FRENCH, capture_output=True, text=True, check=True
    )
    assert done.stdout.split("\n")[:3] == ["[]", "False", "True False"]


def test_po_files_can_be_read_by_others() -> None:
    for path in catalogues.LANGUAGES.glob("*.po"):
        with path.open("rb") as file:
            assert list(read_po(file, abort_invalid=True).check()) == []
