"""Facts gathered for wording: those of one kind at one place, from every size it happened in."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from loopwright.diagnostics import Diagnostic, Edit, Related
from loopwright.diagnostics.catalogue import RULES
from loopwright.frozen import NamedTuple
from loopwright.ir.fabric import Fact, Place
from loopwright.ir.items import Kind
from loopwright.ir.pattern import Part, Pattern, Row
from loopwright.source import Span
from loopwright.trade.terms import TERMS, Terms, abbreviation


class Told(NamedTuple):
    """Facts of one kind at one place: (size index, fact) for each size it happened in."""

    kind: str
    span: Span
    pattern: Pattern
    facts: tuple[tuple[int, Fact], ...]

    @property
    def terms(self) -> Terms:
        """The pattern's terms."""
        return TERMS[self.pattern.terms]

    @property
    def sizes(self) -> tuple[str, ...]:
        """The names of the sizes it happens in; empty where the pattern has one size only."""
        if len(self.pattern.sizes) == 1:
            return ()
        return tuple(self.pattern.sizes[size] for size, _ in self.facts)

    @property
    def fact(self) -> Fact:
        """The fact in the first of its sizes."""
        return self.facts[0][1]

    def each(self, key: str) -> str:
        """A value in every size, as "37 (39, 41)", or once where it is the same."""
        return each(tuple(fact.get(key) for _, fact in self.facts))

    def over(self, value: Callable[[Fact], object]) -> str:
        """Something reckoned from the fact, in every size."""
        return each(tuple(value(fact) for _, fact in self.facts))

    @property
    def part(self) -> Part | None:
        """The part that it happens in."""
        return next((one for one in self.pattern.parts if one.name == self.fact.part), None)

    @property
    def row(self) -> Row | None:
        """The row that is written at its place."""
        part = self.part
        for line in part.lines if part is not None else ():
            inside = line.span.start <= self.span.start and self.span.end <= line.span.end
            if isinstance(line, Row) and inside:
                return line
        return None

    def say(
        self, text: str, *hints: str, code: str = "", edits: tuple[Edit, ...] = ()
    ) -> Diagnostic:
        """The diagnostic with this text, at the place of the facts."""
        fact = self.fact
        code = code or self.kind
        if all(isinstance(one.get("again"), Span) for _, one in self.facts):
            return self._say_again(text, code)
        return Diagnostic(
            code,
            RULES[code].severity,
            self.span,
            text,
            tuple(hint for hint in hints if hint),
            fact.part,
            fact.row,
            self.sizes,
            related=self._like_it(),
            edits=edits,
        )

    def _say_again(self, text: str, code: str) -> Diagnostic:
        """The diagnostic of what came out where it is written, and does not where a line has it
        worked again: that line is wrong, and no mend of the row's own would put it right."""
        fact, line = self.fact, self.fact.get("again")
        assert isinstance(line, Span)
        row = self.row
        written = row.label if row is not None and row.label else "the row"
        before = self.over(lambda one: number(one, "before"))
        hint = f"Write {fact.row} by itself, and do not repeat {written} for it."
        if before != "0":
            times = "time" if before == "1" else "times"
            often = (
                f"write `{before} more {times}`" if fact.get("how") == "more" else "stop before it"
            )
            hint = f"{often[0].upper()}{often[1:]}, and {fact.row} by itself."
        return Diagnostic(
            code,
            RULES[code].severity,
            line,
            f"What comes out in {written} does not when it is worked again as {fact.row}. {text}",
            (hint,),
            fact.part,
            fact.row,
            self.sizes,
            related=(Related(self.span, f"{fact.row} is worked as this"),),
        )

    def _like_it(self) -> tuple[Related, ...]:
        """The line that says of the row it happens in only that it is worked as another one."""
        number = self.fact.row.rpartition(" ")[2]
        part = self.part
        if part is None or not number.isdecimal():
            return ()
        return tuple(
            Related(line.span, f"{self.fact.row} is worked like it here")
            for line in part.lines
            if isinstance(line, Row)
            and line.as_row is not None
            and any(low <= int(number) <= high for low, high in line.numbers)
        )


def each(values: tuple[object, ...]) -> str:
    """Values of several sizes in the trade's form, or one value where they are all the same."""
    shown = [str(value) for value in values]
    if len(set(shown)) == 1:
        return shown[0]
    return f"{shown[0]} ({', '.join(shown[1:])})"


def number(fact: Fact, key: str) -> int:
    """A whole number among a fact's values; nought where it is not there."""
    value = fact.get(key)
    return value if isinstance(value, int) else 0


def differing(fact: Fact) -> tuple[tuple[Kind, int, int], ...]:
    """The kinds that differ, each with what is stated and what was made."""
    found: tuple[tuple[Kind, int, int], ...] = fact.get("differs") or ()  # type: ignore[assignment]
    return found


def gather(pattern: Pattern, facts: Iterable[tuple[int, Fact]]) -> list[Told]:
    """The facts of all sizes, each with its size, those of one kind at one place together."""
    groups: dict[tuple[str, Span, str], list[tuple[int, Fact]]] = {}
    for size, fact in facts:
        key = (fact.kind, fact.span, fact.part)
        groups.setdefault(key, []).append((size, fact))
    return [Told(key[0], key[1], pattern, tuple(facts)) for key, facts in groups.items()]


# ------------------------------------------------------------------------- words


def plural(n: object, one: str, many: str = "") -> str:
    """``1 stitch``, ``2 stitches``."""
    word = one if str(n) == "1" else (many or f"{one}s")
    return f"{n} {word}"


def sizes_words(sizes: tuple[str, ...]) -> str:
    """``size large``, ``sizes small, large``."""
    return f"{'size' if len(sizes) == 1 else 'sizes'} {', '.join(sizes)}"


def stitches(n: object) -> str:
    """``1 stitch``, ``37 stitches``."""
    return plural(n, "stitch", "stitches")


def ordinal(n: int) -> str:
    """``2nd``, ``11th``."""
    if n % 100 in (11, 12, 13):
        return f"{n}th"
    return f"{n}{ {1: 'st', 2: 'nd', 3: 'rd'}.get(n % 10, 'th') }"


def kind_words(kind: Kind, terms: Terms, n: object = 2) -> str:
    """A kind of place in the pattern's terms: ``sts``, ``ch-2 sps``, ``tr``."""
    one = str(n) == "1"
    if kind.what == "st":
        return "st" if one else "sts"
    if kind.what == "ch":
        return "ch"
    if kind.what == "sp":
        space = "sp" if one else "sps"
        return f"ch-{kind.chains} {space}" if kind.chains else space
    if kind.what == "stitch" and kind.stitch is not None:
        ending = "" if one or not kind.stitch.many else "s"
        return abbreviation(kind.stitch, terms) + ending
    if kind.what in ("own", "many"):
        return kind.own if one else f"{kind.own}s"
    if kind.what == "row end":
        return "row end" if one else "row ends"
    return {"gap": "gap", "st and ch": "sts and ch"}.get(kind.what, kind.what)


def place_words(place: object, terms: Terms) -> str:
    """What stands at a place: ``a tr``, ``a ch-2 sp``, ``the ring``."""
    if not isinstance(place, Place):
        return "nothing"
    if place.what == "sp":
        return f"a ch-{place.chains} sp"
    if place.what == "ch":
        return "a chain of the start"
    if place.what == "end":
        return "a row end"
    if place.stitch is None:
        return "a stitch"
    name = abbreviation(place.stitch, terms)
    if place.chains:
        return f"{article(name)} {name} (a chain of {place.chains} that counts as one)"
    return f"{article(name)} {name}"


def article(words: str) -> str:
    """``a`` or ``an``, as the words are read out: an 8-tr cluster, a 5-tr one."""
    return "an" if words[:1] in "aeiou8" or words[:2] in ("11", "18") else "a"
