"""What is told of a checked pattern: the verdict on it, as its settings weigh the messages, and in
detail what each row comes to.

    {"terms", "sizes", "counts", "rows"}      as docs/report.schema.json has them

Counts are named in the pattern's own terms: ``sts`` for all stitches, an abbreviation for each
kind and a form for all of it (``bobble``), ``ch`` for loose chains, ``ch-4 sp`` for spaces of a
length and ``sp`` for all spaces; one name whatever the number.
"""

from __future__ import annotations

from functools import lru_cache

from loopwright.checks.house import NO_RULES, House
from loopwright.checks.told import kind_words
from loopwright.diagnostics import RULES
from loopwright.diagnostics.verdict import Verdict, located
from loopwright.frozen import Frozen, replace
from loopwright.ir.fabric import Fabric, LineResult
from loopwright.ir.items import Kind
from loopwright.ir.pattern import ONE_SIZE, Part, Pattern, RepeatRows, Row
from loopwright.pipeline import Around, Result
from loopwright.source import Source, Texts
from loopwright.trade.terms import TERMS, Terms

Json = dict[str, object]
OFF = "off"
"""The weight of a message that is not wanted."""

NONE: Texts = {}
"""A pattern that uses no files."""


class Settings(Frozen):
    """What the verdict on a file depends on, besides its text and the texts that it uses.

    ``severities`` are (code, ``error``, ``advice`` or ``off``), by code; ``use`` the files that
    every pattern uses without a line of its own, from the folder of the file that is checked.
    """

    severities: tuple[tuple[str, str], ...] = ()
    house: House = NO_RULES
    use: tuple[str, ...] = ()


PLAIN = Settings()
"""The settings of a file for which none are found."""


def around(used: Texts, settings: Settings) -> Around:
    """What a file is checked with. Raises ``CannotAnswer`` for settings that there are none of."""
    if settings != PLAIN:
        _sound(settings)
    return Around(used, settings.use, settings.house)


@lru_cache(maxsize=64)
def _sound(settings: Settings) -> None:
    """Raise ``CannotAnswer`` where settings are none; asked of many files, found out once."""
    from loopwright.asked import CannotAnswer, one_of

    if not isinstance(settings.use, tuple) or not all(isinstance(one, str) for one in settings.use):
        raise CannotAnswer("`use` is a tuple of paths of files.")
    one_of(settings.house.terms, ("", "UK", "US"), "terms")
    for code, weight in settings.severities:
        if code not in RULES:
            raise CannotAnswer(f"there is no code `{code}`; `loopwright.codes()` lists them.")
        one_of(weight, ("error", "advice", OFF), "severity")


def verdict(result: Result, settings: Settings = PLAIN, *, with_detail: bool = False) -> Verdict:
    """The verdict on a checked text. Codes weigh what the settings say, in place of their own; a
    message that weighs ``off`` is left out."""
    severities = dict(settings.severities)
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
