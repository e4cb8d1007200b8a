"""The hand: one row's place in the work, and how it finds the next place to go into.

The hand moves along the edge that the row meets, a ``Runs`` of places, and writes down what it
makes. It never looks at a place one by one where a whole run will do. What it has read of the
edge is kept as a high and a low mark (``high``, ``low``), from which ``repeating`` knows how far
a cycle may be carried on unseen.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from fractions import Fraction
from typing import Any

from loopwright.ir.fabric import Fact, Made, OpeningMade, Place
from loopwright.ir.items import Kind
from loopwright.ir.numbers import Number, whole
from loopwright.ir.runs import Builder, Runs
from loopwright.source import Span
from loopwright.trade.stitches import Stitch
from loopwright.work.effort import Effort
from loopwright.work.places import OFF_EDGE, PLACES, Stuck, is_space, kind_matches, takes_stitch

MOST_SKIPPED = 64
"""How many places of one skip can be gone back to."""

RING = -2


def _nothing_below(below: int, of_row: int) -> Runs[Place] | None:
    return None


class Hand:
    """The state of working one row."""

    def __init__(
        self,
        below: Runs[Place],
        *,
        ring: bool,
        is_round: bool,
        yarn: str,
        size: int,
        names: Mapping[str, Fraction | int],
        effort: Effort,
    ) -> None:
        self.edge = below
        self.end = below.length
        self.ring = ring
        self.is_round = is_round
        self.size = size
        self.names = names
        # where the hand is
        self.pos = 0
        self.sub = 0
        self.last = -1
        self.same = -1
        self.beside = False
        self.skipped: tuple[int, ...] = ()
        self.gone_back: tuple[int, ...] = ()
        self.own_chain = 0
        self.gap = -1
        self.skip_end = -1
        self.yarn = yarn
        self.override: tuple[str, int, int] | None = None
        self.depth = 0
        self.brackets = 0
        self.uses_ring = False
        self.at_moved = False
        self.own = ""
        self.lead = False
        self.begins: tuple[str, ...] = ()
        # what it has made
        self.out: Builder[Made] = Builder()
        self.places = 0
        self.started = False
        self.begun: tuple[tuple[int, int], tuple[str, int, int]] | None = None
        # what it has read
        self.high = -1
        self.low = below.length
        # the row as a whole
        self.moved = 0
        self.turned_edge = False
        self.in_first = 0
        self.counted_at = -1
        self.twice: Span | None = None
        self.last_twice: Span | None = None
        self.named_last = -1
        self.optional = below.length
        self.in_ring = False
        self.joined = False
        self.turned = False
        self.no_turn = False
        self.ran_on = 0
        self.ran_from = below.length
        self.spiral = False
        self.left: list[tuple[int, int]] = []
        self.hooked = 0
        self.item = 0
        self.spans: list[Span] = []
        self.repeats: dict[Span, int | None] = {}
        self.spreads: dict[Span, Runs[int]] = {}
        self.openings: list[OpeningMade] = []
        self.marks: dict[str, int] = {}
        self.met_marks: Mapping[str, int] = {}
        self.faults: list[Fact] = []
        self.has_space: dict[int, bool] = {}
        self.first_chain = 0
        self.deeper: Callable[[int, int], Runs[Place] | None] = _nothing_below
        self.deep: dict[tuple[int, int], int] = {}
        self.passed_in: Callable[[int, int], Runs[Place] | None] = _nothing_below
        self.elsewhere = False
        self.unworked: Runs[Place] = Runs(())
        self.taken_up = 0
        self.effort = effort
        # what it comes to, when it is done
        self.made: Runs[Made] = Runs(())
        self.leaves: Runs[Place] = Runs(())
        self.counts: tuple[tuple[Kind, int], ...] = ()

    # ------------------------------------------------------------- state

    def state(self) -> tuple[object, ...]:
        """Everything that decides what happens next, relative to the place of the hand."""
        pos = self.pos
        return (
            self.sub,
            self.last - pos,
            self.same - pos if self.same >= 0 else self.same,
            self.beside,
            tuple([one - pos for one in self.skipped]) if self.skipped else (),
            tuple([one - pos for one in self.gone_back]) if self.gone_back else (),
            self.own_chain,
            self.gap - pos if self.gap >= 0 else -1,
            self.yarn,
            self.started,
            self.lead,
            self.begins,
            len(self.left),
            len(self.openings),
            self.taken_up,
            tuple(self.deep.items()) if self.deep else (),
        )

    def save(self) -> tuple[Any, ...]:
        """A mark to go back to; what was made is kept apart by whoever saves."""
        return (
            self.pos,
            self.sub,
            self.last,
            self.same,
            self.beside,
            self.skipped,
            self.gone_back,
            self.own_chain,
            self.gap,
            self.yarn,
            self.places,
            self.started,
            self.begun,
            self.in_ring,
            len(self.left),
            len(self.openings),
            self.ran_on,
            self.taken_up,
            dict(self.deep) if self.deep else {},
        )

    def restore(self, saved: tuple[Any, ...]) -> None:
        """Go back to a mark."""
        (
            self.pos,
            self.sub,
            self.last,
            self.same,
            self.beside,
            self.skipped,
            self.gone_back,
            self.own_chain,
            self.gap,
            self.yarn,
            self.places,
            self.started,
            self.begun,
            self.in_ring,
            left,
            openings,
            self.ran_on,
            self.taken_up,
            self.deep,
        ) = saved
        del self.left[left:]
        del self.openings[openings:]

    def let_go(self) -> None:
        """Let go of the part: the row is worked, and looks at no other any more."""
        self.deeper = self.passed_in = _nothing_below

    def forget_pattern(self) -> None:
        """Let go of the pattern that the row was worked for."""
        self.names = self.met_marks = {}
        self.effort = Effort(0)

    def number(self, number: Number) -> int:
        """The value of a number in this size."""
        return whole(number, self.size, self.names)

    def fault(self, kind: str, span: Span, **values: object) -> None:
        """Note a fact and carry on."""
        self.faults.append(Fact(kind, span, "", "", tuple(values.items())))

    # ------------------------------------------------------------- looking

    def at(self, position: int) -> Place:
        """The place at a position, noting that it was read."""
        self.saw(position)
        return self.edge.run_at(position)[0]

    def saw(self, position: int) -> None:
        """Note that the edge was read at a position."""
        if position > self.high:
            self.high = position
        if position < self.low:
            self.low = position

    def find(self, start: int, wanted: Callable[[Place], bool]) -> int:
        """The first wanted place from a position on, or -1."""
        found = self.edge.find(start, wanted)
        self.saw(found if found >= 0 else self.edge.length)
        return found

    @property
    def near(self) -> int:
        """Where the edge begins that is worked into now: past its marker a spiral goes into its
        own first stitches."""
        return self.ran_from if self.ran_on else 0

    def here(self) -> int:
        """The first place not yet used: past a space whose chains are partly used."""
        return self.pos + 1 if self.sub else self.pos

    def left_of(self, wanted: Callable[[Place], bool]) -> int:
        """How many wanted places there are from the hand to the end of what is owed."""
        at = self.here()
        if at >= self.optional:
            return 0
        return self.edge.before(self.optional, wanted) - self.edge.before(at, wanted)

    # ------------------------------------------------------------- taking places

    def next_stitch(self, kind: Kind, span: Span) -> int:
        """Take the next stitch, which must be of the kind; its position."""
        found = self.find(self.here(), takes_stitch)
        if found < 0 or found >= self.end:
            raise Stuck("edge-ran-out", span)
        self.check_kind(kind, found, span)
        self.pos = found + 1
        self.sub = 0
        return found

    def check_kind(self, kind: Kind, position: int, span: Span) -> None:
        """Note a fault where the place is not of the kind that was named."""
        place = self.at(position)
        if kind_matches(kind, place):
            return
        self.fault("wrong-place", span, wanted=kind, found=place)

    def next_space(self, chains: int, span: Span) -> int:
        """Take the next space; stitches on the way to it are passed."""
        wanted = self.space_wanted(chains)
        found = self.find(self.here(), wanted)
        if found < 0 or found >= self.end:
            raise Stuck("no-such-space", span, chains=chains, none=self.none_at_all(chains))
        passed = self.find(self.here(), is_space)
        if 0 <= passed < found:
            self.fault("space-passed", span, wanted=chains, passed=self.at(passed).chains)
        self.pos = found + 1
        self.sub = 0
        return found

    def peek_space(self, chains: int) -> int:
        """The position of the next such space, or -1; nothing is taken."""
        found = self.find(self.here(), self.space_wanted(chains))
        return found if found < self.end else -1

    def space_wanted(self, chains: int) -> Callable[[Place], bool]:
        if not chains:
            return is_space
        real = self.has_space.get(chains)
        if real is None:
            edge = self.edge.slice(self.near, self.edge.length) if self.near else self.edge
            real = any(one.what == "sp" and one.chains == chains for one in edge.tally())
            self.has_space[chains] = real
        if real:
            return lambda place: place.what == "sp" and place.chains == chains
        # A chain that counts as a stitch can be entered as a space too.
        # So can the chains skipped from the hook at the start.
        return lambda place: place.what in ("st", "hook") and place.chains == chains

    def none_at_all(self, chains: int) -> bool:
        wanted = self.space_wanted(chains)
        return not any(wanted(place) for place in self.edge.tally())

    def next_chain(self, span: Span) -> tuple[int, int]:
        """Take the next chain: of the start, or of a space (then which of its chains)."""
        if self.sub:
            space = self.at(self.pos)
            if self.sub < space.chains:
                self.sub += 1
                return self._in_space(space)
        found = self.find(
            self.here(), lambda place: place.what in ("sp", "ch") or bool(place.chains)
        )
        if found < 0 or found >= self.end:
            raise Stuck("edge-ran-out", span, chain=True)
        if self.find(self.here(), takes_stitch) not in (-1, found) and found > self.here():
            passed = self.find(self.here(), takes_stitch)
            if passed < found:
                self.fault("wrong-place", span, wanted=Kind("ch"), found=self.at(passed))
        place = self.at(found)
        self.pos = found
        if place.what == "ch":
            self.pos, self.sub = found + 1, 0
            return found, 0
        self.sub = 1
        return self._in_space(place)

    def _in_space(self, space: Place) -> tuple[int, int]:
        position, chain = self.pos, self.sub
        if self.sub >= space.chains:
            self.pos, self.sub = self.pos + 1, 0
        return position, chain

    def beyond(self, count: int, span: Span) -> int:
        """Take ``count`` stitches in one go (a long skip); the position of the last."""
        done = self.edge.before(self.here(), takes_stitch)
        found = self.edge.nth(done + count - 1, takes_stitch)
        self.saw(found if found >= 0 else self.edge.length)
        if found < 0 or found >= self.end:
            raise Stuck("edge-ran-out", span)
        self.pos, self.sub = found + 1, 0
        return found

    # ------------------------------------------------------------- making

    def push(self, made: Made, times: int = 1) -> None:
        """Write down something made."""
        if self.own:
            lead = self.lead and made.what in ("st", "as")
            if lead or self.begins:
                first = made._replace(own=self.own, lead=lead, begins=self.begins)
                self.lead, self.begins = self.lead and not lead, ()
                self._put(first, 1)
                times -= 1
            made = made._replace(own=self.own)
        if times:
            self._put(made, times)

    def _put(self, made: Made, times: int) -> None:
        if made.what in PLACES:
            self.places += times
        self.started = True
        self.out.add(made, times)

    def along(
        self, stitch: Stitch, into: str, position: int, n: int, *, post: bool, loop: str
    ) -> None:
        """Make one stitch in each of ``n`` equal places from a position on."""
        first = Made(
            "st",
            stitch,
            into=into,
            step=position - self.last,
            post=post,
            loop=loop,
            yarn=self.yarn,
            item=self.item,
        )
        if first.step == 1:
            self.push(first, n)
        else:
            self.push(first)
            if n > 1:
                self.push(first._replace(step=1), n - 1)
        last = position + n - 1
        self.saw(last)
        self.pos, self.sub = last + 1, 0
        self.last = self.same = last
        self.beside = False

    def stitches(
        self,
        stitch: Stitch,
        into: str,
        position: int,
        n: int,
        *,
        chain: int = 0,
        post: bool = False,
        loop: str = "",
    ) -> None:
        """Make ``n`` stitches in one place."""
        if n < 1:
            return
        on_edge = into not in OFF_EDGE
        step = position - self.last if on_edge else 0
        first = Made(
            "st",
            stitch,
            into=into,
            step=step,
            chain=chain,
            post=post,
            loop=loop,
            yarn=self.yarn,
            item=self.item,
        )
        self.push(first)
        if n > 1:
            self.push(first._replace(step=0), n - 1)
        if on_edge:
            self.last = position
            self.same = position
        elif into == "ring":
            self.in_ring = True
            self.same = RING
