"""Kills runs at random points, and says what is not whole afterwards: nothing, it is hoped.

    python killing.py FOLDER TIMES SEED

A run is made by a fork of this process, which has everything in memory, so that most kills fall
into the work and not into the start of Python. Each kind of run is killed as often as the others:
``check`` with a cache, ``check --write-baseline``, and ``tidy`` of files whose layout is to change.
What is wrong is printed, a line each; at the end, how many runs were killed before they were done.
"""

from __future__ import annotations

import os
import shutil
import signal
import sqlite3
import sys
import time
from pathlib import Path
from random import Random

from loopwright import cache_folder, editing
from loopwright.cli import main
from loopwright.repository.baseline import read_baseline

LEAST, MOST = 0.002, 0.6
"""Seconds after which a run is killed, as far as it lasts so long."""


def run(arguments: list[str], wait: float | None) -> bool:
    """Run the command line in a fork; kill it after a while. Whether it was killed."""
    pid = os.fork()
    if not pid:
        sink = os.open(os.devnull, os.O_WRONLY)
        os.dup2(sink, 1)
        os.dup2(sink, 2)
        main(arguments)
        os._exit(0)
    if wait is not None:
        time.sleep(wait)
        os.kill(pid, signal.SIGKILL)
    _, status = os.waitpid(pid, 0)
    return os.WIFSIGNALED(status)


class Killing:
    """Runs on one folder, and what they leave."""

    def __init__(self, folder: Path, seed: int) -> None:
        self.house = folder / "house"
        self.baseline = folder / "baseline.json"
        self.texts = {path: path.read_bytes() for path in sorted(self.house.rglob("*.crochet"))}
        self.tidied = {
            path: editing.tidy(text.decode()).encode() for path, text in self.texts.items()
        }
        assert all(text != self.texts[path] for path, text in self.tidied.items())
        self.rng = Random(seed)
        self.killed = 0
        home = cache_folder()
        assert home is not None
        self.home = Path(home)

    def kill(self, *arguments: str) -> None:
        wait = LEAST * (MOST / LEAST) ** self.rng.random()
        self.killed += run([*arguments, str(self.house)], wait)

    def check(self) -> None:
        """The cache must be a database without a fault, and may know any number of files."""
        if self.rng.random() < 0.3:
            shutil.rmtree(self.home, ignore_errors=True)
        self.kill("check", "--workers", str(self.rng.choice((1, 1, 2))))
        for store in self.home.glob("verdicts-*.sqlite"):
            base = sqlite3.connect(store)
            (answer,) = base.execute("PRAGMA integrity_check").fetchone()
            base.close()
            if answer != "ok":
                print("cache:", answer)

    def write(self) -> None:
        """The baseline must be the one of before, or the new one, whole."""
        before = self.rng.choice((None, b'{"loopwright-baseline": 1, "messages": [\n\n]}\n'))
        if before is None:
            self.baseline.unlink(missing_ok=True)
        else:
            self.baseline.write_bytes(before)
        self.kill("check", "--workers", "1", "--write-baseline", str(self.baseline))
        if self.baseline.exists() and self.baseline.read_bytes() != before:
            found = read_baseline(str(self.baseline)).left.total()
            if found < 1:
                print("baseline:", found)
        elif before is not None and not self.baseline.exists():
            print("baseline: gone")

    def tidy(self) -> None:
        """Each file must be as it was, or as it is to be."""
        for path, text in self.texts.items():
            path.write_bytes(text)
        self.kill("tidy")
        for path, text in self.texts.items():
            if path.read_bytes() not in (text, self.tidied[path]):
                print("tidy:", path)


def kill(folder: Path, times: int, seed: int) -> None:
    """Kill so many runs, then let one of each kind come to its end."""
    killing = Killing(folder, seed)
    for turn in range(times):
        (killing.check, killing.write, killing.tidy)[turn % 3]()
    for path, text in killing.texts.items():
        path.write_bytes(text)
    run(["tidy", str(killing.house)], None)
    if any(path.read_bytes() != text for path, text in killing.tidied.items()):
        print("tidy: not all is tidy at the end")
    run(["check", "--write-baseline", str(killing.baseline), str(killing.house)], None)
    left = [*folder.rglob("*.part"), *folder.rglob(".*.part")]
    if left:
        print("half-written:", *left)
    print(killing.killed, "killed")


if __name__ == "__main__":
    kill(Path(sys.argv[1]), int(sys.argv[2]), int(sys.argv[3]))
