"""What measuring costs: no more than checking, and nothing by the number of stitches."""

from __future__ import annotations

from collections.abc import Callable
from time import process_time

import pytest
from measuring import checked

from loopwright.ir.checked import Checked
from loopwright.measure.dimensions import measures
from loopwright.measure.fit import fit
from loopwright.pipeline import check_text
from support import EXAMPLES, TESTS, text_of

PATTERNS = [*EXAMPLES, TESTS / "benchmarks" / "sixty_lines.crochet"]
MOST_TIMES = 2
"""How many times a check measuring may take."""

ENDLESS = """pattern: Endless
terms: US
sizes: small (large)
measure width: 40 (10000000000000) cm
gauge g: 20 sts and 20 rows to 10 cm in sc
count wide: width, at g sts, even
part cloth: flat, gauge g
start: ch {wide + 1}
row 1: sc in 2nd ch from hook, sc in each ch across = wide sts
row 2: ch 1, [sc inc, sc dec, sc] to last 4 sts, sc in each st across
row 3: ch 1, sc in each st across
repeat row 3: 1000000000000 more times
part tube: in rounds, gauge g
start: along last row of cloth
round 1: ch 1, sc in each st around, join
rounds 2-1000000000000: ch 1, sc in each st around, join
"""


def best(do: Callable[[], object]) -> float:
    """The quickest of five times."""
    times = []
    for _ in range(5):
        began = process_time()
        do()
        times.append(process_time() - began)
    return min(times)


def all_of(made: Checked) -> object:
    """Everything that a pattern is measured for."""
    return measures(made), fit(made.pattern, made.fabrics)


@pytest.mark.parametrize("path", PATTERNS, ids=lambda path: path.stem)
def test_measuring_costs_no_more_than_twice_a_check(path: object) -> None:
    text = text_of(path)  # type: ignore[arg-type]
    made = checked(text)
    check = best(lambda: check_text("test", text))
    assert best(lambda: all_of(made)) < MOST_TIMES * check


def test_a_million_million_rows_measure_like_ten() -> None:
    many = checked(ENDLESS)
    few = checked(ENDLESS.replace("1000000000000", "10"))
    found = measures(many)
    cloth, tube = (part.sizes[1] for part in found)
    # 10^13 cm at 2 to the cm; the rows and rounds 5 mm high each
    assert cloth.wide is not None
    assert cloth.wide.last == 10**14
    assert cloth.high == 5 * (10**12 + 3)
    assert tube.high == 5 * 10**12
    assert best(lambda: all_of(many)) < 5 * best(lambda: all_of(few)) + 0.005
