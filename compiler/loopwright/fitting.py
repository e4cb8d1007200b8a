"""Which numbers come out: the values of a count with which the whole pattern works in every size.

The pattern is worked with one value after another, and the rule that the good ones keep is read
off: "a multiple of 4", "a multiple of 6 plus 1". Nothing is guessed: the rule holds for every
value that was tried, and says which those were.
"""

from __future__ import annotations

from math import gcd

from loopwright.diagnostics import ERROR, Diagnostic, Related
from loopwright.frozen import Frozen, replace
from loopwright.ir.pattern import Count, Pattern, Stripes
from loopwright.lower import lower
from loopwright.lower.using import NOTHING, Library
from loopwright.pipeline import ALONE, Around, opened
from loopwright.source import with_line_ends
from loopwright.syntax import Line, read_lines
from loopwright.work import Effort, comes_out

REACH = 36
"""How far below and above each of its values a designer would look."""

LEAST_REACH = 2
"""Less than this tells nothing of a rule, and is not tried."""

MOST_WORK = 70_000
"""Lines, items and repeats gone through in all tries for a pattern; the reach is cut down to keep
to it."""

MOST_ON_THE_WAY = 25_000
"""The same where a check tries values for a hint: an answer is wanted at once."""

MOST_COUNTS = 8
"""Counts of a pattern whose values are tried when something does not come out."""

MOST_RELATED = 6
"""Other rows named beside the first that does not come out."""

Stretches = tuple[tuple[int, int], ...]
"""Whole numbers as (from, to) stretches, in order and apart from each other."""

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


class Fit(Frozen):
    """What is known of one count: its values by size, the values tried, those that work in every
    size, and the rules as (multiple, plus); ``needed`` is None where the values that work keep no
    such rule, ``written`` where none is written. Where one of its values does not work, ``by_size``
    says of each of several sizes which do. Nothing is tried where the pattern is too long for
    it."""

    name: str
    values: tuple[int, ...]
    tried: Stretches
    works: tuple[int, ...]
    written: tuple[int, int] | None
    needed: tuple[int, int] | None
    by_size: tuple[tuple[str, tuple[int, ...]], ...] = ()

    @property
    def text(self) -> str:
        """It in words, as lines."""
        return _told(self)


def fits(lines: list[Line], pattern: Pattern, library: Library = NOTHING) -> tuple[Fit, ...]:
    """What every count of a pattern may be, all else as written."""
    tries = _Tries(lines, pattern, library, len(pattern.counts), MOST_WORK)
    return tuple(tries.fit(count) for count in pattern.counts)


class _Tries:
    """Tries values for ``many`` counts of a pattern, which share the work of ``most``."""

    def __init__(
        self, lines: list[Line], pattern: Pattern, library: Library, many: int, most: int
    ) -> None:
        self.lines = lines
        self.library = library
        self.sizes = pattern.sizes
        self.many = many
        self.left = most

    def fit(self, count: Count) -> Fit:
        """Try values further and further from those of the count, as long as its share lasts."""
        effort = Effort(self.left // max(self.many, 1))
        self.many -= 1
        self.left -= effort.left
        tried: Stretches = ()
        known: dict[int, tuple[bool, ...]] = {}
        for reach in range(REACH + 1):
            wider = around(count.values, reach)
            for value in _each(wider):
                if value not in known and effort.left >= 0:
                    known[value] = self._works(count.name, value, effort)
            if effort.left < 0:
                break
            tried = wider if reach >= LEAST_REACH else ()
        self.left += max(effort.left, 0)
        works = tuple(value for value in _each(tried) if all(known[value]))
        by_size: tuple[tuple[str, tuple[int, ...]], ...] = ()
        if len(self.sizes) > 1 and not set(count.values) <= set(works):
            # No one rule for every size: what each comes out with by itself.
            by_size = tuple(
                (name, tuple(value for value in _each(tried) if known[value][size]))
                for size, name in enumerate(self.sizes)
            )
        written = (count.multiple, count.plus) if (count.multiple, count.plus) != (1, 0) else None
        needed = rule(works, tried)
        return Fit(count.name, count.values, tried, works, written, needed, by_size)

    def _works(self, name: str, value: int, effort: Effort) -> tuple[bool, ...]:
        """In which sizes a value works."""
        nowhere = (False,) * len(self.sizes)
        effort.left -= len(self.lines)
        if effort.left < 0:
            return nowhere
        lowered = lower(self.lines, instead={name: value}, library=self.library)
        pattern = lowered.pattern
        if pattern is None or not lowered.whole:
            return nowhere
        wrong = ("not-whole", "below-nought", "not-a-multiple")
        if any(one.code in wrong for one in lowered.diagnostics):
            return nowhere
        plain = _without_stripes(pattern)
        return tuple(comes_out(plain, size, effort) for size in range(len(self.sizes)))


def _without_stripes(pattern: Pattern) -> Pattern:
    """The pattern without its stripes, which take time and change no count."""
    parts = tuple(
        replace(part, lines=tuple(line for line in part.lines if not isinstance(line, Stripes)))
        for part in pattern.parts
    )
    return replace(pattern, parts=parts)


def around(values: tuple[int, ...], reach: int) -> Stretches:
    """The whole numbers so near to some values."""
    stretches: list[tuple[int, int]] = []
    for value in sorted(set(values)):
        low, high = max(1, value - reach), max(1, value + reach)
        if stretches and low <= stretches[-1][1] + 1:
            low = stretches.pop()[0]
        stretches.append((low, high))
    return tuple(stretches)


def _each(stretches: Stretches) -> list[int]:
    return [value for low, high in stretches for value in range(low, high + 1)]


def rule(works: tuple[int, ...], tried: Stretches) -> tuple[int, int] | None:
    """The rule (multiple, plus) that the values keep, and no other value that was tried from the
    smallest of them on; None where there is none, or too few values to tell."""
    if len(works) < 2:
        return None
    multiple = 0
    for value in works:
        multiple = gcd(multiple, value - works[0])
    keep = [one for one in _each(tried) if one >= works[0] and not (one - works[0]) % multiple]
    return (multiple, works[0] % multiple) if list(works) == keep else None


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
    found: tuple[Diagnostic, ...], lines: list[Line], pattern: Pattern, library: Library
) -> tuple[Diagnostic, ...]:
    """The messages, with the values of a count that would mend them where there are any.

    Where another value of one count makes every row come out, the rows that do not are one slip:
    the first keeps its message, with the others beside it.
    """
    if not any(one.severity == ERROR and one.code in MENDED for one in found):
        return found
    counts = pattern.counts[:MOST_COUNTS]
    tries = _Tries(lines, pattern, library, len(counts), MOST_ON_THE_WAY)
    for count in counts:
        fit = tries.fit(count)
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


def fits_of(name: str, text: str, around: Around = ALONE) -> tuple[Fit, ...]:
    """What every count of a text may be, all else as written."""
    text = with_line_ends(text)
    lines = read_lines(text)
    _, books = opened(name, text, around)
    pattern = lower(lines, len(text), library=books).pattern
    return fits(lines, pattern, books) if pattern is not None else ()


def _told(fit: Fit) -> str:
    first, *rest = map(str, dict.fromkeys(fit.values) if len(set(fit.values)) == 1 else fit.values)
    values = f"{first} ({', '.join(rest)})" if rest else first
    lines = [
        f"{fit.name}: {values}",
        f"  written: {rule_text(fit.written) if fit.written else 'no rule'}",
    ]
    if fit.by_size:
        for size, works in fit.by_size:
            alone = replace(fit, works=works, needed=rule(works, fit.tried), by_size=())
            lines.append(f"  {size}: {_found(alone)}")
    else:
        lines.append(f"  {_found(fit)}")
    return "\n".join(lines) + "\n"


def _found(fit: Fit) -> str:
    if not fit.tried:
        return "not tried: the pattern is too long to be worked with many values"
    tried = "tried " + " and ".join(f"{low} to {high}" for low, high in fit.tried)
    if fit.needed is not None:
        multiple, plus = fit.needed
        less = any(one < fit.works[0] and one % multiple == plus for one in _each(fit.tried))
        least = f", {fit.works[0]} or more" if less else ""
        return f"needed:  {rule_text(fit.needed)}{least} ({tried})"
    if fit.works:
        shown = ", ".join(map(str, fit.works[:12])) + (" ..." if len(fit.works) > 12 else "")
        return f"comes out with {shown} ({tried})"
    return f"comes out with none of the values {tried}"
