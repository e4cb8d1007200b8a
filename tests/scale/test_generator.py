"""The generator of repositories: the same files for a seed, as long and as wrong as it says."""

from __future__ import annotations

from pathlib import Path

import pytest

from benchmarks.repositories import (
    LONGEST,
    SHORTEST,
    USING,
    WRONG,
    generate,
    house,
    is_wrong,
    name_of,
    text_of,
    used_by,
    uses_house,
)
from conftest import Loopwright
from loopwright.pipeline import Around, check_text

MANY = 120


def test_a_seed_makes_the_same_files(tmp_path: Path) -> None:
    wrong = generate(tmp_path / "one", 40, seed=7)
    assert generate(tmp_path / "two", 40, seed=7) == wrong
    one, two = ({p.name: p.read_bytes() for p in at.rglob("*.crochet")} for at in folders(tmp_path))
    assert one == two
    assert len(one) == 40 + 1  # and the file of the house
    generate(tmp_path / "three", 40, seed=8)
    three = {p.name: p.read_bytes() for p in (tmp_path / "three").rglob("*.crochet")}
    assert all(three[name] != text for name, text in one.items() if name != "house.crochet")


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
    found = check_text(name_of(number), text, Around(used_by(text)))
    assert found.clean is not is_wrong(1, number), found.diagnostics


def test_one_in_five_uses_the_file_of_the_house(loopwright: Loopwright, tmp_path: Path) -> None:
    assert check_text("house.crochet", house()).diagnostics == ()
    using = [number for number in range(MANY) if used_by(text_of(1, number))]
    assert using == [number for number in range(MANY) if uses_house(1, number)]
    assert len(using) == MANY // USING
    # As the command meets them, with the file where they say it is.
    wrong = generate(tmp_path, 20)
    answer = loopwright("check", str(tmp_path), "--no-cache")
    assert answer.out.splitlines()[-1].startswith("21 patterns, ")
    assert {one.split(":")[0] for one in answer.out.splitlines() if one.startswith("/")} == {
        str(tmp_path / one) for one in wrong
    }
