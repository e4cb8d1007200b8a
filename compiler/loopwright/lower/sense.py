"""Lines that can be read and make no sense as they are: `skip first st`, where `first` is no count.

What was said of them is looked at again: where a habit of makers stands at that place, it is told
instead, and the line is worked as it is meant.
"""

from __future__ import annotations

from contextlib import suppress

from loopwright.diagnostics import Diagnostic
from loopwright.lower import rows
from loopwright.lower.context import Broken, Context
from loopwright.lower.mending import (
    LONGEST,
    Mended,
    Slip,
    habits_of,
    mended,
    places_of,
    reading,
    rule_of,
    slip_at,
    told,
)
from loopwright.syntax import lines as syntax
from loopwright.syntax.parser import parse
from loopwright.syntax.tree import Misread

MISLED = ("unknown-stitch", "unknown-name")
"""What is said of a word that was taken for another thing than was meant."""


def reconsidered(ctx: Context, line: syntax.Line, before: int) -> syntax.Line:
    """Look again at what was said since ``before`` on a line that was read and makes no sense: the
    habits behind it are told in its place. The line as it is meant, where that is certain."""
    known = mended(ctx, line) if line.misread is None and line.start in ctx.mended else None
    found = known or Mended((), line.text, True, True)
    already = len(found.slips)
    if not reading(found.text).whole or len(found.text) > LONGEST:
        return line
    for at, one in enumerate(ctx.out[before:], before):
        better = _sense(ctx, line, found, one) if one.code in MISLED else None
        if better is not None:
            found = better
            ctx.out[at] = told(line, found, len(found.slips) - 1)
    if len(found.slips) == already or not found.certain or rule_of(found.text) != "row_line":
        return line
    tree = parse("row_line", found.text)
    assert not isinstance(tree, Misread)
    ctx.moved = found.slips[::-1]
    return line._replace(tree=tree)


def _sense(ctx: Context, line: syntax.Line, found: Mended, one: Diagnostic) -> Mended | None:
    """A line with one more slip mended, at the place of a message, if there is less to say of it
    then."""
    text = found.text
    start, end = (_after(found.slips, at - line.start) for at in one.span)
    said = _said(ctx, text)
    for habit in habits_of(rule_of(text), ctx.terms.name):
        for match in places_of(ctx, habit, text, end):
            slip = slip_at(ctx, habit, match, text)
            if match.end() < start or slip.new == slip.old or ctx.tries <= 0:
                continue
            ctx.tries -= 1
            better = slip.mend(text)
            if reading(better).whole and (not said or _said(ctx, better) < said):
                certain = found.certain and habit.certain
                return Mended((*found.slips, slip), better, True, certain)
    return None


def _said(ctx: Context, text: str) -> int:
    """How many words of a row make no sense; nought for another line."""
    tree = parse(rule_of(text), text)
    if isinstance(tree, Misread) or tree.rule != "row_line":
        return 0
    before, foreigners = len(ctx.out), dict(ctx.foreigners)
    with suppress(Broken):
        rows.row(ctx, tree)
    said = [one.code for one in ctx.out[before:]]
    del ctx.out[before:]
    ctx.foreigners = foreigners
    return sum(one in MISLED for one in said)


def _after(slips: tuple[Slip, ...], at: int) -> int:
    """The place in a line as mended of a place in the line as written."""
    for slip in slips:
        if at >= slip.end:
            at += len(slip.new) - len(slip.old)
    return at
