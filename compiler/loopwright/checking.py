"""The command ``check``: which files, with what known already, and in which form it is told."""

from __future__ import annotations

import gc
from typing import TYPE_CHECKING

import loopwright
from loopwright.repository.files import ENDING, CannotLook
from loopwright.saying import CANNOT, CLEAN, FAULTS, coloured, put, say

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

    if (told.write_baseline or "").endswith(ENDING) and not told.paths:
        from loopwright.repository.baseline import no_baseline

        raise no_baseline(told.write_baseline)
    which = Choice(told.changed, told.staged, told.shard, told.skip_excluded)
    paths = chosen(told.paths, which)
    _collect_seldom(len(paths))
    unread: list[str] | None = [] if len(paths) > 1 else None
    if told.mend:
        _mend(paths)
    how = How(told.format in loopwright.NEEDING_DETAIL, told.workers, not told.no_cache)
    progress = Progress(len(paths) > 1 and on_terminal())
    found = progress.of(verdicts(paths, how, unread), len(paths))
    if told.write_baseline is not None:
        code = _write_baseline(found, told)
    else:
        known = _baseline(told)
        code = _report(known.without(found) if known else found, told, progress)
        if known and known.told():
            say(known.told())
    for one in unread or ():
        say(f"loopwright: {one}")
    return CANNOT if unread else code


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
    from loopwright.repository.files import handed
    from loopwright.repository.finding import usual_baseline

    if told.out is not None or told.format != "text":
        raise CannotLook("--write-baseline writes no report: leave out -o and --format.")
    given = next((path for path in told.paths if handed(path)), None)
    if given is not None:
        raise CannotLook(f"--write-baseline is for what is known of files, and {given} is not one.")
    path = told.write_baseline or told.baseline or usual_baseline()
    many, kept = write_baseline(path, found)
    put(
        f"{path}: {many:,} {'message' if many == 1 else 'messages'} written down as known"
        f"{f', {kept:,} of them of files not looked at this time' if kept else ''}.\n"
    )
    return CLEAN


def _report(found: Iterable[Verdict], told: Namespace, progress: Progress) -> int:
    """Print verdicts in a format, or write them; the exit code."""
    errors = 0
    form: str = told.format

    def counted() -> Iterator[Verdict]:
        nonlocal errors
        for one in found:
            errors += one.errors
            yield one

    pieces = loopwright.report(counted(), form, colour=told.out is None and coloured())
    if told.out is not None:
        from loopwright.repository.files import answer_to

        answer_to(told.out, pieces, told.paths)
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
    """Make the safe edits in every file that can be read, and show them."""
    from contextlib import suppress
    from difflib import unified_diff

    from loopwright.repository.files import CannotRead, handed, write
    from loopwright.repository.jobs import Desk

    given = next((path for path in paths if handed(path)), None)
    if given is not None:
        raise CannotLook(f"--mend changes files, and {given} is not one.")
    desk = Desk()
    jobs = []
    for path in paths:
        with suppress(CannotRead):  # the check says why
            jobs.append((path, desk.job(path)))
    mended = [(path, job.text, job.mended()) for path, job in jobs]
    for path, old, new in mended:
        if new != old:
            write(path, new)
            diff = unified_diff(_lines(old), _lines(new), path, path, "", "", 1, "")
            put("\n".join(loopwright.visible(line) for line in diff) + "\n\n")


def _lines(text: str) -> list[str]:
    """The lines of a text, whichever way they end."""
    return text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
