"""What each size takes: the yarn, what is in the kit, the working time, and whose measures it fits.

    slate    37 g, 80 m / 88 yd, 1 ball    42 g, 91 m / 100 yd, 1 ball

The figures come from ``measure``; below them stands how they were got.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

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
from loopwright.render.speaker import measure_word
from loopwright.trade.yarn_use import SPREAD


def yarn_blocks(pattern: Pattern, use: YarnUse, voice: Voice) -> tuple[Block, ...]:
    """A table of the yarn that each size takes, and how the figures were got."""
    if not use.needs:
        return ()
    found: dict[str, dict[int, Need]] = {}
    for need in use.needs:
        found.setdefault(need.yarn, {})[need.size] = need
    word = voice.say("Yarn")
    every = range(len(pattern.sizes))
    rows = tuple(
        (
            capital(spoken(name)) or word,
            *(_need([needs[size]] if size in needs else [], voice) for size in every),
        )
        for name, needs in found.items()
    )
    at_once = tuple(
        _need([needs[size] for size in every], voice) if len(needs) == len(every) else ""
        for needs in found.values()
    )
    head = (word, *size_heads(pattern, voice))
    several = len(pattern.sizes) > 1
    caption = voice.say("Yarn needed in each size") if several else voice.say("Yarn needed")
    table = Table(caption, head, rows, at_once)
    return table, Paragraph(" ".join(_how(use, voice)))


def _need(needs: list[Need], voice: Voice) -> str:
    """What is needed of a yarn in one size, or in several at once."""
    if not needs:
        return voice.say("none")
    facts = []
    balls = [need.balls for need in needs if need.balls is not None]
    if len(balls) == len(needs):
        n = 1 if set(balls) == {1} else 2
        facts.append(voice.many("{n} ball", "{n} balls", n, n=_many(balls, voice)))
    grams = [need.grams for need in needs if need.grams is not None]
    if len(grams) == len(needs):
        facts.append(voice.say("{n} g", n=_each(grams, voice)))
    metres = [need.metres for need in needs if need.metres is not None]
    if len(metres) == len(needs):
        yards = _each([one.times(1 / YARD) for one in metres], voice)
        text = voice.say("{metres} m / {yards} yd", metres=_each(metres, voice), yards=yards)
        facts.append(text)
    return ", ".join(facts)


def _many(numbers: Sequence[int], voice: Voice) -> str:
    """Numbers in all sizes: with the mark of thousands only where commas part no sizes."""
    return across([_number(n, len(numbers) == 1, voice) for n in numbers])


def _each(amounts: Sequence[Between], voice: Voice) -> str:
    return across([_between(one, voice, len(amounts) == 1) for one in amounts])


def _number(n: int, alone: bool, voice: Voice) -> str:
    return voice.figures(f"{n:,}" if alone else str(n))


def _between(amount: Between, voice: Voice, alone: bool = True) -> str:
    least, most = rounded(amount)
    low, high = (_number(n, alone, voice) for n in (least, most))
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
    spread = say("{n}%", n=voice.figures(percent_text(SPREAD)[:-1]))
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
    share = say("{n}%", n=voice.figures(percent_text(use.allowance)[:-1]))
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


_TRADE = phrase("the trade's hat charts")


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
        voice.say(
            "from {source}: {sizes}",
            source=TITLES[source] if source in ("who", "ansur") else voice.say(_TRADE),
            sizes=", ".join(of),
        )
        for source, of in found.items()
    ]
    sources = told[0]
    for one in told[1:]:
        sources = voice.say("{sources}; {more}", sources=sources, more=one)
    name = capital(measure_word(measure.name, voice))
    return voice.say("{measure} {sources}.", measure=name, sources=sources)
