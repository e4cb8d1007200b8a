"""Finished sizes: what each part comes out at, at the gauge given, and how that was reckoned.

Hat, around at the start    45.5 cm / 18 in            51.5 cm / 20¼ in
Hat, ease for head          2.5 cm of negative ease    ...
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from loopwright.ir.pattern import ONE_SIZE, ComesOut, Pattern
from loopwright.measure.dimensions import Dimension, PartMeasures
from loopwright.measure.ease import Ease
from loopwright.measure.heights import NOT_KNOWN, RELATIVE
from loopwright.measure.lengths import both, length_text
from loopwright.render.prose.document import Block, Paragraph, Table
from loopwright.render.prose.tongue import phrase
from loopwright.render.prose.voice import Voice
from loopwright.render.prose.words import across, capital, spoken
from loopwright.render.speaker import MEASURED, measure_word

# What `measure.dimensions` calls the lengths of a part.
LENGTHS = (
    phrase("width"),
    phrase("width at the start"),
    phrase("width at the widest"),
    phrase("width at the end"),
    phrase("around"),
    phrase("around at the start"),
    phrase("around at the widest"),
    phrase("around at the end"),
    phrase("height"),
    phrase("height, on the fabric"),
    phrase("height, standing"),
    phrase("length"),
    phrase("over the fabric, from end to end"),
    phrase("across"),
    phrase("across, laid flat"),
    phrase("along the last row"),
    phrase("from the middle to the last row"),
    phrase("around the edge"),
    phrase("each side"),
    phrase("of which there is room for"),
)

# What is measured of a body, as `render.speaker` lists it.
BODIES = (
    phrase("head"),
    phrase("neck"),
    phrase("bust"),
    phrase("chest"),
    phrase("waist"),
    phrase("hip"),
    phrase("hips"),
    phrase("hand"),
    phrase("palm"),
    phrase("wrist"),
    phrase("foot"),
    phrase("ankle"),
)
assert BODIES == MEASURED

# What a line `comes out at` calls them: in a sentence, and at the head of a row.
STATED = {
    "around": (phrase("around"), phrase("around")),
    "wide": (phrase("wide"), phrase("width")),
    "long": (phrase("long"), phrase("length")),
    "high": (phrase("high"), phrase("height")),
    "deep": (phrase("deep"), phrase("depth")),
    "across": (phrase("across"), phrase("across")),
}


def length_word(word: str, voice: Voice) -> str:
    """What a length of a part is called: ``around at the start``."""
    return voice.say(word)


def size_heads(pattern: Pattern, voice: Voice) -> tuple[str, ...]:
    """The sizes as the heads of columns."""
    if pattern.sizes == (ONE_SIZE,):
        return (capital(voice.say("one size")),)
    return tuple(capital(size) for size in pattern.sizes)


_Given = tuple[str, tuple[Fraction, ...], str]
"""What a length is called, the length in every size in mm, and the unit it was written in."""


def stated(pattern: Pattern, measured: tuple[PartMeasures, ...], voice: Voice) -> Iterator[_Given]:
    """The finished sizes that the designer states, as far as the table of those that were reckoned
    does not have them."""
    reckoned = {part.part: part for part in measured}
    for part in pattern.parts:
        for line in part.lines:
            for name, lengths, unit in line.dimensions if isinstance(line, ComesOut) else ():
                if part.name in reckoned and _reckoned(lengths, reckoned[part.name]):
                    continue
                length = voice.say(STATED[name][1])
                called = spoken(part.name)
                yield (
                    voice.say("Finished {part}, {length}", part=called, length=length),
                    tuple(lengths),
                    unit,
                )


def _reckoned(lengths: Sequence[Fraction], part: PartMeasures) -> bool:
    """Whether what is printed of some length of a part is what is printed of these."""
    unit = part.sizes[0].unit
    every = (tuple(mm for mm in one.lengths if mm is not None) for one in part.dimensions)
    return any(
        len(known) == len(lengths) and both(known, unit) == both(lengths, unit) for known in every
    )


def finished_blocks(
    pattern: Pattern, measured: tuple[PartMeasures, ...], voice: Voice
) -> tuple[Block, ...]:
    """A table of the finished sizes, a column a size, and how they were got."""
    if not measured:
        return ()
    many = len(pattern.sizes)
    rows: list[tuple[str, ...]] = []
    at_once = []
    for part in measured:
        name = capital(spoken(part.part))
        at = {size.size: nth for nth, size in enumerate(part.sizes)}
        for one in part.dimensions:
            word = length_word(one.words, voice)
            lengths = [one.lengths[at[size]] if size in at else None for size in range(many)]
            unit = part.sizes[0].unit
            cells = (_length([mm], one, unit, voice) for mm in lengths)
            rows.append((voice.say("{part}, {length}", part=name, length=word), *cells))
            at_once.append("" if None in lengths else _length(lengths, one, unit, voice))
        for label, eases in _eases(part, voice).items():
            found = [eases[size] for size in range(many) if size in eases]
            cells = (_ease([eases[size]] if size in eases else [], voice) for size in range(many))
            word = voice.say("{part}, ease for {measure}", part=name, measure=label)
            rows.append((word, *cells))
            at_once.append(_ease(found, voice) if len(found) == many and _one_way(found) else "")
    head = (voice.say("Finished size"), *size_heads(pattern, voice))
    return (
        Table(voice.say("Finished sizes"), head, tuple(rows), tuple(at_once)),
        Paragraph(" ".join(_how(measured, voice))),
    )


def _length(lengths: Sequence[Fraction | None], one: Dimension, unit: str, voice: Voice) -> str:
    """A length in one size, or in several at once."""
    known = [mm for mm in lengths if mm is not None]
    if len(known) < len(lengths):
        return voice.say("not known")
    length = voice.figures(both(known, unit))
    return voice.say("about {length}", length=length) if one.about else length


def _eases(part: PartMeasures, voice: Voice) -> dict[str, dict[int, Ease]]:
    found: dict[str, dict[int, Ease]] = {}
    for one in part.eases:
        if one.planned:
            continue  # nobody is fitted by it
        found.setdefault(_of_measure(one, voice), {}).setdefault(one.size, one)
    return found


def _of_measure(ease: Ease, voice: Voice) -> str:
    """The measure, or how much of it: ``half of bust``."""
    name = measure_word(ease.measure, voice)
    if ease.share == 1:
        return name
    if ease.share == Fraction(1, 2):
        return voice.say("half of {measure}", measure=name)
    if ease.share.denominator == 1:
        return voice.say("{n} times {measure}", n=ease.share, measure=name)
    return voice.say("{n} of {measure}", n=ease.share, measure=name)


def _one_way(eases: list[Ease]) -> bool:
    """Whether the ease of all sizes is positive, or of all of them negative, as far as there is
    any."""
    return len({one.more > 0 for one in eases if _printed(one) != "0"}) < 2


def _printed(ease: Ease) -> str:
    """The number that is printed of an ease."""
    return length_text(abs(ease.more), ease.unit).split(" ")[0]


def _ease(eases: list[Ease], voice: Voice) -> str:
    """The ease in one size, or in several that have it the same way."""
    if not eases:
        return voice.say("not known")
    unit = length_text(Fraction(0), eases[0].unit).split(" ")[1]
    numbers = [_printed(one) for one in eases]
    if set(numbers) == {"0"}:
        return voice.say("no ease")
    more = voice.figures(f"{across(numbers)} {unit}")
    negative = any(
        one.more < 0 for one, number in zip(eases, numbers, strict=True) if number != "0"
    )
    pairs = zip(eases, numbers, strict=True)
    percents = [abs(one.percent) if number != "0" else 0 for one, number in pairs]
    if not any(percents):
        # So little of the measure that it is no percentage.
        little = phrase("{length} of ease")
        if negative:
            little = phrase("{length} of negative ease")
        return voice.say(little, length=more)
    percent = across([str(one) for one in percents])
    if negative:
        return voice.say("{length} of negative ease, {percent}%", length=more, percent=percent)
    return voice.say("{length} of ease, {percent}%", length=more, percent=percent)


def _how(measured: tuple[PartMeasures, ...], voice: Voice) -> Iterator[str]:
    """How the figures were got, for all parts at once."""
    say = voice.say
    hows = {size.how for part in measured for size in part.sizes}
    if hows == {NOT_KNOWN}:
        yield say("Finished sizes are reckoned from the tension: widths from its stitches.")
    else:
        yield say(
            "Finished sizes are reckoned from the tension: widths from its stitches, and heights "
            "from its rows."
        )
    if RELATIVE in hows:
        yield say(
            "Rows in another stitch are reckoned by how high that stitch usually is compared with "
            "the one of the tension."
        )
    if NOT_KNOWN in hows and len(hows) > 1:
        yield say("Where the tension does not tell how high the rows are, no height is given.")
    if any(size.openwork for part in measured for size in part.sizes):
        yield say(
            "In openwork a chain is taken to be as wide as a stitch, so that is about right only."
        )
