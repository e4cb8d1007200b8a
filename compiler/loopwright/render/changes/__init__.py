"""What changed between two editions: as text for the designer, as a notice for makers, as data.

changes(found, told, "text")        every change, with what it was and what it is
changes(found, told, "markdown")    an erratum, ready to be posted
changes(found, told, "json")        by docs/changes.schema.json
"""

from __future__ import annotations

from loopwright.changes.values import Changes
from loopwright.render.changes import markdown, plain, text
from loopwright.render.changes.told import Texts, Told, seen

FORMS = {"text": text.text, "markdown": markdown.markdown, "json": plain.json_text}


def changes(found: Changes, told: Told, form: str) -> str:
    """The changes as ``text``, ``markdown`` or ``json``; ``told`` are the words of the lines,
    and in whose words it is said."""
    return FORMS[form](seen(found, told), told)


__all__ = ["FORMS", "Texts", "Told", "changes"]
