"""Loopwright: a compiler for crochet patterns.

    loopwright.check(text) -> Verdict        loopwright.sheet(text, terms="US") -> str
    loopwright.chart(text) -> Chart          loopwright.measure(text) -> Measured

docs/api.md has every name that is promised. They are imported when they are first asked for, so
that the command line starts as fast as it can.
"""

from __future__ import annotations

import sys
from types import ModuleType
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from loopwright.api import (
        Change,
        Chart,
        House,
        Length,
        Measured,
        Message,
        PatternError,
        Place,
        Remark,
        Settings,
        Verdict,
        YarnTaken,
        chart,
        check,
        measure,
        sheet,
    )

__version__ = "0.1.0"
__all__ = [
    "Change",
    "Chart",
    "House",
    "Length",
    "Measured",
    "Message",
    "PatternError",
    "Place",
    "Remark",
    "Settings",
    "Verdict",
    "YarnTaken",
    "__version__",
    "chart",
    "check",
    "measure",
    "sheet",
]


def __getattr__(name: str) -> Any:
    if name in __all__:
        from loopwright import api

        return getattr(api, name)
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")


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
