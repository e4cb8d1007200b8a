"""What there is to say of one pattern, as plain data: every report is a rendering of it.

    Verdict(name="mittens.crochet", title="Breakwater Mittens", ..., messages=(Message(...),))

A verdict holds lines and columns, not offsets, and neither pattern nor fabric: it can be sent to
another process, kept on disc, and printed without the text at hand.
"""

from __future__ import annotations

from collections.abc import Mapping

from loopwright.diagnostics.model import ADVICE, ERROR, Diagnostic, Edit
from loopwright.frozen import Frozen
from loopwright.source import Source, Span

Json = Mapping[str, object]


class Place(Frozen):
    """A stretch of a file: lines and columns from 1, columns in characters, the end the place
    after the last character. ``file`` is empty for the pattern's own file, and otherwise the name
    of the file that it uses."""

    line: int
    column: int
    end_line: int
    end_column: int
    file: str = ""


class Remark(Frozen):
    """Another place that matters to a message, and why."""

    place: Place
    text: str


class Change(Frozen):
    """A change of the text that mends what a message is about: what stands at ``place`` is
    replaced by ``text``. ``safe`` where it cannot change what the designer meant."""

    place: Place
    text: str
    safe: bool = False


class Message(Frozen):
    """A diagnostic with its places found: fields as those of ``Diagnostic``; ``excerpt`` is the
    line of text that it stands in, whole, without its line end."""

    code: str
    severity: str
    place: Place
    excerpt: str
    text: str
    hints: tuple[str, ...] = ()
    part: str = ""
    row: str = ""
    sizes: tuple[str, ...] = ()
    related: tuple[Remark, ...] = ()
    edits: tuple[Change, ...] = ()


class Verdict(Frozen):
    """All that is known of one pattern file after checking it.

    ``sizes``, ``rows`` and ``stitches`` are how many were worked (rows and stitches of all sizes
    together; nought where it could not be worked). ``detail`` is there only where it was asked for:
    ``terms``, ``sizes``, ``counts`` and ``rows`` as docs/report.schema.json has them. ``known`` is
    how many errors are not among the messages, because a baseline knows them.
    """

    name: str
    title: str
    sizes: int
    rows: int
    stitches: int
    messages: tuple[Message, ...]
    detail: Json | None = None
    known: int = 0

    @property
    def clean(self) -> bool:
        """Whether there is no error; advice alone is clean."""
        return not self.errors

    @property
    def errors(self) -> int:
        """How many of the messages are errors."""
        return sum(one.severity == ERROR for one in self.messages)

    @property
    def advice(self) -> int:
        """How many of the messages are advice."""
        return sum(one.severity == ADVICE for one in self.messages)


def located(source: Source, one: Diagnostic) -> Message:
    """A diagnostic with its places found in the text that it is about."""
    file, at = source.at(one.span.start)
    line, _ = file.position(at)
    return Message(
        one.code,
        one.severity,
        place(source, one.span),
        file.line(line),
        one.text,
        one.hints,
        one.part,
        one.row,
        one.sizes,
        tuple(Remark(place(source, other.span), other.text) for other in one.related),
        tuple(_change(source, edit) for edit in one.edits),
    )


def _change(source: Source, edit: Edit) -> Change:
    return Change(place(source, edit.span), edit.text, edit.safe)


def place(source: Source, span: Span) -> Place:
    """Where a stretch of offsets stands."""
    file, start = source.at(span.start)
    end = max(start + span.end - span.start, start)
    name = "" if file is source else file.name
    return Place(*file.position(start), *file.position(end), name)
