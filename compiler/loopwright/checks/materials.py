"""Materials: what the kit holds against what the sizes take."""

from __future__ import annotations

from loopwright.checks.told import Told
from loopwright.diagnostics import ADVICE, Diagnostic, rule


@rule("yarn-short", "materials", ADVICE)
def yarn_short(told: Told) -> Diagnostic:
    """The kit holds less of a yarn than a size takes.

    Whoever bought the kit runs out before the last round, and the next batch of dye is another
    colour. What a size takes is reckoned from the swatch that was weighed, or is an estimate where
    none was; tails and a swatch are in it. It is advice, because no two hands use the same.

    Breaks:
        pattern: Tideline Swatch
        terms: UK
        yarn slate: "DK wool", 50 g = 110 m
        gauge plain: 17 sts and 20 rows to 10 cm in dc, yarn slate, weighs 4.2 g
        kit: 1 ball slate
        part swatch: flat, yarn slate, gauge plain
        start: ch 86
        row 1: dc in 2nd ch from hook, dc in each ch across = 85 sts
        row 2: ch 1, dc in each st across = 85 sts
        repeat row 2: until 60 cm
    Keeps:
        pattern: Tideline Swatch
        terms: UK
        yarn slate: "DK wool", 50 g = 110 m
        gauge plain: 17 sts and 20 rows to 10 cm in dc, yarn slate, weighs 4.2 g
        kit: 3 balls slate
        part swatch: flat, yarn slate, gauge plain
        start: ch 86
        row 1: dc in 2nd ch from hook, dc in each ch across = 85 sts
        row 2: ch 1, dc in each st across = 85 sts
        repeat row 2: until 60 cm
    """
    name, fact = told.fact.get("name"), told.fact
    how = ", by estimate" if fact.get("estimate") else ""
    text = f"The kit holds {told.each('have')} of `{name}`; {told.each('takes')} is taken{how}."
    return told.say(text, f"Put {fact.get('enough')} in the bag.")
