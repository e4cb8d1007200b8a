"""Many checks: what is known from the cache is taken from there, the rest is worked, by several
processes where there is enough of it.

    for verdict in verdicts(["a.crochet", "b.crochet"], How(workers=2, cached=True)): ...

Verdicts come in the order of the files, whatever the number of processes, and no more than a few
hundred are held at a time. Threads would not help: working rows is what takes the time.
"""

from __future__ import annotations

import os
from collections import deque
from collections.abc import Iterator
from typing import TYPE_CHECKING

from loopwright import Verdict
from loopwright.frozen import Frozen, replace
from loopwright.repository.files import CannotLook, CannotRead
from loopwright.repository.jobs import Desk, Job, judge

if TYPE_CHECKING:
    from concurrent.futures import Future, ProcessPoolExecutor

    from loopwright.repository.cache import Cache

PAYS = 100_000
"""Characters of text to check from which a second process pays: starting it takes as long as
checking about half of them. Measured by ``python -m tests.benchmarks.scale``."""

CACHE_PAYS = 8
"""Files from which the cache pays: opening it takes as long as checking one or two."""

CHUNK = 16_000
"""Characters handed to a process at a time: enough that handing over costs nothing beside it."""

AHEAD = 3
"""Chunks that wait for each process, so that none stands idle."""

MOST_HELD = 500
"""Verdicts that are held back because one before them is not there yet."""


ENDED = (
    "a process that checked files was ended from outside, perhaps for want of memory."
    " Run it again, or with --workers 1."
)


class How(Frozen):
    """How to check: with ``detail``, in so many ``workers`` (0: as many as there are processors
    for us), with what is ``cached``."""

    detail: bool = False
    workers: int = 0
    cached: bool = True


PLAINLY = How(workers=1, cached=False)


def verdicts(
    paths: list[str], how: How = PLAINLY, unread: list[str] | None = None
) -> Iterator[Verdict]:
    """The verdicts on files, in their order. What is wrong with those that cannot be read is put
    into ``unread`` and they are passed over; where that is None, as with all else that stands
    against looking, ``CannotLook`` is raised."""
    cache = None
    if how.cached and len(paths) >= CACHE_PAYS:
        from loopwright.repository.cache import opened

        cache = opened()
    desk = Desk()
    line = _Line(how, cache)
    try:
        for path in paths:
            try:
                job = desk.job(path)
            except CannotRead as error:
                if unread is None:
                    raise
                unread.append(str(error))
                continue
            line.take(job)
            yield from line.ready()
        yield from line.rest()
    finally:
        line.close()


def processors() -> int:
    """How many processors this process may use."""
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1


class _Slot:
    """One file's place in the line: its verdict, or where that will come from."""

    __slots__ = ("at", "future", "job", "key", "verdict")

    def __init__(self, job: Job, key: bytes) -> None:
        self.job: Job | None = job
        self.key = key
        self.verdict: Verdict | None = None
        self.future: Future[list[Verdict]] | None = None
        self.at = 0


class _Line:
    """Files in order, each known, waiting to be worked, or being worked."""

    def __init__(self, how: How, cache: Cache | None) -> None:
        self.detail = how.detail
        self.workers = how.workers or processors()
        self.cache = cache
        self.slots: deque[_Slot] = deque()
        self.waiting: list[_Slot] = []
        self.size = 0
        self.chunks: deque[Future[list[Verdict]]] = deque()
        self.pool: ProcessPoolExecutor | None = None

    def take(self, job: Job) -> None:
        """Put a file into the line."""
        key = self.cache.key(job, detail=self.detail) if self.cache is not None else b""
        slot = _Slot(job, key)
        self.slots.append(slot)
        known = self.cache.get(key) if self.cache is not None else None
        if known is not None:
            slot.verdict = replace(known, name=job.name)
        elif self.workers == 1:
            self._work(slot)
        else:
            self.waiting.append(slot)
            self.size += len(job.text)
            if self.pool is None and self.size >= PAYS:
                self._hire()
            elif self.pool is not None and self.size >= CHUNK:
                self._hand_out(self.waiting)

    def ready(self) -> Iterator[Verdict]:
        """The verdicts that are there, as far as none before them is missing."""
        while self.slots:
            first = self.slots[0]
            if first.verdict is None:
                if first.future is None:
                    if len(self.slots) <= MOST_HELD:
                        return
                    self._hand_out(self.waiting) if self.pool is not None else self._work(first)
                elif not first.future.done() and not self._crowded():
                    return
            yield self._next()

    def _crowded(self) -> bool:
        """Whether enough waits for the processes. Asked anew after each verdict, so that they are
        handed more before they have come to the end of what they have."""
        while self.chunks and self.chunks[0].done():
            self.chunks.popleft()
        return len(self.chunks) > self.workers * AHEAD or len(self.slots) > MOST_HELD

    def rest(self) -> Iterator[Verdict]:
        """The remaining verdicts, waited for."""
        if self.pool is not None:
            self._hand_out(self.waiting)
        while self.slots:
            yield self._next()

    def _next(self) -> Verdict:
        slot = self.slots.popleft()
        if slot.verdict is None:
            if slot.future is None:
                self._work(slot)
            else:
                self._fetch(slot)
        assert slot.verdict is not None
        return slot.verdict

    # ------------------------------------------------------------------ working

    def _work(self, slot: _Slot) -> None:
        """Check a file in this process."""
        if slot in self.waiting:
            self.waiting.remove(slot)
        assert slot.job is not None
        self._have(slot, judge(slot.job, detail=self.detail))

    def _have(self, slot: _Slot, verdict: Verdict) -> None:
        slot.verdict = verdict
        slot.job = None
        if self.cache is not None:
            self.cache.put(slot.key, verdict)

    def _hire(self) -> None:
        from loopwright.repository.workers import hired

        self.pool = hired(self.workers)
        waiting, chunk, size = self.waiting, [], 0
        for slot in list(waiting):
            assert slot.job is not None
            chunk.append(slot)
            size += len(slot.job.text)
            if size >= CHUNK:
                self._hand_out(chunk)
                chunk, size = [], 0
        self.waiting = chunk
        self.size = size

    def _hand_out(self, chunk: list[_Slot]) -> None:
        """Give some files to the processes."""
        from loopwright.repository.workers import Ended, judge_all

        if not chunk:
            return
        assert self.pool is not None
        jobs = [slot.job for slot in chunk if slot.job is not None]
        try:
            future = self.pool.submit(judge_all, jobs, self.detail)
        except Ended:
            raise CannotLook(ENDED) from None
        for at, slot in enumerate(chunk):
            slot.future, slot.at, slot.job = future, at, None
        self.chunks.append(future)
        if chunk is self.waiting:
            self.waiting, self.size = [], 0

    def _fetch(self, slot: _Slot) -> None:
        from loopwright.repository.workers import Ended

        assert slot.future is not None
        try:
            verdict = slot.future.result()[slot.at]
        except Ended:
            raise CannotLook(ENDED) from None
        slot.future = None
        self._have(slot, verdict)

    def close(self) -> None:
        """Let the processes go and keep what was found."""
        try:
            if self.pool is not None:
                self.pool.shutdown(cancel_futures=True)
        finally:
            if self.cache is not None:
                self.cache.close()
