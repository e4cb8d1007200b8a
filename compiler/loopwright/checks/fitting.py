"""Fitting: repeats that are to fill a row, or to come to a number of rows or stitches."""

from __future__ import annotations

from loopwright.checks import chains, refit
from loopwright.checks.counting import COUNTING, also_stated, below, them, word
from loopwright.checks.told import Told, kind_words, number, plural, stitches
from loopwright.diagnostics import Diagnostic, rule
from loopwright.ir.items import ANY_STITCH, Kind, Skip
from loopwright.ir.numbers import Given


@rule("repeat-does-not-fit", COUNTING)
def repeat_does_not_fit(told: Told) -> Diagnostic:
    """A repeat that is to go on to the end does not come out there.

    `around`, `across` and `to ...` promise that whole repeats fill the row. When they do not, the
    maker stands before the last stitches with half a repeat and nothing to tell her what to do.

    Breaks:
        pattern: Tideline Swatch
        terms: UK
        part swatch: flat
        start: ch 12
        row 1: dc in 2nd ch from hook, dc in each ch across = 11 sts
        row 2: ch 1, [dc, tr] across
    Keeps:
        pattern: Tideline Swatch
        terms: UK
        part swatch: flat
        start: ch 12
        row 1: dc in 2nd ch from hook, dc in each ch across = 11 sts
        row 2: ch 1, [dc, tr] to last st, dc = 11 sts
    """
    fact = told.fact
    if fact.get("until") is not None:
        return _until_rows(told)
    if fact.get("until_sts") is not None:
        return _until_sts(told)
    if fact.get("keep") is not None:
        return told.say(
            f"From here there are {stitches(told.each('have'))}, so the last {told.each('keep')}"
            " cannot be kept back.",
            "Keep fewer back, or make the row below longer.",
        )
    here = fact.get("here")
    if isinstance(here, Kind):
        text = f"The next {kind_words(here, told.terms, 1)} is right here, so nothing is worked up to it."
        return told.say(text + also_stated(told), "Name what it is to stop at.")
    if fact.get("nothing"):
        return told.say(
            "What is repeated takes no stitch, so it would never come to the end.",
            "Say how often to work it: `[...] 4 times`.",
        )
    return _bracket(told)


def _bracket(told: Told) -> Diagnostic:
    fact = told.fact
    space = fact.get("space")
    have = told.each("have")
    left = told.over(lambda one: number(one, "have") - number(one, "used"))
    done = told.each("done")
    takes = f"Each repeat takes {stitches(fact.get('each'))}; " if fact.get("each") else ""
    if space is not None:
        what = f"ch-{space} sp" if space else "sp"
        text = f"The repeat does not come out: after {plural(done, 'whole repeat')} there is no {what} left to work into."
        if done == "0":
            return told.say(
                text + also_stated(told), "Let the row below make one, or name what it has."
            )
        often = f"ay how often to work it: `[...] {done} times`."
        if fact.get("scope") != "end" or not left.isdigit() or left == "0":
            return told.say(text + also_stated(told), f"S{often}")
        last = "last st" if left == "1" else f"last {left} sts"
        return told.say(
            text + also_stated(told), f"Stop before the {last}, `[...] to {last}`, or s{often}"
        )
    where = f"{_as_far(told)}{below(told)}"
    rest = "chain" if fact.get("places") == "ch" else "stitch"
    over = plural(left, rest, "" if rest == "chain" else "stitches")
    text = (
        f"{takes}{where} has {have}. That is {plural(done, 'whole repeat')} and {over} left over."
    )
    if not takes:
        text = (
            f"The repeat does not come out: {where} has {have}, and after"
            f" {plural(done, 'whole repeat')} {over} {'is' if left == '1' else 'are'} left over."
        )
    text = text[0].upper() + text[1:]
    fitted = refit.as_stated(told)
    if fitted:
        sizes = " in every size" if told.sizes else ""
        hint = f"Write `{fitted}`: the {word(told)} then comes to what is stated{sizes}."
        return told.say(text + also_stated(told), hint)
    hints = (chains.counted_fits(told), _also_before(told, left), *_bracket_hints(told, left))
    return told.say(text + also_stated(told), *hints)


def _also_before(told: Told, left: str) -> str:
    """Where the repeat ends by skipping as many stitches as are left over, and what stands before
    it skips none: it may be the first repeat, without that."""
    repeat = chains.repeat_at(told)
    if repeat is None or told.row is None or len(repeat.items) < 2:
        return ""
    last = repeat.items[-1]
    before = [one for one in told.row.items if one.span.end <= told.span.start]
    if not isinstance(last, Skip) or not isinstance(last.n, Given) or str(last.n.value) != left:
        return ""
    if not before or any(isinstance(one, Skip) for one in before):
        return ""
    skipped = f"`{told.terms.skip} {plural(left, 'st')}`"
    return f"If what stands before it is a repeat as well, end that with {skipped} too."


def _as_far(told: Told) -> str:
    """Where a repeat begins and ends, in front of what it works into."""
    scope = told.fact.get("scope")
    begins = "from here " if told.fact.get("from") else ""
    repeat = chains.repeat_at(told)
    if scope == "end" or repeat is None or repeat.scope is None:
        return begins
    end = repeat.scope
    if scope == "last" and isinstance(end.n, Given):
        n = "" if end.n == Given(1) else f"{end.n.value} "
        return f"{begins}up to the last {n}{kind_words(end.kind, told.terms, end.n.value)} "
    if scope == "next":
        return f"{begins}up to the next {kind_words(end.kind, told.terms, 1)} "
    return f"{begins}up to `{end.name}` " if scope == "marked" else begins


def _bracket_hints(told: Told, left: str) -> tuple[str, ...]:
    if not left.isdigit():
        return (
            "Let what is repeated divide the row, or stop short of its end, `[...] to last ...`.",
        )
    kept = _kept_back(told)
    if kept is None:
        done = told.each("done")
        return (f"Write `[...] {done} times`, and say what is worked in the rest.",)
    one, many = ("ch", "ch") if told.fact.get("places") == "ch" else ("st", "sts")
    last = f"last {kept + int(left)} {many}" if kept or left != "1" else f"last {one}"
    sooner = "sooner" if kept else f"before {them(left)}"
    there = "there" if not kept else f"in the {left} more" if left != "1" else "in the one more"
    like = chains.to_fill(told, int(left))
    hint = f"Stop {sooner}, `[...] to {last}`, and say what is worked {there}, as in `{like}`."
    return (hint, _other_length(told, int(left)))


def _kept_back(told: Told) -> int | None:
    """How many stitches a repeat leaves at the end of the row, or None where it is not told of so."""
    if told.fact.get("scope") == "end":
        return 0
    repeat = chains.repeat_at(told)
    scope = repeat.scope if repeat is not None else None
    if scope is None or scope.how != "last" or scope.kind != ANY_STITCH:
        return None
    return int(scope.n.value) if isinstance(scope.n, Given) else None


def _other_length(told: Told, left: int) -> str:
    """The nearest lengths of the row below, or of the starting chain, into which repeats fit."""
    each = told.fact.get("each")
    if not isinstance(each, int) or each < 2:
        return ""
    more = each - left
    shorter = chains.start_longer(told, lambda _: -left)
    longer = chains.start_longer(told, lambda _: more)
    if shorter and longer and chains.ends(told):
        return f"With `{shorter}` or `{longer}` it comes out."
    by = plural(left, "chain") if told.fact.get("places") == "ch" else stitches(left)
    return f"Or let {below(told)} be {by} shorter, or {more} longer."


def _until_rows(told: Told) -> Diagnostic:
    until, have, group = told.each("until"), told.each("have"), told.fact.get("group")
    if number(told.fact, "until") < number(told.fact, "have"):
        text = f"The part has {have} rows by now, which is more than {until} already."
        return told.say(text, "Ask for more rows, or take the repeat out.")
    text = (
        f"The part has {have} rows by now, and {plural(group, 'row')} at a time it does not come"
        f" to {until}."
    )
    total, step = number(told.fact, "have"), number(told.fact, "group")
    wanted = number(told.fact, "until")
    low = total + (wanted - total) // max(step, 1) * max(step, 1)
    return told.say(text, f"{low} or {low + step} rows would come out.")


def _until_sts(told: Told) -> Diagnostic:
    until, have = told.each("until_sts"), told.each("have")
    text = f"Repeating these rows never comes to {stitches(until)}; it comes to {have} and goes past or stays there."
    return told.say(text, "Ask for a number that the rows come to.")
