"""Turning chains that are much shorter or taller than the row they begin.

The table (E of the trade's tables, ``trade.turning``) has one chain for a plain stitch, two for a
half, three for a long one and so on. Its notes say that makers leave it by one on purpose: ch 1
with half stitches (lowdown), ch 2 with long ones. So one more or one less is nobody's slip.
"""

from __future__ import annotations

from collections.abc import Iterator

from loopwright.ir.fabric import Fact, Made, WorkedRow
from loopwright.ir.heights import Owns
from loopwright.ir.runs import Runs
from loopwright.measure.fit.seen import Found, One, Seen, rows_of
from loopwright.trade.stitches import Stitch
from loopwright.trade.turning import TURNING

ON_PURPOSE = 1
"""Chains by which makers leave the table on purpose (lowdown; ch 2 with long stitches is common
practice without a source)."""

POSTS_LOWER = 1
"""A row of post stitches stands about a chain lower (common practice without a source)."""


def chains(seen: Seen) -> Iterator[Found]:
    """The first row of each part whose chain is far from its stitch, and which others are."""
    owns = {own.name: own for own in seen.pattern.stitches}
    for one in seen.parts:
        off = [(row, found) for row in rows_of(one.worked) if (found := _off(row, owns))]
        if off:
            yield _told(one, off)


def _told(one: One, off: list[tuple[WorkedRow, tuple[Made, Stitch, int]]]) -> Found:
    row, (chain, stitch, usual) = off[0]
    others = {other.line for other, _ in off} - {row.line}
    return one.size.size, Fact(
        "turning-chain-height",
        row.spans[chain.item],
        one.part.name,
        row.label,
        (
            ("chains", chain.chains),
            ("stitch", stitch),
            ("usual", usual),
            ("others", len(others)),
        ),
    )


def _off(row: WorkedRow, owns: Owns) -> tuple[Made, Stitch, int] | None:
    """The chain that begins a row, with the stitch it is too far from and that one's chains."""
    chain = _first(row.made)
    if chain is None or chain.what not in ("turn", "as") or not chain.chains:
        return None  # stitches that count as another have no chains to be too few
    if chain.what == "as":
        tall = [chain.stitch] if chain.stitch is not None else []
    elif any(made.what == "ch" for made in row.made.tally()):
        return None  # in openwork the chain may be half a loop as well
    else:
        tall = [stitch for made in row.made.tally() if (stitch := _stitch(made, owns)) is not None]
    known = [(TURNING[one.basic].chains, one) for one in tall if one.basic in TURNING]
    if not known:
        return None
    least, low = min(known, key=lambda pair: (_least(*pair), pair[0]))
    most, high = max(known, key=lambda pair: pair[0])
    if chain.chains < _least(least, low):
        return chain, low, least
    if chain.chains > most + ON_PURPOSE:
        return chain, high, most
    return None


def _least(chains: int, stitch: Stitch) -> int:
    return chains - ON_PURPOSE - (POSTS_LOWER if stitch.post else 0)


def _first(made: Runs[Made]) -> Made | None:
    return made.run_at(0)[0] if made.length else None


def _stitch(made: Made, owns: Owns) -> Stitch | None:
    if made.what not in ("st", "as"):
        return None
    own = owns.get(made.own)
    return own.height if own is not None else made.stitch
