"""Places: what kinds there are on an edge, and what can go into each."""

from __future__ import annotations

from loopwright.ir.fabric import Place
from loopwright.ir.items import Kind
from loopwright.ir.runs import Runs
from loopwright.source import Span


class Stuck(Exception):
    """The hand cannot go on: the kind of fact, the text, and the numbers of it.

    ``made`` tells whether the repeat that it stopped had made anything yet, ``worked`` whether
    it had made a stitch, ``skipped_to`` how far it had come by skipping alone (-1 otherwise).
    """

    made = False
    worked = False
    skipped_to = -1

    def __init__(self, kind: str, span: Span, **values: object) -> None:
        super().__init__(kind)
        self.kind = kind
        self.span = span
        self.values = values


SPACES = ("sp", "hook")


OFF_EDGE = frozenset(("ring", "own", "left", "deep", ""))
"""What is not a place on the edge that the row meets."""


PLACES = frozenset(("st", "as", "skip as", "ch", "open", "hook sp", "hook ch", "join sp"))
"""What leaves a place on the edge."""


def takes_stitch(place: Place) -> bool:
    """Whether an untyped stitch goes into this place (stitches, starting chains, row ends)."""
    return place.what not in SPACES


def is_space(place: Place) -> bool:
    """Whether this is a chain space."""
    return place.what == "sp"


def has_chains(place: Place) -> bool:
    """Whether a chain can be worked there: one of the start, or of a space."""
    return place.what in ("ch", "sp")


def kind_matches(kind: Kind, place: Place) -> bool:
    """Whether a place is of the kind that was named. A stitch not known after a fault is any."""
    if kind.what == "stitch":
        return place.what == "st" and (place.stitch is None or place.stitch == kind.stitch)
    if kind.what == "row end":
        return place.what == "end"
    if kind.what == "own":
        return place.what == "st" and (place.own == kind.own or place.stitch is None)
    if kind.what == "many":
        return place.what == "st" and (place.stitch is None or place.stitch.many == kind.own)
    return True


def what_places(edge: Runs[Place]) -> str:
    """What an edge is made of, for telling: starting chains, row ends, or stitches."""
    kinds = {place.what for place in edge.tally()}
    if kinds == {"ch"}:
        return "ch"
    return "end" if kinds == {"end"} else "st"
