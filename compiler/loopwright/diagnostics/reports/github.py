"""The report as annotations of GitHub Actions: workflow commands, one line a message.

    ::error file=mittens.crochet,line=7,endLine=7,col=12,endColumn=20,title=count-differs::...

The form is that of GitHub's "Workflow commands" page: in what follows `::`, `%` and line ends are
written as `%25`, `%0D`, `%0A`; in the properties before it `:` and `,` as well.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from posixpath import normpath

from loopwright.diagnostics.model import ERROR
from loopwright.diagnostics.reports.places import heading
from loopwright.diagnostics.reports.plain import Totals
from loopwright.diagnostics.text import in_its_sizes, leads, visible
from loopwright.diagnostics.verdict import Message, Verdict


def report(verdicts: Iterable[Verdict], colour: bool) -> Iterator[str]:
    """An annotation for each message, and the summary for the log."""
    totals = Totals()
    for verdict in verdicts:
        totals.add(verdict)
        if verdict.messages:
            yield "".join(annotation(verdict.name, one) for one in verdict.messages)
    yield f"{totals.summary()}\n"


def annotation(name: str, one: Message) -> str:
    """One message as a workflow command, with its line end."""
    place = one.place
    properties = {
        "file": normpath(place.file or name),
        "line": str(place.line),
        "endLine": str(place.end_line),
        "title": heading(one.code, one.severity, one.part, one.row),
    }
    if place.line == place.end_line:
        # Columns are taken on one line only, and the end is the last that belongs to it.
        properties["col"] = str(place.column)
        properties["endColumn"] = str(max(place.end_column - 1, place.column))
    told = ",".join(f"{key}={_property(value)}" for key, value in properties.items())
    command = "error" if one.severity == ERROR else "notice"
    return f"::{command} {told}::{_data(text_of(name, one))}\n"


def text_of(name: str, one: Message) -> str:
    """What a message says, without its place, in lines."""
    lines = [in_its_sizes(one)]
    if one.place.file:
        lines.append(f"Found in {name}, which uses this.")
    for other in one.related:
        lines.append(f"{other.place.file or 'Line'} {other.place.line}: {other.text}.")
    return "\n".join(visible(line) for line in (*lines, *leads(one.hints)))


def _data(text: str) -> str:
    return text.replace("%", "%25").replace("\r", "%0D").replace("\n", "%0A")


def _property(text: str) -> str:
    return _data(text).replace(":", "%3A").replace(",", "%2C")
