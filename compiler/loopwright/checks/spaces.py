"""Chain spaces that are not where a stitch is sent to."""

from __future__ import annotations

from loopwright.checks.counting import also_stated
from loopwright.checks.placing import PLACING
from loopwright.checks.told import Told, stitches
from loopwright.diagnostics import Diagnostic, rule
from loopwright.ir.items import Repeat


@rule("no-such-space", PLACING)
def no_such_space(told: Told) -> Diagnostic:
    """A stitch is sent to a chain space that is not there.

    The maker looks along the row for the space and finds none, or has used the last one.

    Breaks:
        pattern: Tideline Swatch
        terms: UK
        part swatch: flat
        start: ch 11
        row 1: dc in 2nd ch from hook, dc in each ch across = 10 sts
        row 2: ch 1, 2 dc in next ch-2 sp, 9 dc
    Keeps:
        pattern: Tideline Swatch
        terms: UK
        part swatch: flat
        start: ch 11
        row 1: dc in 2nd ch from hook, 4 dc, ch 2, 5 dc = 10 sts, 1 ch-2 sp
        row 2: ch 1, 5 dc, 2 dc in next ch-2 sp, 5 dc = 12 sts
    """
    chains = told.fact.get("chains")
    what = f"ch-{chains} sp" if chains else "chain space"
    if told.fact.get("none"):
        text = f"There is no {what} here to work into."
    else:
        text = f"There is no {what} left to work into."
        ended = _worked_to_the_end(told)
        if ended is not None:
            text += f" The repeat before this, worked {ended}, has been into all there are."
            hint = f"Take this out, or end that repeat before the last one: `[...] to last {what}`."
            return told.say(text + also_stated(told), hint)
        under: tuple[str, int, int] | None = told.fact.get("under")  # type: ignore[assignment]
        if under is not None:
            name, after, over = under
            text += f" `opening {name}` goes over {stitches(over)}, and past one after {after}."
            hint = f"Let `opening {name}` go over {stitches(after)}, as far as that space."
            return told.say(text + also_stated(told), hint)
    below = (
        "The row below must make one, with `ch N` between two stitches; or name the space it has."
    )
    return told.say(text + also_stated(told), below)


def _worked_to_the_end(told: Told) -> str | None:
    """The word of a repeat before the place told of that is worked as far as its row goes."""
    before = [
        item
        for item in (told.row.items if told.row is not None else ())
        if isinstance(item, Repeat) and item.span.end <= told.span.start
    ]
    scopes = [item.scope for item in before if item.scope is not None]
    return scopes[-1].word if scopes and scopes[-1].how == "end" else None


@rule("space-passed", PLACING)
def space_passed(told: Told) -> Diagnostic:
    """A stitch is sent past one chain space to another of a different length.

    A space that is passed without a word is a hole in the wrong place. If it is meant, it is
    skipped in words.

    Breaks:
        pattern: Tideline Swatch
        terms: UK
        part swatch: flat
        start: ch 11
        row 1: dc in 2nd ch from hook, 2 dc, ch 2, 4 dc, ch 1, 3 dc
        row 2: ch 1, 3 dc, 2 dc in next ch-2 sp, 3 dc
    Keeps:
        pattern: Tideline Swatch
        terms: UK
        part swatch: flat
        start: ch 11
        row 1: dc in 2nd ch from hook, 2 dc, ch 2, 4 dc, ch 1, 3 dc
        row 2: ch 1, 3 dc, skip next ch-1 sp, 4 dc, 2 dc in next ch-2 sp, 3 dc
    """
    wanted, passed = told.fact.get("wanted"), told.fact.get("passed")
    which = told.fact.get("which") or "next"
    text = (
        f"On the way to the {which} ch-{wanted} sp stands a ch-{passed} sp, which is passed without"
        " a word."
    )
    return told.say(
        text + also_stated(told), f"Work into it, or write `skip next ch-{passed} sp` first."
    )
