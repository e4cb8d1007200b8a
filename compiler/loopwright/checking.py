"""The command ``check``: which files, with what known already, and in which form it is told."""

from __future__ import annotations

import gc
from typing import TYPE_CHECKING

import loopwright
from loopwright.repository.files import CannotLook
from loopwright.saying import CLEAN, FAULTS, coloured, put, say

if TYPE_CHECKING:
    from argparse import Namespace
    from collections.abc import Iterable, Iterator

    from loopwright import Verdict
    from loopwright.repository.baseline import Baseline
    from loopwright.repository.progress import Progress


def check(told: Namespace) -> int:
    """``loopwright check``."""
    from loopwright.repository.choosing import Choice, chosen
    from loopwright.repository.progress import Progress, on_terminal
    from loopwright.repository.runner import How, verdicts

    paths = chosen(told.paths, Choice(told.changed, told.shard, told.skip_excluded))
    _collect_seldom(len(paths))
    if told.mend:
        _mend(paths)
    how = How(told.format in loopwright.NEEDING_DETAIL, told.workers, not told.no_cache)
    progress = Progress(len(paths) > 1 and on_terminal())
    found = progress.of(verdicts(paths, how), len(paths))
    if told.write_baseline is not None:
        return _write_baseline(found, told)
    known = _baseline(told)
    if known is None:
        return _report(found, told.format, told.out, progress)
    code = _report(known.without(found), told.format, told.out, progress)
    if known.told():
        say(known.told())
    return code


def _collect_seldom(files: int) -> None:
    """A check is over in less time than a collection would take, and leaves next to nothing to
    collect."""
    if files < 50:
        gc.disable()
    else:
        gc.freeze()
        gc.set_threshold(100_000, 20, 100)


def _baseline(told: Namespace) -> Baseline | None:
    """The baseline that is named, or that lies where it belongs."""
    import os

    from loopwright.repository.finding import usual_baseline

    path = told.baseline or ("" if told.no_baseline else usual_baseline())
    if not path or (told.baseline is None and not os.path.isfile(path)):
        return None
    from loopwright.repository.baseline import read_baseline

    return read_baseline(path)


def _write_baseline(found: Iterable[Verdict], told: Namespace) -> int:
    from loopwright.repository.baseline import write_baseline
    from loopwright.repository.finding import usual_baseline

    path = told.write_baseline or told.baseline or usual_baseline()
    many = write_baseline(path, found)
    put(f"{path}: {many:,} {'message' if many == 1 else 'messages'} written down as known.\n")
    return CLEAN


def _report(found: Iterable[Verdict], form: str, out: str | None, progress: Progress) -> int:
    """Print verdicts in a format, or write them; the exit code."""
    errors = 0

    def counted() -> Iterator[Verdict]:
        nonlocal errors
        for one in found:
            errors += one.errors
            yield one

    pieces = loopwright.report(counted(), form, colour=out is None and coloured())
    if out is not None:
        from loopwright.repository.files import write_pieces

        write_pieces(out, pieces)
    elif form == "text":
        for piece in pieces:
            with progress.aside():
                put(piece)
    else:
        from loopwright.repository.files import in_one_piece

        # Half a document is worse than none: nothing is printed until the last file is checked.
        for piece in in_one_piece(pieces):
            put(piece)
    return FAULTS if errors else CLEAN


def _mend(paths: list[str]) -> None:
    """Make the safe edits in every file, and show them."""
    from difflib import unified_diff

    from loopwright.repository.files import handed, write
    from loopwright.repository.jobs import Desk

    given = next((path for path in paths if handed(path)), None)
    if given is not None:
        raise CannotLook(f"--mend changes files, and {given} is not one.")
    desk = Desk()
    jobs = [(path, desk.job(path)) for path in paths]
    mended = [(path, job.text, job.mended()) for path, job in jobs]
    for path, old, new in mended:
        if new != old:
            write(path, new)
            diff = unified_diff(_lines(old), _lines(new), path, path, "", "", 1, "")
            put("\n".join(loopwright.visible(line) for line in diff) + "\n\n")


def _lines(text: str) -> list[str]:
    """The lines of a text, whichever way they end."""
    return text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
