"""`loopwright chart`: its forms, which rows and how large, and an answer to every bad wish."""

from __future__ import annotations

import os
import pty
import struct
import subprocess
import sys
import zlib
from functools import partial
from pathlib import Path
from xml.etree import ElementTree

import pytest
import resvg_py

from conftest import Loopwright
from loopwright import pipeline, rendering
from loopwright.repository import charts, picture
from loopwright.repository.files import CannotLook
from support import HOUSE, run

COASTER = str(HOUSE / "examples" / "limpet-coaster.crochet")
SAIL = str(HOUSE / "examples" / "sail-filet.crochet")
MITTENS = str(HOUSE / "examples" / "breakwater-mittens.crochet")


def size_of(png: bytes) -> tuple[int, int]:
    """How wide and high a PNG is, from its header (the first chunk of the standard)."""
    assert png[:8] == b"\x89PNG\r\n\x1a\n"
    assert png[12:16] == b"IHDR"
    return struct.unpack(">II", png[16:24])


def dots(png: bytes) -> bytes:
    """The dots of a PNG, still filtered: all chunks of data after one another, unpacked."""
    at, data = 8, b""
    while at < len(png):
        (length,) = struct.unpack(">I", png[at : at + 4])
        if png[at + 4 : at + 8] == b"IDAT":
            data += png[at + 8 : at + 8 + length]
        at += length + 12
    return zlib.decompress(data)


def drawn(svg: str) -> tuple[float, float]:
    root = ElementTree.fromstring(svg)
    return float(root.get("width", "")), float(root.get("height", ""))


# ------------------------------------------------------------------------------- the forms


def test_words_are_those_of_the_drawing(loopwright: Loopwright) -> None:
    told = loopwright("chart", COASTER, "--form", "text")
    svg = loopwright("chart", COASTER)
    assert (told.code, svg.code) == (0, 0)
    assert told.out.startswith("Limpet Coaster: chart of the disc\nBegin with a magic ring.\n")
    inside = ElementTree.fromstring(svg.out).findtext("{http://www.w3.org/2000/svg}desc")
    assert told.out == f"{inside}\n"
    assert "Round 2, right side, with rock: (2 sc in one stitch) 6 times; 12 stitches." in told.out


def test_words_in_the_terms_asked_for(loopwright: Loopwright) -> None:
    told = loopwright("chart", COASTER, "--form", "text", "--terms", "uk")
    assert "(2 dc in one stitch) 6 times" in told.out


def test_the_title_the_key_and_the_words_in_another_language(loopwright: Loopwright) -> None:
    """`ms` is maille serree and `en rond` is told anticlockwise: trade/words/fr.toml has both."""
    told = loopwright("chart", COASTER, "--form", "text", "--language", "fr")
    svg = loopwright("chart", COASTER, "--language", "fr")
    assert (told.code, svg.code) == (0, 0)
    title, start, reading, *rows = told.out.splitlines()
    assert title == "Limpet Coaster\u00a0: grille de la pièce disc"
    assert "cercle magique" in start
    assert "sens inverse des aiguilles d’une montre" in reading
    assert [row.split(",")[0] for row in rows] == [f"Tour {n}" for n in range(1, 10)]
    assert all(" ms" in row and "sc" not in row.split() for row in rows)
    root = ElementTree.fromstring(svg.out)
    seen = ["".join(one.itertext()) for one in root.iter("{http://www.w3.org/2000/svg}text")]
    assert seen[0] == title
    assert "Légende" in seen
    assert any("maille serrée" in one for one in seen)
    assert root.findtext("{http://www.w3.org/2000/svg}desc") == told.out.rstrip("\n")


def test_squares_in_another_language(loopwright: Loopwright) -> None:
    told = loopwright("chart", "examples/sail-filet.crochet", "--form", "text", "--language", "fr")
    assert told.code == 0
    assert "Rang 1, endroit\u00a0: 11 vides." in told.out
    assert "Rang 2, envers\u00a0: 5 vides, 1 plein, 5 vides." in told.out


@pytest.mark.parametrize(("scale", "times"), [(None, 2.0), ("1", 1.0), ("2.5", 2.5)])
def test_a_png_is_as_large_as_is_said(
    loopwright: Loopwright, tmp_path: Path, scale: str | None, times: float
) -> None:
    out = tmp_path / "chart.png"
    more = ["--scale", scale] if scale else []
    answer = loopwright("chart", COASTER, "--form", "png", "-o", str(out), *more)
    assert (answer.code, answer.out, answer.err) == (0, "", "")
    width, height = drawn(loopwright("chart", COASTER).out)
    found = size_of(out.read_bytes())
    assert abs(found[0] - width * times) <= 1
    assert abs(found[1] - height * times) <= 1
    assert len(set(dots(out.read_bytes()))) > 10  # something is drawn on the ground
    assert [path.name for path in tmp_path.iterdir()] == ["chart.png"]


def test_a_png_has_the_words_of_the_chart(tmp_path: Path) -> None:
    title = '<text x="4" y="14">Limpet</text>'
    page = '<svg xmlns="http://www.w3.org/2000/svg" width="60" height="20" {}>{}</svg>'
    with_words = picture.png(page.format(picture.PLAIN, title), 1)
    assert dots(with_words) != dots(picture.png(page.format(picture.PLAIN, ""), 1))


def test_a_png_goes_into_a_pipe_whole() -> None:
    done = subprocess.run(
        [sys.executable, "-m", "loopwright", "chart", COASTER, "--form", "png"],
        capture_output=True,
        cwd=HOUSE,
        timeout=60,
        check=False,
    )
    assert (done.returncode, done.stderr) == (0, b"")
    assert size_of(done.stdout)[0] > 0
    assert dots(done.stdout)
    assert done.stdout.endswith(b"IEND\xaeB`\x82")


def test_a_png_is_not_thrown_at_a_terminal() -> None:
    ours, theirs = pty.openpty()
    command = [sys.executable, "-m", "loopwright", "chart", COASTER, "--form", "png"]
    done = subprocess.run(
        command, stdout=theirs, stderr=subprocess.PIPE, cwd=HOUSE, timeout=60, check=False
    )
    os.close(theirs)
    os.close(ours)
    assert done.returncode == 2
    assert done.stderr == (
        b"loopwright: a PNG cannot be shown in a terminal; write it to a file: -o chart.png\n"
    )


def test_without_the_extra_the_command_to_install_it_is_told(
    loopwright: Loopwright, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(sys.modules, "resvg_py", None)
    answer = loopwright("chart", COASTER, "-o", str(tmp_path / "chart.png"))
    assert (answer.code, answer.out) == (2, "")
    # The library itself: in a registry anything may lie under this program's own name.
    assert f'"{sys.executable}" -m pip install "resvg_py>=0.5"\n' in answer.err
    assert "loopwright[" not in answer.err
    assert list(tmp_path.iterdir()) == []
    assert loopwright("chart", COASTER).code == 0


def test_without_a_typeface_there_is_a_sentence(monkeypatch: pytest.MonkeyPatch) -> None:
    bare = partial(resvg_py.svg_to_bytes, skip_system_fonts=True)
    monkeypatch.setattr(resvg_py, "svg_to_bytes", bare)
    with pytest.raises(CannotLook, match="no typeface"):
        picture.png("<svg/>", 1)


@pytest.mark.parametrize(
    ("name", "begins"),
    [("a.png", b"\x89PNG"), ("a.txt", b"Limpet"), ("a.svg", b"<svg"), ("a", b"<svg")],
)
def test_the_form_follows_the_name_of_the_file(
    loopwright: Loopwright, tmp_path: Path, name: str, begins: bytes
) -> None:
    assert loopwright("chart", COASTER, "-o", str(tmp_path / name)).code == 0
    assert (tmp_path / name).read_bytes().startswith(begins)
    assert loopwright("chart", COASTER, "--form", "text", "-o", str(tmp_path / name)).code == 0
    assert (tmp_path / name).read_bytes().startswith(b"Limpet")


def test_a_scaled_drawing_has_a_larger_page_and_the_same_inside(loopwright: Loopwright) -> None:
    plain, large = (
        loopwright("chart", COASTER).out,
        loopwright("chart", COASTER, "--scale", "1.5").out,
    )
    assert drawn(large) == tuple(round(one * 1.5, 2) for one in drawn(plain))
    assert ElementTree.fromstring(large).get("viewBox") == ElementTree.fromstring(plain).get(
        "viewBox"
    )
    assert large.split("\n")[1:] == plain.split("\n")[1:]


# ----------------------------------------------------------------------- which rows, which kind


def rows_of(svg: str) -> set[str]:
    """The numbers of the rows that symbols stand in."""
    root = ElementTree.fromstring(svg)
    return {one.get("data-row", "") for one in root.iter() if one.get("data-stitch")} - {"0"}


def test_some_rows_alone(loopwright: Loopwright) -> None:
    answer = loopwright("chart", COASTER, "--rows", "3-5")
    assert answer.code == 0
    assert rows_of(answer.out) == {"3", "4", "5"}
    told = loopwright("chart", COASTER, "--rows", "4", "--form", "text").out
    assert [line[:7] for line in told.split("\n") if line.startswith("Round")] == ["Round 4"]
    assert "Limpet Coaster: chart of the disc, round 4\n" in told
    assert "The first round shown is worked into round 3." in told


def test_the_whole_is_more_than_is_needed(loopwright: Loopwright) -> None:
    few = loopwright("chart", MITTENS, "--part", "cuff").out
    every = loopwright("chart", MITTENS, "--part", "cuff", "--whole").out
    assert rows_of(every) == {str(number) for number in range(1, 29)}
    assert rows_of(few) < rows_of(every)


def test_filet_comes_in_squares_unless_symbols_are_asked_for(loopwright: Loopwright) -> None:
    squares = loopwright("chart", SAIL, "--part", "mat")
    assert "This is the chart of squares" in squares.err
    assert "squares of the mat" in squares.out
    asked = loopwright("chart", SAIL, "--part", "mat", "--kind", "grid")
    assert (asked.out, asked.err) == (squares.out, "")
    symbols = loopwright("chart", SAIL, "--part", "mat", "--kind", "symbols")
    assert (symbols.code, symbols.err) == (0, "")
    assert "chart of the mat" in symbols.out
    told = loopwright("chart", SAIL, "--part", "mat", "--form", "text", "--rows", "2")
    assert told.out.endswith("Row 2, wrong side: 5 open, 1 filled, 5 open.\n")


def test_every_symbol_carries_its_line(loopwright: Loopwright) -> None:
    root = ElementTree.fromstring(loopwright("chart", COASTER).out)
    found = {
        (one.get("data-row"), one.get("data-line")) for one in root.iter() if one.get("data-stitch")
    }
    # The ring is begun on line 8, round 1 is line 9, rounds 2 to 9 are line 10.
    assert found == {("0", "8"), ("1", "9"), *((str(row), "10") for row in range(2, 10))}


def test_a_build_and_its_pages_have_the_squares(loopwright: Loopwright, tmp_path: Path) -> None:
    assert loopwright("build", SAIL, "-o", str(tmp_path)).code == 0
    names = sorted(path.name for path in (tmp_path / "charts").iterdir())
    assert names == ["sail-filet-border.svg", "sail-filet-mat-squares.svg", "sail-filet-mat.svg"]
    page = (tmp_path / "sail-filet-uk.html").read_text("utf-8")
    assert "<h2>Chart: mat, in squares</h2>" in page
    assert "Row 2, wrong side: 5 open, 1 filled, 5 open." in page


# --------------------------------------------------------------------------------- bad wishes


WRONG = [
    (("--rows", "12-3"), "write --rows 3-12"),
    (("--rows", "three"), "write --rows 3-12, or --rows 7"),
    (("--rows", "1-2-3"), "write --rows 3-12, or --rows 7"),
    (("--rows", "²"), "write --rows 3-12, or --rows 7"),
    (("--rows", ""), "write --rows 3-12, or --rows 7"),
    (("--rows", "-3"), "write --rows 3-12, or --rows 7"),
    (("--rows", "9" * 40), "write --rows 3-12, or --rows 7"),
    (("--rows", "0-2"), "counted from 1"),
    (("--rows", "8-10"), "the part disc has rows 1 to 9, not 8 to 10."),
    (("--rows", "10"), "the part disc has rows 1 to 9, not 10."),
    (("--scale", "big"), "as in --scale 2 or --scale 1.5"),
    (("--scale", "nan"), "as in --scale 2 or --scale 1.5"),
    (("--scale", "1e3"), "as in --scale 2 or --scale 1.5"),
    (("--scale", "-1"), "as in --scale 2 or --scale 1.5"),
    (("--scale", "0"), "not between 0.1 and 20"),
    (("--scale", "21"), "not between 0.1 and 20"),
    (("--scale", "2", "--form", "text"), "--scale is for a picture"),
    (("--form", "gif"), "'svg', 'png', 'text'"),
    (("--kind", "knots"), "'symbols', 'grid'"),
    (("--kind", "grid"), "the part disc has no chart of squares"),
    (("--part", "hood"), "there is no part `hood`; there is disc."),
    (("--size", "huge"), "there is no size `huge`; there is one size."),
    (("--terms", "fr"), "'uk', 'us'"),
    (("--language", "tlh"), "there is no language `tlh`; there is en, fr."),
    (("--language", "fr", "--terms", "us"), "another language has terms of its own"),
]


@pytest.mark.parametrize(("wish", "said"), WRONG, ids=[" ".join(wish)[:20] for wish, _ in WRONG])
def test_a_bad_wish_is_answered_with_a_sentence(
    loopwright: Loopwright, tmp_path: Path, wish: tuple[str, ...], said: str
) -> None:
    answer = loopwright("chart", COASTER, "-o", str(tmp_path / "out"), *wish)
    assert (answer.code, answer.out) == (2, "")
    assert said in answer.err
    assert list(tmp_path.iterdir()) == []


def test_squares_of_rows_that_have_none(loopwright: Loopwright, tmp_path: Path) -> None:
    pattern = tmp_path / "band.crochet"
    text = (HOUSE / "examples" / "sail-filet.crochet").read_text("utf-8")
    more = "row 12: ch 1, dc in each st and ch across = 34 sts\n\npart border"
    pattern.write_text(
        text.split("part border")[0].rstrip() + "\n" + more.split("\n\n")[0], "utf-8"
    )
    whole = loopwright("chart", str(pattern), "--form", "text")
    assert "Row 12 is not in squares: see the chart of symbols." in whole.out
    answer = loopwright("chart", str(pattern), "--rows", "12", "--kind", "grid")
    assert (answer.code, answer.out) == (2, "")
    assert "these rows of the part mat are not in its chart of squares" in answer.err
    # Without a kind, what can be drawn of the row is drawn.
    assert "chart of the mat" in loopwright("chart", str(pattern), "--rows", "12").out


def test_a_picture_too_large_to_draw(loopwright: Loopwright, tmp_path: Path) -> None:
    out = tmp_path / "chart.png"
    wish = ("--part", "cuff", "--whole", "--scale", "20", "-o", str(out))
    answer = loopwright("chart", MITTENS, *wish)
    assert (answer.code, answer.out) == (2, "")
    assert "take a smaller --scale, or --rows" in answer.err
    assert not out.exists()


def test_png_that_cannot_be_drawn_is_a_sentence() -> None:
    with pytest.raises(CannotLook, match="could not be drawn"):
        picture.png("<svg", 1)


def test_a_setup_row_goes_with_the_first(tmp_path: Path) -> None:
    text = "pattern: x\nterms: UK\npart a: flat\nstart: ch 7\n"
    text += "setup row: dc in 2nd ch from hook, 5 dc\nrows 1-3: ch 1, dc in each st across\n"
    (tmp_path / "a.crochet").write_text(text, "utf-8")
    checked = pipeline.check_text("a", text).checked
    assert checked is not None
    assert rendering.row_numbers(checked, "a", 0) == (0, 3)
    told = run("chart", "a.crochet", "--form", "text", "--rows", "1-2", at=tmp_path).out
    assert "Setup row, right side: " in told
    assert "Row 1, wrong side first, then either side in turn: " in told
    assert "worked 2 times." in told


def test_the_page_of_a_drawing_is_read() -> None:
    assert charts.page_of('<svg role="img" width="12.5" height="7" viewBox="0 0 12.5 7">') == (
        12.5,
        7,
    )
