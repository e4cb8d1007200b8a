"""Sequences kept as runs: how a row of 10^12 stitches is held like one of ten.

``Runs`` is an immutable sequence of atoms (any hashable that is not a ``Runs``) written as
(node, times) pairs, where a node is an atom or again a ``Runs``:

    tr tr tr fptr tr tr tr fptr   =   ((tr, 3), (fptr, 1)) twice

Every question about a position costs by the depth of the writing, never by the length.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable, Hashable, Iterable, Iterator
from itertools import repeat
from typing import Generic, TypeVar

from loopwright.frozen import NamedTuple

Atom = TypeVar("Atom", bound=Hashable)


class Level(NamedTuple):
    """One level of the writing around a position: a run of ``times`` units of ``unit`` atoms
    that begins at position ``start``."""

    start: int
    unit: int
    times: int


class Runs(Generic[Atom]):
    """An immutable sequence in runs; equal writing compares equal."""

    __slots__ = ("_back", "_hash", "_tally", "length", "pairs", "starts")

    length: int

    def __init__(self, pairs: tuple[tuple[Atom | Runs[Atom], int], ...]) -> None:
        self.pairs = pairs
        starts = []
        at = 0
        for node, times in pairs:
            starts.append(at)
            at += (node.length if type(node) is Runs else 1) * times
        self.starts = starts
        self.length = at
        self._hash: int | None = None
        self._tally: dict[Atom, int] | None = None
        self._back: Runs[Atom] | None = None

    def __len__(self) -> int:
        return self.length

    def __bool__(self) -> bool:
        return self.length > 0

    def __hash__(self) -> int:
        if self._hash is None:
            self._hash = hash(self.pairs)
        return self._hash

    def __eq__(self, other: object) -> bool:
        if self is other:
            return True
        return (
            type(other) is Runs
            and self.length == other.length
            and hash(self) == hash(other)
            and self.pairs == other.pairs
        )

    def __repr__(self) -> str:
        return f"Runs({self.pairs!r})"

    def tally(self) -> dict[Atom, int]:
        """How many of each atom, in order of first appearance."""
        if self._tally is None:
            out: dict[Atom, int] = {}
            for node, times in self.pairs:
                if type(node) is Runs:
                    for atom, n in node.tally().items():
                        out[atom] = out.get(atom, 0) + n * times
                else:
                    out[node] = out.get(node, 0) + times  # type: ignore[index,arg-type]
            self._tally = out
        return self._tally

    def reversed(self) -> Runs[Atom]:
        """The same sequence from its end to its start."""
        if self._back is None:
            self._back = Runs(
                tuple(
                    (node.reversed() if type(node) is Runs else node, times)
                    for node, times in reversed(self.pairs)
                )
            )
        return self._back

    def run_at(self, at: int) -> tuple[Atom, int, int]:
        """The atom at a position and the stretch [start, end) of its innermost run."""
        base = 0
        runs = self
        while True:
            i = bisect_right(runs.starts, at) - 1
            node, times = runs.pairs[i]
            start = runs.starts[i]
            if type(node) is not Runs:
                return node, base + start, base + start + times  # type: ignore[return-value]
            turn = (at - start) // node.length
            skip = start + turn * node.length
            base += skip
            at -= skip
            runs = node

    def levels(self, at: int) -> list[Level]:
        """The runs around a position, outermost first; positions are of the whole sequence."""
        out = []
        base = 0
        runs = self
        while True:
            i = bisect_right(runs.starts, at) - 1
            node, times = runs.pairs[i]
            start = runs.starts[i]
            if type(node) is not Runs:
                if times > 1:
                    out.append(Level(base + start, 1, times))
                return out
            if times > 1:
                out.append(Level(base + start, node.length, times))
            turn = (at - start) // node.length
            skip = start + turn * node.length
            base += skip
            at -= skip
            runs = node

    def find(self, at: int, wanted: Callable[[Atom], bool]) -> int:
        """The first position at or after ``at`` whose atom is wanted, or -1."""
        if at >= self.length:
            return -1
        i = bisect_right(self.starts, at) - 1 if at > 0 else 0
        first = self.pairs[i][0]
        if type(first) is not Runs and wanted(first):  # type: ignore[arg-type]
            return max(at, 0)
        if not any(map(wanted, self.tally())):
            return -1
        for k in range(i, len(self.pairs)):
            node, times = self.pairs[k]
            start = self.starts[k]
            if type(node) is not Runs:
                if wanted(node):  # type: ignore[arg-type]
                    return max(start, at)
                continue
            if not any(map(wanted, node.tally())):
                continue
            inside = max(at - start, 0)
            turn, rest = divmod(inside, node.length)
            found = node.find(rest, wanted)
            if found >= 0:
                return start + turn * node.length + found
            if turn + 1 < times:
                return start + (turn + 1) * node.length + node.find(0, wanted)
        return -1

    def before(self, at: int, wanted: Callable[[Atom], bool]) -> int:
        """How many wanted atoms stand before a position."""
        total = 0
        for k, (node, times) in enumerate(self.pairs):
            start = self.starts[k]
            if start >= at:
                break
            if type(node) is not Runs:
                if wanted(node):  # type: ignore[arg-type]
                    total += min(times, at - start)
                continue
            each = sum(n for atom, n in node.tally().items() if wanted(atom))
            if not each:
                continue
            turn, rest = divmod(min(at - start, node.length * times), node.length)
            total += each * turn + (node.before(rest, wanted) if rest else 0)
        return total

    def nth(self, n: int, wanted: Callable[[Atom], bool]) -> int:
        """The position of the wanted atom number ``n``, counted from 0, or -1."""
        for k, (node, times) in enumerate(self.pairs):
            start = self.starts[k]
            if type(node) is not Runs:
                if wanted(node):  # type: ignore[arg-type]
                    if n < times:
                        return start + n
                    n -= times
                continue
            each = sum(m for atom, m in node.tally().items() if wanted(atom))
            if n < each * times:
                turn, rest = divmod(n, each)
                return start + turn * node.length + node.nth(rest, wanted)
            n -= each * times
        return -1

    def slice(self, start: int, end: int) -> Runs[Atom]:
        """The part from ``start`` up to ``end``."""
        out: Builder[Atom] = Builder()
        for k, (node, times) in enumerate(self.pairs):
            unit = node.length if type(node) is Runs else 1
            low = max(start - self.starts[k], 0)
            high = min(end - self.starts[k], unit * times)
            if low >= high:
                continue
            if type(node) is not Runs:
                out._put(node, high - low)
                continue
            first, skip = divmod(low, unit)
            last, rest = divmod(high, unit)
            if first == last:
                out.extend(node.slice(skip, rest))
                continue
            if skip:
                out.extend(node.slice(skip, unit))
                first += 1
            out.repeat(node, last - first)
            if rest:
                out.extend(node.slice(0, rest))
        return out.done()

    def expand(self) -> Iterator[Atom]:
        """Every atom, one at a time: for drawing, and only where the length is known small."""
        for node, times in self.pairs:
            if type(node) is Runs:
                for _ in range(times):
                    yield from node.expand()
            else:
                yield from repeat(node, times)

    def atoms(self) -> list[Atom]:
        """The same all at once, for what goes over every one of them."""
        out: list[Atom] = []
        for node, times in self.pairs:
            out += (node.atoms() if type(node) is Runs else [node]) * times  # type: ignore[arg-type]
        return out


class Builder(Generic[Atom]):
    """Writes a sequence down in runs, merging neighbours that are the same."""

    __slots__ = ("pairs",)

    def __init__(self) -> None:
        self.pairs: list[tuple[Atom | Runs[Atom], int]] = []

    def add(self, atom: Atom, times: int = 1) -> None:
        """Append an atom, ``times`` times."""
        self._put(atom, times)

    def repeat(self, runs: Runs[Atom], times: int) -> None:
        """Append a whole sequence, ``times`` times."""
        if times < 1 or not runs.length:
            return
        if len(runs.pairs) == 1:
            node, inner = runs.pairs[0]
            self._put(node, inner * times)
        elif times == 1:
            for node, inner in runs.pairs:
                self._put(node, inner)
        else:
            self._put(runs, times)

    def extend(self, runs: Runs[Atom]) -> None:
        """Append a whole sequence once."""
        for node, times in runs.pairs:
            self._put(node, times)

    def _put(self, node: Atom | Runs[Atom], times: int) -> None:
        if times < 1:
            return
        pairs = self.pairs
        if pairs and pairs[-1][0] == node and type(pairs[-1][0]) is type(node):
            pairs[-1] = (node, pairs[-1][1] + times)
        else:
            pairs.append((node, times))

    def done(self) -> Runs[Atom]:
        """The sequence so far."""
        return Runs(tuple(self.pairs))


def runs_of(atoms: Iterable[Atom]) -> Runs[Atom]:
    """A sequence from single atoms; neighbours that are the same become one run."""
    out: Builder[Atom] = Builder()
    for atom in atoms:
        out.add(atom)
    return out.done()


def run(atom: Atom, times: int) -> Runs[Atom]:
    """One atom, so many times."""
    return Runs(((atom, times),)) if times > 0 else Runs(())
