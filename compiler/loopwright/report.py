"""What ``check --format json`` prints: results as plain data, by docs/report.schema.json.

    {"path", "title", "clean", "terms", "sizes", "counts", "rows", "messages"}

Counts are named in the pattern's own terms: ``sts`` for all stitches, an abbreviation for each
kind and a form for all of it (``bobble``), ``ch`` for loose chains, ``ch-4 sp`` for spaces of a
length and ``sp`` for all spaces; one name whatever the number.
"""

from __future__ import annotations

from loopwright.checks.told import kind_words
from loopwright.diagnostics import ADVICE, ERROR, Diagnostic, Edit
from loopwright.ir.fabric import Fabric, LineResult
from loopwright.ir.items import Kind
from loopwright.ir.pattern import ONE_SIZE, Part, Pattern, RepeatRows, Row
from loopwright.pipeline import Result
from loopwright.source import Source
from loopwright.trade.terms import TERMS, Terms

Json = dict[str, object]


def whole_report(results: list[Result]) -> Json:
    """The report on several patterns."""
    messages = [one for result in results for one in result.diagnostics]
    return {
        "files": [file_report(result) for result in results],
        "clean": all(result.clean for result in results),
        "errors": sum(one.severity == ERROR for one in messages),
        "advice": sum(one.severity == ADVICE for one in messages),
    }


def file_report(result: Result) -> Json:
    """The report on one pattern."""
    pattern = result.pattern
    return {
        "path": result.source.name,
        "title": pattern.title if pattern else "",
        "clean": result.clean,
        **detail(result),
        "messages": [_message(result.source, one) for one in result.diagnostics],
    }


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


def _message(source: Source, one: Diagnostic) -> Json:
    line, column = source.position(one.span.start)
    end_line, end_column = source.position(max(one.span.end, one.span.start))
    related = []
    for other in one.related:
        at = source.position(other.span.start)
        related.append({"line": at[0], "column": at[1], "text": other.text})
    return {
        "code": one.code,
        "severity": one.severity,
        "line": line,
        "column": column,
        "end_line": end_line,
        "end_column": end_column,
        "part": one.part,
        "row": one.row,
        "sizes": list(one.sizes),
        "text": one.text,
        "hints": list(one.hints),
        "related": related,
        "edits": [_edit(source, edit) for edit in one.edits],
    }


def _edit(source: Source, edit: Edit) -> Json:
    line, column = source.position(edit.span.start)
    end_line, end_column = source.position(edit.span.end)
    return {
        "line": line,
        "column": column,
        "end_line": end_line,
        "end_column": end_column,
        "text": edit.text,
        "safe": edit.safe,
    }
