"""What changed from the pattern in one file to another."""

from __future__ import annotations

from loopwright import pipeline
from loopwright.ir.checked import Checked
from loopwright.repository.files import CannotLook, read


def compared(old: str, new: Checked, terms: str | None, form: str) -> str:
    """The changes from the file ``old``, in ``terms`` or as the new pattern has them. Raises
    ``CannotLook`` where the old one is no pattern at all; that it has faults does not matter."""
    result = pipeline.check_text(old, read(old))
    if result.pattern is None:
        raise CannotLook(
            f"{old}: this pattern cannot be understood, so that nothing can be compared; "
            "`loopwright check` says why."
        )
    return pipeline.compare(result, new, (terms or new.pattern.terms).upper(), form)
