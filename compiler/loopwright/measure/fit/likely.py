"""Gauges that the yarn's weight and the hook do not account for.

The trade body's table (A of the trade's tables, ``trade.weights``) gives each weight its stitches
over 4 in and its hooks, as guidelines: the pattern's gauge wins. Makers work a step or two away
from it on purpose, toys firm on a small hook, shawls loose on a large one. So a gauge is called
unlikely only when it fits neither the weight of the yarn nor the hook it is worked with, each with
the weights next to it; or when the hook is more than two weights away from the yarn. What is
stuffed is worked tight, so that the filling does not show: a hook of one weight more is used there.

The table counts plain stitches. Taller ones are taken to be as wide (common practice without a
source).
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction

from loopwright.ir.fabric import Fact
from loopwright.ir.pattern import Gauge, Hook, Pattern, Yarn
from loopwright.ir.texts import words_in
from loopwright.measure.fit.seen import Found, Seen
from loopwright.trade.toys import STUFFED
from loopwright.trade.weights import OVER_INCHES, WEIGHTS

NEXT_TO = 1
"""Weights on either side that a gauge may belong to (common practice without a source)."""

HOOK_AWAY = 2
"""Weights on either side whose hooks are used on purpose (common practice without a source)."""

STUFFED_AWAY = HOOK_AWAY + 1
"""Finer weights whose hooks are used for what is stuffed (common practice without a source)."""

OVER = Fraction(254, 10) * OVER_INCHES


def gauges(seen: Seen) -> Iterator[Found]:
    """Each gauge that some part uses, once; of a file that is there to be used, each there is."""
    pattern = seen.pattern
    yarns = {yarn.name: yarn for yarn in pattern.yarns}
    hooks = {hook.name: hook for hook in pattern.hooks}
    finer = STUFFED_AWAY if _stuffed(pattern) else HOOK_AWAY
    used = {one.gauge.name: one.gauge for one in seen.parts}
    for gauge in pattern.gauges if pattern.shared else used.values():
        yarn = yarns.get(gauge.yarns[0]) if len(gauge.yarns) == 1 else None
        one_each = gauge.stitch.together == 1 and not gauge.stitch.many
        if yarn is None or yarn.weight is None or not one_each:
            continue
        for size in range(len(pattern.sizes)):
            found = _unlikely(gauge, yarn, hooks.get(gauge.hook), size, finer)
            if found is not None:
                yield size, found


def _stuffed(pattern: Pattern) -> bool:
    """Whether a pattern's words speak of a toy or of filling."""
    words = " ; ".join(words_in(pattern))
    return re.search(rf"\b(?:{'|'.join(STUFFED)})\b", words, re.IGNORECASE) is not None


def _unlikely(gauge: Gauge, yarn: Yarn, hook: Hook | None, size: int, finer: int) -> Fact | None:
    weight = yarn.weight or 0
    over = gauge.stitches * OVER / gauge.over
    mm = hook.mm[size] if hook is not None else None
    if mm is not None and not _near_hook(mm, weight, finer):
        return _fact(gauge, yarn, over, mm, "hook")
    suits = [weight, *(_weights_of(mm) if mm is not None else ())]
    if any(_near_stitches(over, one) for one in suits):
        return None
    return _fact(gauge, yarn, over, mm, "stitches")


def _fact(gauge: Gauge, yarn: Yarn, over: Fraction, mm: Fraction | None, what: str) -> Fact:
    weight = WEIGHTS[yarn.weight or 0]
    least, most = weight.stitches
    return Fact(
        "gauge-unlikely",
        gauge.span,
        "",
        "",
        (
            ("what", what),
            ("gauge", gauge.name),
            ("yarn", yarn.name),
            ("weight", weight.category),
            ("name", weight.name),
            ("stitches", round(over)),
            ("least", least),
            ("most", most),
            ("hook", _mm(mm) if mm is not None else ""),
            ("smallest", _mm(weight.hook_mm[0])),
            ("largest", _mm(weight.hook_mm[1]) if weight.hook_mm[1] else ""),
        ),
    )


def _mm(mm: Fraction) -> str:
    return f"{float(mm):g} mm"


def _near_stitches(over: Fraction, weight: int) -> bool:
    """Whether so many stitches belong to a weight or one next to it. Thread finer than the table
    goes up to any number."""
    finer, thicker = _around(weight, NEXT_TO)
    most = None if finer == 0 else WEIGHTS[finer].stitches[1]
    least = WEIGHTS[thicker].stitches[0] or 0
    return over >= least and (most is None or over <= most)


def _near_hook(mm: Fraction, weight: int, away: int) -> bool:
    """Whether a hook is for a weight, for one so much finer at most, or for one thicker."""
    finer, _ = _around(weight, away)
    _, thicker = _around(weight, HOOK_AWAY)
    smallest = Fraction(0) if finer == 0 else WEIGHTS[finer].hook_mm[0]
    largest = WEIGHTS[thicker].hook_mm[1]
    return mm >= smallest and (largest is None or mm <= largest)


def _weights_of(mm: Fraction) -> tuple[int, ...]:
    """The weights that a hook is for."""
    return tuple(
        one.category
        for one in WEIGHTS
        if one.hook_mm[0] <= mm and (one.hook_mm[1] is None or mm <= one.hook_mm[1])
    )


def _around(weight: int, steps: int) -> tuple[int, int]:
    return max(weight - steps, 0), min(weight + steps, len(WEIGHTS) - 1)
