"""What a row leaves and what it comes to: from what was made to the edge and the count."""

from __future__ import annotations

from typing import cast

from loopwright.ir.fabric import Made, Place
from loopwright.ir.items import Kind
from loopwright.ir.runs import Builder, Runs
from loopwright.trade.stitches import SLIP, Stitch

STITCHES = ("st", "as", "skip as")
SPACES = ("ch", "open", "hook sp", "join sp")
MOST_EXPANDED = 100_000


def all_slip(made: Runs[Made]) -> bool:
    """Whether a row is of slip stitches; only then do they count and can be worked into."""
    stitches = [one.stitch for one in made.tally() if one.what in STITCHES]
    return bool(stitches) and all(one == SLIP for one in stitches)


def edge_of(made: Runs[Made]) -> Runs[Place]:
    """The places that a row leaves, in the order made."""
    slip = all_slip(made)
    return _project(_joined(made), slip, {})


def _project(made: Runs[Made], slip: bool, kept: dict[Runs[Made], Runs[Place]]) -> Runs[Place]:
    known = kept.get(made)
    if known is not None:
        return known
    out: Builder[Place] = Builder()
    for node, times in made.pairs:
        if type(node) is Runs:
            out.repeat(_project(node, slip, kept), times)
        else:
            place = place_of(cast("Made", node), slip)
            if place is not None:
                out.add(place, times)
    kept[made] = done = out.done()
    return done


def place_of(made: Made, slip: bool) -> Place | None:
    """The place that one thing made leaves, or None."""
    if made.what in STITCHES:
        stitch = made.stitch
        assert stitch is not None
        if stitch == SLIP and not slip:
            return None
        if stitch.crab:
            stitch = stitch._replace(crab=False)
        return Place("st", stitch, made.chains, made.yarn, made.own, made.lead)
    if made.what in SPACES:
        return Place("sp", None, made.chains, made.yarn)
    if made.what == "hook ch":
        return Place("hook", None, made.chains, made.yarn)
    return None


def _joined(made: Runs[Made]) -> Runs[Made]:
    """The same with chains that follow on chains put into one run (and one space)."""
    if not any(one.what == "ch" for one in made.tally()) or not _touches(made):
        return made
    if made.length > MOST_EXPANDED:
        return made
    out: list[Made] = []
    for one in made.expand():
        before = out[-1] if out else None
        if one.what == "ch" and before is not None and before.what == "ch":
            out[-1] = before._replace(chains=before.chains + one.chains)
        else:
            out.append(one)
    builder: Builder[Made] = Builder()
    for one in out:
        builder.add(one)
    return builder.done()


def _touches(made: Runs[Made]) -> bool:
    """Whether somewhere a chain follows straight on a chain."""
    for index, (node, times) in enumerate(made.pairs):
        if type(node) is Runs:
            if _touches(node) or (times > 1 and _chain_first(node) and _chain_last(node)):
                return True
        elif times > 1 and cast("Made", node).what == "ch":
            return True
        if index and _ends(made.pairs[index - 1][0]) and _begins(node):
            return True
    return False


def _begins(node: object) -> bool:
    return _chain_first(node) if type(node) is Runs else cast("Made", node).what == "ch"


def _ends(node: object) -> bool:
    return _chain_last(node) if type(node) is Runs else cast("Made", node).what == "ch"


def _chain_first(runs: Runs[Made]) -> bool:
    return _begins(runs.pairs[0][0])


def _chain_last(runs: Runs[Made]) -> bool:
    return _ends(runs.pairs[-1][0])


def counts_of(made: Runs[Made]) -> tuple[tuple[Kind, int], ...]:
    """What a row comes to: stitches in all, each kind, own stitches, chains, spaces.

    Rule 7 of the notation: slip stitches count only in a row of them; joins, turning chains that
    do not count, and loose chains are no stitches.
    """
    owns: dict[str, int] = {}
    for one, n in made.tally().items():
        for name in one.begins:
            owns[name] = owns.get(name, 0) + n
    made = _joined(made)
    slip = all_slip(made)
    total = 0
    kinds: dict[Stitch, int] = {}
    spaces: dict[int, int] = {}
    picots = 0
    for one, n in made.tally().items():
        if one.what in STITCHES:
            stitch = one.stitch
            assert stitch is not None
            if stitch == SLIP and not slip:
                continue
            stitch = stitch._replace(crab=False) if stitch.crab else stitch
            total += n
            kinds[stitch] = kinds.get(stitch, 0) + n
        elif one.what in SPACES:
            spaces[one.chains] = spaces.get(one.chains, 0) + n
        elif one.what == "picot":
            picots += n
    out: list[tuple[Kind, int]] = [(Kind("st"), total)]
    out.extend((Kind("stitch", stitch=stitch), n) for stitch, n in kinds.items())
    out.extend((Kind("own", own=name), n) for name, n in owns.items())
    chains = sum(length * n for length, n in spaces.items())
    if chains:
        out.append((Kind("ch"), chains))
        out.extend((Kind("sp", length), n) for length, n in sorted(spaces.items()))
        out.append((Kind("sp"), sum(spaces.values())))
    if picots:
        out.append((Kind("many", own="picot"), picots))
    return tuple(out)


def count_of(
    counts: tuple[tuple[Kind, int], ...], kind: Kind, made: Runs[Made], without: frozenset[str]
) -> int:
    """How many of a kind a row made; the insides of the own stitches ``without`` left out."""
    if kind.what == "many" and kind.own != "picot":
        return sum(
            n
            for one, n in counts
            if one.what == "stitch" and one.stitch is not None and one.stitch.many == kind.own
        )
    if kind.what == "st and ch":
        return sum(n for one, n in counts if one.what in ("st", "ch"))
    value = dict(counts).get(kind, 0)
    if kind.what == "stitch" and without:
        stitch = kind.stitch
        value -= sum(
            n
            for one, n in made.tally().items()
            if one.own in without and one.what in STITCHES and one.stitch == stitch
        )
    return value


def not_counting_turning(made: Runs[Made], kind: Kind) -> int:
    """How many of a kind are chains that count as a stitch."""
    return sum(
        n
        for one, n in made.tally().items()
        if one.what in ("as", "skip as") and kind in (Kind("st"), Kind("stitch", stitch=one.stitch))
    )
