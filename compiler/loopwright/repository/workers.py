"""The processes that check: started fresh (never a copy of this one at work), so that nothing is
shared but the files handed over; they end with the process that started them, however it ends.
"""

from __future__ import annotations

import gc
import multiprocessing
import os
import signal
import threading
from concurrent.futures.process import BrokenProcessPool, ProcessPoolExecutor
from multiprocessing import connection

from loopwright import Verdict
from loopwright.repository.jobs import Job, judge

MOST_WORKERS = 60
"""As many as every system can wait for."""

Ended = BrokenProcessPool
"""Raised where a process was ended before its work was done."""


def hired(workers: int) -> ProcessPoolExecutor:
    """A pool of so many processes."""
    methods = multiprocessing.get_all_start_methods()
    start = "forkserver" if "forkserver" in methods else "spawn"
    context = multiprocessing.get_context(start)
    if start == "forkserver":
        # The server brings everything in once, and each process begins as a copy of it.
        context.set_forkserver_preload([__name__, "loopwright.repository.warm"])
    return ProcessPoolExecutor(min(workers, MOST_WORKERS), context, _begin)


def _begin() -> None:
    """Begin in a process of its own."""
    # Whoever started us is told of Ctrl-C as well, and says when to stop.
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    parent = multiprocessing.parent_process()
    if parent is not None:
        threading.Thread(target=_end_with, args=(parent.sentinel,), daemon=True).start()
    gc.freeze()
    # A check leaves next to nothing that only a collection finds.
    gc.set_threshold(100_000, 20, 100)


def _end_with(sentinel: int) -> None:
    """End when the process that started this one has ended."""
    connection.wait([sentinel])
    os._exit(1)


def judge_all(jobs: list[Job], detail: bool) -> list[Verdict]:
    """The verdicts on some files."""
    return [judge(job, detail=detail) for job in jobs]
