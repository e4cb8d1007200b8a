"""The chart in words, row by row: what a reader hears who cannot see the drawing.

It is made from the rows as worked, in runs, so that a row of a thousand stitches is as short to
read as it was to write. Nothing is left out of it that the drawing leaves out, save rows past a
number that it states.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import cast

from loopwright.ir.fabric import Made
from loopwright.ir.runs import Builder, Runs
from loopwright.render.chart.links import TAKES
from loopwright.render.chart.values import Chart, RowText, Words
from loopwright.trade.stitches import Stitch
from loopwright.trade.terms import TERMS, Terms, abbreviation

MOST_ROWS = 400

_LOOPS = {loop: f" in the {loop} loop" for loop in ("back", "front", "third")}
_PLACES = {
    "sp": "space",
    "ring": "ring",
    "gap": "gap",
    "end": "row end",
    "ch": "chain",
    "st": "stitch",
}


def say(words: Words, terms: Terms) -> str:
    """Words in one country's terms."""
    return "".join(one if isinstance(one, str) else abbreviation(one, terms) for one in words)


def text(chart: Chart, terms: str) -> str:
    """The whole chart in words, a line for each row."""
    chosen = TERMS[terms]
    lines = [chart.title, say(chart.start, chosen), reading(chart)]
    lines += [say(note, chosen) for note in chart.notes]
    for row in chart.rows[:MOST_ROWS]:
        lines.append(say(row_words(row, chosen), chosen))
    if len(chart.rows) > MOST_ROWS:
        lines.append(f"{len(chart.rows) - MOST_ROWS} further rows are not told here.")
    return "\n".join(line for line in lines if line)


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
    rounds = "Read from the centre outwards, anticlockwise."
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
    with_yarn = f", with {' then '.join(yarns)}" if yarns else ""
    out: list[str | Stitch] = [f"{row_name(row)}, {side}{with_yarn}: "]
    out += sequence(tidy(worked.made), terms)
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


def tidy(made: Runs[Made]) -> Runs[Made]:
    """The same things as they are told: whatever they were written as, and repeats that begin
    before their bracket counted with it."""
    out: Builder[Made] = Builder()
    for node, times in made.pairs:
        if isinstance(node, Runs):
            inner = tidy(node)
            times += _taken(out, inner)
            out.repeat(inner, times)
        else:
            out.add(_told(node), times)
    return out.done()


def _taken(out: Builder[Made], inner: Runs[Made]) -> int:
    """Take back from the end what is the same as a repeat that follows; how often it was there."""
    times = 0
    count = len(inner.pairs)
    while count and tuple(out.pairs[-count:]) == inner.pairs:
        del out.pairs[-count:]
        times += 1
    return times


def _told(made: Made) -> Made:
    """A thing without what is not told of it. Into the chains of a space, one after another, is
    told like into chains."""
    if made.into == "sp" and made.chain:
        step = 1 if made.chain > 1 or made.step == 0 else made.step
        made = made._replace(into="ch", step=step, chain=0)
    return made._replace(item=0, own="", lead=False)


def sequence(made: Runs[Made], terms: Terms) -> list[str | Stitch]:
    """What is made, in order, in words."""
    out: list[str | Stitch] = []
    pairs = _split(made)
    i = 0
    while i < len(pairs):
        node, times = pairs[i]
        if out:
            out.append(", ")
        if isinstance(node, Runs):
            inside = sequence(node, terms)
            if times == 1:
                out += inside
            else:
                out += ["(", *inside, f") {times:,} times"]
            i += 1
            continue
        i, words = _together(pairs, i, terms)
        out += words
    return out


Pairs = list[tuple["Made | Runs[Made]", int]]


def _split(made: Runs[Made]) -> Pairs:
    """The pairs, with the last stitch of a run apart where others follow in its place."""
    out: Pairs = []
    pairs = made.pairs
    for i, (node, times) in enumerate(pairs):
        on = pairs[i + 1][0] if i + 1 < len(pairs) else None
        joins = isinstance(on, Made) and on.what == "st" and on.into in TAKES and on.step == 0
        if isinstance(node, Made) and node.what == "st" and times > 1 and joins and node.step:
            out += [(node, times - 1), (node, 1)]
        else:
            out.append((node, times))
    return out


def _together(
    pairs: Pairs, i: int, terms: Terms
) -> tuple[int, list[str | Stitch]]:
    """A run and, where stitches share its place, the runs after it that go there too."""
    made, times = cast("Made", pairs[i][0]), pairs[i][1]
    if made.what != "st" or times > 1 or made.into not in TAKES:
        return i + 1, [*_way(made, terms, times), *_made(made, times, terms)]
    group: list[str | Stitch] = _count(made, 1)
    same = made
    j = i + 1
    while j < len(pairs):
        other, more = pairs[j]
        if isinstance(other, Runs) or other.what not in ("st", "ch"):
            break
        if other.what == "st" and (other.into not in TAKES or other.step != 0 or other.also):
            break
        if other.what == "ch" and not _goes_on(pairs, j + 1):
            break
        if other.what == "st" and other._replace(step=0, item=0) == same._replace(step=0, item=0):
            group = _count(made, 1 + more) if j == i + 1 else [*group, ", ", *_count(other, more)]
        else:
            group = [*group, ", ", *_made(other, more, terms)]
        j += 1
    if j == i + 1:
        return j, [*_way(made, terms, 1), *_made(made, 1, terms)]
    where = f" in one {_PLACES[made.into]}"
    body = ["(", *group, ")"] if ", " in group else group
    return j, [*_way(made, terms, 1), *body, where]


def _goes_on(pairs: Pairs, j: int) -> bool:
    """Whether stitches into the same place follow."""
    if j >= len(pairs) or isinstance(pairs[j][0], Runs):
        return False
    made = cast("Made", pairs[j][0])
    return made.what == "st" and made.into in TAKES and made.step == 0


def _way(made: Made, terms: Terms, times: int) -> list[str | Stitch]:
    """What is passed on the way there."""
    if made.into not in TAKES or made.what == "join" or made.step in (0, 1):
        return []
    if made.step < 0:
        back = -made.step
        return [f"go back {back} {'place' if back == 1 else 'places'}, "]
    passed = made.step - 1
    each = " each time" if times > 1 else ""
    return [f"{terms.skip} {passed:,} {'place' if passed == 1 else 'places'}{each}, "]


def _count(made: Made, times: int) -> list[str | Stitch]:
    """So many of a stitch, with its loop."""
    head: Iterable[str | Stitch] = [f"{times:,} "] if times > 1 else []
    return [*head, made.stitch or "stitch", _LOOPS.get(made.loop, "")]


def _made(made: Made, times: int, terms: Terms) -> list[str | Stitch]:
    """A run of one thing in words."""
    words = thing_words(made)
    if made.what != "st":
        return [*words, f" {times:,} times"] if times > 1 else words
    out = _count(made, times)
    if made.into in TAKES and made.step == 0:
        return [*out, f" in the same {_PLACES[made.into]}"]
    if made.into in ("sp", "end", "gap", "ch"):
        if times > 1:
            return [*out, f" (one in each of the next {_PLACES[made.into]}s)"]
        return [*out, f" in the next {_PLACES[made.into]}"]
    return [*out, " in the ring"] if made.into == "ring" else out


def thing_words(made: Made) -> list[str | Stitch]:
    """One thing made, as the text equivalent of its symbol."""
    stitch = made.stitch or ""
    if made.what in ("as", "skip as"):
        return [f"ch {made.chains} counted as ", stitch]
    if made.what == "turn":
        return [f"ch {made.chains} that does not count"]
    if made.what == "open":
        return [f"ch {made.chains} for the opening {made.opening}".rstrip()]
    if made.what == "hook sp":
        return [f"skipped chains that leave a ch-{made.chains} space"]
    if made.what == "ch":
        return [f"ch {made.chains}"]
    if made.what == "picot":
        return [f"ch-{made.chains} picot"]
    if made.what == "join":
        return ["join with ", stitch] if made.stitch and made.stitch.basic != "slip" else ["join"]
    where = _PLACES.get(made.into, "")
    into = f" around a {where}" if made.post else f" into a {where}" if where else ""
    into = into.replace("a ring", "the ring")
    return [stitch or "stitch", _LOOPS.get(made.loop, ""), into]
