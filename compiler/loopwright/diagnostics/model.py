"""One message about a pattern, as frozen data.

Text, JSON and any later report are renderers of this one value; nothing in it is phrased for a
particular output.
"""

from __future__ import annotations

from loopwright.frozen import Frozen
from loopwright.source import Span

ERROR = "error"
ADVICE = "advice"


class Related(Frozen):
    """Another place that matters to a message ("round 3 made 37")."""

    span: Span
    text: str


class Edit(Frozen):
    """A change of the text that mends what a message is about: ``span`` is replaced by ``text``.

    ``safe`` where it cannot change what the designer meant; only such edits are ever made for her.
    """

    span: Span
    text: str
    safe: bool = False


class Diagnostic(Frozen):
    """A message: its code, where it stands, and what it says.

    ``span`` is in offsets of the whole file. ``sizes`` names the sizes it happens in, and is empty
    where it is true of the text itself. ``text`` says what was expected and what was found;
    each of ``hints`` is one way to put it right, and ``edits`` is the first of them as a change
    of the text, where it is one.
    """

    code: str
    severity: str
    span: Span
    text: str
    hints: tuple[str, ...] = ()
    part: str = ""
    row: str = ""
    sizes: tuple[str, ...] = ()
    related: tuple[Related, ...] = ()
    edits: tuple[Edit, ...] = ()
