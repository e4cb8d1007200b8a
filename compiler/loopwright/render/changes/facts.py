"""What stands beside the rows, in words: a yarn, a gauge, what a size takes.

DK wool, 50 g = 110 m, weight 3
20 sts and 10 rounds to 10 cm / 4 in
1 ball, 37 g, 80 m / 88 yd
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from loopwright.changes.values import Fact, Square, Taken
from loopwright.ir.pattern import Text, Yarn
from loopwright.measure.amounts import plain
from loopwright.render.speaker import Speaker


def fact_words(fact: Fact, speaker: Speaker, free: Callable[[Text], str]) -> str:
    """A fact in words; empty where it is not there. ``free`` prints free text."""
    if isinstance(fact, Yarn):
        return _yarn(fact, speaker)
    if isinstance(fact, Square):
        return _square(fact, speaker)
    if isinstance(fact, Taken):
        return ", ".join(_taken(fact, speaker))
    if isinstance(fact, str):
        return fact
    return " ".join(free(one) for one in fact)


def length_words(word: str, speaker: Speaker) -> str:
    """What a length of a part is called; the prose has its phrases."""
    return speaker.say(word)


def _yarn(yarn: Yarn, speaker: Speaker) -> str:
    facts = [yarn.description]
    if yarn.grams is not None and yarn.metres is not None:
        facts.append(speaker.figures(f"{plain(yarn.grams)} g = {plain(yarn.metres)} m"))
    if yarn.weight is not None:
        facts.append(speaker.say("weight {n}", n=yarn.weight))
    return ", ".join(one for one in (*facts, yarn.colour) if one)


def _square(gauge: Square, speaker: Speaker) -> str:
    sts = speaker.say("{n} sts", n=speaker.figures(gauge.stitches))
    if gauge.rows:
        rows = speaker.row_word(gauge.in_rounds, 2)
        sts = speaker.say("{sts} and {n} {rows}", sts=sts, n=speaker.figures(gauge.rows), rows=rows)
    return speaker.say("{sts} to {length}", sts=sts, length=speaker.figures(gauge.over))


def _taken(taken: Taken, speaker: Speaker) -> Iterator[str]:
    if taken.balls is not None:
        n = speaker.figures(f"{taken.balls:,}")
        yield speaker.many("{n} ball", "{n} balls", taken.balls, n=n)
    if taken.grams is not None:
        yield speaker.say("{n} g", n=_between(taken.grams, speaker))
    if taken.metres is not None and taken.yards is not None:
        yield speaker.say(
            "{metres} m / {yards} yd",
            metres=_between(taken.metres, speaker),
            yards=_between(taken.yards, speaker),
        )


def _between(amount: tuple[int, int], speaker: Speaker) -> str:
    least, most = (speaker.figures(f"{one:,}") for one in amount)
    return most if least == most else speaker.say("{least} to {most}", least=least, most=most)
