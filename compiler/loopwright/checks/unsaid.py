"""What nothing in the counting shows, and is hardly ever meant: it is looked for in the fabric.

A row that begins with nothing to stand up from, a tall stitch without a turning chain or a stitch
in the very chain that the hook comes out of; a row whose last place, named as such, was worked
into before; and a round that passes stitches at its end and nowhere else.
"""

from __future__ import annotations

from collections.abc import Iterator

from loopwright.checks.told import Told, number, ordinal
from loopwright.diagnostics import ADVICE, Diagnostic, rule
from loopwright.ir.fabric import Fabric, Fact, Made, Place, WorkedPart, WorkedRow
from loopwright.ir.pattern import Part, Pattern
from loopwright.ir.runs import Runs
from loopwright.trade.stitches import Stitch
from loopwright.trade.terms import abbreviation
from loopwright.trade.turning import TURNING

FROM = 2
"""Chains of the usual turning chain from which it is missed: a row of US sc (UK dc) lies well
without its one, and many makers leave it out (common practice without a source)."""

CHAINS = ("ch", "turn", "as")
NOTHING: Runs[Place] = Runs(())


def unsaid(pattern: Pattern, fabrics: tuple[Fabric, ...]) -> tuple[tuple[int, Fact], ...]:
    """What there is of this in each part and size."""
    parts = {part.name: part for part in pattern.parts}
    return tuple(
        (fabric.size, fact)
        for fabric in fabrics
        for worked in fabric.parts
        for fact in (*_beginning(parts[worked.name], worked), *_ending(worked), *_passing(worked))
    )


def _beginning(part: Part, worked: WorkedPart) -> Iterator[Fact]:
    """The first row of a part that begins so, and how many other lines do."""
    rows = list(_without(part, worked))
    if rows:
        row, made, how = rows[0]
        others = len({one.line for one, _, _ in rows} - {row.line})
        values = (("stitch", made.stitch), ("how", how), ("others", others))
        yield Fact("no-turning-chain", row.spans[made.item], worked.name, row.label, values)


def _ending(worked: WorkedPart) -> Iterator[Fact]:
    """The first row of each line that goes into its last place twice."""
    told = set()
    for rows, _ in worked.rows:
        for row in rows:
            if row.last_twice is not None and row.line not in told:
                told.add(row.line)
                places = row.below.run_at(0)[0].what
                yield Fact(
                    "last-place-twice",
                    row.last_twice,
                    worked.name,
                    row.label,
                    (("places", places),),
                )


def _passing(worked: WorkedPart) -> Iterator[Fact]:
    """The first round that passes stitches at its end only, and how many other lines do."""
    found = [
        (row, passed)
        for rows, _ in worked.rows
        for row in rows
        if row.is_round and (passed := _passed(row))
    ]
    if found:
        row, places = found[0]
        others = len({one.line for one, _ in found} - {row.line})
        stitches = {place.stitch for place in places.tally() if _is_stitch(place)}
        values = (
            ("passed", places.before(places.length, _is_stitch)),
            ("stitch", stitches.pop() if len(stitches) == 1 else None),
            ("others", others),
        )
        span = row.spans[_last_in_space(row.made).item]
        yield Fact("stitches-passed", span, worked.name, row.label, values)


def _passed(row: WorkedRow) -> Runs[Place]:
    """What a round passes without a word between its last space and its end; nothing where it
    passes places elsewhere as well, and so is meant to."""
    if row.shift or row.left or row.on_ring or not any(map(_is_space, row.below.tally())):
        return NOTHING
    used = 0
    stitches = False
    for made, times in row.made.tally().items():
        if made.step not in (0, 1) or made.also != tuple(range(1, len(made.also) + 1)):
            return NOTHING
        used += (made.step + len(made.also)) * times
        stitches = stitches or made.into == "st"
    below = row.below
    if not stitches or not 0 < used < below.length or below.run_at(used - 1)[0].what != "sp":
        return NOTHING
    passed = below.slice(used, below.length)
    return passed if any(map(_is_stitch, passed.tally())) else NOTHING


def _last_in_space(made: Runs[Made]) -> Made:
    """The last thing that goes into a space, which there is."""
    at = made.length
    while True:
        one, at, _ = made.run_at(at - 1)
        if one.into == "sp":
            return one


def _is_space(place: Place) -> bool:
    return place.what == "sp"


def _is_stitch(place: Place) -> bool:
    return place.what == "st"


def _without(part: Part, worked: WorkedPart) -> Iterator[tuple[WorkedRow, Made, str]]:
    """Rows that begin so, with what they begin with."""
    chained = False
    first = True
    for rows, _ in worked.rows:
        for row in rows:
            if row.made.length:
                made = row.made.run_at(0)[0]
                how = _how(part, row, made, first=first)
                if how and not chained:
                    yield row, made, how
                chained = row.made.run_at(row.made.length - 1)[0].what in CHAINS
            first = False


def _how(part: Part, row: WorkedRow, made: Made, *, first: bool) -> str:
    """What a row lacks at its beginning; nothing where it is as it should be."""
    if made.what != "st" or made.stitch is None or made.begins or made.own:
        return ""
    if first and made.into == "ch" and part.start.what == "chain" and not part.start.ring:
        return "hook" if made.step == 1 else ""
    if row.is_round and part.manner == "spiral":
        return ""
    usual = TURNING.get(made.stitch.basic)
    return "row" if usual is not None and usual.chains >= FROM else ""


@rule("no-turning-chain", "fabric", ADVICE)
def no_turning_chain(told: Told) -> Diagnostic:
    """A row of tall stitches begins without a chain, or the first row in the chain at the hook.

    The hook lies at the height of the row below; without a chain to bring it up the first stitch
    is pulled down, and the edge with it. And the chain that the hook comes out of cannot be worked
    into. From a US hdc (UK htr) on this is told; rows of lower stitches lie well without one. A
    stitch of your own may stand up by itself.

    Breaks:
        pattern: Tideline Swatch
        terms: UK
        part swatch: flat
        start: ch 16
        row 1: miss 3 ch as tr, tr in each ch across = 14 sts
        row 2: tr in each st across = 14 sts
    Keeps:
        pattern: Tideline Swatch
        terms: UK
        part swatch: flat
        start: ch 16
        row 1: miss 3 ch as tr, tr in each ch across = 14 sts
        row 2: ch 3 as tr, tr in each st across = 14 sts
    """
    fact = told.fact
    name = _name(told)
    others = number(fact, "others")
    also = f" So do {others} more of this part." if others > 1 else ""
    also = " So does 1 more of this part." if others == 1 else also
    if fact.get("how") == "hook":
        text = f"The first {name} goes into the chain that the hook comes out of."
        nth = ordinal(_chains(told) + 1) if _chains(told) > 1 else "2nd"
        hint = f"Begin with `{name} in {nth} ch from hook`, and make the starting chain longer by {max(_chains(told), 1)}."
        return told.say(text, hint)
    word = "round" if "round" in fact.row else "row"
    text = f"A {word} that begins with {name} has no chain to bring the hook up.{also}"
    high = _chains(told)
    return told.say(
        text,
        f"Begin with `ch {high} as {name}` if the chain is the first stitch, or with `ch {high}` if it is none.",
    )


def _chains(told: Told) -> int:
    """The chains of the usual turning chain of the stitch told of."""
    stitch = told.fact.get("stitch")
    assert isinstance(stitch, Stitch)
    return TURNING[stitch.basic].chains if stitch.basic in TURNING else 1


def _name(told: Told) -> str:
    """What the first stitch is called."""
    stitch = told.fact.get("stitch")
    assert isinstance(stitch, Stitch)
    return abbreviation(stitch, told.terms)


@rule("last-place-twice", "placing", ADVICE)
def last_place_twice(told: Told) -> Diagnostic:
    """`in last st` goes into a stitch that the row has worked into already.

    `across` and a number of stitches that fills the row have taken the last place before it is
    named. Either the items before it should stop sooner, or the row below is shorter than is
    thought: in one size, say, where its chain was not made longer. `in same st` says that a stitch
    is meant to go there again.

    Breaks:
        pattern: Tideline Swatch
        terms: UK
        part swatch: flat
        start: ch 11
        row 1: dc in 2nd ch from hook, dc in each ch across, 3 dc in last ch = 13 sts
    Keeps:
        pattern: Tideline Swatch
        terms: UK
        part swatch: flat
        start: ch 11
        row 1: dc in 2nd ch from hook, dc in each ch to last ch, 3 dc in last ch = 12 sts
    """
    one = "chain" if told.fact.get("places") == "ch" else "stitch"
    text = f"The last {one} has been worked into already, and this goes into it again."
    last = "last ch" if one == "chain" else "last st"
    return told.say(
        text, f"Stop before it, as in `... to {last}`; or write `in same st` where it is meant."
    )


@rule("stitches-passed", "placing", ADVICE)
def stitches_passed(told: Told) -> Diagnostic:
    """A round passes stitches between its last space and the join, and nowhere else.

    Beside a space that is worked into stitches may be passed without a word: so a granny square is
    worked. A round that goes into every other place, and into the stitches too, has most likely
    forgotten those at its end: each of its sides has them but the last, and it gets shorter than
    the others from round to round. What is to be left there can be left in words.

    Breaks:
        pattern: Tideline Hexagon
        terms: UK
        part hexagon: in rounds
        start: magic ring
        round 1: ch 3 as tr, tr in ring, [ch 2, 2 tr in ring] 5 times, ch 2, join = 12 tr, 6 ch-2 sps
        round 2: ch 3 as tr, tr in next tr, [(tr, ch 2, tr) in next ch-2 sp, tr in next 2 tr] 5 times, (tr, ch 2, tr) in next ch-2 sp, join
        round 3: ch 3 as tr, [tr in each tr to next ch-2 sp, (tr, ch 2, tr) in next ch-2 sp] 6 times, join
    Keeps:
        pattern: Tideline Hexagon
        terms: UK
        part hexagon: in rounds
        start: magic ring
        round 1: ch 3 as tr, tr in ring, [ch 2, 2 tr in ring] 5 times, ch 2, join = 12 tr, 6 ch-2 sps
        round 2: ch 3 as tr, tr in next tr, [(tr, ch 2, tr) in next ch-2 sp, tr in next 2 tr] 5 times, (tr, ch 2, tr) in next ch-2 sp, join
        round 3: ch 3 as tr, [tr in each tr to next ch-2 sp, (tr, ch 2, tr) in next ch-2 sp] 6 times, tr in next tr, join
    """
    fact = told.fact
    many = told.each("passed")
    one = many == "1"
    word = _name(told) if fact.get("stitch") is not None else "st" if one else "sts"
    are = "is" if one else "are"
    others = number(fact, "others")
    also = f" So it is in {others} more of this part." if others else ""
    text = (
        f"{many} {word} {are} passed between the last space of the round and its end; nowhere else"
        f" does it pass any.{also}"
    )
    each = "st" if word == "sts" else word
    rest = f"`{each} in each {each} around`" if each != "st" else "a stitch `in each st around`"
    return told.say(
        text,
        f"Work into what is left too, as with {rest} after the last space; or write `leave the rest"
        " unworked` where it is meant.",
    )
