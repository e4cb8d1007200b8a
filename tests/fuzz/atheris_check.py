"""The fuzzer: mutated patterns, led by which lines of the compiler they reach.

    python tests/fuzz/atheris_check.py --seconds 60

starts from every pattern in the house, and holds that whatever the text is, the checker, its
messages, its report, the layout, `fits`, and, for what is clean, sheets and charts come back with
an answer: no exception, and each within ``MOST_SECONDS``. It ends with 1 where something was
found, and then leaves the inputs in ``--findings``, one for each place in the compiler. Needs
atheris (`pip install .[fuzz]`); without it the run fails, it is not passed over.

The work is done in a process of its own, so that one which is killed for its memory or hangs is
a finding like any other. What is found becomes a test in test_hostile.py.
"""

from __future__ import annotations

import argparse
import hashlib
import os
import random
import re
import subprocess
import sys
import tempfile
import time
import traceback
from collections.abc import Callable
from pathlib import Path
from zlib import crc32

sys.path.insert(0, str(Path(__file__).resolve().parent.parent))

from fuzz.mutate import mutated

TESTS = Path(__file__).resolve().parent.parent
HOUSE = TESTS.parent
SEEDS = ("examples/*.crochet", "tests/worked/*.crochet", "tests/cases/*.crochet")

MOST_SECONDS = 3.0
"""Processor seconds that one question to the compiler may take: two, and a busy machine."""

SLOWED = 5.0
"""How many times longer everything takes while the lines reached are counted."""

LONGEST = 6000
"""Characters of one made-up pattern."""

MOST_MEGABYTES = 2000

# ------------------------------------------------------------------- one input


def questions(text: str, *, some: bool) -> list[tuple[str, Callable[[], object]]]:
    """What is asked of the compiler about a text, each by name; only ``some``, where what takes
    the longest is to be left out."""
    import json

    from loopwright import editing, fitting, pipeline, rendering
    from loopwright.diagnostics.text import message
    from support import whole_report

    result = pipeline.check_text("made-up.crochet", text)
    asked: list[tuple[str, Callable[[], object]]] = [
        ("messages", lambda: [message(result.source, one) for one in result.diagnostics]),
        ("report", lambda: json.dumps(whole_report([result]))),
        ("tidy", lambda: _tidy_twice(text)),
        ("mend", lambda: editing.mend(text)),
        ("fits", lambda: fitting.fits_of("made-up.crochet", text)),
    ]
    checked = result.checked
    if checked is not None and not some:
        for terms in ("UK", "US"):
            asked.append(("sheet", lambda terms=terms: rendering.sheet(checked, terms, "text")))  # type: ignore[misc]
        asked.append(("sizes", lambda: rendering.sizes(checked, "US", "text", rows=True)))
        asked.append(("kit", lambda: rendering.kit(checked, "text", bags=3)))
        asked.append(("schematics", lambda: rendering.schematics(checked, "UK")))
        for part in checked.pattern.parts:
            asked.append(("chart", lambda part=part: rendering.chart(checked, part.name, 0, "UK")))  # type: ignore[misc]
    return asked


def _tidy_twice(text: str) -> None:
    from loopwright.editing import tidy

    once = tidy(text)
    assert tidy(once) == once, "tidying a tidy text changes it"


class TooSlow(Exception):
    """An answer that took longer than ``MOST_SECONDS``."""


def ask(text: str, most: float, *, some: bool = False) -> None:
    """Ask everything; raises where a question has no answer, or not in time."""
    before = time.process_time()
    asked = questions(text, some=some)
    _in_time("check", time.process_time() - before, most)
    for name, question in asked:
        before = time.process_time()
        question()
        _in_time(name, time.process_time() - before, most)


def _in_time(name: str, took: float, most: float) -> None:
    if took > most:
        raise TooSlow(f"{name} took {took:.1f} s")


# ---------------------------------------------------------------------- running


def seeds() -> list[Path]:
    """Every pattern in the house."""
    return sorted(path for one in SEEDS for path in HOUSE.glob(one))


def worker(findings: Path, arguments: list[str]) -> None:
    """Fuzz, in this process, and write down what is found. Does not return."""
    import atheris  # type: ignore[import-not-found]

    with atheris.instrument_imports(include=["loopwright"]):
        import loopwright.editing
        import loopwright.fitting
        import loopwright.judged
        import loopwright.pipeline
        import loopwright.render.chart
        import loopwright.render.sheet
        import loopwright.syntax.tidy  # noqa: F401

    def one_input(data: bytes) -> None:
        text = data.decode("utf-8", "replace")
        try:
            # What is drawn and printed takes ten times as long as the rest: for one in four.
            ask(text, MOST_SECONDS * SLOWED, some=crc32(data) % 4 > 0)
        except Exception as error:
            _keep(findings, data, error)

    lines = sorted({line for path in seeds() for line in path.read_text("utf-8").split("\n")})

    def mutator(data: bytes, longest: int, seed: int) -> bytes:
        """Slips of the pen, a line of another pattern, or, now and then, of single bytes."""
        rng = random.Random(seed)
        if rng.random() < 0.1:
            return bytes(atheris.Mutate(data, longest))
        text = mutated(rng, data.decode("utf-8", "replace"))
        if rng.random() < 0.3:
            ours = text.split("\n")
            ours.insert(rng.randrange(len(ours) + 1), rng.choice(lines))
            text = "\n".join(ours)
        return text.encode("utf-8", "replace")[:longest]

    atheris.Setup([sys.argv[0], *arguments], one_input, custom_mutator=mutator)
    atheris.Fuzz()


def _keep(findings: Path, data: bytes, error: Exception) -> None:
    """Write an input down, unless one that fails at the same place is there already."""
    frames = traceback.extract_tb(error.__traceback__)
    ours = [one for one in frames if "loopwright" in one.filename] or list(frames)
    at = f"{Path(ours[-1].filename).name}:{ours[-1].lineno}"
    what = str(error).split(" took ")[0] if isinstance(error, TooSlow) else at
    name = hashlib.sha256(f"{type(error).__name__} {what}".encode()).hexdigest()[:12]
    slow = "slow-" if isinstance(error, TooSlow) else ""
    kept = findings / f"{slow}{name}.crochet"
    if not kept.exists():
        kept.write_bytes(data)
        told = "".join(traceback.format_exception(error)[-12:])
        kept.with_suffix(".txt").write_text(told, "utf-8")
        print(f"FOUND {kept.name}: {type(error).__name__} at {at}: {error}", flush=True)


def fuzz(seconds: int, findings: Path, corpus: Path, seed: int) -> int:
    """Fuzz for so long; how many findings there are."""
    findings.mkdir(parents=True, exist_ok=True)
    corpus.mkdir(parents=True, exist_ok=True)
    for path in seeds():
        (corpus / path.name).write_bytes(path.read_bytes()[:LONGEST])
    arguments = [
        str(corpus),
        f"-max_total_time={seconds}",
        f"-max_len={LONGEST}",
        f"-timeout={int(MOST_SECONDS * SLOWED * 10)}",
        f"-rss_limit_mb={MOST_MEGABYTES}",
        f"-artifact_prefix={findings}/killed-",
        f"-seed={seed}",
        "-report_slow_units=1000",
        "-print_final_stats=1",
    ]
    command = [sys.executable, __file__, "--worker", str(findings), *arguments]
    done = subprocess.run(command, stderr=subprocess.PIPE, text=True, errors="replace", check=False)
    tried = re.search(r"number_of_executed_units: *(\d+)", done.stderr)
    for slow in findings.glob("slow-*.crochet"):
        _time_again(slow)
    found = sorted(findings.glob("*.crochet")) + sorted(findings.glob("killed-*"))
    if done.returncode or not tried:
        print(done.stderr[-4000:])
        print(f"The fuzzer itself ended with {done.returncode}.")
        return max(len(found), 1)
    print(f"{int(tried[1]):,} patterns tried in {seconds} s, {len(found)} findings.")
    return len(found)


def _time_again(slow: Path) -> None:
    """Drop what was only slow because the lines reached were counted, or the machine was busy."""
    command = [sys.executable, __file__, str(slow)]
    again = subprocess.run(command, capture_output=True, timeout=600, check=False)
    if again.returncode == 0:
        print(f"{slow.name} is answered in time when nothing is counted.")
        slow.unlink()
        slow.with_suffix(".txt").unlink()


def main() -> int:
    """Run from the command line."""
    if sys.argv[1:2] == ["--worker"]:
        worker(Path(sys.argv[2]), sys.argv[3:])
        return 0
    parser = argparse.ArgumentParser(description="Fuzz the compiler.")
    parser.add_argument("--seconds", type=int, default=60)
    parser.add_argument("--findings", type=Path, help="default: a new folder, named at the end")
    parser.add_argument("--corpus", type=Path, help="kept from run to run; default: not kept")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("replay", nargs="*", type=Path, help="only ask about these files")
    told = parser.parse_args()
    if told.replay:
        for path in told.replay:
            ask(path.read_bytes().decode("utf-8", "replace"), MOST_SECONDS)
            print(f"{path}: answered in time")
        return 0
    try:
        import atheris  # noqa: F401
    except ImportError as error:
        print(f"NOTHING WAS FUZZED: atheris cannot be imported ({error}). pip install .[fuzz]")
        return 1
    with tempfile.TemporaryDirectory() as spare:
        findings = told.findings or Path(tempfile.mkdtemp(prefix="loopwright-findings-"))
        found = fuzz(told.seconds, findings, told.corpus or Path(spare), told.seed)
    if found:
        print(f"The inputs are in {findings}.")
    elif told.findings is None:
        os.rmdir(findings)
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main())
