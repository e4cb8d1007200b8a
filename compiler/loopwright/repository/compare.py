"""What changed from the pattern in one file to another."""

from __future__ import annotations

from typing import TYPE_CHECKING

import loopwright
from loopwright.repository.jobs import Desk
from loopwright.repository.wording import language

if TYPE_CHECKING:
    from loopwright import Pattern


def compared(old: str, new: Pattern, terms: str | None, form: str, named: str) -> str:
    """The changes from the file ``old``, in ``terms`` or as the new pattern has them, or in the
    language ``named``. Raises ``CannotLook`` where there is no such language, and ``CannotAnswer``
    where the old one is no pattern at all; that it has faults does not matter."""
    code = language(named, terms)
    before = Desk().job(old).read()
    return loopwright.compare(before, new, terms=(terms or "").upper(), form=form, language=code)
