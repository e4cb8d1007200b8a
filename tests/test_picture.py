"""The picture of a pattern: shown in every form that can show one, read only from beside the
pattern, and where it cannot be had the sheet is made all the same and the reason told."""

from __future__ import annotations

import os
import zlib
from base64 import b64decode
from html.parser import HTMLParser
from io import BytesIO
from pathlib import Path

import pytest
from markdown_it import MarkdownIt
from pypdf import PdfReader

from loopwright import pipeline, rendering
from loopwright.render.sheet.picture import address, measured
from loopwright.repository.beside import LARGEST
from render.hostile import WORDS, hostile
from support import HOUSE, Outcome, run
from test_paper import elements

MITTENS = HOUSE / "examples" / "breakwater-mittens.crochet"
PICTURE = MITTENS.with_suffix(".png")
WORDS_OF_IT = "a blue mitten with raised ribs, drawn palm down, its ribbed cuff by the water"
PATTERN = """pattern: Shore Mat
terms: UK
picture: {} "a mat on a rock"
part mat: flat
start: ch 4
row 1: dc in 2nd ch from hook, dc in each ch across = 3 sts
"""


def png(wide: int, high: int, rows: bytes | None = None) -> bytes:
    """A grey picture, chunk by chunk as the standard lays it out."""

    def chunk(kind: bytes, data: bytes) -> bytes:
        check = zlib.crc32(kind + data).to_bytes(4, "big")
        return len(data).to_bytes(4, "big") + kind + data + check

    head = wide.to_bytes(4, "big") + high.to_bytes(4, "big") + bytes((8, 0, 0, 0, 0))
    dots = (b"\0" + b"\x99" * wide) * high if rows is None else rows
    body = chunk(b"IHDR", head) + chunk(b"IDAT", zlib.compress(dots)) + chunk(b"IEND", b"")
    return b"\x89PNG\r\n\x1a\n" + body


GIF = b64decode("R0lGODlhAQABAIAAAAAAAP///yH5BAEAAAAALAAAAAABAAEAAAIBRAA7")
WEBP = b64decode("UklGRhoAAABXRUJQVlA4TA0AAAAvAAAAEAcQERGIiP4HAA==")


class Images(HTMLParser):
    """The images of a page: their attributes."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.found: list[dict[str, str | None]] = []
        self.feed(page)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag == "img":
            self.found.append(dict(attrs))


def pattern(folder: Path, name: str) -> str:
    """A pattern in the folder that names a picture."""
    path = folder / "mat.crochet"
    path.write_text(PATTERN.format(name), encoding="utf-8")
    return str(path)


def figures(data: bytes) -> list[str]:
    """The words of a PDF's figures."""
    return [
        str(one["/Alt"]) for one in elements(PdfReader(BytesIO(data))) if one["/S"] == "/Figure"
    ]


def test_what_first_bytes_say() -> None:
    assert measured(png(3, 2)) == ("png", 3, 2)
    assert measured(b"GIF87a\x03\x00\x02\x01;") == ("gif", 3, 258)
    assert measured(GIF) == ("gif", 1, 1)
    assert measured(WEBP) == ("webp", 1, 1)
    # RFC 9649: in VP8X the canvas is stored less one, in 24 bits; in VP8 it has 14 bits.
    wider = b"RIFF\0\0\0\0WEBPVP8X" + bytes((10, 0, 0, 0, 0, 0, 0, 0, 2, 1, 0, 1, 0, 0))
    assert measured(wider) == ("webp", 259, 2)
    lossy = b"RIFF\0\0\0\0WEBPVP8 \0\0\0\0\0\0\0\x9d\x01\x2a\x03\x40\x02\x00"
    assert measured(lossy) == ("webp", 3, 2)
    # T.81: segments with their lengths, then a frame: precision, lines, samples of a line.
    jpeg = b"\xff\xd8\xff\xe0\x00\x04ab\xff\xff\xc4\x00\x03x\xff\xc2\x00\x11\x08\x00\x02\x01\x03"
    assert measured(jpeg) == ("jpeg", 259, 2)


@pytest.mark.parametrize(
    "data",
    [
        b"",
        b"<svg xmlns='http://www.w3.org/2000/svg'/>",
        b"<?xml version='1.0'?><svg/>",
        b"<html>",
        png(3, 2)[:14],
        png(0, 2),
        b"GIF89a",
        b"\xff\xd8\xff",
        b"\xff\xd8\xff\xe0\x00\x00" + b"\xff" * 9,
        b"\xff\xd8\xff\xe0\x00\x00" * 50,
        b"RIFF\0\0\0\0WEBPVP8L",
        b"RIFF\0\0\0\0WAVEfmt ",
    ],
)
def test_what_is_no_picture(data: bytes) -> None:
    assert measured(data) is None
    assert address(data) == ""


def test_the_page_has_it_in_itself() -> None:
    told = run("sheet", str(MITTENS), "--form", "html")
    assert (told.code, told.err) == (0, "")
    (image,) = Images(told.out).found
    head, _, data = str(image["src"]).partition(",")
    assert head == "data:image/png;base64"
    assert b64decode(data) == PICTURE.read_bytes()
    assert (image["alt"], image["width"], image["height"]) == (WORDS_OF_IT, "720", "720")
    assert "img-src data:;" in told.out
    assert "Picture:" not in told.out


def test_paper_has_it_as_a_figure_with_its_words(tmp_path: Path) -> None:
    out = tmp_path / "mittens.pdf"
    told = run("sheet", str(MITTENS), "--form", "pdf", "-o", str(out))
    assert (told.code, told.err) == (0, "")
    assert figures(out.read_bytes())[0] == WORDS_OF_IT
    shown = PdfReader(out).pages[0]["/Resources"]["/XObject"].values()
    images = [one for one in (each.get_object() for each in shown) if "/Width" in one]
    assert [(one["/Width"], one["/Height"]) for one in images] == [(720, 720)]


def test_markdown_calls_it_from_where_the_file_lies(tmp_path: Path) -> None:
    (tmp_path / "a b").mkdir()
    name = pattern(tmp_path, "front.png")
    (tmp_path / "front.png").write_bytes(png(3, 2))
    told = run("sheet", name, "--form", "markdown")
    assert told.out.startswith("# Shore Mat\n\n![a mat on a rock](front.png)\n")
    out = tmp_path / "a b" / "mat.md"
    assert run("sheet", name, "--form", "markdown", "-o", str(out)).code == 0
    assert "![a mat on a rock](../front.png)\n" in out.read_text("utf-8")
    (tmp_path / "a b" / "side").mkdir()
    (tmp_path / "a b" / "front.png").write_bytes(png(3, 2))
    there = pattern(tmp_path / "a b", "front.png")
    out = tmp_path / "mat.md"
    assert run("sheet", there, "--form", "markdown", "-o", str(out)).code == 0
    assert "(a%20b/front.png)\n" in out.read_text("utf-8")


def test_text_has_its_words_and_looks_for_no_file(tmp_path: Path) -> None:
    told = run("sheet", pattern(tmp_path, "nowhere.png"))
    assert (told.code, told.err) == (0, "")
    assert "Picture: a mat on a rock" in told.out


def test_build_takes_a_copy_along(tmp_path: Path) -> None:
    told = run("build", str(MITTENS), "-o", str(tmp_path))
    assert (told.code, told.err) == (0, "")
    copy = tmp_path / "pictures" / "breakwater-mittens.png"
    assert copy.read_bytes() == PICTURE.read_bytes()
    for terms in ("uk", "us"):
        words = (tmp_path / f"breakwater-mittens-{terms}.md").read_text("utf-8")
        assert f"![{WORDS_OF_IT}](pictures/breakwater-mittens.png)" in words
        assert len(Images((tmp_path / f"breakwater-mittens-{terms}.html").read_text()).found) == 1


@pytest.mark.parametrize("name", ["a.gif", "deep/a.webp", "named-wrongly.jpg"])
@pytest.mark.parametrize("form", ["html", "pdf"])
def test_every_kind_is_shown(tmp_path: Path, name: str, form: str) -> None:
    (tmp_path / "deep").mkdir()
    (tmp_path / "a.gif").write_bytes(GIF)
    (tmp_path / "deep" / "a.webp").write_bytes(WEBP)
    (tmp_path / "named-wrongly.jpg").write_bytes(png(2, 2))
    out = tmp_path / "out"
    told = run("sheet", pattern(tmp_path, name), "--form", form, "-o", str(out))
    assert (told.code, told.err) == (0, "")
    if form == "pdf":
        assert figures(out.read_bytes())[0] == "a mat on a rock"
    else:
        kind = {"a.gif": "gif", "deep/a.webp": "webp"}.get(name, "png")
        (image,) = Images(out.read_text("utf-8")).found
        assert str(image["src"]).startswith(f"data:image/{kind};base64,")


def refused(folder: Path, name: str, form: str = "html") -> Outcome:
    """What is answered where the picture is not shown: the sheet is there with its words."""
    told = run("sheet", pattern(folder, name), "--form", form)
    assert told.code == 1
    assert "Picture: a mat on a rock" in told.out
    assert "<img" not in told.out
    assert "![" not in told.out
    assert f"the picture `{name}` is left out: " in told.err
    assert len(told.err.splitlines()) == 1
    return told


@pytest.mark.parametrize("form", ["html", "markdown"])
def test_what_is_not_there_is_told_and_the_sheet_is_made(tmp_path: Path, form: str) -> None:
    assert "there is no such file beside the pattern" in refused(tmp_path, "no.png", form).err


def test_nothing_is_read_outside_the_folder(tmp_path: Path) -> None:
    inner = tmp_path / "inner"
    inner.mkdir()
    (tmp_path / "out.png").write_bytes(png(2, 2))
    (inner / "link.png").symlink_to(tmp_path / "out.png")
    (inner / "away").symlink_to(tmp_path)
    (inner / "deep").mkdir()
    for name in ("../out.png", "deep/../../out.png", str(tmp_path / "out.png")):
        assert "it must lie in the folder of the pattern" in refused(inner, name).err
    for name in ("link.png", "away/out.png"):
        assert "a link that leads out of the folder" in refused(inner, name).err
    assert "write / between" in refused(inner, "..\\out.png").err
    (inner / "real.png").write_bytes(png(2, 2))
    (inner / "within.png").symlink_to("real.png")
    assert run("sheet", pattern(inner, "within.png"), "--form", "html").code == 0


def test_only_pictures_of_dots_and_only_so_large(tmp_path: Path) -> None:
    (tmp_path / "drawn.svg").write_text("<svg xmlns='http://www.w3.org/2000/svg'/>")
    (tmp_path / "named.png").write_text("<svg xmlns='http://www.w3.org/2000/svg'/>")
    for name in ("drawn.svg", "named.png"):
        assert "it is no PNG, JPEG, WebP or GIF" in refused(tmp_path, name).err
    (tmp_path / "heavy.png").write_bytes(png(2, 2) + bytes(LARGEST))
    assert "larger than 8 MB" in refused(tmp_path, "heavy.png").err
    (tmp_path / "wide.png").write_bytes(png(8001, 8000, b""))
    assert "8,001 by 8,000 dots" in refused(tmp_path, "wide.png").err


def test_what_is_no_file(tmp_path: Path) -> None:
    (tmp_path / "folder.png").mkdir()
    assert "it is a folder" in refused(tmp_path, "folder.png").err
    os.mkfifo(tmp_path / "pipe.png")
    assert "it is not a file" in refused(tmp_path, "pipe.png").err


def test_a_pattern_from_standard_input_lies_nowhere() -> None:
    text = PATTERN.format("front.png").encode()
    told = run("sheet", "-", "--form", "html", given=text)
    assert told.code == 1
    assert "standard input lies in no folder" in told.err
    assert "Picture: a mat on a rock" in told.out


def test_a_picture_damaged_within_is_left_out_of_the_pdf(tmp_path: Path) -> None:
    (tmp_path / "cut.png").write_bytes(png(600, 600, bytes(5000))[:60])
    out = tmp_path / "mat.pdf"
    told = run("sheet", pattern(tmp_path, "cut.png"), "--form", "pdf", "-o", str(out))
    assert told.code == 1
    assert "this picture is left out of the PDF" in told.err
    assert "Picture: a mat on a rock" in PdfReader(out).pages[0].extract_text()
    told = run("build", pattern(tmp_path, "cut.png"), "--pdf", "-o", str(tmp_path / "out"))
    assert told.code == 1
    assert (tmp_path / "out" / "mat-uk.pdf").is_file()


@pytest.mark.parametrize("words", sorted(WORDS))
def test_hostile_words_for_a_picture_stay_words(words: str) -> None:
    result = pipeline.check_text("hostile", hostile(alt=WORDS[words]))
    if "{" in WORDS[words] and result.checked is None:
        return  # braces that say nothing are refused where they stand
    assert result.checked is not None
    assert result.checked.pattern.picture is not None
    alt = result.checked.pattern.picture[1]
    page = rendering.sheet(result.checked, "UK", "html", picture=png(2, 2))
    assert [one["alt"] for one in Images(page).found] == [alt]
    page = rendering.sheet(result.checked, "UK", "markdown", picture=png(2, 2), link="a.png")
    (image,) = Images(MarkdownIt("commonmark").render(page)).found
    assert image["src"] == "a.png"
    assert " ".join(str(image["alt"]).split()) == " ".join(alt.split())
    assert figures(rendering.pdf(result.checked, "UK", "a4", picture=png(2, 2)))[0] == alt


def test_without_words_the_title_stands_for_it() -> None:
    text = PATTERN.replace(' "a mat on a rock"', "").format("front.png")
    made = pipeline.check_text("mat", text).checked
    assert made is not None
    page = rendering.sheet(made, "UK", "html", picture=png(2, 2))
    assert [one["alt"] for one in Images(page).found] == ["Shore Mat"]
    assert figures(rendering.pdf(made, "UK", "a4", picture=png(2, 2)))[0] == "Shore Mat"
    assert "Picture" not in rendering.sheet(made, "UK", "text")
