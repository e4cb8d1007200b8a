"""One part: its rows one after another, and the lines that repeat them."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import floor

from loopwright.ir.items import Chain, Change, Group, Item, Mark, Move, Repeat, Turn, Work
from loopwright.ir.pattern import Line, Part, RepeatRows, Row, Seam, Stated, Stripes
from loopwright.trade.stitches import Stitch
from naive.counting import agrees, counts_of, edge_made
from naive.edges import Beginning, DonePart, Room, beginning, names_ring
from naive.hands import Hands
from naive.making import finish, work_items
from naive.numbers import how_many
from naive.results import Counts, NaiveFault, NaiveLine, NaivePart, NaiveRow
from naive.seams import sew
from naive.things import FaultError, Spot, Thing, together

TOO_MANY = 400  # rows without an end: the count that is waited for never comes


@dataclass
class Entry:
    """A row that can be repeated: what it says, and what its number is called for braces."""

    line: int
    row: Row
    names: dict[str, int]


# How high a row of each stitch is against a row of plain ones: table G of the trade's tables
# (picotedge, ambassador); the last two go on in the same steps.
HIGH = {
    "plain": Fraction(1),
    "half": Fraction(3, 2),
    "long": Fraction(2),
    "double long": Fraction(3),
    "triple long": Fraction(4),
    "quadruple long": Fraction(5),
}


class PartWork:
    """A part in the making."""

    def __init__(
        self, part: Part, room: Room, gauge_rows: Fraction | None, gauge_stitch: str
    ) -> None:
        self.gauge_stitch = gauge_stitch
        self.part = part
        self.room = room
        self.gauge_rows = gauge_rows
        self.out = NaivePart(part.name)
        self.begin = Beginning([])
        self.edge: list[Thing] = []
        self.below: Hands | None = None
        self.below_is_row = False
        self.row_ends = 0
        self.start_worked: list[Thing] = []
        self.unworked: list[tuple[bool, list[Thing]]] = []
        self.backwards = False
        self.markers: dict[str, Thing] = {}
        self.by_number: dict[int, Entry] = {}
        self.history: list[Entry] = []
        self.next_number = 1
        self.waiting: list[tuple[int, int, Row, int]] = []
        self.label = ""
        self.yarn = together(part.yarns)
        self.joined_in = ""

    def work(self) -> NaivePart:
        """Work the part as far as it goes."""
        try:
            self.begin = beginning(self.part.start, self.room)
            self.edge = self.begin.edge
            self.below_is_row = self.begin.of_row
            self.row_ends = int(self.part.start.what == "foundation")
            for index, line in enumerate(self.part.lines):
                self._one_line(index, line)
            self._in_turn()
        except FaultError as fault:
            self.out.fault = NaiveFault(fault.kind, self.label)
        self.out.row_count = len(self.out.rows)
        return self.out

    def done(self) -> DonePart:
        """The edges it offers to other parts."""
        left = [thing for _, things in self.unworked for thing in things]
        return DonePart(self.edge, self.row_ends, self.start_worked, left)

    # ---------------------------------------------------------------- lines

    def _one_line(self, index: int, line: Line) -> None:
        if isinstance(line, Row):
            if line.sizes is None or self.room.size in line.sizes:
                self._row_line(index, line)
        elif isinstance(line, RepeatRows):
            self._in_turn()
            self._repeat_line(index, line)
        elif isinstance(line, Seam):
            self._in_turn()
            self.label = ""
            sew(line, self.part.name, self.done(), self.room)

    def _row_line(self, index: int, row: Row) -> None:
        """The rows of a line, each in its turn: `rows 9 and 11` has row 10 in between."""
        numbers = [n for first, last in row.numbers for n in range(first, last + 1)]
        if row.as_row is not None and len(numbers) > 1:
            first, last = row.as_row
            if len(numbers) % (last - first + 1):
                self.label = row.label
                raise FaultError("unknown-row")
        if not numbers:
            self._in_turn()
            numbers = [0 if row.setup else self.next_number]
        self.waiting += [(number, index, row, k) for k, number in enumerate(numbers)]
        self.waiting.sort(key=lambda one: one[0])
        self._in_turn(numbers[0])
        while self.waiting and self.waiting[0][0] == self.next_number:
            self._in_turn(self.next_number)

    def _in_turn(self, up_to: int | None = None) -> None:
        """Work what is waiting, all of it or up to a row number."""
        while self.waiting and (up_to is None or self.waiting[0][0] <= up_to):
            number, index, row, k = self.waiting.pop(0)
            self._written(index, row, k, number)

    def _written(self, index: int, row: Row, k: int, number: int) -> None:
        """Work a row as it is written."""
        before = len(self.out.rows)
        self.label = self._called(row, number) if number else row.label
        entry = self._entry(index, row, k, number)
        hands = self._work_row(entry)
        self.history.append(entry)
        if number:
            self.by_number[number] = entry
            self.next_number = number + 1
        if row.stated is not None:
            self._stated(hands, row.stated, entry)
        self._line(index, before)

    def _called(self, row: Row, number: int) -> str:
        """What the designer calls a row: by its number."""
        return f"{'round' if row.is_round else 'row'} {number}"

    def _entry(self, index: int, row: Row, k: int, number: int) -> Entry:
        if row.as_row is not None:
            first, last = row.as_row
            return self._numbered(first + k % (last - first + 1))
        return Entry(index, row, {row.variable: number} if row.variable else {})

    def _repeat_line(self, index: int, line: RepeatRows) -> None:
        self.label = line.label
        entries = self._repeated(line)
        groups = self._comes_out(line, len(entries))
        before = len(self.out.rows)
        hands = self.below
        for k in range(TOO_MANY):
            if self._enough(line, k, len(entries), groups):
                break
            entry = entries[k % len(entries)]
            self.label = self._called(entry.row, self.next_number)
            hands = self._work_row(entry)
            self.history.append(entry)
            self.by_number[self.next_number] = entry
            self.next_number += 1
        else:
            self.label = line.label
            del self.out.rows[before:]
            raise FaultError("repeat-does-not-fit")
        if len(self.out.rows) == before:
            self.label = line.label
        if line.stated is not None and hands is not None:
            self._stated(hands, line.stated, None)
        self._line(index, before)

    def _repeated(self, line: RepeatRows) -> list[Entry]:
        if line.count:
            return self.history[-line.count :]
        return [self._numbered(n) for n in range(line.first, line.last + 1)]

    def _numbered(self, number: int) -> Entry:
        if number not in self.by_number:
            raise FaultError("unknown-row")
        return self.by_number[number]

    def _comes_out(self, line: RepeatRows, each: int) -> int:
        """A number of rows to reach must be ahead, and whole repeats must come to it; a length
        is reached by the nearest number of whole repeats, which this gives."""
        so_far = self._rows_so_far()
        if line.how == "rows" and line.n is not None:
            more = how_many(line.n, self.room.size, self.room.names) - so_far
            if more < 0 or more % each:
                raise FaultError("repeat-does-not-fit")
        if line.how != "length":
            return 0
        if self.gauge_rows is None:
            return 1  # how many cannot be told; once shows whether they come out
        risen = sum((self._high(row.counts) for row in self.out.rows), Fraction(0))
        if self.part.start.what == "foundation":
            assert self.part.start.stitch is not None
            risen += self._high({self.part.start.stitch: 1})
        group = self.out.rows[-each:]
        if line.first:
            wanted = [entry.line for entry in self._repeated(line)]
            group = [next(r for r in self.out.rows[::-1] if r.line == one) for one in wanted]
        high = sum((self._high(row.counts) for row in group), Fraction(0))
        if not high:
            return 0
        rows = line.lengths[self.room.size] * self.gauge_rows - risen
        return max(0, floor(rows / high + Fraction(1, 2)))

    def _high(self, counts: Counts) -> Fraction:
        """A row's height in rows of the gauge: that of the stitch most of it is made of."""
        many: dict[str, int] = {}
        for kind, n in counts.items():
            if isinstance(kind, Stitch) and kind.basic != "slip":
                many[kind.basic] = many.get(kind.basic, 0) + n
        if not many:
            return Fraction(int(self.gauge_stitch in ("", "slip")))
        most = max(many, key=lambda one: (many[one], HIGH[one]))
        if self.gauge_stitch in ("", "slip", most):
            return Fraction(1)
        return HIGH[most] / HIGH[self.gauge_stitch]

    def _enough(self, line: RepeatRows, worked: int, each: int, groups: int) -> bool:
        """Whether a repeat line has been worked as often as it says."""
        if line.how == "length":
            return worked >= groups * each
        assert line.n is not None
        n = how_many(line.n, self.room.size, self.room.names)
        if line.how == "more":
            return worked >= n * each
        if line.how == "rows":
            return self._rows_so_far() >= n
        return bool(self.out.rows) and self.out.rows[-1].counts["sts"] == n

    def _rows_so_far(self) -> int:
        """The rows of the part; foundation stitches are its first."""
        return len(self.out.rows) + int(self.part.start.what == "foundation")

    def _stated(self, hands: Hands, stated: Stated, entry: Entry | None) -> None:
        if entry is not None:
            hands.names = {**self.room.names, **entry.names}
        if not agrees(hands, stated):
            raise FaultError("count-differs")

    def _line(self, index: int, before: int) -> None:
        rows = self.out.rows
        counts: Counts = rows[-1].counts if rows else {}
        for line in self.out.lines:
            if line.line == index:
                line.counts = counts
                line.worked += len(rows) - before
                return
        self.out.lines.append(NaiveLine(index, counts, len(rows) - before))

    # ---------------------------------------------------------------- one row

    def _work_row(self, entry: Entry) -> Hands:
        row = entry.row
        hands = self._take_up(entry)
        work_items(hands, row.items)
        finish(hands)
        if row.is_round and self.part.manner in ("rounds", "turned") and not hands.joined:
            raise FaultError("not-closed")
        self._still_a_spiral(hands, row)
        self._put_down(hands, row)
        places = [thing.places for thing in hands.made if thing.what == "st"]
        yarns = [thing.yarn for thing in hands.made if thing.what == "st"]
        self.out.rows.append(NaiveRow(entry.line, self.label, counts_of(hands), places, yarns))
        return hands

    def _written_at(self, row: Row) -> int:
        """The number from which a row names other rows."""
        return row.numbers[0][0] if row.numbers and not row.variable else self.next_number

    def _yarn(self) -> str:
        """What a row begins with: the yarn of its stripe, or what the last row ended with."""
        bands = [
            band for line in self.part.lines if isinstance(line, Stripes) for band in line.bands
        ]
        rows = [
            together(yarns)
            for n, yarns in bands
            for _ in range(how_many(n, self.room.size, self.room.names))
        ]
        if rows:
            return rows[self._rows_so_far() % len(rows)]
        return self.yarn if self.below is None else self.below.yarn

    def _take_up(self, entry: Entry) -> Hands:
        """Lay the edge below before the hands, the way this row meets it."""
        row = entry.row
        first = self.below is None
        ring = first and self.begin.ring
        edge = self._met(row)
        if ring and names_ring(row.items, self.room.owns):
            edge = []
        hands = Hands(
            edge,
            row.is_round,
            spiral=self.part.manner == "spiral",
            ring=ring,
            from_hook=first and self.begin.from_hook,
            yarn=self._yarn(),
            size=self.room.size,
            names={**self.room.names, **entry.names},
            owns=self.room.owns,
            rows_below=self._rows_so_far(),
            written_at=self._written_at(row),
            unworked=self._still_left(),
            markers=self.markers,
            openings=self.room.openings,
        )
        if self.below is not None and self.below.joined_space is not None:
            hands.edge = [self.below.joined_space, *hands.edge[:-1]]
            hands.moved, hands.last = True, Spot("sp", 0)
        return hands

    def _still_left(self) -> list[Thing]:
        """What was left in words, as it lies ahead: at the end of this row what rows of the same
        direction left, the newest nearest; then, from the far side in, the others."""
        near = [
            one for way, things in self.unworked[::-1] if way == self.backwards for one in things
        ]
        far = [
            one for way, things in self.unworked if way != self.backwards for one in things[::-1]
        ]
        return near + far

    def _still_a_spiral(self, hands: Hands, row: Row) -> None:
        """A spiral may end in joined rounds; it cannot go on after one."""
        if self.part.manner != "spiral" or not row.is_round:
            return
        if self.joined_in and not hands.joined:
            self.label = self.joined_in
            raise FaultError("joined-spiral")
        self.joined_in = self.label if hands.joined else ""

    def _met(self, row: Row) -> list[Thing]:
        both = self.part.manner == "turned" and row.is_round and self.below is not None
        turned = both or (self.below_is_row and (self.below is not None or not row.is_round))
        for said in (self.below.turn_last if self.below else None, first_turn(row.items)):
            turned = turned if said is None else said
        if has_crab(row.items):
            turned = row.is_round != turned or not row.is_round
        self.backwards ^= turned
        if not turned:
            return list(self.edge)
        if row.is_round and self.below is not None and self.below.joined:
            return [*self.edge[:1], *reversed(self.edge[1:])]
        return list(reversed(self.edge))

    def _put_down(self, hands: Hands, row: Row) -> None:
        """What the row leaves becomes the edge of the next."""
        if self.below is None:
            self._keep_start(hands)
        made = edge_made(hands.made)
        if hands.ran_on:
            reached = {id(thing) for thing in hands.edge[hands.begin : hands.frontier + 1]}
            made = [thing for thing in made if id(thing) not in reached]
        if self.part.manner == "spiral" and row.is_round and not hands.joined:
            made = hands.left + made
        else:
            waits = {id(thing) for thing in hands.unworked}
            self.unworked = [
                (way, [thing for thing in things if id(thing) in waits])
                for way, things in self.unworked
            ]
            self.unworked.append((self.backwards, hands.left))
        self.edge = made
        self.below = hands
        self.below_is_row = not row.is_round
        self.row_ends += not row.is_round

    def _keep_start(self, hands: Hands) -> None:
        start = self.begin.edge
        if self.part.start.what != "chain":
            self.start_worked = list(start)
            return
        lead = hands.made[0] if hands.made and hands.made[0].turning else None
        gone = lead.written if lead else 0
        if not lead:
            gone = len([one for one in hands.status[: len(start)] if one == "free"])
        self.start_worked = [Thing("ch") for _ in range(len(start) - gone + bool(lead))]


def has_crab(items: tuple[Item, ...]) -> bool:
    """Whether a row is worked backwards, and so comes to the edge from its other end."""
    for item in items:
        if isinstance(item, Work) and item.stitch.crab:
            return True
        if isinstance(item, (Repeat, Group)) and has_crab(item.items):
            return True
    return False


def first_turn(items: tuple[Item, ...]) -> bool | None:
    """A `turn` or `do not turn` before anything is worked."""
    for item in items:
        if isinstance(item, Turn):
            return item.turned
        if not isinstance(item, (Change, Mark, Move)) and (
            not isinstance(item, Chain) or item.counts_as is not None
        ):
            return None
    return None
