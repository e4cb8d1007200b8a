"""What each size takes: the yarn, what is in the kit, the working time, and whose measures it fits.

    slate    37 g, 80 m / 88 yd, 1 ball    42 g, 91 m / 100 yd, 1 ball

The figures come from ``measure``; below them stands how they were got.
"""

from __future__ import annotations

from loopwright.ir.pattern import KitItem, Measure, Pattern
from loopwright.measure.amounts import (
    balls_text,
    grams_text,
    how_text,
    metres_text,
    per_size,
)
from loopwright.measure.pace import Time, time_text
from loopwright.measure.yarn import Need, YarnUse
from loopwright.render.prose.document import Block, Entries, Paragraph, Section, Table
from loopwright.render.prose.lengths import as_written
from loopwright.render.prose.voice import Voice
from loopwright.render.prose.words import across, capital, plain, spoken


def yarn_blocks(pattern: Pattern, use: YarnUse, voice: Voice) -> tuple[Block, ...]:
    """A table of the yarn that each size takes, and how the figures were got."""
    if not use.needs:
        return ()
    found: dict[str, dict[int, Need]] = {}
    for need in use.needs:
        found.setdefault(need.yarn, {})[need.size] = need
    rows = tuple(
        (
            capital(spoken(name)) or "Yarn",
            *(_need(needs.get(size)) for size in range(len(pattern.sizes))),
        )
        for name, needs in found.items()
    )
    head = ("Yarn", *(capital(size) for size in pattern.sizes))
    table = Table("Yarn needed in each size", head, rows)
    return table, Paragraph(how_text(use, voice.terms.gauge))


def _need(need: Need | None) -> str:
    if need is None:
        return "none"
    facts = [
        balls_text(need.balls) if need.balls is not None else "",
        grams_text(need.grams) if need.grams is not None else "",
        metres_text(need.metres) if need.metres is not None else "",
    ]
    return ", ".join(fact for fact in facts if fact)


def kit_section(pattern: Pattern) -> tuple[Section, ...]:
    """What the designer's kit holds."""
    if pattern.kit is None or not pattern.kit.items:
        return ()
    pairs = tuple((_kit_name(one, pattern), _kit_amount(one)) for one in pattern.kit.items)
    return (Section("In the kit", (Entries(pairs),)),)


def _kit_name(item: KitItem, pattern: Pattern) -> str:
    if item.what == "hook":
        hook = next(one for one in pattern.hooks if one.name == item.name)
        return f"hook {as_written(hook.mm, 'mm')}"
    return spoken(item.name) if item.what == "yarn" else item.name


def _kit_amount(item: KitItem) -> str:
    if item.unit == "ball":
        return per_size(item.amounts, "ball")
    return f"{across([plain(amount) for amount in item.amounts])} {item.unit}".rstrip()


def time_section(pattern: Pattern, time: tuple[Time, ...]) -> tuple[Section, ...]:
    """How long each size takes at the pace stated, where one is."""
    if not time or pattern.pace is None:
        return ()
    each = across([time_text(one) for one in time])
    text = f"{each} at {pattern.pace.written}, without sewing up and weaving in."
    return (Section("Working time", (Paragraph(capital(text)),)),)


def bodies(pattern: Pattern) -> tuple[Paragraph, ...]:
    """Where the measures are from that were taken from standard tables."""
    return tuple(Paragraph(_bodies(one, pattern)) for one in pattern.measures if any(one.bodies))


def _bodies(measure: Measure, pattern: Pattern) -> str:
    from loopwright.trade.bodies import TITLES

    found: dict[str, dict[str, None]] = {}
    for size, body in zip(pattern.sizes, measure.bodies, strict=True):
        if body is not None:
            of = body.of if len(pattern.sizes) == 1 else f"{size} ({body.of})"
            found.setdefault(body.source, {})[of] = None
    told = [f"from {TITLES[source]}: {', '.join(of)}" for source, of in found.items()]
    return f"{capital(spoken(measure.name))} {'; '.join(told)}."
