"""The table of finished sizes that a person reads.

hand (tension hand: 17 sts and 9 rounds to 10 cm)
                        child            woman            man
  around at the start   16.5 cm / 6½ in  19 cm / 7½ in    21 cm / 8¼ in
"""

from __future__ import annotations

import textwrap
from collections.abc import Iterator
from fractions import Fraction

from loopwright.ir.checked import Checked
from loopwright.ir.pattern import ONE_SIZE, Gauge, Pattern
from loopwright.measure.dimensions import Dimension, PartMeasures, how_text
from loopwright.measure.ease import Ease, ease_text, share_text
from loopwright.measure.lengths import both, length_text
from loopwright.measure.values import PartSize, RowSize, Stretch
from loopwright.trade.terms import TERMS

WIDTH = 100


def text(checked: Checked, found: tuple[PartMeasures, ...], terms: str, *, rows: bool) -> str:
    """Every part with a gauge; and which have none."""
    pattern, word = checked.pattern, TERMS[terms].gauge
    lines = [f"{pattern.title}: finished sizes"]
    for part in found:
        lines += ["", *_part(pattern, part, word)]
        if rows:
            lines += _rows(pattern, part)
    measured = {part.part for part in found}
    without = [part.name for part in pattern.parts if part.name not in measured]
    if without:
        lines += ["", f"Without a {word} nothing is known of the size of {', '.join(without)}."]
    return "\n".join(line.rstrip() for line in lines) + "\n"


def _part(pattern: Pattern, part: PartMeasures, word: str) -> Iterator[str]:
    gauge = next(one for one in pattern.gauges if one.name == part.sizes[0].gauge)
    yield f"{part.part} ({word} {gauge.name}: {_gauge(gauge)})"
    rows = [(one.words, _cells(one, part)) for one in part.dimensions]
    rows += _eases(part)
    yield from _table(pattern, part, rows)
    for note in (*_ruffle(part), how_text(part, word)):
        yield textwrap.fill(note, WIDTH, initial_indent="  ", subsequent_indent="  ")


def _gauge(gauge: Gauge) -> str:
    rows = ""
    if gauge.rows is not None:
        rows = f" and {_plain(gauge.rows)} {'rounds' if gauge.in_rounds else 'rows'}"
    return f"{_plain(gauge.stitches)} sts{rows} to {length_text(gauge.over, gauge.unit)}"


def _plain(number: Fraction) -> str:
    return f"{float(number):g}"


def _cells(one: Dimension, part: PartMeasures) -> list[str]:
    """A dimension in each size."""
    about = "about " if one.about else ""
    unit = part.sizes[0].unit
    return [about + both([mm], unit) if mm is not None else "not known" for mm in one.lengths]


def _eases(part: PartMeasures) -> list[tuple[str, list[str]]]:
    """Each measure that the part is made to, and the ease against it, in each size."""
    found: dict[str, dict[int, Ease]] = {}
    for one in part.eases:
        name = f"planned {one.planned}" if one.planned else one.measure
        found.setdefault(f"{share_text(one)}{name}", {}).setdefault(one.size, one)
    rows = []
    for name, eases in found.items():
        each = [eases.get(size.size) for size in part.sizes]
        to_fit = [both([one.wanted], one.unit) if one else "not known" for one in each]
        planned = any(one.planned for one in eases.values())
        how = ("", "against ") if planned else ("to fit ", "ease for ")
        rows.append((f"{how[0]}{name}", to_fit))
        words = [ease_text(one) if one else "not known" for one in each]
        rows.append((f"{how[1]}{name}", words))
    return rows


def _ruffle(part: PartMeasures) -> Iterator[str]:
    if part.excess is not None:
        yield f"The edge ruffles: about the middle it takes {part.excess}° more than a full turn."


def _table(
    pattern: Pattern, part: PartMeasures, rows: list[tuple[str, list[str]]]
) -> Iterator[str]:
    """A column a size; sizes that have no room any more come in a table of their own below."""
    names = [pattern.sizes[size.size] for size in part.sizes]
    head = [] if pattern.sizes == (ONE_SIZE,) else [("", names)]
    first = max(len(label) for label, _ in rows)
    widths = [max(len(cells[at]) for _, cells in [*head, *rows]) for at in range(len(names))]
    for low, high in _bands(widths, WIDTH - first - 2):
        if low:
            yield ""
        for label, cells in [*head, *rows]:
            pairs = zip(cells[low:high], widths[low:high], strict=True)
            columns = (cell.ljust(width) for cell, width in pairs)
            yield f"  {label.ljust(first)}  {'  '.join(columns)}"


def _bands(widths: list[int], room: int) -> Iterator[tuple[int, int]]:
    """Which columns go beside each other, as (first, after the last)."""
    low = used = 0
    for at, width in enumerate(widths):
        if at > low and used + width + 2 > room:
            yield low, at
            low, used = at, 0
        used += width + 2
    yield low, len(widths)


def _rows(pattern: Pattern, part: PartMeasures) -> Iterator[str]:
    """Every row of every size, what is worked over and over once."""
    for size in part.sizes:
        yield ""
        name = f", size {pattern.sizes[size.size]}" if pattern.sizes != (ONE_SIZE,) else ""
        yield f"  {part.part}, row by row{name}"
        for rows, times in _merged(size.stretches):
            if len(rows) == 1:
                yield f"    {_row(rows[0], size, times)}"
                continue
            if times > 1:
                yield f"    {times:,} times these {len(rows)}:"
            indent = "      " if times > 1 else "    "
            yield from (f"{indent}{_row(row, size, 1)}" for row in rows)


def _merged(stretches: tuple[Stretch, ...]) -> list[Stretch]:
    """Stretches with neighbours of one and the same row put together."""
    out: list[Stretch] = []
    for rows, times in stretches:
        if out and len(rows) == 1 and out[-1][0] == rows:
            out[-1] = (rows, out[-1][1] + times)
        else:
            out.append((rows, times))
    return out


def _row(row: RowSize, size: PartSize, times: int) -> str:
    often = f", {times:,} times" if times > 1 else ""
    about = "about " if row.about else ""
    way = "around" if row.is_round else "wide"
    high = "" if row.high is None else f", {millimetres(row.high)} high"
    each = " each" if high and times > 1 else ""
    long = length_text(row.long, size.unit)
    return f"{row.label}{often}: {about}{long} {way}{high}{each}"


def millimetres(mm: Fraction) -> str:
    """A row's height: a tape is too coarse for it."""
    tenths = (mm * 10).__round__()
    return f"{tenths // 10}{f'.{tenths % 10}' if tenths % 10 else ''} mm"
