"""For which size, in which language and in whose house style a sheet is to be written, as the
command line says it."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from loopwright.ir.checked import Checked
from loopwright.repository.files import CannotLook, read

if TYPE_CHECKING:
    from argparse import Namespace

    from loopwright.pipeline import Style

ENGLISH = "en"
_FOLDER = "languages"
_ROOM = "loopwright.render.prose"


class Wording(NamedTuple):
    """The language of a sheet, and the house style; None is the plain one."""

    language: str = ENGLISH
    style: Style | None = None


PLAIN = Wording()


def worded(told: Namespace) -> Wording:
    """What the command line says of both. Raises ``CannotLook``."""
    code = language(told.language)
    if code != ENGLISH and getattr(told, "terms", None):
        raise CannotLook("--terms is UK or US English; another language has terms of its own.")
    return Wording(code, style(told.style))


def in_size(checked: Checked, name: str | None) -> Checked:
    """A pattern in the size of that name alone, or in all of its sizes. Raises ``CannotLook``."""
    from loopwright import pipeline

    if name is None:
        return checked
    sizes = checked.pattern.sizes
    if name not in sizes:
        raise CannotLook(f"there is no size `{name}`; there is {', '.join(sizes)}.")
    return pipeline.one_size(checked, sizes.index(name))


def languages() -> list[str]:
    """The languages there are: English, and each that has its files."""
    from importlib.resources import files

    found = files(_ROOM).joinpath(_FOLDER).iterdir()
    return [ENGLISH, *sorted(one.name[:-5] for one in found if one.name.endswith(".toml"))]


def language(name: str) -> str:
    """A language by its code. Raises ``CannotLook`` where there is none."""
    code = name.lower()
    if code != ENGLISH and code not in languages():
        raise CannotLook(f"there is no language `{name}`; there is {', '.join(languages())}.")
    return code


def style(name: str) -> Style:
    """A house style that ships, or one from a file of one's own. Raises ``CannotLook``."""
    from loopwright.pipeline import CannotFollow, house_style

    if not name.endswith(".toml"):
        try:
            return house_style(name)
        except CannotFollow as error:
            raise CannotLook(f"{error} A style of your own ends in .toml.") from None
    text = read(name)
    try:
        return house_style(name, text)
    except CannotFollow as error:
        raise CannotLook(f"{name}: {error}") from None
