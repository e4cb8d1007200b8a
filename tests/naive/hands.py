"""The maker's hands in the middle of a row: what is on the edge below, and how far they have got.

Every place below has a status of its own: "" (still owed), ``worked``, ``skipped``, ``passed``,
``left`` (out of the work) or ``free`` (may be worked, and need not be).
"""

from __future__ import annotations

import copy
from collections.abc import Mapping
from dataclasses import dataclass, field

from loopwright.ir.items import Kind
from loopwright.ir.numbers import Number
from loopwright.ir.pattern import OwnStitch
from loopwright.trade.stitches import Stitch
from naive.numbers import how_many
from naive.things import FaultError, Spot, Thing, answers, has_post, is_stitch


@dataclass
class Hands:
    """One row being worked. ``frontier`` is the furthest place reached, ``last`` the last used.
    After `run on` the edge goes on with the round's own first things, from ``begin`` on."""

    edge: list[Thing]
    is_round: bool
    spiral: bool = False
    ring: bool = False
    from_hook: bool = False
    yarn: str = ""
    size: int = 0
    names: Mapping[str, int] = field(default_factory=dict)
    owns: Mapping[str, OwnStitch] = field(default_factory=dict)
    rows_below: int = 0
    written_at: int = 0
    unworked: list[Thing] = field(default_factory=list)
    markers: dict[str, Thing] = field(default_factory=dict)
    openings: dict[str, tuple[list[Thing], int]] = field(default_factory=dict)

    status: list[str] = field(default_factory=list)
    made: list[Thing] = field(default_factory=list)
    own_made: dict[str, int] = field(default_factory=dict)
    frontier: int = -1
    begin: int = 0
    ran_on: bool = False
    last: Spot | None = None
    uses: int = 0
    fresh: bool = True
    depth: int = 0
    within: Spot | None = None
    moved: bool = False
    rounded: bool = False
    chain_made: int = 0
    down: int = 0
    skips: list[int] = field(default_factory=list)
    left: list[Thing] = field(default_factory=list)
    joined: bool = False
    joined_space: Thing | None = None
    turn_first: bool | None = None
    turn_last: bool | None = None

    def __post_init__(self) -> None:
        self.status = [""] * len(self.edge)

    def number(self, number: Number) -> int:
        """How many that is, in this size and row."""
        return how_many(number, self.size, self.names)

    def kept(self) -> Hands:
        """A copy to come back to."""
        out = copy.copy(self)
        for name, value in vars(self).items():
            if isinstance(value, (list, dict)):
                setattr(out, name, copy.copy(value))
        return out

    def back_to(self, kept: Hands) -> None:
        """Pull out all that was made since the copy."""
        vars(self).update(vars(kept))

    # ---------------------------------------------------------------- where the hands are

    def beside_space(self) -> bool:
        """Whether the last place used is a space or gap and nothing was skipped since."""
        if self.last is None or self.last.how not in ("sp", "gap"):
            return False
        at = self.last.at - 1 if self.last.how == "gap" else self.last.at
        return at == self.frontier

    def in_chains(self) -> bool:
        """Whether some chains of the space at hand are still ahead."""
        last = self.last
        return (
            last is not None
            and last.how == "sp"
            and 0 < last.chain < self.edge[last.at].chains
            and last.at == self.frontier
        )

    def ahead(self) -> list[int]:
        """The places beyond the frontier that were not left."""
        return [i for i in range(self.frontier + 1, len(self.edge)) if self.status[i] != "left"]

    def owed(self) -> list[int]:
        """The places beyond the frontier that are owed; past its marker a spiral owes none."""
        if self.ran_on:
            return []
        return [i for i in self.ahead() if self.status[i] == ""]

    def may_end(self) -> bool:
        """Whether every place that is still ahead may be passed by."""
        owed = [self.edge[i] for i in self.owed()]
        if self.beside_space():
            return all(is_stitch(thing) for thing in owed)
        return all(not is_stitch(thing) and self.is_round for thing in owed)

    # ---------------------------------------------------------------- using a place

    def take(self, spot: Spot, passing: bool) -> None:
        """Put the hook into a place; with ``passing``, the stitches on the way are passed."""
        self.uses += 1
        self.fresh = False
        self.chain_made = 0
        self.last = spot
        if spot.how in ("ring", "far", "down"):
            if spot.how == "down":
                self.down -= 1
            return
        self.down = 0
        for i in range(self.frontier + 1, min(spot.at, len(self.edge))):
            if self.status[i] != "":
                continue
            if not passing and is_stitch(self.edge[i]):
                raise FaultError("places-left-over")
            self.status[i] = "passed"
        if spot.how == "gap":
            self.frontier = max(self.frontier, spot.at - 1)
            return
        if self.status[spot.at] != "left":
            self.status[spot.at] = "worked"
        self.frontier = max(self.frontier, spot.at)

    def put(self, stitch: Stitch, spots: list[Spot], loop: str = "") -> Thing:
        """Make one stitch into the places the hook was put into."""
        posts = [stitch.post, *(one.post for one in stitch.unlike)]
        for k, spot in enumerate(spots):
            post = posts[min(k, len(posts) - 1)] if stitch.unlike else stitch.post
            self._check(spot, post, loop)
        deep = any(spot.how == "base" for spot in spots)
        places = None if deep else tuple(spot.at for spot in spots if spot.at >= 0)
        thing = Thing("st", stitch, places=places)
        self.add(thing)
        return thing

    def add(self, thing: Thing) -> None:
        """One more thing made, with the yarn at hand."""
        thing.yarn = self.yarn
        self.made.append(thing)

    def _check(self, spot: Spot, post: str, loop: str) -> None:
        if spot.how in ("far", "base"):
            return
        here = self.edge[spot.at] if spot.how == "st" else None
        if post and (here is None or here.stitch is None or not has_post(here)):
            raise FaultError("no-post-here")
        own_loops = (here is not None and here.what in ("st", "ch")) or (
            spot.chain > 0 or spot.how == "down"
        )
        if loop and (post or not own_loops):
            raise FaultError("no-loop-here")

    def make_chains(self, n: int) -> None:
        """Loose chains: they run on into the ones just made, and leave one space."""
        self.chain_made = n
        if not n:
            return
        if self.made and self.made[-1].loose:
            n += self.made.pop().chains
        before = self.made[-1] if self.made and self.made[-1].what == "st" else None
        at = max(self.frontier, 0)
        self.add(Thing("sp", chains=n, loose=True, places=(at,), base=before))

    def of_kind(self, kind: Kind) -> list[int]:
        """All places of a kind on the edge."""
        return [i for i in range(self.begin, len(self.edge)) if answers(self.edge[i], kind)]
