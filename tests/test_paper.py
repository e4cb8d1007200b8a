"""The sheet on paper, from the command line: what is written, what is said where it cannot be."""

from __future__ import annotations

import re
from collections import Counter
from io import BytesIO
from itertools import pairwise
from pathlib import Path

import pytest
import typst
from pypdf import PageObject, PdfReader
from pypdf.generic import DictionaryObject

from loopwright.pipeline import check_text
from loopwright.rendering import charts, schematics
from render.hostile import close, read_svg
from support import EXAMPLES, HOUSE, run

MITTENS = str(HOUSE / "examples" / "breakwater-mittens.crochet")
COASTER = str(HOUSE / "examples" / "limpet-coaster.crochet")
MM = 72 / 25.4


def elements(reader: PdfReader) -> list[DictionaryObject]:
    """The elements of the structure, in the order in which they are read."""
    found: list[DictionaryObject] = []

    def walk(one: object) -> None:
        one = one.get_object() if hasattr(one, "get_object") else one
        if isinstance(one, list):
            for each in one:
                walk(each)
        elif isinstance(one, DictionaryObject):
            if "/S" in one:
                found.append(one)
            walk(one.get("/K"))

    walk(reader.trailer["/Root"]["/StructTreeRoot"].get("/K"))
    return found


def kinds(reader: PdfReader) -> list[str]:
    return [str(one["/S"])[1:] for one in elements(reader)]


def size_mm(page: PageObject) -> tuple[int, int]:
    return round(float(page.mediabox.width) / MM), round(float(page.mediabox.height) / MM)


@pytest.fixture(scope="module")
def mittens(tmp_path_factory: pytest.TempPathFactory) -> PdfReader:
    out = tmp_path_factory.mktemp("paper") / "mittens.pdf"
    told = run("sheet", MITTENS, "--form", "pdf", "-o", str(out))
    assert (told.code, told.out, told.err) == (0, "", "")
    return PdfReader(out)


def test_it_says_that_it_keeps_pdf_ua_1(mittens: PdfReader) -> None:
    root = mittens.trailer["/Root"]
    assert root["/MarkInfo"]["/Marked"]
    assert root["/Lang"] == "en-GB"
    assert root["/ViewerPreferences"]["/DisplayDocTitle"]
    assert "<pdfuaid:part>1</pdfuaid:part>" in root["/Metadata"].get_data().decode()
    assert mittens.metadata is not None
    assert mittens.metadata.title == "Breakwater Mittens"
    assert mittens.metadata.creation_date is None


def test_it_has_headings_in_order(mittens: PdfReader) -> None:
    made = kinds(mittens)
    assert made.count("H1") == 1
    heads = [kind for kind in made if kind in ("H1", "H2", "H3", "H4", "H5", "H6")]
    assert heads[0] == "H1"
    assert set(heads) == {"H1", "H2", "H3"}
    for one, following in pairwise(heads):
        assert int(following[1]) <= int(one[1]) + 1
    text = "\n" + "\n".join(page.extract_text() for page in mittens.pages)
    at = [
        text.index(f"\n{heading}\n") for heading in ("Sizes", "Materials", "Cuff", "Hand", "Thumb")
    ]
    assert at == sorted(at)


def test_its_tables_have_headers_and_captions(mittens: PdfReader) -> None:
    tables = [one for one in elements(mittens) if one["/S"] == "/Table"]
    assert tables
    assert kinds(mittens).count("Caption") == len(tables)
    heads = [one for one in elements(mittens) if one["/S"] == "/TH"]
    for one in heads:
        assert any(each.get("/Scope") == "/Column" for each in attributes(one))
    # Three tables: both terms (2 columns), to fit and finished (4 each), yarn (4).
    assert len(heads) == 2 + 4 + 4 + 4
    assert kinds(mittens).count("THead") == len(tables)


def test_the_typesetter_has_no_heads_of_rows_yet() -> None:
    """docs/limits.md says why they are plain cells. Where this fails, they need not be any more."""
    source = '#table(columns: 2, pdf.header-cell(scope: "row", table.cell[a]), [b])'
    with pytest.raises(typst.TypstError, match="does not contain `header-cell`"):
        typst.compile(source.encode(), format="pdf")


def attributes(one: DictionaryObject) -> list[DictionaryObject]:
    found = one["/A"].get_object() if "/A" in one else []
    return [each.get_object() for each in (found if isinstance(found, list) else [found])]


def test_every_drawing_has_words_that_stand_for_it(mittens: PdfReader) -> None:
    figures = [one for one in elements(mittens) if one["/S"] == "/Figure"]
    # The picture; of each part a schematic; the charts: of cuff and thumb one in all sizes, of the
    # hand one in each.
    assert len(figures) == 1 + 3 + 2 + 3
    words = [str(one["/Alt"]) for one in figures]
    assert len(set(words)) == 9
    assert any("Row 1, right side, with slate: " in one for one in words)
    assert any("14 (17, 20) cm" in one for one in words)


def test_its_fonts_are_in_it(mittens: PdfReader) -> None:
    fonts = [
        font.get_object()["/DescendantFonts"][0].get_object()["/FontDescriptor"]
        for page in mittens.pages
        for font in page["/Resources"].get("/Font", {}).values()
    ]
    assert fonts
    for font in fonts:
        assert {"/FontFile2", "/FontFile3"} & set(font)


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda path: path.stem)
def test_the_words_that_close_a_sheet_are_no_page_by_themselves(
    example: Path, tmp_path: Path
) -> None:
    out = tmp_path / "out.pdf"
    assert run("sheet", str(example), "--form", "pdf", "-o", str(out)).code == 0
    last = PdfReader(out).pages[-1].extract_text()
    # The key of the chart before them.
    assert "Finishing" in last
    assert re.search(r"^ *Key *$", last, re.MULTILINE)


@pytest.mark.parametrize("rows", [10, 11])
def test_words_that_no_chart_stands_before_take_the_last_steps_with_them(
    rows: int, tmp_path: Path
) -> None:
    """The chart is wide and is turned on a page of its own; the tenth row fills the page before."""
    lines = [f"row {n}: ch 1, {20 + n} dc, htr, {59 - n} dc" for n in range(2, rows + 1)]
    text = WIDE + "\n".join([*lines, "finish: Fasten off.", ""])
    file, out = tmp_path / "wide.crochet", tmp_path / "out.pdf"
    file.write_text(text, "utf-8")
    assert run("sheet", str(file), "--form", "pdf", "--large-print", "-o", str(out)).code == 0
    pages = [page.extract_text() for page in PdfReader(out).pages]
    assert re.search(r"^ *Key *$", pages[-1], re.MULTILINE)
    assert "Finishing" in pages[-2]
    assert len(re.findall(r"Row \d+:", pages[-2])) >= 2


WIDE = """pattern: Wide
terms: UK
yarn slate: "wool"
hook main: 4 mm
part cloth: flat, yarn slate, hook main
start: ch 81
row 1: dc in 2nd ch from hook, dc in each ch across
"""


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda path: path.stem)
def test_every_example_goes_on_paper_in_large_print(example: Path, tmp_path: Path) -> None:
    out = tmp_path / "out.pdf"
    told = run(
        "sheet", str(example), "--form", "pdf", "--paper", "letter", "--large-print",
        "--terms", "us", "-o", str(out),
    )  # fmt: skip
    assert (told.code, told.err) == (0, "")
    reader = PdfReader(out)
    assert {tuple(sorted(size_mm(page))) for page in reader.pages} == {(216, 279)}
    assert reader.trailer["/Root"]["/Lang"] == "en-US"
    # What closes the sheet is with the chart, or where it is too long for that all on one page.
    last = reader.pages[-1].extract_text()
    assert "Finishing" in last
    assert re.search(r"^ *(?:Key|Caution) *$", last, re.MULTILINE)
    # Words are 18 point and nothing of them is less than 16, which is where large print begins
    # (common practice); drawings are as large as the page lets them be.
    sizes: Counter[float] = Counter()
    small: list[str] = []
    for page in reader.pages:
        page.extract_text(
            visitor_text=lambda text, _cm, _tm, _font, size: sort(text, size, sizes, small)
        )
    assert sizes[18] > sum(sizes.values()) / 2
    checked = check_text(example.stem, example.read_text("utf-8")).checked
    assert checked is not None
    drawn = (*charts(checked, "US"), *schematics(checked, "US"))
    words = close("".join(read_svg(svg)[0] for _, svg in drawn))
    assert [text for text in small if close(text) not in words] == []


def sort(text: str, size: float, sizes: Counter[float], small: list[str]) -> None:
    """Count a text's characters with those of its size in points, or put it with the small ones."""
    if text.strip() and size < 16:
        small.append(text.strip())
    elif text.strip():
        sizes[round(size, 2)] += len(text.strip())


def test_the_papers_and_the_prints() -> None:
    a4 = run_bytes(COASTER)
    letter = run_bytes(COASTER, "--paper", "letter")
    large = run_bytes(COASTER, "--large-print")
    assert a4 == run_bytes(COASTER, "--paper", "a4")
    assert size_mm(PdfReader(BytesIO(a4)).pages[0]) == (210, 297)
    assert size_mm(PdfReader(BytesIO(letter)).pages[0]) == (216, 279)
    assert len(PdfReader(BytesIO(large)).pages) > len(PdfReader(BytesIO(a4)).pages)


def run_bytes(*arguments: str) -> bytes:
    """What the command writes into a pipe."""
    import subprocess
    import sys

    command = [sys.executable, "-m", "loopwright", "sheet", "--form", "pdf", *arguments]
    return subprocess.run(command, capture_output=True, check=True, timeout=60).stdout


def test_the_same_bytes_whatever_the_clock_and_the_folder(tmp_path: Path) -> None:
    outs = []
    for at, zone, home in ((HOUSE, "UTC", "a"), (tmp_path, "Asia/Tokyo", "b")):
        out = tmp_path / f"{home}.pdf"
        told = run(
            "sheet", COASTER, "--form", "pdf", "-o", str(out), at=at, TZ=zone,
            HOME=str(tmp_path), SOURCE_DATE_EPOCH=str(len(outs) * 10**9), LC_ALL="C",
        )  # fmt: skip
        assert told.code == 0
        outs.append(out.read_bytes())
    assert outs[0] == outs[1]


def test_build_writes_them_where_asked(tmp_path: Path) -> None:
    told = run("build", COASTER, "-o", str(tmp_path / "with"), "--pdf", "--paper", "letter")
    assert told.code == 0
    assert "limpet-coaster-uk.pdf\n" in told.out
    names = {path.name for path in (tmp_path / "with").iterdir()}
    assert {"limpet-coaster-uk.pdf", "limpet-coaster-us.pdf"} <= names
    for terms in ("uk", "us"):
        pages = PdfReader(tmp_path / "with" / f"limpet-coaster-{terms}.pdf").pages
        assert f"limpet coaster · {terms} terms" in pages[0].extract_text().lower()
    run("build", COASTER, "-o", str(tmp_path / "without"))
    assert not list((tmp_path / "without").glob("*.pdf"))


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("sheet", COASTER, "--paper", "a4"), "--paper is for a PDF; ask for one with --form pdf."),
        (("sheet", COASTER, "--large-print"), "--large-print is for a PDF"),
        (("build", COASTER, "-o", "{out}", "--paper", "a4"), "ask for one with --pdf."),
        (("sheet", COASTER, "--form", "pdf", "--paper", "a5"), "choose from"),
    ],
)
def test_options_that_go_with_a_pdf(arguments: tuple[str, ...], said: str, tmp_path: Path) -> None:
    told = run(*(one.replace("{out}", str(tmp_path / "out")) for one in arguments))
    assert told.code == 2
    assert said in told.err
    assert told.out == ""
    assert not (tmp_path / "out").exists()


def test_without_the_extra_it_says_how_to_get_it(tmp_path: Path) -> None:
    # As where it is not installed: the import fails.
    (tmp_path / "typst.py").write_text("raise ModuleNotFoundError('typst')\n", "utf-8")
    out = tmp_path / "out"
    for command in (
        ("sheet", COASTER, "--form", "pdf", "-o", str(out)),
        ("build", COASTER, "--pdf", "-o", str(out)),
    ):
        told = run(*command, PYTHONPATH=str(tmp_path))
        assert told.code == 2
        asked = re.findall(r'-m pip install "(.*)"$', told.err, re.MULTILINE)
        assert [set(re.split("(?=[<>])|,", one)) - {""} for one in asked] == [
            {"typst", ">=0.15", "<0.16"}
        ]
        assert "loopwright[" not in told.err
        assert not out.exists()
    assert run("sheet", COASTER, PYTHONPATH=str(tmp_path)).code == 0


def test_a_pattern_with_faults_makes_no_pdf(tmp_path: Path) -> None:
    text = Path(COASTER).read_text("utf-8").replace("= {6 * r} sts", "= 7 sts")
    (tmp_path / "faulty.crochet").write_text(text, "utf-8")
    out = tmp_path / "out.pdf"
    told = run("sheet", str(tmp_path / "faulty.crochet"), "--form", "pdf", "-o", str(out))
    assert told.code == 1
    assert "count-differs" in told.err
    assert not out.exists()


MANY = """pattern: Many Sizes
terms: UK
sizes: {sizes}
measure palm: {lengths} cm
part band: flat
start: ch 11
row 1: dc in 2nd ch from hook, dc in each ch across = 10 sts
"""


@pytest.mark.parametrize(
    ("sizes", "extra", "heads"),
    [
        # The sizes stand side by side, after the head of their rows, as long as there is room.
        (8, (), ["Measure", *(f"S{n}" for n in range(1, 9))]),
        (9, (), ["Sizes", "To fit palm"]),
        (5, ("--large-print",), ["Measure", *(f"S{n}" for n in range(1, 6))]),
        (6, ("--large-print",), ["Sizes", "To fit palm"]),
        (40, (), ["Sizes", "To fit palm"]),
    ],
)
def test_a_table_of_many_sizes_has_them_one_under_the_other(
    sizes: int, extra: tuple[str, ...], heads: list[str], tmp_path: Path
) -> None:
    names, lengths = ([f"{before}{n}" for n in range(1, sizes + 1)] for before in ("s", "1"))
    text = MANY.format(
        sizes=f"{names[0]} ({', '.join(names[1:])})",
        lengths=f"{lengths[0]} ({', '.join(lengths[1:])})",
    )
    (tmp_path / "many.crochet").write_text(text, "utf-8")
    page = PdfReader(BytesIO(run_bytes(str(tmp_path / "many.crochet"), *extra))).pages[0]
    words = page.extract_text().split("Measures in each size")[1].split("cm")[0]
    assert close(words).startswith(close("".join(heads)))
