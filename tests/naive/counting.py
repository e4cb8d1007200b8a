"""Counting a finished row, and holding it against what the designer says it comes to."""

from __future__ import annotations

from loopwright.ir.pattern import Stated, StatedCount
from naive.hands import Hands
from naive.results import Counts
from naive.things import Thing, named


def stitches(made: list[Thing]) -> list[Thing]:
    """The stitches that are on the edge: slip stitches only in a row of nothing else."""
    found = [thing for thing in made if thing.what == "st"]
    plain = [thing for thing in found if thing.stitch and thing.stitch.basic != "slip"]
    return plain or found


def edge_made(made: list[Thing]) -> list[Thing]:
    """What a row leaves for the next one, in order."""
    there = stitches(made)
    return [thing for thing in made if thing.what == "sp" or thing in there]


def counts_of(hands: Hands) -> Counts:
    """Everything there is to count in a row."""
    out: Counts = {"sts": 0, "ch": 0}
    for thing in stitches(hands.made):
        stitch = named(thing)
        assert stitch is not None
        out["sts"] += 1
        out[stitch] = out.get(stitch, 0) + 1
    for thing in hands.made:
        if thing.what == "sp":
            out["ch"] += thing.chains
            for key in (("sp", thing.chains), ("sp", 0)):
                out[key] = out.get(key, 0) + 1
        elif thing.what == "picot":
            out["picot"] = out.get("picot", 0) + 1
    out.update(hands.own_made)
    return out


def agrees(hands: Hands, stated: Stated) -> bool:
    """Whether a row comes to all that is stated for it in this size."""
    owns = {count.kind.own for count in stated.counts if count.kind.what == "own"}
    for count in stated.counts:
        if count.sizes is not None and hands.size not in count.sizes:
            continue
        if hands.number(count.n) != found(hands, count, stated.counting, owns):
            return False
    return True


def found(hands: Hands, count: StatedCount, counting: str, owns: set[str]) -> int:
    """How many the row has of what one stated count names."""
    kind = count.kind
    there = stitches(hands.made)
    spaces = [thing for thing in hands.made if thing.what == "sp"]
    if counting == "no turning":
        there = [thing for thing in there if not thing.counted]
    if kind.what == "st":
        return len(there) + (sum(t.chains for t in spaces) if counting == "ch" else 0)
    if kind.what == "ch":
        return sum(thing.chains for thing in spaces)
    if kind.what == "sp":
        return sum(kind.chains in (0, thing.chains) for thing in spaces)
    if kind.what == "own":
        return hands.own_made.get(kind.own, 0)
    outside = [thing for thing in there if thing.own not in owns]
    if kind.what == "many":
        if kind.own == "picot":
            return sum(thing.what == "picot" for thing in hands.made)
        return sum(t.stitch is not None and t.stitch.many == kind.own for t in outside)
    return sum(named(thing) == kind.stitch for thing in outside)
