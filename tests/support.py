"""What several tests need: where things are, every pattern there is, and the command line run
as a maker runs it."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

from loopwright.diagnostics.reports.as_json import of_file
from loopwright.judged import verdict
from loopwright.pipeline import Result
from loopwright.syntax.lines import cut

TESTS = Path(__file__).parent
HOUSE = TESTS.parent
ROOMS = HOUSE / "compiler" / "loopwright"
EXAMPLES = sorted((HOUSE / "examples").glob("*.crochet"))
SHORE_HOUSE = sorted((HOUSE / "examples" / "shore-house").glob("*.crochet"))
"""Examples that use a file beside them, and need it to be checked."""
WORKED = sorted((TESTS / "worked").glob("*.crochet"))
CASES = sorted((TESTS / "cases").glob("*.crochet"))


def text_of(path: Path) -> str:
    """A pattern's text with its line ends as they are."""
    return path.read_bytes().decode("utf-8")


def begins_at(text: str, line: int) -> int:
    """The line on which the label, row or part begins that a line belongs to."""
    starts = [text.count("\n", 0, start) + 1 for start, _ in cut(text)]
    return max(one for one in starts if one <= line)


def whole_report(results: list[Result]) -> dict[str, object]:
    """What ``check --format json`` prints of several patterns, as data."""
    verdicts = [verdict(result, with_detail=True) for result in results]
    return {
        "files": [of_file(one) for one in verdicts],
        "clean": all(one.clean for one in verdicts),
        "errors": sum(one.errors for one in verdicts),
        "advice": sum(one.advice for one in verdicts),
    }


def file_report(result: Result) -> dict[str, object]:
    """What it prints of one pattern."""
    return of_file(verdict(result, with_detail=True))


def run(*arguments: str, given: bytes = b"", at: Path = HOUSE, **environment: str) -> Outcome:
    """Run the command line in a process of its own, with its output in pipes."""
    env = {key: value for key, value in os.environ.items() if key != "PYTHONDONTWRITEBYTECODE"}
    done = subprocess.run(
        [sys.executable, "-m", "loopwright", *arguments],
        input=given,
        capture_output=True,
        cwd=at,
        env=env | environment,
        timeout=60,
        check=False,
    )
    return Outcome(done.returncode, done.stdout.decode("utf-8"), done.stderr.decode("utf-8"))


class Outcome:
    """What a command answered: its exit code, what it printed, what it complained of."""

    def __init__(self, code: int, out: str, err: str) -> None:
        self.code = code
        self.out = out
        self.err = err

    def __repr__(self) -> str:
        return f"exit {self.code}\n{self.out}\n{self.err}"
