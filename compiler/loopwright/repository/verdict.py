"""One file's check, from text to verdict. Pure: what it needs is handed in, so that it may run in
another process, and its answer be kept.

    check_one("mittens.crochet", text, used, settings) -> Verdict

The verdict depends on these four, on ``detail`` and on the program, and on nothing else.
"""

from __future__ import annotations

from loopwright.diagnostics.verdict import Verdict
from loopwright.pipeline import Around, check_text
from loopwright.report import verdict
from loopwright.repository.settings import Settings
from loopwright.source import Texts

__all__ = ["Verdict", "around", "check_one"]


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
    result = check_text(name, text, around(used, settings))
    return verdict(result, dict(settings.severities), with_detail=detail)


def around(used: Texts, settings: Settings) -> Around:
    """What a file is checked with."""
    return Around(used, settings.use, settings.house)
