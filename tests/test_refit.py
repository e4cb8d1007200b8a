"""The repeat that comes to what is stated in every size: found at once, and by trying them all."""

from __future__ import annotations

from hypothesis import example, given
from hypothesis import strategies as st

from loopwright.checks.refit import more_in_each
from loopwright.pipeline import check_text

SIZES = st.lists(st.tuples(st.integers(2, 60), st.integers(1, 90)), min_size=1, max_size=3)


def tried(takes: int, makes: int, sizes: list[tuple[int, int]]) -> list[int]:
    """Every number of stitches more, or fewer, with which it fits twice or more in all sizes."""
    return [
        by
        for by in range(1 - takes, 61)
        if by
        and all(
            have % (takes + by) == 0
            and have // (takes + by) >= 2
            and have // (takes + by) * (makes + by) == stated
            for have, stated in sizes
        )
    ]


@given(st.integers(1, 12), st.integers(1, 12), SIZES)
@example(7, 6, [(24, 20), (30, 25), (36, 30)])
@example(3, 4, [(20, 24), (30, 36)])
def test_it_is_what_trying_them_all_finds(
    takes: int, makes: int, sizes: list[tuple[int, int]]
) -> None:
    found = more_in_each(takes, makes, sizes)
    if takes == makes:
        assert not found
    else:
        assert ([found] if found else []) == tried(takes, makes, sizes)


@given(st.integers(1, 9), st.integers(-8, 8), st.integers(2, 9), st.integers(2, 9))
def test_one_that_there_is_is_found(each: int, grows: int, times: int, more: int) -> None:
    """Made up from the repeat that fits, and then written with another number of plain stitches."""
    if not grows or each + grows < 1:
        return
    sizes = [(each * n, (each + grows) * n) for n in (times, times + more)]
    for by in range(1, 5):
        assert more_in_each(each + by, each + by + grows, sizes) == -by


def test_how_long_it_is_makes_no_difference() -> None:
    each = 10**15
    stated = f"{4 * (each - 1)} ({5 * (each - 1)})"
    text = (
        "pattern: Pier\nterms: UK\nsizes: S (M)\npart a: in rounds\n"
        f"start: ch {4 * each} ({5 * each}), join into ring\n"
        "round 1: ch 1, dc in each ch around, join\n"
        f"round 2: ch 1, [{each} dc, dc2tog] around, join = {stated} sts\n"
    )
    (told,) = check_text("pier", text).diagnostics
    assert told.code == "repeat-does-not-fit"
    assert f"[{each - 2} dc, dc2tog] around" in told.hints[0]
