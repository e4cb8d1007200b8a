"""The command line: what was asked, handed to the command that answers it, and what may go wrong
on the way. The commands are in ``checking`` and ``making``."""

from __future__ import annotations

import gc
import sys
from importlib import import_module
from typing import TYPE_CHECKING

from loopwright.plain import plainly
from loopwright.repository.files import CannotLook, why
from loopwright.saying import CANNOT, CLEAN, drop_output, put, say

if TYPE_CHECKING:
    from argparse import Namespace

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
    # Next to nothing of what is made here is ever rubbish, and to look for it while modules are
    # imported takes a thirtieth of a check.
    gc.set_threshold(100_000, 20, 100)
    code = _answer(sys.argv[1:])
    # The process ends here. Python would first look through all that was made for rubbish, which
    # takes an eighth of a check.
    gc.freeze()
    return code


def _answer(given: list[str]) -> int:
    try:
        told = plainly(given) or _understood(given)
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


def _understood(given: list[str]) -> Namespace:
    from loopwright.usage import parser

    return parser(given[0] if given else "").parse_args(given)


def _run(told: Namespace) -> int:
    if told.version:
        from loopwright import __version__

        put(f"loopwright {__version__}\n")
        return CLEAN
    if told.command is None:
        from loopwright.usage import parser

        parser().print_help(sys.stderr)
        return CANNOT
    module = import_module(f"loopwright.{COMMANDS[told.command]}")
    code: int = getattr(module, told.command)(told)
    return code
