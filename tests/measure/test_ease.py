"""Ease, worked out by hand. Source keys are those of table H (hat rules)."""

from __future__ import annotations

from fractions import Fraction

import pytest
from measuring import checked, measured, pattern

from loopwright.ir.pattern import MadeTo
from loopwright.measure.ease import Ease, ease_text, share_text

HAT = (
    "start: ch wrap, join into ring",
    "round 1: ch 1, sc in each ch around, join = wrap sts",
)


def eases(header: tuple[str, ...], *lines: str, gauge: str, part: str = "in rounds") -> list[Ease]:
    """The eases of a part; the header's counts come after the gauge they are made at."""
    text = pattern(gauge, part, *lines)
    measures = [line for line in header if line.startswith(("sizes", "measure"))]
    counts = [line for line in header if line.startswith("count")]
    text = text.replace("gauge main", "\n".join([*measures, "gauge main"]), 1)
    text = text.replace("\npart piece", "\n".join(["", *counts, "part piece"]))
    return list(measured(text).eases)


def test_the_issue_s_own_words() -> None:
    # a 56 cm head and a hat of 51 cm: 5 cm of negative ease, 5/56 = 8.9%
    (ease,) = eases(
        ("measure head: 56 cm", "count wrap: head - 5 cm, at main sts"),
        *HAT,
        gauge="20 sts and 20 rounds to 10 cm in sc",
    )
    assert (ease.wanted, ease.found, ease.more) == (560, 510, -50)
    assert ease_text(ease) == "5 cm of negative ease, 9%"
    assert (ease.along, share_text(ease)) == ("around", "")


def test_the_published_hat() -> None:
    # mamas: head 22 in, ease 1 -> 21 in; 84 sts at 4 sts to the inch are 21.0 in. 1/22 = 4.5%
    (ease,) = eases(
        ("measure head: 22 in", "count wrap: head - 1 in, at main sts, multiple of 4"),
        *HAT,
        gauge="16 sts and 16 rounds to 4 in in sc",
    )
    assert ease.found == 21 * Fraction("25.4")
    assert ease_text(ease) == "1 in of negative ease, 5%"


def test_ease_in_every_size() -> None:
    # 15 + 1 at 17 to 10 cm is 27.2, to a multiple of 4: 28, and 28/1.7 = 16.47 cm; 21 + 1 is 37.4:
    # 36, and 21.18 cm: 0.18 cm more, which no tape shows
    found = eases(
        ("sizes: child (man)", "measure palm: 15 (21) cm",
         "count wrap: palm + 1 cm, at main sts, multiple of 4"),
        *HAT,
        gauge="17 sts and 20 rounds to 10 cm in sc",
    )  # fmt: skip
    assert [ease_text(ease) for ease in found] == ["1.5 cm of ease, 10%", "no ease"]


def test_half_of_a_measure() -> None:
    # half of 90 cm and 2 cm: 47 cm, 75.2 -> 75 sts at 16 to 10 cm, 46.875 cm: 1.9 cm over 45
    (ease,) = eases(
        ("measure bust: 90 cm", "count wrap: bust / 2 + 2 cm, at main sts"),
        "start: ch {wrap + 1}",
        "row 1: sc in 2nd ch from hook, sc in each ch across = wrap sts",
        gauge="16 sts and 18 rows to 10 cm in sc",
        part="flat",
    )
    assert ease.share == Fraction(1, 2)
    assert (ease.wanted, ease.found) == (450, Fraction("468.75"))
    assert (share_text(ease), ease_text(ease)) == ("half of ", "2 cm of ease, 4%")
    assert ease.along == "wide"


def test_a_length_in_rows() -> None:
    # 14 cm of 20 rows to 10 cm are 28 rows: the piece is 14 cm high for a palm of 15
    (ease,) = eases(
        ("measure palm: 15 cm", "count ribs: palm - 1 cm, at main rows, even"),
        "start: ch 13",
        "row 1: sc in 2nd ch from hook, sc in each ch across = 12 sts",
        "row 2: ch 1, sc in each st across = 12 sts",
        "repeat row 2: until ribs rows",
        gauge="19 sts and 20 rows to 10 cm in sc",
        part="flat",
    )
    assert (ease.along, ease.found) == ("high", 140)
    assert ease_text(ease) == "1 cm of negative ease, 7%"


def test_a_part_that_only_reckons_with_a_count_is_not_made_to_its_measure() -> None:
    found = eases(
        ("measure head: 56 cm", "count wrap: head, at main sts, multiple of 4"),
        "start: ch {wrap / 4}, join into ring",
        "round 1: ch 1, sc in each ch around, join = {wrap / 4} sts",
        gauge="20 sts and 20 rounds to 10 cm in sc",
    )
    assert found == []


def test_a_count_of_two_measures_is_made_to_neither() -> None:
    found = eases(
        ("measure head: 56 cm", "measure neck: 40 cm",
         "count wrap: (head + neck) / 2, at main sts"),
        *HAT,
        gauge="20 sts and 20 rounds to 10 cm in sc",
    )  # fmt: skip
    assert found == []


@pytest.mark.parametrize(
    ("length", "shares"),
    [
        ("a", {"a": 1}),
        ("a - 3 cm", {"a": 1}),
        ("a * 2 + b", {"a": 2, "b": 1}),
        ("2 * (b - a) / 4", {"a": Fraction(-1, 2), "b": Fraction(1, 2)}),
        ("a - a + b", {"b": 1}),
        ("-a + b * 3", {"a": -1, "b": 3}),
        ("30 cm", {}),
    ],
)
def test_how_often_a_measure_is_in_a_length(length: str, shares: dict[str, int]) -> None:
    text = "\n".join(
        (
            "pattern: Sums", "terms: UK", "measure a: 10 cm", "measure b: 30 cm",
            "gauge g: 10 sts and 10 rows to 10 cm in dc", f"count n: {length}, at g sts",
            "count m: a + b, at g rows",
            "part p: flat, gauge g", "start: ch {n + m}",
            "row 1: dc in 2nd ch from hook, dc in each ch across", "",
        )
    )  # fmt: skip
    count = checked(text).pattern.counts[0]
    wanted = tuple(MadeTo(name, (Fraction(n),)) for name, n in shares.items())
    assert sorted(count.made_to, key=lambda one: one.measure) == sorted(
        wanted, key=lambda one: one.measure
    )
    assert (count.gauge, count.along) == ("g", "sts")
