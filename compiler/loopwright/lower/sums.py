"""What can be wrong with numbers as they are written: one function a code, its own words.

These are found while numbers are reckoned, before any row is worked.
"""

from __future__ import annotations

from loopwright.diagnostics import Diagnostic, rule
from loopwright.lower.faults import WRITING
from loopwright.source import Span


@rule("wrong-number-of-sizes", WRITING)
def wrong_number_of_sizes(span: Span, found: int, sizes: tuple[str, ...]) -> Diagnostic:
    """A number per size does not give one value for each size.

    A maker of a size counts along the list to find her number; a list that is too short or too
    long gives her someone else's.

    Breaks:
        pattern: Tideline Swatch
        terms: UK
        sizes: small (large)
        part swatch: flat
        start: ch 11 (13, 15)
        row 1: dc in 2nd ch from hook, dc in each ch across
    Keeps:
        pattern: Tideline Swatch
        terms: UK
        sizes: small (large)
        part swatch: flat
        start: ch 11 (13)
        row 1: dc in 2nd ch from hook, dc in each ch across
    """
    names = ", ".join(sizes)
    many = f"{len(sizes)} sizes ({names})" if len(sizes) > 1 else "one size"
    text = f"{found} values are given here, and the pattern has {many}."
    if len(sizes) > 1:
        example = f"1 ({', '.join(str(n) for n in range(2, len(sizes) + 1))})"
        hint = f"Write one value for each size, as in `{example}`, or a single one for all."
    else:
        hint = "Write a single value, or name the sizes on a `sizes` line."
    return Diagnostic("wrong-number-of-sizes", "error", span, text, (hint,))


@rule("units-disagree", WRITING)
def units_disagree(span: Span, text: str, hint: str) -> Diagnostic:
    """A length stands where a plain number should, or the reverse.

    Stitches, centimetres and grams cannot be added to each other; a length becomes stitches only
    through a gauge.

    Breaks:
        pattern: Tideline Swatch
        terms: UK
        count body: 10 cm + 4
        part swatch: flat
        start: ch {body + 1}
        row 1: dc in 2nd ch from hook, dc in each ch across = body sts
    Keeps:
        pattern: Tideline Swatch
        terms: UK
        count body: 10 + 4
        part swatch: flat
        start: ch {body + 1}
        row 1: dc in 2nd ch from hook, dc in each ch across = body sts
    """
    return Diagnostic("units-disagree", "error", span, text, (hint,))


@rule("not-whole", WRITING)
def not_whole(
    span: Span, what: str, values: str, sizes: tuple[str, ...], hint: str = ""
) -> Diagnostic:
    """A number of stitches or rows that does not come out whole.

    Nobody can work half a stitch, and a maker who rounds for herself gets another count than the
    pattern's.

    Breaks:
        pattern: Tideline Swatch
        terms: UK
        count body: 11
        part swatch: flat
        start: ch {body / 2}
        row 1: dc in 2nd ch from hook, dc in each ch across
    Keeps:
        pattern: Tideline Swatch
        terms: UK
        count body: 12
        part swatch: flat
        start: ch {body / 2}
        row 1: dc in 2nd ch from hook, dc in each ch across
    """
    text = f"{what} comes to {values}, which is not a whole number."
    hints = (hint or "Change the numbers in it so that they divide without a remainder.",)
    return Diagnostic("not-whole", "error", span, text, hints, sizes=sizes)


@rule("below-nought", WRITING)
def below_nought(span: Span, what: str, values: str, sizes: tuple[str, ...]) -> Diagnostic:
    """A number of stitches or rows below nought.

    Nought of something means none of it, but fewer than none cannot be worked: in that size the
    sum has gone too far.

    Breaks:
        pattern: Tideline Swatch
        terms: UK
        count body: 3
        part swatch: flat
        start: ch 11
        row 1: dc in 2nd ch from hook, {body - 4} dc, dc in each ch across
    Keeps:
        pattern: Tideline Swatch
        terms: UK
        count body: 6
        part swatch: flat
        start: ch 11
        row 1: dc in 2nd ch from hook, {body - 4} dc, dc in each ch across
    """
    text = f"{what} comes to {values}, which is less than nought."
    hint = "Start from a larger number, or take less away."
    return Diagnostic("below-nought", "error", span, text, (hint,), sizes=sizes)


@rule("not-a-multiple", WRITING)
def not_a_multiple(
    span: Span, name: str, rule_text: str, values: str, sizes: tuple[str, ...], near: str
) -> Diagnostic:
    """A given number breaks the rule that is written beside it.

    The rule is there because a repeat needs it. A number that is given is never changed, so one
    of the two is a slip.

    Breaks:
        pattern: Tideline Swatch
        terms: UK
        count body: 10, multiple of 4
        part swatch: flat
        start: ch {body + 1}
        row 1: dc in 2nd ch from hook, dc in each ch across = body sts
    Keeps:
        pattern: Tideline Swatch
        terms: UK
        count body: 12, multiple of 4
        part swatch: flat
        start: ch {body + 1}
        row 1: dc in 2nd ch from hook, dc in each ch across = body sts
    """
    text = f"`{name}` is {values}, which is not {rule_text}."
    return Diagnostic("not-a-multiple", "error", span, text, (near,), sizes=sizes)


MOST_LEFT_OUT = 2
"""Rows that may have been taken out by a slip, and be missing."""


@rule("row-numbers-jump", WRITING)
def row_numbers_jump(
    span: Span, found: int, expected: int | None, word: str, sizes: tuple[str, ...]
) -> Diagnostic:
    """The row numbers do not run on.

    A maker who finds a number twice, or one missing, cannot tell whether she has lost her place
    or the pattern has.

    Breaks:
        pattern: Tideline Swatch
        terms: UK
        part swatch: flat
        start: ch 11
        row 1: dc in 2nd ch from hook, dc in each ch across = 10 sts
        row 3: ch 1, dc in each st across = 10 sts
    Keeps:
        pattern: Tideline Swatch
        terms: UK
        part swatch: flat
        start: ch 11
        row 1: dc in 2nd ch from hook, dc in each ch across = 10 sts
        row 2: ch 1, dc in each st across = 10 sts
    """
    if expected is None:
        text = f"How many {word}s there are by now depends on the gauge, so number {found} may be wrong."
        hint = f"After `until`, go on with `next {word}`."
    else:
        text = f"{word.capitalize()} {found} is written here, and the next one would be number {expected}."
        hint = f"Number it {expected}, or write `next {word}`."
        if expected < found <= expected + MOST_LEFT_OUT:
            gone = [str(number) for number in range(expected, found)]
            them = f"{word} {gone[0]} is" if len(gone) == 1 else f"{word}s {' and '.join(gone)} are"
            hint = f"If {them} missing, write {'it' if len(gone) == 1 else 'them'} above; otherwise number this one {expected}, or write `next {word}`."
    return Diagnostic("row-numbers-jump", "error", span, text, (hint,), sizes=sizes)
