"""What is asked plainly is understood as argparse understands it; what is not, is left to it."""

from __future__ import annotations

import contextlib
import io
import random
from typing import Any

import pytest

from loopwright.arguments import ADD
from loopwright.plain import plainly
from loopwright.usage import parser

VALUES = ["a", "b.crochet", "-", "uk", "US", "pdf", "text", "json", "3", "0", "3-12", "7", "2/3"]
VALUES += ["", "1.5", "child", "head", "E301", "bash", "letter", "svg", "-1", "--", "10%", "HEAD"]


def told(given: list[str]) -> dict[str, Any] | None:
    """What argparse makes of it, or None where it refuses."""
    with (
        contextlib.redirect_stdout(io.StringIO()),
        contextlib.redirect_stderr(io.StringIO()),
        contextlib.suppress(SystemExit),
    ):
        return vars(parser(given[0]).parse_args(given))
    return None


def options(command: str) -> list[str]:
    """All options of a command, as argparse has them."""
    whole = parser(command)
    (commands,) = (one for one in whole._actions if one.choices)
    return sorted(commands.choices[command]._option_string_actions)  # type: ignore[call-overload, index]


@pytest.mark.parametrize("command", ADD)
def test_what_is_asked_plainly_is_what_argparse_reads(command: str) -> None:
    chance = random.Random(command)
    names = options(command)
    plain = refused = 0
    for _ in range(1500):
        words = [
            chance.choice(names if chance.random() < 0.4 else VALUES)
            for _ in range(chance.choice((0, 1, 1, 2, 3, 3, 4, 5, 6)))
        ]
        ours, theirs = plainly([command, *words]), told([command, *words])
        if ours is not None:
            plain += 1
            assert vars(ours) == theirs, words
        refused += theirs is None
    assert plain >= 5
    assert refused > 100


@pytest.mark.parametrize(
    "given",
    [
        ["check", "a", "b"],
        ["check"],
        ["check", "a", "--format", "json", "-o", "out.json", "--skip-excluded"],
        ["sheet", "a", "--form", "pdf", "--paper", "letter", "--size", "baby", "-o", "a.pdf"],
        ["chart", "-o", "a.svg", "a", "--terms", "US", "--rows", "3-12"],
        ["build", "a", "-o", "b"],
        ["compare", "a", "b"],
        ["tidy", "a", "--check"],
        ["explain"],
        ["kit", "a", "--bags", "12", "--margin", "10%"],
    ],
)
def test_this_is_plain(given: list[str]) -> None:
    assert vars(plainly(given)) == told(given)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    "given",
    [
        [],
        ["--help"],
        ["--version"],
        ["chec", "a"],
        ["check", "--help"],
        ["check", "--staged"],
        ["check", "a", "--changed", "HEAD~1"],
        ["sheet"],
        ["sheet", "a", "b"],
        ["sheet", "a", "--form=pdf"],
        ["sheet", "a", "--form", "doc"],
        ["sheet", "a", "--form", "pdf", "--form", "text"],
        ["sheet", "a", "--fo", "pdf"],
        ["sheet", "a", "-o"],
        ["sheet", "a", "-oa.txt"],
        ["sheet", "--", "a"],
        ["chart", "a", "--rows", "x"],
        ["build", "a"],
        ["tidy"],
        ["measures", "arms"],
    ],
)
def test_this_is_argparse_s_to_read(given: list[str]) -> None:
    assert plainly(given) is None
