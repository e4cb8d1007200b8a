"""Stitches that are spread evenly, with the spacing that the work came to.

inc 4 dc evenly, on 40    1 dc in each st, increasing 4 evenly: [1 dc in each of next 4 sts,
                          2 dc in next st, 1 dc in each of next 5 sts] 4 times
"""

from __future__ import annotations

from collections.abc import Iterator

from loopwright.ir.items import Evenly
from loopwright.ir.runs import Runs
from loopwright.render.prose.counts import stitches, sts
from loopwright.render.prose.places import named
from loopwright.render.prose.telling import Amount, Telling
from loopwright.render.prose.tongue import phrase
from loopwright.render.prose.words import capital
from loopwright.render.prose.works import looped, next_places, place_met, times_over, together

_HOW = {
    "all": phrase("{n} {stitch} evenly over the whole edge"),
    "inc": phrase("1 {stitch} in each {place}, increasing {n} evenly"),
    "dec": phrase("1 {stitch} in each {place}, decreasing {n} evenly"),
}


def evenly(item: Evenly, tell: Telling) -> str:
    """Stitches spread evenly: in one line where the sizes agree, else with a line for each."""
    amount = tell.amount(item.n)
    name = looped(tell.voice.stitch(item.stitch), item.loop, tell)
    place = named(place_met(item.span, tell), tell)
    text = tell.voice.say(_HOW[item.how], n=amount.text, stitch=name, place=place)
    spacings = _spacings(item, name, tell)
    if not all(spacings):
        return text
    if len(set(spacings)) == 1 and amount.none:
        return spacings[0]
    if len(set(spacings)) == 1:
        return tell.voice.say("{what}: {spacing}", what=text, spacing=spacings[0])
    for size, spacing in zip(tell.size_names(tell.sizes), spacings, strict=True):
        line = tell.voice.say("{size}: {spacing}.", size=capital(size), spacing=spacing)
        tell.details.append(line)
    return tell.voice.say("{what} (spaced as below)", what=text)


def again(item: Evenly, line: int, first: int, tell: Telling) -> Iterator[str]:
    """The spacing of every later row of a line that is worked again with another one, the rows
    numbered on from ``first``: a line for each row with its count, and for each size where they
    differ."""
    name = looped(tell.voice.stitch(item.stitch), item.loop, tell)
    found: dict[int, dict[str, list[int]]] = {}
    for size in tell.sizes:
        for nth, row in enumerate(tell.worked.sizes[size].rows(line)):
            runs = dict(row.spreads).get(item.span)
            if nth and runs is not None:
                text = _spacing(runs, item, name, tell)
                found.setdefault(nth, {}).setdefault(text, []).append(size)
    for nth, texts in found.items():
        for text, sizes in texts.items():
            said = {"row": tell.row_word(), "n": first + nth, "spacing": text}
            if len(sizes) == len(tell.sizes):
                told = tell.voice.say("{row} {n}: {spacing}.", **said)
            else:
                names = tell.named_sizes(tuple(sizes))
                told = tell.voice.say("{sizes}, {row} {n}: {spacing}.", sizes=names, **said)
            count = tell.voice.style.count(_count(sizes, line, nth, tell))
            yield f"{capital(told)} {count}".rstrip()


def _count(sizes: list[int], line: int, nth: int, tell: Telling) -> str:
    """What row ``nth`` of a line comes to in these sizes."""
    rows = [tell.worked.sizes[size].rows(line)[nth] for size in sizes]
    return sts([stitches(row.counts) for row in rows], tell.voice)


def _spacings(item: Evenly, name: str, tell: Telling) -> list[str]:
    out = []
    for size in tell.sizes:
        runs = tell.worked.sizes[size].spread(item.span, tell.line, tell.nth or 0)
        out.append("" if runs is None else _spacing(runs, item, name, tell))
    return out


def _spacing(runs: Runs[int], item: Evenly, name: str, tell: Telling) -> str:
    parts = []
    for node, times in runs.pairs:
        if isinstance(node, Runs):
            parts.append(times_over(_spacing(node, item, name, tell), _so_many(times), tell))
        else:
            parts.append(_stretch(node, times, item, name, tell))
    return ", ".join(parts)


def _so_many(n: int) -> Amount:
    return Amount(str(n), n == 1, n == 0, n)


def _stretch(made: int, places: int, item: Evenly, name: str, tell: Telling) -> str:
    amount = _so_many(places)
    if item.how == "dec" and made > 1:
        pair = item.stitch._replace(together=item.stitch.together * made)
        return times_over(together(pair, item.loop, made, item.span, tell), amount, tell)
    if made == 0:
        place = named(place_met(item.span, tell), tell, places)
        if amount.one:
            return tell.voice.say("miss next {place}", place=place)
        return tell.voice.say("miss next {n} {places}", n=places, places=place)
    return f"{made} {name} {next_places(item.stitch, item.loop, item.span, amount, tell)}"
