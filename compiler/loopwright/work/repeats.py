"""Repeat lines: which rows they mean, how often, and carrying on what comes round again."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from loopwright.frozen import NamedTuple
from loopwright.ir.fabric import Fact, Place, WorkedRow
from loopwright.ir.items import Group, Item, Repeat, Target
from loopwright.ir.numbers import CannotReckon, whole
from loopwright.ir.pattern import RepeatRows, Row
from loopwright.ir.runs import Builder
from loopwright.source import Span
from loopwright.work.leaving import row_end
from loopwright.work.places import takes_stitch
from loopwright.work.rising import rise, until_length
from loopwright.work.row import Ref, written_at
from loopwright.work.slips import check_stated

if TYPE_CHECKING:
    from loopwright.work.part import PartWorker

FAR_ENOUGH = 20
"""Repeats, each further from the number that is wanted, after which it is not looked for."""

MOST_DIFFERENT = 1000
"""Rows of one line that each come out differently and are worked one by one."""


class Again(NamedTuple):
    """The repeat line that is being worked: where it stands, how it says how often, and how often
    its rows were worked again by now."""

    span: Span
    how: str
    done: int


def repeat_line(worker: PartWorker, index: int, line: RepeatRows) -> None:
    before = worker.count
    refs = named_rows(worker, index, line)
    if refs and not worker.unknown:
        times = how_often(worker, line, refs)
        worker.again = Again(line.span, line.how, 0)
        if line.how == "sts":
            until_sts(worker, index, line, refs)
        elif times:
            work_again(worker, refs, times, index)
        worker.again = None
    check_stated(worker, line)
    worker.line_done(index, line.label, worker.count - before)


def named_rows(worker: PartWorker, index: int, line: RepeatRows) -> list[Ref]:
    if line.count:
        if line.count > len(worker.history):
            values: tuple[tuple[str, object], ...] = (
                ("count", line.count),
                ("have", len(worker.history)),
            )
            worker.say(Fact("unknown-row", line.span, "", line.label, values))
            return []
        return list(worker.history)[-line.count :]
    out: list[Ref] = []
    for number in range(line.first, line.last + 1):
        if len(out) >= MOST_DIFFERENT:
            values = (("what", "many rows"), ("most", MOST_DIFFERENT))
            worker.say(Fact("not-in-this-edition", line.span, "", line.label, values))
            return []
        ref = worker.row_numbered(number, index)
        if ref is not None:
            out.append(ref)
        elif not numbered_in_other_sizes(worker, number, index):
            worker.say(Fact("unknown-row", line.span, "", line.label, (("number", number),)))
            return []
    return out


def numbered_in_other_sizes(worker: PartWorker, number: int, before: int) -> bool:
    return any(
        isinstance(line, Row) and any(low <= number <= high for low, high in line.numbers)
        for line in worker.part.lines[:before]
    )


def how_often(worker: PartWorker, line: RepeatRows, refs: list[Ref]) -> int:
    if line.how == "sts":
        return 0
    if line.how == "length":
        return until_length(worker, line, refs)
    try:
        if line.how == "more":
            assert line.n is not None
            return whole(line.n, worker.size, worker.names)
        if line.how == "rows":
            assert line.n is not None
            return until_rows(worker, line, whole(line.n, worker.size, worker.names), len(refs))
    except CannotReckon as error:
        worker.say(Fact(error.code, line.span, "", line.label, (("value", error.value),)))
    return 0


def until_rows(worker: PartWorker, line: RepeatRows, total: int, group: int) -> int:
    more = total - worker.count
    if more < 0 or more % group:
        values = (("until", total), ("have", worker.count), ("group", group))
        worker.say(Fact("repeat-does-not-fit", line.span, "", line.label, values))
    return max(more // group, 0)


def until_sts(worker: PartWorker, index: int, line: RepeatRows, refs: list[Ref]) -> None:
    assert line.n is not None
    try:
        target = whole(line.n, worker.size, worker.names)
    except CannotReckon as error:
        worker.say(Fact(error.code, line.span, "", line.label, (("value", error.value),)))
        return
    have = worker.edge.before(worker.edge.length, takes_stitch)
    seen = set()
    away = 0
    for done in range(MOST_DIFFERENT):
        if have == target:
            return
        if away >= FAR_ENOUGH:
            break
        key = (worker.edge, worker.phase())
        if key in seen:
            break
        seen.add(key)
        last = have
        group_again(worker, refs, index, done, stated=False)
        have = worker.edge.before(worker.edge.length, takes_stitch)
        if (last < target) != (have < target) and have != target:
            break
        away = away + 1 if abs(have - target) > abs(last - target) else 0
    values = (("until_sts", target), ("have", have))
    worker.say(Fact("repeat-does-not-fit", line.span, "", line.label, values))


def work_again(
    worker: PartWorker,
    refs: list[Ref],
    times: int,
    index: int,
    *,
    first_number: int | None = None,
    stated: bool = False,
) -> None:
    """Work a group of rows so many times; what comes round again is carried on in one go."""
    if first_number is not None:
        worker.number = first_number - 1
    group, deep = len(refs), _depth(worker, refs)
    seen: dict[tuple[object, ...], tuple[int, int]] = {}
    done = alone = 0
    while done < times:
        key = _met_before(worker, deep)
        # Until it is as high as its stitches reach down, what it meets there is another's work.
        before = seen.get(key) if done * group >= deep else None
        if before is not None:
            cycle = done - before[0]
            more = (times - done) // cycle
            if more:
                carry(worker, before[1], more, cycle * group)
                done += more * cycle
                seen.clear()
                continue
        elif alone >= MOST_DIFFERENT:
            too_many(worker, worker.part.lines[index].span)
            return
        if done * group >= deep:
            seen[key] = (done, len(worker.rows))
        worker.slipped = False
        begun = len(worker.rows)
        group_again(worker, refs, index, done, stated=stated)
        done, alone = done + 1, alone + 1
        if worker.slipped and done < times:
            # What did not come out once says nothing new by being repeated.
            carry(worker, begun, times - done, group)
            return


def group_again(
    worker: PartWorker, refs: list[Ref], index: int, done: int, *, stated: bool
) -> None:
    """Work a group of rows once more, after so many times."""
    worker.again = worker.again and worker.again._replace(done=done)
    for ref in refs:
        worker.once(ref, worker.number + 1, index, None, stated=stated)


def _met_before(worker: PartWorker, deep: int) -> tuple[object, ...]:
    """All that the next row depends on: where it is the same, the same rows follow. Where stitches
    reach ``deep`` rows down, those rows are part of it."""
    edge, turn, previous = worker.edge, worker.turn, worker.previous
    lower = tuple((row.below, row.made, row.turned) for row in _latest(worker, deep))
    return (edge, worker.phase(), turn, previous, worker.unknown, worker.yarn_now, lower)


def _latest(worker: PartWorker, many: int) -> Iterator[WorkedRow]:
    """So many of the rows worked last, the last first."""
    for rows, times in reversed(worker.rows):
        for row in (row for _ in range(min(times, many)) for row in reversed(rows)):
            if not many:
                return
            many -= 1
            yield row


def _depth(worker: PartWorker, refs: list[Ref]) -> int:
    """How many rows down the stitches of a group of rows reach, past the one below."""
    depth = 0
    for ref in refs:
        row = worker.part.lines[ref.line]
        assert isinstance(row, Row)
        for target in _targets(row.items):
            named = written_at(row, ref) - target.of_row if target.of_row else 0
            depth = max(depth, target.below, named)
    return depth


def _targets(items: Iterable[Item]) -> Iterator[Target]:
    for item in items:
        target = getattr(item, "target", None)
        if target is not None:
            yield target
        if isinstance(item, Group | Repeat):
            yield from _targets(item.items)


def too_many(worker: PartWorker, span: Span) -> None:
    values = (("what", "many rows"), ("most", MOST_DIFFERENT))
    worker.say(Fact("not-in-this-edition", span, "", "", values))


def carry(worker: PartWorker, first: int, times: int, rows: int) -> None:
    """The rows from index ``first`` on come ``times`` times more."""
    cycle = worker.rows[first:]
    flat = tuple(row for stretch, n in cycle for _ in range(n) for row in stretch)
    worker.rows.append((flat, times))
    worker.carried.append((worker.number + 1, flat, times))
    ends: Builder[Place] = Builder()
    for row in flat:
        if not row.is_round:
            ends.add(row_end(row))
    worker.ends.repeat(ends.done(), times)
    for row in flat:
        rise(worker, row, times)
    if sum(row.turned for row in flat) * times % 2:
        worker.wrong_side = not worker.wrong_side
        worker.way = not worker.way
    worker.count += rows * times
    worker.number += rows * times
    if worker.probing > 0:
        worker.probing -= 1
