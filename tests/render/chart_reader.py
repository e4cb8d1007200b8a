"""A reader who has only the words of a chart and makes every stitch of it, one at a time.

    read(text, "UK") -> Reading, with every row as it would be worked

It shares nothing with the program but the words of the trade, and has its own list of those.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import NamedTuple

WORDS = {
    "UK": ["sl st", "dc", "htr", "tr", "dtr", "trtr", "quadtr"],
    "US": ["sl st", "sc", "hdc", "dc", "tr", "dtr", "trtr"],
}
"""The stitches of each country from low to high."""

FAR = ("own", "deep", "left")
PLACES = "stitch|space|ring|gap|row end|chain"
SKIP = {"UK": "miss", "US": "skip"}


class Done(NamedTuple):
    """One thing made. ``stitch`` is (height, post, together, many, legs, crab, unlike); ``into`` a
    place of the edge with ``step`` from the place before, ``also`` from the first of them."""

    what: str
    stitch: tuple[object, ...] = ()
    chains: int = 0
    into: str = ""
    step: int = 0
    also: tuple[int, ...] = ()
    chain: int = 0
    around: bool = False
    loop: str = ""
    yarn: str = ""


@dataclass
class Read:
    """A row as read: its things, how far it slips along first, what it says it comes to."""

    name: str
    wrong_side: bool
    alternates: bool
    shift: int
    things: list[Done]
    stitches: int
    spaces: int
    yarn: str
    rows: int = 1
    times: int = 1


@dataclass
class Reading:
    """All rows in the order worked, those that are worked again told again; ``start`` is how many
    places the part begins on, ``ring`` whether they are chains joined into one."""

    start: int
    ring: bool
    rows: list[Read] = field(default_factory=list)


_ROW = re.compile(
    r"(?P<name>(?:Row|Round) [\d,]+|Setup (?:row|round)), (?P<side>right|wrong) side"
    r"(?P<turns> first, then either side in turn)?(?P<crab>, worked backwards)?"
    r"(?:, with (?P<yarn>[^:]+))?: (?P<body>.*); (?P<st>[\d,]+) stitch(?:es)?"
    r"(?:, (?P<sp>[\d,]+) chain spaces?)?\."
    r"(?: Th(?:is|ese)(?: (?P<rows>\d+))? (?:row|round)s? (?:is|are) worked "
    r"(?P<times>[\d,]+) times\.)?"
)
_ALONG = re.compile(r"slip stitch along past ([\d,]+) places? to the new first place, ")


def read(text: str, terms: str) -> Reading:
    """Read a whole chart."""
    lines = text.split("\n")
    begin = next(line for line in lines if line.startswith("Begin with "))
    found = Reading(_begin(begin), begin.endswith(", joined into a ring."))
    rows = [_row(line, terms) for line in lines if re.match(r"(Row|Round|Setup) .*: .*;", line)]
    while rows:
        stretch, rows = rows[: rows[0].rows], rows[rows[0].rows :]
        assert len({(row.rows, row.times) for row in stretch}) == 1
        for nth in range(stretch[0].times):
            for row in stretch:
                wrong = row.wrong_side != (row.alternates and nth % 2 == 1)
                found.rows.append(Read(**{**row.__dict__, "wrong_side": wrong}))
    return found


def _begin(line: str) -> int:
    """How many places the part begins on: chains, foundation stitches, places of an edge."""
    if line == "Begin with a magic ring.":
        return 0
    counted = re.search(r": ([\d,]+) places?\.", line)
    counted = counted or re.search(r"chain of ([\d,]+)|with ([\d,]+) foundation", line)
    assert counted, line
    return _int(next(one for one in counted.groups() if one))


def _row(line: str, terms: str) -> Read:
    match = _ROW.fullmatch(line)
    assert match, line
    body, shift = match["body"], 0
    if along := _ALONG.match(body):
        body, shift = body[along.end() :], _int(along[1])
    things = list(Hand(terms).work(body))
    return Read(
        match["name"],
        match["side"] == "wrong",
        match["turns"] is not None,
        shift,
        things,
        _int(match["st"]),
        _int(match["sp"] or "0"),
        match["yarn"] or "",
        _int(match["rows"] or "1"),
        _int(match["times"] or "1"),
    )


def _int(text: str) -> int:
    return int(text.replace(",", ""))


def split(text: str) -> Iterator[str]:
    """The phrases between commas that stand in no bracket."""
    depth, begin = 0, 0
    for i, char in enumerate(text):
        depth += (char == "(") - (char == ")")
        if text[i : i + 2] == ", " and not depth:
            yield text[begin:i]
            begin = i + 2
    yield text[begin:]


def bracket(phrase: str) -> tuple[str, str] | None:
    """What is in the bracket that a phrase begins with, and what follows it."""
    if not phrase.startswith("("):
        return None
    depth = 0
    for i, char in enumerate(phrase):
        depth += (char == "(") - (char == ")")
        if not depth:
            return phrase[1:i], phrase[i + 1 :]
    raise AssertionError(phrase)


class Hand:
    """Works through the phrases of one row; ``passed`` is what was skipped and not yet used."""

    def __init__(self, terms: str) -> None:
        self.terms = terms
        self.passed = 0

    def work(self, text: str) -> Iterator[Done]:
        """Everything that a row of phrases tells to make."""
        phrases = list(split(text))
        while phrases:
            phrase = phrases.pop(0)
            while phrases and phrases[0].startswith(("the first in the same", "the others ")):
                phrase += ", " + phrases.pop(0)
            yield from self._phrase(phrase)

    def _phrase(self, phrase: str) -> Iterator[Done]:
        if found := bracket(phrase):
            inside, after = found
            if again := re.fullmatch(r" ([\d,]+) times", after):
                for _ in range(_int(again[1])):
                    yield from self.work(inside)
            else:
                yield from self._in_one(list(split(inside)), after)
        elif way := re.fullmatch(
            rf"({SKIP[self.terms]}|go back) ([\d,]+) (?:place|chain)s?", phrase
        ):
            self.passed += -_int(way[2]) - 1 if way[1] == "go back" else _int(way[2])
        elif one := re.fullmatch(r"(.+)( in (?:one|the same) (?:" + PLACES + "))", phrase):
            yield from self._in_one([one[1]], one[2])
        else:
            yield from self._thing(phrase)

    def _in_one(self, inside: list[str], where: str) -> Iterator[Done]:
        """Several things in one place: a place further on, or the one before."""
        found = re.fullmatch(rf" in (one|the same) ({PLACES})", where)
        assert found, where
        step = self._step(1 if found[1] == "one" else 0)
        for phrase in inside:
            for done in self._thing(phrase):
                if done.what != "st":
                    yield done
                    continue
                yield done._replace(into=found[2], step=step)
                step = 0

    def _step(self, usual: int) -> int:
        step, self.passed = usual + self.passed, 0
        return step

    def _thing(self, phrase: str) -> Iterator[Done]:
        for pattern, make in CHAINS:
            if found := re.fullmatch(pattern, phrase):
                yield from self._chains(make, found)
                return
        yield from self._stitches(phrase)

    def _chains(self, what: str, found: re.Match[str]) -> Iterator[Done]:
        given = found.groupdict()
        stitch = self.stitch(given["stitch"]) if given.get("stitch") else ()
        done = Done(what, stitch, _int(given.get("n") or "0"), yarn=given.get("yarn") or "")
        if what == "as":
            into = given.get("into") or "stitch"
            done = done._replace(into=into, step=0 if into == "ring" else self._step(1))
        if what == "join":
            self.passed = 0
        if what == "hook ch":
            self.passed += done.chains
        if what == "hook end":
            done = done._replace(what="hook ch")
        for _ in range(_int(given.get("times") or "1")):
            yield done

    def _stitches(self, phrase: str) -> Iterator[Done]:
        found = _STITCH.fullmatch(phrase)
        assert found, phrase
        stitch = self.stitch(found["name"])
        one = Done(
            "st",
            stitch,
            around=bool(found["around"]) or bool(stitch[1]),
            loop=found["loop"] or "",
            yarn=found["yarn"] or "",
        )
        legs = int(str(stitch[2]))
        for _ in range(_int(found["n"] or "1")):
            if far := next((into for into in FAR if found[into]), ""):
                yield one._replace(into=far)
            elif found["ring"]:
                yield one._replace(into="ring")
            elif found["nth"]:
                step = self._step(1 if found["of"] == "next" else 0)
                chain = int(found["nth"])
                if step and chain == 1:  # that is the next chain
                    yield one._replace(into="chain", step=step)
                else:
                    yield one._replace(into=found["ofwhat"], step=step, chain=chain)
            elif legs > 1:
                yield self._together(one, found, legs)
            else:
                into = found["each"] or found["next"] or "stitch"
                yield one._replace(into=into, step=self._step(1))

    def _together(self, one: Done, found: re.Match[str], legs: int) -> Done:
        also = tuple(range(1, legs))
        if found["others"]:
            ways = re.findall(r"([\d,]+)( back)?", found["others"])
            also = tuple(-_int(n) if back else _int(n) for n, back in ways)
        into = found["over"] or found["next"] or found["each"] or "stitch"
        done = one._replace(into=into, step=self._step(0 if found["same"] else 1), also=also)
        return done

    def stitch(self, name: str) -> tuple[object, ...]:
        """A stitch by its abbreviation."""
        if name.startswith("tog("):
            first, *others = [self.stitch(one) for one in split(name[4:-1])]
            return (*first[:2], 1 + len(others), *first[3:6], tuple(others))
        crab = name.startswith("crab ")
        name = name.removeprefix("crab ")
        legs, many = 1, ""
        if bunch := re.fullmatch(r"(\d+)-(.+) (cluster|bobble|puff|popcorn|shell)", name):
            legs, name, many = int(bunch[1]), bunch[2], bunch[3]
        together = 1
        if close := re.fullmatch(r"(.+?)(\d+)tog", name):
            name, together = close[1], int(close[2])
        post = {"fp": "front", "bp": "back"}.get(name[:2], "")
        height = WORDS[self.terms].index(name[2:] if post else name)
        return (height, post, together, many, legs, crab, ())


_YARN = r"(?: with (?P<yarn>[^,()]+?))?"
_N = r"(?P<n>[\d,]+)"
CHAINS = [
    (rf"ch {_N} that does not count(?: (?P<times>[\d,]+) times)?", "turn"),
    (rf"ch {_N} skipped counted as (?P<stitch>.+)", "skip as"),
    (rf"ch {_N} counted as (?P<stitch>.+?){_YARN}(?: in the (?:next )?(?P<into>{PLACES}))?", "as"),
    (rf"ch {_N} for the opening [\w-]+{_YARN}", "open"),
    (rf"ch {_N} passed over that leave a space", "hook sp"),
    (rf"ch {_N} passed over", "hook sp"),
    (rf"ch {_N} of the start passed over", "hook ch"),
    (rf"the ch {_N} (?:missed|skipped) at the start come last", "hook end"),
    (rf"ch {_N}{_YARN}(?: (?P<times>[\d,]+) times)?", "ch"),
    (r"join", "join"),
    (rf"ch-{_N} picot(?: (?P<times>[\d,]+) times)?", "picot"),
    (
        rf"join with (?P<stitch>.+?) \(and the chains before it\) for a ch-{_N} space{_YARN}",
        "join sp",
    ),
]
_NAME = r"tog\([^()]+\)|\d+-[a-z]+ [a-z]+|(?:crab )?(?:sl st|[a-z]+(?:\d+tog)?)"
_IN = r" (?:in|\((?:one|\d+) in each of)"
_LEFT = r"(?:left unworked earlier and nearest at this end|that (?:row|round) [\d,]+ left unworked)"
_ROW_OF = r"(?:\d+ (?:row|round)s? below this one|of (?:row|round) [\d,]+)"
_BELOW = (
    rf"(?:{_ROW_OF}(?: under the next places?)?"
    r"|that (?:row|round) [\d,]+ passed over|that the ch-\d+ stands on)"
)
_STITCH = re.compile(
    rf"(?:(?P<n>[\d,]+) )?(?P<name>{_NAME})(?: in the (?P<loop>back|front|third) loop)?"
    rf"(?P<around> around the post)?{_YARN}"
    r"(?:"
    r"(?P<ring> in the ring)"
    r"|(?P<own> back along the chain)"
    rf"|(?P<left>{_IN} the (?:next )?stitch(?:es)? {_LEFT}\)?)"
    rf"|(?P<deep>{_IN} the (?:next )?[a-z0-9 -]+ {_BELOW}\)?"
    r"| in (?:each )?a stitch of an earlier row)"
    rf"| in the (?P<nth>\d+)(?:st|nd|rd|th) chain of the (?P<of>next|same) (?P<ofwhat>{PLACES})"
    rf"| in the next (?P<next>{PLACES})"
    rf"| \(one in each of the next (?P<each>{PLACES})s\)"
    rf"|(?: over (?P<over>{PLACES})s)?(?P<same>, the first in the same (?:{PLACES}))?"
    r"(?:, the others (?P<others>.+) from the first)?"
    r")?"
)
