"""What a pattern answers with where that is more than a text, and that it has none to give."""

from __future__ import annotations

from loopwright.diagnostics.verdict import Verdict
from loopwright.frozen import Frozen, NamedTuple


class Drawing(NamedTuple):
    """A drawing as ``svg``, and its ``title``: what it shows."""

    title: str
    svg: str


class Chart(Frozen):
    """The chart of a ``part`` in a ``size``, of its ``kind``, as ``svg`` or as ``text``, whichever
    was asked for; ``parts`` and ``sizes`` are all that the pattern has, in its order."""

    part: str
    size: str
    kind: str
    svg: str
    parts: tuple[str, ...]
    sizes: tuple[str, ...]
    text: str = ""


class PatternError(ValueError):
    """A pattern of which nothing can be made, because it has errors or is no pattern;
    ``verdict`` says which."""

    def __init__(self, verdict: Verdict) -> None:
        super().__init__(_first(verdict))
        self.verdict = verdict

    def __reduce__(self) -> tuple[type, tuple[Verdict]]:
        return type(self), (self.verdict,)


def _first(verdict: Verdict) -> str:
    errors = [one for one in verdict.messages if one.severity == "error"]
    if not errors:
        return f"{verdict.name}: this file is there for patterns to use, and holds none."
    place = errors[0].place
    return f"{place.file or verdict.name}:{place.line}:{place.column}: {errors[0].text}"
