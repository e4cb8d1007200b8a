"""The generator of repositories: the same files for a seed, as long and as wrong as it says."""

from __future__ import annotations

from pathlib import Path

import pytest

from benchmarks.repositories import LONGEST, SHORTEST, WRONG, generate, is_wrong, name_of, text_of
from loopwright.pipeline import check_text

MANY = 120


def test_a_seed_makes_the_same_files(tmp_path: Path) -> None:
    wrong = generate(tmp_path / "one", 40, seed=7)
    assert generate(tmp_path / "two", 40, seed=7) == wrong
    one, two = ({p.name: p.read_bytes() for p in at.rglob("*.crochet")} for at in folders(tmp_path))
    assert one == two
    assert len(one) == 40
    generate(tmp_path / "three", 40, seed=8)
    three = {p.name: p.read_bytes() for p in (tmp_path / "three").rglob("*.crochet")}
    assert all(three[name] != text for name, text in one.items())


def folders(at: Path) -> list[Path]:
    return [at / "one", at / "two"]


def test_a_small_repository_is_the_beginning_of_a_large_one() -> None:
    assert [text_of(3, number) for number in range(5)] == [text_of(3, n) for n in range(5)]
    assert name_of(0) != name_of(9_999)


def test_one_in_twenty_is_wrong() -> None:
    wrong = [number for number in range(2_000) if is_wrong(1, number)]
    assert len(wrong) == 2_000 // WRONG
    assert all(sum(low <= n < low + WRONG for n in wrong) == 1 for low in range(0, 2_000, WRONG))


@pytest.mark.parametrize("number", range(MANY))
def test_patterns_are_right_but_for_those_that_are_wrong(number: int) -> None:
    text = text_of(1, number)
    assert SHORTEST <= text.count("\n") <= LONGEST
    assert check_text(name_of(number), text).clean is not is_wrong(1, number)
