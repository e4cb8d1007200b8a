"""What is told of a checked pattern: the verdict on it, and in detail what each row comes to.

    {"terms", "sizes", "counts", "rows"}      as docs/report.schema.json has them

Counts are named in the pattern's own terms: ``sts`` for all stitches, an abbreviation for each
kind and a form for all of it (``bobble``), ``ch`` for loose chains, ``ch-4 sp`` for spaces of a
length and ``sp`` for all spaces; one name whatever the number.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from loopwright.checks.told import kind_words
from loopwright.diagnostics.verdict import Verdict, located
from loopwright.frozen import replace
from loopwright.ir.fabric import Fabric, LineResult
from loopwright.ir.items import Kind
from loopwright.ir.pattern import ONE_SIZE, Part, Pattern, RepeatRows, Row
from loopwright.pipeline import Result
from loopwright.source import Source
from loopwright.trade.terms import TERMS, Terms

Json = dict[str, object]
OFF = "off"
"""The weight of a message that is not wanted."""

UNCHANGED: Mapping[str, str] = MappingProxyType({})


def verdict(
    result: Result, severities: Mapping[str, str] = UNCHANGED, *, with_detail: bool = False
) -> Verdict:
    """The verdict on a checked text. ``severities`` are those that codes are given in place of
    their own; a message that weighs ``off`` is left out."""
    weighed = (
        replace(one, severity=severities[one.code]) if one.code in severities else one
        for one in result.diagnostics
    )
    return Verdict(
        result.source.name,
        result.pattern.title if result.pattern else "",
        len(result.fabrics),
        sum(fabric.rows for fabric in result.fabrics),
        sum(fabric.stitches for fabric in result.fabrics),
        tuple(located(result.source, one) for one in weighed if one.severity != OFF),
        detail(result) if with_detail else None,
    )


def whole_report(results: list[Result]) -> Json:
    """What ``check --format json`` prints of several patterns, as data."""
    from loopwright.diagnostics.reports.as_json import of_file

    verdicts = [verdict(result, with_detail=True) for result in results]
    return {
        "files": [of_file(one) for one in verdicts],
        "clean": all(one.clean for one in verdicts),
        "errors": sum(one.errors for one in verdicts),
        "advice": sum(one.advice for one in verdicts),
    }


def file_report(result: Result) -> Json:
    """What it prints of one pattern."""
    from loopwright.diagnostics.reports.as_json import of_file

    return of_file(verdict(result, with_detail=True))


def detail(result: Result) -> Json:
    """What a pattern is and what each of its rows comes to: ``terms``, ``sizes``, ``counts``,
    ``rows``."""
    pattern = result.pattern
    return {
        "terms": pattern.terms if pattern else None,
        "sizes": list(pattern.sizes) if pattern else [ONE_SIZE],
        "counts": _counts(pattern) if pattern else {},
        "rows": _rows(result, pattern) if pattern else [],
    }


def _counts(pattern: Pattern) -> Json:
    return {
        count.name: dict(zip(pattern.sizes, count.values, strict=True)) for count in pattern.counts
    }


def _rows(result: Result, pattern: Pattern) -> list[Json]:
    out = []
    for part in pattern.parts:
        by_size = [_lines(fabric, part) for fabric in result.fabrics]
        for index, line in enumerate(part.lines):
            if isinstance(line, Row | RepeatRows):
                found = {
                    size: lines[index]
                    for size, lines in zip(pattern.sizes, by_size, strict=True)
                    if index in lines
                }
                out.append(_row(result.source, pattern, part, line, found))
    out.sort(key=lambda row: row["line"])  # type: ignore[arg-type,return-value]
    return out


def _lines(fabric: Fabric, part: Part) -> dict[int, LineResult]:
    for worked in fabric.parts:
        if worked.name == part.name:
            return {line.line: line for line in worked.lines}
    return {}


def _row(
    source: Source,
    pattern: Pattern,
    part: Part,
    line: Row | RepeatRows,
    found: dict[str, LineResult],
) -> Json:
    terms = TERMS[pattern.terms]
    stated = {
        size: _named(one.stated, terms) for size, one in found.items() if one.stated is not None
    }
    return {
        "line": source.position(line.span.start)[0],
        "part": part.name,
        "label": line.label,
        "made": {size: _named(one.counts, terms) for size, one in found.items()},
        "stated": stated or None,
        "worked": {size: one.worked for size, one in found.items()},
    }


def _named(counts: tuple[tuple[Kind, int], ...], terms: Terms) -> dict[str, int]:
    named = {name_of(kind, terms): n for kind, n in counts}
    for kind, n in counts:
        if kind.stitch is not None and kind.stitch.many:
            named[kind.stitch.many] = named.get(kind.stitch.many, 0) + n
    return named


def name_of(kind: Kind, terms: Terms) -> str:
    """The one name under which a kind is counted."""
    return "sts" if kind.what == "st" else kind_words(kind, terms, 1)
