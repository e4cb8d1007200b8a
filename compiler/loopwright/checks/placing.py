"""Placing: whether what a stitch is to go into is there, and can take it."""

from __future__ import annotations

from loopwright.checks import chains
from loopwright.checks.counting import also_stated
from loopwright.checks.told import Told, article, kind_words, place_words
from loopwright.diagnostics import ADVICE, Diagnostic, Edit, rule
from loopwright.ir.fabric import Place
from loopwright.ir.items import Join, Kind, Turn, Work
from loopwright.ir.pattern import Row
from loopwright.trade.stitches import SLIP
from loopwright.trade.terms import Terms

PLACING = "placing"


@rule("wrong-place", PLACING)
def wrong_place(told: Told) -> Diagnostic:
    """A stitch is sent to a certain kind of stitch, and another one stands there.

    The maker looks for the stitch that is named and finds another: either the row below is not
    what the designer thinks, or this row has drifted by a stitch.

    Breaks:
        pattern: Tideline Swatch
        terms: UK
        part swatch: flat
        start: ch 11
        row 1: dc in 2nd ch from hook, dc in each ch across = 10 sts
        row 2: ch 3, tr in next tr, 9 tr
    Keeps:
        pattern: Tideline Swatch
        terms: UK
        part swatch: flat
        start: ch 11
        row 1: dc in 2nd ch from hook, dc in each ch across = 10 sts
        row 2: ch 3, tr in next dc, 9 tr = 10 sts
    """
    wanted = told.fact.get("wanted")
    found = told.fact.get("found")
    special = _special(told, wanted)
    if special is not None:
        return special
    assert isinstance(wanted, Kind)
    stands = place_words(found, told.terms)
    text = f"The next stitch here is {stands}, and this wants {_one(wanted, told.terms)}."
    text += also_stated(told)
    return told.say(text, *_wrong_hints(told, found))


def _one(kind: Kind, terms: Terms) -> str:
    """One of a kind of place, with its article."""
    words = "chain" if kind.what == "ch" else kind_words(kind, terms, 1)
    return f"{article(words)} {words}"


def _wrong_hints(told: Told, found: object) -> tuple[str, ...]:
    if isinstance(found, Place) and found.what == "st" and found.stitch is not None:
        name = kind_words(Kind("stitch", stitch=found.stitch), told.terms)
        return (
            f"Write `next {name}` or `next st` if it is to go there, or `skip 1 st` first"
            " if it is to go further on.",
        )
    return ("Name what stands there, or skip to the stitch that is meant.",)


SPECIAL = {
    "ring": (
        "There is no ring to work into here.",
        "Begin the part with `magic ring` or `ch N, join into ring`, or name a stitch.",
    ),
    "hook": (
        "There is no chain at the hook here to count along.",
        "Make the chain straight before it, or work into the next st.",
    ),
    "start chain": (
        "Chains that count are skipped at the start of the first row only, on its starting chain.",
        "In a later row write `ch N as` the stitch.",
    ),
    "same": (
        "Nothing has been worked yet that this could go into again.",
        "Name the place: `in first st`.",
    ),
    "skipped": (
        "Fewer stitches were skipped just before than this counts.",
        "Count the stitches in the last `skip`.",
    ),
    "top": (
        "The next stitch is not a chain of {chains} that counts as one.",
        "In the row below write `ch {chains} as` the stitch, or work `in last st` here.",
    ),
    "move": (
        "`move to` finds the first place of a row, and something is worked before it here.",
        "Write it first in the row, or slip stitch along in words: `sl st in next st`.",
    ),
    "row": (
        "There is no such row among the 12 below this one to work into.",
        "Count the rows again, or say how far down it is, as in `2 rows below`.",
    ),
    "base": ("That chain does not stand on a stitch.", "Name the stitch itself: `in first st`."),
    "no base": (
        "There is no chain of {chains} here, in this row or in the one below.",
        "Count its chains again, or name the stitch itself: `in first st`.",
    ),
    "spiral": (
        "Only a round of a spiral runs on past its marker.",
        "Take `run on` out, or write `in a spiral` on the part's line.",
    ),
    "run on": (
        "`run on` stands once in a round, outside brackets.",
        "Write it before the last items.",
    ),
    "other side": (
        "There is no starting chain here to go back along.",
        "`other side` stands in the first row of a part that begins with a chain.",
    ),
    "chain": ("The space has fewer chains than {chains}.", "Name one of its chains."),
}
"""Places that are no kind of stitch: what is said where they are not there, and the mend."""


def _special(told: Told, wanted: object) -> Diagnostic | None:
    if wanted is None:
        return told.say(
            "The places do not divide by the number of stitches worked together.",
            "Name as many places as the decreases take.",
        )
    assert isinstance(wanted, Kind)
    if wanted.what not in SPECIAL:
        return None
    text, hint = (one.format(chains=wanted.chains) for one in SPECIAL[wanted.what])
    counted = chains.counted_first(told) if wanted.what == "same" else ""
    return told.say(text, counted, hint)


@rule("no-post-here", PLACING)
def no_post_here(told: Told) -> Diagnostic:
    """A post stitch where there is no post to go around.

    A post stitch goes around the upright of a stitch. A chain, a slip stitch, a ring, a space or
    a row end has none.

    Breaks:
        pattern: Tideline Swatch
        terms: UK
        part swatch: flat
        start: ch 11
        row 1: fptr in 4th ch from hook, tr in each ch across
    Keeps:
        pattern: Tideline Swatch
        terms: UK
        part swatch: flat
        start: ch 11
        row 1: tr in 4th ch from hook, tr in each ch across = 8 sts
        row 2: ch 2, fptr around next tr, 7 tr = 8 sts
    """
    text = f"A post stitch goes around the post of a stitch, and here is {_here(told)}."
    hint = "Work an ordinary stitch here, or let the post stitch go around a stitch."
    return told.say(text + also_stated(told), hint)


def _here(told: Told) -> str:
    into = told.fact.get("into")
    found = told.fact.get("found")
    if into in ("ring", "gap"):
        return f"a {into}" if into == "gap" else "the ring"
    if into == "own":
        return "a chain"
    return place_words(found, told.terms)


@rule("no-loop-here", PLACING)
def no_loop_here(told: Told) -> Diagnostic:
    """A back or front loop stitch where there are no loops.

    The loops are the top of a stitch or of a chain. A space, a ring or a row end has none.

    Breaks:
        pattern: Tideline Swatch
        terms: UK
        part swatch: in rounds
        start: magic ring
        round 1: 8 dc blo in ring, join
    Keeps:
        pattern: Tideline Swatch
        terms: UK
        part swatch: in rounds
        start: magic ring
        round 1: 8 dc in ring, join = 8 sts
        round 2: ch 1, dc blo in each st around, join = 8 sts
    """
    text = f"Only the top of a stitch has a back and a front loop, and here is {_here(told)}."
    return told.say(text + also_stated(told), "Take `blo` or `flo` out, or work into a stitch.")


@rule("unknown-marker", PLACING)
def unknown_marker(told: Told) -> Diagnostic:
    """A marker is named that the row below does not have.

    A marker is set with `mark NAME` and found again in the next row.

    Breaks:
        pattern: Tideline Swatch
        terms: UK
        part swatch: flat
        start: ch 11
        row 1: dc in 2nd ch from hook, dc in each ch across = 10 sts
        row 2: ch 1, dc in each st to marked corner, leave the rest unworked
    Keeps:
        pattern: Tideline Swatch
        terms: UK
        part swatch: flat
        start: ch 11
        row 1: dc in 2nd ch from hook, 4 dc, mark corner, dc in each ch across = 10 sts
        row 2: ch 1, dc in each st to marked corner, leave the rest unworked = 5 sts
    """
    name = told.fact.get("name")
    text = f"The row below has no marker `{name}`, or it has been passed already."
    return told.say(text, f"Write `mark {name}` after the stitch that is to carry it.")


@rule("not-closed", PLACING)
def not_closed(told: Told) -> Diagnostic:
    """A joined round that is not joined.

    In a part worked in rounds each round ends with `join`. Without it the next round begins a
    stitch higher, and the work spirals.

    Breaks:
        pattern: Tideline Swatch
        terms: UK
        part swatch: in rounds
        start: magic ring
        round 1: 6 dc in ring = 6 sts
    Keeps:
        pattern: Tideline Swatch
        terms: UK
        part swatch: in rounds
        start: magic ring
        round 1: 6 dc in ring, join = 6 sts
    """
    text = "The round is not closed: this part is worked in rounds that are joined."
    slips = _closing(told)
    if slips:
        return told.say(
            f"{text} The notation writes `join` for the slip stitch that closes a round.",
            "Write `join` for it." if len(slips) == 1 else "Write `join` for it in each round.",
            edits=tuple(Edit(slip.span, "join", safe=True) for slip in slips),
        )
    if never_joined(told):
        return told.say(
            f"{text} No round of it ends with `join`.",
            "Write `in a spiral` on the part's line, or add `join` at the end of each round.",
        )
    return told.say(text, "Add `join` at its end, or write `in a spiral` on the part's line.")


def never_joined(told: Told) -> bool:
    """Whether a part has several rounds and closes none of them, which is one slip."""
    part = told.part
    rounds = [one for one in part.lines if isinstance(one, Row) and one.is_round] if part else []
    return len(rounds) > 1 and not any(
        isinstance(item, Join) for one in rounds for item in one.items
    )


def _closing(told: Told) -> tuple[Work, ...]:
    """The slip stitches into the first stitch that stand where `join` should: that of the round, or
    that of each round where none is closed in another way."""
    rows: list[Row | None] = [told.row]
    if never_joined(told) and told.part is not None:
        rows = [one for one in told.part.lines if isinstance(one, Row) and one.is_round]
    slips = [_slip_at_end(row) for row in rows]
    return tuple(one for one in slips if one is not None) if slips[0] is not None else ()


def _slip_at_end(row: Row | None) -> Work | None:
    items = [item for item in row.items if not isinstance(item, Turn)] if row is not None else []
    last = items[-1] if items else None
    if not isinstance(last, Work) or last.stitch != SLIP or last.own or last.target is None:
        return None
    return last if last.target.how in ("first", "top") else None


@rule("joined-spiral", PLACING)
def joined_spiral(told: Told) -> Diagnostic:
    """A round of a spiral is joined, and the spiral goes on.

    A spiral has no joins; it may end in a joined round. If every round is joined the part is
    worked in rounds.

    Breaks:
        pattern: Tideline Swatch
        terms: UK
        part swatch: in a spiral
        start: magic ring
        round 1: 6 dc in ring, join = 6 sts
        round 2: [dc inc] around = 12 sts
    Keeps:
        pattern: Tideline Swatch
        terms: UK
        part swatch: in a spiral
        start: magic ring
        round 1: 6 dc in ring = 6 sts
        round 2: [dc inc] around = 12 sts
    """
    text = "This round is joined, and the next one goes on as a spiral."
    return told.say(text, "Take the `join` out, or write `in rounds` on the part's line.")


@rule("first-place-twice", PLACING, ADVICE)
def first_place_twice(told: Told) -> Diagnostic:
    """A chain that counts, then a stitch in the first stitch, and one stitch too many.

    A chain that counts as a stitch stands in the first place already. Another stitch there is an
    increase, which is seldom meant where the row comes to one more than is stated. The count
    itself is told as `count-differs`; this says where the extra stitch may come from.

    Breaks:
        pattern: Tideline Swatch
        terms: UK
        part swatch: flat
        start: ch 12
        row 1: miss 3 ch as tr, tr in each ch across = 10 sts
        row 2: ch 3 as tr, tr in first st, tr in each st across = 10 sts  # allow count-differs: told apart
    Keeps:
        pattern: Tideline Swatch
        terms: UK
        part swatch: flat
        start: ch 12
        row 1: miss 3 ch as tr, tr in each ch across = 10 sts
        row 2: ch 3 as tr, tr in each st across = 10 sts
    """
    text = "The chain that counts stands in the first stitch already, and this goes into it again."
    return told.say(text, "Go on in the next st, unless an increase is meant here.")
