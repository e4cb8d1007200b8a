"""What stands under a schematic: lengths in every size, ease, and how the figures were got."""

from __future__ import annotations

from fractions import Fraction

from loopwright.measure.dimensions import Dimension, PartMeasures
from loopwright.measure.ease import Ease
from loopwright.measure.heights import NOT_KNOWN, RELATIVE
from loopwright.measure.lengths import both, length_text
from loopwright.render.speaker import Speaker, measure_word, phrase


def length(one: Dimension, part: PartMeasures, speaker: Speaker) -> str:
    """A dimension in every size, in both measures: ``wide: about 45.5 (51.5) cm / 18 (20¼) in``."""
    known = [mm for mm in one.lengths if mm is not None]
    if len(known) < len(one.lengths):
        told = speaker.say("not known")
    else:
        told = speaker.figures(both(known, part.sizes[0].unit))
        told = speaker.say("about {length}", length=told) if one.about else told
    return speaker.say("{size}: {spacing}", size=speaker.say(one.words), spacing=told)


def ease(one: Ease, speaker: Speaker) -> str:
    """The ease: ``For half of bust: 2.5 cm of negative ease, 5%.``"""
    more = speaker.figures(length_text(abs(one.more), one.unit))
    if one.more < 0:
        how_much = phrase("{length} of negative ease, {percent}%")
        if not one.percent:
            how_much = phrase("{length} of negative ease")
    else:
        how_much = phrase("{length} of ease, {percent}%")
        if not one.percent:
            how_much = phrase("{length} of ease")
    told = speaker.say(how_much, length=more, percent=abs(one.percent))
    if more.startswith("0 "):
        told = speaker.say("no ease")
    return speaker.say("For {measure}: {ease}.", measure=_measure(one, speaker), ease=told)


def _measure(one: Ease, speaker: Speaker) -> str:
    """The measure, or how much of it."""
    name = measure_word(one.measure, speaker)
    if one.share == 1:
        return name
    if one.share == Fraction(1, 2):
        return speaker.say("half of {measure}", measure=name)
    if one.share.denominator == 1:
        return speaker.say("{n} times {measure}", n=one.share, measure=name)
    return speaker.say("{n} of {measure}", n=one.share, measure=name)


# By how the heights were got: in close work, and in openwork.
_HOW = {
    NOT_KNOWN: (
        phrase(
            "Widths are reckoned from the stitches of the tension {name}; heights are not known "
            "from it."
        ),
        phrase(
            "Widths are reckoned from the stitches of the tension {name}; heights are not known "
            "from it; a chain is taken to be as wide as a stitch, so sizes in openwork are about "
            "right."
        ),
    ),
    RELATIVE: (
        phrase(
            "Widths are reckoned from the stitches of the tension {name}, heights from its rows, "
            "those of other stitches by their usual height against it."
        ),
        phrase(
            "Widths are reckoned from the stitches of the tension {name}, heights from its rows, "
            "those of other stitches by their usual height against it; a chain is taken to be as "
            "wide as a stitch, so sizes in openwork are about right."
        ),
    ),
    "": (
        phrase(
            "Widths are reckoned from the stitches of the tension {name}, heights from its rows."
        ),
        phrase(
            "Widths are reckoned from the stitches of the tension {name}, heights from its rows; "
            "a chain is taken to be as wide as a stitch, so sizes in openwork are about right."
        ),
    ),
}


def how(part: PartMeasures, speaker: Speaker) -> str:
    """How the figures of a part were got."""
    size = part.sizes[0]
    words = speaker.say(_HOW.get(size.how, _HOW[""])[size.openwork], name=size.gauge)
    if not size.edged:
        return words
    edging = speaker.say(
        "An edging of shells or loops is taken to lie flat on what it is worked on."
    )
    return f"{words} {edging}"
