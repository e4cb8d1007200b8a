"""What a part is made of: how many of each stitch, and how many chains, in each yarn.

    Thing("slate+foam", "st", Stitch("long"))   1,152
    Thing("slate+foam", "chain")                   66

Everything that takes yarn is in it: stitches and joins, loops of chains, turning and starting
chains, foundation stitches, slip stitches to a new first place, and the seams. The cost is that of
the written pattern, however often its rows are worked.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction

from loopwright.frozen import NamedTuple
from loopwright.ir.fabric import Fabric, Made, Place, WorkedPart, WorkedRow
from loopwright.ir.numbers import CannotReckon, whole
from loopwright.ir.pattern import Edge, Part, Pattern, Seam, Start
from loopwright.ir.runs import Runs
from loopwright.trade.stitches import SLIP, Stitch

CHAIN, TURNING, STITCH, JOIN = "chain", "turning", "st", "join"
FOUNDATION, SEAM = "foundation", "seam"

Names = Mapping[str, Fraction | int]


class Thing(NamedTuple):
    """A kind of thing that is made: in which yarn (as ``Made`` has it, empty for the part's own),
    whether a chain, a turning chain, a stitch, a join, a foundation stitch or a seam's."""

    yarn: str
    kind: str
    stitch: Stitch | None = None


Tally = dict[Thing, int]


def tally(pattern: Pattern, part: Part, fabric: Fabric) -> Tally:
    """What one part is made of in one size, once over."""
    parts = {one.name: one for one in fabric.parts}
    names: Names = {count.name: count.values[fabric.size] for count in pattern.counts}
    out: Tally = {}
    worked = parts.get(part.name)
    if worked is None:
        return out
    for thing, n in _start(part.start, fabric.size, names):
        _add(out, thing, n)
    for stretch, times in worked.rows:
        for row in stretch:
            _row(out, row, times)
    for line in part.lines:
        if isinstance(line, Seam):
            stitch = line.stitch or SLIP
            _add(out, Thing("", SEAM, stitch), _seam(line, part.name, parts, fabric.size, names))
    return out


def _add(out: Tally, thing: Thing, n: int) -> None:
    if n:
        out[thing] = out.get(thing, 0) + n


def _start(start: Start, size: int, names: Names) -> Iterator[tuple[Thing, int]]:
    for one in (start, *start.then):
        if one.n is None:
            continue
        if one.what == "chain":
            yield Thing("", CHAIN), whole(one.n, size, names)
            if one.ring:
                yield Thing("", JOIN, SLIP), 1
        elif one.what == "foundation":
            yield Thing("", FOUNDATION, one.stitch), whole(one.n, size, names)


def _row(out: Tally, row: WorkedRow, times: int) -> None:
    made = row.made.tally()
    for one, n in made.items():
        for thing, each in _things(one):
            _add(out, thing, each * n * times)
    if row.shift:
        yarn = next(iter(made)).yarn if made else ""
        _add(out, Thing(yarn, JOIN, SLIP), row.shift * times)


def _things(made: Made) -> Iterator[tuple[Thing, int]]:
    """What one thing made comes to. Skipped starting chains were made with the start."""
    yarn, what = made.yarn, made.what
    if what == "st":
        yield Thing(yarn, STITCH, made.stitch), 1
        if made.into == "own":  # the chain it goes into is not told of by itself
            yield Thing(yarn, CHAIN), 1 + len(made.also)
    elif what in ("as", "turn"):
        yield Thing(yarn, TURNING), made.chains
    elif what in ("ch", "open", "hook sp"):
        yield Thing(yarn, CHAIN), made.chains
    elif what == "join":
        yield Thing(yarn, JOIN, SLIP), 1
    elif what == "join sp" and made.stitch is not None:
        yield Thing(yarn, STITCH, made.stitch), 1
        yield Thing(yarn, CHAIN), max(made.chains - made.stitch.height, 0)
    elif what == "picot":
        yield Thing(yarn, CHAIN), made.chains
        yield Thing(yarn, JOIN, SLIP), 1


def _seam(seam: Seam, own: str, parts: Mapping[str, WorkedPart], size: int, names: Names) -> int:
    """How many stitches a seam has, openings left out."""
    try:
        if seam.runs:
            return sum(whole(n, size, names) for n, opening in seam.runs if not opening)
    except CannotReckon:
        return 0
    part = parts.get(seam.one.part or own)
    return _places(_edge(seam.one, part)) if part is not None else 0


def _edge(edge: Edge, part: WorkedPart) -> Runs[Place]:
    if edge.what == "last":
        return part.last
    return part.worked_start if edge.what == "start" else part.row_ends


def _places(edge: Runs[Place]) -> int:
    """The places of an edge that take a stitch: all but its spaces."""
    return sum(n for place, n in edge.tally().items() if place.what != "sp")
