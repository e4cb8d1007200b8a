"""The chart in words, row by row: what a reader hears who cannot see the drawing.

It is made from the rows as worked, in runs, so that a row of a thousand stitches is as short to
read as it was to write. Nothing is left out of it that the drawing leaves out, save rows past a
number that it states.
"""

from __future__ import annotations

from loopwright.render.chart.far import marked
from loopwright.render.chart.telling import listed, sequence, tidy
from loopwright.render.chart.values import Chart, RowText, Words
from loopwright.render.speaker import (
    Said,
    Speaker,
    phrase,
    said,
    said_many,
    said_noun,
    speaker_of,
    told,
)

MOST_ROWS = 400
PLACES = phrase("A place is a stitch or a chain space of the row below.")


def text(chart: Chart, who: Speaker | str) -> str:
    """The whole chart in the words of a reader, a line for each row."""
    speaker = speaker_of(who)
    lines = [told(chart.title, speaker), told(chart.start, speaker)]
    lines += [told(reading(chart), speaker), *(told(note, speaker) for note in chart.notes)]
    own = _rows(chart.rows)
    rows = list(own)
    for other in chart.others:
        rows += otherwise(other.size, own, _rows(other.rows))
    if any(" place, " in row or " places, " in row or " places to " in row for row in rows):
        lines.append(speaker.say(PLACES))
    lines += [told(row, speaker) for row in rows]
    return "\n".join(line for line in lines if line)


def _rows(rows: tuple[RowText, ...]) -> list[Said]:
    """The rows of a chart, as many as are told."""
    out = [row_words(row) for row in rows[:MOST_ROWS]]
    if len(rows) > MOST_ROWS:
        out.append(said("{n} further rows are not told here.", n=len(rows) - MOST_ROWS))
    return out


def otherwise(size: str, rows: list[Said], theirs: list[Said]) -> list[Said]:
    """What is worked otherwise in a further size: the rows that differ, or all of them where they
    are not the same rows by number."""
    names, others = ([row.split(",")[0] for row in every] for every in (rows, theirs))
    if names != others:
        return [said("In size {size} the rows are these:", size=size), *theirs]
    differ = [row for row, own in zip(theirs, rows, strict=True) if row != own]
    if not differ:
        return [said("In size {size} all rows are the same.", size=size)]
    return [said("In size {size} these rows are worked otherwise:", size=size), *differ]


_READ = {
    "rows": phrase("Read from the bottom up. Right-side rows are read from right to left."),
    "half circle": phrase("Read from the centre outwards. Right-side rows are read anticlockwise."),
    "flat rounds": phrase(
        "Read from the bottom up, every round from right to left; its ends meet."
    ),
    "oval": phrase("Read from the chain outwards, anticlockwise."),
    "frame": phrase("Read from the piece outwards, anticlockwise."),
    "": phrase("Read from the centre outwards, anticlockwise."),
}
_READ_BACK = {
    "rows": phrase("Wrong-side rows are read from left to right."),
    "half circle": phrase("Wrong-side rows are read clockwise."),
    "flat rounds": phrase("Wrong-side rounds are read from left to right."),
    "": phrase("Wrong-side rounds are read clockwise."),
}


def reading(chart: Chart) -> Words:
    """The direction of reading, in words."""
    read = said(_READ.get(chart.manner, _READ[""]))
    if not both_sides(chart):
        return (read,)
    return (read, " ", said(_READ_BACK.get(chart.manner, _READ_BACK[""])))


def both_sides(chart: Chart) -> bool:
    """Whether any row is worked on the wrong side."""
    return any(row.worked.wrong_side or row.alternates for row in chart.rows)


def row_words(row: RowText) -> Said:
    """One row: its name, its side, what is made, and what that comes to."""
    worked = row.worked
    side = said("wrong side") if worked.wrong_side else said("right side")
    if row.alternates:
        side = said("{side} first, then either side in turn", side=side)
    if any(made.stitch.crab for made in worked.made.tally() if made.stitch):
        side = said("{side}, worked backwards", side=side)
    head = said("{row}, {side}", row=row_name(row), side=side)
    yarns = list(dict.fromkeys(made.yarn for made in worked.made.tally() if made.yarn))
    if yarns:
        both: str = yarns[0]
        for yarn in yarns[1:]:
            both = said("{edges} and {edge}", edges=both, edge=yarn)
        head = said("{what}, with {yarn}", what=head, yarn=both)
    placed = tidy(marked(worked.made, dict(row.far)), yarns=len(yarns) > 1)
    made = listed([*_along(worked.shift), sequence(placed)])
    line = said("{row}: {what}; {counts}.", row=head, what=made, counts=comes_to(row))
    if row.times == 1:
        return line
    again = _AGAIN[worked.is_round][row.stretch != 1]
    often = said(again, n=row.stretch, times=f"{row.times:,}")
    return said("{first} {next}", first=line, next=often)


_AGAIN = (
    (
        phrase("This row is worked {times} times."),
        phrase("These {n} rows are worked {times} times."),
    ),
    (
        phrase("This round is worked {times} times."),
        phrase("These {n} rounds are worked {times} times."),
    ),
)


def _along(shift: int) -> list[Words]:
    """How a row begins that is slip stitched along to a new first place."""
    if not shift:
        return []
    places = said_noun("place", "places", shift)
    way = phrase("slip stitch along past {n} {places} to the new first place")
    return [(said(way, n=f"{shift:,}", places=places),)]


def comes_to(row: RowText) -> Said:
    """How many stitches, and how many chain spaces, a row leaves."""
    places = row.worked.edge.tally().items()
    stitches = sum(times for place, times in places if place.what == "st")
    spaces = sum(times for place, times in places if place.what == "sp")
    out = said_many("{n} stitch", "{n} stitches", stitches, n=f"{stitches:,}")
    if not spaces:
        return out
    more = said_many("{n} chain space", "{n} chain spaces", spaces, n=f"{spaces:,}")
    return said("{one}, {other}", one=out, other=more)


_NAMES = (
    (phrase("Row {n}"), phrase("Setup row")),
    (phrase("Round {n}"), phrase("Setup round")),
)


def row_name(row: RowText) -> Said:
    """The row by its number in the part, and as the designer calls it where that differs."""
    return said(_NAMES[row.worked.is_round][not row.number], n=f"{row.number:,}")
