"""The kit and the working time, reckoned by hand."""

from __future__ import annotations

from fractions import Fraction

import pytest

from loopwright.ir.checked import Checked
from loopwright.measure.kit import Bill, Entry, bill, order
from loopwright.measure.pace import Time, time_text, working_time
from loopwright.measure.yarn import Between, needed
from loopwright.pipeline import check_text

# 100 stitches to 10 g: each of 10 x 10, 20 x 10 in the large size takes a tenth of a gram, besides
# the foundation, which windchilde gives 16.0 to 10.6, and 10 (20) turning chains of 5.1.
PATTERN = """pattern: Harbour Square
terms: US
sizes: small (large)
allowance: 0%
yarn rock: "wool", 50 g = 100 m, price 5 per ball
yarn foam: "mohair"
hook main: 4 mm
hook small: 3 mm
gauge plain: 10 sts and 10 rows to 10 cm in sc, yarn rock, weighs 10 g
{kit}
part square: flat, yarn rock, hook main, gauge plain
start: 10 (20) foundation sc
rows 1-9: sc in each st across = 10 (20) sts
part tie: flat, yarn foam, hook small
start: ch 10
"""
STITCHES = (
    Fraction(90) + 10 * Fraction("16") / Fraction("10.6"),
    Fraction(180) + 20 * Fraction("16") / Fraction("10.6"),
)
GRAMS = tuple(n / 10 for n in STITCHES)


def checked(kit: str) -> Checked:
    result = check_text("kit", PATTERN.format(kit=kit))
    assert result.checked is not None, [one.text for one in result.diagnostics]
    return result.checked


def bill_of(kit: str) -> Bill:
    made = checked(kit)
    return bill(made.pattern, needed(made.pattern, made.fabrics))


def entry(made: Bill, name: str) -> Entry:
    (found,) = (one for one in made.entries if one.name == name)
    return found


def codes(kit: str) -> list[tuple[str, tuple[str, ...], str]]:
    found = check_text("kit", PATTERN.format(kit=kit)).diagnostics
    return [(one.code, one.sizes, one.text) for one in found]


def test_without_a_kit_line_the_bag_is_filled_by_the_ball() -> None:
    made = bill_of("")
    rock = entry(made, "rock")
    # 10.5 g and 21.0 g: a ball of 50 g for each
    assert (rock.amounts, rock.unit, rock.stated) == ((1, 1), "ball", False)
    assert [round(float(grams), 2) for grams in GRAMS] == [10.51, 21.02]
    assert rock.left(0, Fraction(1)) == (Between(50 - GRAMS[0], 50 - GRAMS[0]), "g")
    assert [one.name for one in made.entries if one.what == "hook"] == ["main", "small"]
    assert made.costs(None) == (5, tuple(one for one in made.entries if one.what == "hook"))
    assert codes("") == []


def test_a_stated_bag_by_weight() -> None:
    made = bill_of("kit: 12 (24) g rock, 2 (3) buttons price 0.40 each, 30 cm elastic price 1")
    rock, buttons, elastic = made.entries
    assert (rock.amounts, rock.unit, rock.amount) == ((12, 24), "g", 24)
    # 24 g at 5 for 50 g are 2.40; for the small size half of it
    assert [rock.cost(amount) for amount in rock.amounts] == [Fraction("1.2"), Fraction("2.4")]
    assert (rock.in_metres(Fraction(24)), rock.in_grams(Fraction(24))) == (48, 24)
    assert [buttons.cost(amount) for amount in buttons.amounts] == [
        Fraction("0.8"),
        Fraction("1.2"),
    ]
    assert elastic.cost(elastic.amount) == 1
    # small: 1.20 + 0.80 + 1; large and the one bag for both: 2.40 + 1.20 + 1
    assert [made.costs(size)[0] for size in (0, 1, None)] == [3, Fraction("4.6"), Fraction("4.6")]
    assert rock.left(1, Fraction(24)) == (Between(24 - GRAMS[1], 24 - GRAMS[1]), "g")


def test_a_stated_bag_by_length_and_its_own_price() -> None:
    made = bill_of("kit: 40 m rock price 2.50")
    rock = made.entries[0]
    assert rock.in_grams(Fraction(40)) == 20
    assert (rock.cost(Fraction(40)), rock.a_ball) == (Fraction("2.5"), None)
    # the large size takes 42 m
    ((code, sizes, text),) = codes("kit: 40 m rock price 2.50")
    assert (code, sizes) == ("yarn-short", ("large",))
    assert text == "The kit holds 40 m of `rock`; 22 g is taken."


def test_what_is_short_in_each_size() -> None:
    assert codes("kit: 1 ball rock") == []
    ((code, sizes, text),) = codes("kit: 10 (20) g rock")
    assert (code, sizes) == ("yarn-short", ("small", "large"))
    assert text == "The kit holds 10 g (20 g) of `rock`; 11 g (22 g) is taken."


def test_a_kit_that_names_other_yarn_only_has_none_of_this_one() -> None:
    ((code, sizes, text),) = codes("kit: 1 ball foam")
    assert (code, sizes) == ("yarn-short", ("small", "large"))
    assert text == "The kit holds nothing of `rock`; 11 g (22 g) is taken."
    assert codes("kit: hook main, 2 buttons") == []


def test_many_bags_with_a_margin() -> None:
    made = bill_of("kit: 24 g rock, 2 (3) buttons price 0.40, margin 10%")
    assert made.margin == Fraction(1, 10)
    rock, buttons = order(made, 20, Fraction(1, 10))
    # 20 x 24 g and 10% are 528 g, which are eleven balls at 5; 20 x 3 buttons and no margin
    assert (rock.amount, rock.grams, rock.metres) == (528, 528, 1056)
    assert (rock.balls, rock.cost) == (11, 55)
    assert (buttons.amount, buttons.balls, buttons.cost) == (60, None, 24)


def test_many_bags_by_the_ball_are_whole_balls() -> None:
    made = bill_of("kit: 1 ball rock")
    (rock,) = order(made, 7, Fraction(1, 10))
    assert (rock.amount, rock.balls, rock.grams, rock.cost) == (8, 8, 400, 40)  # 7.7


# ------------------------------------------------------------------ time


def test_no_pace_no_time() -> None:
    made = checked("")
    assert working_time(made.pattern, made.fabrics) == ()


@pytest.mark.parametrize("pace", ["10 to 20 sts a minute", "1200 to 600 sts an hour"])
def test_the_time_is_a_range(pace: str) -> None:
    made = checked(f"pace: {pace}")
    small, large = working_time(made.pattern, made.fabrics)
    # 10 foundation stitches and 90 more, and a tie of 10 chains
    assert small == Time(0, 110, Fraction("5.5"), Fraction(11))
    assert large == Time(1, 210, Fraction("10.5"), Fraction(21))


def test_what_is_made_twice_takes_twice_the_time() -> None:
    text = PATTERN.format(kit="pace: 10 to 20 sts a minute").replace(
        "plain\nstart", "plain, make 3\nstart"
    )
    made = check_text("kit", text).checked
    assert made is not None
    # three squares of 100, and one tie of 10 chains
    assert [one.stitches for one in working_time(made.pattern, made.fabrics)] == [310, 610]


@pytest.mark.parametrize(
    ("least", "most", "text"),
    [
        ("5.5", "11", "5 min to 15 min"),
        ("2", "4", "up to 5 min"),
        ("60", "60", "about 1 h"),
        ("61", "119", "1 h to 2 h"),
        ("85", "118", "1 h 25 min to 2 h"),
        ("590", "700", "9 h to 12 h"),
        ("100000", "200000", "1,666 h to 3,334 h"),
    ],
)
def test_time_in_words(least: str, most: str, text: str) -> None:
    assert time_text(Time(0, 1, Fraction(least), Fraction(most))) == text
