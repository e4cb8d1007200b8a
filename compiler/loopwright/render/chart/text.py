"""The chart in words, row by row: what a reader hears who cannot see the drawing.

It is made from the rows as worked, in runs, so that a row of a thousand stitches is as short to
read as it was to write. Nothing is left out of it that the drawing leaves out, save rows past a
number that it states.
"""

from __future__ import annotations

from loopwright.render.chart.far import marked, written
from loopwright.render.chart.telling import sequence, tidy
from loopwright.render.chart.values import Chart, RowText, Words
from loopwright.trade.stitches import Stitch
from loopwright.trade.terms import TERMS, Terms, abbreviation

MOST_ROWS = 400
PLACES = "A place is a stitch or a chain space of the row below."


def say(words: Words, terms: Terms) -> str:
    """Words in one country's terms."""
    return "".join(one if isinstance(one, str) else abbreviation(one, terms) for one in words)


def text(chart: Chart, terms: str) -> str:
    """The whole chart in words, a line for each row."""
    chosen = TERMS[terms]
    lines = [chart.title, say(chart.start, chosen), reading(chart)]
    lines += [say(note, chosen) for note in chart.notes]
    rows = _told(chart, chosen)
    for other in chart.others:
        rows += otherwise(other.size, _told(chart, chosen), _told(other, chosen))
    if any(" place, " in row or " places, " in row or " places to " in row for row in rows):
        lines.append(PLACES)
    lines += rows
    return "\n".join(line for line in lines if line)


def _told(chart: Chart, terms: Terms) -> list[str]:
    """The rows of a chart, as many as are told."""
    rows = [say(row_words(row, terms), terms) for row in chart.rows[:MOST_ROWS]]
    if len(chart.rows) > MOST_ROWS:
        rows.append(f"{len(chart.rows) - MOST_ROWS} further rows are not told here.")
    return rows


def otherwise(size: str, rows: list[str], theirs: list[str]) -> list[str]:
    """What is worked otherwise in a further size: the rows that differ, or all of them where they
    are not the same rows by number."""
    names, others = ([row.split(",")[0] for row in told] for told in (rows, theirs))
    if names != others:
        return [f"In size {size} the rows are these:", *theirs]
    differ = [row for row, own in zip(theirs, rows, strict=True) if row != own]
    if not differ:
        return [f"In size {size} all rows are the same."]
    return [f"In size {size} these rows are worked otherwise:", *differ]


def reading(chart: Chart) -> str:
    """The direction of reading, in words."""
    back = " Wrong-side rows are read from left to right." if both_sides(chart) else ""
    if chart.manner == "rows":
        rows = "Read from the bottom up. Right-side rows are read from right to left."
        return rows + back
    if chart.manner == "half circle":
        rows = "Read from the centre outwards. Right-side rows are read anticlockwise."
        return rows + back.replace("from left to right", "clockwise")
    if chart.manner == "flat rounds":
        rounds = "Read from the bottom up, every round from right to left; its ends meet."
        return rounds + back.replace("rows", "rounds")
    middle = {"oval": "chain", "frame": "piece"}.get(chart.manner, "centre")
    rounds = f"Read from the {middle} outwards, anticlockwise."
    return rounds + back.replace("rows", "rounds").replace("from left to right", "clockwise")


def both_sides(chart: Chart) -> bool:
    """Whether any row is worked on the wrong side."""
    return any(row.worked.wrong_side or row.alternates for row in chart.rows)


def row_words(row: RowText, terms: Terms) -> Words:
    """One row: its name, its side, what is made, and what that comes to."""
    worked = row.worked
    side = "wrong side" if worked.wrong_side else "right side"
    if row.alternates:
        side = f"{side} first, then either side in turn"
    if any(made.stitch.crab for made in worked.made.tally() if made.stitch):
        side += ", worked backwards"
    yarns = list(dict.fromkeys(made.yarn for made in worked.made.tally() if made.yarn))
    with_yarn = f", with {' and '.join(yarns)}" if yarns else ""
    out: list[str | Stitch] = [f"{row_name(row)}, {side}{with_yarn}: "]
    if worked.shift:
        places = f"{worked.shift:,} {'place' if worked.shift == 1 else 'places'}"
        out.append(f"slip stitch along past {places} to the new first place, ")
    far = {
        item: written(say(one.one, terms), say(one.many, terms), one.each) for item, one in row.far
    }
    out += sequence(tidy(marked(worked.made, far), yarns=len(yarns) > 1), terms)
    out.append(f"; {comes_to(row)}.")
    if row.times > 1:
        noun = "round" if worked.is_round else "row"
        rows = f"This {noun} is" if row.stretch == 1 else f"These {row.stretch} {noun}s are"
        out.append(f" {rows} worked {row.times:,} times.")
    return tuple(out)


def comes_to(row: RowText) -> str:
    """How many stitches, and how many chain spaces, a row leaves."""
    places = row.worked.edge.tally().items()
    stitches = sum(times for place, times in places if place.what == "st")
    spaces = sum(times for place, times in places if place.what == "sp")
    out = f"{stitches:,} {'stitch' if stitches == 1 else 'stitches'}"
    if spaces:
        out += f", {spaces:,} chain {'space' if spaces == 1 else 'spaces'}"
    return out


def row_name(row: RowText) -> str:
    """The row by its number in the part, and as the designer calls it where that differs."""
    kind = "round" if row.worked.is_round else "row"
    return f"{kind} {row.number:,}".capitalize() if row.number else f"Setup {kind}"
