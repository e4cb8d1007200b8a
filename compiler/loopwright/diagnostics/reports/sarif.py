"""The report as SARIF 2.1.0, the OASIS standard that code hosts read.

One run. Every code is a rule of the tool, with its documentation; a message is a result with its
region, the places that matter to it, and its mend as a fix. Columns count characters, as
``columnKind`` says. Fingerprints go by what stands on the line and not by its number, so that a
result is the same one after lines were put in above it.

What GitHub reads of a log, and the most that it takes, is on its page "SARIF support for code
scanning". The fingerprint that it goes by, ``primaryLocationLineHash``, its own upload makes from
the file; it complains of any other, and so there is none here.
"""

from __future__ import annotations

import json
import re
from collections import Counter
from collections.abc import Iterable, Iterator
from hashlib import sha256

from loopwright.diagnostics.catalogue import RULES, Described, described
from loopwright.diagnostics.model import ERROR
from loopwright.diagnostics.reports.places import address
from loopwright.diagnostics.text import in_its_sizes, leads
from loopwright.diagnostics.verdict import Change, Json, Message, Place, Verdict

SCHEMA = "https://json.schemastore.org/sarif-2.1.0-rtm.5.json"
BASE = "SRCROOT"
"""What relative addresses start from: where the program was run."""


def report(verdicts: Iterable[Verdict], colour: bool) -> Iterator[str]:
    """The whole log; results are written as they come."""
    codes = list(RULES)
    head = {"$schema": SCHEMA, "version": "2.1.0"}
    yield _text(head)[:-2] + ',\n "runs": [\n  {\n'
    yield f'   "tool": {_inner(_tool())},\n   "columnKind": "unicodeCodePoints",\n   "results": ['
    begin = "\n    "
    for verdict in verdicts:
        seen: Counter[str] = Counter()
        for one in verdict.messages:
            yield begin + _inner(_result(verdict.name, one, codes, seen))
            begin = ",\n    "
    yield "]\n  }\n ]\n}\n" if begin == "\n    " else "\n   ]\n  }\n ]\n}\n"


def _text(value: object) -> str:
    return json.dumps(value, ensure_ascii=False, indent=1)


def _inner(value: object) -> str:
    return json.dumps(value, ensure_ascii=False)


def _tool() -> Json:
    from loopwright import __version__

    return {
        "driver": {
            "name": "Loopwright",
            "version": __version__,
            "semanticVersion": __version__,
            "rules": [_rule(code) for code in RULES],
        }
    }


def _rule(code: str) -> Json:
    told = described(code)
    error = told.severity == ERROR
    return {
        "id": code,
        "shortDescription": {"text": told.rule},
        "fullDescription": {"text": told.why or told.rule},
        "help": {"text": _help(told, "{}"), "markdown": _help(told, "```text\n{}```\n")},
        "defaultConfiguration": {"level": _level(told.severity)},
        "properties": {
            "tags": [told.group],
            # An error is reckoned, and advice is a likelihood.
            "precision": "very-high" if error else "high",
            "problem.severity": "error" if error else "recommendation",
        },
    }


def _help(told: Described, pattern: str) -> str:
    """The documentation of a rule; ``pattern`` is how a pattern stands in it."""
    breaks, keeps = pattern.format(told.breaks), pattern.format(told.keeps)
    mended = f"A pattern that earns it:\n\n{breaks}\nPut right:\n\n{keeps}"
    return f"{told.why}\n\n{mended}".strip()


def _level(severity: str) -> str:
    return "error" if severity == ERROR else "note"


def _result(name: str, one: Message, codes: list[str], seen: Counter[str]) -> Json:
    told: dict[str, object] = {
        "ruleId": one.code,
        "ruleIndex": codes.index(one.code),
        "level": _level(one.severity),
        "message": {"text": _said(name, one)},
        "locations": [_location(name, one)],
        "partialFingerprints": {"messageAndLine/v1": _fingerprint(name, one, seen)},
    }
    if one.related:
        told["relatedLocations"] = [
            {"id": n, **_at(name, other.place), "message": {"text": other.text}}
            for n, other in enumerate(one.related, 1)
        ]
    if one.edits:
        told["fixes"] = [_fix(name, one)]
    return told


def _said(name: str, one: Message) -> str:
    first = in_its_sizes(one)
    used = [f"Found in {name}, which uses this."] if one.place.file else []
    # A place is led to by its number among those that matter.
    related = (f"[{_as_link(other.text)}]({n})." for n, other in enumerate(one.related, 1))
    return "\n".join((first, *used, *related, *leads(one.hints)))


def _as_link(text: str) -> str:
    """A text between the brackets of a link, where a bracket of its own is marked as one."""
    return re.sub(r"([\\\[\]])", r"\\\1", text)


def _location(name: str, one: Message) -> Json:
    at = _at(name, one.place, one.excerpt)
    named = [word for word in (one.part, one.row) if word]
    if not named:
        return at
    return {**at, "logicalLocations": [{"fullyQualifiedName": "/".join(named), "name": named[-1]}]}


def _at(name: str, place: Place, excerpt: str = "") -> dict[str, object]:
    region = _region(place)
    if excerpt and place.line == place.end_line:
        region = {**region, "snippet": {"text": excerpt[place.column - 1 : place.end_column - 1]}}
    return {"physicalLocation": {"artifactLocation": _artifact(name, place), "region": region}}


def _artifact(name: str, place: Place) -> Json:
    uri = address(place.file or name)
    return {"uri": uri} if uri.startswith("file:") else {"uri": uri, "uriBaseId": BASE}


def _region(place: Place) -> dict[str, object]:
    return {
        "startLine": place.line,
        "startColumn": place.column,
        "endLine": place.end_line,
        "endColumn": place.end_column,
    }


def _fix(name: str, one: Message) -> Json:
    files: dict[str, list[Change]] = {}
    for edit in one.edits:
        files.setdefault(edit.place.file, []).append(edit)
    changes = [
        {
            "artifactLocation": _artifact(name, edits[0].place),
            "replacements": [
                {"deletedRegion": _region(one.place), "insertedContent": {"text": one.text}}
                for one in edits
            ],
        }
        for edits in files.values()
    ]
    said = one.hints[0] if one.hints else one.text
    return {"description": {"text": said}, "artifactChanges": changes}


def _fingerprint(name: str, one: Message, seen: Counter[str]) -> str:
    what = "\x00".join(
        (address(name), one.place.file, one.code, one.part, one.row, one.excerpt.strip())
    )
    seen[what] += 1
    return sha256(f"{what}\x00{seen[what]}".encode("utf-8", "surrogateescape")).hexdigest()[:32]
