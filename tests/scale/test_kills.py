"""Runs that are killed, and runs at the same time: what they leave is whole, and the same."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

from benchmarks.repositories import generate
from support import HOUSE, run

KILLING = Path(__file__).with_name("killing.py")


def test_a_hundred_runs_killed_leave_everything_whole(tmp_path: Path) -> None:
    """See ``killing`` for what is killed, and what must be whole."""
    house = tmp_path / "house"
    generate(house, 60)
    for path in house.rglob("*.crochet"):
        path.write_text(path.read_text("utf-8").replace(", ", ",  "), "utf-8")
    env = {**os.environ, "XDG_CACHE_HOME": str(tmp_path / "cache"), "PYTHONPATH": ""}
    done = subprocess.run(
        [sys.executable, KILLING, tmp_path, "100", "1"],
        cwd=HOUSE,
        env=env,
        capture_output=True,
        text=True,
        timeout=600,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    told, _, _ = done.stdout.partition(" killed")
    assert told.isdecimal(), done.stdout
    assert int(told) > 50
    kept = run("check", str(house), XDG_CACHE_HOME=env["XDG_CACHE_HOME"])
    anew = run("check", str(house), "--no-cache", "--workers", "1")
    assert (kept.code, kept.out) == (anew.code, anew.out)


def test_runs_at_once_on_one_cache_agree(tmp_path: Path) -> None:
    generate(tmp_path / "house", 80)
    env = {**os.environ, "XDG_CACHE_HOME": str(tmp_path / "cache")}
    command = [sys.executable, "-m", "loopwright", "check", str(tmp_path / "house"), "--workers"]
    anew = run("check", str(tmp_path / "house"), "--no-cache", "--workers", "1")
    for _ in range(2):
        both = [
            subprocess.Popen(
                [*command, workers],
                cwd=HOUSE,
                env=env,
                stdout=subprocess.PIPE,
                stderr=subprocess.PIPE,
            )
            for workers in ("1", "2", "1")
        ]
        for one in both:
            out, err = one.communicate(timeout=300)
            assert (one.returncode, out.decode(), err) == (1, anew.out, b"")
