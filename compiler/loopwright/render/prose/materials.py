"""Yarns, hooks, gauges, sizes and measures: what is needed before the first stitch.

Yarn slate   DK wool, 50 g = 110 m / 120 yd a ball, yarn weight 3 (Light)
hand         17 sts and 9 rounds to 10 cm / 4 in, worked in tr, with the 5 mm hook and slate
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from loopwright.ir.items import Group, Mark, Repeat
from loopwright.ir.pattern import (
    ONE_SIZE,
    Gauge,
    Hook,
    Pattern,
    Row,
    Yarn,
)
from loopwright.measure.dimensions import PartMeasures
from loopwright.measure.ease import planned
from loopwright.render.prose.document import Block, Entries, Paragraph, Table
from loopwright.render.prose.finished import size_heads, stated
from loopwright.render.prose.items import yarn_name, yarns
from loopwright.render.prose.lengths import as_written, both, metres
from loopwright.render.prose.needs import bodies
from loopwright.render.prose.telling import amount_of
from loopwright.render.prose.texts import free_text
from loopwright.render.prose.tongue import phrase
from loopwright.render.prose.voice import Voice
from loopwright.render.prose.words import across, capital, plain, spoken
from loopwright.render.speaker import measure_word
from loopwright.trade.hooks import names_of
from loopwright.trade.weights import WEIGHTS

_LOOPS = {
    "": "",
    "back": phrase("{stitch} through the back loop only"),
    "front": phrase("{stitch} through the front loop only"),
    "third": phrase("{stitch} in the third loop"),
}


def size_blocks(
    pattern: Pattern, measured: tuple[PartMeasures, ...], voice: Voice
) -> tuple[Block, ...]:
    """The sizes, and what they fit and come out at, one column a size."""
    blocks: tuple[Block, ...] = (Paragraph(_sizes(pattern, voice)),)
    given = [*_measures(pattern, voice), *stated(pattern, measured, voice)]
    if not given:
        return blocks
    head = (voice.say("Measure"), *size_heads(pattern, voice))
    several = len(pattern.sizes) > 1
    caption = voice.say("Measures in each size") if several else voice.say("Measures")
    rows = tuple(
        (name, *(voice.figures(both([mm], unit)) for mm in lengths))
        for name, lengths, unit in given
    )
    at_once = tuple(voice.figures(both(lengths, unit)) for _, lengths, unit in given)
    table = Table(caption, head, rows, at_once)
    return (*blocks, table, *bodies(pattern, voice))


def _sizes(pattern: Pattern, voice: Voice) -> str:
    if pattern.sizes == (ONE_SIZE,):
        return voice.say("One size.")
    if len(pattern.sizes) == 1:
        return voice.say("Size: {size}. All numbers are for this size.", size=pattern.sizes[0])
    if len(pattern.sizes) == 2:
        return voice.say(
            "Sizes: {sizes}. Numbers are given for the first size, with the other in brackets; one "
            "number alone is for both.",
            sizes=across(list(pattern.sizes)),
        )
    return voice.say(
        "Sizes: {sizes}. Numbers are given for the first size, with the other sizes in brackets "
        "in the same order; one number alone is for all sizes.",
        sizes=across(list(pattern.sizes)),
    )


_PLANNED = {
    "width": phrase("Planned width"),
    "length": phrase("Planned length"),
    "height": phrase("Planned height"),
    "depth": phrase("Planned depth"),
    "diameter": phrase("Planned diameter"),
}


def _measures(pattern: Pattern, voice: Voice) -> Iterator[tuple[str, tuple[Fraction, ...], str]]:
    for one in pattern.measures:
        own = planned(one, pattern)
        fit = voice.say("To fit {measure}", measure=measure_word(one.name, voice))
        name = voice.say(_PLANNED[own]) if own else fit
        yield name, tuple(one.lengths), one.unit


def material_entries(pattern: Pattern, voice: Voice) -> Entries:
    """Yarns and hooks by name, and what else is needed."""
    pairs = [(_yarn_head(one.name, voice), _yarn(one, voice)) for one in pattern.yarns]
    for one in pattern.hooks:
        name = capital(voice.say("{name} hook", name=spoken(one.name)))
        pairs.append((name if len(pattern.hooks) > 1 else voice.say("Hook"), _hook(one, voice)))
    notions = ", ".join(_notions(pattern, voice))
    if notions:
        pairs.append((voice.say("Notions"), notions))
    return Entries(tuple(pairs))


def _yarn_head(name: str, voice: Voice) -> str:
    """What a yarn is called at the head of its line: ``Yarn slate``, ``Main yarn``."""
    called = spoken(name)
    if yarn_name(name, voice) == called:
        return voice.say("Yarn {name}", name=called)
    if len(called) == 1:
        return capital(yarn_name(name, voice))
    return capital(voice.say("{name} yarn", name=called))


def _yarn(yarn: Yarn, voice: Voice) -> str:
    facts = [yarn.description]
    if yarn.colour:
        facts.append(voice.say("colour {name}", name=yarn.colour))
    if yarn.grams is not None and yarn.metres is not None:
        grams, length = (voice.figures(one) for one in (plain(yarn.grams), metres(yarn.metres)))
        facts.append(voice.say("{grams} g = {length} a ball", grams=grams, length=length))
    if yarn.weight is not None:
        name = voice.say(_WEIGHTS[yarn.weight])
        facts.append(voice.say("yarn weight {n} ({name})", n=yarn.weight, name=name))
    return ", ".join(fact for fact in facts if fact)


# The names of `trade.weights`, in its order.
_WEIGHTS = (
    phrase("Lace"),
    phrase("Super Fine"),
    phrase("Fine"),
    phrase("Light"),
    phrase("Medium"),
    phrase("Bulky"),
    phrase("Super Bulky"),
    phrase("Jumbo"),
)
assert tuple(one.name for one in WEIGHTS) == _WEIGHTS


def _hook(hook: Hook, voice: Voice) -> str:
    """Its mm, and the US and old UK sizes where every size of it has one."""
    known = [names_of(mm) for mm in hook.mm]
    text = voice.figures(as_written(hook.mm, "mm"))
    us = [size.us for size in known if size is not None and size.us]
    if len(us) == len(known):
        text = voice.say("{hook} / US {size}", hook=text, size=across(us))
    uk = [size.uk for size in known if size is not None and size.uk]
    if len(uk) == len(known):
        text = voice.say("{hook} / old UK {size}", hook=text, size=across(uk))
    return text


def _notions(pattern: Pattern, voice: Voice) -> Iterator[str]:
    """What the designer's own line says; without one, the kit's things, and what the work asks
    for: a marker where the pattern places one, and a needle, with which ends are woven in."""
    own = [free_text(text, voice) for label, text in pattern.texts if label == "notions"]
    if own:
        yield from own
        return
    lines = [line for part in pattern.parts for line in part.lines]
    kit = [item for item in (pattern.kit.items if pattern.kit else ()) if item.what == "thing"]
    for item in kit:
        n = amount_of(list(item.amounts)).text
        yield f"{n} {item.unit} {item.name}" if item.unit else f"{n} {item.name}"
    spiral = any(part.manner == "spiral" for part in pattern.parts)
    marked = any(_marks(line.items) for line in lines if isinstance(line, Row))
    if (spiral or marked) and not any("marker" in item.name for item in kit):
        yield voice.say("stitch markers") if marked else voice.say("a stitch marker")
    if not any("needle" in item.name for item in kit):
        yield voice.say("a yarn needle")


def _marks(items: tuple[object, ...]) -> bool:
    return any(
        isinstance(item, Mark) or (isinstance(item, (Group, Repeat)) and _marks(item.items))
        for item in items
    )


def gauge_blocks(pattern: Pattern, voice: Voice) -> tuple[Block, ...]:
    """The gauges by name, and why to check them."""
    pairs = tuple(
        (capital(spoken(one.name)), _gauge(one, pattern, voice)) for one in pattern.gauges
    )
    why = voice.say(
        "Check your tension before you begin: with another one the finished size and the yarn "
        "needed will differ. Where you have more sts than given, try a larger hook; where you "
        "have fewer, a smaller one."
    )
    return Entries(pairs), Paragraph(why)


def _gauge(gauge: Gauge, pattern: Pattern, voice: Voice) -> str:
    say = voice.say
    sts = say("{n} sts", n=voice.figures(plain(gauge.stitches)))
    if gauge.rows is not None:
        rows = voice.row_word(gauge.in_rounds, 2)
        sts = say("{sts} and {n} {rows}", sts=sts, n=voice.figures(plain(gauge.rows)), rows=rows)
    stitch: str = voice.stitch(gauge.stitch)
    if _LOOPS[gauge.loop]:
        stitch = say(_LOOPS[gauge.loop], stitch=stitch)
    over = voice.figures(both([gauge.over], gauge.unit))
    text = say("{sts} to {length}, worked in {stitch}", sts=sts, length=over, stitch=stitch)
    if gauge.hook:
        hook = hook_size(gauge.hook, pattern, voice)
        text = say("{gauge}, with the {hook} hook", gauge=text, hook=hook)
        if gauge.yarns:
            return say("{gauge} and {yarn}", gauge=text, yarn=yarns(gauge.yarns, voice))
    elif gauge.yarns:
        return say("{gauge}, with {yarn}", gauge=text, yarn=yarns(gauge.yarns, voice))
    return text


def hook_size(name: str, pattern: Pattern, voice: Voice) -> str:
    """A hook by its size, or by its name where no line gives one: ``4 mm``."""
    hook = next((one for one in pattern.hooks if one.name == name), None)
    return voice.figures(as_written(hook.mm, "mm")) if hook is not None else spoken(name)
