"""The phrases of a language that are not as they are written in the code, from its ``.mo`` file.

catalogue_of(data, "[en] ").gettext("row")     rang; or [en] row where it is not there
"""

from __future__ import annotations

from gettext import GNUTranslations, NullTranslations
from io import BytesIO


class _Marked(NullTranslations):
    """What is printed of a phrase that is not in the catalogue: itself, behind a mark."""

    def __init__(self, mark: str) -> None:
        super().__init__()
        self.mark = mark

    def gettext(self, message: str) -> str:
        return self.mark + message

    def ngettext(self, msgid1: str, msgid2: str, n: int) -> str:
        return self.mark + (msgid1 if n == 1 else msgid2)

    def pgettext(self, context: str, message: str) -> str:
        return ""

    def npgettext(self, context: str, msgid1: str, msgid2: str, n: int) -> str:
        return ""


def catalogue_of(data: bytes, mark: str) -> NullTranslations:
    """The catalogue of a file; what is not in it has the ``mark`` before it, where there is one."""
    found = GNUTranslations(BytesIO(data))
    if mark:
        found.add_fallback(_Marked(mark))
    return found
