"""`use: FILE`: what comes from it, and what never does. The case files hold the messages that need
no repository around them."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from conftest import Loopwright
from loopwright.diagnostics.text import message
from loopwright.pipeline import Around, check_text, used_by
from loopwright.repository.files import LARGEST
from loopwright.repository.jobs import MOST_USED, Desk, judge
from loopwright.source import NotRead, beside
from repository.houses import HOUSE, PLAIN, STRIP, write
from support import run

KEY = "../shared/house.crochet"


def house(folder: Path, **more: str) -> Path:
    """A repository with a shared file and a pattern that uses it."""
    return write(
        folder, {".git/HEAD": "", "shared/house.crochet": HOUSE, "strips/strip.crochet": STRIP}
    )


def test_what_is_used_is_the_same_as_if_it_were_written_here() -> None:
    # The house writes in US terms: its dc is a UK tr, its sc a UK dc.
    own = STRIP.replace(
        "use: ../shared/house.crochet\n",
        'yarn slate: "DK wool", 50 g = 110 m, weight 3\nhook small: 4 mm\n'
        "gauge rib: 19 sts and 20 rows to 10 cm in dc, hook small, yarn slate\n"
        "stitch mussel: (3 tr, ch 1, 3 tr) in next st\n",
    )
    used = check_text("strip.crochet", STRIP, Around({KEY: HOUSE}))
    assert used.diagnostics == ()
    assert used.pattern == check_text("strip.crochet", own).pattern


def test_only_what_is_needed_comes_along() -> None:
    text = PLAIN.replace("part", f"use: {KEY}\npart").replace("flat", "flat, gauge rib")
    found = check_text("swatch.crochet", text, Around({KEY: HOUSE})).pattern
    assert found is not None
    assert [one.name for one in found.gauges] == ["rib"]
    # The gauge is worked with this hook and this yarn.
    assert [one.name for one in (*found.hooks, *found.yarns)] == ["small", "slate"]
    assert found.stitches == ()


def test_a_used_file_uses_another_from_its_own_folder() -> None:
    used = {
        KEY: "shared: A\nterms: UK\nuse: deeper/more.crochet\n",
        "../shared/deeper/more.crochet": "shared: B\nterms: UK\nuse: ../twin.crochet\n"
        'yarn slate: "wool"\n',
        "../shared/twin.crochet": "shared: C\nterms: UK\nhook small: 4 mm\n",
    }
    text = PLAIN.replace("part", f"use: {KEY}\nuse: ../shared/twin.crochet\npart")
    text = text.replace("flat", "flat, yarn slate, hook small")
    result = check_text("swatch.crochet", text, Around(used))
    assert result.diagnostics == ()
    assert result.pattern is not None
    assert [one.name for one in result.pattern.yarns] == ["slate"]


def test_counts_of_a_used_file_stay_its_own() -> None:
    shared = "shared: A\nterms: UK\ncount legs: 5\nstitch fan: {legs} tr in next st\n"
    text = PLAIN.replace("terms: UK", f"terms: UK\nuse: {KEY}\ncount legs: 2")
    text += "row 2: ch {legs}, [skip 2 sts, fan, skip 2 sts] across = 2 fans, 10 sts\n"
    assert check_text("swatch.crochet", text, Around({KEY: shared})).diagnostics == ()


FIRM = HOUSE.replace("19 sts and 20 rows", "40 sts and 42 rows")
"""No DK wool is worked at 40 stitches to 10 cm."""


def test_advice_on_what_is_used_is_told_where_it_stands_and_once() -> None:
    assert check_text("strips/strip.crochet", STRIP, Around({KEY: FIRM})).diagnostics == ()
    result = check_text("shared/house.crochet", FIRM)
    (one,) = result.diagnostics
    told = message(result.source, one)
    # Line 5 of the shared file, `gauge rib`; the name begins in column 7.
    assert told.startswith(
        "shared/house.crochet:5:7  gauge-unlikely (advice)\n     5 | gauge rib: "
    )
    assert result.clean


def test_a_shared_file_that_uses_one_says_nothing_of_its_gauges() -> None:
    text = "shared: More\nterms: UK\nuse: house.crochet\nhook large: 6 mm\n"
    assert check_text("more.crochet", text, Around({"house.crochet": FIRM})).diagnostics == ()


def test_a_house_is_told_once_of_a_gauge(loopwright: Loopwright, tmp_path: Path) -> None:
    house(tmp_path)
    write(tmp_path, {"shared/house.crochet": FIRM, "strips/more.crochet": STRIP})
    answer = loopwright("check", str(tmp_path))
    assert answer.code == 0
    assert answer.out.count("gauge-unlikely") == 1
    assert answer.out.startswith(f"{tmp_path}/shared/house.crochet:5:7  gauge-unlikely (advice)")


def test_allowing_in_the_used_file_holds() -> None:
    shared = FIRM.replace("yarn slate\nst", "yarn slate  # allow gauge-unlikely: on purpose\nst")
    assert "allow" in shared
    assert check_text("shared/house.crochet", shared).diagnostics == ()


@pytest.mark.parametrize(
    ("file", "written", "path"),
    [
        ("strip.crochet", "house.crochet", "house.crochet"),
        ("strip.crochet", "../a/house.crochet", "../a/house.crochet"),
        ("../a/x.crochet", "../b/./y.crochet", "../b/y.crochet"),
        ("strip.crochet", "/etc/passwd", None),
        ("strip.crochet", "C:/house.crochet", None),
        ("strip.crochet", "a\\b", None),
        ("strip.crochet", "a\u202eb", None),
        ("strip.crochet", " ", None),
    ],
)
def test_paths_go_from_the_file_that_names_them(file: str, written: str, path: str | None) -> None:
    assert beside(file, written) == path


def test_the_files_a_text_uses() -> None:
    text = f'{PLAIN}use: a.crochet\nnote: use: b.crochet\nuse: "c d.crochet" # here\nuse: e f\n'
    assert used_by(text) == ("a.crochet", "c d.crochet")
    assert used_by(PLAIN) == ()


# ------------------------------------------------------------------ files
def why(path: Path) -> str:
    """Why the file that a pattern uses was not read."""
    (one,) = Desk().job(str(path)).used.values()
    assert isinstance(one, NotRead)
    return one.why


def test_a_file_outside_the_repository_is_never_read(tmp_path: Path) -> None:
    write(tmp_path, {"house.crochet": HOUSE})
    inner = write(tmp_path / "inner", {".git/HEAD": "", "strip.crochet": STRIP})
    text = STRIP.replace(KEY, "../house.crochet")
    write(inner, {"strip.crochet": text})
    assert why(inner / "strip.crochet") == "it lies outside the repository"
    verdict = judge(Desk().job(str(inner / "strip.crochet")))
    assert [one.code for one in verdict.messages] == ["cannot-use"]


@pytest.mark.parametrize("link", ["file", "folder"])
def test_not_by_way_of_a_link_either(tmp_path: Path, link: str) -> None:
    write(tmp_path, {"out/house.crochet": HOUSE})
    text = STRIP.replace(KEY, "linked/house.crochet")
    inner = write(tmp_path / "inner", {".git/HEAD": "", "strip.crochet": text})
    if link == "folder":
        (inner / "linked").symlink_to(tmp_path / "out")
    else:
        (inner / "linked").mkdir()
        (inner / "linked" / "house.crochet").symlink_to(tmp_path / "out" / "house.crochet")
    assert why(inner / "strip.crochet") == "it lies outside the repository"


def test_a_link_inside_the_repository_is_followed(tmp_path: Path) -> None:
    house(tmp_path)
    (tmp_path / "strips" / "near.crochet").symlink_to("../shared/house.crochet")
    write(tmp_path, {"strips/strip.crochet": STRIP.replace(KEY, "near.crochet")})
    assert judge(Desk().job(str(tmp_path / "strips" / "strip.crochet"))).messages == ()


def test_files_that_cannot_be_read(tmp_path: Path) -> None:
    house(tmp_path)
    path, shared = tmp_path / "strips" / "strip.crochet", tmp_path / "shared" / "house.crochet"
    shared.write_bytes(b"\xff")
    assert why(path) == "line 1 is not UTF-8 text. Save the file as UTF-8 in your editor"
    shared.write_bytes(b"#" * (LARGEST + 1))
    assert why(path) == "this file is larger than 1 MB, the most that is read"
    shared.unlink()
    assert why(path) == "there is no such file"
    shared.mkdir()
    assert why(path) == "it is a folder"
    shared.rmdir()
    os.mkfifo(shared)
    assert why(path) == "it is not a plain file"


def test_links_that_never_end_do(tmp_path: Path) -> None:
    folder = write(tmp_path, {".git/HEAD": "", "a.crochet": PLAIN + "use: loop/b.crochet\n"})
    write(folder, {"b.crochet": "shared: B\nterms: UK\nuse: loop/b.crochet\n"})
    (folder / "loop").symlink_to(".")
    job = Desk().job(str(folder / "a.crochet"))
    assert len(job.used) == MOST_USED + 1
    assert [one.code for one in judge(job).messages] == ["cannot-use"]


def test_what_has_errors_of_its_own_is_told_once(loopwright: Loopwright, tmp_path: Path) -> None:
    house(tmp_path)
    write(tmp_path, {"shared/house.crochet": HOUSE.replace("4 mm", "4 mn")})
    answer = loopwright("check", str(tmp_path / "strips"))
    assert answer.code == 1
    assert answer.out.endswith(": 1 error.\n")
    # Line 4 is the hook's; nothing is said of the row that would be worked with it.
    assert f"{tmp_path}/shared/house.crochet:4: not-understood: `mn`" in " ".join(
        answer.out.split()
    )


def test_a_shared_file_is_no_pattern(loopwright: Loopwright, tmp_path: Path) -> None:
    path = str(house(tmp_path) / "shared" / "house.crochet")
    answer = loopwright("check", path)
    assert (answer.code, answer.err) == (0, "")
    for command in (("sheet",), ("chart",), ("kit",), ("build", "-o", str(tmp_path / "out"))):
        answer = loopwright(*command, path)
        assert (answer.code, answer.out) == (1, "")
        assert "holds none" in answer.err


def test_every_command_finds_what_is_used(tmp_path: Path) -> None:
    folder = house(tmp_path) / "strips"
    for command in ("check", "sheet", "chart", "fits", "sizes", "kit"):
        answer = run(command, "strip.crochet", at=folder)
        assert answer.code == 0, answer
    given = run("check", "-", given=STRIP.encode(), at=folder)
    assert given.code == 0, given
    mended = run("check", "--mend", "strip.crochet", at=folder)
    assert mended.code == 0, mended
