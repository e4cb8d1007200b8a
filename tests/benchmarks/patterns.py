"""The patterns that are measured: one from life, one as wide as one likes, one as long."""

from __future__ import annotations

import re
from pathlib import Path

SIXTY_LINES = Path(__file__).with_name("sixty_lines.crochet")
SHORT_SIZE = "baby"
"""The size in which the pattern with a long sheet has one of six pages, on letter paper."""

LONG_SHEET = Path(__file__).parents[2] / "examples" / "foghorn-hat.crochet"

_PER_SIZE = re.compile(r"(\d+) \(\d+(?:, \d+)*\)")


def one_size(text: str) -> str:
    """The same pattern in its first size alone."""
    lines = [line for line in text.splitlines() if not line.startswith("sizes:")]
    return _PER_SIZE.sub(r"\1", "\n".join(lines)).replace(" (child only)", "") + "\n"


def blanket(times: int) -> str:
    """A blanket of 1,000 stitches, or of so many times as many: wider and longer alike."""
    return _blanket(times, "", "flat")


def blanket_with_gauge(times: int) -> str:
    """The same with all that measuring asks for."""
    header = """yarn foam: "DK wool", 50 g = 110 m, weight 3
hook main: 4 mm
tension plain: 17 sts and 9 rows to 10 cm in tr, hook main, yarn foam, weighs 4.1 g
"""
    return _blanket(times, header, "flat, yarn foam, hook main, tension plain")


def _blanket(times: int, header: str, manner: str) -> str:
    wider = 10 ** ((len(str(times)) - 1) // 2)
    longer = times // wider
    return f"""pattern: Tideline Blanket
terms: UK
{header}count wide: {48 * wider}, multiple of 8
part cloth: {manner}
start: ch {{wide + 1}}
row 1: dc in 2nd ch from hook, dc in each ch across = wide sts
row 2: ch 3 as tr, [tr] across = wide sts
row 3: ch 1, [dc, ch 1, skip 1 st] across = {{wide / 2}} sts
row 4: ch 1, [dc in next ch-1 sp, dc in next dc] across = wide sts
row 5: ch 1, [3 dc, (dc, ch 2, dc) in next st, 4 dc] across
row 6: ch 1, [[dc] 3 times, dc2tog, skip next ch-2 sp, dc2tog, 2 dc] across
row 7: ch 1, [dc inc, 6 dc] across = wide sts
repeat rows 2-7: {2 * longer} more times
repeat row 2: {7 * longer} more times = wide sts
"""


def cloth(rows: int) -> str:
    """A cloth of about 100 stitches and so many rows, every third with increases."""
    return f"""pattern: Tideline Cloth
terms: UK
part cloth: flat
start: ch 97
row 1: dc in 2nd ch from hook, dc in each ch across = 96 sts
row 2: ch 1, [dc, tr] across = 96 sts
row 3: ch 1, [2 dc in next st, dc2tog, htr] across = 96 sts
row 4: ch 1, dc in each st across = 96 sts
repeat rows 2-4: {rows // 3 - 1} more times
"""


def parts(lines: int) -> str:
    """A pattern of about so many lines, in parts of eight, no two lines the same."""
    made = ["pattern: Long Pier", "terms: UK"]
    for number in range((lines - len(made)) // 8):
        wide = 6 * number + 60
        made += [f"part pile{number}: flat", f"start: ch {wide + 1}"]
        made += [f"row 1: dc in 2nd ch from hook, dc in each ch across = {wide} sts"]
        made += [f"row {n}: {ROWS[n].replace('wide', str(wide))}" for n in range(2, 7)]
    return "\n".join(made) + "\n"


def rows(lines: int) -> str:
    """A pattern of so many lines, all but a few of them rows of one part, no two the same."""
    head = [
        "pattern: Long Pier",
        "terms: UK",
        "count wide: 60, multiple of 6",
        "part pier: flat",
        "start: ch {wide + 1}",
        "row 1: dc in 2nd ch from hook, dc in each ch across = wide sts",
    ]
    numbers = range(2, lines - len(head) + 2)
    return "\n".join(head + [f"row {row}: {ROWS[row % len(ROWS)]}" for row in numbers]) + "\n"


ROWS = (
    "ch 1, [5 dc, htr] across = wide sts",
    "ch 3, [2 tr in next st, skip 1 st] across = wide sts",
    "ch 3 as tr, [tr] across = wide sts",
    "ch 3 as tr, 2 tr, [fptr around next tr, 2 tr] across = wide sts",
    "ch 1, [dc, ch 1, skip 1 st] across = {wide / 2} sts",
    "ch 1, [dc in next ch-1 sp, dc in next dc] across = wide sts",
    "ch 1, dc blo in each st across = wide sts",
    "ch 1, [2 dc, dc2tog, 2 dc] across = {wide / 6 * 5} sts",
    "ch 1, [2 dc, dc inc, 2 dc] across = wide sts",
)
"""Rows that may follow one another in this order, over and over."""
