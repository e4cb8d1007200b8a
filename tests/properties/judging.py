"""What becomes of a slip: whether it changes the fabric, and whether and where it is told.

    verdict = House(text).judge(slip)

Only errors count; advice does not stop a maker.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from loopwright.diagnostics import ERROR
from loopwright.ir.fabric import Fabric, Made, Place, WorkedPart, WorkedRow
from loopwright.ir.items import Kind
from loopwright.ir.runs import Runs
from loopwright.pipeline import Result, check_text
from loopwright.syntax.lines import cut
from properties.slips import HIDDEN, Slip, slips


class Verdict(NamedTuple):
    """What became of a slip. ``told`` is ``here`` (on its row), ``elsewhere`` or ``no``; ``errors``
    how many there were. ``change`` is what a slip that is not told changes: ``nothing``,
    ``numbers`` (a row makes another number of something, or another number of rows),
    ``places`` (the same numbers, worked elsewhere) or ``stitches`` (only which stitch it is); of
    one that is told elsewhere, ``numbers`` where its own row makes more or fewer stitches."""

    slip: Slip
    told: str
    errors: int
    change: str
    codes: tuple[str, ...]


class House:
    """A clean pattern, and what its slips are held against."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.result = check_text("clean", text)
        assert self.result.clean, [one.text for one in self.result.diagnostics]
        self.slips = slips(text, how_often(self.result))
        self.fabrics = self.result.fabrics
        assert self.result.pattern is not None
        self.terms = self.result.pattern.terms

    def stated(self, slip: Slip) -> str:
        """What the line of a slip says it comes to, as it is written; empty where it does not."""
        (line,) = [raw for start, raw in cut(self.text) if start == slip.line]
        return HIDDEN.sub("", line).partition("=")[2] if slip.stated else ""

    def judge(self, slip: Slip) -> Verdict:
        """Check the pattern with a slip in it."""
        result = check_text("slip", slip.made_in(self.text))
        errors = [one for one in result.diagnostics if one.severity == ERROR]
        if not errors:
            return Verdict(slip, "no", 0, self._change(result), ())
        end = next((start for start, _ in cut(result.source.text) if start > slip.line), None)
        here = any(
            slip.line <= one.span.start and (end is None or one.span.start < end) for one in errors
        )
        codes = tuple(one.code for one in errors)
        if here:
            return Verdict(slip, "here", len(errors), "", codes)
        change = (
            "numbers" if self._made(result, slip) != self._made(self.result, slip) else "places"
        )
        return Verdict(slip, "elsewhere", len(errors), change, codes)

    @staticmethod
    def _made(result: Result, slip: Slip) -> list[object]:
        """How many stitches a line makes, in every size."""
        assert result.pattern is not None
        out: list[object] = []
        for part in result.pattern.parts:
            indices = [n for n, line in enumerate(part.lines) if line.span.start == slip.line]
            for fabric in result.fabrics:
                worked = [one for one in fabric.parts if one.name == part.name]
                for line in (line for one in worked for line in one.lines if line.line in indices):
                    out.append(dict(line.counts).get(Kind("st"), 0))
        return out

    def _change(self, result: Result) -> str:
        pairs = list(zip(self.fabrics, result.fabrics, strict=True))
        if any(numbers(one) != numbers(two) for one, two in pairs):
            return "numbers"
        if any(not alike(one, two, _place_of) for one, two in pairs):
            return "places"
        if any(not alike(one, two, _all_of) for one, two in pairs):
            return "stitches"
        return "nothing"


def how_often(result: Result) -> dict[int, str]:
    """For each bracket, by where it begins, how often it is worked in each size; not for one that
    is worked now so often and now so."""
    found: list[dict[int, set[int]]] = []
    for fabric in result.fabrics:
        times: dict[int, set[int]] = {}
        for row in rows(fabric):
            for span, n in row.repeats:
                times.setdefault(span.start, set()).add(n)
        found.append(times)
    out = {}
    for start in found[0]:
        values = [times.get(start, set()) for times in found]
        if all(len(one) == 1 for one in values):
            first, *rest = (str(n) for one in values for n in one)
            out[start] = f"{first} ({', '.join(rest)})" if rest else first
    return out


def rows(fabric: Fabric) -> Iterator[WorkedRow]:
    """Every row of a fabric."""
    for part in fabric.parts:
        yield from rows_of(part)


def rows_of(part: WorkedPart) -> Iterator[WorkedRow]:
    """Every row of a part."""
    for stretch, times in part.rows:
        for _ in range(times):
            yield from stretch


def numbers(fabric: Fabric) -> list[object]:
    """How many there are of everything in a fabric that has a number, whatever its kind."""
    out: list[object] = [fabric.rows]
    for part in fabric.parts:
        out.append((part.row_count, _sizes(part.start), _sizes(part.last)))
        for row in rows_of(part):
            out.append((_sizes(row.edge), len(row.made)))
    return out


def _sizes(edge: Runs[Place]) -> tuple[object, ...]:
    tally: dict[object, int] = {}
    for place, n in edge.tally().items():
        key = (place.what, place.chains)
        tally[key] = tally.get(key, 0) + n
    return tuple(sorted(tally.items(), key=str))


def alike(one: Fabric, two: Fabric, by: object) -> bool:
    """Whether two fabrics have the same made things, as far as ``by`` tells them apart."""
    assert callable(by)
    for row, other in zip(rows(one), rows(two), strict=False):
        if row.made != other.made and [by(made) for made in row.made.expand()] != [
            by(made) for made in other.made.expand()
        ]:
            return False
    return True


def _place_of(made: Made) -> object:
    height = made.what in ("ch", "open") and made.chains
    return (made.what, height, made.into, made.step, made.also, made.chain)


def _all_of(made: Made) -> object:
    return made._replace(item=0)
