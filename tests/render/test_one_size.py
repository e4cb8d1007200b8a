"""One size alone: the same sheet as of a pattern that was written for that size only.

The pattern for one size is made from the text with a regular expression, as somebody with a pencil
would strike out the others' numbers.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from loopwright.pipeline import check_text
from loopwright.rendering import one_size, sheet
from support import EXAMPLES, WORKED, run, text_of

PER_SIZE = re.compile(r"(?<![\w{])(\d[\d.]*|\w+) \(([^()]*)\)")


def alone(text: str, size: int, sizes: int) -> str:
    """The text with one number wherever there is one for each size."""

    def one(match: re.Match[str]) -> str:
        values = [match[1], *(value.strip() for value in match[2].split(","))]
        return values[size] if len(values) == sizes else match[0]

    lines = []
    for line in re.sub(r"\n[ \t]+", " ", text).split("\n"):
        named = re.match(r"sizes: ([^()]*) \(([^()]*)\)", line)
        if named:
            names = [named[1].strip(), *(name.strip() for name in named[2].split(","))]
            lines.append(f"sizes: {names[size]}")
        else:
            lines.append(PER_SIZE.sub(one, line))
    return "\n".join(lines)


def several() -> list[Path]:
    """The patterns in several sizes in which each number per size stands as plain numbers."""
    return [path for path in (*EXAMPLES, *WORKED) if re.search(r"^sizes:.*\(", text_of(path), re.M)]


@pytest.mark.parametrize("path", several(), ids=lambda path: path.stem)
def test_it_is_the_sheet_of_a_pattern_for_that_size(path: Path) -> None:
    text = text_of(path)
    made = check_text(path.name, text).checked
    if made is None:
        return
    sizes = made.pattern.sizes
    compared = 0
    for size in range(len(sizes)):
        told = sheet(one_size(made, size), "UK", "text")
        # No number for another size is left anywhere.
        assert not re.search(r"\d \(\d[^()]*\)", told)
        assert not [one for one in sizes if one != sizes[size] and f"size {one}" in told]
        written = check_text(path.name, alone(text, size, len(sizes))).checked
        if written is not None and " only)" not in text:
            assert told == sheet(written, "UK", "text")
            compared += 1
    assert compared == len(sizes) or " only)" in text or "measure" in text


ONLY = """pattern: Two Reefs
terms: UK
sizes: small (large)
part reef: flat
start: ch 11 (21)
row 1: dc in 2nd ch from hook, dc in each ch across = 10 sts (small), 20 sts (large)
row 2 (small only): ch 1, [dc] across = 10 sts
row 3 (large only): ch 1, [dc2tog] across = 10 sts
row 4: ch 1, 0 (4) dc, [dc] across = 10 sts
note: It is {10 * 2} sts.
"""


def test_rows_of_other_sizes_are_left_out() -> None:
    made = check_text("reefs", ONLY).checked
    assert made is not None
    small, large = (sheet(one_size(made, size), "UK", "text") for size in (0, 1))
    assert "Row 2: Ch 1, 1 dc in each of next 10 sts. 10 sts." in small
    assert "Row 3" not in small
    assert "Row 4: Ch 1, 1 dc in each of next 10 sts. 10 sts." in small
    assert "Row 2" not in large
    assert "Row 3: Ch 1, [dc2tog over next 2 sts] 10 times. 10 sts." in large
    assert "Row 4: Ch 1, 1 dc in each of next 4 sts, 1 dc in each of next 6 sts." in " ".join(
        large.split()
    )
    assert "large" not in small.replace("larger", "")


def test_the_command_line(tmp_path: Path) -> None:
    mittens = "examples/breakwater-mittens.crochet"
    told = run("sheet", mittens, "--size", "woman").out
    assert "Round 2: Ch 2, [1 tr in each of next 3 sts, 1 fptr around next st] 8 times" in told
    done = run("build", mittens, "--size", "woman", "-o", str(tmp_path))
    assert done.code == 0
    assert sorted(path.name for path in tmp_path.iterdir()) == [
        "breakwater-mittens-woman-uk.html",
        "breakwater-mittens-woman-uk.md",
        "breakwater-mittens-woman-us.html",
        "breakwater-mittens-woman-us.md",
        "charts",
        "loopwright-made.json",
        "pictures",
    ]
    assert "28 (32, 36)" not in (tmp_path / "breakwater-mittens-woman-us.html").read_text("utf-8")


@pytest.mark.parametrize("path", [*EXAMPLES, *WORKED], ids=lambda path: path.stem)
def test_it_does_not_speak_of_each_size(path: Path) -> None:
    made = check_text(path.name, text_of(path)).checked
    if made is not None:
        told = sheet(one_size(made, 0), "UK", "text")
        assert "each size" not in told
        assert "Sizes\n" not in told
