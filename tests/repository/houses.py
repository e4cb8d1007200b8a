"""Repositories of patterns to test on, made in a folder."""

from __future__ import annotations

import subprocess
from pathlib import Path

HOUSE = """shared: The shore house
terms: US
yarn slate: "DK wool", 50 g = 110 m, weight 3
hook small: 4 mm
gauge rib: 19 sts and 20 rows to 10 cm in sc, hook small, yarn slate
stitch mussel: (3 dc, ch 1, 3 dc) in next st
"""
STRIP = """pattern: Mussel Strip
terms: UK
use: ../shared/house.crochet
part strip: flat, yarn slate, gauge rib
start: ch 15
row 1: dc in 2nd ch from hook, dc in each ch across = 14 sts
row 2: ch 3, [skip 3 sts, mussel, skip 3 sts] across = 2 mussels
"""
PLAIN = """pattern: Tideline Swatch
terms: UK
part swatch: flat
start: ch 11
row 1: dc in 2nd ch from hook, dc in each ch across = 10 sts
"""
WRONG = PLAIN.replace("= 10 sts", "= 11 sts")


def write(folder: Path, files: dict[str, str]) -> Path:
    """Write files, by their paths from a folder."""
    for name, text in files.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, "utf-8")
    return folder


def git(folder: Path, *arguments: str) -> str:
    """Ask git, as nobody in particular and without this machine's own settings."""
    who = ("-c", "user.name=Tide", "-c", "user.email=tide@shore.invalid", "-c", "core.hooksPath=")
    done = subprocess.run(
        ["git", "-C", str(folder), *who, *arguments],
        capture_output=True,
        text=True,
        timeout=60,
        check=True,
    )
    return done.stdout


def committed(folder: Path) -> None:
    """Put all there is into a first commit, or a further one."""
    if not (folder / ".git").exists():
        git(folder, "init", "-q", "-b", "main")
    git(folder, "add", "-A")
    git(folder, "commit", "-q", "-m", "as it stands")
