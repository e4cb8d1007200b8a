"""What a repository of patterns costs: see the questions below. Run it alone on a quiet machine.

    python -m tests.benchmarks.scale                 # 10,000 patterns; takes a quarter of an hour
    python -m tests.benchmarks.scale --files 1000    # or fewer

1. How long does a whole check take, against Lark's parse of the same files alone? Processor time of
   one process that checks them all, file after file as the command does, in slices that take turns
   with the parse. (2.5) And where nothing is known from one file to the next?
2. How many files a second do one and two processes check, and how much faster are two? (1.7)
   From how many files on do two pay?
3. What does a second run with nothing changed take of the first? (0.1)
4. How much memory is held at the peak, at a tenth of the files (with the largest of all among them)
   and at all of them? (1.1)

Nothing is asserted: a slow machine is no fault. What the figures mean for a million patterns is
worked out in docs/a-million-patterns.md.
"""

from __future__ import annotations

import argparse
import gc
import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from statistics import median

from loopwright.grammar import GRAMMAR

from loopwright.pipeline import Around, Result, check_text
from loopwright.syntax import lines
from loopwright.syntax.lines import START_RULES, read_lines
from loopwright.syntax.tables import lark_of

from .__main__ import forget
from .repositories import generate, house, name_of, text_of, used_by

HOUSE = Path(__file__).parents[2]
SLICE = 50
"""Files that are checked before those of the parse have their turn."""


def say(what: str, figure: float, aim: str, more: str) -> None:
    """One line: a figure, what it should be, and what is behind it."""
    print(f"{what:<62} {figure:8.2f}   {aim:<9} {more}", flush=True)


# ------------------------------------------------------------------ 1: against the parse
def timed(run: Callable[[], object]) -> float:
    """The processor seconds of a run."""
    begun = time.process_time()
    run()
    return time.process_time() - begun


def against_parse(many: int) -> None:
    """Whole checks in one process, against the parse alone."""
    lark = lark_of(Path(GRAMMAR).read_text("utf-8"), lexer="contextual")
    shared = _lines([house()])  # a run meets the file of the house once
    parse = timed(lambda: [lark.parse(line, start=at) for at, line in shared])
    check = alone = 0.0
    characters = many_lines = 0
    for first in range(0, many, SLICE):
        texts = [text_of(1, number) for number in range(first, min(first + SLICE, many))]
        written = _lines(texts)
        gc.collect()
        parse += timed(lambda written=written: [lark.parse(line, start=at) for at, line in written])  # type: ignore[misc]
        check += timed(lambda texts=texts: [_checked(text) for text in texts])  # type: ignore[misc]
        characters += sum(map(len, texts))
        many_lines += sum(text.count("\n") for text in texts)
    few = range(0, many, max(many // 300, 1))
    parse_of_few = 0.0
    for number in few:
        text = text_of(1, number)
        written = _lines([text, *used_by(text).values()])
        forget()
        alone += timed(lambda text=text: _checked(text))  # type: ignore[misc]
        parse_of_few += timed(
            lambda written=written: [lark.parse(line, start=at) for at, line in written]  # type: ignore[misc]
        )
    each = f"({check / many * 1000:.1f} ms / {parse / many * 1000:.1f} ms a file)"
    size = f"{many_lines / many:.0f} lines and {characters / many:,.0f} characters each"
    print(f"{many:,} files, {size}")
    say("whole check / Lark's parse of the same files", check / parse, "aim 2.5", each)
    say("the same, each file as if it were the first", alone / parse_of_few, "", "")


def _checked(text: str) -> Result:
    return check_text("pattern", text, Around(used_by(text)))


def _lines(texts: list[str]) -> list[tuple[str, str]]:
    """The lines that have a grammar, as (start rule, text); cut up without being kept."""
    kept = lines.parse
    lines.parse = kept.__wrapped__  # type: ignore[misc, assignment]
    try:
        return [
            (START_RULES[line.label], line.text)
            for text in texts
            for line in read_lines(text)
            if line.tree
        ]
    finally:
        lines.parse = kept  # type: ignore[misc]


# ------------------------------------------------------------------ 2, 3 and 4: the command
class Ran:
    """A run of the command: seconds by the clock, seconds of processor, megabytes at the peak."""

    def __init__(self, paths: list[str], *options: str, home: Path) -> None:
        env = {key: value for key, value in os.environ.items() if not key.startswith("PYTHON")}
        env["XDG_CACHE_HOME"] = str(home)
        command = [sys.executable, "-m", "loopwright", "check", *options, *paths]
        begun = time.perf_counter()
        run = subprocess.Popen(command, cwd=HOUSE, env=env, stdout=subprocess.DEVNULL)
        self.memory = 0.0
        spent: dict[int, float] = {}
        while run.poll() is None:
            family = [run.pid, *_below(run.pid)]
            self.memory = max(self.memory, held(family))
            for pid in family:
                spent[pid] = max(spent.get(pid, 0.0), processor(pid))
            time.sleep(0.1)
        self.clock = time.perf_counter() - begun
        self.processor = sum(spent.values())
        if run.returncode not in (0, 1):
            raise SystemExit(f"{command} came to {run.returncode}")


def processor(pid: int) -> float:
    """The seconds of processor that a process has taken so far."""
    try:
        fields = Path(f"/proc/{pid}/stat").read_text().rsplit(") ", 1)[1].split()
    except (OSError, IndexError):
        return 0.0
    return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")


def held(family: list[int]) -> float:
    """The megabytes that processes hold, shared ones counted once; nought where the system does
    not tell."""
    total = 0.0
    for one in family:
        try:
            text = Path(f"/proc/{one}/smaps_rollup").read_text()
        except OSError:
            continue
        total += sum(int(line.split()[1]) for line in text.splitlines() if line.startswith("Pss:"))
    return total / 1024


def _below(pid: int) -> list[int]:
    try:
        children = Path(f"/proc/{pid}/task/{pid}/children").read_text().split()
    except OSError:
        return []
    return [one for child in map(int, children) for one in (child, *_below(child))]


def workers(folder: Path, home: Path, rounds: int, many: int) -> Ran:
    """One process and two, in turn; a run of one."""
    base = ["--no-cache", "--workers"]
    one, two = [], []
    for _ in range(rounds):
        one.append(Ran([str(folder)], *base, "1", home=home))
        two.append(Ran([str(folder)], *base, "2", home=home))
    clock = [median(ran.clock for ran in runs) for runs in (one, two)]
    spent = [median(ran.processor for ran in runs) for runs in (one, two)]
    for ran, what, n in ((one[0], "one process", clock[0]), (two[0], "two processes", clock[1])):
        say(f"files a second, {what}", many / n, "", f"({n:.1f} s, {ran.memory:.0f} MB)")
    say("one process / two", clock[0] / clock[1], "aim 1.7", "")
    more = f"(processor: {spent[0]:.1f} s and {spent[1]:.1f} s)"
    say("at best, on two processors that do nothing else", 2 * spent[0] / spent[1], "", more)
    return one[0]


def paying(folder: Path, home: Path, rounds: int, many: int) -> None:
    """From how many files on two processes are faster than one."""
    for files in (8, 16, 32, 64, 128):
        if files > many:
            break
        paths = [str(folder / name_of(number)) for number in range(files)]
        turns = [
            [
                Ran(paths, "--no-cache", "--workers", "1", home=home).clock,
                Ran(paths, "--no-cache", "--workers", "2", home=home).clock,
            ]
            for _ in range(rounds)
        ]
        one, two = (median(turn[at] for turn in turns) for at in (0, 1))
        size = sum(len(text_of(1, number)) for number in range(files))
        more = f"({one:.2f} s / {two:.2f} s, {size:,} characters)"
        say(f"one process / two, for {files} files", one / two, "", more)


def again(folder: Path, home: Path, many: int) -> None:
    """A first run that writes everything down, and a second with nothing changed."""
    first = Ran([str(folder)], home=home)
    second = min((Ran([str(folder)], home=home) for _ in range(3)), key=lambda ran: ran.clock)
    more = f"({second.clock:.2f} s / {first.clock:.2f} s)"
    say("unchanged second run / first", second.clock / first.clock, "aim 0.1", more)
    store = sum(path.stat().st_size for path in home.rglob("verdicts-*"))
    say("bytes kept for a file", store / many, "", f"({store / 1e6:.1f} MB)")
    each = f"({second.clock:.2f} s, {second.memory:.0f} MB)"
    say("files a second where nothing changed", many / second.clock, "", each)


def memory(folder: Path, home: Path, many: int, all_of_them: Ran) -> None:
    """The peak for a tenth of the files and for all, in one process. The largest file is in both:
    what the working of one file takes goes by the file, whatever the number of the others."""
    paths = [folder / name_of(number) for number in range(many)]
    largest = max(paths, key=lambda path: path.stat().st_size)
    some = [*(str(path) for path in paths[: many // 10] if path != largest), str(largest)]
    few = Ran(some, "--no-cache", "--workers", "1", home=home)
    more = f"({all_of_them.memory:.0f} MB / {few.memory:.0f} MB)"
    say("memory for all files / for a tenth", all_of_them.memory / few.memory, "aim 1.1", more)


def main() -> None:
    """Measure and print."""
    arguments = argparse.ArgumentParser(prog="python -m tests.benchmarks.scale")
    arguments.add_argument(
        "--files", "--many", type=int, default=10_000, help="patterns", dest="many"
    )
    arguments.add_argument("--rounds", type=int, default=1, help="of one process and two, in turn")
    told = arguments.parse_args()
    print(f"Python {sys.version.split()[0]}, {os.cpu_count()} processors")
    with tempfile.TemporaryDirectory() as folder:
        patterns, home = Path(folder) / "house", Path(folder) / "home"
        begun = time.perf_counter()
        wrong = generate(patterns, told.many)
        took = time.perf_counter() - begun
        print(f"made {told.many:,} patterns, {len(wrong)} of them wrong, in {took:.1f} s")
        Ran([str(patterns / name_of(0))], home=home)  # writes byte code and the parser's tables
        gc.disable()
        against_parse(told.many)
        gc.enable()
        alone = workers(patterns, home, told.rounds, told.many)
        again(patterns, home, told.many)
        memory(patterns, home, told.many, alone)
        paying(patterns, home, told.rounds, told.many)


if __name__ == "__main__":
    main()
