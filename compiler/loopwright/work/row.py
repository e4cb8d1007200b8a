"""One row: meet the edge, work the items, see what is left over, hold it against what is stated."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from fractions import Fraction

from loopwright.frozen import NamedTuple
from loopwright.ir import items as ir
from loopwright.ir.fabric import Fact, Place, WorkedRow
from loopwright.ir.items import ANY_STITCH, Item, Kind
from loopwright.ir.numbers import CannotReckon, whole
from loopwright.ir.pattern import OwnStitch, Row, Stated
from loopwright.ir.runs import Builder, Runs
from loopwright.source import Span
from loopwright.work import known
from loopwright.work.doing import Doing
from loopwright.work.effort import Effort, TooLong
from loopwright.work.hand import Hand
from loopwright.work.places import Stuck, is_space, takes_stitch, what_places
from loopwright.work.placing import hook_chain
from loopwright.work.project import count_of, edge_and_counts, not_counting_turning
from loopwright.work.repeating import Cut, Endless
from loopwright.work.settling import settled
from loopwright.work.spots import LEAST_ENTERED, wanted_place


class Ref(NamedTuple):
    """A row as written (the index of its line), under the number that its braces see."""

    line: int
    number: int


def written_at(row: Row, ref: Ref) -> int:
    """The number that a row was written for: what it says of other rows' numbers is said from
    there, and goes on with it."""
    return row.numbers[0][0] if row.numbers and not row.variable else ref.number


class Meeting(NamedTuple):
    """How a row meets its edge. ``names`` are the counts in this size and the row's number under
    its name; ``marks`` where the row below left markers, on the edge as met."""

    below: Runs[Place]
    ring: bool
    turned: bool
    wrong_side: bool
    yarn: str
    size: int
    names: Mapping[str, Fraction | int]
    marks: Mapping[str, int]
    label: str
    number: int
    line: int
    in_join: bool
    effort: Effort
    unworked: Runs[Place]
    deeper: Callable[[int, int], Runs[Place] | None]
    passed_in: Callable[[int, int], Runs[Place] | None]


class Outcome(NamedTuple):
    """A row as worked, its facts (the first of each kind of slip only), and what the hand left:
    ``stated`` are the stated counts with values, ``marks`` positions on the edge it leaves."""

    row: WorkedRow
    facts: tuple[Fact, ...]
    stated: tuple[tuple[Kind, int], ...] | None
    joined: bool
    turn: bool | None
    marks: Mapping[str, int]
    hand: Hand
    begun_in: str


def work_row(row: Row, meeting: Meeting, owns: dict[str, OwnStitch], manner: str) -> Outcome:
    """Work a row once, or take over what is known of it."""
    effort = meeting.effort
    reading = known.reading_of(row, effort)
    key = known.key_of(reading, meeting, owns, manner)
    hand = known.recall(key, reading, meeting) if key is not None else None
    if hand is None:
        before = effort.left
        hand = _worked(row, meeting, owns, manner)
        hand.let_go()
        _leave(hand)
        if key is not None:
            known.keep(key, reading, hand, before - effort.left)
    return _outcome(row, meeting, hand, manner)


def _worked(row: Row, meeting: Meeting, owns: dict[str, OwnStitch], manner: str) -> Hand:
    is_round = row.is_round and manner != "flat"
    hand = Hand(
        meeting.below,
        ring=meeting.ring,
        is_round=is_round,
        yarn=meeting.yarn,
        size=meeting.size,
        names=meeting.names,
        effort=meeting.effort,
    )
    hand.met_marks = meeting.marks
    hand.spiral = is_round and manner == "spiral"
    hand.unworked = meeting.unworked
    hand.turned_edge = meeting.turned
    hand.deeper = meeting.deeper
    hand.passed_in = meeting.passed_in
    if meeting.in_join:
        hand.same = 0
        hand.at_moved = True
    hand.uses_ring = uses_ring(row.items)
    try:
        _moved(hand, row, owns)
    except (CannotReckon, Stuck, Cut, Endless, TooLong) as stop:
        _stopped(hand, row, stop)
        stop.__traceback__ = stop.__context__ = None  # see Cut.let_go
    else:
        if not hand.faults:
            _left_over(hand, row)
    if manner in ("rounds", "turned") and is_round and not hand.joined and not hand.faults:
        hand.fault("not-closed", _end_of(row))
    return hand


def _end_of(row: Row) -> Span:
    last = row.items[-1].span if row.items else row.span
    return last


def before_work(items: tuple[Item, ...]) -> int:
    """How many items stand in a row before anything is worked: a turning chain, a turn, a change
    of yarn and the like."""
    for n, item in enumerate(items):
        turning = isinstance(item, ir.Chain) and item.counts_as is None
        if not turning and not isinstance(item, ir.Turn | ir.Change | ir.Mark | ir.Move):
            return n
    return len(items)


def _moved(hand: Hand, row: Row, owns: dict[str, OwnStitch]) -> None:
    """Work the items; a `move to` at the start first finds the new first place."""
    doing = Doing(hand, owns)
    begun = before_work(row.items)
    for index, item in enumerate(row.items):
        if isinstance(item, ir.Turn) and index < begun:
            continue  # it tells how this row meets its edge, and nothing of the next
        if isinstance(item, ir.Move) and not hand.started:
            move(hand, item)
            continue
        following = row.items[index + 1] if index + 1 < len(row.items) else None
        doing.item(item, following)


def move(hand: Hand, item: ir.Move) -> None:
    """Slip stitch along to a new first place: what is passed comes last."""
    kind = item.target.kind
    span = item.span
    hand.saw(hand.edge.length)
    if item.target.how == "nth" and kind.what != "sp":
        done = hand.edge.before(hand.pos, takes_stitch)
        position = hand.edge.nth(done + item.target.nth - 1, takes_stitch)
    elif item.target.how == "marked":
        position = hand.met_marks.get(item.target.name, -1)
    else:
        wanted = hand.space_wanted(kind.chains) if kind.what == "sp" else wanted_place(kind)
        done = hand.edge.before(hand.pos, wanted)
        position = hand.edge.nth(done + max(item.target.nth, 1) - 1, wanted)
    if position < 0:
        kind_of = "no-such-space" if kind.what == "sp" else "edge-ran-out"
        raise Stuck(kind_of, span, chains=kind.chains, none=True)
    edge = hand.edge
    if hand.is_round:
        out: Builder[Place] = Builder()
        out.extend(edge.slice(position, edge.length))
        out.extend(edge.slice(0, position))
        hand.edge = out.done()
        hand.optional = edge.length - position
    else:
        hand.edge = edge.slice(position, edge.length)
        hand.end = hand.optional = hand.ran_from = hand.edge.length
    hand.moved = position
    hand.same = 0
    hand.at_moved = True


def uses_ring(items: tuple[Item, ...]) -> bool:
    """Whether a row works into the ring itself."""
    for item in items:
        target = getattr(item, "target", None)
        if target is not None and target.how == "ring":
            return True
        inner = getattr(item, "items", None)
        if inner and uses_ring(inner):
            return True
    return False


def _stopped(hand: Hand, row: Row, stop: Exception) -> None:
    if isinstance(stop, Cut):
        stop = stop.stuck
    if isinstance(stop, Stuck):
        values = dict(stop.values)
        if stop.kind == "edge-ran-out":
            values.setdefault("have", hand.edge.before(hand.optional, takes_stitch))
            values.setdefault("places", what_places(hand.edge))
            values.setdefault("passed", _passed(hand))
        if stop.kind == "no-such-space":
            values.setdefault("under", _under_opening(hand, values.get("chains")))
        hand.fault(stop.kind, stop.span, **values)
    elif isinstance(stop, CannotReckon):
        span = hand.spans[hand.item] if hand.spans else row.span
        hand.fault(stop.code, span, value=stop.value)
    else:
        hand.fault("not-in-this-edition", row.span, what="too long")


def _passed(hand: Hand) -> tuple[tuple[int, int], ...]:
    """The spaces of the row below, as (chains, how many), where the row works into none of them."""
    made = hand.out.done().tally()
    if hand.beside or any(one.into == "sp" for one in made):
        return ()
    found: dict[int, int] = {}
    for place, times in hand.edge.tally().items():
        if is_space(place):
            found[place.chains] = found.get(place.chains, 0) + times
    return tuple(sorted(found.items()))


def _under_opening(hand: Hand, chains: object) -> tuple[str, int, int] | None:
    """The last opening of the row that passed over a space of so many chains: its name, after how
    many stitches it did, and over how many it goes."""
    for one in reversed(hand.openings):
        at = one.under.find(0, lambda place: is_space(place) and chains in (0, place.chains))
        if at >= 0:
            over = one.under.before(one.under.length, takes_stitch)
            return one.name, one.under.before(at, takes_stitch), over
    return None


ROUND_AN_END = 3
"""Stitches in the first chain with which an oval has gone round its end there, so that nothing need
be worked into the other side of that chain (common practice without a source)."""


def _left_over(hand: Hand, row: Row) -> None:
    if hand.in_ring and hand.edge.length and hand.edge.run_at(0)[0].what == "ch":
        return
    stitches = hand.left_of(takes_stitch)
    spaces = hand.left_of(is_space)
    if hand.beside or (hand.in_first >= ROUND_AN_END and stitches == 1):
        stitches = 0
    elif hand.is_round and not stitches:
        spaces = 0
    if stitches or spaces:
        have = hand.edge.before(hand.edge.length, takes_stitch)
        hand.fault(
            "places-left-over",
            _end_of(row),
            left=stitches,
            spaces=spaces,
            have=have,
            hooked=hand.hooked,
            places=what_places(hand.edge),
            in_first=hand.in_first,
        )


def _leave(hand: Hand) -> None:
    """What the row made, the edge that it leaves, and what it comes to."""
    if hand.is_round and hand.hooked >= LEAST_ENTERED:
        # In a round the skipped chains lie between its last stitch and its first.
        hand.push(hook_chain(hand))
    hand.made = hand.out.done()
    edge, hand.counts = edge_and_counts(hand.made)
    hand.leaves = settled(edge)


def _outcome(row: Row, meeting: Meeting, hand: Hand, manner: str) -> Outcome:
    counts = hand.counts
    stated, differs = hold_against(row.stated, counts, hand)
    if differs:
        if hand.faults:
            first = hand.faults[0]
            hand.faults[0] = first._replace(values=(*first.values, ("differs", differs)))
        else:
            _differ(hand, row, differs)
    worked = WorkedRow(
        meeting.line,
        meeting.label,
        meeting.number,
        row.is_round,
        hand.made,
        hand.edge,
        hand.leaves,
        counts,
        meeting.turned,
        meeting.wrong_side,
        hand.moved,
        hand.in_ring,
        tuple(hand.spans),
        tuple((span, n) for span, n in hand.repeats.items() if n is not None),
        tuple(hand.spreads.items()),
        hand.last_twice,
        () if manner == "spiral" and not hand.joined else tuple(hand.left),
    )
    slips = hand.faults[:1]
    if hand.twice is not None and any(made - said == 1 for _, said, made in differs):
        slips.append(Fact("first-place-twice", hand.twice, "", "", ()))
    facts = tuple(fact._replace(row=meeting.label) for fact in slips)
    turn = hand.turned if hand.turned or hand.no_turn else None
    return Outcome(worked, facts, stated, hand.joined, turn, hand.marks, hand, meeting.yarn)


def _differ(hand: Hand, row: Row, differs: tuple[tuple[Kind, int, int], ...]) -> None:
    """Note that a row comes to another count than it says, and what else it could have counted."""
    assert row.stated is not None
    chains = 0
    if not row.stated.counting:
        chains = count_of(hand.counts, Kind("ch"), hand.made, frozenset())
    hand.fault(
        "count-differs",
        row.stated.span,
        differs=differs,
        chains=chains,
        sts=count_of(hand.counts, ANY_STITCH, hand.made, frozenset()),
        passed=_passed(hand),
    )


def hold_against(
    stated: Stated | None, counts: tuple[tuple[Kind, int], ...], hand: Hand
) -> tuple[tuple[tuple[Kind, int], ...] | None, tuple[tuple[Kind, int, int], ...]]:
    """The stated counts with values in this size, and those that differ: (kind, stated, made)."""
    if stated is None:
        return None, ()
    values: list[tuple[Kind, int]] = []
    differs: list[tuple[Kind, int, int]] = []
    made = hand.made
    without = frozenset(one.kind.own for one in stated.counts if one.kind.what == "own")
    for one in stated.counts:
        if one.sizes is not None and hand.size not in one.sizes:
            continue
        try:
            n = whole(one.n, hand.size, hand.names)
        except CannotReckon as error:
            hand.fault(error.code, one.span, value=error.value)
            continue
        found = count_of(counts, one.kind, made, without)
        if one.kind.what == "st" and stated.counting == "ch":
            found += count_of(counts, Kind("ch"), made, without)
        if stated.counting == "no turning":
            found -= not_counting_turning(made, one.kind)
        values.append((one.kind, n))
        if found != n:
            differs.append((one.kind, n, found))
    return tuple(values), tuple(differs)
