"""Counting: what a row takes against what is there, what it makes against what is stated."""

from __future__ import annotations

from loopwright.checks.told import Told, kind_words, number, plural, stitches
from loopwright.diagnostics import Diagnostic, rule
from loopwright.ir.fabric import Fact
from loopwright.ir.items import Kind

COUNTING = "counting"


@rule("count-differs", COUNTING)
def count_differs(told: Told) -> Diagnostic:
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
    return told.say(
        text,
        f"If the instructions are right, {_stated_right(told, made, stated)}.",
        "If the count is right, the instructions need " + _difference(told),
    )


def _stated_right(told: Told, made: str, stated: str) -> str:
    """What to write for the stated count; a kind that is not made at all is not to be counted."""
    if any(_pair(fact, kind)[1] for kind in _kinds(told) for _, fact in told.facts):
        return f"write `{made}`"
    return f"take `{stated}` out of the count"


def differences(told: Told) -> tuple[str, str]:
    """What was made and what is stated, of the kinds that differ, with a value for each size."""
    made, stated = [], []
    for kind in _kinds(told):
        found = told.over(lambda fact, kind=kind: _pair(fact, kind)[1])  # type: ignore[misc]
        wanted = told.over(lambda fact, kind=kind: _pair(fact, kind)[0])  # type: ignore[misc]
        made.append(f"{found} {kind_words(kind, told.terms, found)}")
        stated.append(f"{wanted} {kind_words(kind, told.terms, wanted)}")
    return ", ".join(made), ", ".join(stated)


def _differs(fact: Fact) -> tuple[tuple[Kind, int, int], ...]:
    """The kinds that differ, each with what is stated and what was made."""
    found: tuple[tuple[Kind, int, int], ...] = fact.get("differs") or ()  # type: ignore[assignment]
    return found


def _kinds(told: Told) -> list[Kind]:
    return list(dict.fromkeys(kind for _, fact in told.facts for kind, _, _ in _differs(fact)))


def _pair(fact: Fact, kind: Kind) -> tuple[int, int]:
    return next(((stated, made) for one, stated, made in _differs(fact) if one == kind), (0, 0))


def _difference(told: Told) -> str:
    parts = []
    for kind in _kinds(told):
        gaps = {_pair(fact, kind)[0] - _pair(fact, kind)[1] for _, fact in told.facts}
        words = kind_words(kind, told.terms)
        if len(gaps) == 1:
            gap = gaps.pop()
            words = kind_words(kind, told.terms, abs(gap))
            parts.append(f"{abs(gap)} {'more' if gap > 0 else 'fewer'} {words}")
        else:
            parts.append(f"another number of {words}")
    return " and ".join(parts) + "."


def also_stated(told: Told) -> str:
    """A sentence on the stated count, where it does not hold either."""
    if not any(fact.get("differs") for _, fact in told.facts):
        return ""
    made, stated = differences(told)
    return f" As written it comes to {made}; {stated} {'is' if stated.startswith('1 ') else 'are'} stated."


def _below(told: Told) -> str:
    """What the row works into, in words: the row below, or the start."""
    label = told.fact.row
    if told.fact.get("places") == "ch":
        return "the starting chain"
    return "the round below" if label.startswith(("round", "setup round")) else "the row below"


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
        return told.say(
            text + also_stated(told), f"Say how often to work it: `[...] {done} times`."
        )
    where = f"{_below(told)}, as far as this goes,"
    if fact.get("scope") == "end":
        where = _below(told) if not fact.get("from") else f"from here {_below(told)}"
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
    return told.say(text + also_stated(told), *_bracket_hints(told, left))


def _bracket_hints(told: Told, left: str) -> tuple[str, ...]:
    each = told.fact.get("each")
    if not left.isdigit():
        return ("Let what is repeated divide the row, or stop short of its end, `[...] to last ...`.",)
    if told.fact.get("scope") != "end":
        done = told.each("done")
        return (f"Work it so many times, `[...] {done} times`, and say what is worked in the rest.",)
    last = "last st" if left == "1" else f"last {left} sts"
    word = "dc" if told.terms.name == "UK" else "sc"
    hint = (
        f"Stop before {'it' if left == '1' else 'them'}, `[...] to {last}`, and say what is worked"
        f" there, as in `{'' if left == '1' else left + ' '}{word}`."
    )
    if not isinstance(each, int) or each < 2:
        return (hint,)
    what = _below(told)
    return (hint, f"Or let {what} be shorter by {left}, or longer by {each - int(left)}.")


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
        text = f"{told.each('wanted')} stitches are asked for, and that edge has {told.each('have')} left."
        return told.say(text, "Ask for fewer, or name another edge.")
    if fact.get("repeat"):
        return _too_often(told)
    for key in ("increases", "decreases"):
        if fact.get(key) is not None:
            text = f"{told.each(key)} {key} do not go into {stitches(told.each('have'))}."
            return told.say(text, f"Spread fewer over the {_word(told)}.")
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
    below, on_chain = _below(told), fact.get("places") == "ch"
    have = told.each("have")
    places = plural(have, "chain") if on_chain else stitches(have)
    text = f"{below.capitalize()} has {places}, and all of them are used before this."
    done, times = fact.get("done"), fact.get("times")
    hint = "Take something out of the row, or make the one below longer."
    if isinstance(done, int) and isinstance(times, int) and len(set(told.each("done").split())) == 1:
        text = f"{times} are to be worked here, and there is room for {done}: {below} has {places}."
        hint = f"Work {done} here, or make {below} longer by {times - done}."
    return told.say(text + also_stated(told), hint)


def _too_often(told: Told) -> Diagnostic:
    fact = told.fact
    times, done = told.each("times"), told.each("done")
    left = told.over(lambda one: number(one, "have") - number(one, "used"))
    need = ""
    if fact.get("each"):
        total = told.over(lambda one: number(one, "each") * number(one, "times"))
        need = f"Each repeat takes {stitches(fact.get('each'))}, so {times} of them need {total}; "
    here = "from here " if fact.get("from") else ""
    text = f"{need}{here}{_below(told)} has {told.each('have')}. {plural(done, 'repeat')} fit"
    text += "s" if done == "1" else ""
    text += f", with {'none' if left == '0' else stitches(left)} left over."
    hint = f"Write `{done} times`, or make {_below(told)} longer."
    return told.say(text[0].upper() + text[1:] + also_stated(told), hint)


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
            text + also_stated(told), f"Write `{_skip(left)}` before it, or work {_them(left)}."
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
        text = f"The {_word(told)} ends here, and {what} of {_below(told)} {verb} left over ({told.each('have')} in all)."
    return told.say(text + also_stated(told), *_left_hints(told, left))


def _word(told: Told) -> str:
    return "round" if "round" in told.fact.row else "row"


def _skip(left: str) -> str:
    return f"skip {left} {'st' if left == '1' else 'sts'}"


def _them(left: str) -> str:
    return "it" if left == "1" else "them"


def _left_hints(told: Told, left: str) -> tuple[str, ...]:
    fact = told.fact
    hooked = number(fact, "hooked")
    if fact.get("places") == "ch" and hooked and left.isdigit():
        nth = hooked + 1 + int(left)
        return (
            f"It comes out from the {ordinal(nth)} ch from the hook, or with a starting chain"
            f" shorter by {left}.",
        )
    if number(fact, "left"):
        where = "it is" if left == "1" else "they are"
        return (
            f"Work {_them(left)}, or write `{_skip(left)}` or `leave {left} unworked` where {where}.",
        )
    return ("Work into it, or write `skip next sp` where it is.",)


def ordinal(n: int) -> str:
    """``2nd``, ``11th``."""
    if n % 100 in (11, 12, 13):
        return f"{n}th"
    return f"{n}{ {1: 'st', 2: 'nd', 3: 'rd'}.get(n % 10, 'th')}"


@rule("seam-edges-differ", COUNTING)
def seam_edges_differ(told: Told) -> Diagnostic:
    """Two edges that are to be joined stitch for stitch have different numbers of stitches.

    One edge would have to be eased in, and each maker would do that in another place.

    Breaks:
        pattern: Tideline Swatch
        terms: UK
        part swatch: flat
        start: ch 11
        row 1: dc in 2nd ch from hook, dc in each ch across = 10 sts
        row 2: ch 1, dc inc, 9 dc = 11 sts
        seam: last row to start, sl st
    Keeps:
        pattern: Tideline Swatch
        terms: UK
        part swatch: flat
        start: ch 11
        row 1: dc in 2nd ch from hook, dc in each ch across = 10 sts
        row 2: ch 1, dc in each st across = 10 sts
        seam: last row to start, sl st
    """
    fact = told.fact
    one, two = told.each("one"), told.each("two")
    if one != two:
        text = f"The first edge has {stitches(one)} and the second has {two}."
        return told.say(text, "Make the two edges the same length.")
    text = f"The stretches of the seam come to {told.each('runs')}, and the edges have {stitches(one)}."
    return told.say(text, "Let the stretches and openings add up to the edge.") if fact else told.say(text)
