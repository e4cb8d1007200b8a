"""Rows that are alike but for a number and their counts, told together as an editor does.

    Rounds 4-16: Ch 1, [1 htr in each of next n sts, 2 htr in next st] 8 times (n as below).
        Round 4: n = 2. 32 sts.
        Round 5: n = 3. 40 sts.

    Rows 2-7: Ch 1, 2 dc in next st, 1 dc in each st to last st, 2 dc in last st. Row 2: 12 sts; ...

A few rows are told one by one, as patterns have it; it is the tenth that nobody reads.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from itertools import groupby

from loopwright.frozen import NamedTuple
from loopwright.render.prose.document import Step
from loopwright.render.prose.voice import Voice
from loopwright.render.prose.words import capital

FEWEST = 8
"""Rows told together where a number differs: fewer are each a line, and easily followed."""

FEWEST_SAME = 4
"""The same of rows whose words are all the same."""

LETTERS = "nmxyz"
"""What stands for a number that differs: the first of these that is no word of the row's."""

MOST = 2
"""Numbers that may differ; rows in which more of them do are told one by one."""

_NUMBER = re.compile(r"(?<![\w-])(\d[\d,]*(?: \(\d[\d, ]*\))?)(?![\w-])")


class Told(NamedTuple):
    """A row by its number, its name (``round 4``), its step, and its count without the style."""

    number: int
    name: str
    step: Step
    counted: str


class Together(NamedTuple):
    """Rows told together: the first and the last, the words, the count and the lines beneath."""

    first: int
    last: int
    text: str
    counted: str
    details: tuple[str, ...]


def together(rows: Sequence[Told], voice: Voice) -> Iterator[Told | Together]:
    """The rows in order, those together that are alike."""
    for _, same in groupby(rows, lambda row: _words(row.step)):
        group = list(same)
        yield from _one(group, voice) or group


def _words(step: Step) -> object:
    """What rows must have in common; a row with lines of its own is like no other."""
    alone = step.details or step.remark
    return id(step) if alone else tuple(_NUMBER.split(step.text)[::2])


def _one(group: list[Told], voice: Voice) -> list[Together]:
    """Several rows as one; nothing where they had better be told one by one."""
    words = _NUMBER.split(group[0].step.text)
    numbers = [_NUMBER.split(row.step.text)[1::2] for row in group]
    differ = [column for column in zip(*numbers, strict=True) if len(set(column)) > 1]
    found = list(dict.fromkeys(differ))
    if len(group) < (FEWEST if found else FEWEST_SAME) or len(found) > MOST:
        return []
    used = set(re.findall(r"\w+", group[0].step.text.lower()))
    letters = dict(zip(found, (one for one in LETTERS if one not in used), strict=False))
    for at, column in enumerate(zip(*numbers, strict=True)):
        words[2 * at + 1] = letters.get(column, words[2 * at + 1])
    text = "".join(words)
    first, last = group[0].number, group[-1].number
    if not found:
        counts = [voice.say("{row}: {count}", row=row.name, count=row.counted) for row in group]
        return [Together(first, last, text, capital("; ".join(counts)), ())]
    named = voice.listing(list(letters.values()))
    text = voice.say("{what} ({letters} as below).", what=text.rstrip("."), letters=named)
    lines = (_line(row, nth, letters, voice) for nth, row in enumerate(group))
    return [Together(first, last, text, "", tuple(lines))]


def _line(row: Told, nth: int, letters: dict[tuple[str, ...], str], voice: Voice) -> str:
    """What a row's own numbers are, and what it comes to."""
    own = ", ".join(f"{letter} = {column[nth]}" for column, letter in letters.items())
    line = voice.say("{row}: {what}.", row=row.name, what=own)
    return f"{capital(line)} {row.step.count}".rstrip()
