"""Yarns, hooks, gauges, sizes and measures: what is needed before the first stitch.

slate   DK wool, 50 g = 110 m / 120 yd a ball, yarn weight 3 (Light)
hand    17 sts and 9 rounds to 10 cm / 4 in, worked in tr, with the 5 mm hook and slate
"""

from __future__ import annotations

from loopwright.ir.pattern import ONE_SIZE, ComesOut, Gauge, Hook, Pattern, Yarn
from loopwright.render.prose.document import Block, Entries, Paragraph, Table
from loopwright.render.prose.items import yarns
from loopwright.render.prose.lengths import as_written, both, metres
from loopwright.render.prose.needs import bodies
from loopwright.render.prose.voice import Voice
from loopwright.render.prose.words import across, capital, plain, spoken
from loopwright.trade.hooks import names_of
from loopwright.trade.weights import WEIGHTS

_LOOPS = {
    "": "",
    "back": " through the back loop only",
    "front": " through the front loop only",
    "third": " in the third loop",
}


def size_blocks(pattern: Pattern, voice: Voice) -> tuple[Block, ...]:
    """The sizes, and what they fit and come out at, one column a size."""
    if pattern.sizes == (ONE_SIZE,):
        blocks: tuple[Block, ...] = (Paragraph("One size."),)
    else:
        text = (
            f"Sizes: {across(list(pattern.sizes))}. Numbers are given for the first size, with "
            "the other sizes in brackets in the same order; one number alone is for all sizes."
        )
        blocks = (Paragraph(text),)
    rows = _measures(pattern) + _finished(pattern)
    if not rows:
        return blocks
    head = ("Measure", *(_size_head(pattern)))
    return (*blocks, Table("Measures in each size", head, tuple(rows)), *bodies(pattern))


def _size_head(pattern: Pattern) -> tuple[str, ...]:
    return tuple(capital(size) for size in pattern.sizes)


def _measures(pattern: Pattern) -> list[tuple[str, ...]]:
    return [
        (f"To fit {spoken(one.name)}", *(both([mm], one.unit) for mm in one.lengths))
        for one in pattern.measures
    ]


def _finished(pattern: Pattern) -> list[tuple[str, ...]]:
    return [
        (f"Finished {spoken(part.name)}, {name}", *(both([mm], unit) for mm in lengths))
        for part in pattern.parts
        for line in part.lines
        if isinstance(line, ComesOut)
        for name, lengths, unit in line.dimensions
    ]


def yarn_entries(pattern: Pattern, voice: Voice) -> Entries:
    """The yarns by name."""
    return Entries(tuple((spoken(one.name), _yarn(one, voice)) for one in pattern.yarns))


def _yarn(yarn: Yarn, voice: Voice) -> str:
    facts = [yarn.description]
    if yarn.colour:
        facts.append(f"{voice.ours('colour')} {yarn.colour}")
    if yarn.grams is not None and yarn.metres is not None:
        facts.append(f"{plain(yarn.grams)} g = {metres(yarn.metres)} a ball")
    if yarn.weight is not None:
        facts.append(f"yarn weight {yarn.weight} ({WEIGHTS[yarn.weight].name})")
    return ", ".join(fact for fact in facts if fact)


def hook_entries(pattern: Pattern) -> Entries:
    """The hooks by name."""
    return Entries(tuple((spoken(one.name), _hook(one)) for one in pattern.hooks))


def _hook(hook: Hook) -> str:
    """Its mm, and the US size where every size of it has one."""
    known = [names_of(mm) for mm in hook.mm]
    names = [size.us for size in known if size is not None and size.us]
    us = f" / US {across(names)}" if len(names) == len(known) else ""
    return as_written(hook.mm, "mm") + us


def gauge_entries(pattern: Pattern, voice: Voice) -> Entries:
    """The gauges by name."""
    return Entries(tuple((spoken(one.name), _gauge(one, pattern, voice)) for one in pattern.gauges))


def _gauge(gauge: Gauge, pattern: Pattern, voice: Voice) -> str:
    rows = ""
    if gauge.rows is not None:
        rows = f" and {plain(gauge.rows)} {'rounds' if gauge.in_rounds else 'rows'}"
    stitch = voice.stitch(gauge.stitch) + _LOOPS[gauge.loop]
    over = both([gauge.over], gauge.unit)
    text = f"{plain(gauge.stitches)} sts{rows} to {over}, worked in {stitch}"
    tools = _tools(gauge, pattern)
    return f"{text}, with {tools}" if tools else text


def _tools(gauge: Gauge, pattern: Pattern) -> str:
    tools = []
    if gauge.hook:
        tools.append(f"the {hook_size(gauge.hook, pattern)} hook")
    if gauge.yarns:
        tools.append(yarns(gauge.yarns))
    return " and ".join(tools)


def hook_size(name: str, pattern: Pattern) -> str:
    """A hook by its size, or by its name where no line gives one: ``4 mm``."""
    hook = next((one for one in pattern.hooks if one.name == name), None)
    return as_written(hook.mm, "mm") if hook is not None else spoken(name)
