"""Finished sizes: what each part comes out at, at the gauge given, and how that was reckoned.

Hat, around at the start    45.5 cm / 18 in            51.5 cm / 20¼ in
Hat, ease for head          2.5 cm of negative ease    ...
"""

from __future__ import annotations

from collections.abc import Iterator

from loopwright.ir.pattern import Pattern
from loopwright.measure.dimensions import Dimension, PartMeasures
from loopwright.measure.ease import Ease, ease_text, share_text
from loopwright.measure.heights import NOT_KNOWN, RELATIVE
from loopwright.measure.lengths import both
from loopwright.render.prose.document import Block, Paragraph, Table
from loopwright.render.prose.voice import Voice
from loopwright.render.prose.words import capital, spoken


def finished_blocks(
    pattern: Pattern, measured: tuple[PartMeasures, ...], voice: Voice
) -> tuple[Block, ...]:
    """A table of the finished sizes, a column a size, and how they were got."""
    if not measured:
        return ()
    many = range(len(pattern.sizes))
    rows = []
    for part in measured:
        name = capital(spoken(part.part))
        at = {size.size: nth for nth, size in enumerate(part.sizes)}
        for one in part.dimensions:
            cells = (_cell(one, at.get(size), part.sizes[0].unit) for size in many)
            rows.append((f"{name}, {one.words}", *cells))
        for label, eases in _eases(part).items():
            cells = (_ease(eases.get(size)) for size in many)
            rows.append((f"{name}, ease for {label}", *cells))
    head = ("Finished size", *(capital(size) for size in pattern.sizes))
    return (
        Table("Finished sizes", head, tuple(rows)),
        Paragraph(" ".join(_how(measured, voice.terms.gauge))),
    )


def _cell(one: Dimension, nth: int | None, unit: str) -> str:
    mm = one.lengths[nth] if nth is not None else None
    if mm is None:
        return "not known"
    return ("about " if one.about else "") + both([mm], unit)


def _eases(part: PartMeasures) -> dict[str, dict[int, Ease]]:
    found: dict[str, dict[int, Ease]] = {}
    for one in part.eases:
        label = f"{share_text(one)}{spoken(one.measure)}"
        found.setdefault(label, {}).setdefault(one.size, one)
    return found


def _ease(ease: Ease | None) -> str:
    return ease_text(ease) if ease is not None else "not known"


def _how(measured: tuple[PartMeasures, ...], gauge: str) -> Iterator[str]:
    """How the figures were got, for all parts at once."""
    hows = {size.how for part in measured for size in part.sizes}
    rows = "" if hows == {NOT_KNOWN} else ", and heights from its rows"
    yield f"Finished sizes are reckoned from the {gauge}: widths from its stitches{rows}."
    if RELATIVE in hows:
        yield "Rows of another stitch are taken to be as high as it usually is against it."
    if NOT_KNOWN in hows and len(hows) > 1:
        yield f"Where the {gauge} does not tell how high the rows are, no height is given."
    if any(size.openwork for part in measured for size in part.sizes):
        yield "In openwork a chain is taken to be as wide as a stitch, so that is about right only."
