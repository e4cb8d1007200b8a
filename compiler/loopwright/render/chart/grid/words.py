"""The chart of squares in words: how it is read, what a square is, and every row of it."""

from __future__ import annotations

from itertools import groupby

from loopwright.render.chart.grid.values import COLOUR, FILET, FILLED, OPEN, Grid, Line
from loopwright.render.chart.telling import folded, listed
from loopwright.render.chart.text import MOST_ROWS, otherwise
from loopwright.render.chart.values import Words
from loopwright.render.speaker import Said, Speaker, phrase, said, said_many, speaker_of, told
from loopwright.trade.terms import full_name


def text(grid: Grid, who: Speaker | str) -> str:
    """The whole chart of squares in the words of a reader, a line for each row."""
    speaker = speaker_of(who)
    lines = [told(grid.title, speaker), told(reading(grid), speaker)]
    lines += [*(words for _, words in squares(grid, speaker)), *measure(grid, speaker)]
    lines += [told(one, speaker) for one in (*repeat(grid), *grid.notes)]
    rows = _rows_told(grid)
    lines += [told(one, speaker) for one in rows]
    for other in grid.others:
        lines += [told(one, speaker) for one in otherwise(other.size, rows, _rows_told(other))]
    return "\n".join(lines)


def _rows_told(grid: Grid) -> list[Said]:
    rows = [row(grid, line) for line in grid.whole[:MOST_ROWS]]
    if len(grid.whole) > MOST_ROWS:
        rows.append(said("{n} further rows are not told here.", n=len(grid.whole) - MOST_ROWS))
    return rows


# In rows and in rounds: where they begin, and how they are read, on the right side only, on the
# wrong side only, and on both.
_BEGIN = (
    phrase("Read from the bottom up. The number stands where the row begins."),
    phrase("Read from the bottom up. The number stands where the round begins."),
)
_WAYS = {
    (False,): (
        phrase("Every row is read from right to left."),
        phrase("Every round is read from right to left."),
    ),
    (True,): (
        phrase("Every row is worked on the wrong side and read from left to right."),
        phrase("Every round is worked on the wrong side and read from left to right."),
    ),
    (False, True): (
        phrase("Right-side rows are read from right to left, wrong-side rows from left to right."),
        phrase(
            "Right-side rounds are read from right to left, wrong-side rounds from left to right."
        ),
    ),
}


def reading(grid: Grid) -> Said:
    """The direction of reading, in words."""
    in_rounds = grid.lines[0].is_round
    sides = tuple(sorted({line.wrong_side for line in grid.lines}))
    return said("{first} {next}", first=said(_BEGIN[in_rounds]), next=said(_WAYS[sides][in_rounds]))


def squares(grid: Grid, speaker: Speaker) -> list[tuple[int, str]]:
    """Every kind of square that is used, and what it stands for."""
    used = sorted({square.kind for line in grid.lines for square in line.squares})
    if grid.kind == COLOUR:
        named = [(f"{letter}: {name}", about) for letter, name, about in grid.yarns]
        words = [f"{name} ({about})" if about else name for name, about in named]
        return [(kind, words[kind]) for kind in used]
    bar = _bar(grid, speaker)
    name = full_name(grid.stitch, speaker.terms) if grid.stitch else ""
    what = phrase("filled square: {n} {stitch} ({name})")
    if not name:
        what = phrase("filled square: {n} {stitch}")
    filled = speaker.say(what, n=grid.unit, stitch=bar, name=name)
    chains = grid.unit - 1
    open_ = speaker.say("open square: ch {n}, 1 {stitch}", n=chains, stitch=bar)
    told_of = {OPEN: open_, FILLED: filled}
    return [(kind, told_of[kind]) for kind in used]


def _bar(grid: Grid, speaker: Speaker) -> str:
    """The stitch of the bars."""
    if grid.stitch:
        return speaker.stitch(grid.stitch)
    return speaker.noun("stitch", "stitches", 1)


def measure(grid: Grid, speaker: Speaker) -> list[str]:
    """How squares and stitches go together."""
    if grid.kind == FILET:
        return [
            speaker.say(
                "1 {stitch} stands before the first square of a row; {n} squares are {stitches} "
                "stitches wide.",
                stitch=_bar(grid, speaker),
                n=speaker.figures(f"{grid.columns:,}"),
                stitches=speaker.figures(f"{grid.columns * grid.unit + 1:,}"),
            )
        ]
    if grid.stitch is None:
        return [speaker.say("Each square is 1 stitch.")]
    name = full_name(grid.stitch, speaker.terms)
    each = phrase("Each square is 1 {stitch} ({name}).")
    return [speaker.say(each, stitch=speaker.stitch(grid.stitch), name=name)]


# One column or several, drawn once or twice.
_AGAIN = (
    (
        phrase("Square {last} is worked {times} times in all, drawn once."),
        phrase("Square {last} is worked {times} times in all, drawn twice."),
    ),
    (
        phrase("Squares {first} to {last} are worked {times} times in all, drawn once."),
        phrase("Squares {first} to {last} are worked {times} times in all, drawn twice."),
    ),
)


def repeat(grid: Grid) -> list[Said]:
    """The columns that are worked over and over."""
    if grid.again is None:
        return []
    lead, unit, shown, _ = grid.again
    often = _AGAIN[unit != 1][shown != 1]
    return [said(often, first=lead + 1, last=lead + unit, times=times(grid))]


def times(grid: Grid) -> str:
    """How often the columns come, for each size: ``12 (14, 16)``."""
    if grid.again is None:
        return ""
    first, *others = (f"{n:,}" for n in grid.again.times)
    return f"{first} ({', '.join(others)})" if others else first


_ROWS = {
    (False, False): phrase("Row {n}, right side: {what}."),
    (False, True): phrase("Row {n}, wrong side: {what}."),
    (True, False): phrase("Round {n}, right side: {what}."),
    (True, True): phrase("Round {n}, wrong side: {what}."),
}
_SETUP = {
    (False, False): phrase("Setup row, right side: {what}."),
    (False, True): phrase("Setup row, wrong side: {what}."),
    (True, False): phrase("Setup round, right side: {what}."),
    (True, True): phrase("Setup round, wrong side: {what}."),
}


def row(grid: Grid, line: Line) -> Said:
    """One row: its number, its side, and its squares in the order worked."""
    kinds = _ROWS if line.number else _SETUP
    number, what = f"{line.number:,}", _told(grid, line)
    return said(kinds[line.is_round, line.wrong_side], n=number, what=what)


def _told(grid: Grid, line: Line) -> Words:
    """The squares of a row in the order worked, as its repeats where it has any."""
    kinds = [square.kind for square in line.squares]
    phrases = _phrases(grid, kinds)
    if len(phrases) > 1 and grid.again is not None:
        lead, unit, _, _ = grid.again
        drawn = len(grid.lines[0].squares)
        often = grid.again.shown + (len(kinds) - drawn) // unit
        first = len(kinds) - lead - unit * often if line.wrong_side else lead
        after = first + unit * often
        again = listed(_phrases(grid, kinds[first : first + unit]))
        whole = said("({what}) {n} times", what=again, n=f"{often:,}")
        phrases = [*_phrases(grid, kinds[:first]), (whole,)]
        phrases += _phrases(grid, kinds[after:])
    return listed(phrases)


def _phrases(grid: Grid, kinds: list[int]) -> list[Words]:
    """Squares of a kind side by side are told together, and what comes again once."""
    runs = ((kind, len(list(some))) for kind, some in groupby(kinds))
    return folded([_some(grid, kind, count) for kind, count in runs])


def _some(grid: Grid, kind: int, count: int) -> Words:
    """So many squares of a kind."""
    n = f"{count:,}"
    if grid.kind == COLOUR:
        return (f"{n} {grid.yarns[kind][1]}",)
    if kind == FILLED:
        return (said_many("{n} filled", "{n} filled", count, n=n),)
    return (said_many("{n} open", "{n} open", count, n=n),)


def kind_name(grid: Grid, kind: int) -> str:
    """What one square of a kind is called."""
    if grid.kind == COLOUR:
        return grid.yarns[kind][1]
    return said("filled") if kind == FILLED else said("open")
