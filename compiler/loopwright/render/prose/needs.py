"""What each size takes: the yarn, what is in the kit, the working time, and whose measures it fits.

    slate    37 g, 80 m / 88 yd, 1 ball    42 g, 91 m / 100 yd, 1 ball

The figures come from ``measure``; below them stands how they were got.
"""

from __future__ import annotations

from collections.abc import Iterator

from loopwright.ir.pattern import KitItem, Measure, Pattern
from loopwright.measure.amounts import YARD, percent_text, plain, rounded
from loopwright.measure.pace import Time, minutes
from loopwright.measure.yarn import ESTIMATE, USED, WEIGHED, Between, Need, YarnUse
from loopwright.render.prose.document import Block, Entries, Paragraph, Section, Table
from loopwright.render.prose.finished import size_heads
from loopwright.render.prose.lengths import as_written
from loopwright.render.prose.telling import amount_of
from loopwright.render.prose.tongue import phrase
from loopwright.render.prose.voice import Voice
from loopwright.render.prose.words import across, capital, spoken
from loopwright.trade.yarn_use import SPREAD


def yarn_blocks(pattern: Pattern, use: YarnUse, voice: Voice) -> tuple[Block, ...]:
    """A table of the yarn that each size takes, and how the figures were got."""
    if not use.needs:
        return ()
    found: dict[str, dict[int, Need]] = {}
    for need in use.needs:
        found.setdefault(need.yarn, {})[need.size] = need
    word = voice.say("Yarn")
    rows = tuple(
        (
            capital(spoken(name)) or word,
            *(_need(needs.get(size), voice) for size in range(len(pattern.sizes))),
        )
        for name, needs in found.items()
    )
    head = (word, *size_heads(pattern, voice))
    several = len(pattern.sizes) > 1
    caption = voice.say("Yarn needed in each size") if several else voice.say("Yarn needed")
    table = Table(caption, head, rows)
    return table, Paragraph(" ".join(_how(use, voice)))


def _need(need: Need | None, voice: Voice) -> str:
    if need is None:
        return voice.say("none")
    facts = []
    if need.balls is not None:
        balls = voice.figures(f"{need.balls:,}")
        facts.append(voice.many("{n} ball", "{n} balls", need.balls, n=balls))
    if need.grams is not None:
        facts.append(voice.say("{n} g", n=_between(need.grams, voice)))
    if need.metres is not None:
        yards = _between(need.metres.times(1 / YARD), voice)
        facts.append(
            voice.say("{metres} m / {yards} yd", metres=_between(need.metres, voice), yards=yards)
        )
    return ", ".join(facts)


def _between(amount: Between, voice: Voice) -> str:
    least, most = rounded(amount)
    low, high = (voice.figures(f"{n:,}") for n in (least, most))
    if least == most:
        return high
    if not least:
        return voice.say("up to {most}", most=high)
    return voice.say("{least} to {most}", least=low, most=high)


_HOW = {
    WEIGHED: phrase(
        "The yarn is reckoned from the swatch that was weighed: each stitch takes its share of it, "
        "and other stitches and chains theirs by published rates."
    ),
    USED: phrase(
        "The yarn is reckoned from the yarn that was measured in a swatch: each stitch takes its "
        "share of it, and other stitches and chains theirs by published rates."
    ),
}


def _how(use: YarnUse, voice: Voice) -> Iterator[str]:
    say = voice.say
    swatched = [how for how in (WEIGHED, USED) if how in use.how]
    yield from (say(_HOW[how]) for how in swatched)
    spread = say("{n}%", n=percent_text(SPREAD)[:-1])
    if ESTIMATE in use.how and swatched:
        yield say(
            "Where no swatch was weighed, the yarn is an estimate from the tension and published "
            "rates, which may be {percent} off either way.",
            percent=spread,
        )
    elif ESTIMATE in use.how:
        yield say(
            "No swatch was weighed: the yarn is an estimate from the tension and published rates, "
            "which may be {percent} off either way.",
            percent=spread,
        )
    share = say("{n}%", n=percent_text(use.allowance)[:-1])
    if use.stated:
        yield say(
            "{percent} is added for tails and a swatch (the designer's figure).", percent=share
        )
    else:
        yield say("{percent} is added for tails and a swatch (common practice).", percent=share)
    if any(need.balls is not None for need in use.needs):
        yield say("Balls are rounded up.")
    if use.without:
        parts = ", ".join(map(spoken, use.without))
        yield say("Not in it, for want of a tension: {parts}.", parts=parts)


def kit_section(pattern: Pattern, voice: Voice) -> tuple[Section, ...]:
    """What the designer's kit holds."""
    if pattern.kit is None or not pattern.kit.items:
        return ()
    pairs = tuple(
        (_kit_name(one, pattern, voice), _kit_amount(one, voice)) for one in pattern.kit.items
    )
    return (Section(voice.say("In the kit"), (Entries(pairs),), "kit"),)


def _kit_name(item: KitItem, pattern: Pattern, voice: Voice) -> str:
    if item.what == "hook":
        hook = next(one for one in pattern.hooks if one.name == item.name)
        return voice.say("hook {size}", size=voice.figures(as_written(hook.mm, "mm")))
    return spoken(item.name) if item.what == "yarn" else item.name


def _kit_amount(item: KitItem, voice: Voice) -> str:
    text = voice.figures(across([plain(amount) for amount in item.amounts]))
    if item.unit != "ball":
        return f"{text} {item.unit}".rstrip()
    n = 1 if amount_of(list(item.amounts)).one else 2
    return voice.many("{n} ball", "{n} balls", n, n=text)


def time_section(pattern: Pattern, time: tuple[Time, ...], voice: Voice) -> tuple[Section, ...]:
    """How long each size takes at the pace stated, where one is."""
    if not time or pattern.pace is None:
        return ()
    text = voice.say(
        "{time} at {pace}, without sewing up and weaving in.",
        time=across([_time(one, voice) for one in time]),
        pace=pattern.pace.written,
    )
    return (Section(voice.say("Working time"), (Paragraph(capital(text)),), "time"),)


def _time(time: Time, voice: Voice) -> str:
    least, most = (_hours(one) for one in minutes(time))
    if not minutes(time)[0]:
        return voice.say("up to {time}", time=most)
    if least == most:
        return voice.say("about {time}", time=most)
    return voice.say("{least} to {most}", least=least, most=most)


def _hours(many: int) -> str:
    hours, rest = divmod(many, 60)
    parts = [f"{hours:,} h"] * (hours > 0) + [f"{rest} min"] * (rest > 0 or not hours)
    return " ".join(parts)


def bodies(pattern: Pattern, voice: Voice) -> tuple[Paragraph, ...]:
    """Where the measures are from that were taken from standard tables."""
    return tuple(Paragraph(_bodies(one, pattern, voice)) for one in pattern.measures if _any(one))


def _any(measure: Measure) -> bool:
    return any(measure.bodies)


def _bodies(measure: Measure, pattern: Pattern, voice: Voice) -> str:
    from loopwright.trade.bodies import TITLES

    found: dict[str, dict[str, None]] = {}
    for size, body in zip(pattern.sizes, measure.bodies, strict=True):
        if body is not None:
            of = body.of if len(pattern.sizes) == 1 else f"{size} ({body.of})"
            found.setdefault(body.source, {})[of] = None
    told = [
        voice.say("from {source}: {sizes}", source=TITLES[source], sizes=", ".join(of))
        for source, of in found.items()
    ]
    name = capital(spoken(measure.name))
    return voice.say("{measure} {sources}.", measure=name, sources="; ".join(told))
