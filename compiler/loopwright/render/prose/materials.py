"""Yarns, hooks, gauges, sizes and measures: what is needed before the first stitch.

    slate   DK wool, 50 g = 110 m / 120 yd; weight 3
    hand    17 sts and 9 rounds to 10 cm / 4 in in tr, with the large hook and slate
"""

from __future__ import annotations

from loopwright.ir.pattern import ONE_SIZE, Gauge, Hook, Pattern, Yarn
from loopwright.render.prose.document import Block, Entries, Paragraph, Table
from loopwright.render.prose.items import yarns
from loopwright.render.prose.lengths import as_written, both, metres
from loopwright.render.prose.voice import Voice
from loopwright.render.prose.words import across, capital, plain, spoken

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
    return (*blocks, Table("Measures in each size", head, tuple(rows)))


def _size_head(pattern: Pattern) -> tuple[str, ...]:
    return tuple(capital(size) for size in pattern.sizes)


def _measures(pattern: Pattern) -> list[tuple[str, ...]]:
    return [
        (f"To fit {spoken(one.name)}", *(both([mm], one.unit) for mm in one.lengths))
        for one in pattern.measures
    ]


def _finished(pattern: Pattern) -> list[tuple[str, ...]]:
    from loopwright.ir.pattern import ComesOut

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
        facts.append(f"yarn weight {yarn.weight}")
    return ", ".join(fact for fact in facts if fact)


def hook_entries(pattern: Pattern) -> Entries:
    """The hooks by name."""
    return Entries(tuple((spoken(one.name), as_written(one.mm, "mm")) for one in pattern.hooks))


def gauge_entries(pattern: Pattern, voice: Voice) -> Entries:
    """The gauges by name."""
    return Entries(
        tuple((spoken(one.name), _gauge(one, pattern, voice)) for one in pattern.gauges)
    )


def _gauge(gauge: Gauge, pattern: Pattern, voice: Voice) -> str:
    rows = ""
    if gauge.rows is not None:
        rows = f" and {plain(gauge.rows)} {'rounds' if gauge.in_rounds else 'rows'}"
    stitch = voice.stitch(gauge.stitch) + _LOOPS[gauge.loop]
    text = f"{plain(gauge.stitches)} sts{rows} to {both([gauge.over], gauge.unit)} in {stitch}"
    tools = _tools(gauge, pattern)
    return f"{text}, with {tools}" if tools else text


def _tools(gauge: Gauge, pattern: Pattern) -> str:
    tools = []
    if gauge.hook:
        tools.append(hook_named(gauge.hook, pattern))
    if gauge.yarns:
        tools.append(yarns(gauge.yarns))
    return " and ".join(tools)


def hook_named(name: str, pattern: Pattern) -> str:
    """A hook in a sentence: ``the 4 mm hook (small)``."""
    hook: Hook | None = next((one for one in pattern.hooks if one.name == name), None)
    if hook is None:
        return f"the {spoken(name)} hook"
    return f"the {as_written(hook.mm, 'mm')} hook"
