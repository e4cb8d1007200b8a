"""What changed from the pattern in one file to another."""

from __future__ import annotations

from typing import TYPE_CHECKING

import loopwright
from loopwright.repository.jobs import Desk

if TYPE_CHECKING:
    from loopwright import Pattern


def compared(old: str, new: Pattern, terms: str | None, form: str) -> str:
    """The changes from the file ``old``, in ``terms`` or as the new pattern has them. Raises
    ``CannotLook``, and ``CannotAnswer`` where the old one is no pattern at all; that it has faults
    does not matter."""
    before = Desk().job(old).read()
    return loopwright.compare(before, new, terms=(terms or "").upper(), form=form)
