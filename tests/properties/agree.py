"""Holding the two workers against each other: counts, rows, the place of every stitch, faults."""

from __future__ import annotations

from collections.abc import Iterator

from loopwright.ir.fabric import Fabric, Made, WorkedPart, WorkedRow
from loopwright.ir.items import Kind
from loopwright.ir.pattern import Pattern
from loopwright.pipeline import check_text
from naive import NaivePart, NaiveRow, work_pattern
from naive.results import CountKey, Counts

STITCHES = ("st", "as", "skip as")
PLACES = ("st", "sp", "ch", "end", "gap")


def disagreements(text: str) -> list[str]:
    """Everything in which the two workers differ over a pattern, in words; empty if nothing."""
    result = check_text("made up", text)
    if result.pattern is None:
        return [str([one.text for one in result.diagnostics])]
    out = []
    for size, fabric in enumerate(result.fabrics):
        out += _in_size(result.pattern, size, fabric)
    return out


def _in_size(pattern: Pattern, size: int, fabric: Fabric) -> list[str]:
    naive = work_pattern(pattern, size)
    parts = {part.name: part for part in fabric.parts}
    out = []
    for name, part in naive.parts.items():
        said = _part(part, parts.get(name), fabric)
        out += [f"{pattern.sizes[size]}, {name}: {one}" for one in said]
    return out


def _part(naive: NaivePart, worked: WorkedPart | None, fabric: Fabric) -> Iterator[str]:
    theirs = next(((fact.kind, fact.row) for fact in fabric.facts if fact.part == naive.name), None)
    ours = tuple(naive.fault) if naive.fault else None
    if theirs != ours:
        yield f"fault: runs say {theirs}, one by one says {ours}"
        return
    if worked is None:
        if not ours:
            yield "runs do not work the part"
        return
    rows = [row for stretch, times in worked.rows for _ in range(times) for row in stretch]
    if ours is None and len(rows) != len(naive.rows):
        yield f"rows: runs say {len(rows)}, one by one says {len(naive.rows)}"
    for number, (row, one) in enumerate(zip(rows, naive.rows, strict=False), 1):
        yield from (f"row {number} ({one.label}): {said}" for said in _row(row, one))
    if ours is None:
        yield from _lines(naive, worked)


def _lines(naive: NaivePart, worked: WorkedPart) -> Iterator[str]:
    theirs = {line.line: line for line in worked.lines}
    for one in naive.lines:
        line = theirs.get(one.line)
        if line is None or line.worked != one.worked:
            yield f"line {one.line}: runs work {line and line.worked}, one by one {one.worked}"
        elif one.worked:
            yield from _counts(line.counts, one.counts)


def _row(row: WorkedRow, one: NaiveRow) -> Iterator[str]:
    if row.line != one.line:
        yield f"runs say line {row.line}, one by one {one.line}"
    yield from _counts(row.counts, one.counts)
    made = list(row.made.expand())
    yarns = [atom.yarn for atom in made if atom.what in STITCHES]
    for k, (theirs, ours) in enumerate(zip(yarns, one.yarns, strict=False)):
        if theirs != ours:
            yield f"stitch {k}: runs make it with {theirs}, one by one with {ours}"
            break
    places = list(places_of(iter(made)))
    if len(places) != len(one.places):
        yield f"stitches made: runs say {len(places)}, one by one {len(one.places)}"
    for k, (place, where) in enumerate(zip(places, one.places, strict=False)):
        if where is not None and place != where:
            yield f"stitch {k}: runs put it in {place}, one by one in {where}"
            return


def places_of(made: Iterator[Made]) -> Iterator[tuple[int, ...]]:
    """The places of each stitch, from what each says of the one before it."""
    at = -1
    for one in made:
        places: tuple[int, ...] = ()
        if one.into in PLACES:
            first = at + one.step
            places = (first, *(first + more for more in one.also))
            at = places[-1]
        if one.what in STITCHES:
            yield places


def _counts(theirs: tuple[tuple[Kind, int], ...], ours: Counts) -> Iterator[str]:
    found = {key_of(kind): n for kind, n in theirs if n}
    wanted = {key: n for key, n in ours.items() if n}
    if found != wanted:
        differs = {
            str(key): (found.get(key, 0), wanted.get(key, 0))
            for key in {**found, **wanted}
            if found.get(key, 0) != wanted.get(key, 0)
        }
        yield f"counts: (runs, one by one) {differs}"


def key_of(kind: Kind) -> CountKey:
    """The naive worker's key for a kind that is counted."""
    if kind.what == "st":
        return "sts"
    if kind.what == "sp":
        return ("sp", kind.chains)
    if kind.stitch is not None:
        return kind.stitch
    return kind.own or kind.what
