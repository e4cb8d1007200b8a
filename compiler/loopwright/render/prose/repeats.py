"""Repeat lines in words, with the numbers that the work came to.

Repeat round 3 another 2 (3, 4) times: 6 (7, 8) rounds in all.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from loopwright.ir.pattern import Part, RepeatRows, Row
from loopwright.render.prose.counts import stated_count, stitches, sts
from loopwright.render.prose.document import Step
from loopwright.render.prose.lengths import both
from loopwright.render.prose.places import noun
from loopwright.render.prose.rows import numbered
from loopwright.render.prose.telling import Amount, Telling, amount_of
from loopwright.render.prose.texts import free_text
from loopwright.render.prose.words import listing, sentence, spoken


def repeat_step(repeat: RepeatRows, line: int, part: Part, tell: Telling) -> Step:
    """The step that a repeat line becomes."""
    tell = replace(tell, word=_word(repeat, line, part), details=[])
    what = _what(repeat, tell)
    text = sentence(f"{what} {_HOW[repeat.how](repeat, line, part, tell)}")
    if repeat.how != "length" or any(_worked(line, tell)):
        text += _unworked(line, tell)
    count = stated_count(repeat.stated, tell) if repeat.stated else _count(line, tell)
    remark = free_text(repeat.remark, tell.voice) if repeat.remark else ""
    return Step("", text, sentence(count), remark)


def _word(repeat: RepeatRows, line: int, part: Part) -> str:
    """``row`` or ``round``: whatever the repeated ones are."""
    for earlier in reversed(part.lines[:line]):
        if isinstance(earlier, Row) and (not repeat.last or _has(earlier, repeat.last)):
            return "round" if earlier.is_round else "row"
    return "round" if part.manner != "flat" else "row"


def _has(row: Row, number: int) -> bool:
    return any(first <= number <= last for first, last in row.numbers)


def _what(repeat: RepeatRows, tell: Telling) -> str:
    if repeat.first:
        return f"repeat {numbered(tell.word, ((repeat.first, repeat.last),))}"
    if repeat.count > 1:
        return f"repeat the last {repeat.count} {tell.word}s"
    return f"repeat the last {tell.word}"


def _period(repeat: RepeatRows) -> int:
    return repeat.last - repeat.first + 1 if repeat.first else max(repeat.count, 1)


def _worked(line: int, tell: Telling) -> list[int]:
    found = [tell.worked.sizes[size].lines.get(line) for size in tell.sizes]
    return [result.worked if result else 0 for result in found]


def _in_all(line: int, tell: Telling) -> str:
    """How many rows the part now has."""
    found = [tell.worked.sizes[size].lines.get(line) for size in tell.sizes]
    if not all(found):
        return ""
    amount = amount_of([result.rows_after for result in found if result])
    return f"{amount.text} {tell.word}{'' if amount.one else 's'} in all"


def _another(repeat: RepeatRows, line: int, tell: Telling) -> str:
    """``another 2 (3, 4) times``, or in rows where the stretch does not end whole."""
    worked, period = _worked(line, tell), _period(repeat)
    if any(rows % period for rows in worked):
        return f"another {amount_of(worked).text} {tell.word}s"
    return _times(amount_of([rows // period for rows in worked]))


def _times(amount: Amount) -> str:
    return "once more" if amount.one else f"another {amount.text} times"


def _more(repeat: RepeatRows, line: int, part: Part, tell: Telling) -> str:
    assert repeat.n is not None
    in_all = _in_all(line, tell)
    return _times(tell.amount(repeat.n)) + (f": {in_all}" if in_all else "")


def _length(repeat: RepeatRows, line: int, part: Part, tell: Telling) -> str:
    lengths = both(repeat.lengths, repeat.unit)
    name = spoken(part.name)
    until = f"until the {name} measures {lengths} from its start"
    if not any(_worked(line, tell)):
        # Without a row gauge nobody knows how many rows that is.
        return until
    found = [_another(repeat, line, tell), _in_all(line, tell)]
    words = tell.voice.terms.gauge
    numbers = ", ".join(text for text in found if text)
    return f"{until} ({numbers} at the {words} given)"


def _rows(repeat: RepeatRows, line: int, part: Part, tell: Telling) -> str:
    assert repeat.n is not None
    amount = tell.amount(repeat.n)
    words = f"until there are {amount.text} {tell.word}s in all"
    return f"{words} ({_another(repeat, line, tell)})"


def _sts(repeat: RepeatRows, line: int, part: Part, tell: Telling) -> str:
    assert repeat.n is not None
    kind = repeat.stated.counts[0].kind if repeat.stated else None
    amount = tell.amount(repeat.n)
    name = noun(kind, tell, not amount.one) if kind else "st" if amount.one else "sts"
    found = [_another(repeat, line, tell), _in_all(line, tell)]
    return f"until there are {amount.text} {name} ({', '.join(one for one in found if one)})"


_HOW: dict[str, Callable[[RepeatRows, int, Part, Telling], str]] = {
    "more": _more,
    "length": _length,
    "rows": _rows,
    "sts": _sts,
}


def _unworked(line: int, tell: Telling) -> str:
    """The sizes in which nothing is repeated, said in words; nothing where that is all of them."""
    none = [
        name
        for name, rows in zip(tell.size_names(tell.sizes), _worked(line, tell), strict=True)
        if rows == 0
    ]
    if not none:
        return ""
    if len(none) == len(tell.sizes):
        return " There is nothing to repeat."
    return f" Size{'s' if len(none) > 1 else ''} {listing(none)}: do not repeat."


def _count(line: int, tell: Telling) -> str:
    found = [tell.worked.sizes[size].lines.get(line) for size in tell.sizes]
    values = [stitches(result.counts) for result in found if result]
    return sts(values) if len(values) == len(found) else ""
