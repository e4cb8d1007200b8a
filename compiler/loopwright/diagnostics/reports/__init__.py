"""Reports on verdicts: each takes them one after another and gives pieces of text, so that it never
holds more than one; the same verdicts give the same bytes.

    for piece in report("sarif")(verdicts, False): ...

What is asked for is looked up by its name; the module that makes it is imported then.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from importlib import import_module

from loopwright.diagnostics.verdict import Verdict

Report = Callable[[Iterable[Verdict], bool], Iterator[str]]

REPORTS = ("text", "json", "sarif", "junit", "github")
NEEDING_DETAIL = ("json",)
"""Those that say what every row comes to, so that the verdicts must have their ``detail``."""

_MODULES = {"text": "plain", "json": "as_json"}


def report(form: str) -> Report:
    """The report of a format: takes verdicts, and whether there may be colour."""
    module = import_module(f"loopwright.diagnostics.reports.{_MODULES.get(form, form)}")
    made: Report = module.report
    return made
