"""Repeat lines in words, with the numbers that the work came to.

Repeat round 3 another 2 (3, 4) times: 6 (7, 8) rounds in all.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from loopwright.frozen import replace
from loopwright.ir.items import Evenly
from loopwright.ir.pattern import Part, RepeatRows, Row
from loopwright.render.prose.counts import stated_count, stitches, sts
from loopwright.render.prose.document import Step
from loopwright.render.prose.evenly import again
from loopwright.render.prose.lengths import both
from loopwright.render.prose.places import noun
from loopwright.render.prose.rows import mentioned
from loopwright.render.prose.telling import Amount, Telling
from loopwright.render.prose.texts import free_text
from loopwright.render.prose.tongue import phrase
from loopwright.render.prose.voice import Voice
from loopwright.render.prose.words import sentence, spoken


def repeat_step(
    repeat: RepeatRows, line: int, part: Part, tell: Telling, whole: bool = True
) -> Step:
    """The step that a repeat line becomes, with what is below it where that is wanted."""
    tell = replace(tell, is_round=_in_rounds(repeat, line, part), details=[])
    what = _what(repeat, tell.is_round, tell.voice)
    text = sentence(_HOW[repeat.how](what, repeat, line, part, tell))
    if repeat.how != "length" or any(_worked(line, tell)):
        text += _unworked(line, tell)
    count = stated_count(repeat.stated, tell) if repeat.stated else _count(line, tell)
    remark = free_text(repeat.remark, tell.voice) if repeat.remark else ""
    spaced = tuple(_spaced(repeat, line, part, tell)) if whole else ()
    if spaced:
        text += " " + tell.voice.say("Space the stitches as below.")
    return Step("", text, tell.voice.style.count(count), remark, spaced)


MOST_SPACED = 30
"""Rows whose spacing is set out one by one; past that the designer's own word has to do."""


def _spaced(repeat: RepeatRows, line: int, part: Part, tell: Telling) -> Iterator[str]:
    """Where one row is repeated and its stitches are spread otherwise each time: how, in each."""
    if _period(repeat) != 1 or max(_worked(line, tell), default=0) > MOST_SPACED:
        return
    at = _repeated(repeat, line, part)
    row = part.lines[at]
    if not isinstance(row, Row) or not row.numbers:
        return
    for item in row.items:
        if isinstance(item, Evenly) and _changes(item, tell):
            yield from again(item, at, row.numbers[0][0], tell)


def _repeated(repeat: RepeatRows, line: int, part: Part) -> int:
    """The line of the row that is repeated, or of the last row before it."""
    for at in range(line - 1, -1, -1):
        earlier = part.lines[at]
        if isinstance(earlier, Row) and (not repeat.last or _has(earlier, repeat.last)):
            return at
    return line


def _changes(item: Evenly, tell: Telling) -> bool:
    """Whether an ``evenly`` is spread in more than one way in some size."""
    return any(len(tell.worked.sizes[size].spreads.get(item.span, ())) > 1 for size in tell.sizes)


def _in_rounds(repeat: RepeatRows, line: int, part: Part) -> bool:
    """Whether the repeated ones are rounds."""
    earlier = part.lines[_repeated(repeat, line, part)]
    return earlier.is_round if isinstance(earlier, Row) else part.manner != "flat"


def _has(row: Row, number: int) -> bool:
    return any(first <= number <= last for first, last in row.numbers)


def repeated(repeat: RepeatRows, line: int, part: Part, voice: Voice) -> str:
    """What a repeat line has worked again: ``repeat round 3``."""
    return _what(repeat, _in_rounds(repeat, line, part), voice)


def _what(repeat: RepeatRows, is_round: bool, voice: Voice) -> str:
    if repeat.first:
        rows = mentioned(is_round, ((repeat.first, repeat.last),), voice)
        return voice.say("repeat {rows}", rows=rows)
    if repeat.count > 1:
        rows = voice.row_word(is_round, repeat.count)
        return voice.say("repeat the last {n} {rows}", n=repeat.count, rows=rows)
    return voice.say("repeat the last {row}", row=voice.row_word(is_round))


def _period(repeat: RepeatRows) -> int:
    return repeat.last - repeat.first + 1 if repeat.first else max(repeat.count, 1)


def _worked(line: int, tell: Telling) -> list[int]:
    found = [tell.worked.sizes[size].lines.get(line) for size in tell.sizes]
    return [result.worked if result else 0 for result in found]


_IN_ALL = {
    False: phrase("{n} {rows} in all"),
    True: phrase("{n} {rows} in all with the foundation"),
}
"""How many rows there are; foundation stitches are one, which no number counts."""


def _has_foundation(part: Part) -> bool:
    return part.start.what == "foundation"


def _in_all(line: int, part: Part, tell: Telling) -> str:
    """How many rows the part now has."""
    found = [tell.worked.sizes[size].lines.get(line) for size in tell.sizes]
    if not all(found):
        return ""
    amount = tell.in_sizes([result.rows_after for result in found if result])
    rows = tell.row_word(1 if amount.one else 2)
    return tell.voice.say(_IN_ALL[_has_foundation(part)], n=amount.text, rows=rows)


def _another(repeat: RepeatRows, line: int, tell: Telling) -> str:
    """``another 2 (3, 4) times``, or in rows where the stretch does not end whole."""
    worked, period = _worked(line, tell), _period(repeat)
    if any(rows % period for rows in worked):
        rows = tell.row_word(2)
        return tell.voice.say("another {n} {rows}", n=tell.in_sizes(worked).text, rows=rows)
    return _times(tell.in_sizes([rows // period for rows in worked]), tell)


def _times(amount: Amount, tell: Telling) -> str:
    if amount.one:
        return tell.voice.say("once more")
    return tell.voice.say("another {n} times", n=amount.text)


def _more(what: str, repeat: RepeatRows, line: int, part: Part, tell: Telling) -> str:
    assert repeat.n is not None
    times = _times(tell.amount(repeat.n), tell)
    in_all = _in_all(line, part, tell)
    if not in_all:
        return tell.voice.say("{what} {often}", what=what, often=times)
    return tell.voice.say("{what} {often}: {in_all}", what=what, often=times, in_all=in_all)


def _length(what: str, repeat: RepeatRows, line: int, part: Part, tell: Telling) -> str:
    until = tell.voice.say(
        "{what} until the {part} measures {length} from its start",
        what=what,
        part=spoken(part.name),
        length=tell.voice.figures(both(repeat.lengths, repeat.unit)),
    )
    if not any(_worked(line, tell)):
        # Without a row gauge nobody knows how many rows that is.
        return until
    numbers = ", ".join(
        one for one in (_another(repeat, line, tell), _in_all(line, part, tell)) if one
    )
    return tell.voice.say("{until} ({numbers} at the tension given)", until=until, numbers=numbers)


def _rows(what: str, repeat: RepeatRows, line: int, part: Part, tell: Telling) -> str:
    assert repeat.n is not None
    amount = tell.amount(repeat.n)
    rows = tell.row_word(1 if amount.one else 2)
    return tell.voice.say(
        "{what} until there are {in_all} ({often})",
        what=what,
        in_all=tell.voice.say(_IN_ALL[_has_foundation(part)], n=amount.text, rows=rows),
        often=_another(repeat, line, tell),
    )


def _sts(what: str, repeat: RepeatRows, line: int, part: Part, tell: Telling) -> str:
    assert repeat.n is not None
    amount = tell.amount(repeat.n)
    n = 1 if amount.one else 2
    kind = repeat.stated.counts[0].kind if repeat.stated else None
    numbers = ", ".join(
        one for one in (_another(repeat, line, tell), _in_all(line, part, tell)) if one
    )
    return tell.voice.say(
        "{what} until there are {n} {places} ({numbers})",
        what=what,
        n=amount.text,
        places=noun(kind, tell, n) if kind else tell.voice.noun("st", "sts", n),
        numbers=numbers,
    )


_HOW: dict[str, Callable[[str, RepeatRows, int, Part, Telling], str]] = {
    "more": _more,
    "length": _length,
    "rows": _rows,
    "sts": _sts,
}


def _unworked(line: int, tell: Telling) -> str:
    """The sizes in which nothing is repeated, said in words; nothing where that is all of them."""
    worked = zip(tell.sizes, _worked(line, tell), strict=True)
    none = tuple(size for size, rows in worked if rows == 0)
    if not none:
        return ""
    if len(none) == len(tell.sizes):
        return " " + tell.voice.say("There is nothing to repeat.")
    told = tell.voice.say("{sizes}: do not repeat.", sizes=tell.named_sizes(none))
    return f" {told[:1].upper()}{told[1:]}"


def _count(line: int, tell: Telling) -> str:
    found = [tell.worked.sizes[size].lines.get(line) for size in tell.sizes]
    values = [stitches(result.counts) for result in found if result]
    return sts(values, tell.voice) if len(values) == len(found) else ""
