"""The command line: what was asked, handed to the command that answers it, and what may go wrong
on the way. The commands are in ``checking`` and ``making``."""

from __future__ import annotations

import gc
import sys
from importlib import import_module
from types import SimpleNamespace
from typing import TYPE_CHECKING, cast

from loopwright.repository.files import CannotLook, why
from loopwright.saying import CANNOT, CLEAN, drop_output, put, say

if TYPE_CHECKING:
    from argparse import Namespace

PLAIN_CHECK: dict[str, object] = {
    "format": "text",
    "mend": False,
    "changed": None,
    "staged": False,
    "shard": None,
    "skip_excluded": False,
    "out": None,
    "workers": 0,
    "no_cache": False,
    "baseline": None,
    "no_baseline": False,
    "write_baseline": None,
}
"""What ``check`` does where no option says otherwise."""


COMMANDS = {
    "check": "checking",
    "overview": "making",
    "sheet": "making",
    "chart": "making",
    "build": "making",
    "compare": "making",
    "fits": "making",
    "sizes": "making",
    "kit": "making",
    "measures": "making",
    "tidy": "making",
    "explain": "making",
    "completion": "making",
}
"""The commands, and the module that each is in; it is imported when it is asked for."""


def main(arguments: list[str] | None = None) -> int:
    """Run the command line; the exit code."""
    if arguments is not None:
        return _answer(arguments)
    code = _answer(sys.argv[1:])
    # The process ends here. Python would first look through all that was made for rubbish, which
    # takes an eighth of a check.
    gc.freeze()
    return code


def _answer(given: list[str]) -> int:
    try:
        told = plain_check(given) or _understood(given)
    except SystemExit as stop:
        return int(stop.code or 0)
    try:
        return _run(told)
    except CannotLook as error:
        say(f"loopwright: {error}")
        return CANNOT
    except BrokenPipeError:
        # Whoever read our output has gone; there is nobody left to tell.
        drop_output()
        return CANNOT
    except OSError as error:
        drop_output()
        say(f"loopwright: the output cannot be written ({why(error)}).")
        return CANNOT
    except KeyboardInterrupt:
        return 130
    except ValueError as error:
        from loopwright import CannotAnswer

        if not isinstance(error, CannotAnswer):
            raise
        say(f"loopwright: {error}")
        return CANNOT


def plain_check(given: list[str]) -> Namespace | None:
    """What is told by ``check PATH...`` without any option: that is asked most often, and to
    import argparse takes almost as long as to start Python."""
    command, *paths = given or [""]
    if command != "check" or not paths or any(one[:1] == "-" and one != "-" for one in paths):
        return None
    told = SimpleNamespace(command=command, version=False, paths=paths, **PLAIN_CHECK)
    return cast("Namespace", told)


def _understood(given: list[str]) -> Namespace:
    from loopwright.arguments import parser

    return parser(given[0] if given else "").parse_args(given)


def _run(told: Namespace) -> int:
    if told.version:
        from loopwright import __version__

        put(f"loopwright {__version__}\n")
        return CLEAN
    if told.command is None:
        from loopwright.arguments import parser

        parser().print_help(sys.stderr)
        return CANNOT
    module = import_module(f"loopwright.{COMMANDS[told.command]}")
    code: int = getattr(module, told.command)(told)
    return code
