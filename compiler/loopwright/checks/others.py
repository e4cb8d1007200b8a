"""Facts of the work whose code is documented with the writing rules: numbers that have no value
in some size, rows that are not there, and what this edition does not have."""

from __future__ import annotations

from loopwright.checks.told import Told, number
from loopwright.diagnostics import Diagnostic


def unknown_row(told: Told) -> Diagnostic:
    """A row is named that does not stand above."""
    fact = told.fact
    if fact.get("lengths"):
        text = f"{told.each('wanted')} rows are to be worked like {told.each('like')}."
        return told.say(text, _again(told), code="unknown-name")
    if fact.get("count") is not None:
        text = f"The last {fact.get('count')} rows are to be repeated, and there are {fact.get('have')} so far."
        return told.say(text, "Repeat fewer rows.", code="unknown-name")
    text = f"There is no row {fact.get('number')} above this in the part."
    return told.say(text, "Name a row that is written above.", code="unknown-name")


def _again(told: Told) -> str:
    """The nearest numbers of rows that are whole repeats of those named."""
    wanted, like = number(told.fact, "wanted"), number(told.fact, "like")
    more = wanted + like - wanted % like
    if wanted < like:
        return "Let both ranges have the same number of rows."
    return f"Let there be {wanted - wanted % like} or {more} of them, or name other rows."


def not_whole(told: Told) -> Diagnostic:
    """A number in a row does not come out whole."""
    if str(told.fact.get("value")).startswith("a "):
        return told.say(
            f"A number here comes to {told.fact.get('value')}.", "Change the arithmetic in it."
        )
    text = f"A number here comes to {told.each('value')}, which is not a whole number."
    return told.say(text, "Change the numbers in it so that they divide without a remainder.")


def below_nought(told: Told) -> Diagnostic:
    """A number in a row is less than nought."""
    text = f"A number here comes to {told.each('value')}, which is less than nought."
    return told.say(text, "Start from a larger number, or take less away.")


def not_in_this_edition(told: Told) -> Diagnostic:
    """What this edition cannot work, or more than it works."""
    what = str(told.fact.get("what"))
    if what == "many rows":
        text = f"More than {told.fact.get('most'):,} rows come out differently here, and at most so many are worked."
        return told.say(text, "Let the part end sooner, or let its rows repeat.")
    if what == "too long":
        text = "There is more in this pattern, up to this row, that does not repeat itself than this program follows; what comes after it is not worked."
        return told.say(
            text, "Write repeats so that each is like the one before, or fewer rows or sizes."
        )
    text = "Stitches of your own stand more than 20 deep inside each other here."
    return told.say(text, "Write the stitch out in fewer steps.")


WORDS = {
    "unknown-row": unknown_row,
    "not-whole": not_whole,
    "below-nought": below_nought,
    "not-in-this-edition": not_in_this_edition,
}
