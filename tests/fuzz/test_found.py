"""What damaging patterns at random, and thinking of the worst, has found: each is answered with a
message, and none without end."""

from __future__ import annotations

import pytest

from fuzz.test_mutations import LONGEST, answered, in_time
from loopwright import editing

HEAD = "pattern: Found\nterms: UK\n"
BALL = f"{HEAD}part ball: in a spiral\nstart: magic ring\nround 1: 6 dc in ring = 6 sts\n"
FLAT = f"{HEAD}part cloth: flat\nstart: ch 5\n"
RIPPLE = f"""{HEAD}sizes: cradle (lap, bed)
measure width: 70 (110, 180) cm
gauge wave: 13 sts and 7.5 rows to 10 cm in tr
count breadth: width, at wave sts, multiple of 64 plus 1
part blanket: flat, gauge wave
start: ch {{breadth + 1}}
row 1: dc in 2nd ch from hook, dc in each ch across = breadth sts
row 2: ch 3 as tr, tr in same st, 4 tr, tr3tog, 4 tr,
    [3 tr in next st, 4 tr, tr3tog, 4 tr] to last st, 2 tr in last st = breadth sts
repeat row 2: until 150 rows
"""
NINES = "9" * 5000

FOUND = {
    "a row cut short by the end of the file": FLAT + "row 1: dc in each ch across\nrow 999:",
    "a row that does not fit, repeated in three sizes": RIPPLE,
    "a count of ten thousand that does not come out": f"{HEAD}sizes: a (b, c)\n"
    "count body: 28 (31, 10000)\npart hand: in rounds\nstart: ch {body / 2}, join into ring\n",
    "a wrong count in every round of a thousand": BALL
    + "rounds 2-999 as r: [{r - 2} dc, dc inc] 6 times = {6 * r + 6} sts\n",
    "repeating until a number that lies behind, in five sizes": f"{HEAD}sizes: a (b, c, d, e)\n"
    "part hat: in rounds\nstart: magic ring\nround 1: 8 htr in ring, join\n"
    "round 2: ch 2, inc 8 htr evenly, join\nrepeat round 2: until 64 (72, 72, 80, 88) sts\n"
    "repeat last row: until 60 sts\nnext round: ch 2, htr in each st around, join = 64 sts\n",
    "a few stitches spread over very many": f"{HEAD}part cloth: flat\nstart: ch 1{'0' * 30}\n"
    "row 1: 31 dc evenly = 31 sts\n",
    "rows without end": FLAT
    + f"row 1: dc in each ch across\nrows 2-1{'0' * 30}: dc in each st across\n",
    "minus and minus": f"{HEAD}count body: {'-' * 5000}1\n",
    "a sum of thousands": f"{HEAD}count body: {'1 + ' * 4000}1\n",
    "powers of powers": f"{HEAD}count body: {'2 ^ ' * 4000}2\n",
    "a sum in a note": f"{HEAD}note: {{{'1 + ' * 4000}1}}\n",
    "numbers of five thousand figures": FLAT
    + f"row 1: {NINES} dc\nrow 2: {NINES}-tr bobble\nrow 3: dc in {NINES}th ch from hook\n"
    f"row 4: tr{NINES}tog\nrow {NINES}: dc\nrow 5: dc in next ch-{NINES} sp\nrow 6: ch {NINES}\n"
    f"row 7: dc in next st {NINES} rows below\nrow 8: dc in top of ch-{NINES}\n"
    f"row 9: {{2 ^ {NINES}}} dc = {NINES} sts\nrepeat row 1: {NINES} more times\n",
    "lengths of five thousand figures": f"{HEAD}measure a: {NINES} cm\nmeasure b: 0.{NINES} cm\n"
    f'gauge g: {NINES} sts to 10 cm in tr\nhook h: {NINES} mm\nyarn y: "x", {NINES} g = 1 m\n',
    "a stitch of itself": f"{HEAD}stitch ray: 2 ray\npart cloth: flat\nstart: ch 5\nrow 1: 2 ray\n",
    "rows like a range that runs backwards": FLAT
    + "row 1: dc in each ch across\nrow 2: ch 1, [dc] across\nrows 3-9: as rows 2-1\n",
    "brackets": FLAT + f"row 1: {'[' * 3000}dc{'] 9 times' * 3000}\n",
    "round brackets": FLAT + f"row 1: {'(' * 3000}dc{') in next st' * 3000}\n",
    "repeats of repeats": FLAT + "row 1: " + "[" * 35 + "dc" + "] 9999999 times" * 35 + "\n",
    "ten thousand sizes": f"{HEAD}sizes: {'a' * 50} ({', '.join(f's{n}' for n in range(10000))})\n",
    "a hundred thousand lines": FLAT + "row 1: dc in each ch across\n" * 100_000,
    "one line of a megabyte": FLAT + "row 1: " + "dc, " * 250_000 + "dc\n",
    "only colons": ":" * 100_000,
    "only line ends": "\n" * 1_000_000,
    "only quotation marks": FLAT + "row 1: dc " + '"' * 10_000,
    "comments without end": FLAT + "row 1: dc " + "# " * 9_000,
}


# Twenty thousand of these lines are read, and a message on each takes its time to print.
LONGER = {"a hundred thousand lines": 4.0}


@pytest.mark.parametrize("name", FOUND)
def test_what_was_found_is_answered(name: str) -> None:
    with in_time(name, LONGER.get(name, LONGEST)):
        answered(FOUND[name])


@pytest.mark.parametrize("name", FOUND)
def test_what_was_found_is_tidied(name: str) -> None:
    tidy = editing.tidy(FOUND[name])
    assert editing.tidy(tidy) == tidy
