"""Rows worked from their words, part by part, in one size."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, field

from reader.edge import Edge, Place
from reader.items import Again, Group, Item, Plain, Unread, items_of
from reader.pages import Part, Sheet, Step, in_size

STITCH = (
    r"(?P<n>\d+) (?P<name>(?:\d+-)?[a-z][a-z0-9]*(?:[ -](?!in |around |over |blo|flo)[a-z0-9]+)*?)"
)


@dataclass
class Worked:
    """What came of a part: for each row the stitches made, and where a count is printed, the words
    of it and how many of each thing were counted for it."""

    rows: list[int] = field(default_factory=list)
    printed: list[tuple[str, Counter[str]]] = field(default_factory=list)


@dataclass
class _Known:
    """A part that was worked, for those that are worked onto it."""

    rows: int
    flat_rows: int
    start: int
    last: list[Place]


def worked(sheet: Sheet, size: int) -> dict[str, Worked]:
    """Every part of a sheet in one of its sizes."""
    known: dict[str, _Known] = {}
    openings: dict[str, list[Place]] = {}
    out = {}
    for part in sheet.parts:
        worker = _Part(sheet, part, size, known, openings)
        out[part.name] = worker.work()
        known[part.name] = worker.known()
    return out


class _Part:
    """One part in one size."""

    def __init__(
        self,
        sheet: Sheet,
        part: Part,
        size: int,
        known: dict[str, _Known],
        openings: dict[str, list[Place]],
    ) -> None:
        self.sheet, self.part, self.size = sheet, part, size
        self.parts, self.openings = known, openings
        self.told = Worked()
        self.edge: list[Place] = []
        self.start = 0
        self.written: dict[int, tuple[Step, bool]] = {}
        self.waiting: dict[int, Step] = {}
        self.history: list[tuple[Step, bool]] = []
        self.number = 0
        self.flat_rows = 0
        self.fresh = True

    def known(self) -> _Known:
        return _Known(len(self.told.rows), self.flat_rows, self.start, self.edge)

    def work(self) -> Worked:
        for step in self.part.steps:
            label = step.label.lower()
            names = re.match(r"sizes? (.*?) only, ", label)
            sizes = list(range(len(self.sheet.sizes)))
            if names:
                said = re.split(r", | and ", names[1])
                sizes = [i for i, one in enumerate(self.sheet.sizes) if one.lower() in said]
                label = label[names.end() :]
            if self.size not in sizes:
                continue
            here = self._here(step, sizes)
            if label == "start":
                self._start(here.text)
            elif label.startswith(("row", "round", "next", "setup")):
                self._written(here, label)
            elif not label:
                self._repeat(here)
        return self.told

    def _here(self, step: Step, sizes: list[int]) -> Step:
        """A step in this size's own numbers and lines."""
        at, several = sizes.index(self.size), len(sizes)
        name = self.sheet.sizes[self.size].lower()
        beneath = []
        for begins, text in step.beneath:
            names, _, number = begins.rpartition(", ") if "ro" in begins else (begins, "", "")
            if "row" in begins or "round" in begins:
                found = re.search(r"(rows?|rounds?) [\d, and-]+$", begins)
                assert found
                number, names = found[0], begins[: found.start()].rstrip(", ")
            said = re.split(r", | and ", re.sub(r"^sizes? ", "", names)) if names else [name]
            if name in said:
                own = (said.index(name), len(said)) if names else (at, several)
                beneath.append((number, in_size(text, *own)))
        text, count = (in_size(one, at, several) for one in (step.text, step.count))
        return Step(step.label, text, count, tuple(beneath))

    # ------------------------------------------------------------- starts

    def _start(self, text: str) -> None:
        self.fresh = True
        text = re.sub(r"^with the (right|wrong) side facing, ", "", text.lower())
        for piece in re.split(r"; then ", text):
            self.edge += self._begun(piece)
        self.start = len(self.edge)

    def _begun(self, text: str) -> list[Place]:
        found = re.match(r"ch (\d+)", text)
        if found:
            return [Place("ch")] * int(found[1])
        if text == "make a magic ring":
            return []
        found = re.match(r"(\d+) foundation (\w+)", text)
        if found:
            self.flat_rows += 1
            return [Place("st", found[2])] * int(found[1])
        found = re.match(r"(?:join the yarn and )?work around the (.*) opening", text)
        if found:
            return self.openings[found[1]]
        found = re.match(
            r"work along the (?:next (\d+) sts of the )?"
            r"((?:other )?row ends|starting edge|last \w+) of the (.*?)"
            r"(?:, from its (\d+)\w+ st on)?$",
            _without_way(text),
        )
        if found and found[3] in self.parts:
            whole = self._edge_of(found[2], self.parts[found[3]])
            begin = int(found[4] or 1) - 1
            return whole[begin : begin + int(found[1] or len(whole))]
        found = re.match(r"work around all four edges of the (.*?) \(", text)
        if found:
            other = self.parts[found[1]]
            names = ("last row", "row ends", "start", "row ends")
            return [place for name in names for place in self._edge_of(name, other)]
        raise Unread(f"a start: {text}")

    @staticmethod
    def _edge_of(name: str, other: _Known) -> list[Place]:
        if name in ("row ends", "other row ends"):
            return [Place("end")] * other.flat_rows
        if name in ("start", "starting edge"):
            return [Place("ch")] * other.start
        # Worked onto with the same side up: the last row is met the other way round.
        return list(reversed(other.last)) if name == "last row" else list(other.last)

    # ------------------------------------------------------------- lines

    def _written(self, step: Step, label: str) -> None:
        is_round = "round" in label
        numbers = self._numbers(label)
        for number in numbers:
            self.written[number] = (step, is_round)
        first = self._first_range(label, numbers)
        for number in numbers:
            if number not in first:
                self.waiting[number] = step
        like = re.match(r"Work as (?:rows?|rounds?) (\d+)(?:-(\d+))?", step.text)
        for nth, number in enumerate(first):
            does = step
            if like:
                many = int(like[2] or like[1]) - int(like[1]) + 1
                does = self.written[int(like[1]) + nth % many][0]
                self.written[number] = (does, is_round)
            does = _by_itself(does, is_round, number)
            self.written[number] = (does, is_round)
            self._row(does, is_round, number)
            if does.count != step.count:
                self._printed(does)
        self._printed(step)
        while self.number + 1 in self.waiting:
            late = self.waiting.pop(self.number + 1)
            self._row(late, is_round, self.number + 1)
            self._printed(late)

    def _numbers(self, label: str) -> list[int]:
        found = re.match(r"(?:rows?|rounds?) ([\d, and-]+)", label)
        if not found:
            return [self.number + (0 if label.startswith("setup") else 1)]
        out = []
        for low, high in re.findall(r"(\d+)(?:-(\d+))?", found[1]):
            out += range(int(low), int(high or low) + 1)
        return out

    @staticmethod
    def _first_range(label: str, numbers: list[int]) -> list[int]:
        return numbers if "," not in label and " and " not in label else numbers[:1]

    def _repeat(self, step: Step) -> None:
        named = re.match(r"Repeat (?:rows?|rounds?) (\d+)(?:-(\d+))?", step.text)
        last = re.match(r"Repeat the last (?:(\d+) )?", step.text)
        if named:
            low, high = int(named[1]), int(named[2] or named[1])
            does = [self.written[one] for one in range(low, high + 1) if one in self.written]
        elif last:
            does = self.history[-int(last[1] or 1) :]
        else:
            raise Unread(f"a repeat: {step.text}")
        if self._not_here(step):
            return
        times, rows = self._how_often(step.text, len(does))
        for nth in range(times if rows else times * len(does)):
            one, is_round = does[nth % len(does)]
            spread = dict(step.beneath)
            word = "round" if is_round else "row"
            own, _, count = spread.get(f"{word} {self.number + 1}", "").partition(". ")
            self._row(one, is_round, self.number + 1, own)
            if count:
                self.told.printed.append((count, self.counted))
        self._printed(step)

    def _not_here(self, step: Step) -> bool:
        name = re.escape(self.sheet.sizes[self.size])
        none = re.search(r"Sizes? (.*): do not repeat", f"{step.text}. {step.count}")
        said = bool(none and re.search(rf"\b{name}\b", none[1]))
        return (
            said
            or "nothing to repeat" in step.text + step.count
            or any(text == "do not repeat" for _, text in step.beneath)
        )

    @staticmethod
    def _how_often(text: str, period: int) -> tuple[int, bool]:
        found = re.search(r"another (\d+) (times|rows|rounds)", text)
        if found:
            return int(found[1]), found[2] != "times"
        if "once more" in text:
            return 1, False
        raise Unread(f"how often: {text}")

    def _row(self, step: Step, is_round: bool, number: int, spread: str = "") -> None:
        below = self.edge
        if not self.fresh and not is_round:
            below = list(reversed(below))
        row = _Row(self, Edge(below), step, spread)
        self.edge = row.work()
        if self.fresh:
            self.start = row.start_edge(self.start)
        self.fresh = False
        self.number = number
        self.flat_rows += not is_round
        self.told.rows.append(sum(place.what == "st" for place in self.edge))
        self.history.append((step, is_round))
        self.counted = row.counted

    def _printed(self, step: Step) -> None:
        if step.count:
            self.told.printed.append((step.count, self.counted))


class _Row:
    """One row: the words in order, what each takes and makes."""

    def __init__(self, part: _Part, edge: Edge, step: Step, spread: str) -> None:
        self.part, self.edge, self.step, self.spread = part, edge, step, spread
        self.made: list[Place] = []
        self.owns: Counter[str] = Counter()
        self.first = True
        self.moved = False
        self.skipped_at_hook = 0
        self.counts_at_hook = 0

    def work(self) -> list[Place]:
        # What is said of the first chains is for the maker; it is no item.
        told = self.step.text.partition(" The ch ")[0]
        text = told[:1].lower() + told[1:]
        self.text = re.sub(r"^(change to|sl st along to) [^,]*, ", "", text)
        if re.match(r"ch \d+, [\[(]*ch \d", self.text):
            raise Unread(f"two chains, and nobody knows which of them counts: {self.text}")
        self.items(self._spread_out(items_of(text)))
        return self.made

    def start_edge(self, chains: int) -> int:
        """The places of the starting chain that can be worked into afterwards."""
        return chains - self.skipped_at_hook + self.counts_at_hook

    @property
    def counted(self) -> Counter[str]:
        """What was made, by the names that a printed count may use."""
        out: Counter[str] = Counter(self.owns)
        for place in self.made:
            if place.what == "st":
                out["st"] += 1
                out[place.name] += 1
                many = re.search(r"-\w+ (\w+)$", place.name)
                if many:
                    out[many[1]] += 1
            elif place.what == "sp":
                out[f"ch-{place.n} sp"] += 1
                out["sp"] += 1
                out["ch"] += place.n
        return out

    def _spread_out(self, items: tuple[Item, ...]) -> tuple[Item, ...]:
        """Stitches spread evenly: as they are set out, which comes after a colon, in a line of
        this size beneath, or in a line for this row beneath a repeat."""
        out: list[Item] = []
        for at, item in enumerate(items):
            found = _EVENLY.fullmatch(getattr(item, "text", ""))
            if not found:
                out.append(item)
                continue
            each = out.pop() if found["more"] else None
            if self.spread:
                # The row goes on only with its join after a spacing of its own.
                after = [one for one in items[at + 1 :] if getattr(one, "text", "")[:4] == "join"]
                return (*out, *items_of(self.spread), *after)
            if found["here"]:
                out += items_of(found["here"])
            elif found["beneath"]:
                out += items_of(self.step.beneath[0][1])
            elif each is not None:
                # How many is all that is said.
                out += [each, Plain(f"{found['how']} {found['more']}")]
            else:
                raise Unread(f"how it is spread: {item}")
        return tuple(out)

    def more_or_fewer(self, found: re.Match[str]) -> None:
        """So many more of what was just made, or fewer."""
        n = int(found["n"])
        if found["how"] == "increasing":
            self._make(self.made[-1].name, n)
        else:
            del self.made[-n:]

    # ------------------------------------------------------------- items

    def items(self, items: tuple[Item, ...]) -> None:
        for item in items:
            if isinstance(item, Again):
                self.first = False
                self._again(item)
            elif isinstance(item, Group):
                counts = re.fullmatch(rf"(.*?)(?: {_COUNTS})?", item.where)
                assert counts
                places = self._into(counts[1], 0)
                if counts["name"]:
                    self._make(counts["name"])
                else:
                    for _ in range(places):
                        self._inside(item.items)
                self.first = False
            else:
                self._plain(item.text)

    def _again(self, item: Again) -> None:
        if item.times is not None:
            for _ in range(item.times):
                self.items(item.items)
            return
        stop = re.match(r"to last (?:(\d+) )?st", item.far)
        least = int(stop[1] or 1) if stop else 0
        if not stop and item.far not in ("around", "across"):
            raise Unread(f"how far: {item.far}")
        while self.edge.left() > least:
            self.items(item.items)

    def _inside(self, items: tuple[Item, ...]) -> None:
        """A group: everything goes into the one place."""
        for item in items:
            found = re.fullmatch(rf"{STITCH}(?: blo| flo)?", getattr(item, "text", ""))
            chain = re.fullmatch(r"ch (\d+)", getattr(item, "text", ""))
            if chain:
                self.made.append(Place("sp", n=int(chain[1])))
            elif found:
                self._make(found["name"], int(found["n"]))
            else:
                raise Unread(f"in a group: {item}")

    def _make(self, name: str, n: int = 1) -> None:
        self.made += [Place("st", name)] * n

    def _plain(self, text: str) -> None:
        for pattern, do in _PLAIN:
            found = re.fullmatch(pattern, text)
            if found:
                do(self, found)
                return
        self._own(text)

    def _own(self, text: str) -> None:
        found = re.fullmatch(r"(\d+) ([a-z ]+?)(?: (in .*))?", text)
        names = {one: one for one in self.part.sheet.own}
        names |= {f"{one}{end}": one for one in names for end in ("s", "es")}
        if not found or found[2] not in names:
            raise Unread(f"an item: {text}")
        name = names[found[2]]
        for _ in range(int(found[1])):
            self.owns[name] += 1
            self.items(items_of(self.part.sheet.own[name].split(";")[0]))

    def nothing(self, found: re.Match[str]) -> None:
        """Words that take nothing and make nothing that is counted."""

    def plain_join(self, found: re.Match[str]) -> None:
        """Into the first stitch, which is not past a loop that the round begins with."""
        if re.match(rf"(?:ch \d+ {_NOT}, [\[(]*|[\[(]+)ch \d+\b(?! \()", self.text):
            raise Unread(f"a join past a loop: {self.text}")

    def join(self, found: re.Match[str]) -> None:
        """A join into a chain that counts as a stitch and a space: into the top of the stitch; or
        into the first chain of a loop that the round begins with."""
        of = found["of"]
        if found["nth"] == "1" and re.match(
            rf"(?:ch \d+ {_NOT}, )?[\[(]*ch {of}\b(?! \()", self.text
        ):
            return
        begun = re.match(rf"ch (?P<n>\d+) {_COUNTS}", self.text)
        if not begun or not begun["loose"] or begun["n"] != found["of"]:
            raise Unread(f"a join into a chain that is not there: {self.text}")
        if int(found["nth"]) != int(begun["n"]) - int(begun["loose"]):
            raise Unread(f"a join into another chain than the top: {self.text}")

    def join_skipped(self, found: re.Match[str]) -> None:
        """A join into the top of what the chains missed at the hook count as, which comes next to
        those of them that are a space."""
        begun = re.match(rf"(?:miss|skip) first \d+ ch {_COUNTS}", self.text)
        if not begun or int(found["nth"]) != int(begun["loose"] or 0) + 1:
            raise Unread(f"a join into another chain than the top: {self.text}")

    def other_side(self, found: re.Match[str]) -> None:
        """Back along the starting chain, from the one next to the last one that was worked."""
        worked = len(self.edge.places) - self.skipped_at_hook
        self.edge.places += [Place("ch")] * (worked - 1)

    def chain(self, found: re.Match[str]) -> None:
        n, first = int(found["n"]), self.first
        self.first = False
        if found["name"]:
            # On a ring there is no place that it takes.
            if not self.moved and self.edge.left():
                self.edge.take("st")
            self._make(found["name"])
            if found["loose"]:
                self.made.append(Place("sp", n=int(found["loose"])))
        elif not first:
            self.made.append(Place("sp", n=n))

    def skip(self, found: re.Match[str]) -> None:
        n, noun = int(found["n"] or 1), _single(found["noun"])
        passed = []
        for _ in range(n):
            self.edge.take(noun)
            passed.append(self.edge.places[self.edge.at - 1])
        if found["name"]:
            chains = self.made[-1]
            self.part.openings[found["name"]] = [*passed, *[Place("ch")] * chains.n]

    def skip_first(self, found: re.Match[str]) -> None:
        self.skipped_at_hook = int(found["n"])
        self.counts_at_hook = 1
        self.edge.at += int(found["n"])
        self._make(found["name"])
        if found["loose"]:
            self.made.append(Place("sp", n=int(found["loose"])))

    def move(self, found: re.Match[str]) -> None:
        self.edge.turn_to(_single(found["noun"]))
        self.moved = True

    def together(self, found: re.Match[str]) -> None:
        self.first = False
        for _ in range(int(found["n"])):
            self.edge.take(_single(found["noun"]))
        self._make(found["name"])

    def stitches(self, found: re.Match[str]) -> None:
        self.first = False
        n = int(found["n"]) if "n" in found.groupdict() and found["n"] else 1
        for _ in range(self._into(found["where"], n)):
            self._make(found["name"], n)

    def _into(self, where: str, n: int) -> int:
        """Go to a place; into how many places each of them goes."""
        where = re.sub(r"^(in third loop of|in|around) ", "", where)
        hook = re.fullmatch(rf"(\d+)(?:st|nd|rd|th) ch from hook(?: {_MISSED})?", where)
        if hook:
            self.skipped_at_hook = int(hook[1]) - 1
            if hook["missed"] and int(hook["missed"]) != self.skipped_at_hook:
                raise Unread(f"not so many chains are missed: {where}")
            self.edge.at += int(hook[1])
            return 1
        if where in ("ring",) or where.startswith("same "):
            if where.endswith(" sp") and self.moved and self.edge.at == 0:
                self.edge.at = 1
            return 1
        before = re.fullmatch(r"(?:each of (\d+) )?(?:missed|skipped) sts?", where)
        if before:
            return int(before[1] or 1)
        several = re.fullmatch(r"each of next (\d+) (.*)", where)
        if several:
            noun = _single(several[2])
            for _ in range(int(several[1])):
                self.edge.any_next() if noun == "st and ch" else self.edge.take(noun)
            return int(several[1])
        if re.fullmatch(r"top of ch-\d+|\d+\w\w ch of ch-\d+", where):
            self.edge.take("st")
            return 1
        single = re.fullmatch(r"(?:next|last|first) (.*)", where)
        if single:
            self.edge.take(_single(single[1]))
            return 1
        return self._each(where)

    def _each(self, where: str) -> int:
        far = re.fullmatch(
            r"each (?P<noun>.*?)(?: (?P<all>around|across)| to (?P<to>next .*|last .*))?", where
        )
        if not far:
            raise Unread(f"a place: {where}")
        noun, to = _single(far["noun"]), far["to"] or ""
        stop = re.fullmatch(r"last (?:(\d+) )?sts?", to)
        if noun == "st and ch":
            n = self.edge.ahead(_single(to.removeprefix("next "))) if to else self.edge.all_ahead()
            for _ in range(n):
                self.edge.any_next()
            return n
        n = 0
        if to and not stop:
            n = self.edge.ahead(_single(to.removeprefix("next ")))
        elif noun.endswith("sp"):
            n = sum(Edge._is(one, noun) for one in self.edge.places[self.edge.at :])
        elif noun in ("st", "ch"):
            n = self.edge.left() - (int(stop[1] or 1) if stop else 0)
        else:
            n = sum(Edge._is(one, noun) for one in self.edge.places[self.edge.at :])
        for _ in range(n):
            self.edge.take(noun)
        return n


def _by_itself(step: Step, is_round: bool, number: int) -> Step:
    """One of several rows that are told together, with its own numbers and count."""
    told = dict(step.beneath).get(f"{'round' if is_round else 'row'} {number}", "")
    own = re.fullmatch(r"(?:((?:[nm] = \d+(?:, )?)+)\. )?(\d.*?);?", told)
    if not own:
        return step
    text = re.sub(r" \((?:n|n and m) as below\)$", "", step.text)
    for letter, value in re.findall(r"([nm]) = (\d+)", own[1] or ""):
        text = re.sub(rf"\b{letter}\b", value, text)
    return Step(step.label, text, own[2], ())


def _without_way(text: str) -> str:
    """The words of a start without from which row to which: row ends are counted from the first row
    on, the other ones back again."""
    ways = {"row ends": "first row to its last", "other row ends": "last row to its first"}
    found = re.match(r"(work along the ((?:other )?row ends) of .*), from its (\w+ row .*)$", text)
    if not found:
        return text
    if ways[found[2]] != found[3]:
        raise Unread(f"a start from the wrong end: {text}")
    return found[1]


def _single(noun: str) -> str:
    """One of a noun: ``sts`` is ``st``, ``ch-2 sps`` is ``ch-2 sp``."""
    return {"sts or ch": "st and ch", "sts": "st", "row ends": "row end"}.get(
        noun, re.sub(r"^(ch-\d+ sp|sp|place)s$", r"\1", noun)
    )


_EVENLY = re.compile(
    r"(?:(?P<how>increasing|decreasing) (?P<more>\d+) evenly|\d+ .* evenly over the whole edge)"
    r"(?:: (?P<here>.*)|(?P<beneath> \(spaced as below\)))?"
)
_COUNTS = r"\(counts? as 1 (?P<name>\w+)(?: and (?P<loose>\d+) ch)?\)"
_NOT = r"\(does not count as a st\)"
_MISSED = r"\(the (?P<missed>\d+) (?:missed|skipped) ch do not count as a st\)"
_PLAIN: list[tuple[str, Callable[[_Row, re.Match[str]], None]]] = [
    (r"join", _Row.plain_join),
    (r"turn|do not turn|change to .*|place marker .*|leave .* unworked", _Row.nothing),
    (r"join with sl st in (?P<nth>\d+)\w\w ch of ch-(?P<of>\d+)", _Row.join),
    (r"join with sl st in (?P<nth>\d+)\w\w (?:missed|skipped) ch from hook", _Row.join_skipped),
    (rf"ch (?P<n>\d+)(?: {_COUNTS}| {_NOT})?", _Row.chain),
    (rf"(?:miss|skip) first (?P<n>\d+) ch {_COUNTS}", _Row.skip_first),
    (
        r"(?:miss|skip) next (?:(?P<n>\d+) )?(?P<noun>.*?)(?: for the (?P<name>.*) opening)?",
        _Row.skip,
    ),
    (r"(?P<how>increasing|decreasing) (?P<n>\d+)", _Row.more_or_fewer),
    (r"go on along the other side of the starting ch", _Row.other_side),
    (r"sl st along to next (?P<noun>.*)", _Row.move),
    (
        r"(?P<name>\w+tog|[\w ]+ and \w+ tog)(?: blo| flo)? over next (?P<n>\d+) (?P<noun>.*)",
        _Row.together,
    ),
    (rf"{STITCH}(?: blo| flo)? (?P<where>(?:in|around) .*)", _Row.stitches),
    (r"(?P<name>\d+-\w+ \w+) (?P<where>(?:in|around) .*)", _Row.stitches),
]
