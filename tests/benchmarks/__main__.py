"""What a check costs, as ratios against a baseline that is measured in the same run.

    python -m tests.benchmarks

Nine questions, with what they should come to:

1. How long does ``loopwright check`` of a pattern of 60 lines take from nothing, against a bare
   start of Python? It is asked of an installed wheel in a fresh environment, with byte code. (9)
   And how long does a PDF of six pages take, from the text on? (12) It is the sheet of one size of
   a hat; that of all its five sizes, which has ten pages and a chart of each, is told beside it,
   and so are what the typesetter alone takes of both, given what it sets, what the shorter takes to
   import alone, and how long the sheet of all sizes takes as text and as a page; these have no aim.
2. How long does a whole check take, against Lark's parse of the same lines? In three sizes, where
   every row is worked three times for being parsed once, and in one. (2)
3. Does a blanket of 10^12 stitches take longer than one of 10^3? (1.1)
4. Does a line take longer in a pattern that is 10, 100, 1,000 times as long? (1.3) It grows by
   parts from ten lines, and by the rows of one part from a hundred.
5. How long does measuring take in every size (finished sizes, ease, shape, yarn), against the
   check? (2) And in a blanket of 10^12 stitches against one of 10^6? (1.1)
6. How long does drawing the 10,000 placed symbols of a chart take, against the naive string work
   of writing 10,000 path elements? (4) Placing them is told beside it, and has no aim.
7. How much more memory do four times as many symbols take, placed and drawn? (4.4)
8. How many seconds does ``fits`` take for the counts of the mittens? (2)
9. How long does an overview of the examples take with nothing changed, against the first? (0.1)

Each figure is the median of runs that take turns, so that whatever else the machine does weighs on
both alike; no run finds anything that an earlier one kept, and none is interrupted to collect
rubbish, which the command does not do either. Nothing is asserted: a slow machine is no fault.
``--rounds N`` changes how often, ``--quick`` makes everything small, and ``--here`` measures the
environment that is already there.
"""

from __future__ import annotations

import argparse
import gc
import os
import pickle
import shutil
import subprocess
import sys
import tempfile
import time
import tracemalloc
from collections.abc import Callable
from pathlib import Path
from statistics import median
from typing import Any
from unittest import mock

import typst
from loopwright.grammar import GRAMMAR
from pypdf import PdfReader

from loopwright.fitting import fits_of
from loopwright.measure import dimensions
from loopwright.measure.yarn import needed
from loopwright.pipeline import check_text
from loopwright.render.chart import chart, svg
from loopwright.rendering import charts
from loopwright.rendering import one_size as one_of_its_sizes
from loopwright.rendering import pdf as set_pdf
from loopwright.syntax import parser
from loopwright.syntax.lines import START_RULES, read_lines
from loopwright.syntax.tables import lark_of
from loopwright.work import known

from .patterns import (
    LONG_SHEET,
    SHORT_SIZE,
    SIXTY_LINES,
    blanket,
    blanket_with_gauge,
    cloth,
    one_size,
    parts,
    rows,
)

HOUSE = Path(__file__).parents[2]
SOURCES = ("compiler", "grammar", "pyproject.toml", "README.md")


def medians(rounds: int, **runs: Callable[[], object]) -> dict[str, float]:
    """The median seconds of each run; they take turns, after one turn that does not count."""
    taken: dict[str, list[float]] = {name: [] for name in runs}
    for _ in range(rounds + 1):
        for name, run in runs.items():
            forget()
            gc.collect()
            begun = time.perf_counter()
            run()
            taken[name].append(time.perf_counter() - begun)
    return {name: median(times[1:]) for name, times in taken.items()}


def forget() -> None:
    """Forget everything that one check leaves for the next."""
    parser.forget()
    known.forget()


def say(what: str, took: float, base: float, aim: float | None = None) -> None:
    """One line: the ratio, what it should be, and the milliseconds behind it."""
    figures = f"{took * 1000:.1f} ms / {base * 1000:.1f} ms"
    wanted = "no aim  " if aim is None else f"aim {aim:<4}"
    print(f"{what:<58} {took / base:6.2f}   {wanted} ({figures})", flush=True)


# ------------------------------------------------------------------ 1: from nothing
def cold(rounds: int, commands: Path, cache: Path) -> None:
    """A whole check from the command line, against a bare start of the same Python."""
    env = {key: value for key, value in os.environ.items() if not key.startswith("PYTHON")}
    env["XDG_CACHE_HOME"] = str(cache)

    def run(*command: str | Path) -> Callable[[], object]:
        return lambda: subprocess.run(command, env=env, stdout=subprocess.DEVNULL, check=True)

    sheet = (commands / "loopwright", "sheet", LONG_SHEET)
    long, short = (cache.with_name(f"{name}-sheet.pdf") for name in ("long", "short"))
    one_size = ("--size", SHORT_SIZE, "--paper", "letter")
    kept = [cache.with_name(name) for name in ("typeset", "typeset-short")]
    typeset_files(kept[0], "", "a4")
    typeset_files(kept[1], SHORT_SIZE, "letter")
    short_sheet = (*sheet[1:], "--form", "pdf", *one_size, "-o", short)
    modules = cache.with_name("modules")
    for _ in range(2):  # what is made anew only once imports far more
        run(commands / "python", "-c", IMPORTED, modules, *short_sheet)()
    runs = {
        "bare": run(commands / "python", "-c", "pass"),
        "check": run(commands / "loopwright", "check", SIXTY_LINES),
        "short": run(sheet[0], *short_sheet),
        "short alone": run(commands / "python", "-c", ALONE, kept[1]),
        "imports": run(commands / "python", "-c", IMPORTS, modules),
        "long": run(*sheet, "--form", "pdf", "-o", long),
        "long alone": run(commands / "python", "-c", ALONE, kept[0]),
        "text": run(*sheet),
        "page": run(*sheet, "--form", "html"),
    }
    for each in runs.values():
        each()  # the first writes byte code, the parser's tables, and what an inch is
    took = medians(rounds, **runs)
    pages = {name: len(PdfReader(path).pages) for name, path in (("short", short), ("long", long))}
    say("cold check of 60 lines / bare start of Python", took["check"], took["bare"], 9)
    for name, aim in (("short", 12), ("long", None)):
        words = f"cold PDF of {pages[name]} pages / bare start of Python"
        say(words, took[name], took["bare"], aim)
        say("  its typesetter alone, start and all / the same", took[f"{name} alone"], took["bare"])
    say("  what the shorter imports alone, start and all / the same", took["imports"], took["bare"])
    say("  the longer sheet as text / the same", took["text"], took["bare"])
    say("  the longer sheet as a page / the same", took["page"], took["bare"])


IMPORTED = """
import sys
from loopwright.cli import main
main(sys.argv[2:])
names = [one for one in sys.modules if one.partition(".")[0] not in ("__main__", "typing")]
open(sys.argv[1], "w").write("\\n".join(names))
"""
IMPORTS = """
import sys
import typing
for name in open(sys.argv[1]).read().split():
    __import__(name)
"""
"""Which modules a command imports, and to import these and do nothing with them."""

ALONE = """
import pickle, sys, typst
files, folder, standard = pickle.load(open(sys.argv[1], "rb"))
fonts = typst.Fonts(include_system_fonts=False, font_paths=[folder])
typst.compile(files, format="pdf", font_paths=fonts, ignore_system_fonts=True,
    pdf_standards=[standard], timestamp=0)
"""
"""What the typesetter does of a PDF, and nothing of ours."""


def typeset_files(path: Path, size: str, paper: str) -> None:
    """Keep what is handed to the typesetter of the pattern with a long sheet, in a size or all."""
    found: list[dict[str, bytes]] = []
    compile_ = typst.compile

    def seen(files: dict[str, bytes], **how: Any) -> Any:
        found.append(files)
        return compile_(files, **how)

    checked = check_text("long sheet", LONG_SHEET.read_text("utf-8")).checked
    assert checked is not None
    if size:
        checked = one_of_its_sizes(checked, checked.pattern.sizes.index(size))
    with mock.patch.object(typst, "compile", seen):
        set_pdf(checked, "UK", paper, charts(checked, "UK"))
    fonts = str(HOUSE / "compiler" / "loopwright" / "render" / "sheet" / "pdf" / "fonts")
    path.write_bytes(pickle.dumps((found[-1], fonts, "ua-1")))


def fresh(folder: Path) -> Path:
    """A new environment with the package installed; its folder of commands."""
    source = folder / "source"
    source.mkdir()
    for name in SOURCES:
        if (HOUSE / name).is_dir():
            shutil.copytree(HOUSE / name, source / name, ignore=shutil.ignore_patterns("*.pyc"))
        else:
            shutil.copy(HOUSE / name, source / name)
    subprocess.run([sys.executable, "-m", "venv", folder / "venv"], check=True)
    commands = folder / "venv" / ("Scripts" if os.name == "nt" else "bin")
    env = {key: value for key, value in os.environ.items() if not key.startswith("PYTHON")}
    install = [commands / "python", "-m", "pip", "install", "-qq", f"{source}[pdf]"]
    subprocess.run(install, env=env, check=True)
    return commands


# ------------------------------------------------------------------ 2: against the parse
def against_parse(rounds: int) -> None:
    """A whole check in one process, nothing kept from one to the next, against the parse."""
    three = SIXTY_LINES.read_text("utf-8")
    for what, text in (("in 3 sizes", three), ("in 1 size", one_size(three))):
        assert check_text(what, text).clean
        parse, check = parsing(text), checking(text)
        took = medians(rounds, parse=parse, check=check)
        say(f"check of 60 lines {what} / Lark's parse", took["check"], took["parse"], 2)


def checking(text: str, often: int = 1) -> Callable[[], object]:
    """A whole check, or several that know nothing of each other."""

    def run() -> None:
        for _ in range(often):
            forget()
            check_text("pattern", text)

    return run


def parsing(text: str) -> Callable[[], object]:
    """Lark's parse of the lines that have a grammar, and nothing else."""
    lark = lark_of(Path(GRAMMAR).read_text("utf-8"), lexer="contextual")
    lines = [(START_RULES[one.label], one.text) for one in read_lines(text) if one.tree]
    return lambda: [lark.parse(line, start=start) for start, line in lines]


# ------------------------------------------------------------------ 3 and 4: growing
def stitches(rounds: int) -> None:
    """The same blanket at 10^3 stitches and at 10^12."""
    small, large = blanket(1), blanket(1_200_000_000)
    few, many = (check_text("blanket", text) for text in (small, large))
    assert few.clean
    assert many.clean
    made = [f"{sum(fabric.stitches for fabric in one.fabrics):.0e}" for one in (many, few)]
    took = medians(rounds, small=checking(small), large=checking(large))
    say(f"blanket of {made[0]} stitches / of {made[1]}", took["large"], took["small"], 1.1)


def lines(rounds: int, most: int) -> None:
    """A line of a pattern that grows, against one of a short pattern that is checked so often that
    it comes to as many lines."""
    for make, what, base, growth in (
        (parts, "parts", 10, (10, 100, 1000)),
        (rows, "rows", 100, (10, 100)),
    ):
        short = make(base)
        for times in growth:
            if times <= most:
                long = make(base * times)
                assert check_text("pier", long).clean
                often = long.count("\n") // short.count("\n")
                took = medians(
                    max(rounds // times, 3), short=checking(short, often), long=checking(long)
                )
                said = f"{times:,} times as many {what} / {base} lines so often"
                say(said, took["long"], took["short"], 1.3)


# ------------------------------------------------------------------ 5: measuring
def measures(rounds: int) -> None:
    """Measuring what was checked, against the check, and against the same of fewer stitches."""
    text = SIXTY_LINES.read_text("utf-8")
    took = medians(rounds, check=checking(text), measure=measuring(text))
    say("measuring 60 lines in 3 sizes / the check", took["measure"], took["check"], 2)
    small, large = (measuring(blanket_with_gauge(times)) for times in (1_000, 1_200_000_000))
    took = medians(rounds, small=small, large=large)
    say("measuring a blanket of 1e+12 stitches / of 1e+06", took["large"], took["small"], 1.1)


def measuring(text: str) -> Callable[[], object]:
    """All that is measured of a pattern that was checked."""
    checked = check_text("pattern", text).checked
    assert checked is not None

    def run() -> None:
        dimensions.measures(checked)
        needed(checked.pattern, checked.fabrics)

    return run


# ------------------------------------------------------------------ 6 and 7: charts
def symbols(rounds: int) -> None:
    """A chart of 10,000 symbols: drawn, and placed, against writing as many plain elements."""
    checked = check_text("cloth", cloth(102)).checked
    assert checked is not None
    drawn = chart(checked, "cloth", 0, whole=True)
    count = len(drawn.symbols)
    took = medians(max(rounds // 4, 3), naive=lambda: elements(count), svg=lambda: svg(drawn, "UK"))
    say(f"drawing {count:,} symbols / writing as many paths", took["svg"], took["naive"], 4)
    begun = time.perf_counter()
    chart(checked, "cloth", 0, whole=True)
    placed = time.perf_counter() - begun
    what = f"placing {count:,} symbols / writing as many paths"
    print(f"{what:<58} {placed / took['naive']:6.2f}   no aim", flush=True)


def elements(count: int) -> str:
    """So many path elements of one post and one bar, in the plainest way."""
    out = []
    for i in range(count):
        x, y = i % 100 * 16.0, i // 100 * 16.5
        out.append(
            f'<path d="M{x:.2f} {y:.2f}L{x:.2f} {y - 14:.2f}M{x - 5:.2f} {y - 14:.2f}'
            f'L{x + 5:.2f} {y - 14:.2f}" fill="none" stroke="#000000" stroke-width="1.2"/>'
        )
    return "\n".join(out)


def memory() -> None:
    """The most memory that placing and drawing takes, four times as many symbols against some."""
    most = []
    for rows_ in (27, 102):
        checked = check_text("cloth", cloth(rows_)).checked
        assert checked is not None
        tracemalloc.start()
        drawn = chart(checked, "cloth", 0, whole=True)
        svg(drawn, "UK")
        most.append((tracemalloc.get_traced_memory()[1], len(drawn.symbols)))
        tracemalloc.stop()
    (few, few_symbols), (many, many_symbols) = most
    what = f"memory of {many_symbols:,} symbols / of {few_symbols:,}"
    print(f"{what:<58} {many / few:6.2f}   aim 4.4  ({many >> 20} MB / {few >> 20} MB)", flush=True)


# ------------------------------------------------------------------ 8: which counts come out
def counts(rounds: int) -> None:
    """Every value of both counts of the mittens that a designer could choose, tried."""
    text = (HOUSE / "examples" / "breakwater-mittens.crochet").read_text("utf-8")
    took = medians(max(rounds // 8, 1), fits=lambda: fits_of("mittens", text))
    say("fits of the mittens / a second", took["fits"], 1.0, 2)


# ------------------------------------------------------------------ 9: the overview
def overviews(rounds: int, command: Path, folder: Path) -> None:
    """An overview into a folder that has nothing, with nothing known, and one of the same again."""
    env = {key: value for key, value in os.environ.items() if not key.startswith("PYTHON")}
    env["XDG_CACHE_HOME"] = str(folder / "overview-cache")
    out = folder / "overview"
    asked = [command, "overview", HOUSE / "examples", "-o", out]

    def again() -> None:
        subprocess.run(asked, env=env, stdout=subprocess.DEVNULL, check=True)

    def first() -> None:
        shutil.rmtree(out, ignore_errors=True)
        shutil.rmtree(env["XDG_CACHE_HOME"], ignore_errors=True)
        again()

    took = medians(max(rounds // 20, 1), first=first, again=again)
    say("an unchanged overview / the first", took["again"], took["first"], 0.1)


def main() -> None:
    """Measure and print."""
    arguments = argparse.ArgumentParser(prog="python -m tests.benchmarks")
    arguments.add_argument("--rounds", type=int, default=40)
    arguments.add_argument("--quick", action="store_true", help="small and rough")
    arguments.add_argument("--here", action="store_true", help="install nothing")
    told = arguments.parse_args()
    gc.disable()
    rounds = 3 if told.quick else told.rounds
    print(f"Python {sys.version.split()[0]}, medians of {rounds} runs in turn")
    with tempfile.TemporaryDirectory() as folder:
        commands = Path(sys.executable).parent if told.here else fresh(Path(folder))
        cold(rounds, commands, Path(folder) / "cache")
        overviews(rounds, commands / "loopwright", Path(folder))
    against_parse(rounds)
    stitches(rounds)
    lines(rounds, 10 if told.quick else 1000)
    measures(rounds)
    symbols(rounds)
    memory()
    counts(rounds)


if __name__ == "__main__":
    main()
