"""The command line where it asks in the plainest way, which is how it is mostly asked.

    plainly(["check", "mittens.crochet"])
    plainly(["sheet", "mittens.crochet", "--form", "pdf", "-o", "mittens.pdf"])

To import argparse and to prepare it takes as long as to start Python. Here every option is written
out and has its value after it, and none comes twice; whatever else there is, and whatever may be
wrong, is argparse's to read, from the same declarations.
"""

from __future__ import annotations

from collections.abc import Callable, Collection
from types import SimpleNamespace
from typing import TYPE_CHECKING, Any, cast

from loopwright.arguments import ADD, declare
from loopwright.frozen import NamedTuple

if TYPE_CHECKING:
    from argparse import Namespace


class NotPlain(Exception):
    """This is asked in another way."""


class Argument(NamedTuple):
    """An argument as it is declared, in argparse's words."""

    dest: str
    action: str = "store"
    nargs: str = ""
    type: Callable[[str], object] = str
    choices: Collection[str] = ()
    default: object = None
    required: bool = False

    def read(self, given: str) -> object:
        """The value that is given."""
        value = self.type(given)
        if self.choices and value not in self.choices:
            raise NotPlain
        return value


class Plain:
    """A command that is declared: its options by their names, and what stands without one."""

    def __init__(self) -> None:
        self.options: dict[str, Argument] = {}
        self.others: list[Argument] = []

    def add_parser(self, name: str, **how: Any) -> Plain:
        """The command itself: no more than one is declared."""
        return self

    def add_mutually_exclusive_group(self) -> Plain:
        """Arguments of which one alone may be given; they are not asked plainly."""
        return _Apart(self)

    def add_argument(self, *names: str, dest: str = "", **how: Any) -> None:
        """Declare an argument."""
        how.pop("help", None)
        how.pop("metavar", None)
        how.pop("const", None)
        if how.get("action") == "store_true":
            how["default"] = False
        one = Argument(dest or names[0].lstrip("-").replace("-", "_"), **how)
        if names[0][0] == "-":
            self.options.update(dict.fromkeys(names, one))
        else:
            self.others.append(one)

    def read(self, given: list[str]) -> dict[str, object]:
        """The values of all arguments. Raises ``NotPlain``."""
        told = {one.dest: one.default for one in self.options.values()}
        bare: list[str] = []
        ended = False
        words = iter(given)
        for word in words:
            if word[:1] != "-" or word == "-":
                if ended:
                    raise NotPlain
                bare.append(word)
                continue
            ended = bool(bare)
            one = self.options.get(word)
            if one is None or one.nargs or told[one.dest] is not one.default:
                raise NotPlain
            if one.action == "store_true":
                told[one.dest] = True
                continue
            value = next(words, "-")
            if value[:1] == "-":
                raise NotPlain
            told[one.dest] = one.read(value)
        if any(one.required and told[one.dest] is None for one in self.options.values()):
            raise NotPlain
        return {**told, **self._bare(bare)}

    def _bare(self, given: list[str]) -> dict[str, object]:
        if not self.others:
            if given:
                raise NotPlain
            return {}
        if len(self.others) > 1:
            raise NotPlain
        (one,) = self.others
        if one.nargs in ("*", "+"):
            if one.nargs == "+" and not given:
                raise NotPlain
            return {one.dest: [one.read(word) for word in given]}
        if one.nargs == "?" and not given:
            return {one.dest: one.default}
        if len(given) != 1:
            raise NotPlain
        return {one.dest: one.read(given[0])}


class _Apart(Plain):
    """Arguments that keep their defaults."""

    def __init__(self, of: Plain) -> None:
        self.of = of

    def add_argument(self, *names: str, **how: Any) -> None:
        self.of.add_argument(*names, **{**how, "nargs": "?"})


def plainly(given: list[str]) -> Namespace | None:
    """What is told by arguments that ask plainly; None where they do not."""
    command = given[0] if given else ""
    if command not in ADD:
        return None
    plain = Plain()
    declare(plain, command)
    try:
        told = plain.read(given[1:])
    except Exception:
        return None  # argparse says what is wrong
    return cast("Namespace", SimpleNamespace(command=command, version=False, **told))
