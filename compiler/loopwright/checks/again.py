"""Stitches of one edge that two parts begin on: `over next 12 sts of last round of leg` for a heel,
and then `along last round of leg`, those twelve and all, for the foot."""

from __future__ import annotations

from collections.abc import Iterator

from loopwright.checks.told import Told, number, ordinal
from loopwright.diagnostics import ADVICE, Diagnostic, rule
from loopwright.ir.fabric import Fabric, Fact, TakenUp, WorkedPart
from loopwright.ir.pattern import Pattern


def worked_again(pattern: Pattern, fabrics: tuple[Fabric, ...]) -> tuple[tuple[int, Fact], ...]:
    """What parts begin on in each size although a part before them began on it."""
    if not any(one.edges for part in pattern.parts for one in (part.start, *part.start.then)):
        return ()
    return tuple((fabric.size, fact) for fabric in fabrics for fact in _again(fabric))


def _again(fabric: Fabric) -> Iterator[Fact]:
    before: list[tuple[str, TakenUp]] = []
    for part in fabric.parts:
        if not _into_both_loops(part):
            continue
        for one in part.taken:
            shared = [(name, old) for name, old in before if _some_of(old) and _both(one, old)]
            if shared:
                yield _fact(part, one, shared)
            before.append((part.name, one))


def _into_both_loops(part: WorkedPart) -> bool:
    """Whether a part's first row takes what it begins on whole: a loop, a post or what is left may
    be worked into by another part as well."""
    row = part.rows[0][0][0] if part.rows else None
    if row is None or row.left or row.shift:
        return False
    made = row.made.tally()
    return not any(one.loop or one.post or (one.stitch and one.stitch.post) for one in made)


def _some_of(old: TakenUp) -> bool:
    """Whether it took but some of the edge: on a whole edge an edging may be worked, and a border
    on that once more."""
    return 0 < old.n < old.have


def _both(one: TakenUp, old: TakenUp) -> int:
    """How many stitches two take both."""
    if (one.part, one.what) != (old.part, old.what):
        return 0
    return max(min(one.first + one.n, old.first + old.n) - max(one.first, old.first), 0)


def _fact(part: WorkedPart, one: TakenUp, shared: list[tuple[str, TakenUp]]) -> Fact:
    end = max(old.first + old.n for _, old in shared)
    begin = min(old.first for _, old in shared)
    again = min(sum(_both(one, old) for _, old in shared), one.n)
    # What is free is one stretch, up to the end, where those before it took the first of it.
    to_end = begin <= one.first and one.first + one.n == one.have
    free = one.have - end if to_end else 0
    values = (
        ("n", one.n),
        ("again", again),
        ("free", free if free == one.n - again else 0),
        ("end", end),
        ("of", one.part),
        ("what", one.what),
        ("names", tuple(dict.fromkeys(name for name, _ in shared))),
    )
    return Fact("stitches-worked-twice", one.span, part.name, "", values)


@rule("stitches-worked-twice", "placing", ADVICE)
def stitches_worked_twice(told: Told) -> Diagnostic:
    """A part begins on stitches of which another part took some before it.

    Both are worked into the same stitches, and the count is the larger by them: a heel on half of
    the leg, and then a foot on the heel and on all of the leg. Nothing is told where an edge is
    worked on as a whole and then once more, as with a border over an edging, where either goes
    into one loop or around posts, or where something goes `all round`.

    Breaks:
        pattern: Tideline Socks
        terms: UK
        part leg: in rounds
        start: ch 24, join into ring
        round 1: ch 1, dc in each ch around, join = 24 sts
        part heel: flat
        start: over next 12 sts of last round of leg
        rows 1-6: ch 1, dc in each st across = 12 sts
        part foot: in rounds
        start: along last row of heel then along last round of leg
        round 1: ch 1, dc in each st around, join = 36 sts
    Keeps:
        pattern: Tideline Socks
        terms: UK
        part leg: in rounds
        start: ch 24, join into ring
        round 1: ch 1, dc in each ch around, join = 24 sts
        part heel: flat
        start: over next 12 sts of last round of leg
        rows 1-6: ch 1, dc in each st across = 12 sts
        part foot: in rounds
        start: along last row of heel then over last round of leg from 13th st
        round 1: ch 1, dc in each st around, join = 24 sts
    """
    fact = told.fact
    again, n = told.each("again"), told.each("n")
    names = fact.get("names")
    assert isinstance(names, tuple)
    *rest, last = (f"`{name}`" for name in names)
    who = f"{', '.join(rest)} and {last}" if rest else last
    many = f"{again} of these {n}" if again != n else "The"
    one = again == n == "1"
    text = f"{many} stitches are worked into already: {who} begin{'' if rest else 's'} on them."
    if one:
        text = f"This stitch is worked into already: {who} begins on it."
    meant = "Where both are meant to go there, say into which loop, `blo` or `flo`."
    if not all(number(fact, "free") for _, fact in told.facts):
        return told.say(text, "Take up only those that are free.", meant)
    return told.say(text, f"Write `{_free(told)}` to go on where {who} ended.", meant)


def _free(told: Told) -> str:
    """The start that takes up the stitches that are free."""
    fact = told.fact
    of = next(part for part in told.pattern.parts if part.name == fact.get("of"))
    row = "row" if of.manner == "flat" else "round"
    edge = f"last {row} of {of.name}" if fact.get("what") == "last" else f"start of {of.name}"
    end = told.over(lambda fact: number(fact, "end") + 1)
    if end.isdigit():
        return f"over {edge} from {ordinal(int(end))} st"
    free = told.each("free")
    return f"over next {free} {'st' if free == '1' else 'sts'} of {edge}"
