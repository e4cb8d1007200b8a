"""For which size, in which language and in whose house style a sheet is to be written, as the
command line says it."""

from __future__ import annotations

from typing import TYPE_CHECKING

import loopwright
from loopwright.frozen import NamedTuple
from loopwright.repository.files import CannotLook, read

if TYPE_CHECKING:
    from argparse import Namespace

    from loopwright import Pattern, Style

ENGLISH = "en"


class Wording(NamedTuple):
    """The language of a sheet, and the house style; None is the plain one."""

    language: str = ENGLISH
    style: Style | None = None


PLAIN = Wording()


def worded(told: Namespace) -> Wording:
    """What the command line says of both. Raises ``CannotLook``."""
    return Wording(language(told.language, getattr(told, "terms", None)), style(told.style))


def in_size(pattern: Pattern, name: str | None) -> Pattern:
    """A pattern in the size of that name alone, or in all of its sizes. Raises ``CannotAnswer``."""
    return pattern if name is None else pattern.only(name)


def language(name: str, terms: str | None = None) -> str:
    """A language by its code. Raises ``CannotLook`` where there is none, and where ``terms`` are
    asked for as well, though only English has a choice of them."""
    code = name.lower()
    if code != ENGLISH and code not in loopwright.languages():
        there = ", ".join(loopwright.languages())
        raise CannotLook(f"there is no language `{name}`; there is {there}.")
    if code != ENGLISH and terms:
        raise CannotLook("--terms is UK or US English; another language has terms of its own.")
    return code


def style(name: str) -> Style | None:
    """A house style that ships, or one from a file of one's own; None is the plain one, for which
    no file has to be read. Raises ``CannotLook``."""
    if name == "plain":
        return None
    if not name.endswith(".toml"):
        try:
            return loopwright.house_style(name)
        except loopwright.CannotAnswer as error:
            raise CannotLook(f"{error} A style of your own ends in .toml.") from None
    text = read(name)
    try:
        return loopwright.house_style(name, text)
    except loopwright.CannotAnswer as error:
        raise CannotLook(f"{name}: {error}") from None
