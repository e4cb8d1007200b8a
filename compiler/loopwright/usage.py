"""The command line as argparse reads it: help, what is wrong with what was asked, completion."""

from __future__ import annotations

import argparse
from typing import NoReturn

from loopwright.arguments import declare


class Parser(argparse.ArgumentParser):
    """Arguments; what is wrong with them is said in a sentence, with exit code 2."""

    def error(self, message: str) -> NoReturn:
        self.exit(2, f"{self.prog}: {message}\nTry `{self.prog} --help`.\n")


def parser(asked: str = "") -> Parser:
    """The parser of the command line; of one command alone, where one is ``asked`` for that there
    is."""
    whole = Parser(
        prog="loopwright",
        description="Checks crochet patterns stitch by stitch in every size, and renders them.",
    )
    whole.add_argument("--version", action="store_true", help="print the version")
    declare(whole.add_subparsers(dest="command", metavar="COMMAND"), asked)
    return whole


def completion(shell: str) -> str:
    """A script that lets a shell complete commands, options and files."""
    import shtab

    whole = parser()
    for one in _all_actions(whole):
        if one.metavar in ("FILE", "PATH", "OUT"):
            one.complete = shtab.FILE  # type: ignore[attr-defined]
        elif one.metavar == "DIR":
            one.complete = shtab.DIRECTORY  # type: ignore[attr-defined]
    return str(shtab.complete(whole, shell=shell)).rstrip("\n") + "\n"


def _all_actions(whole: argparse.ArgumentParser) -> list[argparse.Action]:
    out = []
    for one in whole._actions:
        out.append(one)
        if isinstance(one, argparse._SubParsersAction):
            for inner in one.choices.values():
                out += _all_actions(inner)
    return out
