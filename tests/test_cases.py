"""Case files: small patterns, each with the messages that it must give, and no others.

A case ends with one line for each message, in the order in which they are printed:

    # expect: CODE at LINE "UNDERLINED"
    # expect: CODE at LINE:COLUMN "UNDERLINED" in SIZE, SIZE

where UNDERLINED is the stretch of that line that the message points at, and the sizes are those
that it names. A case that keeps a rule says so instead, and must give no message at all:

    # keeps: CODE

A case with a line `# house` is held to every rule of a house as well. What a case uses is in
shared/.

What the messages say is in golden/, source and messages together; to write those anew after a
change of wording, run this file, and read what changed as a designer would.
"""

from __future__ import annotations

import re
from pathlib import Path
from typing import NamedTuple

import pytest

from loopwright.checks.house import EVERY_RULE
from loopwright.diagnostics import RULES, Diagnostic
from loopwright.diagnostics.text import message
from loopwright.pipeline import Around, Result, check_text
from loopwright.repository.jobs import Desk
from support import CASES, TESTS, text_of

GOLDEN = TESTS / "golden"
EXPECT = re.compile(r'# expect: ([a-z-]+) at (\d+)(?::(\d+))? "(.*)"(?: in (.+))?')
by_case = pytest.mark.parametrize("path", CASES, ids=lambda path: path.stem)


class Expected(NamedTuple):
    """A message as a case names it; ``column`` is nought where the case does not say."""

    code: str
    line: int
    column: int
    underlined: str
    sizes: tuple[str, ...]


def checked(path: Path) -> Result:
    """A case's result."""
    job = Desk().job(str(path))
    rules = EVERY_RULE if re.search("^# house$", job.text, re.MULTILINE) else job.settings.house
    return check_text(path.name, text_of(path), Around(job.used, house=rules))


def expected(text: str) -> list[Expected]:
    """The messages that a case names."""
    out = []
    for line in text.splitlines():
        if line.startswith("# expect"):
            found = EXPECT.fullmatch(line)
            assert found, f"not a way to expect a message: {line}"
            code, at, column, underlined, sizes = found.groups()
            names = tuple(sizes.split(", ")) if sizes else ()
            out.append(Expected(code, int(at), int(column or 0), underlined, names))
    return out


def kept(text: str) -> list[str]:
    """The codes that a case keeps."""
    return re.findall(r"^# keeps: ([a-z-]+)$", text, re.MULTILINE)


def given(result: Result, one: Diagnostic, *, column: bool) -> Expected:
    """A message as a case would name it."""
    source, start = result.source.at(one.span.start)
    line, at = source.position(start)
    end = start + one.span.end - one.span.start
    underlined = source.text[start:end].split("\n")[0].rstrip()
    return Expected(one.code, line, at if column else 0, underlined, one.sizes)


@by_case
def test_a_case_gives_its_messages_and_no_others(path: Path) -> None:
    text = text_of(path)
    wanted = expected(text)
    result = checked(path)
    columns = [one.column > 0 for one in wanted] + [False] * len(result.diagnostics)
    found = [
        given(result, one, column=column)
        for one, column in zip(result.diagnostics, columns, strict=False)
    ]
    assert found == wanted


@by_case
def test_a_case_says_what_it_is_for(path: Path) -> None:
    text = text_of(path)
    assert bool(expected(text)) != bool(kept(text))
    for code in [one.code for one in expected(text)] + kept(text):
        assert code in RULES


@pytest.mark.parametrize("code", RULES)
def test_every_code_has_cases_both_ways(code: str) -> None:
    texts = [text_of(path) for path in CASES]
    assert any(code == one.code for text in texts for one in expected(text))
    assert any(code in kept(text) for text in texts)


@by_case
def test_the_words_are_those_that_were_read(path: Path) -> None:
    if not expected(text_of(path)):
        assert not golden(path).exists()
    else:
        assert golden(path).read_text("utf-8") == told(path)


def test_no_golden_file_is_without_its_case() -> None:
    assert {path.stem for path in GOLDEN.glob("*.txt")} <= {path.stem for path in CASES}


def golden(path: Path) -> Path:
    """Where the words of a case are kept."""
    return GOLDEN / f"{path.stem}.txt"


def told(path: Path) -> str:
    """A case's source and its messages, one under the other."""
    text = text_of(path)
    numbered = "\n".join(
        f"{n:>3} {line}".rstrip()
        for n, line in enumerate(text.splitlines(), 1)
        if not line.startswith("# expect")
    )
    result = checked(path)
    words = "\n\n".join(message(result.source, one) for one in result.diagnostics)
    return f"{numbered}\n\n{words}\n"


if __name__ == "__main__":
    for old in GOLDEN.glob("*.txt"):
        old.unlink()
    for case in CASES:
        if expected(text_of(case)):
            golden(case).write_text(told(case), "utf-8")
