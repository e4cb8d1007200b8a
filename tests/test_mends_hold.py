"""What a message says to write, written: the row is right then. The mends are worked out from the
row, so each is held to its word."""

from __future__ import annotations

import re

import pytest

from loopwright.pipeline import check_text

HEAD = "pattern: Hints\nterms: UK\n"
FLAT = "part cowl: flat\n"
ROUND = "part disc: in rounds\n"
RING = "start: magic ring\n"
ROW_1 = "start: ch 31\nrow 1: dc in 2nd ch from hook, dc in each ch across = 30 sts\n"

COUNTED = [
    f"{FLAT}{ROW_1}row 2: ch 3, 29 tr = 30 sts\n",
    f"{FLAT}{ROW_1}row 2: ch 2, 29 htr = 30 sts\n",
    f"{FLAT}{ROW_1}row 2: ch 3, 29 tr\n",
    f"{FLAT}{ROW_1}row 2: ch 3, [tr, dc] 14 times, tr = 30 sts\n",
    f"{FLAT}{ROW_1}row 2: ch 3, skip 1 st, tr in each st across = 30 sts\n",
    f"{FLAT}start: ch 32\nrow 1: tr in 4th ch from hook, tr in each ch across = 30 sts\n",
    f"{ROUND}{RING}round 1: ch 3, 11 tr in ring, join = 12 sts\n",
    f"{ROUND}{RING}round 1: ch 3, [tr in ring, ch 1] 5 times, tr in ring, join = 7 tr\n",
]
"""A chain that should count as a stitch."""

CHAINS = [
    ("start: ch 30\nrow 1: dc in 2nd ch from hook, dc in each ch across = 30 sts\n", ["ch 31"]),
    ("start: ch 34\nrow 1: tr in 4th ch from hook, tr in each ch across = 30 sts\n", ["ch 33"]),
    ("start: ch 30\nrow 1: dc in 2nd ch from hook, 29 dc = 30 sts\n", ["ch 31"]),
    ("start: ch 30\nrow 1: dc in 2nd ch from hook, 27 dc = 28 sts\n", ["ch 29"]),
    ("start: ch 30\nrow 1: dc in 2nd ch from hook, [dc, tr] 16 times\n", ["ch 34"]),
    ("start: ch 30\nrow 1: dc in 2nd ch from hook, [dc, tr, dc] across\n", ["ch 29", "ch 32"]),
]
"""A starting chain of another length, with those that come out, worked out by hand."""


@pytest.mark.parametrize("text", COUNTED)
def test_a_chain_that_should_count_is_told(text: str) -> None:
    text = HEAD + text
    (first,) = check_text("hints", text).diagnostics
    (edit,) = first.edits
    assert not edit.safe
    better = text[: edit.span.start] + edit.text + text[edit.span.end :]
    assert check_text("hints", better).diagnostics == ()


@pytest.mark.parametrize(("text", "wanted"), CHAINS)
def test_the_starting_chain_that_is_named_comes_out(text: str, wanted: list[str]) -> None:
    text = HEAD + FLAT + text
    (first,) = check_text("hints", text).diagnostics
    named = re.findall(r"`start: (ch \d+)`", " ".join(first.hints))
    assert named == wanted
    for chain in named:
        better = re.sub("start: ch [0-9]+", f"start: {chain}", text)
        assert check_text("hints", better).diagnostics == ()


@pytest.mark.parametrize(
    "row",
    [
        "row 2: ch 3, 28 tr = 30 sts",  # two short
        "row 2: ch 1, 29 tr = 30 sts",  # not as high as a treble
        "row 2: ch 3, tr in each st across = 31 sts",  # a chain that counts would take a stitch
        "row 2: ch 3, 29 tr, ch 2, tr in next ch-2 sp = 30 sts",
    ],
)
def test_no_chain_is_told_to_count_where_that_is_no_mend(row: str) -> None:
    found = check_text("hints", f"{HEAD}{FLAT}{ROW_1}{row}\n").diagnostics
    assert found
    assert not any("counts as" in hint for one in found for hint in one.hints)


def test_no_starting_chain_is_named_where_another_row_begins() -> None:
    text = f"{HEAD}{FLAT}{ROW_1}row 2: ch 1, dc in each st across = 31 sts\n"
    (first,) = check_text("hints", text).diagnostics
    assert not any("start:" in hint for hint in first.hints)


REFITTED = [
    ("24 (30, 36)", "[5 dc, dc2tog] around", "20 (25, 30)", "[4 dc, dc2tog] around"),
    ("18 (30, 42)", "[3 dc, dc inc] around", "21 (35, 49)", "[5 dc, dc inc] around"),
    ("15 (25, 35)", "[2 dc, dc dec] around", "12 (20, 28)", "[3 dc, dc dec] around"),
    ("12 (18, 30)", "[4 dc, 2 dc2tog] around", "8 (12, 20)", "[2 dc, 2 dc2tog] around"),
]
"""A round that fits in no size, with the one that comes to what is stated, worked out by hand: into
24 go four times 4 + 2, of which 4 + 1 are left; into 18 three times 5 + 1, of which 5 + 2 are made;
into 15 three times 3 + 2, of which 3 + 1 are left; into 12 twice 2 + 4, of which 2 + 2 are left."""


@pytest.mark.parametrize(("chains", "row", "sts", "wanted"), REFITTED)
def test_the_repeat_that_is_named_comes_out(chains: str, row: str, sts: str, wanted: str) -> None:
    text = (
        f"{HEAD}sizes: S (M, L)\n{ROUND}start: ch {chains}, join into ring\n"
        f"round 1: ch 1, dc in each ch around, join\nround 2: ch 1, {row}, join = {sts} sts\n"
    )
    (first,) = check_text("hints", text).diagnostics
    assert re.findall("`(.*)`", first.hints[0]) == [wanted]
    assert check_text("hints", text.replace(row, wanted)).diagnostics == ()
