"""Loopwright for other programs, the command line among them: the functions that take a text or a
verdict. ``pattern.py`` has what is made of a pattern that was read; docs/api.md promises the names.

    verdict = loopwright.check(text)
    if verdict.clean:
        page = loopwright.sheet(text, terms="US", form="html")

Everything is a function of its arguments: no file is read or written, and nothing is kept from one
call to the next. A pattern that uses other files is given their texts.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from loopwright.judged import NONE, PLAIN, Settings, around, verdict
from loopwright.pipeline import check_text, used_by
from loopwright.source import Texts, beside

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from loopwright.answers import Chart
    from loopwright.diagnostics.card import Card
    from loopwright.diagnostics.catalogue import Described
    from loopwright.diagnostics.verdict import Verdict
    from loopwright.measured import Measured
    from loopwright.render.prose.style import Style

NAME = "pattern.crochet"
GROUPS = ("", "head", "hand", "foot")
TABLES = ("text", "json")


# ------------------------------------------------------------------ of a text
def check(
    text: str,
    *,
    name: str = NAME,
    used: Texts = NONE,
    settings: Settings = PLAIN,
    detail: bool = False,
) -> Verdict:
    """Check a pattern in every size.

    ``text`` is the pattern; ``name`` what messages call it; ``used`` the texts of the files that it
    uses and that those use, by their paths from its own folder (``"../shared/house.crochet"``);
    ``settings`` the severities and rules of a house. With ``detail``, ``Verdict.detail`` says what
    every row comes to, as docs/report.schema.json has it.
    """
    result = check_text(name, text, around(used, settings))
    return verdict(result, settings, with_detail=detail)


def uses(text: str, *, at: str = "", settings: Settings = PLAIN) -> tuple[str, ...]:
    """The files that a text uses, by the paths under which ``check`` wants their texts: those that
    its settings give it, then those that it names. ``at`` is the text's own such path, where it is
    itself a file that a pattern uses."""
    written = (*settings.use, *used_by(text))
    return tuple(path for path in (beside(at, one) for one in written) if path is not None)


def mend(text: str, *, name: str = NAME, used: Texts = NONE, settings: Settings = PLAIN) -> str:
    """The text with every change made that cannot alter what is meant; the arguments are those of
    ``check``."""
    from loopwright.editing import mend as make

    return make(text, name, around(used, settings))


def tidy(text: str) -> str:
    """The text in the canonical layout; what cannot be read stays as it is."""
    from loopwright.editing import tidy as make

    return make(text)


# ------------------------------------------------------------------ the short way over ``read``
def sheet(
    text: str,
    *,
    terms: str = "",
    form: str = "text",
    name: str = NAME,
    used: Texts = NONE,
    settings: Settings = PLAIN,
) -> str:
    """The written pattern for all sizes: ``terms`` are ``"UK"``, ``"US"`` or as written; ``form``
    is ``"text"``, ``"markdown"`` or ``"html"`` (one page that needs nothing else).

    Raises ``PatternError`` where the pattern has errors, ``CannotAnswer`` for other terms or forms.
    """
    from loopwright.pattern import read

    return read(text, name=name, used=used, settings=settings).sheet(terms=terms, form=form)


def chart(
    text: str,
    *,
    part: str = "",
    size: str = "",
    terms: str = "",
    kind: str = "",
    language: str = "en",
    name: str = NAME,
    used: Texts = NONE,
    settings: Settings = PLAIN,
) -> Chart:
    """The chart of a part in a size, as SVG; the first of each where none is named. ``kind`` is
    ``"symbols"`` or ``"grid"``, the chart of squares; without one it is that of squares where the
    part is filet or colourwork. ``language`` is one of ``languages()``.

    Raises ``PatternError`` where the pattern has errors, ``CannotAnswer`` where there is no such
    part, size, terms, kind or language, or a part has no chart of squares.
    """
    from loopwright.pattern import read

    pattern = read(text, name=name, used=used, settings=settings)
    return pattern.chart(part=part, size=size, terms=terms, kind=kind, language=language)


def measure(
    text: str, *, name: str = NAME, used: Texts = NONE, settings: Settings = PLAIN
) -> Measured:
    """How large each part comes out and what yarn each size takes, as far as the gauge tells.

    Raises ``PatternError`` where the pattern has errors.
    """
    from loopwright.pattern import read

    return read(text, name=name, used=used, settings=settings).measure()


# ------------------------------------------------------------------ of verdicts
def report(
    verdicts: Iterable[Verdict], form: str = "text", *, colour: bool = False
) -> Iterator[str]:
    """What ``loopwright check`` tells of verdicts, in pieces, in one of ``REPORTS``; with
    ``colour`` for a terminal. Verdicts are taken one after another and none is held. Those of
    ``NEEDING_DETAIL`` need verdicts with their detail.

    Raises ``CannotAnswer`` for another form, and where a detail is wanting.
    """
    from loopwright.diagnostics import reports

    if form not in reports.REPORTS:
        from loopwright.asked import one_of

        one_of(form, reports.REPORTS, "form of report")
    if form in reports.NEEDING_DETAIL:
        verdicts = _in_detail(verdicts)
    return reports.report(form)(verdicts, colour)


def _in_detail(verdicts: Iterable[Verdict]) -> Iterator[Verdict]:
    for one in verdicts:
        if one.detail is None:
            from loopwright.asked import CannotAnswer

            raise CannotAnswer(f"{one.name}: this report needs a verdict with its detail.")
        yield one


def summary(verdicts: Iterable[Verdict]) -> str:
    """What was checked, and how it stands, in a line."""
    from loopwright.diagnostics.reports.plain import Totals

    return Totals(*verdicts).summary()


def overview(cards: Iterable[Card], *, title: str = "All patterns", summary: str = "") -> str:
    """The page of a whole repository, as HTML, from what each pattern says of itself
    (``Pattern.card``), with a line at its head that sums it up."""
    from loopwright.rendering import overview as make

    return make(title, summary, tuple(cards))


# ------------------------------------------------------------------ what there is
def codes() -> tuple[str, ...]:
    """The code of every message that there is, by group."""
    from loopwright.diagnostics.catalogue import by_group

    return tuple(code for codes in by_group().values() for code in codes)


def describe(code: str) -> Described:
    """What is documented of a code. Raises ``CannotAnswer`` for one that there is not."""
    from loopwright.explaining import explained

    return explained(code)


def explain(code: str | None = None) -> str:
    """What a code means, with a pattern that earns it and the same put right, as text; without a
    code, all of them, each in a line. Raises ``CannotAnswer`` for one that there is not."""
    from loopwright.explaining import every_code, explanation

    return every_code() if code is None else explanation(code)


def standard_measures(group: str = "", *, form: str = "text") -> str:
    """The standard measures of the ``"head"``, the ``"hand"``, the ``"foot"`` or all of them, as
    ``"text"`` or ``"json"``. Raises ``CannotAnswer`` for others."""
    from loopwright.asked import one_of
    from loopwright.rendering import measures as make

    one_of(group, GROUPS, "group of measures")
    return make(group, one_of(form, TABLES, "form"))


def languages() -> tuple[str, ...]:
    """The codes of the languages in which a sheet can be written, English first."""
    from loopwright.rendering import languages as find

    return find()


def house_style(name: str = "plain", text: str | None = None) -> Style:
    """The house style that ships under a name, or the one that a TOML ``text`` describes. Raises
    ``CannotAnswer`` where there is none of that name, or the text is no style."""
    from loopwright.rendering import house_style as find

    return find(name, text)


def pictured(data: bytes) -> tuple[str, int, int] | None:
    """The kind of a picture (``"png"``, ``"jpeg"``, ``"webp"``, ``"gif"``) by its first bytes, and
    how many dots it is wide and high; None where no sheet can show it."""
    from loopwright.rendering import pictured as look

    return look(data)


def can_print() -> bool:
    """Whether the extra ``pdf`` is installed, without which there is no ``Pattern.pdf``."""
    from loopwright.rendering import can_print as look

    return look()
