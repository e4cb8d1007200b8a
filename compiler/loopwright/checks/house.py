"""Rules of a house: what a publisher asks of every pattern besides that it comes out.

They hold only where the settings of a repository say so (``House``).
"""

from __future__ import annotations

from collections.abc import Iterator

from loopwright.diagnostics import Diagnostic, rule
from loopwright.frozen import Frozen
from loopwright.ir.pattern import Pattern, Row
from loopwright.source import Span

HOUSE = "house"
TOP = Span(0, 0)


class House(Frozen):
    """What a house asks of every pattern: its ``terms`` (UK, US, or empty for either), a stated
    count on every row, a gauge for every part, a licence line."""

    terms: str = ""
    stated_counts: bool = False
    gauge: bool = False
    licence: bool = False


NO_RULES = House()
EVERY_RULE = House("UK", stated_counts=True, gauge=True, licence=True)


def asked(pattern: Pattern, house: House, *, whole: bool = True) -> tuple[Diagnostic, ...]:
    """What a pattern lacks of what the house asks for. Where not the ``whole`` of its text could be
    read, a part may name a gauge that is not known, and lack none."""
    return tuple(_asked(pattern, house, whole))


def _asked(pattern: Pattern, house: House, whole: bool) -> Iterator[Diagnostic]:
    if house.terms and pattern.terms != house.terms:
        yield terms_not_ours(pattern.terms, house.terms)
    if pattern.shared:
        return
    for part in pattern.parts:
        if house.gauge and whole and not part.gauge:
            yield no_gauge(part.span, part.name)
        for line in part.lines if house.stated_counts else ():
            if type(line) is Row and not line.broken and line.stated is None and not line.as_row:
                yield no_stated_count(line.span, part.name, line.label)
    texts = dict(pattern.texts)
    if house.licence and not texts.get("licence"):
        yield no_licence()


@rule("terms-not-ours", HOUSE)
def terms_not_ours(terms: str, ours: str) -> Diagnostic:
    """The pattern is in other terms than the house writes in.

    A house that publishes in one country's terms asks for them in every pattern (`terms` under
    `[house]` in its settings), so that its editors read one language.

    Breaks:
        pattern: Tideline Swatch
        terms: US
        licence: CC BY 4.0
        gauge tide: 16 sts and 18 rows to 10 cm in sl st
        part swatch: flat, gauge tide
        start: ch 11
        row 1: sl st in 2nd ch from hook, sl st in each ch across = 10 sts
    Keeps:
        pattern: Tideline Swatch
        terms: UK
        licence: CC BY 4.0
        gauge tide: 16 sts and 18 rows to 10 cm in sl st
        part swatch: flat, gauge tide
        start: ch 11
        row 1: sl st in 2nd ch from hook, sl st in each ch across = 10 sts
    """
    text = f"The pattern is in {terms} terms; the settings ask for {ours}."
    hint = (
        f"Write the pattern in {ours} terms: `loopwright sheet --terms {ours.lower()}` shows how."
    )
    return Diagnostic("terms-not-ours", "error", TOP, text, (hint,))


@rule("no-stated-count", HOUSE)
def no_stated_count(span: Span, part: str, label: str) -> Diagnostic:
    """A row does not say what it comes to.

    What is stated at the end of a row is what the maker counts against, and what the checker holds
    the row to. A house may ask for it on every row (`stated-counts` under `[house]`).

    Breaks:
        pattern: Tideline Swatch
        terms: UK
        licence: CC BY 4.0
        gauge tide: 16 sts and 18 rows to 10 cm in dc
        part swatch: flat, gauge tide
        start: ch 11
        row 1: dc in 2nd ch from hook, dc in each ch across
    Keeps:
        pattern: Tideline Swatch
        terms: UK
        licence: CC BY 4.0
        gauge tide: 16 sts and 18 rows to 10 cm in dc
        part swatch: flat, gauge tide
        start: ch 11
        row 1: dc in 2nd ch from hook, dc in each ch across = 10 sts
    """
    text = "The row does not say what it comes to; the settings ask for that on every row."
    hint = "Write it at the end of the row, as in `= 24 sts`."
    return Diagnostic("no-stated-count", "error", span, text, (hint,), part, label)


@rule("no-gauge", HOUSE)
def no_gauge(span: Span, part: str) -> Diagnostic:
    """A part has no gauge.

    Without gauge nothing can be said of how large a part comes out or what yarn it takes. A house
    may ask for one in every part (`gauge` under `[house]`).

    Breaks:
        pattern: Tideline Swatch
        terms: UK
        licence: CC BY 4.0
        part swatch: flat
        start: ch 11
        row 1: dc in 2nd ch from hook, dc in each ch across = 10 sts
    Keeps:
        pattern: Tideline Swatch
        terms: UK
        licence: CC BY 4.0
        gauge tide: 16 sts and 18 rows to 10 cm in dc
        part swatch: flat, gauge tide
        start: ch 11
        row 1: dc in 2nd ch from hook, dc in each ch across = 10 sts
    """
    text = "The part has no gauge; the settings ask for one in every part."
    hint = f"Write a `gauge NAME: ...` line, and `gauge NAME` on the line of the part `{part}`."
    return Diagnostic("no-gauge", "error", span, text, (hint,), part)


@rule("no-licence", HOUSE)
def no_licence() -> Diagnostic:
    """The pattern does not say under which licence it is given.

    A reader has to know what may be done with a pattern and with what is made from it. A house may
    ask for the line in every pattern (`licence` under `[house]`).

    Breaks:
        pattern: Tideline Swatch
        terms: UK
        gauge tide: 16 sts and 18 rows to 10 cm in dc
        part swatch: flat, gauge tide
        start: ch 11
        row 1: dc in 2nd ch from hook, dc in each ch across = 10 sts
    Keeps:
        pattern: Tideline Swatch
        terms: UK
        licence: CC BY 4.0
        gauge tide: 16 sts and 18 rows to 10 cm in dc
        part swatch: flat, gauge tide
        start: ch 11
        row 1: dc in 2nd ch from hook, dc in each ch across = 10 sts
    """
    text = "There is no licence; the settings ask for one in every pattern."
    hint = "Write a line such as `licence: CC BY 4.0` under the title."
    return Diagnostic("no-licence", "error", TOP, text, (hint,))
