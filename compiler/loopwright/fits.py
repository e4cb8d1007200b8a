"""Which numbers come out: the values of a count with which the whole pattern works in every size.

The pattern is worked with one value after another, and the rule that the good ones keep is read
off: "a multiple of 4", "a multiple of 6 plus 1". Nothing is guessed: the rule holds for every
value that was tried, and says which those were.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import gcd

from loopwright.diagnostics import ERROR, Diagnostic, Related
from loopwright.ir.pattern import Count, Pattern, RepeatRows, Row
from loopwright.lower import lower
from loopwright.source import Span
from loopwright.syntax import Line
from loopwright.work import comes_out

REACH = 36
"""How far below the smallest and above the largest value a designer would look."""

MOST_WORK = 30_000
"""Written rows worked in all tries together; the reach is cut down to keep to it."""

MOST_COUNTS = 8
"""Counts of a pattern whose values are tried when something does not come out."""

MOST_RELATED = 6
"""Other rows named beside the first that does not come out."""

MENDED = frozenset(
    (
        "repeat-does-not-fit",
        "edge-ran-out",
        "places-left-over",
        "not-whole",
        "below-nought",
        "seam-edges-differ",
    )
)
"""Messages that another value of a count can mend."""


@dataclass(frozen=True, slots=True)
class Fit:
    """What is known of one count: its values, the values tried (from, to), those that work, and
    the rules as (multiple, plus); ``needed`` is None where the values that work keep no such rule,
    ``written`` where none is written."""

    name: str
    span: Span
    values: tuple[int, ...]
    tried: tuple[int, int]
    works: tuple[int, ...]
    written: tuple[int, int] | None
    needed: tuple[int, int] | None


def fits(lines: list[Line], pattern: Pattern) -> tuple[Fit, ...]:
    """What every count of a pattern may be, all else as written."""
    return tuple(_fit(lines, pattern, count) for count in pattern.counts)


def _fit(lines: list[Line], pattern: Pattern, count: Count) -> Fit:
    written = (count.multiple, count.plus) if (count.multiple, count.plus) != (1, 0) else None
    reach = _reach(pattern, count)
    low = max(1, min(count.values) - reach)
    high = max(count.values) + reach
    works = tuple(value for value in range(low, high + 1) if _works(lines, count.name, value))
    needed = rule(works, low, high)
    return Fit(count.name, count.span, count.values, (low, high), works, written, needed)


def _reach(pattern: Pattern, count: Count) -> int:
    rows = sum(isinstance(line, Row | RepeatRows) for part in pattern.parts for line in part.lines)
    spread = max(count.values) - min(count.values)
    tries = MOST_WORK // max(rows * len(pattern.sizes), 1)
    return max(min(REACH, (tries - spread) // 2), 4) if spread < tries else 4


def _works(lines: list[Line], name: str, value: int) -> bool:
    lowered = lower(lines, instead={name: value})
    pattern = lowered.pattern
    if pattern is None or not lowered.whole:
        return False
    wrong = ("not-whole", "below-nought", "not-a-multiple")
    if any(one.code in wrong for one in lowered.diagnostics):
        return False
    return all(comes_out(pattern, size) for size in range(len(pattern.sizes)))


def rule(works: tuple[int, ...], low: int, high: int) -> tuple[int, int] | None:
    """The rule (multiple, plus) that the values keep, and no other value from the smallest of
    them up to ``high``; None where there is none, or too few values to tell."""
    if len(works) < 2:
        return None
    multiple = 0
    for value in works:
        multiple = gcd(multiple, value - works[0])
    if works != tuple(range(works[0], high + 1, multiple)):
        return None
    return multiple, works[0] % multiple


def rule_text(kept: tuple[int, int] | None) -> str:
    """A rule in words."""
    if kept is None:
        return "no rule"
    multiple, plus = kept
    if multiple == 1:
        return "any number"
    if multiple == 2:
        return "odd" if plus else "even"
    return f"a multiple of {multiple}" + (f" plus {plus}" if plus else "")


def advise(
    found: tuple[Diagnostic, ...], lines: list[Line], pattern: Pattern
) -> tuple[Diagnostic, ...]:
    """The messages, with the values of a count that would mend them where there are any.

    Where another value of one count makes every row come out, the rows that do not are one slip:
    the first keeps its message, with the others beside it.
    """
    if not any(one.severity == ERROR and one.code in MENDED for one in found):
        return found
    for count in pattern.counts[:MOST_COUNTS]:
        fit = _fit(lines, pattern, count)
        bad = sorted(set(fit.values) - set(fit.works))
        if bad and fit.needed is not None:
            names = {
                size for size, value in zip(pattern.sizes, fit.values, strict=True) if value in bad
            }
            return _one_slip(found, _hint(fit, bad), names)
    return found


def _one_slip(found: tuple[Diagnostic, ...], hint: str, sizes: set[str]) -> tuple[Diagnostic, ...]:
    slips = [
        one
        for one in sorted(found, key=lambda one: one.span)
        if one.severity == ERROR and (not one.sizes or sizes.issuperset(one.sizes))
    ]
    first = next((one for one in slips if one.code in MENDED), None)
    if first is None:
        return found
    others = [one for one in slips if one is not first]
    related = tuple(
        Related(one.span, f"{one.row or 'this'} does not come out either")
        for one in others[:MOST_RELATED]
    )
    kept = [one for one in found if one not in slips]
    # The row's own hint is the second best: it mends one row, and the others stay wrong.
    told = replace(first, hints=(hint, *first.hints[:1]), related=(*first.related, *related))
    return (*kept, told)


def _hint(fit: Fit, bad: list[int]) -> str:
    near = " and ".join(dict.fromkeys(_near(value, fit.works) for value in bad))
    wrong = " or ".join(str(value) for value in bad)
    return (
        f"Every row comes out when `{fit.name}` is {rule_text(fit.needed)} ({near}, not {wrong})."
    )


def _near(value: int, works: tuple[int, ...]) -> str:
    below = [one for one in works if one < value][-1:]
    above = [one for one in works if one > value][:1]
    return " or ".join(str(one) for one in (*below, *above))


def table(found: tuple[Fit, ...], sizes: tuple[str, ...]) -> str:
    """What ``loopwright fits`` prints."""
    if not found:
        return "This pattern has no counts.\n"
    return "\n".join(_told(fit) for fit in found)


def _told(fit: Fit) -> str:
    first, *rest = map(str, dict.fromkeys(fit.values) if len(set(fit.values)) == 1 else fit.values)
    values = f"{first} ({', '.join(rest)})" if rest else first
    low, high = fit.tried
    lines = [
        f"{fit.name}: {values}",
        f"  written: {rule_text(fit.written) if fit.written else 'no rule'}",
    ]
    if fit.needed is not None:
        least = f", {fit.works[0]} or more" if fit.works[0] > max(low, fit.needed[0]) else ""
        lines.append(f"  needed:  {rule_text(fit.needed)}{least} (tried {low} to {high})")
    elif fit.works:
        shown = ", ".join(map(str, fit.works[:12])) + (" ..." if len(fit.works) > 12 else "")
        lines.append(f"  comes out with {shown} (tried {low} to {high})")
    else:
        lines.append(f"  comes out with none of the values tried, {low} to {high}")
    return "\n".join(lines) + "\n"
