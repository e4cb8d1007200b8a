"""A pattern that was read and worked once, and everything that is made of it.

mittens = loopwright.read(text, name="mittens.crochet")
if mittens.comes_out:
    page = mittens.sheet(terms="US", form="html", charts=mittens.charts(terms="US"))
    child = mittens.only("child").chart(part="thumb").svg
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING

from loopwright.answers import Chart, Drawing, PatternError
from loopwright.asked import CannotAnswer, one_of
from loopwright.diagnostics.verdict import Verdict
from loopwright.frozen import Frozen, field, replace
from loopwright.ir.checked import Checked
from loopwright.judged import NONE, PLAIN, Settings, around, verdict
from loopwright.pipeline import Around, Result, check_text
from loopwright.source import Texts

if TYPE_CHECKING:
    from fractions import Fraction

    from loopwright.bagged import Bag
    from loopwright.diagnostics.card import Card, Link
    from loopwright.fitting import Fit
    from loopwright.measured import Measured
    from loopwright.render.prose.style import Style

NAME = "pattern.crochet"
TERMS = ("", "UK", "US")
KINDS = ("", "symbols", "grid")
SHEETS = ("text", "markdown", "html")
CHARTS = ("svg", "text")
PAPERS = ("a4", "letter")
TABLES = ("text", "json")
KITS = ("text", "csv", "json")
NOTICES = ("text", "markdown", "json")
ENGLISH = "en"
MOST_BAGS = 1_000_000


class Pattern(Frozen):
    """A pattern's ``text`` under its ``name``, worked in every one of its ``sizes`` (names, none
    where they cannot be told), and the ``verdict`` on it. Made by ``read``.

    Methods that make something of it raise ``PatternError`` where it does not come out, and
    ``CannotAnswer`` where there is no such thing as is asked for. ``terms`` are ``"UK"``, ``"US"``
    or, empty, those that it is written in.
    """

    name: str
    text: str
    sizes: tuple[str, ...]
    verdict: Verdict
    _around: Around
    _result: Result = field(compare=False)

    @property
    def title(self) -> str:
        """Its title; empty where there is none."""
        return self.verdict.title

    @property
    def terms(self) -> str:
        """``"UK"`` or ``"US"``, as it is written; empty where that cannot be told."""
        return self._result.pattern.terms if self._result.pattern else ""

    @property
    def parts(self) -> tuple[str, ...]:
        """The names of its parts, in its order."""
        pattern = self._result.pattern
        return tuple(one.name for one in pattern.parts) if pattern else ()

    @property
    def counts(self) -> Mapping[str, tuple[int, ...]]:
        """Its counts by their names, each with its values in the order of the sizes."""
        pattern = self._result.pattern
        return {one.name: one.values for one in pattern.counts} if pattern else {}

    @property
    def texts(self) -> Mapping[str, str]:
        """What its lines of free text say, by their labels (``designer``, ``skill``, ``about``,
        ``licence`` ...), on one line each and in the terms that it is written in."""
        from loopwright.rendering import free_texts

        pattern = self._result.pattern
        return free_texts(pattern) if pattern else {}

    @property
    def picture(self) -> str:
        """The file of its picture, as written; empty where it names none."""
        pattern = self._result.pattern
        return pattern.picture[0] if pattern and pattern.picture else ""

    @property
    def comes_out(self) -> bool:
        """Whether every row of every size comes out and no error was found, so that things can be
        made of it. A file that is there for patterns to use has nothing to come out."""
        return self._result.checked is not None

    def only(self, size: str) -> Pattern:
        """The pattern in the size of that name alone; what is made of it speaks of no other. The
        verdict stays that on the whole."""
        from loopwright.rendering import one_size

        checked = self._checked()
        which = self.sizes.index(one_of(size, self.sizes, "size"))
        alone = one_size(checked, which)
        made = replace(self._result, pattern=alone.pattern, fabrics=alone.fabrics, checked=alone)
        return replace(self, sizes=alone.pattern.sizes, _result=made)

    # ------------------------------------------------------------------ written

    def sheet(
        self,
        *,
        terms: str = "",
        form: str = "text",
        charts: Iterable[Drawing] = (),
        picture: bytes = b"",
        link: str = "",
        language: str = ENGLISH,
        style: Style | None = None,
    ) -> str:
        """The written pattern for all sizes, as ``"text"``, ``"markdown"`` or ``"html"`` (one page
        that needs nothing else). ``charts`` are drawings to set into it; ``picture`` is the
        pattern's picture, which a page shows, and ``link`` what Markdown calls it by; ``language``
        one of ``languages()``; ``style`` a house's, from ``house_style``."""
        from loopwright import rendering

        checked = self._checked()
        one_of(form, SHEETS, "form")
        return rendering.sheet(
            checked,
            self._in(terms),
            form,
            tuple(charts),
            picture=picture,
            link=link,
            language=_spoken(language),
            style=style,
        )

    def pdf(
        self,
        *,
        terms: str = "",
        paper: str = "a4",
        large: bool = False,
        charts: Iterable[Drawing] = (),
        picture: bytes = b"",
        language: str = ENGLISH,
        style: Style | None = None,
    ) -> bytes:
        """The written pattern as a PDF on ``"a4"`` or ``"letter"`` paper, in ``large`` print where
        that is asked for; the rest as for ``sheet``. ``CannotAnswer`` too where it cannot be set,
        as with a picture that is damaged, ``ImportError`` where the extra ``pdf`` is missing."""
        from loopwright import rendering

        checked = self._checked()
        one_of(paper, PAPERS, "paper")
        return rendering.pdf(
            checked,
            self._in(terms),
            paper,
            tuple(charts),
            large=large,
            picture=picture,
            language=_spoken(language),
            style=style,
        )

    # ------------------------------------------------------------------ drawn

    def chart(
        self,
        *,
        part: str = "",
        size: str = "",
        terms: str = "",
        kind: str = "",
        form: str = "svg",
        rows: tuple[int, int] | None = None,
        whole: bool = False,
        language: str = ENGLISH,
    ) -> Chart:
        """The chart of a part in a size, the first of each where none is named, as ``"svg"`` or
        told row by row as ``"text"``. ``kind`` is ``"symbols"`` or ``"grid"``, the chart of
        squares; without one it is that of squares where the part is filet or colourwork. ``rows``
        are the numbers of the first and the last to be shown; ``whole`` leaves out no repeat;
        ``language`` is one of ``languages()``."""
        from loopwright import rendering

        checked = self._checked()
        one_of(kind, KINDS, "kind")
        one_of(form, CHARTS, "form")
        part, size, which = self._place(part, size)
        shown = _rows(checked, part, which, rows)
        refused = "" if kind == "symbols" else rendering.no_grid(checked, part, which, shown)
        if refused and kind == "grid":
            raise CannotAnswer(refused)
        kind = "symbols" if refused or kind == "symbols" else "grid"
        made = rendering.chart(
            checked,
            part,
            which,
            self._in(terms),
            kind=kind,
            form=form,
            whole=whole,
            rows=shown,
            source=self._result.source,
            language=_spoken(language),
        )
        drawn, told = ("", made) if form == "text" else (made, "")
        return Chart(part, size, kind, drawn, self.parts, self.sizes, told)

    def chart_kinds(self, *, part: str = "", size: str = "") -> tuple[str, ...]:
        """The kinds of chart that a part has in a size: ``"symbols"``, and ``"grid"`` where it is
        filet or colourwork."""
        from loopwright import rendering

        checked = self._checked()
        part, _, which = self._place(part, size)
        return rendering.chart_kinds(checked, part, which)

    def charts(self, *, terms: str = "", language: str = ENGLISH) -> tuple[Drawing, ...]:
        """The charts of every part, of every kind and size, to be set into a sheet in these terms
        or that ``language``: one for all sizes that are drawn alike."""
        from loopwright import rendering

        drawn = rendering.charts(self._checked(), self._in(terms), _spoken(language))
        return tuple(Drawing(*one) for one in drawn)

    def schematics(self, *, terms: str = "", language: str = ENGLISH) -> tuple[Drawing, ...]:
        """The outline of every part that has a size, with its lengths; titles are the parts'."""
        from loopwright import rendering

        drawn = rendering.schematics(self._checked(), self._in(terms), _spoken(language))
        return tuple(Drawing(*one) for one in drawn)

    # ------------------------------------------------------------------ reckoned

    def measure(self) -> Measured:
        """How large each part comes out and what yarn each size takes, as far as the gauge
        tells."""
        from loopwright.measured import measured

        return measured(self._checked())

    def finished_sizes(self, *, terms: str = "", form: str = "text", rows: bool = False) -> str:
        """What every part comes out at in every size, as ``"text"`` (with every row where
        ``rows``) or ``"json"``."""
        from loopwright import rendering

        one_of(form, TABLES, "form")
        return rendering.sizes(self._checked(), self._in(terms), form, rows=rows)

    def kit(self, *, form: str = "text", bags: int = 0, margin: Fraction | None = None) -> str:
        """What yarn each size takes and what goes in the bag, as ``"text"``, ``"csv"`` or
        ``"json"``; and what to dye or order for so many ``bags``, with ``margin`` more yarn for
        them (``Fraction(1, 10)`` is a tenth; without one, the pattern's)."""
        from loopwright import rendering

        one_of(form, KITS, "form")
        _can_be_made_up(bags, margin)
        return rendering.kit(self._checked(), form, bags, margin)

    def bag(self, *, bags: int = 0, margin: Fraction | None = None) -> Bag:
        """The same as values: everything in the bag, what it costs, and what to order."""
        from loopwright.bagged import bagged

        _can_be_made_up(bags, margin)
        return bagged(self._checked(), bags, margin)

    def fits(self) -> tuple[Fit, ...]:
        """Which values of each count come out, all else as written. The pattern need not come
        out."""
        from loopwright.fitting import fits_of

        return fits_of(self.name, self.text, self._around)

    def card(self, links: Iterable[Link] = ()) -> Card:
        """What the overview of a repository says of the pattern, which need not come out, with
        links to what was made of it."""
        from loopwright.cards import card as make

        taken = self.measure() if self.comes_out else None
        return make(self._result.pattern, self.verdict, taken, tuple(links))

    # ------------------------------------------------------------------ asked for

    def _checked(self) -> Checked:
        """The pattern, as something can be made of it."""
        if self._result.checked is None:
            raise PatternError(verdict(self._result))
        return self._result.checked

    def _in(self, terms: str) -> str:
        """The terms asked for."""
        return one_of(terms, TERMS, "terms") or self.terms

    def _place(self, part: str, size: str) -> tuple[str, str, int]:
        """The part and the size asked for, and the number of the size."""
        part = one_of(part or self.parts[0], self.parts, "part")
        size = one_of(size or self.sizes[0], self.sizes, "size")
        return part, size, self.sizes.index(size)


def read(text: str, *, name: str = NAME, used: Texts = NONE, settings: Settings = PLAIN) -> Pattern:
    """Read a pattern and work it in every size, once for all that is then made of it. Never raises
    for what stands in a text; the arguments are those of ``check``."""
    beside = around(used, settings)
    result = check_text(name, text, beside)
    sizes = result.pattern.sizes if result.pattern else ()
    return Pattern(name, text, sizes, verdict(result, settings), beside, result)


def compare(
    old: Pattern, new: Pattern, *, terms: str = "", form: str = "text", language: str = ENGLISH
) -> str:
    """What changed for a maker from one edition to another, as ``"text"``, ``"markdown"`` (a notice
    to post) or ``"json"``; ``terms`` are, empty, those of the new one, ``language`` one of
    ``languages()``. The old one need not come out.

    Raises ``PatternError`` where the new one does not come out, ``CannotAnswer`` where the old one
    cannot be understood at all, and for other terms or forms.
    """
    from loopwright import rendering

    checked = new._checked()
    one_of(form, NOTICES, "form")
    one_of(terms, TERMS, "terms")
    if old._result.pattern is None:
        raise CannotAnswer(
            f"{old.name}: this pattern cannot be understood, so that nothing can be compared; "
            "`loopwright check` says why."
        )
    missing = _missing(old)
    said = terms or new.terms
    return rendering.compare(old._result, checked, said, form, _spoken(language), missing)


def _missing(pattern: Pattern) -> tuple[str, ...]:
    """The files that a pattern uses, itself or through another one, and that were not given."""
    from loopwright.pipeline import used_by
    from loopwright.source import beside

    around = pattern._around
    named = (beside("", one) or one for one in used_by(pattern.text))
    keys = dict.fromkeys((*around.also, *named, *around.used))
    return tuple(key for key in keys if not isinstance(around.used.get(key), str))


def _rows(
    checked: Checked, part: str, size: int, rows: tuple[int, int] | None
) -> tuple[int, int] | None:
    """The rows asked for, which are rows of the part; a setup row goes with the first."""
    from loopwright.rendering import row_numbers

    if rows is None:
        return None
    first, last = row_numbers(checked, part, size)
    low, high = rows
    if low < first or high > last or high < low:
        some = f"row {last}" if first == last else f"rows {max(first, 1):,} to {last:,}"
        wrong = f"{low:,}" if low == high else f"{low:,} to {high:,}"
        raise CannotAnswer(f"the part {part} has {some}, not {wrong}.")
    return (min(first, low), high) if low == 1 else (low, high)


def _can_be_made_up(bags: int, margin: Fraction | None) -> None:
    """Raise ``CannotAnswer`` for a number of bags, or a margin, that there cannot be."""
    if not 0 <= bags <= MOST_BAGS:
        raise CannotAnswer(f"there are no {bags:,} bags; there can be {MOST_BAGS:,} at most.")
    if margin is not None and margin < 0:
        raise CannotAnswer("a margin is something more, and so not less than nothing.")


def _spoken(language: str) -> str:
    """The language asked for."""
    from loopwright.rendering import languages

    return language if language == ENGLISH else one_of(language, languages(), "language")
