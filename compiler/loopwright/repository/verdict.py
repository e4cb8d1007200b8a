"""One file's check, from text to verdict. Pure: what it needs is handed in, so that it may run in
another process, and its answer be kept.

    check_one("mittens.crochet", text, used, settings) -> Verdict

The verdict depends on these four, on ``detail`` and on the program, and on nothing else.
"""

from __future__ import annotations

from loopwright import pipeline
from loopwright.diagnostics.model import Diagnostic
from loopwright.diagnostics.verdict import Message, Verdict, located
from loopwright.frozen import replace
from loopwright.pipeline import Result
from loopwright.repository.settings import OFF, Settings
from loopwright.source import Texts

__all__ = ["Verdict", "check_one", "verdict_on"]


def check_one(
    name: str,
    text: str,
    used: Texts,
    settings: Settings,
    *,
    detail: bool = False,
) -> Verdict:
    """Check one file. ``name`` is what messages call it; ``used`` holds the texts of all files
    that it uses, and that those use; ``detail`` asks for what every row comes to as well, which
    takes longer and much more room."""
    return verdict_on(pipeline.check_text(name, text), settings, detail=detail)


def verdict_on(result: Result, settings: Settings, *, detail: bool = False) -> Verdict:
    """The verdict on a checked text."""
    pattern = result.pattern
    fabrics = result.fabrics
    told = None
    if detail:
        from loopwright.report import detail as in_detail

        told = in_detail(result)
    return Verdict(
        result.source.name,
        pattern.title if pattern else "",
        len(fabrics),
        sum(fabric.rows for fabric in fabrics),
        sum(fabric.stitches for fabric in fabrics),
        _messages(result, settings),
        told,
    )


def _messages(result: Result, settings: Settings) -> tuple[Message, ...]:
    if not settings.severities:
        return tuple(located(result.source, one) for one in result.diagnostics)
    weighed = dict(settings.severities)
    kept = (
        _weighed(one, weighed[one.code]) if one.code in weighed else one
        for one in result.diagnostics
    )
    return tuple(located(result.source, one) for one in kept if one.severity != OFF)


def _weighed(one: Diagnostic, severity: str) -> Diagnostic:
    return replace(one, severity=severity)
