"""What ``sheet`` answers: the written pattern in a form, or on paper; or a sentence why not."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING

import loopwright
from loopwright.frozen import NamedTuple
from loopwright.repository.beside import NO_PICTURE, Beside, beside, link
from loopwright.repository.files import CannotLook
from loopwright.repository.wording import PLAIN, Wording

if TYPE_CHECKING:
    from argparse import Namespace

    from loopwright import Drawing, Pattern


class Paper(NamedTuple):
    """The paper, ``a4`` or ``letter``, and whether the print is large."""

    size: str
    large: bool = False


def paper(told: Namespace, wanted: bool, how: str) -> Paper | None:
    """The paper of a PDF where one is wanted. ``how`` it would be asked for is said to whom asks
    for paper alone. Raises ``CannotLook``."""
    if not wanted:
        if told.paper or told.large:
            given = "--large-print" if told.large else "--paper"
            raise CannotLook(f"{given} is for a PDF; ask for one with {how}.")
        return None
    ready()
    if told.out is None and sys.stdout is not None and sys.stdout.isatty():
        raise CannotLook("a PDF cannot be read here; say where it goes, as in `-o mittens.pdf`.")
    return Paper(told.paper or "a4", told.large)


def ready() -> None:
    """Whether a PDF can be made. Raises ``CannotLook`` with the command that helps."""
    if not loopwright.can_print():
        from loopwright.repository.extras import command

        raise CannotLook(
            "a PDF is set by a library that is not installed here. Install it with\n"
            f"  {command('pdf')}\n"
            "and ask again; --form html gives a page that prints without it."
        )


def written(
    pattern: Pattern, terms: str, told: Namespace, on: Paper | None, words: Wording
) -> tuple[str | bytes, list[str]]:
    """The sheet in the form that is asked for, or on paper; and why it has not its picture, where
    it has not. Raises ``CannotLook``."""
    form = told.form
    picture = NO_PICTURE if form == "text" else beside(told.file, pattern)
    # A page shows the charts; in words they are long, and say what the rows say.
    draws = form in ("html", "pdf")
    charts = pattern.charts(terms=terms, language=words.language) if draws else ()
    if on is None:
        how = {"picture": picture.data, "link": link(picture, told.out), **words._asdict()}
        made = pattern.sheet(terms=terms, form=form, charts=charts, **how)
        return made, list(picture.troubles)
    data, troubles = printed(pattern, terms, on, charts, words, picture)
    return data, [*picture.troubles, *troubles]


def printed(
    pattern: Pattern,
    terms: str,
    on: Paper,
    charts: tuple[Drawing, ...],
    words: Wording = PLAIN,
    picture: Beside = NO_PICTURE,
) -> tuple[bytes, list[str]]:
    """The sheet as a PDF, and why the picture is not in it where it could not be set, damaged as it
    may be within. Raises ``CannotLook``."""
    how = {"paper": on.size, "large": on.large, **words._asdict()}
    troubles = []
    if picture.data:
        try:
            return pattern.pdf(terms=terms, charts=charts, picture=picture.data, **how), []
        except loopwright.CannotAnswer as error:
            troubles.append(f"{picture.path}: this picture is left out of the PDF: {error}")
    try:
        return pattern.pdf(terms=terms, charts=charts, **how), troubles
    except loopwright.CannotAnswer as error:
        raise CannotLook(f"the PDF cannot be made: {error}") from None
