"""What is made in a row, in words, from its runs: as short as the row was to write.

Words are told thing by thing; stitches that share a place are told together, and what comes again
straight after itself is told once with the number of times.
"""

from __future__ import annotations

from functools import lru_cache
from typing import cast

from loopwright.ir.fabric import Made
from loopwright.ir.runs import Builder, Runs
from loopwright.render.chart.far import placed
from loopwright.render.chart.links import TAKES
from loopwright.render.chart.values import Far, Words
from loopwright.render.speaker import Nth, Said, phrase, phrases, said, said_noun
from loopwright.trade.stitches import Stitch

MOST_FOLDED = 400  # phrases of one row that are searched for repeats
LONGEST_FOLD = 24

_LOOPS = {
    "back": phrase("{stitch} in the back loop"),
    "front": phrase("{stitch} in the front loop"),
    "third": phrase("{stitch} in the third loop"),
}
_PLACES = {
    "sp": phrases("space", "spaces"),
    "gap": phrases("gap", "gaps"),
    "end": phrases("row end", "row ends"),
    "ch": phrases("chain", "chains"),
    "st": phrases("stitch", "stitches"),
    "deep": phrases("stitch of an earlier row", "stitches of an earlier row"),
    "left": phrases("stitch left earlier", "stitches left earlier"),
}


def place(into: str, n: int = 1) -> Said:
    """What a stitch goes into, as a noun."""
    return said_noun(*_PLACES[into], n)


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
        elif node.what == "hook ch" and node is made.pairs[-1][0]:
            out.add(node._replace(what="hook end", item=0))
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
    if before is not None and before.what == "hook ch":  # which has told that they are passed
        plain = plain._replace(step=plain.step - before.chains)
    if made.into != "sp" or not made.chain:
        return plain, plain
    in_chain = plain._replace(into="ch", chain=0)
    if made.step:
        first = in_chain if made.chain == 1 and times == 1 else plain
        return first, first
    on = made.chain - before.chain if before is not None and before.into == "sp" else -1
    first = in_chain._replace(step=on) if on in (0, 1) and before and before.chain else plain
    return first, in_chain


def sequence(made: Runs[Made]) -> Words:
    """What is made, in order, in words."""
    phrases: list[Words] = []
    pairs = _split(made)
    i = 0
    while i < len(pairs):
        node, times = pairs[i]
        if isinstance(node, Runs):
            phrases.append(_times(sequence(node), times))
            i += 1
        elif node.what == "pass":
            phrases += _way(node)
            i += 1
        elif times > 1 and (way := _way(node)):
            phrases.append(_times(listed([*way, _told_of(node, 1)]), times))
            i += 1
        else:
            i, words = _together(pairs, i)
            phrases += words
    return listed(folded(phrases))


def _times(inside: Words, times: int) -> Words:
    return (said("({what}) {n} times", what=inside, n=f"{times:,}"),) if times > 1 else inside


def listed(phrases: list[Words]) -> Words:
    """Phrases one after another, with commas."""
    out: list[str | Stitch] = []
    for one in phrases:
        out += [", ", *one] if out else one
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


def _together(pairs: Pairs, i: int) -> tuple[int, list[Words]]:
    """A run and, where stitches share its place, the runs after it that go there too."""
    made, times = cast("Made", pairs[i][0]), pairs[i][1]
    if not _may_share(made) or times > 1:
        return i + 1, [*_way(made), _told_of(made, times)]
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
        return j, [*_way(made), _told_of(made, 1)]
    body = listed([_count(one, n) for one, n in group])
    inside = ("(", *body, ")") if len(group) > 1 else body
    which = phrase("{what} in one {place}") if made.step else phrase("{what} in the same {place}")
    return j, [*_way(made), (said(which, what=inside, place=place(made.into)),)]


def _may_share(made: Made) -> bool:
    """Whether this is a stitch in one place of the edge, which others may share."""
    return made.what == "st" and made.into in TAKES and not made.also and not made.chain


def _goes_there_too(pairs: Pairs, j: int, first: Made) -> bool:
    """Whether a pair goes into the place of those before it, or is chains between such."""
    node = pairs[j][0]
    if isinstance(node, Made) and node.what == "ch":
        return j + 1 < len(pairs) and _goes_there_too(pairs, j + 1, first)
    return isinstance(node, Made) and _shares(node) and node.into == first.into


def _way(made: Made) -> list[Words]:
    """What is passed on the way there."""
    if made.into not in TAKES or made.what == "join" or made.step in (0, 1):
        return []
    passed = -made.step if made.step < 0 else made.step - 1
    chains = made.into == "ch"
    places = place("ch", passed) if chains else said_noun("place", "places", passed)
    way = phrase("go back {n} {places}") if made.step < 0 else phrase("miss {n} {places}")
    return [(said(way, n=f"{passed:,}", places=places),)]


def _count(made: Made, times: int) -> Words:
    """So many of a thing, by name, and with which yarn where that is told."""
    words: Words
    if made.what != "st":
        words = thing_words(made)
        if made.yarn:
            words = (said("{what} with {yarn}", what=words, yarn=made.yarn),)
        return (said("{what} {n} times", what=words, n=f"{times:,}"),) if times > 1 else words
    stitch = made.stitch or place("st")
    words = (f"{times:,} ", stitch) if times > 1 else (stitch,)
    if times > 1 and made.stitch and (made.stitch.together > 1 or made.stitch.unlike):
        # Not every language can put a number before another one.
        words = (said("{n} {decreases}", n=f"{times:,}", decreases=(made.stitch,)),)
    words = looped(words, made.loop)
    if made.post and made.stitch and not made.stitch.post:
        words = (said("{what} around the post", what=words),)
    return (said("{what} with {yarn}", what=words, yarn=made.yarn),) if made.yarn else words


def looped(words: Words, loop: str) -> Words:
    """Stitches with the loop that they are made in."""
    return (said(_LOOPS[loop], stitch=words),) if loop in _LOOPS else words


def _told_of(made: Made, times: int) -> Words:
    """A run of one thing and where it goes."""
    out = _count(made, times)
    if made.into == "ring" and made.what in ("st", "as"):
        return (said("{what} in the ring", what=out),)
    if made.what == "as" and made.into in TAKES and made.into != "st":
        return (said("{what} in the next {place}", what=out, place=place(made.into)),)
    if made.what != "st":
        return out
    if made.into == "own":
        return (said("{what} back along the chain", what=out),)
    if made.into in ("deep", "left"):
        if made.opening:
            return placed(out, made.opening, times)
        each = phrase("{what} in a {place}") if times == 1 else phrase("{what} in each a {place}")
        return (said(each, what=out, place=place(made.into)),)
    if made.into not in TAKES:
        return out
    return _over(out, made) if made.also else _where(out, made, times)


def _where(out: Words, made: Made, times: int) -> Words:
    """A stitch with where on the edge it goes; the next stitch goes without saying."""
    if made.chain:
        which = (
            phrase("{what} in the {nth} chain of the next {place}")
            if made.step
            else phrase("{what} in the {nth} chain of the same {place}")
        )
        return (said(which, what=out, nth=Nth(made.chain), place=place(made.into)),)
    if made.step == 0:
        return (said("{what} in the same {place}", what=out, place=place(made.into)),)
    if made.into == "st":
        return out
    if times > 1:
        each = phrase("{what} (one in each of the next {places})")
        return (said(each, what=out, places=place(made.into, 2)),)
    return (said("{what} in the next {place}", what=out, place=place(made.into)),)


def _over(out: Words, made: Made) -> Words:
    """A decrease with what it closes over, where that is not so many stitches one after another."""
    if made.into != "st":
        out = (said("{what} over {places}", what=out, places=place(made.into, 2)),)
    if made.step == 0:
        first = phrase("{what}, the first in the same {place}")
        out = (said(first, what=out, place=place(made.into)),)
    if made.also != tuple(range(1, len(made.also) + 1)):
        ways = [
            f"{more:,}" if more >= 0 else said("{n} back", n=f"{-more:,}") for more in made.also
        ]
        all_of = ways[0]
        for way in ways[1:]:
            all_of = said("{edges} and {edge}", edges=all_of, edge=way)
        out = (said("{what}, the others {ways} from the first", what=out, ways=all_of),)
    return out


def thing_words(made: Made, far: Far | None = None) -> Words:
    """One thing made, as the text equivalent of its symbol; where it goes ``far`` down, in the
    words that the text equivalent of its row has for that."""
    if far is not None and made.what == "st":
        return placed(_count(made._replace(yarn=""), 1), far, 1)
    of = made.stitch, made.loop, made.into, made.post
    return _thing_words(made.what, of, made.chains, made.opening)


@lru_cache(maxsize=1024)
def _thing_words(
    what: str, of: tuple[Stitch | None, str, str, bool], chains: int, opening: str
) -> Words:
    made, loop, where, post = of
    stitch = made or place("st")
    if what == "join sp":
        how = phrase("join with {stitch} (and the chains before it) for a ch-{n} space")
        return (said(how, stitch=stitch, n=chains),)
    if what in ("as", "skip as"):
        how = phrase("ch {n} counted as {stitch}")
        if what == "skip as":
            how = phrase("ch {n} skipped counted as {stitch}")
        return (said(how, n=chains, stitch=stitch),)
    if what != "st":
        return (said(_CHAINS[what], n=chains, name=opening),)
    words = looped((stitch,), loop)
    if where == "ring":
        return (said("{what} into the ring", what=words),)
    if where not in _PLACES:
        return words
    into = phrase("{what} around a {place}") if post else phrase("{what} into a {place}")
    return (said(into, what=words, place=place(where)),)


_CHAINS = {
    "turn": phrase("ch {n} that does not count"),
    "open": phrase("ch {n} for the opening {name}"),
    "hook sp": phrase("ch {n} passed over that leave a space"),
    "hook ch": phrase("ch {n} of the start passed over"),
    "hook end": phrase("the ch {n} missed at the start come last"),
    "ch": phrase("ch {n}"),
    "join": phrase("join"),
    "picot": phrase("ch-{n} picot"),
}
