"""Running out: a row goes on where the edge that it works into has ended."""

from __future__ import annotations

from collections.abc import Callable

from loopwright.checks import chains, passed
from loopwright.checks.counting import COUNTING, also_stated, below, word
from loopwright.checks.told import (
    Told,
    kind_words,
    number,
    ordinal,
    plural,
    stitches,
)
from loopwright.diagnostics import Diagnostic, rule
from loopwright.ir.fabric import Fact
from loopwright.ir.items import Kind


@rule("edge-ran-out", COUNTING)
def edge_ran_out(told: Told) -> Diagnostic:
    """A row goes on where there is nothing left to work into.

    The maker reaches the end of the row with instructions left over, and cannot tell whether she
    or the pattern has miscounted.

    Breaks:
        pattern: Tideline Swatch
        terms: UK
        part swatch: flat
        start: ch 11
        row 1: dc in 2nd ch from hook, dc in each ch across = 10 sts
        row 2: ch 1, 12 dc
    Keeps:
        pattern: Tideline Swatch
        terms: UK
        part swatch: flat
        start: ch 11
        row 1: dc in 2nd ch from hook, dc in each ch across = 10 sts
        row 2: ch 1, 10 dc = 10 sts
    """
    fact = told.fact
    if fact.get("start"):
        return _edge_too_short(told)
    if fact.get("repeat"):
        return _too_often(told)
    for key in ("increases", "decreases"):
        if fact.get(key) is not None:
            text = f"{told.each(key)} {key} do not go into {stitches(told.each('have'))}."
            return told.say(text, f"Spread fewer over the {word(told)}.")
    if fact.get("unworked"):
        return told.say(
            f"{stitches(told.each('have')).capitalize()} were left unworked, and more are taken up here.",
            "Take up as many as earlier rows left with `leave N unworked`.",
        )
    if fact.get("chain"):
        return told.say(
            "There is no such chain: the chain is shorter than that." + also_stated(told),
            "Name a chain nearer the hook, or make a longer chain.",
        )
    return _used_up(told)


def _used_up(told: Told) -> Diagnostic:
    """Plain places that are all used before an item has what it takes."""
    fact = told.fact
    under, on_chain = below(told), fact.get("places") == "ch"
    stop = fact.get("stop")
    if isinstance(stop, Kind):
        what = kind_words(stop, told.terms, 1)
        return told.say(
            f"From here on {under} has no {what} to stop at." + also_stated(told),
            "Name what stands there, or go on to the end, with `across` or `around`.",
        )
    have = told.each("have")
    places = plural(have, "chain") if on_chain else stitches(have)
    text = f"{under.capitalize()} has {places}, and all of them are used before this."
    done, times = fact.get("done"), fact.get("times")
    hint = "Take something out of the row, or make the one below longer."
    if (
        isinstance(done, int)
        and isinstance(times, int)
        and len(set(told.each("done").split())) == 1
    ):
        before = "" if have == str(done) else ", and the others are used or skipped before this"
        spaces = passed.spaces(told)
        if spaces:
            before = f" and {spaces}, and chains are worked only where they are named"
        text = f"{times} are to be worked here, and there is room for {done}: {under} has {places}{before}."
        hint = f"Work {done} here, or {_longer(told, lambda fact: number(fact, 'times') - number(fact, 'done'))}."
        chained = passed.plain_with_chains(told)
        if chained and passed.all_chains(
            told, lambda one: number(one, "times") - number(one, "done")
        ):
            hint = f"Work {done} here; or write `{chained}`."
    return told.say(text + also_stated(told), hint)


def _longer(told: Told, by: Callable[[Fact], int]) -> str:
    """How much longer the row below, or the starting chain, would have to be."""
    start = chains.start_longer(told, by) if chains.ends(told) else ""
    return f"write `{start}`" if start else f"make {below(told)} longer by {told.over(by)}"


def _edge_too_short(told: Told) -> Diagnostic:
    """The edge that a part begins along has not so many stitches."""
    have, nth = told.each("have"), told.fact.get("nth")
    if have == "0":
        text = "This edge has no stitches that a part could begin on."
        return told.say(text, "Mend the part that it belongs to first, or begin somewhere else.")
    if isinstance(nth, int):
        text = f"There is no {ordinal(nth)} stitch: this edge has {have}."
        return told.say(text, "Begin at one that is there, or mend what comes before this first.")
    wanted = stitches(told.each("wanted")).capitalize()
    text = f"{wanted} are to be taken up here, and there are {have}."
    return told.say(text, f"Take up {have}, or begin somewhere else.")


def _too_often(told: Told) -> Diagnostic:
    fact = told.fact
    times, done = told.each("times"), told.each("done")
    left = told.over(lambda one: number(one, "have") - number(one, "used"))
    need = ""
    if fact.get("each"):
        total = told.over(lambda one: number(one, "each") * number(one, "times"))
        need = f"Each repeat takes {stitches(fact.get('each'))}, so {times} of them need {total}; "
    here = "from here " if fact.get("from") else ""
    text = f"{need}{here}{below(told)} has {told.each('have')}. {plural(done, 'repeat')} fit"
    text += "s" if done == "1" else ""
    text += f", with {'none' if left == '0' else stitches(left)} left over."
    longer = f"make {below(told)} longer"
    if fact.get("each"):
        longer = _longer(told, _lacking)
    fewer = f"write `{plural(done, 'time')}`, "
    if left != "0":
        fewer += f"and say what is worked in the {stitches(left)} left over, "
    hint = f"{fewer}or {longer}." if done != "0" else f"{longer}."
    hint = hint[0].upper() + hint[1:]
    after = chains.taken_after(told)
    if all(number(one, "each") and _with_room(one, after) > 0 for _, one in told.facts):
        fitting = told.over(lambda one: _with_room(one, after))
        if fitting != done:
            hint = f"Write `{fitting} times`, so that what comes after it has the {stitches(after)} that it takes."
    return told.say(text[0].upper() + text[1:] + also_stated(told), hint)


def _with_room(fact: Fact, after: int) -> int:
    """How often a repeat fits where so many stitches are left for what comes after it."""
    return (number(fact, "have") - after) // number(fact, "each")


def _lacking(fact: Fact) -> int:
    return number(fact, "each") * number(fact, "times") - number(fact, "have")
