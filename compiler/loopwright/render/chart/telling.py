"""What is made in a row, in words, from its runs: as short as the row was to write.

Words are told thing by thing; stitches that share a place are told together, and what comes again
straight after itself is told once with the number of times.
"""

from __future__ import annotations

from typing import cast

from loopwright.ir.fabric import Made
from loopwright.ir.runs import Builder, Runs
from loopwright.render.chart.far import placed
from loopwright.render.chart.links import TAKES
from loopwright.render.chart.values import Words
from loopwright.trade.stitches import Stitch
from loopwright.trade.terms import Terms

MOST_FOLDED = 400  # phrases of one row that are searched for repeats
LONGEST_FOLD = 24

_LOOPS = {loop: f" in the {loop} loop" for loop in ("back", "front", "third")}
_PLACES = {
    "sp": "space",
    "ring": "ring",
    "gap": "gap",
    "end": "row end",
    "ch": "chain",
    "st": "stitch",
    "deep": "stitch of an earlier row",
    "left": "stitch left earlier",
}
_WITHOUT_YARN = ("turn", "join", "picot", "hook sp", "hook ch", "skip as")
Pairs = list[tuple["Made | Runs[Made]", int]]


def tidy(made: Runs[Made], yarns: bool = False) -> Runs[Made]:
    """The same things as they are told: whatever they were written as, and repeats that begin
    before their bracket counted with it. With ``yarns`` each keeps the yarn it is made with."""
    out: Builder[Made] = Builder()
    before: Made | None = None
    for node, times in made.pairs:
        if isinstance(node, Runs):
            inner = tidy(node, yarns)
            times += _taken(out, inner)
            out.repeat(inner, times)
            before = None
        else:
            first, rest = _told(node, before, times, yarns)
            out.add(first)
            out.add(rest, times - 1)
            before = node
    return out.done()


def _taken(out: Builder[Made], inner: Runs[Made]) -> int:
    """Take back from the end what is the same as a repeat that follows; how often it was there."""
    times = 0
    count = len(inner.pairs)
    while count and tuple(out.pairs[-count:]) == inner.pairs:
        del out.pairs[-count:]
        times += 1
    return times


def _told(made: Made, before: Made | None, times: int, yarns: bool) -> tuple[Made, Made]:
    """A thing without what is not told of it, the first time and every other time. Into the chains
    of a space, one after another, is told like into chains."""
    yarn = made.yarn if yarns and made.what not in _WITHOUT_YARN else ""
    plain = made._replace(item=0, own="", lead=False, yarn=yarn, begins=())
    if made.into != "sp" or not made.chain:
        return plain, plain
    in_chain = plain._replace(into="ch", chain=0)
    if made.step:
        first = in_chain if made.chain == 1 and times == 1 else plain
        return first, first
    on = made.chain - before.chain if before is not None and before.into == "sp" else -1
    first = in_chain._replace(step=on) if on in (0, 1) and before and before.chain else plain
    return first, in_chain


def sequence(made: Runs[Made], terms: Terms) -> Words:
    """What is made, in order, in words."""
    phrases: list[Words] = []
    pairs = _split(made)
    i = 0
    while i < len(pairs):
        node, times = pairs[i]
        if isinstance(node, Runs):
            phrases.append(_times(sequence(node, terms), times))
            i += 1
        elif node.what == "pass":
            phrases += _way(node, terms)
            i += 1
        elif times > 1 and (way := _way(node, terms)):
            phrases.append(_times(listed([*way, _told_of(node, 1)]), times))
            i += 1
        else:
            i, words = _together(pairs, i, terms)
            phrases += words
    return listed(folded(phrases))


def _times(inside: Words, times: int) -> Words:
    return ("(", *inside, f") {times:,} times") if times > 1 else inside


def listed(phrases: list[Words]) -> Words:
    """Phrases one after another, with commas."""
    out: list[str | Stitch] = []
    for phrase in phrases:
        out += [", ", *phrase] if out else phrase
    return tuple(out)


def folded(phrases: list[Words]) -> list[Words]:
    """Phrases that come again straight after themselves, told once."""
    if len(phrases) > MOST_FOLDED:
        return phrases
    out: list[Words] = []
    i = 0
    while i < len(phrases):
        length, times = _again(phrases, i)
        if times > 1:
            out.append(_times(listed(phrases[i : i + length]), times))
        else:
            out.append(phrases[i])
        i += length * times
    return out


def _again(phrases: list[Words], i: int) -> tuple[int, int]:
    """The shortest stretch from here that comes again straight after itself, and how often."""
    for length in range(1, min(LONGEST_FOLD, (len(phrases) - i) // 2) + 1):
        unit = phrases[i : i + length]
        times = 1
        while phrases[i + times * length : i + (times + 1) * length] == unit:
            times += 1
        if times > 1:
            return length, times
    return 1, 1


def _split(made: Runs[Made]) -> Pairs:
    """The pairs, with a first stitch after a skip put to those that follow it (the skip becomes a
    thing of its own), and the last one of a run apart where others follow in its place."""
    out: Pairs = []
    pairs = list(made.pairs)
    for i, (node, times) in enumerate(pairs):
        on, more = pairs[i + 1] if i + 1 < len(pairs) else (None, 0)
        if not isinstance(node, Made) or node.what != "st" or not isinstance(on, Made):
            out.append((node, times))
        elif times > 1 and node.step and _may_share(node) and _shares(on):
            out += [(node, times - 1), (node, 1)]
        elif times == 1 and node.step > 1 and on == node._replace(step=1):
            alone = i + 2 < len(pairs) and _shares(pairs[i + 2][0])
            pairs[i + 1] = (on, 1) if alone else (on, 0)
            out += [(node._replace(what="pass"), 1), (on, more + (0 if alone else 1))]
        elif times:
            out.append((node, times))
    return [pair for pair in out if pair[1]]


def _shares(node: Made | Runs[Made]) -> bool:
    """Whether this goes into the place of the stitch before it."""
    return isinstance(node, Made) and _may_share(node) and node.step == 0


def _together(pairs: Pairs, i: int, terms: Terms) -> tuple[int, list[Words]]:
    """A run and, where stitches share its place, the runs after it that go there too."""
    made, times = cast("Made", pairs[i][0]), pairs[i][1]
    if not _may_share(made) or times > 1:
        return i + 1, [*_way(made, terms), _told_of(made, times)]
    group: list[tuple[Made, int]] = [(made, 1)]
    j = i + 1
    while j < len(pairs) and _goes_there_too(pairs, j, made):
        other, more = cast("Made", pairs[j][0]), pairs[j][1]
        if other._replace(step=0) == group[-1][0]._replace(step=0):
            group[-1] = (group[-1][0], group[-1][1] + more)
        else:
            group.append((other, more))
        j += 1
    if j == i + 1:
        return j, [*_way(made, terms), _told_of(made, 1)]
    body = listed([_count(one, n) for one, n in group])
    inside = ("(", *body, ")") if len(group) > 1 else body
    which = "one" if made.step else "the same"
    return j, [*_way(made, terms), (*inside, f" in {which} {_PLACES[made.into]}")]


def _may_share(made: Made) -> bool:
    """Whether this is a stitch in one place of the edge, which others may share."""
    return made.what == "st" and made.into in TAKES and not made.also and not made.chain


def _goes_there_too(pairs: Pairs, j: int, first: Made) -> bool:
    """Whether a pair goes into the place of those before it, or is chains between such."""
    node = pairs[j][0]
    if isinstance(node, Made) and node.what == "ch":
        return j + 1 < len(pairs) and _goes_there_too(pairs, j + 1, first)
    return isinstance(node, Made) and _shares(node) and node.into == first.into


def _way(made: Made, terms: Terms) -> list[Words]:
    """What is passed on the way there."""
    if made.into not in TAKES or made.what == "join" or made.step in (0, 1):
        return []
    back = made.step < 0
    passed = -made.step if back else made.step - 1
    kind = "chain" if made.into == "ch" else "place"
    return [(f"{'go back' if back else terms.skip} {passed:,} {kind}{'' if passed == 1 else 's'}",)]


def _count(made: Made, times: int) -> Words:
    """So many of a thing, by name, and with which yarn where that is told."""
    yarn = f" with {made.yarn}" if made.yarn else ""
    if made.what != "st":
        words = (*thing_words(made), yarn)
        return (*words, f" {times:,} times") if times > 1 else words
    head = (f"{times:,} ",) if times > 1 else ()
    around = " around the post" if made.post and made.stitch and not made.stitch.post else ""
    return (*head, made.stitch or "stitch", _LOOPS.get(made.loop, ""), around, yarn)


def _told_of(made: Made, times: int) -> Words:
    """A run of one thing and where it goes."""
    out = _count(made, times)
    if made.into == "ring" and made.what in ("st", "as"):
        return (*out, " in the ring")
    if made.what == "as" and made.into in TAKES and made.into != "st":
        return (*out, f" in the next {_PLACES[made.into]}")
    if made.what != "st":
        return out
    if made.into == "own":
        return (*out, " back along the chain")
    if made.into in ("deep", "left"):
        if made.opening:
            return (*out, placed(made.opening, times))
        many = "a" if times == 1 else "each a"
        return (*out, f" in {many} {_PLACES[made.into]}")
    if made.into not in TAKES:
        return out
    return (*out, _over(made) if made.also else _where(made, times))


def _where(made: Made, times: int) -> str:
    """Where on the edge a stitch goes; the next stitch goes without saying."""
    place = _PLACES[made.into]
    if made.chain:
        which = "next" if made.step else "same"
        return f" in the {_nth(made.chain)} chain of the {which} {place}"
    if made.step == 0:
        return f" in the same {place}"
    if made.into == "st":
        return ""
    if times > 1:
        return f" (one in each of the next {place}s)"
    return f" in the next {place}"


def _over(made: Made) -> str:
    """What a decrease closes over, where that is not so many stitches one after another."""
    out = "" if made.into == "st" else f" over {_PLACES[made.into]}s"
    if made.step == 0:
        out += f", the first in the same {_PLACES[made.into]}"
    if made.also != tuple(range(1, len(made.also) + 1)):
        ways = [f"{more:,}" if more >= 0 else f"{-more:,} back" for more in made.also]
        out += f", the others {' and '.join(ways)} from the first"
    return out


def _nth(n: int) -> str:
    """A number in its place: ``1st``, ``22nd``."""
    ending = {1: "st", 2: "nd", 3: "rd"}.get(n % 10, "th") if n % 100 not in (11, 12, 13) else "th"
    return f"{n:,}{ending}"


def thing_words(made: Made) -> Words:
    """One thing made, as the text equivalent of its symbol."""
    stitch = made.stitch or "stitch"
    if made.what == "join sp":
        return ("join with ", stitch, f" (and the chains before it) for a ch-{made.chains} space")
    if made.what in ("as", "skip as"):
        skipped = " skipped" if made.what == "skip as" else ""
        return (f"ch {made.chains}{skipped} counted as ", stitch)
    if made.what != "st":
        return (_CHAINS[made.what].format(n=made.chains, name=made.opening),)
    where = _PLACES.get(made.into, "")
    into = f" around a {where}" if made.post else f" into a {where}" if where else ""
    if made.into == "ring":
        into = " into the ring"
    return (stitch, _LOOPS.get(made.loop, ""), into)


_CHAINS = {
    "turn": "ch {n} that does not count",
    "open": "ch {n} for the opening {name}",
    "hook sp": "ch {n} passed over that leave a space",
    "hook ch": "ch {n} of the start passed over",
    "ch": "ch {n}",
    "join": "join",
    "picot": "ch-{n} picot",
}
