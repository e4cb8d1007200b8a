"""What a part is made of, counted by hand."""

from __future__ import annotations

from loopwright.measure.tally import Thing, tally
from loopwright.pipeline import check_text
from loopwright.trade.stitches import PLAIN, SLIP, Stitch

LONG = Stitch("long")
HEAD = 'pattern: Tideline Swatch\nterms: UK\nyarn slate: "DK"\nyarn foam: "DK"\n'


def made(text: str, part: int = 0) -> dict[tuple[str, str, Stitch | None], int]:
    result = check_text("tally", HEAD + text)
    assert result.checked is not None, [one.text for one in result.diagnostics]
    pattern = result.checked.pattern
    return {
        (thing.yarn, thing.kind, thing.stitch): n
        for thing, n in tally(pattern, pattern.parts[part], result.checked.fabrics[0]).items()
    }


def test_rows_with_turning_chains() -> None:
    # 11 chains; 10 dc; then 3 rows of 10 tr with 2 turning chains each
    text = """part piece: flat
start: ch 11
row 1: dc in 2nd ch from hook, dc in each ch across
rows 2-4: ch 2, tr in each st across
"""
    assert made(text) == {
        ("", "chain", None): 11,
        ("", "st", PLAIN): 10,
        ("", "turning", None): 6,
        ("", "st", LONG): 30,
    }


def test_a_counted_chain_is_made_of_chains() -> None:
    # ch 3 as tr stands for the first of 10
    text = """part piece: flat
start: 10 foundation tr
row 1: ch 3 as tr, 9 tr = 10 sts
"""
    assert made(text) == {
        ("", "foundation", LONG): 10,
        ("", "turning", None): 3,
        ("", "st", LONG): 9,
    }


def test_starting_chains_that_are_skipped_are_made_once() -> None:
    text = """part piece: flat
start: ch 12
row 1: skip 3 ch as tr, tr in each ch across = 10 sts
"""
    assert made(text) == {("", "chain", None): 12, ("", "st", LONG): 9}


def test_rounds_with_loops_joins_and_picots() -> None:
    # ring of 4 chains: a join. Round 1: 1 chain, 8 dc, a join. Round 2: 4 times (2 dc, ch 3), and a
    # picot of 3 chains and a slip stitch after each; a join.
    text = """part piece: in rounds
start: ch 4, join into ring
round 1: ch 1, 8 dc in ring, join = 8 sts
round 2: ch 1, [2 dc, ch 3, ch-3 picot] around, join
"""
    assert made(text) == {
        ("", "chain", None): 4 + 4 * 3 + 4 * 3,
        ("", "join", SLIP): 1 + 1 + 1 + 4,
        ("", "turning", None): 2,
        ("", "st", PLAIN): 8 + 8,
    }


def test_slip_stitches_to_a_new_first_place() -> None:
    # round 2 moves over 2 stitches before it begins
    text = """part piece: in rounds
start: ch 4, join into ring
round 1: ch 1, 8 dc in ring, join = 8 sts
round 2: move to 3rd st, ch 1, 8 dc, join = 8 sts
"""
    assert made(text)["", "join", SLIP] == 1 + 1 + 1 + 2


def test_a_chain_worked_back_along_is_made_once() -> None:
    # two chains skipped at the hook, then 3 dc into the rest of a chain of 5
    text = """part piece: flat
start: 4 foundation dc
row 1: ch 5, dc in 3rd ch from hook, 2 dc, 4 dc
"""
    counts = made(text)
    assert counts["", "chain", None] + counts.get(("", "turning", None), 0) == 5
    assert counts["", "st", PLAIN] == 7


def test_stripes_and_changes_of_yarn() -> None:
    # 2 rows slate, 1 row foam, over and over, in 4 rows of 10; the last has 4 in both
    text = """part piece: flat, yarn slate
start: 10 foundation dc
stripes: 2 rows slate, 1 row foam
row 1: ch 1, 10 dc
row 2: ch 1, 10 dc
row 3: ch 1, 10 dc
row 4: ch 1, 6 dc, with slate + foam, 4 dc
"""
    counts = made(text)
    # the foundation is the first of the rows that the stripes count
    assert counts["slate", "st", PLAIN] == 10 + 10 + 6
    assert counts["foam", "st", PLAIN] == 10
    assert counts["slate+foam", "st", PLAIN] == 4
    assert counts["", "foundation", PLAIN] == 10


def test_seams_without_their_openings() -> None:
    text = """part piece: flat
start: 25 foundation dc
row 1: ch 1, 25 dc
row 2: ch 1, 25 dc
seam: last row to start, dc, 3 sts, opening button over 5, 17 sts
"""
    assert made(text)["", "seam", PLAIN] == 20
    sewn = text.replace(", dc, 3 sts, opening button over 5, 17 sts", "")
    assert made(sewn)["", "seam", SLIP] == 25
    ends = text.replace("last row to start, dc, 3 sts, opening button over 5, 17 sts", "{}")
    # the foundation and two rows have an end each
    assert made(ends.format("row ends to other row ends"))["", "seam", SLIP] == 3


def test_a_part_that_goes_on_from_two_starts() -> None:
    text = """part band: flat
start: 10 foundation dc
row 1: ch 1, 10 dc
part wide: flat
start: along last row of band then ch 6
row 1: ch 1, 16 dc
"""
    assert made(text, 1) == {
        ("", "chain", None): 6,
        ("", "turning", None): 1,
        ("", "st", PLAIN): 16,
    }


def test_cost_follows_what_is_written() -> None:
    n = 10**12
    text = f"""part piece: flat
start: ch {n + 1}
row 1: dc in 2nd ch from hook, dc in each ch across
row 2: ch 1, [dc, tr] across
repeat row 2: {n} more times
"""
    counts = made(text)
    assert counts["", "st", PLAIN] == n + (n + 1) * n // 2
    assert counts["", "st", LONG] == (n + 1) * n // 2
    assert counts["", "turning", None] == n + 1
    assert Thing("", "chain") == ("", "chain", None)
