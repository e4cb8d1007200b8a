"""The report as JUnit XML: a suite for each file, a failed case for each error.

    <testsuites><testsuite name="mittens.crochet" tests="1" failures="1" errors="0" skipped="0">
      <testcase classname="mittens.crochet" name="line 7: count-differs: cuff, row 3">
        <failure type="count-differs" message="...">...</failure>

A piece of advice is a case that passes and says so; a file without messages is one case that
passes. No times are given, so that the same patterns give the same bytes.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from xml.sax.saxutils import escape, quoteattr

from loopwright.diagnostics.model import ERROR
from loopwright.diagnostics.reports.places import heading
from loopwright.diagnostics.text import visible, written
from loopwright.diagnostics.verdict import Message, Verdict


def report(verdicts: Iterable[Verdict], colour: bool) -> Iterator[str]:
    """The whole document."""
    yield '<?xml version="1.0" encoding="UTF-8"?>\n<testsuites name="loopwright">\n'
    for verdict in verdicts:
        yield _suite(verdict)
    yield "</testsuites>\n"


def _suite(verdict: Verdict) -> str:
    name = _attribute(verdict.name)
    tests = max(len(verdict.messages), 1)
    cases = [_case(verdict, name, one) for one in verdict.messages]
    passed = f"  <testcase classname={name} name={_attribute(verdict.title or 'untitled')}/>\n"
    head = f' <testsuite name={name} tests="{tests}" failures="{verdict.errors}"'
    return f'{head} errors="0" skipped="0">\n{"".join(cases) or passed} </testsuite>\n'


def _case(verdict: Verdict, suite: str, one: Message) -> str:
    place = f"{one.place.file}:" if one.place.file else "line "
    told = f"{place}{one.place.line}: {heading(one.code, one.severity, one.part, one.row)}"
    text = escape(written(verdict.name, one))
    if one.severity == ERROR:
        said = f'<failure type="{one.code}" message={_attribute(one.text)}>{text}</failure>'
    else:
        said = f"<system-out>{text}</system-out>"
    return f"  <testcase classname={suite} name={_attribute(told)}>{said}</testcase>\n"


def _attribute(text: str) -> str:
    """A quoted attribute; what XML cannot hold is spelled out."""
    return quoteattr(visible(text))
