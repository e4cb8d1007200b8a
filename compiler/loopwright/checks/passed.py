"""Spaces of the row below that a row goes past: `dc in each st across` works into no chain.

over 16 sts and 2 ch-2 sps, dc in each st across = 20 sts  ->  dc in each st and ch across
"""

from __future__ import annotations

from collections.abc import Callable

from loopwright.checks.chains import SILENT
from loopwright.checks.told import Told, kind_words
from loopwright.ir import items as ir
from loopwright.ir.fabric import Fact
from loopwright.ir.items import ANY_STITCH, Kind
from loopwright.ir.numbers import Given
from loopwright.trade.terms import abbreviation


def _of(fact: Fact) -> tuple[tuple[int, int], ...]:
    found: tuple[tuple[int, int], ...] = fact.get("passed") or ()  # type: ignore[assignment]
    return found


def spaces(told: Told) -> str:
    """The spaces passed, in words; empty where there are none, or others in another size."""
    found = {_of(fact) for _, fact in told.facts}
    if len(found) != 1:
        return ""
    return " and ".join(f"{n} {kind_words(Kind('sp', ch), told.terms, n)}" for ch, n in found.pop())


def all_chains(told: Told, wanted: Callable[[Fact], int]) -> bool:
    """Whether in every size as many are wanted as there are chains in the spaces passed."""
    chains = [sum(chains * n for chains, n in _of(fact)) for _, fact in told.facts]
    return all(chains) and chains == [wanted(fact) for _, fact in told.facts]


def with_chains(told: Told) -> str:
    """The one `in each st` of a row, with the chains; empty where there is not just one."""
    items = told.row.items if told.row is not None else ()
    found = [one for one in items if isinstance(one, ir.Work) and _each(one)]
    if len(found) != 1 or found[0].n != Given(1) or found[0].own:
        return ""
    (work,) = found
    loop = {"": "", "back": " blo", "front": " flo"}.get(work.loop)
    scope = work.target.scope if work.target is not None else None
    if loop is None or scope is None or scope.how not in ("end", "here"):
        return ""
    word = scope.word or ("around" if "round" in told.fact.row else "across")
    return f"{abbreviation(work.stitch, told.terms)}{loop} in each st and ch {word}"


def plain_with_chains(told: Told) -> str:
    """The plain stitches told of, which are all that a row works, into stitches and chains."""
    items = told.row.items if told.row is not None else ()
    found = [one for one in items if not isinstance(one, SILENT) and not isinstance(one, ir.Chain)]
    work = found[0] if len(found) == 1 else None
    if not isinstance(work, ir.Work) or work.target is not None:
        return ""
    if work.own or work.loop or work.stitch.together > 1 or work.stitch.post:
        return ""
    end = "around" if "round" in told.fact.row else "across"
    return f"{abbreviation(work.stitch, told.terms)} in each st and ch {end}"


def _each(work: ir.Work) -> bool:
    """Whether something is worked once in each stitch of a stretch."""
    target = work.target
    if target is None or target.how != "each" or target.kind != ANY_STITCH or target.post:
        return False
    return work.stitch.together == 1 and not work.stitch.post
