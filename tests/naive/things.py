"""The things on a hook-worked edge, each a real object with an identity of its own."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from loopwright.ir.items import Kind
from loopwright.trade.stitches import Stitch


class FaultError(Exception):
    """Something cannot be worked as written; ``kind`` is the notation's code for it."""

    def __init__(self, kind: str) -> None:
        super().__init__(kind)
        self.kind = kind


@dataclass(eq=False)
class Thing:
    """One thing: ``st`` a stitch, ``sp`` a space of ``chains`` chains, ``ch`` a single chain of a
    start, ``end`` a row end. ``counted`` is a chain (of ``chains``, ``written`` in all) that
    counts as a stitch. ``loose`` chains may run on into one longer space. ``places`` is where it
    went, as in ``NaiveRow``; ``base`` is the stitch that a loop was made from."""

    what: str
    stitch: Stitch | None = None
    chains: int = 0
    written: int = 0
    counted: bool = False
    loose: bool = False
    turning: bool = False
    own: str = ""
    lead: bool = False
    places: tuple[int, ...] | None = ()
    base: Thing | None = None
    yarn: str = ""


class Spot(NamedTuple):
    """Where a stitch can go. ``how`` is ``st``, ``sp``, ``gap`` (before the place ``at``),
    ``ring``, ``down`` (a chain made in this very row), ``far`` (a place that is not on this
    row's edge) or ``base`` (what the chain at ``at`` stands on). ``chain`` is the chain of a space,
    0 for the whole space."""

    how: str
    at: int = -1
    chain: int = 0


def is_stitch(thing: Thing) -> bool:
    """Whether an untyped stitch can take it: chains of a start and row ends are its like."""
    return thing.what in ("st", "ch", "end")


def has_post(thing: Thing) -> bool:
    """Whether a post stitch can go around it: a chain that counts has a post, a slip has none."""
    return thing.what == "st" and thing.stitch is not None and thing.stitch.has_post


def is_space(thing: Thing, chains: int) -> bool:
    """Whether it can be entered as a space of so many chains (0: of any)."""
    if thing.what == "sp":
        return chains in (0, thing.chains)
    return thing.counted and chains != 0 and chains in (thing.chains, thing.written)


def answers(thing: Thing, kind: Kind) -> bool:
    """Whether a thing is of the kind that was named."""
    if kind.what == "st":
        return is_stitch(thing)
    if kind.what == "ch":
        return thing.what == "ch"
    if kind.what == "sp":
        return is_space(thing, kind.chains)
    if kind.what == "row end":
        return thing.what == "end"
    if kind.what == "st and ch":
        return True
    if kind.what == "many":
        return thing.stitch is not None and thing.stitch.many == kind.own
    if kind.what == "own":
        return thing.what == "st" and thing.own == kind.own
    return thing.what == "st" and named(thing) == kind.stitch


def named(thing: Thing) -> Stitch | None:
    """What a stitch is called: one worked backwards goes by the same name."""
    return thing.stitch._replace(crab=False) if thing.stitch else None


def together(yarns: tuple[str, ...]) -> str:
    """Yarns held together, by one name."""
    return "+".join(yarns)
