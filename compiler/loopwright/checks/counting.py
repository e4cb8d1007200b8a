"""Counting: what a row takes against what is there, what it makes against what is stated."""

from __future__ import annotations

from loopwright.checks import chains, passed
from loopwright.checks.told import (
    Told,
    differing,
    each,
    kind_words,
    number,
    ordinal,
    plural,
    sizes_words,
    stitches,
)
from loopwright.diagnostics import Diagnostic, rule
from loopwright.ir.fabric import Fact
from loopwright.ir.items import ANY_STITCH, Kind
from loopwright.ir.numbers import CannotReckon, whole

COUNTING = "counting"


@rule("count-differs", COUNTING)
def countdiffering(told: Told) -> Diagnostic:
    """A row makes another number than the one stated for it.

    The stated count is what the maker checks her row against: if it is wrong she rips out good
    work, and if the row is wrong she finds out rows later.

    Breaks:
        pattern: Tideline Swatch
        terms: UK
        part swatch: flat
        start: ch 11
        row 1: dc in 2nd ch from hook, dc in each ch across = 11 sts
    Keeps:
        pattern: Tideline Swatch
        terms: UK
        part swatch: flat
        start: ch 11
        row 1: dc in 2nd ch from hook, dc in each ch across = 10 sts
    """
    made, stated = differences(told)
    text = f"This comes to {made}; {stated} {'is' if stated.startswith('1 ') else 'are'} stated."
    if passed.spaces(told) and _kinds(told) == [ANY_STITCH] and _short_by(told.fact) > 0:
        one = passed.spaces(told).startswith("1 ")
        text += f" {passed.spaces(told)} {'is' if one else 'are'} passed on the way."
    mend = chains.counting(told)
    return told.say(
        text,
        mend.hint if mend is not None else "",
        _chains_counted(told, stated),
        _all_counted(told),
        f"If the instructions are right, {_stated_right(told, made, stated)}.",
        f"If the count is right, {_count_right(told)}.",
        edits=mend.edits if mend is not None else (),
    )


def _count_right(told: Told) -> str:
    """What to change where the stated count holds: the starting chain, where that is certain."""
    need = f"the instructions need {_difference(told)}"
    if _kinds(told) == [ANY_STITCH] and passed.all_chains(told, _short_by):
        written = passed.with_chains(told)
        return f"write `{written}`" if written else "work into the chains too, where they are named"
    start = chains.start_longer(told, _short_by) if chains.one_each(told) else ""
    return f"write `{start}`" if start and _kinds(told) == [ANY_STITCH] else need


def _chains_counted(told: Told, stated: str) -> str:
    """What to write where the stated count takes the chains in."""
    if _kinds(told) != [ANY_STITCH] or not all(number(fact, "chains") for _, fact in told.facts):
        return ""
    if any(number(fact, "chains") != _short_by(fact) for _, fact in told.facts):
        return ""
    return f"If the chains are counted too, write `= {stated} counting ch`."


def _all_counted(told: Told) -> str:
    """What to write where the stated count is of all stitches, and not of the kind it names."""
    kinds = _kinds(told)
    if len(kinds) != 1 or kinds[0].what != "stitch" or _short_by(told.fact) < 1:
        return ""
    wanted = told.over(lambda fact: _pair(fact, kinds[0])[0])
    if told.over(lambda fact: number(fact, "sts")) != wanted:
        return ""
    one = kind_words(kinds[0], told.terms, 1)
    return f"If all stitches are counted, not each {one} alone, write `{wanted} sts`."


def _short_by(fact: Fact) -> int:
    return sum(stated - made for _, stated, made in differing(fact))


def _stated_right(told: Told, made: str, stated: str) -> str:
    """What to write for the stated count; a kind that is not made at all is not to be counted."""
    if any(_pair(fact, kind)[1] for kind in _kinds(told) for _, fact in told.facts):
        if any(_differing_in(told, kind)[1] for kind in _kinds(told)):
            return "write what it comes to in each size"
        every = _in_every_size(told)
        varies = told.row is not None and told.row.variable
        if not every and (varies or len(told.facts) < len(told.pattern.sizes)):
            # One number would be wrong in the other rows of the line, or in the other sizes.
            sizes = f", {sizes_words(told.sizes)}" if told.sizes else ""
            return f"write a count that comes to {made} in {told.fact.row}{sizes}"
        return f"write `{every or made}`"
    return f"take `{stated}` out of the count"


def _in_every_size(told: Told) -> str:
    """The count as it comes out, with what is stated for the sizes in which that is right; empty
    where it cannot be told."""
    stated, kinds = told.row.stated if told.row is not None else None, _kinds(told)
    if stated is None or len(kinds) != 1 or len(told.facts) == len(told.pattern.sizes):
        return ""
    one = next((one for one in stated.counts if one.kind == kinds[0] and one.sizes is None), None)
    found = {size: _pair(fact, kinds[0])[1] for size, fact in told.facts}
    if one is None:
        return ""
    values: list[object] = []
    for size in range(len(told.pattern.sizes)):
        names = {count.name: count.values[size] for count in told.pattern.counts}
        try:
            values.append(found[size] if size in found else whole(one.n, size, names))
        except (CannotReckon, KeyError):  # or it goes by the number of the row
            return ""
    shown = each(tuple(values))
    return f"{shown} {kind_words(kinds[0], told.terms, shown)}"


def differences(told: Told) -> tuple[str, str]:
    """What was made and what is stated, of the kinds that differ, with a value for each size in
    which they do."""
    made, stated = [], []
    for kind in _kinds(told):
        among, where = _differing_in(told, kind)
        found = among.over(lambda fact, kind=kind: _pair(fact, kind)[1])  # type: ignore[misc]
        wanted = among.over(lambda fact, kind=kind: _pair(fact, kind)[0])  # type: ignore[misc]
        made.append(f"{found} {kind_words(kind, told.terms, found)}{where}")
        stated.append(f"{wanted} {kind_words(kind, told.terms, wanted)}")
    return ", ".join(made), ", ".join(stated)


def _differing_in(told: Told, kind: Kind) -> tuple[Told, str]:
    """What is told of the sizes in which a kind differs, and, where it does not in all of those
    told of, which these are."""
    facts = tuple(one for one in told.facts if any(kind == how for how, _, _ in differing(one[1])))
    among = told._replace(facts=facts)
    return among, "" if len(facts) == len(told.facts) else f" in {sizes_words(among.sizes)}"


def _kinds(told: Told) -> list[Kind]:
    return list(dict.fromkeys(kind for _, fact in told.facts for kind, _, _ in differing(fact)))


def _pair(fact: Fact, kind: Kind) -> tuple[int, int]:
    return next(((stated, made) for one, stated, made in differing(fact) if one == kind), (0, 0))


def _difference(told: Told) -> str:
    parts = []
    for kind in _kinds(told):
        among, _ = _differing_in(told, kind)
        gaps = {_pair(fact, kind)[0] - _pair(fact, kind)[1] for _, fact in among.facts}
        words = kind_words(kind, told.terms)
        if len(gaps) == 1:
            gap = gaps.pop()
            words = kind_words(kind, told.terms, abs(gap))
            parts.append(f"{abs(gap)} {'more' if gap > 0 else 'fewer'} {words}")
        else:
            parts.append(f"another number of {words}")
    return " and ".join(parts)


def also_stated(told: Told) -> str:
    """A sentence on the stated count, where it does not hold either."""
    if not any(fact.get("differs") for _, fact in told.facts):
        return ""
    made, stated = differences(told)
    return f" As written it comes to {made}; {stated} {'is' if stated.startswith('1 ') else 'are'} stated."


def below(told: Told) -> str:
    """What the row works into, in words: the row below, or the start."""
    label = told.fact.row
    if told.fact.get("places") == "ch":
        return "the starting chain"
    return "the round below" if label.startswith(("round", "setup round")) else "the row below"


@rule("places-left-over", COUNTING)
def places_left_over(told: Told) -> Diagnostic:
    """A row ends before the row below does.

    What is neither worked, skipped nor left in words is a mistake or a secret: the maker has
    stitches over and is not told what to do with them.

    Breaks:
        pattern: Tideline Swatch
        terms: UK
        part swatch: flat
        start: ch 11
        row 1: dc in 2nd ch from hook, dc in each ch across = 10 sts
        row 2: ch 1, 8 dc
    Keeps:
        pattern: Tideline Swatch
        terms: UK
        part swatch: flat
        start: ch 11
        row 1: dc in 2nd ch from hook, dc in each ch across = 10 sts
        row 2: ch 1, 8 dc, leave 2 unworked = 8 sts
    """
    fact = told.fact
    left = told.each("left")
    if fact.get("places") == "between":
        text = f"{stitches(left)} {'is' if left == '1' else 'are'} passed over here without a word."
        return told.say(
            text + also_stated(told), f"Write `{_skip(left)}` before it, or work {them(left)}."
        )
    things = []
    if any(number(one, "left") for _, one in told.facts):
        things.append(plural(left, "chain") if fact.get("places") == "ch" else stitches(left))
    if any(number(one, "spaces") for _, one in told.facts):
        things.append(plural(told.each("spaces"), "chain space"))
    what = " and ".join(things)
    verb = "is" if what.startswith("1 ") and len(things) == 1 else "are"
    if fact.get("places") == "ch":
        text = f"The row ends here, and {what} of the starting chain {verb} left over."
    else:
        text = f"The {word(told)} ends here, and {what} of {below(told)} {verb} left over (it has {stitches(told.each('have'))})."
    mend = chains.counting(told)
    if mend is None:
        return told.say(text + also_stated(told), *_left_hints(told, left))
    return told.say(text + also_stated(told), mend.hint, *_left_hints(told, left), edits=mend.edits)


def word(told: Told) -> str:
    return "round" if "round" in told.fact.row else "row"


def _skip(left: str) -> str:
    return f"skip {left} {'st' if left == '1' else 'sts'}"


def them(left: str) -> str:
    return "it" if left == "1" else "them"


def _left_hints(told: Told, left: str) -> tuple[str, ...]:
    fact = told.fact
    hooked = number(fact, "hooked")
    if number(fact, "in_first"):
        text = f"Work into {them(left)} too, on the other side of the chain"
        if left != "1":
            return (f"{text}, back to where the first stitch went.",)
        more = "put 3 stitches into that chain at the start, which go round its end"
        return (f"{text} that was worked into first; or {more}.",)
    if fact.get("places") == "ch" and hooked and left.isdigit():
        nth = hooked + 1 + int(left)
        start = chains.start_longer(told, lambda fact: -number(fact, "left"))
        shorter = f"`{start}`" if start else f"a starting chain shorter by {left}"
        return (f"It comes out from the {ordinal(nth)} ch from the hook, or with {shorter}.",)
    if number(fact, "left") and number(fact, "spaces"):
        return (
            "Work them, pass them in words (`skip next sp`, `skip 1 st`),"
            " or `leave the rest unworked`.",
        )
    times = chains.times_to_fill(told)
    if times:
        return (
            f"Write `[...] {times} times`, or `{_skip(left)}` or `leave {left} unworked` after it.",
        )
    if number(fact, "left"):
        where = "it is" if left == "1" else "they are"
        return (
            f"Work {them(left)}, or write `{_skip(left)}` or `leave {left} unworked` where {where}.",
        )
    return ("Work into it, or write `skip next sp` where it is.",)
