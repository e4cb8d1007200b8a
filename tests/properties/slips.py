"""Single slips of the pen in a pattern, made one after another and none left out.

    for slip in slips(text):
        damaged = slip.made_in(text)

A slip changes one thing in one row: a number by one, a stitch, a place, how often a repeat is
worked. The rows are read here as text, and not by the compiler's own parser.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import NamedTuple

from loopwright.syntax.lines import cut
from loopwright.trade.stitches import BASICS
from loopwright.trade.terms import TERMS, Terms, other, stitch_of

KINDS = ("count", "stitch", "repeat", "placing", "terms", "size", "chain")

ROW = re.compile(r"(?:row|rows|round|rounds|next|setup)\b[^:]*:")
AS_ROW = re.compile(r"\s*as\s+(?:row|round)s?\b")
HIDDEN = re.compile(r'"[^"\n]*"|(?<!\S)#[^\n]*')
FORMS = "cluster|bobble|puff|popcorn"


class Slip(NamedTuple):
    """One slip: its kind, the stretch of the text it changes, what then stands there, where the
    line it is in begins, and whether that line states what it comes to."""

    kind: str
    start: int
    end: int
    new: str
    line: int
    stated: bool

    def made_in(self, text: str) -> str:
        """The text with the slip in it."""
        return text[: self.start] + self.new + text[self.end :]

    def told(self, text: str) -> str:
        """The slip in words."""
        number = text.count("\n", 0, self.start) + 1
        old = " ".join(text[self.start : self.end].split())
        return f"{self.kind} at line {number}: {old or 'nothing'!r} -> {self.new or 'nothing'!r}"


class Piece(NamedTuple):
    """A stretch of text that is put in place of another."""

    kind: str
    start: int
    end: int
    new: str


def slips(text: str, worked: dict[int, str]) -> list[Slip]:
    """Every slip of a pattern. ``worked`` tells, for a bracket by where it begins, how often it
    is worked (as a number of the notation)."""
    house = _Reader(text, worked)
    out = []
    for start, raw in cut(text):
        stated, pieces = house.line(start, raw)
        for piece in pieces:
            if text[piece.start : piece.end] != piece.new:
                out.append(Slip(*piece, start, stated))
    return list(dict.fromkeys(out))


class _Reader:
    def __init__(self, text: str, worked: dict[int, str]) -> None:
        self.text = HIDDEN.sub(lambda found: " " * len(found[0]), text)
        self.worked = worked
        terms = re.search(r"^terms:\s*(UK|US)", text, re.MULTILINE)
        self.terms: Terms = TERMS[terms[1] if terms else "UK"]
        self.names = re.findall(r"^count\s+([\w-]+)", text, re.MULTILINE)
        variables = re.findall(r"\bas\s+([A-Za-z_]\w*)\s*:", text)
        self.names += [name for name in variables if name not in ("row", "round")]
        self.own = re.findall(r"^stitch\s+([\w-]+)", text, re.MULTILINE)
        named = "|".join(map(re.escape, self.names)) or r"(?!)"
        self.number = rf"(?:\d+(?:\s*\([^()]*\))?|\{{[^{{}}]*\}}|(?:{named})\b)"
        stitch = rf"\d+-[a-z]+\s+(?:{FORMS})s?|crab\s+[a-z]+|sl\s+st|[A-Za-z_][\w-]*"
        self.item = re.compile(
            rf"(?:(?P<n>{self.number})\s+)?(?P<stitch>{stitch})"
            r"(?:\s+(?:blo|flo|third\s+loop))?(?P<rest>\s+(?:inc|dec)|\s+(?:in|around)\s.*)?\Z",
            re.DOTALL,
        )

    # ------------------------------------------------------------------- lines

    def line(self, start: int, raw: str) -> tuple[bool, list[Piece]]:
        """Whether a line states a count, and the slips that can be made in it."""
        end = start + len(raw)
        label = ROW.match(raw)
        if label is None:
            return False, list(self._other_line(start, end))
        body = start + label.end()
        stated = self.text.find("=", body, end)
        items_end = stated if stated >= 0 else end
        out = list(self._stated(items_end, end))
        out += self._sizes(body, end)
        if not AS_ROW.match(self.text, body):
            out += self._items(body, items_end, first=True)
            out += self._words(body, items_end)
        return stated >= 0, out

    def _other_line(self, start: int, end: int) -> Iterator[Piece]:
        found = re.compile(r"start:\s*(?:ch\s+)?(?=\d|\{)").match(self.text, start, end)
        if found and "ch" in found[0]:
            yield from self._by_one("chain", found.end(), end)
        if self.text.startswith(("start:", "repeat ", "count "), start):
            yield from self._sizes(start, end)

    def _stated(self, start: int, end: int) -> Iterator[Piece]:
        for found in re.compile(rf"(?<=[=,])\s*(?={self.number}\s)").finditer(
            self.text, start, end
        ):
            yield from self._by_one("count", found.end(), end)

    def _sizes(self, start: int, end: int) -> Iterator[Piece]:
        for sizes in re.compile(r"\d+\s*\(\s*\d+[\d,\s]*\)").finditer(self.text, start, end):
            for one in re.compile(r"\d+").finditer(self.text, *sizes.span()):
                yield from self._by_one("size", one.start(), one.end())

    # ----------------------------------------------------------------- numbers

    def _by_one(self, kind: str, start: int, end: int) -> Iterator[Piece]:
        """The number that stands here, one more and one less."""
        found = re.compile(self.number).match(self.text, start, end)
        if found is None:
            return
        number = found[0]
        for sign, change in (("+", 1), ("-", -1)):
            if number.isdigit():
                if int(number) + change >= 0:
                    yield Piece(kind, start, found.end(), str(int(number) + change))
            elif number.startswith("{"):
                yield Piece(kind, start, found.end(), f"{number[:-1]} {sign} 1}}")
            elif not number[0].isdigit():
                yield Piece(kind, start, found.end(), f"{{{number} {sign} 1}}")

    # ------------------------------------------------------------------- items

    def _items(self, start: int, end: int, *, first: bool) -> Iterator[Piece]:
        pieces = self._split(start, end)
        for at, (low, high) in enumerate(pieces):
            text = self.text[low:high]
            if text.startswith(("[", "(")):
                close = self._closing(low)
                yield from self._items(low + 1, close, first=False)
                yield from self._after(low, close + 1, high)
            elif re.match(r"ch\s+\S", text):
                begins = at == 0 or re.match(r"move\s", self.text[pieces[at - 1][0] :])
                turning = first and begins and not re.search(r"\sas\s", text)
                if not turning:
                    yield from self._by_one("chain", low + re.match(r"ch\s+", text).end(), high)  # type: ignore[union-attr]
            elif re.match(r"(?:skip|miss|leave)\s", text):
                yield from self._skip(low, high)
            else:
                yield from self._stitch(low, high, pieces, at)

    def _split(self, start: int, end: int) -> list[tuple[int, int]]:
        """The items of a list, as stretches without white space around them."""
        out, depth, begun = [], 0, start
        for found in re.compile(r"[\[({]|[\])}]|,|\*\*").finditer(self.text, start, end):
            if found[0] in "[({":
                depth += 1
            elif found[0] in "])}":
                depth -= 1
            elif depth == 0:
                out.append((begun, found.start()))
                begun = found.end()
        out.append((begun, end))
        bare = [(low + len(t) - len(t.lstrip()), low + len(t.rstrip()))
                for low, high in out if (t := self.text[low:high]).strip()]  # fmt: skip
        return bare

    def _closing(self, start: int) -> int:
        depth = 0
        for found in re.compile(r"[\[({]|[\])}]").finditer(self.text, start):
            depth += 1 if found[0] in "[({" else -1
            if depth == 0:
                return found.start()
        raise AssertionError("brackets that do not close")

    def _after(self, bracket: int, start: int, end: int) -> Iterator[Piece]:
        """How often a bracket is worked, or where a group goes."""
        text = self.text[start:end]
        lead = start + len(text) - len(text.lstrip())
        if re.search(r"\btimes?\Z", text):
            yield from self._by_one("repeat", lead, end)
        elif self.text[bracket] == "[" and bracket in self.worked:
            for change in ("- 1", "+ 1"):
                times = _each_by(self.worked[bracket], change)
                if times:
                    yield Piece("repeat", lead, end, f"{times} times")
        if last := re.match(r"\s*to\s+last\s+", text):
            if text[last.end()].isdigit():
                yield from self._by_one("repeat", start + last.end(), end)
            else:
                yield Piece("repeat", start + last.end(), end, "2 sts")
        yield from self._place(start, end)

    def _skip(self, start: int, end: int) -> Iterator[Piece]:
        text = self.text[start:end]
        found = re.match(r"\w+\s+(next\s+)?(the\s+rest)?", text)
        assert found
        at = start + found.end()
        if found[2]:
            return
        if self.text[at].isdigit() or self.text[at] == "{":
            yield from self._by_one("stitch", at, end)
        elif found[1] and not re.match(r"ch-|sp", self.text[at:end]):
            yield Piece("stitch", at, at, "2 ")
        yield from self._place(start, end)

    def _stitch(
        self, start: int, end: int, pieces: list[tuple[int, int]], at: int
    ) -> Iterator[Piece]:
        found = self.item.match(self.text[start:end])
        if found is None or not self._is_stitch(found["stitch"]):
            return
        if found["n"]:
            yield from self._by_one("stitch", start, end)
        else:
            yield Piece("stitch", start, start, "2 ")
        if len(pieces) > 1 and not (found["n"] or "").strip("1"):
            low, high = pieces[at]
            if at + 1 < len(pieces):
                high = pieces[at + 1][0]
            else:
                low = pieces[at - 1][1]
            if "**" not in self.text[low:high]:
                yield Piece("stitch", low, high, "")
        several = re.compile(r"each\s+of\s+next\s+").search(self.text, start, end)
        if several:
            yield from self._by_one("stitch", several.end(), end)
        yield from self._place(start, end)

    def _is_stitch(self, word: str) -> bool:
        bare = re.sub(r"\A(?:\d+-|crab\s+)", "", word).split()[0]
        known = word in self.own or stitch_of(bare, self.terms) is not None
        return known or bool(re.match(r"sl\s", word))

    # ------------------------------------------------------------------ places

    def _place(self, start: int, end: int) -> Iterator[Piece]:
        for old, new in PLACES:
            for found in re.compile(old).finditer(self.text, start, end):
                yield Piece("placing", *found.span(), found.expand(new))
        for found in re.compile(r"\bch-(\d+)(?=\s+sps?\b)").finditer(self.text, start, end):
            for n in (int(found[1]) - 1, int(found[1]) + 1):
                if n:
                    yield Piece("placing", *found.span(), f"ch-{n}")
        for found in re.compile(r"\b(\d+)(st|nd|rd|th)\b").finditer(self.text, start, end):
            yield Piece("placing", *found.span(), _ordinal(int(found[1]) + 1))
        kind = re.compile(r"(?:next\s+(?:\d+\s+)?|\beach\s+)([a-z][\w-]*)\b")
        for found in kind.finditer(self.text, start, end):
            word = found[1]
            if stitch_of(word, self.terms) is not None:
                for new in self._neighbours(word):
                    yield Piece("placing", *found.span(1), new)

    # ------------------------------------------------------------------- words

    def _words(self, start: int, end: int) -> Iterator[Piece]:
        """Each stitch made: the other country's word for it, and its neighbours in height."""
        for found in re.compile(r"(?<![\w-])(?:\d+-)?([a-z]+\d*[a-z]*)\b").finditer(
            self.text, start, end
        ):
            word = found[1]
            if stitch_of(word, self.terms) is None or word in self.names:
                continue
            before = self.text[max(start, found.start() - 8) : found.start()]
            if re.search(
                r"(?:next|each|first|last|same|\d+(?:st|nd|rd|th))\s+(?:\d+\s+)?\Z", before
            ):
                continue  # a place, and not what is made
            for new in (*self._neighbours(word), self._abroad(word)):
                if new:
                    yield Piece("terms", *found.span(1), new)

    def _neighbours(self, word: str) -> list[str]:
        return [new for step in (-1, 1) if (new := self._taller(word, step))]

    def _taller(self, word: str, step: int) -> str:
        """The word for a stitch that is a step taller, posts and decreases kept."""
        base = self._base(word)
        names = list(BASICS)
        at = names.index(self.terms.words[base]) + step
        if at < 1 or at >= len(names):
            return ""
        return word.replace(base, self.terms.short[names[at]])

    def _abroad(self, word: str) -> str:
        """The other country's word for a stitch, where it is another."""
        base = self._base(word)
        theirs = other(self.terms).short[self.terms.words[base]]
        return word.replace(base, theirs) if theirs != base else ""

    def _base(self, word: str) -> str:
        inner = re.sub(r"\A[fb]p|\d+tog\Z", "", word)
        return inner if inner in self.terms.words else word


PLACES = (
    (r"\bin(\s+)(?:same|first|last)(\s+)(st|ch|sp)\b(?!-)", r"in\1next\2\3"),
    (r"\bin(\s+)next(\s+)(st|ch|sp)\b(?!-)", r"in\1same\2\3"),
    (r"\bin\s+next\s+(?:ch-\d+\s+)?sp\b", "in next st"),
    (r"\bin\s+next\s+ch\b(?!-)", "in next st"),
    (r"\bin\s+ring\b", "in next st"),
    (r"\bin\s+skipped\s+st\b", "in next st"),
    (r"\baround(\s+)next\b", r"in\1next"),
    (r"\baround(\s+next\s+)(?!st\b)(\w+)\b", r"around\1st"),
)
"""A place as written, and another that a designer may put down instead."""


def _ordinal(n: int) -> str:
    ending = "th" if n % 100 in (11, 12, 13) else {1: "st", 2: "nd", 3: "rd"}.get(n % 10, "th")
    return f"{n}{ending}"


def _each_by(number: str, change: str) -> str:
    """A number, one value for each size, with every value changed."""
    values = [int(one) + (1 if change == "+ 1" else -1) for one in re.findall(r"\d+", number)]
    if min(values) < 0:
        return ""
    first, *rest = map(str, values)
    return f"{first} ({', '.join(rest)})" if rest else first
