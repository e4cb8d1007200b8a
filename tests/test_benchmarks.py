"""The benchmarks run, and print a ratio for each of their questions. How high, no test asks."""

from __future__ import annotations

import os
import re
import subprocess
import sys

from support import HOUSE

LINE = re.compile(r"^(.{58}) +([0-9.]+)   aim ([0-9.]+) +\(", re.MULTILINE)


def test_the_benchmarks_run() -> None:
    done = subprocess.run(
        [sys.executable, "-m", "tests.benchmarks", "--quick", "--here"],
        cwd=HOUSE,
        env={**os.environ, "PYTHONPATH": ""},
        capture_output=True,
        text=True,
        timeout=120,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    found = [(float(ratio), aim) for _, ratio, aim in LINE.findall(done.stdout)]
    aims = ["9", "12", "0.1", "2", "2", "1.1", "1.3", "1.3", "2", "1.1", "4", "4.4", "2"]
    assert [aim for _, aim in found] == aims, done.stdout
    assert all(ratio > 0 for ratio, _ in found)
