"""Loopwright for other programs: what ``import loopwright`` gives. docs/api.md promises the names.

    verdict = loopwright.check(text)
    if verdict.clean:
        page = loopwright.sheet(text, terms="US", form="html")

Everything is a function of its arguments: no file is read or written, and nothing is kept from one
call to the next. A pattern that uses other files is given their texts.
"""

from __future__ import annotations

from collections.abc import Mapping

from loopwright.diagnostics.verdict import Change, Message, Place, Remark, Verdict
from loopwright.frozen import frozen
from loopwright.measured import Length, Measured, YarnTaken
from loopwright.pipeline import House, Result
from loopwright.repository.settings import Settings
from loopwright.source import NotRead

__all__ = [
    "Change",
    "Chart",
    "House",
    "Length",
    "Measured",
    "Message",
    "PatternError",
    "Place",
    "Remark",
    "Settings",
    "Verdict",
    "YarnTaken",
    "chart",
    "check",
    "measure",
    "sheet",
]

NAME = "pattern.crochet"
TERMS = ("", "UK", "US")
KINDS = ("", "symbols", "grid")
FORMS = ("text", "markdown", "html")
NONE: Mapping[str, str | NotRead] = {}
PLAIN = Settings()


@frozen
class Chart:
    """The chart of a ``part`` in a ``size``, of its ``kind``, as ``svg``; ``parts`` and ``sizes``
    are all that the pattern has, in its order."""

    part: str
    size: str
    kind: str
    svg: str
    parts: tuple[str, ...]
    sizes: tuple[str, ...]


class PatternError(ValueError):
    """A pattern that cannot be printed, drawn or measured, because it has errors or is no pattern;
    ``verdict`` says which."""

    def __init__(self, verdict: Verdict) -> None:
        super().__init__(_first(verdict))
        self.verdict = verdict

    def __reduce__(self) -> tuple[type, tuple[Verdict]]:
        return type(self), (self.verdict,)


def check(
    text: str,
    *,
    name: str = NAME,
    used: Mapping[str, str | NotRead] = NONE,
    settings: Settings = PLAIN,
    detail: bool = False,
) -> Verdict:
    """Check a pattern in every size.

    ``text`` is the pattern; ``name`` what messages call it; ``used`` the texts of the files that it
    uses and that those use, by their paths from its own folder (``"../shared/house.crochet"``);
    ``settings`` the severities and rules of a house. With ``detail``, ``Verdict.detail`` says what
    every row comes to, as docs/report.schema.json has it.
    """
    from loopwright.repository.verdict import check_one

    return check_one(name, text, used, settings, detail=detail)


def sheet(
    text: str,
    *,
    terms: str = "",
    form: str = "text",
    name: str = NAME,
    used: Mapping[str, str | NotRead] = NONE,
    settings: Settings = PLAIN,
) -> str:
    """The written pattern for all sizes: ``terms`` are ``"UK"``, ``"US"`` or as written; ``form``
    is ``"text"``, ``"markdown"`` or ``"html"`` (one page that needs nothing else).

    Raises ``PatternError`` where the pattern has errors, ``ValueError`` for other terms or forms.
    """
    from loopwright import pipeline

    _one_of(terms, TERMS, "terms")
    _one_of(form, FORMS, "form")
    checked = _checked(text, name, used, settings).checked
    assert checked is not None
    return pipeline.sheet(checked, terms or checked.pattern.terms, form)


def chart(
    text: str,
    *,
    part: str = "",
    size: str = "",
    terms: str = "",
    kind: str = "",
    name: str = NAME,
    used: Mapping[str, str | NotRead] = NONE,
    settings: Settings = PLAIN,
) -> Chart:
    """The chart of a part in a size, as SVG; the first of each where none is named. ``kind`` is
    ``"symbols"`` or ``"grid"``, the chart of squares; without one it is that of squares where the
    part is filet or colourwork.

    Raises ``PatternError`` where the pattern has errors, ``ValueError`` where there is no such
    part, size, terms or kind, or a part has no chart of squares.
    """
    from loopwright import pipeline

    _one_of(terms, TERMS, "terms")
    _one_of(kind, KINDS, "kind")
    result = _checked(text, name, used, settings)
    checked = result.checked
    assert checked is not None
    pattern = checked.pattern
    parts = tuple(one.name for one in pattern.parts)
    part = _one_of(part or parts[0], parts, "part")
    size = _one_of(size or pattern.sizes[0], pattern.sizes, "size")
    which = pattern.sizes.index(size)
    kind = kind or ("symbols" if pipeline.no_grid(checked, part, which) else "grid")
    terms = terms or pattern.terms
    svg = pipeline.chart(checked, part, which, terms, kind=kind, source=result.source)
    return Chart(part, size, kind, svg, parts, pattern.sizes)


def measure(
    text: str,
    *,
    name: str = NAME,
    used: Mapping[str, str | NotRead] = NONE,
    settings: Settings = PLAIN,
) -> Measured:
    """How large each part comes out and what yarn each size takes, as far as the gauge tells.

    Raises ``PatternError`` where the pattern has errors.
    """
    from loopwright.measured import measured

    checked = _checked(text, name, used, settings).checked
    assert checked is not None
    return measured(checked)


def _checked(text: str, name: str, used: Mapping[str, str | NotRead], settings: Settings) -> Result:
    """The result of a pattern that has no errors."""
    from loopwright.pipeline import check_text
    from loopwright.report import verdict
    from loopwright.repository.verdict import around

    result = check_text(name, text, around(used, settings))
    if result.checked is None:
        raise PatternError(verdict(result))
    return result


def _one_of(named: str, known: tuple[str, ...], what: str) -> str:
    if named not in known:
        there = ", ".join(one for one in known if one)
        raise ValueError(f"there is no {what} `{named}`; there is {there}.")
    return named


def _first(verdict: Verdict) -> str:
    errors = [one for one in verdict.messages if one.severity == "error"]
    if not errors:
        return f"{verdict.name}: this file is there for patterns to use, and holds none."
    place = errors[0].place
    return f"{place.file or verdict.name}:{place.line}:{place.column}: {errors[0].text}"
