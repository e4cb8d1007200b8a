"""What changed beside the rows: sizes, yarn, hooks, gauge, how much yarn, how large it is."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from loopwright.changes.lines import Pairing
from loopwright.changes.values import FactChange
from loopwright.ir.checked import Checked
from loopwright.ir.pattern import Gauge, Hook, Pattern, Text, Yarn
from loopwright.measure.amounts import grams_text, metres_text, plain
from loopwright.measure.dimensions import measures
from loopwright.measure.lengths import both as in_both
from loopwright.measure.yarn import needed

Facts = Mapping[tuple[str, str, str], str]
"""What stands under (what, name, size)."""


def fact_changes(
    both: Pairing, whole: tuple[Checked | None, Checked | None]
) -> Iterator[FactChange]:
    """All of them. ``whole`` are the editions as checked; what is measured is compared only where
    both came out."""
    for read in (_written, _texts):
        yield from _differing(read(both.old.pattern), read(both.new.pattern))
    if whole[0] is not None and whole[1] is not None:
        for measure in (_amounts, _lengths):
            yield from _differing(measure(whole[0], both.every), measure(whole[1], both.every))


def _differing(old: Facts, new: Facts) -> Iterator[FactChange]:
    found: dict[tuple[str, str, str, str], list[str]] = {}
    for key in dict.fromkeys((*old, *new)):
        was, now = old.get(key, ""), new.get(key, "")
        if was != now:
            what, name, size = key
            found.setdefault((what, name, was, now), []).append(size)
    for (what, name, was, now), sizes in found.items():
        yield FactChange(what, name, tuple(size for size in sizes if size), was, now)


def _written(pattern: Pattern) -> dict[tuple[str, str, str], str]:
    """Sizes, parts and materials, as they are written."""
    out = {("size", size, ""): size for size in pattern.sizes}
    out |= {("part", part.name, ""): part.name for part in pattern.parts}
    out |= {("yarn", one.name, ""): _yarn(one) for one in pattern.yarns}
    for hook in pattern.hooks:
        out |= _per_size("hook", hook.name, _hook(hook), pattern)
    out |= {("gauge", one.name, ""): _gauge(one) for one in pattern.gauges}
    for measure in pattern.measures:
        lengths = [in_both((mm,), measure.unit) for mm in measure.lengths]
        out |= _per_size("measure", measure.name, lengths, pattern)
    return out


def _per_size(
    what: str, name: str, values: list[str], pattern: Pattern
) -> dict[tuple[str, str, str], str]:
    """One fact where all sizes agree, else one for each."""
    if len(set(values)) == 1:
        return {(what, name, ""): values[0]}
    return {(what, name, size): one for size, one in zip(pattern.sizes, values, strict=True)}


def _yarn(yarn: Yarn) -> str:
    facts = [yarn.description]
    if yarn.grams is not None and yarn.metres is not None:
        facts.append(f"{plain(yarn.grams)} g = {plain(yarn.metres)} m")
    if yarn.weight is not None:
        facts.append(f"weight {yarn.weight}")
    return ", ".join([*facts, *([yarn.colour] if yarn.colour else [])])


def _hook(hook: Hook) -> list[str]:
    return [f"{plain(mm)} mm" for mm in hook.mm]


def _gauge(gauge: Gauge) -> str:
    word = "rounds" if gauge.in_rounds else "rows"
    rows = f" and {plain(gauge.rows)} {word}" if gauge.rows else ""
    return f"{plain(gauge.stitches)} sts{rows} to {in_both((gauge.over,), gauge.unit)}"


def _texts(pattern: Pattern) -> dict[tuple[str, str, str], str]:
    """Free texts of the header; the title and the version are told of elsewhere."""
    out: dict[tuple[str, str, str], str] = {}
    told = [(label, text) for label, text in pattern.texts if label != "version"]
    told += [("finish" if note.finish else "note", note.text) for note in pattern.notes]
    for label, text in told:
        key = ("text", label, "")
        out[key] = " ".join(one for one in (out.get(key, ""), _plain(text)) if one)
    return out


def _plain(text: Text) -> str:
    pieces = [one if isinstance(one, str) else " ".join(map(str, one)) for one in text.pieces]
    return " ".join("".join(pieces).split())


def _amounts(checked: Checked, sizes: tuple[str, ...]) -> dict[tuple[str, str, str], str]:
    """The yarn that each size takes."""
    out = {}
    pattern = checked.pattern
    for need in needed(pattern, checked.fabrics).needs:
        size = pattern.sizes[need.size]
        said = [grams_text(need.grams)] if need.grams is not None else []
        if need.metres is not None:
            said.append(metres_text(need.metres))
        if need.balls is not None:
            said.insert(0, f"{need.balls} ball{'' if need.balls == 1 else 's'}")
        if size in sizes:
            out["amount", need.yarn, size] = ", ".join(said)
    return out


def _lengths(checked: Checked, sizes: tuple[str, ...]) -> dict[tuple[str, str, str], str]:
    """What each part comes out at."""
    out = {}
    names = checked.pattern.sizes
    for part in measures(checked):
        for one in part.dimensions:
            for at, length in zip(part.sizes, one.lengths, strict=True):
                if length is not None and names[at.size] in sizes:
                    told = in_both([length], part.sizes[0].unit)
                    out["finished", f"{part.part}, {one.words}", names[at.size]] = told
    return out
