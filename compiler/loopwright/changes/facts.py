"""What changed beside the rows: sizes, yarn, hooks, gauge, how much yarn, how large it is.

Everything is compared size by size, so that what changed in one size is told of that size alone.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping

from loopwright.changes.lines import Pairing
from loopwright.changes.values import Fact, FactChange, Square, Taken
from loopwright.ir.checked import Checked
from loopwright.ir.one_size import in_size
from loopwright.ir.pattern import Gauge, Pattern, Text, Yarn
from loopwright.measure.amounts import YARD, plain, rounded
from loopwright.measure.dimensions import measures
from loopwright.measure.lengths import both as in_both
from loopwright.measure.yarn import Need, needed

ANY = ""
"""In place of the name of a size, where all sizes of an edition are the same."""
Named = Mapping[tuple[str, str], Mapping[str, Fact]]
"""What stands under (name, which of its kind), by the name of the size."""


def fact_changes(
    both: Pairing, whole: tuple[Checked | None, Checked | None]
) -> Iterator[FactChange]:
    """All of them. ``whole`` are the editions as checked; what is measured is compared only where
    both came out."""
    for what, read in _WRITTEN.items():
        yield from _differing(what, read(both.old.pattern), read(both.new.pattern), both.every)
    if whole[0] is not None and whole[1] is not None:
        for what, measure in (("amount", _amounts), ("finished", _lengths)):
            found = measure(whole[0], both.every), measure(whole[1], both.every)
            yield from _differing(what, *found, both.every)


def _differing(what: str, old: Named, new: Named, every: tuple[str, ...]) -> Iterator[FactChange]:
    for name, of in dict.fromkeys((*old, *new)):
        was, now = old.get((name, of), {}), new.get((name, of), {})
        found: dict[tuple[Fact, Fact], list[str]] = {}
        for size in _sizes(was, now, every):
            pair = was.get(size, was.get(ANY, "")), now.get(size, now.get(ANY, ""))
            if pair[0] != pair[1]:
                found.setdefault(pair, []).append(size)
        for (before, after), sizes in found.items():
            told = () if sizes == [ANY] else tuple(sizes)
            yield FactChange(what, name, told, before, after, of)


def _sizes(was: Mapping[str, Fact], now: Mapping[str, Fact], every: tuple[str, ...]) -> list[str]:
    """The sizes to compare: none by name, where neither edition has one that is by itself."""
    if {*was, *now} <= {ANY}:
        return [ANY]
    return [size for size in every if {size, ANY} & {*was, *now}]


def _alike(sizes: tuple[str, ...], values: list[Fact]) -> dict[str, Fact]:
    """One value where all sizes agree, else one for each."""
    if len(set(values)) == 1:
        return {ANY: values[0]}
    return dict(zip(sizes, values, strict=True))


def _size(pattern: Pattern) -> Named:
    return {(size, ""): {ANY: size} for size in pattern.sizes}


def _part(pattern: Pattern) -> Named:
    return {(part.name, ""): {ANY: part.name} for part in pattern.parts}


def _yarn(pattern: Pattern) -> Named:
    return {(one.name, ""): {ANY: _bare(one)} for one in pattern.yarns}


def _bare(yarn: Yarn) -> Yarn:
    """A yarn without what a maker is not told."""
    return Yarn("", yarn.description, yarn.grams, yarn.metres, yarn.weight, yarn.colour)


def _hook(pattern: Pattern) -> Named:
    return {
        (one.name, ""): _alike(pattern.sizes, [f"{plain(mm)} mm" for mm in one.mm])
        for one in pattern.hooks
    }


def _gauge(pattern: Pattern) -> Named:
    return {(one.name, ""): {ANY: _square(one)} for one in pattern.gauges}


def _square(gauge: Gauge) -> Square:
    rows = plain(gauge.rows) if gauge.rows else ""
    over = in_both((gauge.over,), gauge.unit)
    return Square(plain(gauge.stitches), rows, gauge.in_rounds, over)


def _measure(pattern: Pattern) -> Named:
    return {
        (one.name, ""): _alike(pattern.sizes, [in_both((mm,), one.unit) for mm in one.lengths])
        for one in pattern.measures
    }


def _text(pattern: Pattern) -> Named:
    """Free texts of the header; the title and the version are told of elsewhere."""
    found: dict[str, list[Text]] = {}
    told = [(label, text) for label, text in pattern.texts if label != "version"]
    told += [("finish" if note.finish else "note", note.text) for note in pattern.notes]
    for label, text in told:
        found.setdefault(label, []).append(text)
    return {
        (label, ""): _alike(
            pattern.sizes,
            [tuple(in_size(one, at) for one in texts) for at in range(len(pattern.sizes))],
        )
        for label, texts in found.items()
    }


_WRITTEN: dict[str, Callable[[Pattern], Named]] = {
    "size": _size,
    "part": _part,
    "yarn": _yarn,
    "hook": _hook,
    "gauge": _gauge,
    "measure": _measure,
    "text": _text,
}
"""What is read off an edition as it is written, in the order in which it is told."""


def _amounts(checked: Checked, sizes: tuple[str, ...]) -> Named:
    """The yarn that each size takes."""
    out: dict[tuple[str, str], dict[str, Fact]] = {}
    pattern = checked.pattern
    for need in needed(pattern, checked.fabrics).needs:
        size = pattern.sizes[need.size]
        if size in sizes:
            out.setdefault((need.yarn, ""), {})[size] = _taken(need)
    return out


def _taken(need: Need) -> Taken:
    grams = rounded(need.grams) if need.grams is not None else None
    if need.metres is None:
        return Taken(need.balls, grams)
    yards = need.metres.times(1 / YARD)
    return Taken(need.balls, grams, rounded(need.metres), rounded(yards))


def _lengths(checked: Checked, sizes: tuple[str, ...]) -> Named:
    """What each part comes out at."""
    out: dict[tuple[str, str], dict[str, Fact]] = {}
    names = checked.pattern.sizes
    for part in measures(checked):
        for one in part.dimensions:
            for at, length in zip(part.sizes, one.lengths, strict=True):
                if length is not None and names[at.size] in sizes:
                    told = in_both([length], part.sizes[0].unit)
                    out.setdefault((part.part, one.words), {})[names[at.size]] = told
    return out
