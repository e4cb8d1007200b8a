"""Settling: one writing for equal edges, so that a row that comes round again is known by it.

A wave worked over a wave leaves the same edge, but written another way: what was carried on in one
go begins and ends a repeat later than in the row below.

    6 tr, tog, 11 tr, tog, 7 tr, (4 tr, tog, 7 tr) 5 times, 3 tr
    (6 tr, tog, 5 tr) 7 times, 3 tr

Each run of repeats is begun as far back as it can be, and takes in what goes on like it.
"""

from __future__ import annotations

from typing import TypeAlias

from loopwright.ir.fabric import Place
from loopwright.ir.runs import Builder, Runs

Pairs: TypeAlias = "list[tuple[Place | Runs[Place], int]]"


def settled(edge: Runs[Place]) -> Runs[Place]:
    """The same edge, its repeats begun as early and gone on as long as they can be."""
    if not any(type(node) is Runs and times > 1 for node, times in edge.pairs):
        return edge
    done: Pairs = []
    ahead: Pairs = list(reversed(edge.pairs))
    while ahead:
        node, times = ahead.pop()
        if type(node) is not Runs or times < 2:
            done.append((node, times))
            continue
        back = _alike(done, node, backward=True)
        shift = back % node.length
        unit = _joined(
            node.slice(node.length - shift, node.length), node.slice(0, node.length - shift)
        )
        on = shift + _alike(ahead, _joined(unit.slice(shift, unit.length), unit.slice(0, shift)))
        done.append((unit, times + back // node.length + on // node.length))
        done.extend(unit.slice(0, on % node.length).pairs)
    out: Builder[Place] = Builder()
    for node, times in done:
        if type(node) is Runs:
            out.repeat(node, times)
        else:
            out.add(node, times)  # type: ignore[arg-type]
    return out.done()


def _joined(one: Runs[Place], two: Runs[Place]) -> Runs[Place]:
    out: Builder[Place] = Builder()
    out.extend(one)
    out.extend(two)
    return out.done()


def _alike(pairs: Pairs, unit: Runs[Place], *, backward: bool = False) -> int:
    """Take from the end of ``pairs`` what is like the unit again and again; how many places.

    The end of ``pairs`` is what stands next to the unit; ``backward`` reads the unit from its end.
    """
    step = -1 if backward else 1
    at = len(unit.pairs) - 1 if backward else 0
    left = unit.pairs[at][1]
    taken = 0
    while pairs:
        node, times = pairs[-1]
        wanted = unit.pairs[at][0]
        if type(node) is not type(wanted) or node != wanted:
            break
        many = min(times, left)
        taken += many * (node.length if type(node) is Runs else 1)
        pairs.pop()
        if many < times:
            pairs.append((node, times - many))
        left -= many
        if not left:
            at = (at + step) % len(unit.pairs)
            left = unit.pairs[at][1]
    return taken
