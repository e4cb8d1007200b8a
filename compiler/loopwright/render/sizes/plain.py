"""Finished sizes as plain data; the schema is docs/sizes.schema.json.

Lengths are numbers of mm, to a hundredth. ``how`` says how they were got; ``about`` is true in
openwork, where a chain is taken to be as wide as a stitch.
"""

from __future__ import annotations

from fractions import Fraction
from math import degrees

from loopwright.ir.checked import Checked
from loopwright.measure.dimensions import PartMeasures
from loopwright.measure.ease import Ease
from loopwright.measure.form import Form
from loopwright.measure.values import LONGEST, Extent, PartSize, RowSize

Json = dict[str, object]


def json(checked: Checked, found: tuple[PartMeasures, ...]) -> str:
    """The sizes of a pattern, part by part, with every row."""
    from json import dumps

    pattern = checked.pattern
    measured = {part.part for part in found}
    whole: Json = {
        "title": pattern.title,
        "sizes": list(pattern.sizes),
        "parts": [_part(part, pattern.sizes) for part in found],
        "without_gauge": [part.name for part in pattern.parts if part.name not in measured],
    }
    return dumps(whole, ensure_ascii=False, indent=1) + "\n"


def _part(part: PartMeasures, names: tuple[str, ...]) -> Json:
    first = part.sizes[0]
    return {
        "part": part.part,
        "gauge": first.gauge,
        "unit": first.unit,
        "how": {"width": "gauge stitches", "height": first.how},
        "about": first.openwork or first.edged,
        "dimensions": [
            {
                "name": one.where,
                "words": one.words,
                "mm": {
                    names[size.size]: _mm(mm)
                    for size, mm in zip(part.sizes, one.lengths, strict=True)
                },
            }
            for one in part.dimensions
        ],
        "sizes": [
            _size(size, form, part.eases, names[size.size])
            for size, form in zip(part.sizes, part.forms, strict=True)
        ],
    }


def _size(size: PartSize, form: Form | None, eases: tuple[Ease, ...], name: str) -> Json:
    return {
        "size": name,
        "wide_mm": _extent(size.wide),
        "around_mm": _extent(size.around),
        "high_mm": _mm(size.high),
        "form": _form(form),
        "ease": [_ease(one) for one in eases if one.size == size.size],
        "rows": [
            {"times": times, "rows": [_row(row) for row in rows]} for rows, times in size.stretches
        ],
    }


def _mm(length: Fraction | float | None) -> float | None:
    if length is None or not -LONGEST < length < LONGEST:
        return None if length is None else int(length)
    return round(float(length), 2)


def _extent(extent: Extent | None) -> Json | None:
    if extent is None:
        return None
    return {"first": _mm(extent.first), "widest": _mm(extent.widest), "last": _mm(extent.last)}


def _form(form: Form | None) -> Json | None:
    if form is None:
        return None
    told: Json = {"kind": form.kind, "corners": form.corners}
    if form.profile is not None:
        told["standing_mm"] = _mm(form.profile.height)
        told["excess_degrees"] = round(degrees(form.profile.excess), 1)
        told["profile_mm"] = [[_mm(one.radius), _mm(one.height)] for one in form.profile.rings]
    if form.outline is not None:
        sides = (("left_mm", form.outline.left), ("right_mm", form.outline.right))
        told.update((name, [[_mm(x), _mm(y)] for x, y in points]) for name, points in sides)
    return told


def _ease(one: Ease) -> Json:
    return {
        "measure": one.measure,
        "share": float(one.share),
        "along": one.along,
        "wanted_mm": _mm(one.wanted),
        "found_mm": _mm(one.found),
        "more_mm": _mm(one.more),
        "percent": one.percent,
    }


def _row(row: RowSize) -> Json:
    return {
        "label": row.label,
        "round": row.is_round,
        "stitches": row.stitches,
        "long_mm": _mm(row.long),
        "high_mm": _mm(row.high),
        "about": row.about,
    }
