"""Loopwright: a compiler for crochet patterns.

    loopwright.check(text) -> Verdict        loopwright.sheet(text, terms="US") -> str
    loopwright.chart(text) -> Chart          loopwright.measure(text) -> Measured
    loopwright.read(text) -> Pattern         all that is made of a pattern, which is worked once

docs/api.md has every name that is promised; the command line uses no other. They are imported when
they are first asked for, so that it starts as fast as it can.
"""

from __future__ import annotations

import sys
from importlib import import_module
from types import ModuleType
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from loopwright.answers import Chart, Drawing, PatternError
    from loopwright.api import (
        can_print,
        chart,
        check,
        codes,
        describe,
        explain,
        house_style,
        languages,
        measure,
        mend,
        overview,
        pictured,
        report,
        sheet,
        standard_measures,
        summary,
        tidy,
        uses,
    )
    from loopwright.asked import CannotAnswer
    from loopwright.bagged import Bag, Cost, Ordered, Thing
    from loopwright.checks.house import House
    from loopwright.diagnostics.card import Card, Link
    from loopwright.diagnostics.catalogue import Described
    from loopwright.diagnostics.reports import NEEDING_DETAIL, REPORTS
    from loopwright.diagnostics.text import visible, written
    from loopwright.diagnostics.verdict import Change, Message, Place, Remark, Verdict
    from loopwright.fitting import Fit
    from loopwright.judged import Settings
    from loopwright.kept import cache_folder
    from loopwright.measured import EaseFound, Length, Measured, YarnTaken
    from loopwright.pattern import Pattern, compare, read
    from loopwright.render.prose.style import Style
    from loopwright.source import NotRead

__version__ = "0.1.0"
__all__ = [
    "NEEDING_DETAIL",
    "REPORTS",
    "Bag",
    "CannotAnswer",
    "Card",
    "Change",
    "Chart",
    "Cost",
    "Described",
    "Drawing",
    "EaseFound",
    "Fit",
    "House",
    "Length",
    "Link",
    "Measured",
    "Message",
    "NotRead",
    "Ordered",
    "Pattern",
    "PatternError",
    "Place",
    "Remark",
    "Settings",
    "Style",
    "Thing",
    "Verdict",
    "YarnTaken",
    "__version__",
    "cache_folder",
    "can_print",
    "chart",
    "check",
    "codes",
    "compare",
    "describe",
    "explain",
    "house_style",
    "languages",
    "measure",
    "mend",
    "overview",
    "pictured",
    "read",
    "report",
    "sheet",
    "standard_measures",
    "summary",
    "tidy",
    "uses",
    "visible",
    "written",
]

_ELSEWHERE = {
    "NEEDING_DETAIL": "diagnostics.reports",
    "REPORTS": "diagnostics.reports",
    "Bag": "bagged",
    "CannotAnswer": "asked",
    "Card": "diagnostics.card",
    "Change": "diagnostics.verdict",
    "Chart": "answers",
    "Cost": "bagged",
    "Described": "diagnostics.catalogue",
    "Drawing": "answers",
    "EaseFound": "measured",
    "Fit": "fitting",
    "House": "checks.house",
    "Length": "measured",
    "Link": "diagnostics.card",
    "Measured": "measured",
    "Message": "diagnostics.verdict",
    "NotRead": "source",
    "Ordered": "bagged",
    "Pattern": "pattern",
    "PatternError": "answers",
    "Place": "diagnostics.verdict",
    "Remark": "diagnostics.verdict",
    "Settings": "judged",
    "Style": "render.prose.style",
    "Thing": "bagged",
    "Verdict": "diagnostics.verdict",
    "YarnTaken": "measured",
    "cache_folder": "kept",
    "compare": "pattern",
    "read": "pattern",
    "visible": "diagnostics.text",
    "written": "diagnostics.text",
}
"""Names that do not come from ``api``, and where each is."""


def __getattr__(name: str) -> Any:
    if name not in __all__:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    found = getattr(import_module(f"{__name__}.{_ELSEWHERE.get(name, 'api')}"), name)
    globals()[name] = found
    return found


def __dir__() -> list[str]:
    return sorted(__all__)


class _Package(ModuleType):
    """This package. A room of it is called ``measure`` too; importing that must not hide the
    function."""

    @property
    def measure(self) -> Any:
        """``api.measure``."""
        return __getattr__("measure")

    @measure.setter
    def measure(self, room: ModuleType) -> None:
        pass  # the room stays in ``sys.modules``, where every import finds it


sys.modules[__name__].__class__ = _Package
