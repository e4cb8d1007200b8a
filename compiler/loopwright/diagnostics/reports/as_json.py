"""The report for other programs, by docs/report.schema.json.

{"files": [{"path", "title", "clean", "terms", "sizes", "counts", "rows", "messages"}],
 "clean", "errors", "advice"}
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from loopwright.diagnostics.verdict import Change, Message, Place, Remark, Verdict


def report(verdicts: Iterable[Verdict], colour: bool) -> Iterator[str]:
    """One object; files are written as they come, and what they come to together at the end."""
    errors = advice = 0
    begin = '{\n "files": ['
    for verdict in verdicts:
        errors += verdict.errors
        advice += verdict.advice
        yield begin + "\n  " + _text(of_file(verdict)).replace("\n", "\n  ")
        begin = ","
    yield "\n ]" if begin == "," else f"{begin}]"
    clean = "false" if errors else "true"
    yield f',\n "clean": {clean},\n "errors": {errors},\n "advice": {advice}\n}}\n'


def _text(value: object) -> str:
    import json

    return json.dumps(value, ensure_ascii=False, indent=1)


def of_file(verdict: Verdict) -> dict[str, object]:
    """The report on one file, as plain data. Its ``detail`` must have been asked for."""
    assert verdict.detail is not None
    return {
        "path": verdict.name,
        "title": verdict.title,
        "clean": verdict.clean,
        **verdict.detail,
        "messages": [_message(one) for one in verdict.messages],
    }


def _message(one: Message) -> dict[str, object]:
    return {
        "code": one.code,
        "severity": one.severity,
        **_place(one.place),
        "part": one.part,
        "row": one.row,
        "sizes": list(one.sizes),
        "text": one.text,
        "hints": list(one.hints),
        "related": [_remark(other) for other in one.related],
        "edits": [_edit(edit) for edit in one.edits],
    }


def _place(place: Place) -> dict[str, object]:
    told: dict[str, object] = {
        "line": place.line,
        "column": place.column,
        "end_line": place.end_line,
        "end_column": place.end_column,
    }
    return told | {"file": place.file} if place.file else told


def _remark(other: Remark) -> dict[str, object]:
    told: dict[str, object] = {"line": other.place.line, "column": other.place.column}
    if other.place.file:
        told["file"] = other.place.file
    return told | {"text": other.text}


def _edit(edit: Change) -> dict[str, object]:
    return _place(edit.place) | {"text": edit.text, "safe": edit.safe}
