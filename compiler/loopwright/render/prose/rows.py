"""Rows and rounds in trade English, for all sizes at once.

    Round 3: Ch 2, [1 tr in each of next 3 tr, 1 fptr around next fptr] 7 (8, 9) times, join.
    28 (32, 36) sts.

Rows that use their own number, and rows of a range that do not all come to the same, are told one
by one, as a maker needs them, and many that are alike together with what differs; only where there
are more than ``SPELLED_OUT`` of them is the arithmetic itself printed.
"""

from __future__ import annotations

from collections.abc import Iterator

from loopwright.frozen import names_of, replace
from loopwright.ir.fabric import WorkedRow
from loopwright.ir.items import Chain, Skip
from loopwright.ir.numbers import Named
from loopwright.ir.pattern import Row, Stated
from loopwright.render.prose.counts import made_count, stated_count, stitches, sts
from loopwright.render.prose.document import Step
from loopwright.render.prose.items import say_all
from loopwright.render.prose.like_rows import Told, together
from loopwright.render.prose.telling import Telling
from loopwright.render.prose.texts import free_text
from loopwright.render.prose.tongue import phrase
from loopwright.render.prose.voice import Voice
from loopwright.render.prose.words import capital, sentence

SPELLED_OUT = 40
_SIDES = {"RS": phrase("{row} (RS)"), "WS": phrase("{row} (WS)")}
Ranges = tuple[tuple[int, int], ...]


def steps(row: Row, line: int, tell: Telling) -> Iterator[Step]:
    """The steps that a written row becomes: mostly one."""
    tell = replace(
        tell,
        sizes=tell.sizes if row.sizes is None else row.sizes,
        is_round=row.is_round,
        line=line,
        details=[],
    )
    told = _how_many(row)
    uses = bool(row.variable) and _depends((row.items, row.stated), row.variable)
    if told == 1:
        number = row.numbers[0][0] if row.numbers else 0
        yield _step(row, row.numbers, replace(tell, variable=(row.variable, number)))
    elif told <= SPELLED_OUT and (uses or _differ(line, tell)):
        yield from _one_by_one(row, tell)
    else:
        variable = (row.variable if uses else "", None)
        yield _step(row, row.numbers, replace(tell, variable=variable))


def _one_by_one(row: Row, tell: Telling) -> Iterator[Step]:
    """Every row of a range by itself, but for many that are alike."""
    rows = []
    for nth, number in enumerate(_each(row)):
        own = ((number, number),)
        one = replace(tell, variable=(row.variable, number), nth=nth, details=[])
        name = numbered(row.is_round, own, tell.voice)
        rows.append(Told(number, name, _step(row, own, one), _count(row, one)))
    for found in together(rows, tell.voice):
        if isinstance(found, Told):
            yield found.step
        else:
            label = _label(row, ((found.first, found.last),), tell)
            count = tell.voice.style.count(found.counted)
            yield Step(label, found.text, count, "", found.details)


def _how_many(row: Row) -> int:
    return sum(last - first + 1 for first, last in row.numbers) or 1


def _each(row: Row) -> Iterator[int]:
    for first, last in row.numbers:
        yield from range(first, last + 1)


def _differ(line: int, tell: Telling) -> bool:
    return any(tell.worked.sizes[size].differs(line, SPELLED_OUT) for size in tell.sizes)


def _depends(value: object, name: str) -> bool:
    """Whether any number in the items uses the row's own number."""
    if isinstance(value, Named):
        return value.name == name
    if isinstance(value, tuple) or names_of(value):
        inside = value if isinstance(value, tuple) else _values(value)
        return any(_depends(part, name) for part in inside)
    return False


def _values(value: object) -> Iterator[object]:
    for name in names_of(value):
        yield getattr(value, name)


def _step(row: Row, numbers: Ranges, tell: Telling) -> Step:
    if row.as_row:
        text = _like(row, row.as_row, numbers, tell)
    else:
        text = sentence(say_all(row.items, tell)) + _loop(row, tell)
    name, value = tell.variable
    if name and value is None:
        here = tell.voice.say(
            "Here {name} is the number of the {row}.", name=name, row=tell.row_word()
        )
        text = f"{text} {here}"
    remark = free_text(row.remark, tell.voice) if row.remark and not tell.nth else ""
    label, count = _label(row, numbers, tell), tell.voice.style.count(_count(row, tell))
    return Step(label, text, count, remark, tuple(tell.details))


def _count(row: Row, tell: Telling) -> str:
    return stated_count(row.stated, tell) if row.stated else made_count(row, tell)


def _like(row: Row, like: tuple[int, int], numbers: Ranges, tell: Telling) -> str:
    """A row that is worked as earlier ones, or several that are, over and over."""
    voice, (low, high) = tell.voice, like
    period, total = high - low + 1, sum(last - first + 1 for first, last in numbers)
    if total == 1 and _how_many(row) > 1:
        low = high = low + (tell.nth or 0) % period
    rows = mentioned(row.is_round, ((low, high),), voice)
    if low == high or total <= period:
        return voice.say("Work as {rows}.", rows=rows)
    times = total // period
    if times == 2:
        return voice.say("Work as {rows}, twice.", rows=rows)
    return voice.say("Work as {rows}, {n} times.", rows=rows, n=times)


def _loop(row: Row, tell: Telling) -> str:
    """What a maker would take for a turning chain and is none: chains at the start of a flat row,
    straight before what is skipped, that are a loop for the next row."""
    first, *others = row.items or (None,)
    if row.is_round or not isinstance(first, Chain) or first.counts_as is not None:
        return ""
    made = tell.worked.whats.get(first.span, set())
    if not (others and isinstance(others[0], Skip)) or not made or made & {"turn", "as"}:
        return ""
    chains = tell.amount(first.n).text
    return " " + tell.voice.say(
        "The ch {n} at the start is a loop, not a turning chain: it stands on the first st.",
        n=chains,
    )


def single(row: Row, worked: WorkedRow, tell: Telling, own: Row | None) -> Step:
    """One row as it was worked once; ``{}`` in its label stands for its number. ``own`` is the line
    that it is written in, and None where a repeat line has it worked again."""
    voice, tell = tell.voice, replace(tell, details=[])
    text = sentence(say_all(row.items, tell)) + _loop(row, tell)
    stated = own.stated if own is not None else row.stated
    if stated is not None and (own is not None or _as_stated(stated, worked, tell)):
        count = stated_count(stated, tell)
    else:
        count = sts([stitches(worked.counts)], voice)
    written = own or row
    remark = free_text(written.remark, voice) if written.remark else ""
    if written.setup:
        label = voice.say("setup {row}", row=tell.row_word())
    else:
        label = voice.say("{rows} {numbers}", rows=tell.row_word(), numbers="{}")
    if own is not None and (own.side or row.side):
        label = voice.say(_SIDES[own.side or row.side], row=label)
    return Step(capital(label), text, voice.style.count(count), remark, tuple(tell.details))


def _as_stated(stated: Stated, worked: WorkedRow, tell: Telling) -> bool:
    """Whether a row that is worked again comes to what was stated for it the first time."""
    found = dict(worked.counts)
    size = tell.sizes[0]
    return not stated.counting and all(
        tell.in_size(one.n, size) == str(found.get(one.kind, 0))
        for one in stated.counts
        if one.sizes is None or size in one.sizes
    )


def numbered(is_round: bool, numbers: Ranges, voice: Voice) -> str:
    """``round 3``, ``rounds 2-5``, ``rows 5, 9 and 13``."""
    said = [str(first) if first == last else f"{first}-{last}" for first, last in numbers]
    several = len(numbers) > 1 or numbers[0][0] != numbers[0][1]
    word = voice.row_word(is_round, 2 if several else 1)
    return voice.say("{rows} {numbers}", rows=word, numbers=voice.listing(said))


def mentioned(is_round: bool, numbers: Ranges, voice: Voice) -> str:
    """The same within a sentence, where a language may want an article."""
    said = numbered(is_round, numbers, voice)
    several = len(numbers) > 1 or numbers[0][0] != numbers[0][1]
    return voice.many("{row}", "{rows}", 2 if several else 1, row=said, rows=said)


def row_name(row: Row, voice: Voice, numbers: Ranges = ()) -> str:
    """A row by its numbers, or by some of them: ``rounds 2-5``, ``next row``."""
    if row.numbers:
        return numbered(row.is_round, numbers or row.numbers, voice)
    word = voice.row_word(row.is_round)
    return voice.say("setup {row}", row=word) if row.setup else voice.say("next {row}", row=word)


def _label(row: Row, numbers: Ranges, tell: Telling) -> str:
    voice, label = tell.voice, row_name(row, tell.voice, numbers)
    if row.side:
        label = voice.say(_SIDES[row.side], row=label)
    if row.sizes is not None and set(row.sizes) != set(range(len(tell.all_sizes))):
        sizes = tell.named_sizes(row.sizes)
        label = voice.say("{sizes} only, {row}", sizes=sizes, row=label)
    return capital(label)
